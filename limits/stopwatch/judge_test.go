package stopwatch

import (
	"encoding/csv"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
)

// madeLog reads the model's course with vents opened by a share, as a person
// would: up to a second late, with a gauge that is off at zero, to a fifth of a
// division, with noise and gaps.
func madeLog(t *testing.T, r *rand.Rand, share float64) vent.Log {
	t.Helper()
	l := sample.VentedTank()
	f := &logFit{l: l, a: &Answer{Volume: "tank", Target: 5000}, start: 1e5, length: 40, floor: math.Inf(-1)}
	c, err := f.course(share)
	require.NoError(t, err)
	late, zero := r.Float64(), (2*r.Float64()-1)*0.016*1.6e5*0.8
	var log vent.Log
	for run := range 1 + r.IntN(2) {
		for at := 0.0; at < 45; at += 0.5 + 1.5*r.Float64() {
			if at > 0 && r.IntN(8) == 0 {
				continue // looked away
			}
			g := c.At(at+late) + zero + 400*r.NormFloat64()
			log.Readings = append(log.Readings, vent.LogReading{Run: run, Time: at, Gauge: math.Round(g/1000) * 1000})
		}
	}
	return log
}

// logsMade is how many logs are made of each kind.
func logsMade() int {
	if os.Getenv("PUFFPROOF_LONG") != "" {
		return 100
	}
	if os.Getenv("PUFFPROOF_MORE") != "" {
		return 15
	}
	return 3
}

// The answer must be right in every log. The tolerance of the share, 12 %: clock and
// zero of the gauge are fitted with it, and 400 trial logs scattered by 1 %, 5 % at
// most; doubled for logs of few readings.
func TestLogsMadeFromTheModelAreJudgedRight(t *testing.T) {
	r := rand.New(rand.NewPCG(30, 4414))
	for i := range logsMade() {
		a, err := Judge(sample.VentedTank(), madeLog(t, r, 1), "")
		require.NoError(t, err)
		require.Equal(t, Agrees, a.Status, "log %d: %+v", i, a)
		require.InEpsilon(t, 1, a.Opening, 0.12, "log %d", i)

		a, err = Judge(sample.VentedTank(), madeLog(t, r, 0.7), "") // 30 % of the opening blocked
		require.NoError(t, err)
		require.Equal(t, Slower, a.Status, "log %d: %+v", i, a)
		require.InEpsilon(t, 0.7, a.Opening, 0.12, "log %d", i)
		require.InEpsilon(t, 1.2e-3*math.Sqrt(0.7), a.Bore, 0.06)
	}
}

func TestLogsThatAreNeverGood(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 4414))
	whole := madeLog(t, r, 1)
	cut := func(keep func(vent.LogReading) bool, change func(vent.LogReading) vent.LogReading) vent.Log {
		var out vent.Log
		for _, one := range whole.Readings {
			if keep(one) {
				out.Readings = append(out.Readings, change(one))
			}
		}
		return out
	}
	all := func(vent.LogReading) bool { return true }
	same := func(x vent.LogReading) vent.LogReading { return x }
	for _, c := range []struct {
		name string
		log  vent.Log
		want Status
	}{
		{"stops half way", cut(func(x vent.LogReading) bool { return x.Gauge > 1.5e4 }, same), StopsEarly},
		{"stays at a third", cut(all, func(x vent.LogReading) vent.LogReading { x.Gauge = math.Max(x.Gauge, 3e4); return x }), Stays},
		{"never falls", cut(all, func(x vent.LogReading) vent.LogReading { x.Gauge = 9e4; return x }), Stays},
		{"psi read as bar", cut(all, func(x vent.LogReading) vent.LogReading { x.Gauge *= 14.5; return x }), Inconsistent},
		{"minutes read as seconds", cut(all, func(x vent.LogReading) vent.LogReading { x.Time *= 60; return x }), Inconsistent},
		{"rises", cut(all, func(x vent.LogReading) vent.LogReading { x.Gauge = 9e4 - x.Gauge; return x }), Inconsistent},
		{"saw-tooth", cut(all, func(x vent.LogReading) vent.LogReading { x.Gauge = 9e4 - 8e4*math.Mod(x.Time/10, 1); return x }), Inconsistent},
		{"three readings", vent.Log{Readings: whole.Readings[:3]}, TooFew},
		{"none", vent.Log{}, TooFew},
		{"vent twice as wide", madeLog(t, r, 2.5), Faster},
	} {
		t.Run(c.name, func(t *testing.T) {
			a, err := Judge(sample.VentedTank(), c.log, "")
			require.NoError(t, err)
			require.Equal(t, c.want, a.Status, "%+v", a)
		})
	}
}

