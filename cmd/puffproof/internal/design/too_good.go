package design

import (
	"cmp"
	"fmt"
	"slices"

	"puffproof/limits/control"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
)

// What no part is better than; what is stated so counts as not stated (all from memory, common practice, no source). The gauge's own is
// benchmark.FinestDial.
const (
	leastCreep    = 0.01   // of a regulator's set pressure: lock-up is some hundredths of it
	leastReaction = 10e-3  // of a switch [s]: a relay takes as long to drop, and then the motor runs down
	leastLift     = 0.01   // of a relief valve's set pressure: safety valves reach full flow 3 % above it at the least, most 10 %
	leastCylinder = 20e5   // before the regulator of a full cylinder [Pa gauge]: 150 to 300 bar as a rule
	leastMain     = 4e5    // before that of a shop's main [Pa gauge]: 6 to 10 bar as a rule
	leastSeat     = 0.5e-3 // of a regulator [m]: seats have 1 to 8 mm; finer holes clog with the dirt of a line

	leastPeak = measure.StrokePeak / 2 // of a hand pump's stroke, times its mean [-]: two strokes in turn both deliver, each half a sine

	// The most drag that anything thrown has, of its frontal area [-]: 1.1 to 1.2 a flat disc, 1.4 a hollow half ball with its open side
	// to the wind (Hoerner, Fluid-Dynamic Drag, chapter 3, from memory). More draws the landing zone in.
	mostDrag = 1.5
)

// whatToRead is what to do about a figure that is mostly another one's, by its key; of others it is measured.
var whatToRead = map[string]string{"supply.source_pressure": "A regulator has two gauges, and the one towards the launcher shows " +
	"dead_head: read the one on the source's side, full.",
	"supply.regulator_bore": "Its maker's sheet has the bore of its seat."}

// filledLow says how a cylinder that is filled to less than those of a supply is stated, where the one of this supply is told to be:
// as a vessel that comes filled, which needs no such guess.
func (s *section) filledLow(sp *launcher.SupplySpec) {
	to := s.band("source_pressure")
	i := slices.IndexFunc(s.r.tooGood, func(g launcher.TooGood) bool { return g.Key == to.Key })
	if i < 0 || to.High > mostWorking || to.Low <= sp.DeadHead.High {
		return
	}
	s.r.tooGood[i].Do += fmt.Sprintf(" If it is never filled further, write in the place of [supply]: [volumes.cylinder] filled_to = %q, "+
		"with its volume and rating; and [paths.regulator] from = \"cylinder\", to = %q, kind = \"regulator\", its orifice, "+
		"and as set_pressure what stands as dead_head.", s.tab.Get("source_pressure").Value.Show(), sp.Feeds)
}

// orReal is a quantity as of or, whose assumed band counts too where what is stated reaches no further than what no part is better than.
func (s *section) orReal(name string, least float64, unit finding.Unit, instead launcher.Band) launcher.Band {
	b := s.band(name)
	top := b.High
	if !s.stated[name] { // its width is a default, and no word of the builder's
		top = b.Nominal
	}
	switch {
	case !b.Set:
		return instead
	case top < least:
		return s.tooGood(b, unit, instead)
	}
	return b
}

// drag is what is stated of the drag, not set where nothing thrown has so much.
func (s *section) drag() launcher.Band {
	b := s.band("drag_coefficient")
	least := b.Low
	if !s.stated["drag_coefficient"] {
		least = b.Nominal
	}
	if !b.Set || least <= mostDrag {
		return b
	}
	return s.notStated(b.Key, finding.Say("%.3g", b.Nominal), finding.Words(measure.UnstatedDrag()), launcher.Band{})
}

// wire is what the thinnest wire behind a fuse bears [A]; 0: not stated, or more than any such wire.
func (s *section) wire() float64 {
	b := s.band("wire_rating")
	if b.Low > control.MostWire {
		b = s.notStated(b.Key, finding.Say("%s", finding.Ampere(b.Nominal)), finding.Words("nothing, it is not known"), launcher.Band{})
	}
	return b.Low
}

// tooGood is notStated of a figure with a unit.
func (s *section) tooGood(b launcher.Band, unit finding.Unit, instead launcher.Band) launcher.Band {
	return s.notStated(b.Key, finding.Say("%s", unit.Of(b.Nominal, 3)),
		finding.Say("%s", unit.Of(instead.Low, 3).To(unit.Of(instead.High, 3))), instead)
}

// notStated keeps in mind that what a key says counts as not stated, and what counts, and gives the band that does.
func (s *section) notStated(key string, says, counts finding.Text, instead launcher.Band) launcher.Band {
	s.r.tooGood = append(s.r.tooGood, launcher.TooGood{Key: key, Stated: says, Counts: counts, Do: cmp.Or(whatToRead[key], "Measure it.")})
	s.r.narrow = slices.DeleteFunc(s.r.narrow, func(n launcher.Narrow) bool { return n.Key == key })
	return instead
}
