package launcher_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
)

func circuitOf(l *launcher.Launcher) *pneumatics.Circuit {
	c := new(pneumatics.Circuit)
	l.Fill(c)
	return c
}

// In the bore: A = pi bore^2/4, gap = pi (bore^2 - diameter^2)/4, worked by hand:
// pi/4 (41^2 - 40^2) = pi/4 81 = 63.617 mm2.
func TestGeometryInBore(t *testing.T) {
	ball := func(d float64) *launcher.Launcher {
		return sample.Plain(func(l *launcher.Launcher) { l.Projectile.Diameter = launcher.Exact("", d*sample.Millimetres) })
	}
	b := circuitOf(ball(40)).Barrel
	assert.InEpsilon(t, 1320.2543e-6, b.Area, 1e-7, "pi/4 41^2 to the eight digits printed")
	assert.InEpsilon(t, 63.617251e-6, b.LeakArea, 1e-7, "pi/4 81 to the eight digits printed")
	assert.InEpsilon(t, b.Area, b.ExitArea, sample.Rounding)
	assert.Equal(t, 0.3, b.Travel)
	assert.Equal(t, 1.0, b.JetFactor)
	assert.Zero(t, circuitOf(ball(41)).Barrel.LeakArea, "a ball as wide as the bore seals")
	assert.Zero(t, circuitOf(ball(42)).Barrel.LeakArea, "so does a wider one: no gap below zero")
}

// Over the tube the gas acts on the rocket's inside; the gap is between that and
// the tube's outside, the jet comes from the tube's inside, and the rocket leaves
// after its engagement. pi/4 18.3^2 = 263.022 mm2, pi/4 (18.3^2 -
// 18^2) = 8.5529 mm2, pi/4 14^2 = 153.938 mm2, by hand.
func TestGeometryOverTube(t *testing.T) {
	b := circuitOf(sample.Plain(sample.OverTube)).Barrel
	assert.InEpsilon(t, 263.022e-6, b.Area, 1e-5, "digits printed")
	assert.InEpsilon(t, 8.5529e-6, b.LeakArea, 1e-4, "digits printed")
	assert.InEpsilon(t, 153.938e-6, b.ExitArea, 1e-5, "digits printed")
	assert.Equal(t, 60*sample.Millimetres, b.Travel)
	assert.Equal(t, 2.0, b.JetFactor, "a hollow rocket turns the jet")
	assert.Equal(t, 40*sample.Millilitres, b.DeadVolume)
}

func TestCupTurnsTheJet(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) { l.Projectile.Cup = launcher.Yes })
	assert.Equal(t, 2.0, circuitOf(l).Barrel.JetFactor)
}

// A hose of 10 mm and 0.6 m holds 47 mL (by hand), on its side of the path.
func TestHoseVolumeIsOnItsSide(t *testing.T) {
	hose := func(side launcher.HoseSide, to string) *pneumatics.Circuit {
		return circuitOf(sample.Plain(func(l *launcher.Launcher) {
			l.Paths[0].To = to
			l.Paths[0].Hose = &launcher.HoseSpec{Bore: launcher.Exact("", 10*sample.Millimetres), Length: launcher.Exact("", 0.6), Side: side}
		}))
	}
	const held = 47.12389e-6 // pi/4 1 cm2 60 cm = 47.12 mL
	c := hose(launcher.HoseBefore, "barrel")
	assert.InEpsilon(t, 2e-3+held, c.Volumes[0].Volume, 1e-9)
	assert.Equal(t, 40*sample.Millilitres, c.Barrel.DeadVolume)
	c = hose(launcher.HoseAfter, "barrel")
	assert.Equal(t, 2e-3, c.Volumes[0].Volume)
	assert.InEpsilon(t, 40e-6+held, c.Barrel.DeadVolume, 1e-7)
	c = hose(launcher.HoseAfter, "atmosphere")
	assert.Equal(t, 2e-3, c.Volumes[0].Volume, "a hose into the open holds no charge")
	assert.Equal(t, 40*sample.Millilitres, c.Barrel.DeadVolume)
}