// The measured tank discharge (testdata/reference/README.md): 16.18 L, 0.20 m
// inside, 2.71 mm hole, 298 K, 1 bar around. Fitted by testdata/reference/
// generate_blowdown.py (set tank_best, natural convection, bulk properties) the discharge
// coefficient is 0.8689 and the pressures are off by 0.0297 bar; the publisher's own fit
// was 0.84. Here the clock and the gauge's zero are fitted too, which leaves less; a zero
// of a gauge of class 0.1, 0.01 bar, moves the coefficient by up to half a hundredth.
func TestMeasuredDischargeFitsItsCoefficient(t *testing.T) {
	l := sample.VentedTank()
	l.Ambient.Pressure, l.Ambient.Temperature = launcher.Exact("", 1e5), launcher.Exact("", 298)
	l.Ambient.Coldest, l.Ambient.Hottest = launcher.Exact("", 298), launcher.Exact("", 298)
	l.Volumes[0].Volume, l.Volumes[0].InnerDiameter = launcher.Exact("", 16.18e-3), launcher.Exact("", 0.200)
	l.Paths[1].Flow = sample.Orifice(2.71e-3, 0.84)
	l.Supply.DeadHead = launcher.Exact("", 7e5)
	l.Gauges[0].Range, l.Gauges[0].Class = launcher.Exact("", 1e6), 0.1
	a, err := Judge(l, measuredDischarge(t), "")
	require.NoError(t, err)
	require.InDelta(t, 0.8689, a.Cd, 0.005)
	require.Less(t, a.RMS, 0.0297e5)
	require.Equal(t, Agrees, a.Status, "%+v", a)
}

func measuredDischarge(t *testing.T) vent.Log {
	t.Helper()
	data, err := os.ReadFile("../../testdata/reference/air-tank-discharge.csv")
	require.NoError(t, err)
	r := csv.NewReader(strings.NewReader(string(data)))
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	var log vent.Log
	for _, row := range rows {
		if row[0] != "p_bar_abs" {
			continue
		}
		at, err := strconv.ParseFloat(row[1], 64)
		require.NoError(t, err)
		p, err := strconv.ParseFloat(row[2], 64)
		require.NoError(t, err)
		log.Readings = append(log.Readings, vent.LogReading{Time: at, Gauge: p*1e5 - 1e5})
	}
	require.Len(t, log.Readings, 15)
	return log
}

