package finding

import (
	"math"
	"slices"
	"strings"
)

// Figure is a number with its unit in an answer of the checklist, in SI.
type Figure struct {
	Value float64
	Unit  Quantity
}

// Expected is the figure that an answer has to bring; Also is one that it may bring
// besides. An answer without the figure, or with one outside, leaves its item open.
type Expected struct {
	Unit      Quantity
	Low, High float64 // SI; infinite: no bound on that side
	Least     int     // how many such figures are asked for; 0: one
	Also      *Expected
	With      *Expected // which it has to bring too, one for each of the first; nil: none
	States    []string  // which the words beside the figures name; nil: none
	Reach     float64   // the largest of the figures is at least this; 0: it may be any
	Where     []string  // phrases beside which Nearer is asked in the place of Reach; nil: none
	Nearer    float64   // see Where
	Times     int       // how many readings were taken: as many figures, or the count in words beside the ends; 0: Least tells
	Spans     float64   // the times beside the figures lie so far apart at least [s]; 0: not asked
	Work      float64   // half of each figure times that of With is at least this, as of a spring; 0: whatever it is
	Wired     float64   // of fuses [A]: above this each needs the cross-section of its wire beside it, which bounds it; 0: none does
}

// FigureBetween expects a figure between two bounds.
func FigureBetween(unit Quantity, low, high float64) *Expected {
	return &Expected{Unit: unit, Low: low, High: high}
}

// figureSlack is how far outside a figure may lie by rounding alone, relative to the
// bound (a reading is written down to three digits).
const figureSlack = 0.005

func (e *Expected) holds(v float64) bool {
	return v >= e.Low-figureSlack*math.Abs(e.Low) && v <= e.High+figureSlack*math.Abs(e.High)
}

// Judge holds the figures of an answer against what is expected.
func (e *Expected) Judge(c *Confirmation) (Outcome, Text) {
	found := e.in(c)
	for one := e; one != nil; one = one.Also {
		if slices.ContainsFunc(one.in(c), func(v float64) bool { return !one.holds(v) }) {
			return Failing, Say("its answer, %q, is not what is expected", c.said())
		}
	}
	switch {
	case len(found) > 0 && len(found) < e.Least:
		return Unusable, Say("its answer, %q, has %d of the %d readings that are asked for", c.said(), len(found), e.Least)
	case len(found) > 0 && len(found) < e.Times && !counts(spoken(c.Value), e.Times):
		return Unusable, Say("its answer, %q, has %d of the %d readings that are asked for: write them all, or how many they were and the "+
			"lowest and the highest, as \"%d times, ...\"", c.said(), len(found), e.Times, e.Times)
	case len(found) > 0 && !e.namesStates(c):
		return Unusable, Say("its answer, %q, does not say which figure is of what; asked is one of each: %s", c.said(),
			strings.Join(e.States, ", "))
	case len(found) == 0:
		return Unusable, Say("its answer, %q, has no figure in %s", c.said(), e.Unit.inAnswer())
	case slices.Max(found) < e.reach(c)*(1-figureSlack):
		return Failing, Say("its answer, %q, is less than what is expected", c.said())
	case e.Spans > 0 && e.spanned(c) < e.Spans*(1-figureSlack):
		return Unusable, Say("its answer, %q, does not say that it was read for %s", c.said(),
			Second(e.Spans).In(Shortest, 4))
	case e.With != nil:
		return e.beside(found, c)
	case e.Wired > 0:
		return e.onWires(found, c)
	}
	return Closes, nil
}

// reach is what the largest of the figures is at least.
func (e *Expected) reach(c *Confirmation) float64 {
	words := spoken(c.Value)
	for i := range words {
		denied := i > 0 && slices.Contains(denials, words[i-1])
		if first(words[i:], e.Where) > 0 && !denied {
			return e.Nearer
		}
	}
	return e.Reach
}

