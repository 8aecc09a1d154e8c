package doubt_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/doubt"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// A dose that no air ever gets into shoots nothing, and every limit would hold of it. What is reached follows from the circuit, drawn by
// hand: the supply feeds the tank, the dose stands between tank and barrel.
func TestADoseThatNothingFills(t *testing.T) {
	valve := sample.ValveIn
	hand := func(p launcher.PathSpec) launcher.PathSpec { p.Kind = pneumatics.HandValve; return p }
	between := func(from, to string, p launcher.PathSpec) launcher.PathSpec { p.From, p.To = from, to; return p }
	check := launcher.PathSpec{Kind: pneumatics.Check}
	for _, c := range []struct {
		name  string
		feeds []launcher.PathSpec
		why   string // "-": it is filled
	}{
		{"a valve while charging", []launcher.PathSpec{valve(pneumatics.Charging)}, "-"},
		{"a valve while loading", []launcher.PathSpec{valve(pneumatics.Loading)}, "-"},
		{"a valve while firing", []launcher.PathSpec{valve(pneumatics.Firing)}, "-"},
		{"a valve of no state", []launcher.PathSpec{valve()}, "paths.feed has open_in = []: name the states in which it is open"},
		{"a tap of no state", []launcher.PathSpec{hand(valve())},
			"paths.feed has open_in = []: name the states in which somebody turns it open"},
		{"a tap that is turned", []launcher.PathSpec{hand(valve(pneumatics.Charging))}, "-"},
		{"a check valve", []launcher.PathSpec{check}, "-"},
		{"a check valve the wrong way", []launcher.PathSpec{between("dose", "tank", check)},
			"paths.feed passes air only from dose to tank: are its ends mixed up?"},
		{"a regulator the wrong way", []launcher.PathSpec{between("dose", "tank", sample.Regulator(3e4, 0))},
			"paths.feed passes air only from dose to tank: are its ends mixed up?"},
		{"a hose stated from its other end", []launcher.PathSpec{between("dose", "tank", launcher.PathSpec{Kind: pneumatics.Orifice})}, "-"},
		{"a relief valve", []launcher.PathSpec{{Kind: pneumatics.Relief}}, ""},
		{"no path", nil, ""},
		{"a vent of its own alone", []launcher.PathSpec{between("dose", "atmosphere", launcher.PathSpec{Kind: pneumatics.Orifice})}, ""},
		{"an intake out of the open", []launcher.PathSpec{between("atmosphere", "dose", check)}, "-"},
		{"the barrel of another volume alone", []launcher.PathSpec{between("tank", "barrel", valve(pneumatics.Firing))}, ""},
		{"a volume that takes air out of the barrel", []launcher.PathSpec{between("tank", "barrel", valve(pneumatics.Firing)),
			between("barrel", "dose", launcher.PathSpec{Kind: pneumatics.Orifice})}, "-"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var want []doubt.NeverFilled
			if c.why != "-" {
				want = []doubt.NeverFilled{{Name: "dose", Why: c.why}}
			}
			assert.Equal(t, want, doubt.Unfed(sample.TwoTanks(c.feeds...)))
		})
	}
}

// Tank, middle and dose in a row are filled in different states; what comes filled, or a switch senses, is a source as a supply is.
func TestFilledInAChainOfStates(t *testing.T) {
	valve := sample.ValveIn
	l := sample.TwoTanks()
	l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "middle", Volume: launcher.Exact("", 1e-4)})
	first, second := valve(pneumatics.Charging), valve(pneumatics.Loading)
	first.Name, first.From, first.To = "first", "tank", "middle"
	second.Name, second.From, second.To = "second", "middle", "dose"
	l.Paths = append(l.Paths, first, second)
	assert.Empty(t, doubt.Unfed(l))
	l.Supply.Feeds = "middle"
	assert.Empty(t, doubt.Unfed(l))
	last := &l.Paths[len(l.Paths)-1]
	last.OpenIn = 0
	assert.NotEmpty(t, doubt.Unfed(l))
	l.Supply = nil
	assert.NotEmpty(t, doubt.Unfed(l), "the switch tells that the tank is filled")
	l.Switch = nil
	assert.Empty(t, doubt.Unfed(l), "nothing tells what is filled at all: the energies are unknown")
	l.Volumes[0].FilledTo = launcher.Exact("", 3e4)
	assert.NotEmpty(t, doubt.Unfed(l))
	last.OpenIn = pneumatics.SetOf(pneumatics.Armed)
	assert.Empty(t, doubt.Unfed(l))
}