// Logs that look like an emptying but must not be called good. The whole log is
// the model's own, without noise; each change is one mistake of a person, a gauge
// or a launcher.
func TestLogsThatOnlyLookGood(t *testing.T) {
	l := sample.VentedTank()
	f := &logFit{l: l, a: &Answer{Volume: "tank", Target: 5000}, start: 1e5, length: 40, floor: math.Inf(-1)}
	c, err := f.course(1)
	require.NoError(t, err)
	made := func(change func(at, g float64) float64, more ...vent.LogReading) vent.Log {
		var log vent.Log
		for at := 0.0; at < 45; at += 1.5 {
			log.Readings = append(log.Readings, vent.LogReading{Time: at, Gauge: change(at, c.At(at))})
		}
		log.Readings = append(log.Readings, more...)
		return log
	}
	same := func(_, g float64) float64 { return g }
	for _, one := range []struct {
		name string
		log  vent.Log
		want Status
		says string
	}{
		{"untouched", made(same), Agrees, ""},
		{"comes back", made(same, vent.LogReading{Time: 60, Gauge: 3000}, vent.LogReading{Time: 80, Gauge: 12000}), Returns,
			"reads 0.120 bar later"},
		{"starts below the target", made(func(_, g float64) float64 { return g / 100 }), StartsLate, "units"},
		{"starts at a fifth", made(func(_, g float64) float64 { return g / 5 }), StartsLate, "too late"},
		{"held at 0.06 bar", made(func(_, g float64) float64 { return math.Max(g, 6000) }), Stays, "0.0600 bar"},
		{"the gauge shows too little", made(func(_, g float64) float64 { return g - 9000 }), SettlesOff, "-0.0900 bar"},
		{"one late reading above the design", made(func(at, g float64) float64 {
			if at > 40 {
				return 9000
			}
			return g
		}), Returns, ""},
		{"and rests on its pin", made(func(_, g float64) float64 { return math.Max(g-9000, 0) }), SettlesOff, "the zero is off"},
	} {
		t.Run(one.name, func(t *testing.T) {
			a, err := Judge(l, one.log, "")
			require.NoError(t, err)
			require.Equal(t, one.want, a.Status, "%+v", a)
			require.Contains(t, a.Says.String(), one.says)
		})
	}
	// Nothing read between a second and an hour: the time asked is not shown.
	gap := vent.Log{Readings: []vent.LogReading{{Time: 0, Gauge: c.At(0)}, {Time: 0.5, Gauge: c.At(0.5)}, {Time: 1, Gauge: c.At(1)},
		{Time: 2, Gauge: c.At(2)}, {Time: 300, Gauge: 0}, {Time: 301, Gauge: 0}}}
	a, err := Judge(l, gap, "")
	require.NoError(t, err)
	require.Equal(t, NotInTime, a.Status, "%+v", a)

	// A gauge that cannot tell the target from zero, or that hides it behind its pin.
	for _, change := range []func(g *launcher.GaugeSpec){
		func(g *launcher.GaugeSpec) { g.Class = 4 },
		func(g *launcher.GaugeSpec) { g.StopPin = launcher.Yes },
		func(g *launcher.GaugeSpec) { g.Graduation = launcher.Exact("", 1.1e4) },
	} {
		coarse := sample.VentedTank()
		change(&coarse.Gauges[0])
		a, err := Judge(coarse, made(same), "")
		require.NoError(t, err)
		require.NotEqual(t, Agrees, a.Status)
	}

	// One run of a vent that is half blocked among good ones.
	runs := made(same)
	narrow, err := f.course(0.5)
	require.NoError(t, err)
	for at := 0.0; at < 45; at += 1.5 {
		runs.Readings = append(runs.Readings, vent.LogReading{Run: 1, Time: at, Gauge: narrow.At(at)},
			vent.LogReading{Run: 2, Time: at, Gauge: c.At(at)})
	}
	a, err = Judge(l, runs, "")
	require.NoError(t, err)
	require.Equal(t, Slower, a.Status)
	require.Equal(t, 2, a.BadRun)
	require.Contains(t, a.Says.String(), "run 2 of 3")

	// Air that got no heat from the walls hides 30 % of a blocked vent.
	f.cold = true
	cold, err := f.course(0.7)
	require.NoError(t, err)
	var hidden vent.Log
	for at := 0.0; at < 45; at++ {
		hidden.Readings = append(hidden.Readings, vent.LogReading{Time: at, Gauge: cold.At(at + 0.5)})
	}
	a, err = Judge(l, hidden, "")
	require.NoError(t, err)
	require.NotEqual(t, Agrees, a.Status, "%+v", a)

	// Held below the target, but not at zero: a gauge of 0.5 % would show zero.
	fine := sample.VentedTank()
	fine.Gauges[0].Class, fine.Gauges[0].Graduation = 0.5, launcher.Exact("", 1e3)
	a, err = Judge(fine, made(func(_, g float64) float64 { return math.Max(g, 4000) }), "")
	require.NoError(t, err)
	require.Equal(t, SettlesOff, a.Status, "%+v", a)
	seldom := made(func(_, g float64) float64 { return math.Max(g, 3500) }, vent.LogReading{Time: 60, Gauge: 3500},
		vent.LogReading{Time: 200, Gauge: 3500})
	a, err = Judge(fine, seldom, "") // read ever less often
	require.NoError(t, err)
	require.Equal(t, SettlesOff, a.Status, "%+v", a)
	a, err = Judge(fine, made(same, vent.LogReading{Time: 60, Gauge: 4000}, vent.LogReading{Time: 80, Gauge: 4500}), "")
	require.NoError(t, err)
	require.Equal(t, Returns, a.Status, "below the target too")
	require.Contains(t, a.Says.String(), "0.0450 bar")
	var reversed vent.Log
	for i, r := range made(same).Readings {
		reversed.Readings = append(reversed.Readings, vent.LogReading{Run: i, Time: -r.Time, Gauge: r.Gauge}) // a run begins where time goes back
	}
	a, err = Judge(fine, reversed, "")
	require.NoError(t, err)
	require.Equal(t, TooFew, a.Status)
	require.Contains(t, a.Says.String(), "backwards")

	// What it says is a reading that was taken, and what it takes readings to tell.
	var short vent.Log
	for _, r := range made(same).Readings {
		if r.Gauge > 13500 {
			short.Readings = append(short.Readings, r)
		}
	}
	short.Readings = append(short.Readings, vent.LogReading{Time: short.Readings[len(short.Readings)-1].Time + 0.5, Gauge: 13500})
	a, err = Judge(l, short, "")
	require.NoError(t, err)
	require.Equal(t, StopsEarly, a.Status)
	require.Contains(t, a.Says.String(), "0.135 bar")
	require.Contains(t, a.Says.String(), "told apart to 0.05")
}

