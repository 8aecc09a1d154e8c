package design

import (
	"fmt"
	"math"
	"slices"

	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// contradictions finds keys that say what another key says to be impossible: one of the
// two is a slip, and whichever is believed, the other one is read wrongly.
func (r *reader) contradictions(l *launcher.Launcher) {
	r.elevationOutsideStops(l)
	r.madeTooLate(l)
	r.gaugesTooSmall(l)
	r.emptyAboveWorking(l)
	r.flatVessels(l)
	r.curveBeyondDeadHead(l)
	for i := range l.Paths {
		r.pathAgainstItself(&l.Paths[i])
	}
	r.gridAgainstMuzzle(l)
	for _, loose := range launcher.LooseLimits(l.Limits, l.Projectile) {
		r.value(loose.Key, fmt.Sprintf("is looser than the policy %q for this tip", loose.Policy), r.atMost(quantity.OfVerdict(loose.Unit),
			loose.Most), "your own limit may be stricter than the published one, never looser; or leave it out")
	}
	if a, w := l.Barrel.MuzzleAdmits, l.Barrel.TubeInnerDiameter; a.Set && w.Set && a.Nominal > w.High {
		r.value("barrel.muzzle_admits", "is larger than the tube's inside", r.atMost(quantity.Length, w.High))
	}
}

// elevationOutsideStops holds the elevation of the event to the stops of the mount. What
// its tolerance reaches a little beyond them the stops cut off.
func (r *reader) elevationOutsideStops(l *launcher.Launcher) {
	if l.Event == nil || !l.Event.Elevation.Set {
		return
	}
	e, low, high := l.Event.Elevation, math.Inf(-1), math.Inf(1)
	if l.Mount.ElevationMin.Set {
		low = l.Mount.ElevationMin.Low
	}
	if l.Mount.ElevationMax.Set {
		high = l.Mount.ElevationMax.High
	}
	if low > high {
		return // a fault of its own
	}
	const hair = 1e-9 // [rad], of rounding
	if e.Nominal >= low-hair && e.Nominal <= high+hair && e.Low >= low-keys.MostPast-hair && e.High <= high+keys.MostPast+hair {
		return
	}
	want := "between " + r.units.Words(quantity.Angle, low, quantity.Up) + " and " + r.units.Words(quantity.Angle, high, quantity.Down)
	switch {
	case math.IsInf(low, 0):
		want = r.atMost(quantity.Angle, high)
	case math.IsInf(high, 0):
		want = r.atLeast(quantity.Angle, low)
	}
	r.value("event.elevation", "lies outside of the stops of the mount", want,
		"the barrel cannot point there, or the stops are not where [mount] says")
}

// gridAgainstMuzzle refuses a grid that lets in less than the muzzle is said to let in.
func (r *reader) gridAgainstMuzzle(l *launcher.Launcher) {
	for _, control := range l.Barrel.ObjectControl {
		mesh, is := launcher.GridMesh(control)
		if a := l.Barrel.MuzzleAdmits; is && a.Set && a.Low > mesh {
			r.value("barrel.muzzle_admits", "is larger than the mesh of object_control", r.atMost(quantity.Length, mesh),
				"a grid of that mesh lets nothing larger in")
		}
	}
}

// madeTooLate finds parts that were made after the day on which they go, or on which they are said to have been tested.
func (r *reader) madeTooLate(l *launcher.Launcher) {
	for _, p := range l.DatedParts() {
		if p.Made != "" && p.Retire != "" && p.Made > p.Retire { // ISO dates
			r.at(p.Table+".retire_by", "is before made_on", p.Retire, "a day after "+p.Made)
		}
		if of := finding.DoneBefore(p.Tested, p.Made); p.Made != "" && of != "" {
			r.value(p.Table+".proof_test", "is older than its made_on, "+p.Made, "a test of "+p.Made+" or later; without one leave the key out",
				"that test, of "+of+", was of another part: test this one, or put right the date that is a slip")
		}
	}
}

// gaugesTooSmall finds gauges whose dial cannot be as it is stated, or cannot show the
// pressure that the same volume is filled to.
func (r *reader) gaugesTooSmall(l *launcher.Launcher) {
	for i, g := range l.Gauges {
		table := "gauge"
		if _, single := r.positions["gauge.on"]; !single {
			table = fmt.Sprintf("gauge[%d]", i+1)
		}
		if !g.Range.Set {
			continue
		}
		if g.Graduation.Set && g.Graduation.Nominal > g.Range.Nominal {
			r.value(table+".graduation", "is more than the whole range", r.below(quantity.Pressure, g.Range.Nominal))
		}
		if g.Error.Set && g.Error.Nominal > g.Range.Nominal {
			r.value(table+".error", "is more than the whole range", r.below(quantity.Pressure, g.Range.Nominal))
		}
		if key, to := filledTo(l, g.On); to.Set && to.Nominal > g.Range.Nominal {
			r.value(table+".range", "ends below "+key, r.atLeast(quantity.Gauge, to.Nominal),
				"no needle shows a pressure beyond its dial; psi read as bar?")
		}
	}
}

// filledTo is what a volume is filled to by a switch, by a person who reads a gauge, or elsewhere, with its key; not Set: by none of them.
func filledTo(l *launcher.Launcher, volume string) (key string, to launcher.Band) {
	if s := l.Switch; s != nil && s.Senses == volume {
		return "pressure_switch.cut_out", s.CutOut
	}
	if s := l.Supply; s != nil && s.Feeds == volume && l.Switch == nil {
		return "supply.pumped_to", s.PumpedTo
	}
	i := slices.IndexFunc(l.Volumes, func(v launcher.VolumeSpec) bool { return v.Name == volume })
	if i < 0 {
		return "", launcher.Band{}
	}
	return "volumes." + volume + ".filled_to", l.Volumes[i].FilledTo
}

// sourceTooWeak refuses a stated pressure before a regulator that is below the one behind it: a regulator that fails would be harmless.
func (s *section) sourceTooWeak(sp *launcher.SupplySpec) {
	if s.has("source_pressure") && sp.SourcePressure.High < sp.DeadHead.Nominal {
		s.r.value("supply.source_pressure", "is no pressure before a regulator", s.r.atLeast(quantity.Gauge, sp.DeadHead.Nominal),
			"the gauge on the cylinder's or the main's own side, full: what the regulator lets through is dead_head")
	}
}

// emptyAboveWorking refuses a target of venting that the launcher never gets above: it
// would count as empty while it is charged.
func (r *reader) emptyAboveWorking(l *launcher.Launcher) {
	if l.Venting == nil || !l.Venting.Target.Set || l.Venting.Target.Assumed {
		return
	}
	target := l.Venting.Target.Nominal
	switch {
	case l.Switch != nil && l.Switch.CutOut.Set:
		if target >= l.Switch.CutOut.Nominal {
			r.value("venting.target", "is not below pressure_switch.cut_out", "far below "+r.units.Near(quantity.Gauge, l.Switch.CutOut.Nominal),
				"a charged launcher would count as empty")
		}
	case l.Supply != nil && l.Supply.DeadHead.Set && target >= l.Supply.DeadHead.Nominal:
		r.value("venting.target", "is not below supply.dead_head", "far below "+r.units.Near(quantity.Gauge, l.Supply.DeadHead.Nominal),
			"a charged launcher would count as empty")
	}
}

// curveBeyondDeadHead refuses a delivery curve along which the supply still delivers well above its dead head, where it delivers nothing.
func (r *reader) curveBeyondDeadHead(l *launcher.Launcher) {
	// slack is of rounding, times the dead head.
	const slack = 1.05
	if l.Supply == nil || !l.Supply.DeadHead.Set || l.Supply.DeadHead.Line == 0 { // nobody stated it
		return
	}
	most := l.Supply.DeadHead.High
	for _, at := range l.Supply.Curve {
		if at.FreeAir > 0 && at.Gauge > slack*most {
			r.at("supply.curve", "delivers air at a pressure well beyond supply.dead_head", r.units.Near(quantity.Gauge, at.Gauge),
				"no flow beyond "+r.units.Near(quantity.Gauge, most), "at its dead head a supply delivers nothing")
			return
		}
	}
}

// flattest is how many times wider than high a vessel may be: none is a plate.
const flattest = 50

// flatVessels refuses an inner diameter that makes a plate of its vessel: the walls would
// warm the gas as no vessel does.
func (r *reader) flatVessels(l *launcher.Launcher) {
	for _, v := range l.Volumes {
		d := v.InnerDiameter
		if !d.Set || d.Assumed && d.Line == 0 || !v.Volume.Set {
			continue
		}
		if height := v.Volume.Nominal / (math.Pi / 4 * d.Nominal * d.Nominal); height < d.Nominal/flattest {
			r.value("volumes."+v.Name+".inner_diameter", "leaves the volume less high than a fiftieth of it",
				r.atMost(quantity.Length, math.Cbrt(flattest*4/math.Pi*v.Volume.Nominal)), "is it the length, or the volume in another unit?")
		}
	}
}

// pathAgainstItself finds figures of one part that exclude each other.
func (r *reader) pathAgainstItself(p *launcher.PathSpec) {
	key := "paths." + p.Name
	if least, full := p.MinDifferential, p.FullAt; least.Set && full.Set && !full.Assumed && !least.Assumed && full.Nominal < least.Nominal {
		r.value(key+".full_differential", "is below min_differential", r.atLeast(quantity.Pressure, least.Nominal),
			"it opens at all from min_differential on, and fully from full_differential on")
	}
	if droop, set := p.Droop, p.SetPressure; p.Kind == pneumatics.Regulator && droop.Set && set.Set && droop.Nominal >= set.Nominal {
		r.value(key+".droop", "is not below set_pressure", r.below(quantity.Pressure, set.Nominal),
			"it is how far the outlet falls below the set pressure")
	}
}
