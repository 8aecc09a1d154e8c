package vent

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
)

// leakFit is a leak-down log with the model it is fitted to.
type leakFit struct {
	l    *launcher.Launcher
	a    *LeakAnswer
	m    *LeakModel
	runs [][]LogReading
	unit float64 // the area that loses tightLoss a minute [m2]
	best float64 // RMS of the best fit [Pa]
}

// newLeakFit sorts the readings into runs. why says why nothing is fitted, with
// the status set; empty: go on.
func newLeakFit(l *launcher.Launcher, a *LeakAnswer, log Log) (f *leakFit, why finding.Text, err error) {
	f = &leakFit{l: l, a: a}
	size, hides, stated := readingError(l, a.Volume)
	f.sort(log, hides)
	a.Status = LeakCannotTell
	if !stated {
		return f, finding.Say("the design states no %s with a range on %s, so what a reading is worth is not known",
			finding.KeyAs("gauge.range", "[gauge]"), a.Volume), nil
	}
	if n := f.shortest(); n < leastLeaks {
		return f, finding.Say("a run needs at least %d readings that the gauge can show; it has %d", leastLeaks, n), nil
	}
	if !(a.Length > 0) {
		return f, finding.Words("the readings of a run are all of one time"), nil
	}
	if long := f.longest(); long > longestLog {
		return f, finding.Say("it goes on for %s: in so long a time a room changes by more than %s", Minutes(long), roomDrift()), nil
	}
	start := worst.NominalStart(l)
	if start <= 0 {
		return f, finding.Words("neither a pressure switch nor a dead head is stated, so where it begins is not known"), nil
	}
	f.m = NewLeakModel(l, a.Volume, start)
	a.Resolves = max(size, f.coarsest()/2)
	a.Drift = (l.Ambient.Pressure.Nominal + a.Start) * RoomDrift / l.Ambient.Temperature.Nominal
	if f.m.opens != "" {
		return f, finding.Say("in state armed paths.%s is open on it: it empties by design, there is nothing to hold", f.m.opens), nil
	}
	if why := f.wrongStart(); len(why) > 0 {
		a.Status = LeakInconsistent
		return f, why, nil
	}
	a.Settled, a.Cooling, err = f.m.cooling(a.Start, a.Resolves)
	if err != nil {
		return f, nil, err
	}
	f.unit = f.m.areaOf(tightLoss, a.Start)
	a.Needed = leakNeeded(a.Settled, a.Resolves, a.Drift, a.Start)
	if why := f.rises(); len(why) > 0 {
		a.Status = LeakInconsistent
		return f, why, nil
	}
	return f, nil, nil
}

// roomDrift is RoomDrift as a figure of a text.
func roomDrift() finding.Shown {
	return finding.Shown{Value: RoomDrift, Unit: finding.Kelvins, Rounding: finding.Decimals}
}

// sort parts the readings into runs in the order of time.
func (f *leakFit) sort(log Log, hides float64) {
	a := f.a
	byRun := map[int][]LogReading{}
	for _, r := range log.Readings {
		if r.Gauge < hides {
			a.Hidden++
			continue
		}
		byRun[r.Run] = append(byRun[r.Run], r)
		a.Count++
	}
	a.Start, a.End, a.Length = math.Inf(-1), math.Inf(1), math.Inf(1)
	for _, id := range slices.Sorted(maps.Keys(byRun)) {
		run := byRun[id]
		slices.SortStableFunc(run, func(x, y LogReading) int { return cmp.Compare(x.Time, y.Time) })
		f.runs = append(f.runs, run)
		a.Start, a.End = max(a.Start, run[0].Gauge), min(a.End, run[len(run)-1].Gauge)
		a.Length = min(a.Length, run[len(run)-1].Time-run[0].Time)
	}
	a.Runs = len(f.runs)
}

// shortest is the least number of readings in a run; 0 without a run.
func (f *leakFit) shortest() int {
	least := math.MaxInt
	for _, run := range f.runs {
		least = min(least, len(run))
	}
	if len(f.runs) == 0 {
		return 0
	}
	return least
}

// longest is the length of the longest run [s].
func (f *leakFit) longest() (length float64) {
	for _, run := range f.runs {
		length = max(length, run[len(run)-1].Time-run[0].Time)
	}
	return length
}

// coarsest is the step in which the readings were written down [Pa]: the least
// difference between two that differ.
func (f *leakFit) coarsest() float64 {
	var all []float64
	for _, run := range f.runs {
		for _, r := range run {
			all = append(all, r.Gauge)
		}
	}
	slices.Sort(all)
	step := math.Inf(1)
	for i := 1; i < len(all); i++ {
		if d := all[i] - all[i-1]; d > 1 { // [Pa]: less is rounding
			step = min(step, d)
		}
	}
	if math.IsInf(step, 1) {
		return 0
	}
	return step
}