// The answer goes by the fit, on either side of each boundary. The vent of the tank,
// 1.2 mm within 0.05 with a Cd of 0.75 within 0.15, may have 0.735 to 1.302 of its
// nominal opening, so that from below 0.80 counts, own rule of this project.
func TestWhatALogFitMeans(t *testing.T) {
	const target = 5000
	for _, c := range []struct {
		name   string
		change func(f *logFit)
		want   Status
		says   string
	}{
		{"agrees", func(*logFit) {}, Agrees, "the opening is 100 % of the designed one (as a bore of about 1.20 mm instead of 1.20 mm)"},
		{"just wide enough", func(f *logFit) { f.a.Opening = 0.801 }, Agrees, ""},
		{"just too narrow", func(f *logFit) { f.a.Opening = 0.799 }, Slower, "80 % of the designed one (as a bore of about 1.07 mm instead " +
			"of 1.20 mm)"},
		{"just not too wide", func(f *logFit) { f.a.Opening = 1.30 }, Agrees, ""},
		{"just too wide", func(f *logFit) { f.a.Opening = 1.304 }, Faster, ""},
		{"no vent of this design", func(f *logFit) { f.a.Opening = 20.1 }, Inconsistent, "the opening would be 2000 %"},
		{"nor this", func(f *logFit) { f.a.Opening = 0.019 }, Inconsistent, ""},
		{"fits within", func(f *logFit) { f.a.RMS = 6000 }, Agrees, ""},
		{"fits no more", func(f *logFit) { f.a.RMS = 6001 }, Inconsistent, "the best fit is off by 0.0600 bar"},
		{"cold air hides nothing", func(f *logFit) { f.a.Least, f.a.LeastRMS = 0.761, 100 }, Agrees, ""},
		{"cold air hides a blocked vent", func(f *logFit) { f.a.Least, f.a.LeastRMS = 0.759, 120 }, Slower, "between 76 % and 100 %"},
		{"but does not fit", func(f *logFit) { f.a.Least, f.a.LeastRMS = 0.759, 121 }, Agrees, ""},
		{"zero within the gauge's error", func(f *logFit) { f.a.FreeZero = -3000 }, Agrees, ""},
		{"zero beyond it", func(f *logFit) { f.a.FreeZero = -3001 }, SettlesOff, "-0.0300 bar"},
		{"a reading above the design", func(f *logFit) { f.over, f.overBy = &vent.LogReading{Time: 40, Gauge: 9000}, 8000 }, SettlesOff,
			"it reads 0.0900 bar after 40.0 s, where the design has 0.0800 bar at most"},
		{"a gauge that tells the target", func(f *logFit) { f.blind, f.least = "half a division", target-1 }, Agrees, ""},
		{"one that does not", func(f *logFit) { f.blind, f.least = "half a division", target }, GaugeBlind,
			"may be 0.0500 bar (half a division)"},
		{"at the target just in time", func(f *logFit) { f.late[0] = 10 }, Agrees, ""},
		{"the late start of its clock counts", func(f *logFit) { f.late[0] = 10.1 }, NotInTime, "in run 1 no reading within 60.0 s"},
		{"starts where enough is seen", func(f *logFit) { f.runs[0][0].Gauge = 0.7 * 1e5 }, Agrees, ""},
		{"starts too late", func(f *logFit) { f.runs[0][0].Gauge = 0.699 * 1e5 }, StartsLate, "starts at 0.699 bar"},
		{"one of two runs starts too late", func(f *logFit) {
			late := slices.Clone(f.runs[0])
			late[0].Gauge = 0.699 * 1e5
			f.runs, f.late = [][]vent.LogReading{late, f.runs[0]}, []float64{0, 0}
		}, StartsLate, "starts at 0.699 bar"},
		{"back above the target", func(f *logFit) { f.runs[0][6].Gauge = 5700 }, Returns, "reads 0.0570 bar later"},
		{"up, but below the target", func(f *logFit) { f.runs[0][6].Gauge = 4900 }, Agrees, ""},
		{"up below the target, within the gauge's error", func(f *logFit) { f.runs[0][9].Gauge, f.runs[0][10].Gauge = 2999, 2999 }, Agrees,
			""},
		{"up below the target, by two readings beyond it", func(f *logFit) { f.runs[0][9].Gauge, f.runs[0][10].Gauge = 3001, 3001 }, Returns,
			"reads 0.0300 bar later"},
		{"stops above the target", func(f *logFit) { f.runs[0] = f.runs[0][:4] }, StopsEarly, "before the target of 0.0500 bar"},
	} {
		l := sample.VentedTank()
		f := &logFit{l: l, volume: 0, errors: 2500, step: 500, late: []float64{0},
			a: &Answer{Volume: "tank", Target: target, Opening: 1, Span: 1e5, RMS: 100,
				Least: 0.9, LeastRMS: 100, Resolves: 1000, Bore: math.NaN(), Cd: math.NaN()}}
		var run []vent.LogReading
		for i, g := range []float64{1e5, 6e4, 3e4, 1.5e4, 7e3, 4000, 2000, 1000, 0, 0, 0} {
			run = append(run, vent.LogReading{Time: 10 * float64(i), Gauge: g})
		}
		f.runs = [][]vent.LogReading{run}
		c.change(f)
		f.judge()
		require.Equal(t, c.want, f.a.Status, "%s: %s", c.name, f.a.Says.String())
		require.Contains(t, f.a.Says.String(), c.says, c.name)
	}
}

