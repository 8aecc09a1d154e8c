package search

import (
	"math"
	"slices"
)

// sweepers climbs from starts and gives the maxima, best first.
func (r *run) sweepers(from []Maximum, climb func(*climber)) []Maximum {
	var cs []*climber
	for i, s := range from {
		cs = append(cs, newClimber(r, s, climbCost(r.dim), uint64(6000+i)))
	}
	r.climbers(cs, climb)
	return maximaOf(cs)
}

// sweptTo is the last step of a quick climb.
const sweptTo = maximumStep

// climbCost is what a quick climb may cost at most.
func climbCost(dim int) int { return 200 + 30*dim }

// sweeps is a quick climb: a compass search whose steps begin with the whole box, from one end of
// a coordinate to the other, and that takes all steps of a sweep that improve together.
func (c *climber) sweeps() { c.sweepsFrom(1, 2) }

// sweepsNear is one from a point near a maximum: its coordinates rest sooner.
func (c *climber) sweepsNear() { c.sweepsFrom(0.5, 1) }

// sweepsFrom begins with steps of h; a coordinate that stays rests after so many sweeps.
func (c *climber) sweepsFrom(h float64, patience int) {
	if !c.valued() {
		return
	}
	rests := newResting(len(c.at), patience)
	for c.more() {
		from := Maximum{Point: slices.Clone(c.at), Value: c.value}
		points := neighbours(c.at, h, rests)
		values := c.valuesAt(points)
		moved := c.jump(from, points, values)
		for i, x := range c.at {
			if !rests.skips(i) {
				rests.note(i, x, x != from.Point[i], flatAlong(from, i, points, values))
			}
		}
		switch {
		case moved && h < 0.25 && c.value-from.Value > grown*math.Abs(c.value):
			h *= 2
		case moved:
		case h > sweptTo:
			h /= 2
		default:
			return
		}
	}
}

// grown is the share of a value above which a step that brought so much is doubled.
const grown = 1e-4

// valuesAt evaluates points as far as the budget goes.
func (c *climber) valuesAt(points [][]float64) []float64 {
	values := make([]float64, len(points))
	for k, u := range points {
		values[k] = undefinedValue
		if c.more() {
			values[k] = c.valueAt(u)
		}
	}
	return values
}

// rounding is the share of a value below which a step is none: shots of a search are no more exact.
const rounding = 1e-6

// jump goes to the best of the points of a sweep, of their joint move and its double, or of the joint move of
// the better half of them.
func (c *climber) jump(from Maximum, points [][]float64, values []float64) bool {
	joint, gain := slices.Clone(from.Point), make([]float64, len(from.Point))
	single, some := -1, 0
	least := rounding * math.Abs(from.Value)
	for k, v := range values {
		if v > from.Value+least && (single < 0 || v > values[single]) {
			single = k
		}
		for i, x := range points[k] {
			if x != from.Point[i] && v-from.Value > max(gain[i], least) {
				joint[i], gain[i] = x, v-from.Value
			}
		}
	}
	if single < 0 {
		return false
	}
	copy(c.at, points[single])
	c.value = values[single]
	for _, g := range gain {
		if g > 0 {
			some++
		}
	}
	twice := further(from.Point, joint)
	if some > 1 && !c.try(joint) && some > 2 {
		c.try(betterHalf(from.Point, joint, gain, some))
	}
	if !slices.Equal(twice, joint) {
		c.try(twice)
	}
	return true
}

// betterHalf is a joint move with the better half of its steps alone.
func betterHalf(from, joint, gain []float64, some int) []float64 {
	ordered := slices.Clone(gain)
	slices.Sort(ordered)
	floor := ordered[len(ordered)-(some+1)/2]
	u := slices.Clone(joint)
	for i := range u {
		if gain[i] < floor {
			u[i] = from[i]
		}
	}
	return u
}