// wrongStart finds a log that does not begin where a charged launcher stands.
func (f *leakFit) wrongStart() finding.Text {
	l, a := f.l, f.a
	top, ok := StartPressures(l)
	zero := f.zero()
	if ok && a.Start > 1.1*top[f.m.volume]+zero {
		return finding.Say("it starts at %s, but %s never holds more than %s: wrong file or wrong units",
			AsRead(a.Start), a.Volume, finding.Bar(top[f.m.volume]))
	}
	for _, run := range f.runs {
		if least := StartShare * f.m.start[f.m.volume]; run[0].Gauge+zero < least {
			return finding.Say("it starts at %s, but %s is charged to %s: wrong file or wrong units, or another volume",
				AsRead(run[0].Gauge), a.Volume, AsRead(f.m.start[f.m.volume]))
		}
	}
	return nil
}

// zero is the largest error of the gauge's zero [Pa].
func (f *leakFit) zero() float64 {
	for i := range f.l.Gauges {
		if g := &f.l.Gauges[i]; g.On == f.a.Volume && g.Range.Set {
			size, _ := g.ErrorSize()
			return size
		}
	}
	return 0
}

// rises finds a rise that neither warming gas nor the room explains.
func (f *leakFit) rises() finding.Text {
	a := f.a
	most := f.m.warming(a.Start) + a.Drift + 3*a.Resolves
	for _, run := range f.runs {
		lowest := run[0].Gauge
		for _, r := range run {
			if r.Gauge-lowest > most {
				return finding.Say("the reading rises from %s to %s, more than the %s that heat can do: the supply ran, or the wrong file",
					AsRead(lowest), AsRead(r.Gauge), AsRead(most))
			}
			lowest = min(lowest, r.Gauge)
		}
	}
	return nil
}

// leakPart says which readings a fit is about.
type leakPart uint8

const (
	allReadings leakPart = iota
	afterCooling
)

// rms is the least root mean square [Pa] by which a course with a leak of an area
// differs from the readings, over all that is not known beside the leak.
func (f *leakFit) rms(area float64, part leakPart) (float64, error) {
	sum, n := 0.0, 0
	for _, run := range f.runs {
		used := run
		if part == afterCooling {
			used = f.late(run)
		}
		s, err := f.squares(area, run, used, part)
		if err != nil {
			return 0, err
		}
		sum, n = sum+s, n+len(used)
	}
	if n == 0 {
		return 0, nil
	}
	return math.Sqrt(sum / float64(n)), nil
}

// late are the readings of a run after the cooling is over.
func (f *leakFit) late(run []LogReading) []LogReading {
	i := slices.IndexFunc(run, func(r LogReading) bool { return r.Time-run[0].Time >= f.a.Settled })
	if i < 0 {
		return nil
	}
	return run[i:]
}

// squares is the least sum of squares of some readings of a run. Free are: how
// warm the gas was, from the hottest fill to colder than the walls; how fast the
// walls take up heat, to a factor of two; the room's drift; and the level, by the
// error of the first reading, or, after the cooling, by the whole of it.
func (f *leakFit) squares(area float64, run, used []LogReading, part leakPart) (float64, error) {
	if len(used) == 0 {
		return 0, nil
	}
	length := run[len(run)-1].Time - run[0].Time
	settled, err := f.m.Course(area, run[0].Gauge, 0, length)
	if err != nil {
		return 0, err
	}
	level := 3 * f.a.Resolves
	if part == afterCooling {
		level += f.a.Cooling
	}
	best := math.Inf(1)
	for _, warmth := range []float64{1, -1} {
		warm, err := f.m.Course(area, run[0].Gauge, warmth, length)
		if err != nil {
			return 0, err
		}
		for _, pace := range []float64{slowestHeat, 0.7, 1, 1.4, 1 / slowestHeat} {
			fit := boxFit{low: []float64{0, -f.a.Drift, -level}, high: []float64{1, f.a.Drift, level}}
			for _, r := range used {
				t := r.Time - run[0].Time
				fit.add(r.Gauge-settled.At(t), warm.At(t*pace)-settled.At(t*pace), t/length, 1)
			}
			best = min(best, fit.least())
		}
	}
	return best, nil
}