// A log may start a tenth, and the gauge's error, above the highest pressure that the volume ever holds, and no higher.
func TestALogThatStartsTooHighIsAnother(t *testing.T) {
	l := sample.VentedTank()
	top, known := vent.StartPressures(l)
	require.True(t, known)
	errors, _ := l.Gauges[0].ErrorSize()
	for above, fits := range map[float64]bool{-1: true, 1: false} {
		start := 1.1*top[0] + errors + above
		a := &Answer{Volume: "tank", Target: 5000}
		f := newLogFit(l, a, vent.Log{Readings: []vent.LogReading{{Gauge: start}, {Time: 10, Gauge: 5e4}, {Time: 20, Gauge: 1e4},
			{Time: 40, Gauge: 0}}})
		assert.Equal(t, fits, f != nil, "%v Pa", start)
		if !fits {
			assert.Equal(t, Inconsistent, a.Status)
			assert.Contains(t, a.Says.String(), "never holds more than")
		}
	}
}

// A reading counts as above the design where it is above the slow end by more than the gauge's error and a division.
func TestAReadingAboveTheSlowEnd(t *testing.T) {
	fit := func(last float64) *logFit {
		f := newLogFit(sample.VentedTank(), &Answer{Volume: "tank", Target: 5000}, vent.Log{Readings: []vent.LogReading{{Gauge: 1e5},
			{Time: 20, Gauge: 0}, {Time: 30, Gauge: 0}, {Time: 40, Gauge: last}}})
		require.NotNil(t, f)
		require.NoError(t, f.above())
		return f
	}
	far := fit(5e4)
	require.NotNil(t, far.over)
	allowed := far.overBy + far.errors + far.step
	assert.Positive(t, far.overBy)
	assert.Less(t, allowed, 5e4)
	assert.Nil(t, fit(allowed-1).over)
	require.NotNil(t, fit(allowed+1).over)
	assert.InDelta(t, 40, fit(allowed+1).over.Time, 0)
}

