package doubt

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// C of an ideal nozzle is a fifth of its section, 0.1992 L/(s bar) of 1 mm2: sqrt(1.4/(R T0)) (2/2.4)^3 over 1.185 kg/m3, with R 287.05
// J/(kg K) and the reference atmosphere of ISO 8778, 293.15 K. A tube of 14 mm has 153.9 mm2, a twelfth of it 12.83 mm2
// or C 2.554 L/(s bar); a barrel of 41 mm has 1320 mm2, a hundredth of it C 2.629 L/(s bar); a hose of 8 mm has
// 50.27 mm2, a twelfth of it C 0.8341 L/(s bar).
func TestAFlowThatNoFiringValveHas(t *testing.T) {
	const perBar = 1e-8 // [m3/(s Pa)] of 1 L/(s bar)
	for _, c := range []struct {
		name   string
		fit    pneumatics.Fit
		hose   float64 // [m]
		stated float64 // C [L/(s bar)]
		top    float64 // that counts
	}{
		{"a tube's valve", pneumatics.OverTube, 0, 2.58, 2.58},
		{"less than any for the tube", pneumatics.OverTube, 0, 2.53, 30.65},
		{"a barrel's valve", pneumatics.InBore, 0, 2.65, 2.65},
		{"less than any for the barrel", pneumatics.InBore, 0, 2.60, 262.9},
		{"a valve for its hose", pneumatics.InBore, 0.008, 0.85, 0.85},
		{"less than any for the hose", pneumatics.InBore, 0.008, 0.82, 10.01},
	} {
		l := &launcher.Launcher{Volumes: []launcher.VolumeSpec{{Name: "dose"}}}
		l.Barrel = launcher.BarrelSpec{Fit: c.fit, Bore: launcher.Exact("", 0.041), TubeInnerDiameter: launcher.Exact("", 0.014)}
		p := launcher.PathSpec{Name: "fire", From: "dose", To: "barrel", Kind: pneumatics.Valve, OpenIn: pneumatics.SetOf(pneumatics.Firing)}
		p.Flow = launcher.FlowSpec{Form: launcher.SonicConductance, Value: launcher.Exact("", c.stated*perBar),
			CriticalRatio: launcher.Exact("", 0.35)}
		if c.hose > 0 {
			p.Hose = &launcher.HoseSpec{Bore: launcher.Exact("", c.hose)}
		}
		l.Paths = []launcher.PathSpec{p}
		for range 2 {
			Flow(l)
			got := &l.Paths[0]
			assert.InEpsilon(t, c.top, got.Flow.Value.High/perBar, 2e-3, "%s: digits", c.name)
			assert.InEpsilon(t, c.stated, got.Flow.Value.Low/perBar, 1e-12, c.name)
			_, _, other := OtherFlow(l, 0)
			assert.Equal(t, c.top != c.stated, other, "%s: told", c.name)
			assert.Equal(t, other, got.FlowSaid.Doubted(), c.name)
		}
	}
}

// What is no firing valve is not doubted: one that is shut while firing, one to the atmosphere, a drilled hole; one before a chamber that
// is always open to the barrel is. Cv, Kv and a seat are as C is: Cv 0.05 passes 0.1945 to 0.208 L/(s bar) (IEC 60534-2-1, xT 0.7 and 0.8).
func TestWhichFlowsAreDoubted(t *testing.T) {
	fire := func(change func(*launcher.PathSpec)) *launcher.Launcher {
		l := &launcher.Launcher{Volumes: []launcher.VolumeSpec{{Name: "dose"}, {Name: "chamber"}}}
		l.Barrel = launcher.BarrelSpec{Fit: pneumatics.InBore, Bore: launcher.Exact("", 0.041)}
		p := launcher.PathSpec{Name: "fire", From: "dose", To: "barrel", Kind: pneumatics.Valve, OpenIn: pneumatics.SetOf(pneumatics.Firing)}
		p.Flow = launcher.FlowSpec{Form: launcher.FlowCv, Value: launcher.Exact("", 0.05), CriticalRatio: launcher.Exact("", 0.35),
			PressureDropRatio: launcher.Band{Set: true, Low: 0.5, Nominal: 0.7, High: 0.8}}
		change(&p)
		l.Paths = []launcher.PathSpec{p, {Name: "neck", From: "chamber", To: "barrel", Kind: pneumatics.Orifice}}
		return l
	}
	seat := func(p *launcher.PathSpec) {
		p.Flow = launcher.FlowSpec{Form: launcher.SeatBore, Value: launcher.Exact("", 1e-3), DischargeCoefficient: launcher.Band{Set: true,
			Low: 0.25, Nominal: 0.5, High: 1}}
	}
	for name, c := range map[string]struct {
		change func(*launcher.PathSpec)
		top    float64 // [mm2], of an ideal nozzle; 0: not doubted
	}{
		"Cv":   {func(*launcher.PathSpec) {}, 1320},
		"Kv":   {func(p *launcher.PathSpec) { p.Flow.Form = launcher.FlowKv }, 1320},
		"seat": {seat, 1320}, "by hand": {func(p *launcher.PathSpec) { p.Kind = pneumatics.HandValve }, 1320},
		"into a chamber open to the barrel": {func(p *launcher.PathSpec) { p.To = "chamber" }, 1320},
		"shut while firing":                 {func(p *launcher.PathSpec) { p.OpenIn = pneumatics.SetOf(pneumatics.Charging) }, 0},
		"to the atmosphere":                 {func(p *launcher.PathSpec) { p.From, p.To = "barrel", "atmosphere" }, 0},
		"a drilled hole": {func(p *launcher.PathSpec) {
			seat(p)
			p.Flow.Form = launcher.OrificeBore
		}, 0},
	} {
		l := fire(c.change)
		Flow(l)
		if assert.Equal(t, c.top > 0, l.Paths[0].FlowSaid.Doubted(), name); c.top > 0 {
			f := &l.Paths[0].Flow
			assert.InEpsilon(t, c.top, 1e6*passes(l, f, f.Value.High), 1e-3, "%s: digits", name)
			assert.Less(t, f.Value.Low, f.Value.High/math.Sqrt(100), name)
		}
	}
}
