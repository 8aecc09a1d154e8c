package vent

import (
	"math"
	"slices"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// certain tells whether it leaks beyond doubt: the readings after the cooling
// fall, or the whole fall is more than any cooling explains.
func (f *leakFit) certain(late [3]float64) bool {
	a := f.a
	if a.Least.Area <= 0 {
		return false
	}
	return late[0] > 0 || slices.ContainsFunc(f.runs, func(run []LogReading) bool {
		return run[0].Gauge-run[len(run)-1].Gauge > a.Cooling+a.Drift+2*a.Resolves
	})
}

// judge draws the answer from the fit, the worst news first.
func (f *leakFit) judge() error {
	a := f.a
	late, err := f.scan(afterCooling)
	if err != nil {
		return err
	}
	enough := true
	for _, run := range f.runs {
		enough = enough && len(f.late(run)) >= leastLate
	}
	if enough { // what agrees with the readings after the cooling may hide
		if a.Most, err = f.m.size(late[2], a.Start); err != nil {
			return err
		}
	}
	f.words(late, enough)
	if a.Status == LeakLeaks || a.Status == LeakTight {
		return f.consequences()
	}
	return nil
}

// words chooses the status and says why.
func (f *leakFit) words(late [3]float64, enough bool) {
	a := f.a
	say := func(s LeakStatus, format string, args ...any) {
		a.Status, a.Says = s, finding.Say("%s: ", s).Say(format, args...).Say(".")
	}
	span := a.Start - a.End
	low, back := f.comesBack()
	switch {
	case back-low > f.mayRise():
		say(LeakInconsistent,
			"it falls to %s and comes back to %s with the supply off, further than twice the error of the gauge and a room that "+
				"warms up: nothing that cools or leaks does that. Something fed it, a reading is wrong, or the gauge sticks; read it again with the "+
				"supply unplugged", AsRead(low), AsRead(back))
	case a.RMS > max(2.5*a.Resolves, leakMisfit*span):
		say(LeakInconsistent, "no leak and no cooling makes such a course: the best fit is off by %s; it falls by steps, a valve was opened, "+
			"or the wrong file or units", AsRead(a.RMS))
	case f.certain(late):
		f.leaks(say)
	case a.Length < a.Settled || !enough:
		say(LeakCannotTell, "the cooling after the fill goes on for up to %s on this gauge and may take the reading from %s to %s; the log "+
			"has %s and too few readings after that. Read for %s",
			Minutes(a.Settled), AsRead(a.Start), AsRead(a.Start-a.Cooling), Minutes(a.Length), f.howLong())
	case f.stuck():
		say(LeakCannotTell, "the reading never moves, though the cooling after the fill should have shown: a needle that sticks reads the "+
			"same. Tap the gauge, and begin at the cut-out")
	case a.Least.Area > 0:
		say(LeakCannotTell,
			"it falls otherwise than by cooling, but no further than cooling could: read again for %s, beginning at the cut-out",
			f.howLong())
	case f.lateFall() > a.Resolves:
		say(LeakCannotTell, "it stands still and then falls by %s, more than a reading can be off: a leak that opens late, or a gauge that "+
			"sticks. Read again for %s", AsRead(f.lateFall()), f.howLong())
	case !(a.Most.Minute <= tightLoss*a.Start):
		say(LeakCannotTell, "readings are right to %s only, so a leak of up to %s a minute could hide. Read for %s",
			AsRead(a.Resolves), AsRead(a.Most.Minute), f.howLong())
	default:
		say(LeakTight, "no leak beyond what the gauge can show. What could hide is at most a hole of %s effective, which loses %s in the "+
			"first minute (a needle that sticks shows none: tap the gauge while reading)", boreOf(a.Most), AsRead(a.Most.Minute))
	}
}

// comesBack is the deepest dip of a run, from its reading to the lower of the highest before and after it [Pa gauge]. Gas that cools only
// falls, gas that warms only rises, and where it leaks too it rises first.
func (f *leakFit) comesBack() (low, back float64) {
	for _, run := range f.runs {
		before := math.Inf(-1)
		for i, r := range run {
			after := math.Inf(-1)
			for _, later := range run[i:] {
				after = max(after, later.Gauge)
			}
			if top := min(before, after); top-r.Gauge > back-low {
				low, back = r.Gauge, top
			}
			before = max(before, r.Gauge)
		}
	}
	return low, back
}

// mayRise is how far a reading may come back with the supply off [Pa]: twice what the gauge may be off (own rule of this project), and
// what the room does.
func (f *leakFit) mayRise() float64 {
	size := max(f.a.Resolves, f.zero())
	return 2*size + f.a.Drift
}

// lateFall is by how much the end of a run lies below the begin of what follows the
// cooling, two readings each [Pa].
func (f *leakFit) lateFall() float64 {
	most := 0.0
	for _, run := range f.runs {
		if late := f.late(run); len(late) >= 4 {
			most = max(most, MeanGauge(late[:2])-MeanGauge(late[len(late)-2:]))
		}
	}
	return most
}

// leaks says how large the leak is.
func (f *leakFit) leaks(say func(LeakStatus, string, ...any)) {
	a := f.a
	say(LeakLeaks, "as through a hole of %s effective (%s to %s), which loses %s in the first minute from %s",
		boreOf(a.Bore), boreOf(a.Least), boreOf(a.Most), AsRead(a.Bore.Minute), AsRead(a.Start))
	if math.IsInf(a.Most.Area, 1) {
		say(LeakLeaks, "as through a hole of %s effective or more, which loses %s in the first minute from %s",
			boreOf(a.Least), AsRead(a.Bore.Minute), AsRead(a.Start))
	}
}

// howLong says how long to read, or that this gauge is too coarse.
func (f *leakFit) howLong() finding.Text {
	if math.IsInf(f.a.Needed, 1) {
		return finding.Say("longer than an hour with this gauge: it is too coarse; one that is read to %s would do in ten minutes",
			AsRead(f.finer()))
	}
	return finding.Say("at least %s", Minutes(f.a.Needed))
}

// finer is the error of a reading with which ten minutes after the cooling do [Pa].
func (f *leakFit) finer() float64 { return max((10*tightLoss*f.a.Start/1.2-f.a.Drift)/hidingFall, 0) }

// stuck tells a log whose reading never moves, though the expected cooling would
// take it further than a division.
func (f *leakFit) stuck() bool {
	moves := func(run []LogReading) bool {
		return slices.ContainsFunc(run, func(r LogReading) bool { return r.Gauge != run[0].Gauge })
	}
	return !(f.m.expectedWarmth()*f.a.Cooling < 2*f.a.Resolves) && !slices.ContainsFunc(f.runs, moves)
}

// consequences adds how often the supply restarts and what a leak could reach.
func (f *leakFit) consequences() error {
	a, m := f.a, f.m
	size := a.Bore
	if a.Status == LeakTight {
		size = a.Most
	}
	if s := f.l.Switch; s != nil && s.CutIn.Set && f.l.Sensed() == a.Volume {
		watch := []pneumatics.Watch{{Volume: m.volume, Pressure: m.c.Ambient.Pressure + s.CutIn.Nominal}}
		r, _, err := m.run(size.Area, s.CutOut.Nominal, 0, pneumatics.Options{Watch: watch}, longestLeak)
		if err != nil {
			return err
		}
		a.Restart = OrInf(r.WatchTimes[0])
	}
	for i := range f.l.Paths {
		p := &f.l.Paths[i]
		if from := f.l.Node(p.From); from < 0 || !m.joined[from] || p.To == "atmosphere" {
			continue
		}
		past := LeakPast{Path: p.Name, To: p.To, Fills: math.NaN()}
		if p.To == "barrel" {
			past.Hold, past.Fills = CreepsOut(f.l, size.Air)
		}
		a.Past = append(a.Past, past)
	}
	a.Says = a.Says.And(f.where())
	return nil
}

// longestLeak ends the wait for the cut-in [s].
const longestLeak = 24 * 3600.0

// CreepsOut is the pressure that moves a loaded projectile held as stated [Pa
// gauge] and the time in which a leak of so much free air [m3/s] fills the dead
// volume to it [s]:
//
//	t = V p/(pa q)
//
// with a projectile that lets nothing past, and gas as cold as the walls.
func CreepsOut(l *launcher.Launcher, air float64) (hold, seconds float64) {
	b := l.BarrelAt()
	hold = b.Breakaway / b.Area
	return hold, b.DeadVolume * hold / (l.Ambient.Pressure.Nominal * air)
}

// where says what a leak does, by where it goes: a log cannot tell that.
func (f *leakFit) where() finding.Text {
	a := f.a
	if a.Status != LeakLeaks {
		return nil
	}
	var says finding.Text
	switch {
	case math.IsInf(a.Restart, 1):
		says = finding.Words(" It takes more than a day from the cut-out to the cut-in.")
	case !math.IsNaN(a.Restart):
		says = finding.Say(" From the cut-out to the cut-in it takes %s: that often the supply starts by itself.", Minutes(a.Restart))
	}
	says = says.Say(" Where it goes a log does not tell: soapy water on every joint and outlet.")
	for _, p := range a.Past {
		if p.To != "barrel" {
			continue
		}
		says = says.Say(" If it goes past paths.%s it pushes behind a loaded projectile: the %s that moves one are there after %s. Do not "+
			"load before it is mended.", p.Path, AsRead(p.Hold), Minutes(p.Fills))
	}
	return says
}

// JudgeLeakDown says whether a sealed launcher leaks: charged to its cut-out, in
// state armed, supply off, nothing loaded. The readings begin at the cut-out and
// go on for some minutes.
//
// Gas that a pump has just compressed is warm. As it cools the reading falls
// without any leak, and the room may change by RoomDrift. What remains is fitted
// by one orifice more in the circuit, from the volume that is read to the
// atmosphere. Whether it leaks is decided by the readings after the cooling, or by
// a fall that no cooling can explain: how fast the gas cools is known to a factor
// of two only.
func JudgeLeakDown(l *launcher.Launcher, log Log) (*LeakAnswer, error) {
	nan := LeakSize{math.NaN(), math.NaN(), math.NaN()}
	a := &LeakAnswer{Name: log.Name, Volume: LogVolume(l, log), Least: nan, Bore: nan, Most: nan, RMS: math.NaN(), Restart: math.NaN(),
		Needed: math.NaN(), Settled: math.NaN(), Cooling: math.NaN()}
	f, why, err := newLeakFit(l, a, log)
	if err != nil || len(why) > 0 {
		a.Says = finding.Say("%s: %s.", a.Status, why)
		return a, err
	}
	if err := f.fit(); err != nil {
		return nil, err
	}
	if err := f.judge(); err != nil {
		return nil, err
	}
	if unseen := f.m.unseen(); a.Status == LeakTight && unseen != "" {
		a.Says = a.Says.Say(" The gauge does not see %s, which state armed shuts off from it: nothing is said about that.", unseen)
	}
	return a, nil
}