// A hose is the path itself or stands in series with a part; its band scales it.
func TestHoseKinds(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) {
		l.Paths[0].Hose = &launcher.HoseSpec{Bore: launcher.Exact("", 8*sample.Millimetres), Length: launcher.Exact("", 1),
			Conductance: launcher.Exact("", 0.9)}
	})
	want, _ := flow.HoseFlow(8*sample.Millimetres, 1).Scaled(0.9).Conductance(flow.Air())
	p := circuitOf(l).Paths[0]
	got, _ := p.Hose.Conductance(flow.Air())
	assert.InEpsilon(t, want, got, sample.Rounding)
	assert.False(t, p.Flow.IsZero(), "the valve is still there")
	l.Paths[0].Kind, l.Paths[0].Flow = pneumatics.Hose, launcher.FlowSpec{}
	p = circuitOf(l).Paths[0]
	got, _ = p.Flow.Conductance(flow.Air())
	assert.InEpsilon(t, want, got, sample.Rounding)
	assert.True(t, p.Hose.IsZero(), "it is not counted twice")
}

// The lowest elevation decides, since there the weight helps most.
func TestPitchIsTheLowestElevation(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) { l.Mount.ElevationMin = sample.Between("mount.elevation_min", -0.2, 0.1) })
	assert.InEpsilon(t, math.Sin(-0.2), circuitOf(l).Barrel.SinPitch, sample.Rounding)
	l = sample.Plain(func(l *launcher.Launcher) {
		l.Event = &launcher.EventSpec{Elevation: sample.Between("event.elevation", 0.3, 0.5)}
	})
	assert.InEpsilon(t, math.Sin(0.3), circuitOf(l).Barrel.SinPitch, sample.Rounding)
	assert.Zero(t, circuitOf(sample.Plain()).Barrel.SinPitch)
}

// The flow forms against sources outside: 3.890e-8 m3/(s Pa) per Cv at xT 0.7
// (IEC 60534-2-1, choked gas), Kv = Cv/1.156 (IEC 60534-1), an ideal nozzle
// chokes at 0.0404184 p A/sqrt(T) for air (NACA Report 1135).
func TestFlowForms(t *testing.T) {
	air := flow.Air()
	c, b := fillFlow(sample.Cv(2)).Conductance(air)
	assert.InEpsilon(t, 2*3.890e-8, c, 2e-4, "four digits printed")
	assert.Equal(t, 0.35, b)
	kv := sample.Cv(2 / 1.156)
	kv.Form = launcher.FlowKv
	got, _ := fillFlow(kv).Conductance(air)
	assert.InEpsilon(t, c, got, sample.Rounding)
	got, _ = fillFlow(launcher.FlowSpec{Form: launcher.SonicConductance, Value: launcher.Exact("", 3e-8),
		CriticalRatio: launcher.Exact("", 0.3)}).Conductance(air)
	assert.Equal(t, 3e-8, got)
	area := math.Pi / 4 * 25e-6
	want := 0.8 * 0.0404184 * 5e5 * area / math.Sqrt(293.15)
	assert.InEpsilon(t, want, fillFlow(sample.Orifice(5*sample.Millimetres, 0.8)).MassFlow(air, 5e5, 293.15, 1e5, 293.15), 1e-4,
		"the constant has six digits; gas constant and gamma of the tables differ in the fifth")
	seat := sample.Orifice(5*sample.Millimetres, 0.8)
	seat.Form = launcher.SeatBore
	assert.Equal(t, fillFlow(sample.Orifice(5*sample.Millimetres, 0.8)), fillFlow(seat))
	assert.True(t, fillFlow(launcher.FlowSpec{}).IsZero())
	// The nominal flow is that from 7 to 6 bar absolute.
	r := fillFlow(launcher.FlowSpec{Form: launcher.NominalFlow, Value: launcher.Exact("", 500*sample.LitreMinute),
		CriticalRatio: launcher.Exact("", 0.3)})
	free := r.MassFlow(air, 7e5, 293.15, 6e5, 293.15) * air.R * 293.15 / 1e5
	assert.InEpsilon(t, 500*sample.LitreMinute, free, 5e-3, "ISO 8778 air is moist: its density is 0.3 % below the dry gas's")
}

func fillFlow(f launcher.FlowSpec) flow.Restriction { return f.Restriction() }

func TestUnknownNamePanics(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) { l.Paths[0].From = "nowhere" })
	assert.PanicsWithValue(t, "limits: no volume nowhere", func() { circuitOf(l) })
	for _, name := range []string{"tank", "barrel", "atmosphere"} {
		assert.Equal(t, name, l.NodeName(l.Node(name)))
	}
}
