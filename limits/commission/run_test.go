package commission

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/checklist"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/limits/vent"
)

const day = "2026-06-01"

// bare are steps by hand, of items that ask for no figure.
func bare(answers []finding.Confirmation, ids ...string) Input {
	l := &launcher.Launcher{Checklist: answers}
	var items []finding.Item
	for _, id := range ids {
		items = append(items, finding.Item{ID: id, Title: finding.Words(id)})
	}
	return Input{Launcher: l, Day: day, Items: launcher.Answered(items, l, day), Emptying: &vent.Report{Target: 5000}}
}

// good closes each of the bare steps.
var good = map[string]string{finding.ItemFuses: "every circuit fused", finding.ItemLabels: "10 bar for air",
	finding.ItemDryControl: "nothing fires, silent", finding.ItemJamDrill: "all four practised it"}

func answer(id, value string) finding.Confirmation {
	if value == "seen" {
		value = good[id]
	}
	return finding.Confirmation{Item: id, Who: "AB, CD", Date: "2026-05-31", Value: value}
}

func statuses(r Run) (out []Status) {
	for i := range r.Steps {
		out = append(out, r.Steps[i].Status)
	}
	return out
}

// The first step that is not done is the next; those behind it are locked, whoever asks for them, and those before it may be
// done again. A step whose newest answer did not pass stops all later ones. With nothing open it is complete.
func TestOneStepAfterTheOther(t *testing.T) {
	ids := []string{finding.ItemFuses, finding.ItemLabels, finding.ItemDryControl, finding.ItemJamDrill} // not in the order of doing
	r := Of(bare(nil, ids...))
	assert.Equal(t, []Status{Next, Locked, Locked, Locked}, statuses(r))
	assert.Equal(t, finding.ItemLabels, r.Open().ID)
	assert.False(t, r.Complete)
	assert.Nil(t, r.Before(finding.ItemLabels))
	assert.Equal(t, finding.ItemLabels, r.Before(finding.ItemJamDrill).ID)

	r = Of(bare([]finding.Confirmation{answer(finding.ItemLabels, "seen"), answer(finding.ItemJamDrill, "seen")}, ids...))
	assert.Equal(t, []Status{Done, Next, Locked, Done}, statuses(r), "what is written into the design by hand closes its step")
	assert.Nil(t, r.Before(finding.ItemLabels), "again")
	assert.NotNil(t, r.Before(finding.ItemJamDrill), "not again before what comes before it")
	assert.Equal(t, 2, r.Count())

	r = Of(bare([]finding.Confirmation{answer(finding.ItemLabels, "failed: no label")}, ids...))
	assert.Equal(t, []Status{Failed, Locked, Locked, Locked}, statuses(r))
	assert.Nil(t, r.Before(finding.ItemLabels), "mended, it is done again")
	assert.NotNil(t, r.Before(finding.ItemFuses))

	old := answer(finding.ItemLabels, "failed: no label")
	old.Changed = true
	r = Of(bare([]finding.Confirmation{old}, ids...))
	assert.Equal(t, Next, r.Steps[0].Status, "of another build it neither passed nor failed")

	var all []finding.Confirmation
	for _, id := range ids {
		all = append(all, answer(id, "seen"))
	}
	said := Of(bare(all, ids...))
	assert.Nil(t, said.Open())
	assert.Equal(t, len(ids), said.Said)
	assert.Equal(t, finding.ItemLabels, said.OnlySaid().ID)
	assert.False(t, said.Complete, "what is only said is no proof")
	for i := range all {
		all[i].Recorded = true
	}
	in := bare(all, ids...)
	r = Of(in)
	assert.True(t, r.Complete)
	assert.Nil(t, r.Open())
	in.Refused = finding.Words("its tank may burst")
	assert.False(t, Of(in).Complete, "what must not be filled is not commissioned")
	in.Refused, in.NoAir = nil, finding.Words("its energies fail")
	r = Of(in)
	assert.False(t, r.Complete, "nor what has to be mended")
	assert.Equal(t, in.NoAir, r.Mend())
	in = bare(nil, ids...)
	in.NoAir = finding.Words("its energies fail")
	r = Of(in)
	assert.Equal(t, Next, r.Steps[0].Status)
	assert.Empty(t, r.Mend(), "labels are read without air")
	assert.Equal(t, in.NoAir, r.Stops(finding.ItemVentLow))
	assert.Empty(t, r.Stops(finding.ItemJamDrill))
	in = bare(nil, ids...)
	in.Refused = finding.Words("its tank may burst")
	assert.Equal(t, []Status{Locked, Locked, Locked, Locked}, statuses(Of(in)))
	assert.True(t, Of(Input{Launcher: &launcher.Launcher{}, Emptying: &vent.Report{}}).Complete, "without a step nothing is open")
}

