package doubt

import (
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// question is one doubt that a measurement settles: its item of the checklist, and how what was stated is put back. It stands whether the
// item was answered or not.
type question struct {
	item   finding.Item
	stands bool // what was stated does not count alone yet
	settle func(*launcher.Launcher)
}

// Items are the measurements that settle doubts of a launcher, as items of the checklist: each asks for what was stated.
func Items(l *launcher.Launcher) (out []finding.Item) {
	for _, q := range questions(l) {
		out = append(out, q.item)
	}
	return out
}

// Settled is the launcher with what was stated put back where the item that measures it was answered by a day as of
// launcher.AnswerOf; the launcher itself where none was.
func Settled(l *launcher.Launcher, day string) *launcher.Launcher {
	out := l
	for _, q := range questions(l) {
		if !q.stands || l.AnswerOf(q.item, day).Done == nil {
			continue
		}
		if out == l {
			out = l.Clone()
		}
		q.settle(out)
	}
	return out
}

func questions(l *launcher.Launcher) (out []question) {
	for _, one := range []func(*launcher.Launcher) (question, bool){passage, water, clicks, inked} {
		if q, asked := one(l); asked {
			out = append(out, q)
		}
	}
	return out
}

// said puts a band back as it was stated.
func said(s *launcher.Said, b *launcher.Band) {
	*b = s.Of(*b)
	*s = launcher.Said{}
}

// A seat passes a quarter to all of what an ideal nozzle of its bore does (common practice, no source; as a valve known by its seat only).
const leastOfSeat = 0.25

// passage gauges what a firing valve is as wide as, where it is told to pass far less than one for what it feeds.
func passage(l *launcher.Launcher) (question, bool) {
	var each []finding.Text
	q := question{item: finding.Item{ID: finding.ItemPassage, Verdict: finding.EnergyTotal,
		Title: finding.Words("Gauge the narrowest passage of the firing valve"),
		Why: finding.Words("It is told to pass far less than valves for such a barrel do; a slip in that figure, or Cv, Kv and bore mixed up, " +
			"makes every shot milder than it is. Until then as much as the barrel passes counts too."),
		How: finding.Words("Off the launcher, open (current on its coil, or taken apart): the largest drill shank that goes through its seat " +
			"or its narrowest port. The thread outside tells nothing."),
		Figure: finding.FigureBetween(finding.InMetre, math.Inf(1), 0), Source: "common practice, no source"}}
	var paths []int
	for i := range l.Paths {
		stated, _, other := OtherFlow(l, i)
		if !other {
			continue
		}
		paths, q.stands = append(paths, i), q.stands || l.Paths[i].FlowSaid.Doubted()
		one := finding.FigureBetween(finding.InMetre, launcher.Across(stated.Low), launcher.Across(stated.High/leastOfSeat))
		each = append(each, finding.Say("%s %s", l.Paths[i].Name, finding.Millimetre(one.Low).To(finding.Millimetre(one.High))))
		q.item.Parts = append(q.item.Parts, finding.NamedPart{Name: l.Paths[i].Name, Expected: *one})
		q.item.Figure.Low, q.item.Figure.High = min(q.item.Figure.Low, one.Low), max(q.item.Figure.High, one.High)
	}
	q.item.Figure.Least = len(paths)
	q.item.Expect = finding.Join(each, ", ")
	q.settle = func(w *launcher.Launcher) {
		for _, i := range paths {
			said(&w.Paths[i].FlowSaid, &w.Paths[i].Flow.Value)
		}
	}
	return q, len(paths) > 0
}

// waterDensity is that of water [kg/m3]; what a scale shows of a volume is nearer to it than its tolerance.
const waterDensity = 1000

// narrowestWater is how far apart the ends of a volume that was weighed full of water are at least [m3]: drops stay (own rule, no source).
const narrowestWater = 0.2e-6

// water weighs the dead volume, where the barrel leaves another.
func water(l *launcher.Launcher) (question, bool) {
	stated, _, other := OtherDeadVolume(l)
	if !other {
		return question{}, false
	}
	grams := func(v float64) finding.Shown { return finding.Grams.Of(waterDensity*v, 3) }
	it := finding.Item{ID: finding.ItemDeadVolume, Title: finding.Words("Weigh the dead volume full of water"), Verdict: finding.EnergyTotal,
		Why: finding.Words("The stated dead volume is not one that such a barrel leaves. Until then all that it leaves counts too."),
		How: finding.Words("Everything empty, the firing valve shut, the projectile seated as it is loaded, in a bag or a film where it soaks: " +
			"fill what is between them with water to the last bubble, let it out into a cup and weigh that; without the cup. 1 g is 1 mL. Dry " +
			"it. Three times."),
		Expect: finding.Say("%s", grams(stated.Low).To(grams(stated.High))), Source: "common practice, no source",
		Figure: &finding.Expected{Unit: finding.OnScale, Low: waterDensity * stated.Low, High: waterDensity * stated.High, Least: 2}}
	if stated.Width() < narrowestWater {
		it.Never = finding.Say("barrel.dead_volume is stated without a width, and no two weighings are alike: state what three come to, and "+
			"measure again; %s to either side is little", finding.Shown{Value: 1e-6, Unit: finding.Millilitres, Digits: 1})
		it.Expect = it.Never
	}
	return question{it, l.Barrel.DeadVolumeSaid.Doubted(), func(w *launcher.Launcher) {
		said(&w.Barrel.DeadVolumeSaid, &w.Barrel.DeadVolume)
	}}, true
}

// narrowestClicks is how far apart the ends of an opening time are at least that was heard by phone [s] (own rule, no source).
const narrowestClicks = 4e-3

// clicks times the opening of valves that are told to be far slower than their drive makes them.
func clicks(l *launcher.Launcher) (question, bool) {
	var each []finding.Text
	var paths []int
	stands := false
	it := finding.Item{ID: finding.ItemOpeningTime, Title: finding.Words("Time how long each slow valve takes to open"),
		Verdict: finding.EnergyTotal,
		Why: finding.Words("It is told to open far slower than coils and pilots make a valve: what a motor turns may, a slip of a digit may " +
			"not. Until then opening at once counts too."),
		How: finding.Words("No air, nothing loaded: film its spindle or indicator, or record its sound, from the command to fully open, ten " +
			"times, with a full and with a weak battery: the shortest of all counts."),
		Figure: finding.FigureBetween(finding.InSecond, math.Inf(1), 0), Source: "common practice, no source"}
	for i := range l.Paths {
		stated, other := OtherOpening(&l.Paths[i])
		if !other {
			continue
		}
		name := l.Paths[i].Name
		paths, stands = append(paths, i), stands || l.Paths[i].OpeningSaid.Doubted()
		each = append(each, finding.Say("%s %s", name, finding.Millisecond(stated.Low).To(finding.Millisecond(stated.High))))
		it.Parts = append(it.Parts, finding.NamedPart{Name: name, Expected: *finding.FigureBetween(finding.InSecond, stated.Low, stated.High)})
		it.Figure.Low, it.Figure.High = min(it.Figure.Low, stated.Low), max(it.Figure.High, stated.High)
		if stated.Width() < narrowestClicks {
			it.Never = finding.Say("paths.%s.opening_time is stated without a width, and no two openings are alike: state the shortest and the "+
				"longest of ten, and measure again", name)
		}
	}
	it.Figure.Least = len(paths)
	if it.Expect = finding.Join(each, ", "); len(it.Never) > 0 {
		it.Expect = it.Never
	}
	return question{it, stands, func(w *launcher.Launcher) {
		for _, i := range paths {
			said(&w.Paths[i].OpeningSaid, &w.Paths[i].OpeningTime)
		}
	}}, len(paths) > 0
}
