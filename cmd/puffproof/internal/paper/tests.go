package paper

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/checklist"
	"puffproof/limits/drill"
	"puffproof/limits/finding"
	"puffproof/limits/vent"
)

// tests is the chapter of what people confirm: checklist, emptying, raw data.
func (b *builder) tests() {
	b.chapter(8, "Tests")
	b.say("Each test is done by two people and written down with instrument, raw reading and date, on the day, also when it fails. " +
		fmt.Sprintf("An item holds for %d months (common practice, no source), and is void when the build changes in a way that bears on it.",
			finding.ItemValidMonths))
	b.answered()
	b.commissioning()
}

// faultsTried is a sheet.
func (b *builder) faultsTried() {
	if stop := b.notBefore(); stop != "" {
		b.say(stop + ": until then no fault is tried on it.")
		return
	}
	b.section("Faults tried")
	t := document.Table{Caption: "Faults tried on the real launcher, with nothing loaded and nobody near",
		Head: []string{"Fault", "Expected", "Seen", "Date, two initials"}, Shape: document.Blanks}
	for _, tried := range []string{"plug pulled while it charges", "plug pulled while armed", "stop pressed while it charges",
		"where there is a remote: its battery taken out while armed"} {
		t.Rows = append(t.Rows, []document.Text{document.Own(tried),
			document.Own("nothing fires; gauge to the target within the time of the stopwatch sheet"), nil, nil})
	}
	if b.hasRelief() && len(drill.NoBridging(b.in.Launcher)) == 0 {
		t.Rows = append(t.Rows, []document.Text{document.Own("switch held closed"), document.Own("relief valve lifts and holds"), nil, nil})
	}
	t.Rows = append(t.Rows, []document.Text{nil, nil, nil, nil})
	b.add(t)
}

// answered is the checklist in short: each item, and the answer that there is. In full, with how and what to expect, it is in the
// appendix.
func (b *builder) answered() {
	t := document.Table{Caption: "What was tested and confirmed; open items first. How each is done, and what to expect, stands in the " +
		"appendix.",
		Head: []string{"Item", "Reading or answer", "Who, date"}, Widths: []int{66, 20, 14}}
	for _, open := range []bool{true, false} {
		for _, it := range b.in.Report.Items {
			if (it.Done == nil) != open {
				continue
			}
			title := strings.TrimRight(b.text(it.Title), ". ") + " "
			d := it.Done
			if d == nil {
				t.AddToned(show.Open, document.Join(document.AsStrong("OPEN "), title, document.AsCode(it.ID)), nil, nil)
				continue
			}
			who := document.Join(document.AsGiven(d.Who), " ", document.AsGiven(d.Date))
			if d.Said() {
				who = document.Join(who, "; "+show.SaidOnly)
			}
			t.AddToned(show.Good, document.Join("DONE ", title, document.AsCode(it.ID)), document.AsGiven(dash(b.text(d.Says()))), who)
		}
	}
	if len(t.Rows) > 0 {
		b.add(t)
	}
}

// checklist has a box, a name and a date for each item; open ones first.
func (b *builder) checklist() {
	b.section("Checklist in full")
	t := document.Table{Caption: "Open items first. Written by the person who did the test, initialled by the one who watched.",
		Head: []string{"Item", "How", "Expected", "Instrument, reading", "Who", "Date, two initials"}, Widths: []int{25, 29, 17, 11, 8, 10}}
	for _, open := range []bool{true, false} {
		for _, it := range b.in.Report.Items {
			if (it.Done == nil) != open {
				continue
			}
			row := []document.Text{document.Join(document.AsStrong("□ OPEN: "+b.text(it.Title)+". "), b.text(it.Why)+" ", document.AsCode(it.ID)),
				document.Own(b.text(it.How)), document.Own(dash(b.text(it.Expect))), nil, nil, nil}
			tone := show.Open
			if len(it.OpenWhy) != 0 {
				row[0] = document.Join(row[0], " Still open: "+b.text(it.OpenWhy)+".")
			}
			if stop := b.notBefore(); stop != "" && it.Done == nil && !checklist.Empty(it.ID) {
				row[1], row[2] = document.Own(stop+"."), document.Own("–")
			}
			if d := it.Done; d != nil {
				tone = show.Good
				row[0] = document.Join(document.AsStrong("DONE: "+b.text(it.Title)+". "), b.text(it.Why)+" ", document.AsCode(it.ID))
				row[3], row[4], row[5] = document.AsGiven(dash(b.text(d.Says()))), document.AsGiven(d.Who), document.AsGiven(d.Date)
				if d.Said() {
					row[5] = document.Join(row[5], "; "+show.SaidOnly)
				}
			}
			t.Rows, t.Tones = append(t.Rows, row), append(t.Tones, tone)
		}
	}
	if len(t.Rows) > 0 {
		b.add(t)
	}
}