// Each of its items is a step of the launcher, once, with who stands where, what to write down, and what to do when it is
// otherwise; what it does not have is left out with a reason.
func TestEveryStepSaysAllThatBelongsToIt(t *testing.T) {
	for name, l := range map[string]*launcher.Launcher{"whale": sample.Whale(), "vented tank": sample.VentedTank(),
		"rocket": sample.Rocket()} {
		in := inputOf(t, l)
		r := Of(in)
		assert.Len(t, r.Steps, len(in.Items), name)
		for i := range r.Steps {
			s := &r.Steps[i]
			p := PhaseOf(s.Phase)
			for what, text := range map[string]string{"title": s.Title.String(), "why": s.Why.String(), "do": s.Do.String(),
				"write": s.Read.String(), "outside": s.Outside.String(), "who": s.Who, "stand": p.Stand.String(), "phase": p.Title} {
				assert.NotEmpty(t, text, "%s: %s of %s", name, what, s.ID)
			}
			assert.Same(t, s, r.Step(s.ID))
		}
		assert.Empty(t, sample.FiguresInWords(r.Steps), name)
		assert.Empty(t, sample.FiguresInWords(r.LeftOut), name)
		for p := range checklist.Phases {
			assert.Empty(t, sample.FiguresInWords(PhaseOf(p)), name)
		}
		for _, id := range finding.ItemIDs() {
			told := slices.ContainsFunc(r.LeftOut, func(l LeftOut) bool { return l.ID == id })
			assert.NotEqual(t, r.Step(id) != nil, told, "%s: %s is a step, or left out with a reason", name, id)
		}
		for _, l := range r.LeftOut {
			assert.NotEmpty(t, l.Why, "%s: %s", name, l.ID)
			assert.Nil(t, r.Step(l.ID), "%s: %s", name, l.ID)
			assert.True(t, finding.IsItem(l.ID), l.ID)
		}
	}
}

// inputOf has the emptying of a launcher computed at a glance and a plan made by hand.
func inputOf(t *testing.T, l *launcher.Launcher) Input {
	t.Helper()
	a := assessed.Emptying(t, l, vent.FullSheets)
	with := assessed.WithFaults(l)
	with.Emptying, with.Loading, with.Limits, with.Day = a.Emptying, a.Loading, a.Limits, day
	plan := &measure.ShotPlan{Pressures: []measure.PlanPressure{{Gauge: 0.2e5, Shots: 5, Low: 2, Nominal: 3, High: 4, Stop: 4.5},
		{Gauge: 0.3e5, Shots: 5, Low: 3, Nominal: 4, High: 5, Stop: 5.6}, {Gauge: 0.4e5, Shots: 10, Low: 4, Nominal: 5, High: 6, Stop: 6.7}}}
	return Input{Launcher: l, Day: day, Items: checklist.Of(with), Emptying: a.Emptying, Parts: with.Parts(), Plan: plan}
}

// figure is a number with its unit, as the reader of designs finds it.
func figure(v float64, unit finding.Quantity) finding.Figure {
	return finding.Figure{Value: v, Unit: unit}
}

func bar(v float64) finding.Figure { return figure(v*1e5, finding.InPascalGauge) }