// spanned is how far the times of an answer lie apart [s]; one time is how long it took.
func (e *Expected) spanned(c *Confirmation) float64 {
	times := (&Expected{Unit: InSecond}).in(c)
	switch len(times) {
	case 0:
		return 0
	case 1:
		return times[0]
	}
	return slices.Max(times) - slices.Min(times)
}

// UsualWire is what the thinnest wire bears that launchers are wired with as a rule, 0.75 mm2 [A] (common practice, no source).
const UsualWire = 6

// WireBears is what a single copper wire of a cross-section [m2] in the open bears for good [A]: that of the next thinner usual one;
// 0: it is thinner than any (common practice, no source).
func WireBears(area float64) (amperes float64) {
	for _, w := range [...][2]float64{{0.5e-6, 3}, {0.75e-6, UsualWire}, {1e-6, 10}, {1.5e-6, 16}, {2.5e-6, 25}, {4e-6, 32}} {
		if area >= w[0]*(1-figureSlack) {
			amperes = w[1]
		}
	}
	return amperes
}

// onWires holds fuses against the wires that they are said to be on, where these are told or have to be.
func (e *Expected) onWires(found []float64, c *Confirmation) (Outcome, Text) {
	area := Expected{Unit: InSquareMetre}
	wires := area.in(c)
	if len(wires) != len(found) {
		if slices.Max(found) <= e.Wired {
			return Closes, nil
		}
		return Unusable, Say("its answer, %q, has a fuse above %s: whether that is below what its wire bears, and above what its load draws, "+
			"the current of the load and the size of the wire tell; write the wire behind each fuse, as \"10 A on %s\", or state it in [control]",
			c.said(), Ampere(e.Wired), SquareMillimetres.Of(1e-6, 2))
	}
	for i, v := range found {
		if bears := WireBears(wires[i]); v > bears*(1+figureSlack) {
			return Failing, Say("its answer, %q: a wire of %s bears %s for good", c.said(), SquareMillimetres.Of(wires[i], 2),
				Ampere(bears))
		}
	}
	return Closes, nil
}

// beside holds the figures of an answer against those that it has to bring for each of them.
func (e *Expected) beside(found []float64, c *Confirmation) (Outcome, Text) {
	with := e.With.in(c)
	switch {
	case len(with) == 0:
		return Unusable, Say("its answer, %q, has no figure in %s", c.said(), e.With.Unit.inAnswer())
	case len(with) != len(found):
		return Unusable, Say("its answer, %q, has %d figures in %s and %d in %s: write one of either each time", c.said(),
			len(found), e.Unit.inAnswer(), len(with), e.With.Unit.inAnswer())
	}
	for i, v := range found {
		if !e.With.holds(with[i]) || v*with[i]/2 < e.Work*(1-figureSlack) {
			return Failing, Say("its answer, %q, is not what is expected", c.said())
		}
	}
	return Closes, nil
}

// namesStates tells whether an answer names every state that is asked for, once.
func (e *Expected) namesStates(c *Confirmation) bool {
	words := spoken(c.Value)
	for _, state := range e.States {
		if n := len(slices.DeleteFunc(slices.Clone(words), func(w string) bool { return w != state })); n != 1 {
			return false
		}
	}
	return true
}

// gravity is what a kitchen scale reckons with [m/s2]: the standard acceleration (NIST SP 811, 2008, Appendix B).
const gravity = 9.80665

// in gives the figures of an answer that are of the kind expected; what a scale shows is a force where one is asked.
func (e *Expected) in(c *Confirmation) (out []float64) {
	for _, f := range c.Figures {
		switch {
		case f.Unit == e.Unit:
			out = append(out, f.Value)
		case f.Unit == OnScale && e.Unit == InNewton:
			out = append(out, f.Value*gravity)
		}
	}
	return out
}

// inAnswer names a unit as a person would write it.
func (q Quantity) inAnswer() string {
	switch q {
	case InPascalGauge:
		return "bar"
	case InMetre:
		return "mm"
	case InNewton:
		return "N, or what the scale shows"
	case InRadian:
		return "deg"
	case InSquareMetre:
		return "mm2"
	}
	return string(q)
}