// emptying is the test sheet of venting: what a gauge should read at which time.
func (b *builder) emptying() {
	e, in := b.in.Vent, b.in
	if e == nil {
		return
	}
	b.section("Emptying on shutdown and without power")
	if len(e.Trouble) != 0 {
		b.say("Not computed: " + b.text(e.Trouble) + ".")
		return
	}
	b.say(fmt.Sprintf("Counted from %s (%s). Empty means %s gauge or less (%s).", in.Units.Worst(quantity.Gauge, e.Start),
		b.text(e.StartWhy),
		in.asStated(quantity.Pressure, e.Target), b.text(e.TargetWhy)))
	b.verdictLines("vent.shutdown", "vent.power-loss", "vent.trapped", "vent.points", "gauge.readable")
	t := document.Table{Caption: "Time until empty, from every state",
		Head: []string{"Scenario", "Volume", "From", "Slowest", "Expected", "Fastest", "Result"}, Widths: []int{26, 14, 13, 12, 12, 11, 12}}
	for _, c := range b.alike(e.Cases) {
		tone := show.Neutral
		if c.Status != vent.Vented {
			tone = show.Bad
		}
		f := b.caseFigures(c)
		t.AddToned(tone, c.Scenario, document.AsGiven(c.Volume), f[0], f[1], f[2], f[3], string(c.Status))
	}
	b.add(t)
	b.curves()
}

// emptyingSheets are the tables of readings to take to the launcher.
func (b *builder) emptyingSheets() {
	if b.in.Vent == nil || len(b.in.Vent.Trouble) != 0 {
		return
	}
	b.section("Sheets of emptying and leak-down")
	if stop := b.notBefore(); stop != "" {
		b.say(stop + ": until then there is no sheet to fill in.")
		return
	}
	b.sheets()
	b.leakSheets()
}

// alike puts cases of one kind and volume that say the same, as it is shown, into one.
func (b *builder) alike(cases []vent.Case) []vent.Case {
	var out []vent.Case
	for _, c := range cases {
		i := slices.IndexFunc(out, func(o vent.Case) bool {
			return o.Kind == c.Kind && o.Volume == c.Volume && o.Status == c.Status && b.caseFigures(o) == b.caseFigures(c)
		})
		if i < 0 {
			out = append(out, c)
			continue
		}
		_, from, _ := strings.Cut(c.Scenario, " from ")
		out[i].Scenario += ", " + from
	}
	return out
}

// caseFigures are the figures of an emptying as they are shown: from which pressure, slowest, expected, fastest.
func (b *builder) caseFigures(c vent.Case) [4]string {
	return [4]string{b.in.Units.Worst(quantity.Gauge, c.Start), b.in.timeText(c.Slowest), b.in.timeText(c.Expected), b.in.timeText(c.Fastest)}
}

// curves are the courses from the highest pressure that a fault can leave, for one
// scenario of each kind: the others are slower or faster by the table above.
// Nobody sets that pressure up: the tests begin at the cut-out.
func (b *builder) curves() {
	shown := map[vent.Kind]string{}
	var done []vent.Case
	for _, c := range b.in.Vent.Cases {
		if len(c.Sheet) < 2 || c.Start <= b.in.Vent.Target {
			continue
		}
		if first, ok := shown[c.Kind]; ok && first != c.Scenario {
			continue
		}
		shown[c.Kind] = c.Scenario
		if slices.ContainsFunc(done, func(d vent.Case) bool { return d.Volume == c.Volume && slices.Equal(d.Sheet, c.Sheet) }) {
			continue
		}
		done = append(done, c)
		b.curve(c)
	}
}