// A reading within the band of this launcher closes its step; one outside does not pass; one of another quantity, or without
// its unit, is no reading. The bands are the stated ones of the vented tank (sample), and those of the plan made by hand.
func TestAReadingIsJudged(t *testing.T) {
	l := sample.VentedTank()
	l.Paths = append(l.Paths, sample.Whale().Paths[reliefOf(t, sample.Whale())])
	l.Paths[len(l.Paths)-1].From = l.Supply.Feeds
	l.Volumes[0].RatedPressure = launcher.Exact("volumes.tank.rated_pressure", 10e5)
	r := Of(inputOf(t, l))
	relief := &l.Paths[len(l.Paths)-1]
	speed := func(v float64) finding.Figure { return figure(v, finding.InMetrePerSecond) }
	low, high := relief.SetPressure.Low/1e5, relief.SetPressure.High/1e5
	for _, c := range []struct {
		name, id string
		figures  []finding.Figure
		want     finding.Outcome
	}{
		{"it lifts in its band", finding.ItemReliefTest, []finding.Figure{bar(low), bar(low), bar(high), bar(high)}, finding.Closes},
		{"no full flow", finding.ItemReliefTest, []finding.Figure{bar(low), bar(low), bar(high)}, finding.Unusable},
		{"one lift too late, though before full flow", finding.ItemReliefTest, []finding.Figure{bar(low), bar(low), bar(high * 1.02)},
			finding.Failing},
		{"one too early", finding.ItemReliefTest, []finding.Figure{bar(low * 0.9)}, finding.Failing},
		{"in millimetres", finding.ItemReliefTest, []finding.Figure{figure(0.7, finding.InMetre)}, finding.Unusable},
		{"without a unit", finding.ItemReliefTest, nil, finding.Unusable},
		{"weak shots", finding.ItemShotsWeak, []finding.Figure{speed(2), speed(4), bar(0.2)}, finding.Closes},
		{"at no pressure that is told", finding.ItemShotsWeak, []finding.Figure{speed(2), speed(4)}, finding.Unusable},
		{"a weak shot too fast", finding.ItemShotsWeak, []finding.Figure{speed(3), speed(4.2)}, finding.Failing},
		{"a weak shot that stalls", finding.ItemShotsWeak, []finding.Figure{speed(0)}, finding.Failing},
		{"full shots", finding.ItemShots, []finding.Figure{speed(5), speed(5.2), bar(0.4)}, finding.Closes},
		{"one shot only", finding.ItemShots, []finding.Figure{speed(5), bar(0.4)}, finding.Unusable},
		{"weak shots at full pressure", finding.ItemShots, []finding.Figure{speed(3), speed(5), bar(0.4)}, finding.Failing},
		{"at the pressure of the plan", finding.ItemShotsWeak, []finding.Figure{speed(2), speed(4), bar(0.2)}, finding.Closes},
		{"within 5 % of it", finding.ItemShotsWeak, []finding.Figure{speed(2), speed(4), bar(0.21), bar(0.19)}, finding.Closes},
		{"at too high a pressure", finding.ItemShotsWeak, []finding.Figure{speed(2), speed(4), bar(0.212)}, finding.Failing},
		{"at too low a pressure", finding.ItemShots, []finding.Figure{speed(5), speed(5.2), bar(0.37)}, finding.Failing},
		{"at that of another step", finding.ItemShotsMiddle, []finding.Figure{speed(4), speed(4.1), bar(0.4)}, finding.Failing},
		{"energies", finding.ItemShotsMiddle, []finding.Figure{figure(0.1, finding.InJoule)}, finding.Unusable},
		{"it stays at zero", finding.ItemStaysEmpty, []finding.Figure{bar(0), figure(120, finding.InSecond)}, finding.Closes},
		{"for a minute", finding.ItemStaysEmpty, []finding.Figure{bar(0), figure(60, finding.InSecond)}, finding.Failing},
		{"nobody says for how long", finding.ItemStaysEmpty, []finding.Figure{bar(0)}, finding.Unusable},
		{"it comes back", finding.ItemStaysEmpty, []finding.Figure{bar(0.3)}, finding.Failing},
		{"in words", finding.ItemStaysEmpty, nil, finding.Unusable},
		{"the label holds it", finding.ItemLabels, []finding.Figure{bar(10)}, finding.Closes},
		{"a label far below", finding.ItemLabels, []finding.Figure{bar(10), bar(0.01)}, finding.Failing},
		{"the label in words", finding.ItemLabels, nil, finding.Unusable},
		{"drilled out", finding.ItemBore, []finding.Figure{figure(9e-3, finding.InMetre)}, finding.Failing},
	} {
		s := r.Step(c.id)
		require.NotNil(t, s, c.id)
		said := "as read, in five shots"
		switch c.id {
		case finding.ItemLabels:
			said = "as read, air"
		case finding.ItemReliefTest, finding.ItemBore, finding.ItemStaysEmpty:
			said = "as read"
		}
		a := answer(c.id, said)
		a.Figures = c.figures
		if n := len(c.figures); c.id == finding.ItemReliefTest && n > 3 { // the last is the full flow
			a.Beside = append(make([]string, n-1), " full by")
		}
		judged, err := r.Judge(s, &a, nil)
		require.NoError(t, err)
		assert.Equal(t, c.want, judged.Outcome, "%s: %s", c.name, judged.Says)
		if c.want == finding.Closes {
			assert.Equal(t, said, judged.Value, c.name)
		} else {
			assert.NotEmpty(t, judged.Says, c.name)
		}
		if c.want == finding.Failing {
			assert.Equal(t, "failed: "+said, judged.Value, c.name)
			a.Value = judged.Value
			assert.NotEmpty(t, finding.Refuses(&s.Item, &a, day), "%s: what failed closes its item nowhere", c.name)
		}
	}
	fast := answer(finding.ItemShotsWeak, "5 m/s")
	fast.Figures = []finding.Figure{speed(5)}
	judged, err := r.Judge(r.Step(finding.ItemShotsWeak), &fast, nil)
	require.NoError(t, err)
	assert.Contains(t, judged.Says.String(), "faster than the stop figure of 4.5 m/s")
	for _, date := range []string{"2026-06-02", "2025-05-01", "some day"} {
		late := answer(finding.ItemLabels, "seen")
		late.Date = date
		judged, err := r.Judge(r.Step(finding.ItemLabels), &late, nil)
		require.NoError(t, err)
		assert.Equal(t, finding.Void, judged.Outcome, date)
	}
}

