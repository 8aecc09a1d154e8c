package dial

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// beside is a tank with air in it, and a gauge on a vessel beside it, joined by a path as it is made.
func beside(change func(*launcher.Launcher, *launcher.PathSpec)) *launcher.Launcher {
	return sample.Plain(func(l *launcher.Launcher) {
		side := l.Volumes[0]
		side.Name, side.Volume = "side", launcher.Exact("", 1e-5)
		l.Volumes = append(l.Volumes, side)
		l.Gauges = []launcher.GaugeSpec{{On: "side", Range: launcher.Exact("", sample.Bars), Class: 1.6}}
		p := launcher.PathSpec{Name: "way", From: "tank", To: "side", Kind: pneumatics.Orifice, Flow: sample.Orifice(2e-3, 0.75)}
		change(l, &p)
		l.Paths = append(l.Paths, p)
	})
}

// bleed is a hole of the side vessel to the open.
func bleed(bore float64) func(*launcher.Launcher, *launcher.PathSpec) {
	return func(l *launcher.Launcher, _ *launcher.PathSpec) {
		l.Paths = append(l.Paths, launcher.PathSpec{Name: "bleed", From: "side", To: "atmosphere", Kind: pneumatics.Orifice,
			Flow: sample.Orifice(bore, 0.75)})
	}
}

// A gauge shows a volume only through what is open at that moment and passes both ways (what joins two vessels is plain sense, no source).
// Beside a hole of its own it reads p (A1/A2)^2/(1 + (A1/A2)^2) of a small pressure p, by the orifice equation with the same mass flow
// through both: 99 % at ten to one, a half at one to one.
func TestWhatAGaugeShows(t *testing.T) {
	kind := func(k pneumatics.PathKind) func(*launcher.Launcher, *launcher.PathSpec) {
		return func(_ *launcher.Launcher, p *launcher.PathSpec) { p.Kind = k }
	}
	valve := func(unpowered pneumatics.Position, in ...pneumatics.State) func(*launcher.Launcher, *launcher.PathSpec) {
		return func(_ *launcher.Launcher, p *launcher.PathSpec) {
			p.Kind, p.OpenIn, p.Unpowered = pneumatics.Valve, pneumatics.SetOf(in...), unpowered
		}
	}
	all := []Moment{Filling, Ready, SwitchedOff, PlugPulled, HandsNear}
	for name, c := range map[string]struct {
		change func(*launcher.Launcher, *launcher.PathSpec)
		shown  []Moment
	}{
		"an open hole between":                       {kind(pneumatics.Orifice), all},
		"a check valve towards the gauge":            {kind(pneumatics.Check), nil},
		"a regulator":                                {kind(pneumatics.Regulator), nil},
		"a relief valve":                             {kind(pneumatics.Relief), nil},
		"a valve open while it fills":                {valve(pneumatics.Closed, pneumatics.Charging), []Moment{Filling}},
		"a valve open while it fills and when armed": {valve(pneumatics.Closed, pneumatics.Charging, pneumatics.Armed), []Moment{Filling, Ready}},
		"a valve that opens without current":         {valve(pneumatics.Open, pneumatics.Off), []Moment{SwitchedOff, PlugPulled}},
		"a valve that stays as it was armed":         {valve(pneumatics.Stays, pneumatics.Armed), []Moment{Ready, PlugPulled}},
		"a piloted valve": {func(l *launcher.Launcher, p *launcher.PathSpec) {
			valve(pneumatics.Open, pneumatics.States()...)(l, p)
			p.Piloted = true
		}, nil},
		"through the atmosphere": {func(l *launcher.Launcher, p *launcher.PathSpec) {
			bleed(2e-3)(l, p)
			p.To = "atmosphere"
		}, nil},
		"a hole as wide as the way between":             {bleed(2e-3), nil},
		"a hole of an eleventh":                         {bleed(2e-3 / 3.32), all}, // 3.32^2 is 11.02
		"a hole of a ninth":                             {bleed(2e-3 / 3), nil},
		"a dump of the side, open off":                  {dump(pneumatics.Off), []Moment{Filling, Ready, PlugPulled, HandsNear}},
		"a check valve out of the side into the barrel": {leak("barrel"), nil},
	} {
		l := beside(c.change)
		for i, m := range all {
			want := false
			for _, s := range c.shown {
				want = want || s == m
			}
			assert.Equal(t, want, Showing(l, "tank", m) != nil, "%s, moment %d", name, i)
			assert.Equal(t, "side", Showing(l, "side", m).On, "its own, whatever else")
		}
		assert.Equal(t, len(c.shown) > 0, Ever(l, "tank"), name)
	}
	assert.Nil(t, Showing(beside(kind(pneumatics.Orifice)), "barrel", Ready), "what moves is not told by a gauge elsewhere")
	none := beside(kind(pneumatics.Orifice))
	none.Gauges = nil
	assert.Equal(t, []string{"tank"}, Unseen(none, []string{"tank"}, Ready))
}

// dump is a valve of the side vessel to the open, without current shut.
func dump(in ...pneumatics.State) func(*launcher.Launcher, *launcher.PathSpec) {
	return func(l *launcher.Launcher, _ *launcher.PathSpec) {
		l.Paths = append(l.Paths, launcher.PathSpec{Name: "dump", From: "side", To: "atmosphere", Kind: pneumatics.Valve,
			OpenIn: pneumatics.SetOf(in...), Unpowered: pneumatics.Closed, Flow: sample.Orifice(2e-3, 0.75)})
	}
}

// leak is a check valve out of the side vessel.
func leak(to string) func(*launcher.Launcher, *launcher.PathSpec) {
	return func(l *launcher.Launcher, _ *launcher.PathSpec) {
		l.Paths = append(l.Paths, launcher.PathSpec{Name: "leak", From: "side", To: to, Kind: pneumatics.Check,
			Flow: sample.Orifice(2e-3, 0.75)})
	}
}