// The target of a log is that of the emptying: where none is stated it follows from the
// energy limit, and a press test on the checklist raises that, once its day has come.
func TestTheTargetOfALogFollowsTheChecklist(t *testing.T) {
	l := sample.VentedTank()
	l.Venting, l.Projectile.TipProof = nil, ""
	log := vent.Log{Readings: []vent.LogReading{{Time: 0, Gauge: 1e5}}} // too few: no fit is needed for this question
	targetOn := func(day string) float64 {
		a, err := Judge(l, log, day)
		require.NoError(t, err)
		return a.Target
	}
	rigid, _ := vent.Target(l, 0.08)
	resilient, _ := vent.Target(l, 0.5)
	require.Greater(t, resilient, 1.5*rigid, "else the test shows nothing")
	assert.InDelta(t, rigid, targetOn(""), 1e-9, "the word alone proves nothing")
	l.Checklist = []finding.Confirmation{{Item: finding.ItemTip, Who: "A. N.", Date: "2026-05-01",
		Value: sample.PressedWords, Figures: sample.Pressed()}}
	assert.InDelta(t, resilient, targetOn("2026-06-01"), 1e-9)
	assert.InDelta(t, rigid, targetOn("2026-04-01"), 1e-9, "the test is still to come")
}

// A weak pump that comes to rest against its bleed fills it no further than there: a run that begins so low began in time.
func TestARunBeginsWhereAWeakPumpComesToRest(t *testing.T) {
	l := sample.Rocket()
	l.Paths[1].Flow.Value = sample.Between("", 0.3e-3, 0.5e-3)
	f := &logFit{l: l, a: &Answer{}}
	r := l.Resting()
	rest := r.Shown(l)
	assert.Less(t, rest.Low, 0.95*rest.Nominal, "or nothing is asked")
	assert.InEpsilon(t, vent.StartShare*rest.Low, f.leastStart(), 1e-9)
}