func reliefOf(t *testing.T, l *launcher.Launcher) int {
	t.Helper()
	i := l.ReliefOnSupply()
	require.GreaterOrEqual(t, i, 0)
	return i
}

// A course read off the gauge is judged by the judges of logs: the expected course of the sheet agrees, the same course four
// times as slow does not, and three readings are too few to tell. The leak-down likewise: standing after the cooling it is
// tight, falling on it is not.
func TestACourseIsJudged(t *testing.T) {
	l := sample.VentedTank()
	in := inputOf(t, l)
	r := Of(in)
	course := func(sheet []vent.Reading, slower float64) (figures []finding.Figure) {
		for _, one := range sheet {
			figures = append(figures, figure(one.Time*slower, finding.InSecond), figure(one.Gauge, finding.InPascalGauge))
		}
		return figures
	}
	read := func(id string, figures []finding.Figure) Judged {
		a := answer(id, "as read")
		a.Figures = figures
		judged, err := r.Judge(r.Step(id), &a, nil)
		require.NoError(t, err)
		return judged
	}
	sheet := in.Emptying.Tests[0].Sheet
	once := read(finding.ItemVentTest, course(sheet, 1))
	assert.Equal(t, finding.Unusable, once.Outcome, "two runs are asked, as of a file of readings")
	good := read(finding.ItemVentTest, append(course(sheet, 1), course(sheet, 1)...))
	assert.Equal(t, finding.Closes, good.Outcome, good.Says)
	assert.Contains(t, good.Value, "agrees")
	slow := read(finding.ItemVentTest, append(course(sheet, 1), course(sheet, 4)...))
	assert.Equal(t, finding.Failing, slow.Outcome, slow.Says)
	assert.Contains(t, slow.Value, "failed: ")
	few := read(finding.ItemVentTest, course(sheet[:3], 1))
	assert.Equal(t, finding.Unusable, few.Outcome, "what cannot be told is neither passed nor failed")
	assert.Equal(t, finding.Unusable, read(finding.ItemLeakDown, course(in.Emptying.Leaks[0].Sheet[:3], 1)).Outcome, "nor here")

	require.NotEmpty(t, in.Emptying.Leaks)
	leak := in.Emptying.Leaks[0].Sheet
	tight := read(finding.ItemLeakDown, course(leak, 1))
	assert.Equal(t, finding.Closes, tight.Outcome, tight.Says)
	falling := slices.Clone(leak)
	for i := range falling {
		falling[i].Gauge *= 1 - 0.5*falling[i].Time/falling[len(falling)-1].Time
	}
	assert.Equal(t, finding.Failing, read(finding.ItemLeakDown, course(falling, 1)).Outcome)

	_, ok := checklist.Series([]finding.Figure{figure(1, finding.InSecond), bar(0.3)})
	assert.False(t, ok, "one reading is no course")
	_, ok = checklist.Series(append(course(sheet, 1), bar(0)))
	assert.False(t, ok, "a pressure without its time")
	_, ok = checklist.Series(append([]finding.Figure{bar(0.3), figure(1, finding.InSecond)}, course(sheet, 1)...))
	assert.False(t, ok, "the other way round")
}