// sheets are the tables to take to the launcher, one for each vessel: from the
// pressure at which the supply stops by itself.
func (b *builder) sheets() {
	for _, t := range b.in.Vent.Tests {
		if len(t.Sheet) < 2 || t.Start <= b.in.Vent.Target {
			continue
		}
		b.sheet(t)
	}
}

// legible cuts a sheet behind the second reading whose highest value is empty.
func legible(all []vent.Reading, target float64) []vent.Reading {
	empty := 0
	for i, r := range all {
		if r.High <= target {
			if empty++; empty == 2 {
				return all[:i+1]
			}
		}
	}
	return all
}

// drawn cuts a course a little behind where its highest value is empty.
func drawn(all []vent.Reading, target float64) []vent.Reading {
	for i, r := range all {
		if r.High <= target {
			return all[:min(len(all), i+i/8+2)]
		}
	}
	return all
}

// curve draws one course of emptying.
func (b *builder) curve(c vent.Case) {
	in := b.in
	volume := document.AsGiven(c.Volume).String()
	axis := in.Units.Axis(quantity.Gauge, c.Start)
	var x, y, low, high []float64
	for _, r := range drawn(c.Curve(), in.Vent.Target) {
		x, y = append(x, r.Time), append(y, axis.Of(r.Gauge))
		low, high = append(low, axis.Of(r.Low)), append(high, axis.Of(r.High))
	}
	marks := []figure.ChartLimit{{Name: "empty", At: axis.Of(in.Vent.Target)}}
	note := ""
	if w := in.Vent.Within; !math.IsNaN(w) {
		note = " Allowed: " + in.asStated(quantity.Time, w) + "."
		if w <= 1.5*x[len(x)-1] {
			marks = append(marks, figure.ChartLimit{Name: "time allowed", At: w, Vertical: true})
		}
	}
	chart := figure.Chart{X: "Time after the command, s", Y: "Gauge on " + volume + ", " + axis.Name,
		Lines: []figure.ChartLine{{Name: "expected", X: x, Y: y, Low: low, High: high}}, Limits: marks}
	b.draw(c.Scenario+", "+volume+": computed from the highest pressure that a fault can leave, "+in.Units.Worst(quantity.Gauge, c.Start)+
		"; not a test to do. Band of the tolerances."+note,
		fmt.Sprintf("Gauge reading falling from %s to %s or less. Time for it: expected %s, slowest %s.",
			in.Units.Near(quantity.Gauge, c.Start), in.Units.Near(quantity.Gauge, in.Vent.Target), in.timeText(c.Expected), in.timeText(c.Slowest)),
		chart.Draw)
}

// sheet is one table to fill in beside the launcher.
func (b *builder) sheet(s vent.StopwatchTest) {
	in := b.in
	readings := slices.Clone(legible(s.Sheet, in.Vent.Target))
	for i := range readings { // no gauge shows less than nothing
		r := &readings[i]
		r.Low, r.Gauge, r.High = max(0, r.Low), max(0, r.Gauge), max(0, r.High)
	}
	b.gaugeSheet("Stopwatch test, gauge on "+document.AsGiven(s.Volume).String(),
		". "+in.Launcher.HowFilled("")+", arm, cut the power, nothing loaded: start the stopwatch then.",
		s.Start, readings, quantity.Tenths)
	if vent.Filmed(readings) {
		b.say(show.FilmIt())
	}
	words := ""
	if s.Unseen {
		words = show.ReadBy(&s)
	}
	switch {
	case s.Trapped || math.IsInf(s.Slowest, 1):
		words += "It does not reach the target by itself."
	default:
		words += show.AtMostToTarget(in.Units, s.Slowest) + show.Levelled(in.Units, in.Vent, s.Volume)
	}
	if s.Rebound > in.Vent.Target {
		words += " " + show.ComesBack(in.Units, s.Rebound)
	}
	b.say(words)
}
