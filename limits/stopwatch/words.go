package stopwatch

import (
	"math"
	"slices"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// judge draws the answer from the fit, the worst news first.
func (f *logFit) judge() {
	a := f.a
	say := func(s Status, format string, args ...any) { a.Status, a.Says = s, finding.Say(format, args...) }
	a.Low, a.High = f.shares()
	f.bore()
	end, flat := f.end()
	reached := end-min(a.Zero, 0) <= a.Target || (flat && math.Abs(end) <= f.errors && end-a.Zero <= a.Target)
	switch again, back := f.comesBack(); {
	case back:
		say(Returns, "the pressure comes back: it was down to the target of %s and reads %s later (readings are told apart to %s): trapped "+
			"air, or a vent that was shut too early.", vent.AsRead(a.Target), vent.AsRead(again), vent.AsRead(a.Resolves))
	case flat && reached && math.Abs(end) > f.errors+f.step:
		say(SettlesOff, "it settles at about %s, not at zero within the gauge's error of %s: the zero is off, or air is held.",
			vent.AsRead(end), vent.AsRead(f.errors))
	case reached && f.latest() < f.leastStart():
		say(StartsLate, "a run starts at %s, but the launcher stops charging at %s: the clock was started too late, or the units are "+
			"wrong; begin at the cut-out.", vent.AsRead(f.latest()), vent.AsRead(worst.NominalStart(f.l)))
	case flat && !reached:
		say(Stays, "does not reach zero: it stays at about %s, so the vent is blocked or air is trapped (or the gauge's zero is off).",
			vent.AsRead(end))
	case a.RMS > max(misfit*a.Span, f.errors+f.step):
		say(Inconsistent, "inconsistent with any vent of this design: the best fit is off by %s; wrong file, wrong units, or another volume.",
			vent.AsRead(a.RMS))
	case a.Opening < narrowest || a.Opening > widestShare:
		say(Inconsistent, "inconsistent with any vent of this design: the opening would be %s of the designed one; wrong file or wrong units.",
			finding.Percent(a.Opening))
	case a.Opening < a.Low:
		say(Slower, "slower than designed: the opening is %s of the designed one%s, partly blocked or narrower.",
			finding.Percent(a.Opening), f.asBore())
		if !reached {
			a.Says = a.Says.Say(" The log stops at %s, before the target of %s.", vent.AsRead(end), vent.AsRead(a.Target))
		}
	case !reached:
		say(StopsEarly, "the log stops at %s, before the target of %s (readings are told apart to %s): not judged good; go on reading to "+
			"the end.", vent.AsRead(end), vent.AsRead(a.Target), vent.AsRead(a.Resolves))
	case !(math.Abs(a.FreeZero) <= f.errors+f.step):
		say(SettlesOff, "it settles at about %s by the fit, not at zero within the gauge's error of %s: the zero is off, or air is held.",
			vent.AsRead(a.FreeZero), vent.AsRead(f.errors))
	case f.over != nil:
		say(SettlesOff, "it reads %s after %s, where the design has %s at most: the vent does not let all of it out, or the gauge's zero "+
			"is off.", vent.AsRead(f.over.Gauge), finding.Second(f.over.Time).With(3), vent.AsRead(f.overBy))
	case a.Least < leastShare && a.LeastRMS <= asWell*a.RMS:
		say(Slower, "slower than designed: the opening is between %s and %s of the designed one, by how much heat the walls gave: not "+
			"surely enough.", finding.Percent(a.Least), finding.Percent(a.Opening))
	case f.blind != "" && f.least >= a.Target:
		say(GaugeBlind, "the gauge cannot tell: what it shows as empty may be %s (%s), and the target is %s; use a finer one.",
			vent.AsRead(f.least), f.blind, vent.AsRead(a.Target))
	case f.lateRun() > 0:
		say(NotInTime, "not shown in time: in run %d no reading within %s of the start is at or below the target of %s; read at that moment.",
			f.lateRun(), finding.Second(vent.TimeAllowed(f.l)).With(3), vent.AsRead(a.Target))
	case a.Opening > a.High:
		say(Faster, "faster than designed: the opening is %s of the designed one%s: a leak, a wider vent, or a smaller volume than stated.",
			finding.Percent(a.Opening), f.asBore())
	default:
		say(Agrees, "agrees with the design: the opening is %s of the designed one%s, and it reaches the target of %s.",
			finding.Percent(a.Opening), f.asBore(), vent.AsRead(a.Target))
	}
}

// shares are the ends of the openings that agree with the design.
func (f *logFit) shares() (low, high float64) {
	low, high = 1, 1
	nominal := f.ventConductance(f.l)
	if nominal > 0 {
		low = f.ventConductance(vent.AtEnd(f.l, vent.SlowEnd)) / nominal
		high = f.ventConductance(vent.AtEnd(f.l, vent.FastEnd)) / nominal
	}
	return max(min(low, 0.95), slowShare), max(high, fastShare)
}

// ventConductance is the sonic conductance of all paths to the atmosphere [m3/(s
// Pa)].
func (f *logFit) ventConductance(w *launcher.Launcher) (sum float64) {
	c := new(pneumatics.Circuit)
	w.Fill(c)
	sc := &pneumatics.Scenario{From: pneumatics.Armed, To: pneumatics.Off, NoProjectile: true}
	for i := range c.Paths {
		p := &c.Paths[i]
		if p.To != pneumatics.Atmosphere || p.Kind == pneumatics.Relief || p.Flow.IsZero() || p.OpeningAtLast(sc) == 0 {
			continue
		}
		conductance, _ := p.Flow.Conductance(c.Gas)
		sum += conductance
	}
	return sum
}

// bore finds the one vent of the volume and its effective bore.
func (f *logFit) bore() {
	found := -1
	for i := range f.l.Paths {
		p := &f.l.Paths[i]
		if p.From == f.a.Volume && p.To == "atmosphere" && p.Kind != pneumatics.Relief {
			if found >= 0 {
				return // which of several is blocked a log cannot tell
			}
			found = i
		}
	}
	if found < 0 || f.l.Paths[found].Flow.Form != launcher.OrificeBore {
		return
	}
	p := &f.l.Paths[found]
	f.a.Path = p.Name
	f.a.Bore = p.Flow.Value.Nominal * math.Sqrt(f.a.Opening)
	f.a.Cd = p.Flow.DischargeCoefficient.Nominal * f.a.Opening
}

// asBore says which bore the opening is like; nil: it is not that of one hole.
func (f *logFit) asBore() finding.Text {
	if math.IsNaN(f.a.Bore) {
		return nil
	}
	return finding.Say(" (as a bore of about %s instead of %s)", finding.Millimetre(f.a.Bore),
		finding.Millimetre(f.a.Bore/math.Sqrt(f.a.Opening)))
}

// comesBack finds a reading that rises after one at or below the target: above it,
// or, by two readings so that it is no flicker, by more than the gauge's error. The
// highest such one [Pa gauge].
func (f *logFit) comesBack() (again float64, back bool) {
	for _, run := range f.runs {
		lowest, pair := math.Inf(1), math.Inf(1)
		for i, r := range run {
			rise := r.Gauge - lowest
			returns := r.Gauge > f.a.Target && rise > f.a.Resolves
			if i > 0 {
				mean := vent.MeanGauge(run[i-1 : i+1])
				returns = returns || mean-pair > max(f.a.Resolves, f.errors)
				pair = min(pair, mean)
			}
			if lowest <= f.a.Target && returns && (!back || r.Gauge > again) {
				again, back = r.Gauge, true
			}
			lowest = min(lowest, r.Gauge)
		}
	}
	return again, back
}

// lateRun is the first run, from 1, that shows no reading at or below the target
// within the time asked, the late start of its clock included; 0: none.
func (f *logFit) lateRun() int {
	within := vent.TimeAllowed(f.l)
	if math.IsNaN(within) {
		return 0
	}
	for i, run := range f.runs {
		inTime := func(r vent.LogReading) bool {
			return r.Gauge-min(f.a.Zero, 0) <= f.a.Target && r.Time-run[0].Time+f.late[i] <= within
		}
		if !slices.ContainsFunc(run, inTime) {
			return i + 1
		}
	}
	return 0
}

// latest is the lowest first reading of all runs [Pa gauge].
func (f *logFit) latest() float64 {
	first := math.Inf(1)
	for _, run := range f.runs {
		first = min(first, run[0].Gauge)
	}
	return first
}

// leastStart is the lowest first reading that shows enough of the course [Pa gauge].
func (f *logFit) leastStart() float64 {
	low := worst.NominalStart(f.l)
	if rest := f.l.Resting(); rest.Ends { // a weak pump fills it no further
		low = vent.LowestStart(f.l)
	} else if s := f.l.Switch; s != nil {
		low = s.CutOut.Low
	}
	return max(vent.StartShare*low, f.a.Target)
}

// end is where the runs end [Pa gauge]: the highest of their last readings, of
// the mean of the last three where nothing falls any more; flat tells that
// nothing does in the last third of the time.
func (f *logFit) end() (gauge float64, flat bool) {
	gauge, flat = math.Inf(-1), true
	mean := gauge
	for _, run := range f.runs {
		gauge = max(gauge, run[len(run)-1].Gauge)
		mean = max(mean, vent.MeanGauge(run[len(run)-min(3, len(run)):]))
		last := run[len(run)-1].Time
		third := run
		for len(third) > 3 && third[0].Time < last-(last-run[0].Time)/3 { // three at least: a person reads less and less often
			third = third[1:]
		}
		if len(third) < 3 || vent.MeanGauge(third[:2])-vent.MeanGauge(third[len(third)-2:]) > max(flatShare*f.a.Span, 2*f.step) {
			flat = false
		}
	}
	if flat {
		gauge = mean
	}
	return gauge, flat
}