// Of the fall of a sealed gauge one figure is enough: no more than what the gauge cannot tell and a room does in the time of
// the sheet. A leak that loses a hundredth of the reading a minute, the most that may hide in one called tight, falls
// further: Needed is counted with a fifth in hand.
func TestTheFallOfALeakDown(t *testing.T) {
	in := inputOf(t, sample.VentedTank())
	r := Of(in)
	s := r.Step(finding.ItemLeakDown)
	require.NotNil(t, s.Band)
	test := in.Emptying.Leaks[0]
	assert.Zero(t, s.Band.Low)
	assert.Equal(t, test.May, s.Band.High)
	falls := test.Loses * (test.Needed - test.Settled) / 60
	assert.Greater(t, falls, s.Band.High)
	for fall, want := range map[float64]finding.Outcome{0: finding.Closes, test.May: finding.Closes, falls: finding.Failing} {
		a := answer(finding.ItemLeakDown, "as read")
		a.Figures = []finding.Figure{figure(fall, finding.InPascalGauge)}
		for _, needed := range [][]float64{nil, {test.Settled, (test.Settled + test.Needed) / 2}} {
			for _, at := range needed {
				a.Figures = append(a.Figures, figure(at, finding.InSecond))
			}
			judged, err := r.Judge(s, &a, nil)
			require.NoError(t, err)
			assert.NotEqual(t, finding.Closes, judged.Outcome, "not for long enough")
		}
		a.Figures[2] = figure(test.Needed, finding.InSecond)
		judged, err := r.Judge(s, &a, nil)
		require.NoError(t, err)
		assert.Equal(t, want, judged.Outcome, fall)
	}
}

// Of restrictors each has its own bore, by its name: two that were mixed up are two that fit nowhere.
func TestEachRestrictorHasItsBore(t *testing.T) {
	in := inputOf(t, sample.VentedTank())
	mm := func(v ...float64) (figures []finding.Figure) {
		for _, one := range v {
			figures = append(figures, figure(one*1e-3, finding.InMetre))
		}
		return figures
	}
	bore := func(name string, low, high float64) finding.NamedPart {
		return finding.NamedPart{Name: name, Expected: *finding.FigureBetween(finding.InMetre, low*1e-3, high*1e-3)}
	}
	var s Step
	s.ID, s.Figure = finding.ItemBore, finding.FigureBetween(finding.InMetre, 0.9e-3, 1.3e-3)
	s.Parts = []finding.NamedPart{bore("bleed", 0.9, 1.1), bore("dump_bleed", 1.1, 1.3)}
	r := Of(in)
	for _, c := range []struct {
		figures []finding.Figure
		beside  []string
		want    finding.Outcome
	}{{mm(1, 1.2), []string{"bleed", "dump_bleed"}, finding.Closes}, {mm(1.2, 1), []string{" dump_bleed", " the bleed"}, finding.Closes},
		{mm(1.2, 1), []string{"bleed", "dump_bleed"}, finding.Failing}, {mm(1, 1.2), nil, finding.Unusable},
		{mm(1, 1.2), []string{"", "on bleed"}, finding.Unusable}, {mm(1, 1), []string{"bleed", "bleed"}, finding.Unusable},
		{mm(1), []string{"bleed"}, finding.Unusable}, {[]finding.Figure{bar(1)}, []string{"bleed"}, finding.Unusable}} {
		a := answer(s.ID, "as read")
		a.Figures, a.Beside = c.figures, c.beside
		judged, err := r.Judge(&s, &a, nil)
		require.NoError(t, err)
		assert.Equal(t, c.want, judged.Outcome, "%v: %s", c, judged.Says)
	}
}