// fit finds the likeliest leak, and the least and the greatest that agree with
// the readings.
func (f *leakFit) fit() error {
	a := f.a
	areas, err := f.scan(allReadings)
	if err != nil {
		return err
	}
	a.RMS = f.best
	sizes := []*LeakSize{&a.Least, &a.Bore, &a.Most}
	for i, area := range areas {
		if *sizes[i], err = f.m.size(area, a.Start); err != nil {
			return err
		}
	}
	return nil
}

// Leaks are tried between these multiples of the one that loses tightLoss a minute.
const (
	leastTried = 1.0 / 64
	mostTried  = 4096.0
)

// scan gives the least, the likeliest and the greatest area that agree with some
// of the readings, and keeps the RMS of the best.
func (f *leakFit) scan(part leakPart) ([3]float64, error) {
	type point struct{ area, rms float64 }
	var all []point
	at := 0
	for k := 0.0; k <= mostTried; k = max(2*k, leastTried) {
		v, err := f.rms(k*f.unit, part)
		if err != nil {
			return [3]float64{}, err
		}
		all = append(all, point{k * f.unit, v})
		if v < all[at].rms {
			at = len(all) - 1
		}
		if v > 4*max(all[at].rms, f.a.Resolves) && len(all) > at+4 {
			break // far beyond the best: it only gets worse
		}
	}
	best := all[at]
	if at > 0 && part == allReadings {
		low, high := math.Log(max(all[at-1].area, leastTried*f.unit/4)), math.Log(2*best.area)
		err := GoldenSection(low, high, 8, func(x float64) (float64, error) {
			v, err := f.rms(math.Exp(x), part)
			if v < best.rms {
				best = point{math.Exp(x), v}
			}
			return v, err
		})
		if err != nil {
			return [3]float64{}, err
		}
	}
	if part == allReadings {
		f.best = best.rms
	}
	bound := f.agrees(best.rms)
	edge := func(in, out float64) (float64, error) {
		for range 8 {
			mid := math.Sqrt(max(in, leastTried*f.unit/16) * max(out, leastTried*f.unit/16))
			v, err := f.rms(mid, part)
			if err != nil {
				return 0, err
			}
			if v <= bound {
				in = mid
			} else {
				out = mid
			}
		}
		return in, nil
	}
	out := [3]float64{0, best.area, math.Inf(1)}
	var err error
	if all[0].rms > bound {
		if out[0], err = edge(best.area, all[0].area); err != nil {
			return out, err
		}
	}
	for _, p := range all {
		if p.area > best.area && p.rms > bound {
			out[2], err = edge(best.area, p.area)
			break
		}
	}
	return out, err
}

// agrees is the RMS up to which a course agrees with the readings [Pa]: errors of
// up to half a division, evenly spread, have an RMS of that by the square root of
// three; noise beyond it shows in the best fit.
func (f *leakFit) agrees(best float64) float64 { return max(f.a.Resolves/math.Sqrt(3), 1.3*best) }

// boxFit is a linear least-squares fit whose coefficients stay between bounds.
type boxFit struct {
	low, high []float64
	n         int
	yy        float64
	xy        []float64
	xx        [][]float64
}

// add takes in one reading y with the values of the terms there.
func (b *boxFit) add(y float64, x ...float64) {
	if b.xy == nil {
		b.xy, b.xx = make([]float64, len(x)), make([][]float64, len(x))
		for i := range b.xx {
			b.xx[i] = make([]float64, len(x))
		}
	}
	b.n++
	b.yy += y * y
	for i := range x {
		b.xy[i] += x[i] * y
		for k := range x {
			b.xx[i][k] += x[i] * x[k]
		}
	}
}

// least is the least sum of squares, by moving one coefficient at a time to its
// best place: the sum is convex and the box is one of bounds, so that converges to
// the minimum (for instance Bertsekas, Nonlinear Programming, section 2.7, from
// memory).
func (b *boxFit) least() float64 {
	w := make([]float64, len(b.xy))
	const rounds = 400
	for range rounds {
		moved := 0.0
		for i := range w {
			if b.xx[i][i] == 0 {
				continue
			}
			rest := b.xy[i]
			for k := range w {
				if k != i {
					rest -= b.xx[i][k] * w[k]
				}
			}
			v := min(max(rest/b.xx[i][i], b.low[i]), b.high[i])
			moved = max(moved, math.Abs(v-w[i])/(b.high[i]-b.low[i]))
			w[i] = v
		}
		if moved < 1e-6 {
			break
		}
	}
	sum := b.yy
	for i := range w {
		sum -= 2 * w[i] * b.xy[i]
		for k := range w {
			sum += w[i] * w[k] * b.xx[i][k]
		}
	}
	return max(sum, 0)
}
