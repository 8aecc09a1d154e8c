package document

import (
	"fmt"
	"math"
	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"slices"
	"strconv"
	"strings"
)

// tests is the chapter of what people confirm: checklist, emptying, raw data.
func (b *builder) tests() {
	b.chapter(8, "Tests")
	b.say(own("Each test is done by two people and written down with instrument, raw reading and date, on the day, also when it fails. " +
		fmt.Sprintf("An item holds for %d months (common practice, no source), and is void when the build changes in a way that bears on it.", launcher.ItemValidMonths)))
	b.checklist()
	b.emptying()
	b.measurements()
	if stop := b.notBefore(); stop != "" {
		b.say(own(stop + ": until then no fault is tried on it."))
		return
	}
	b.section("Faults tried")
	b.add(Table{Caption: "Faults tried on the real launcher, with nothing loaded and nobody near", Head: []string{"Fault", "Expected", "Seen", "Date, two initials"}, Shape: Blanks,
		Rows: [][]Text{{own("mains pulled while armed"), own("gauge to the target within the time of the stopwatch sheet"), nil, nil}, {own("switch held closed"), own("relief valve lifts and holds"), nil, nil}, {nil, nil, nil, nil}}})
}

// checklist has a box, a name and a date for each item; open ones first.
func (b *builder) checklist() {
	b.section("Checklist")
	t := Table{Caption: "Open items first. Written by the person who did the test, initialled by the one who watched.",
		Head: []string{"Item", "How", "Expected", "Instrument, reading", "Who", "Date, two initials"}, Widths: []int{25, 29, 17, 11, 8, 10}}
	for _, open := range []bool{true, false} {
		for _, it := range b.in.Report.Items {
			if (it.Done == nil) != open {
				continue
			}
			row := []Text{join(strong("□ OPEN: "+it.Title+". "), own(it.Why+" "), code(it.ID)), own(it.How), own(dash(it.Expect)), nil, nil, nil}
			tone := Open
			if it.OpenWhy != "" {
				row[0] = join(row[0], own(" Still open: "+it.OpenWhy+"."))
			}
			if stop := b.notBefore(); stop != "" && it.Done == nil && !doneEmpty(it.ID) {
				row[1], row[2] = own(stop+"."), own("–")
			}
			if d := it.Done; d != nil {
				tone = Good
				row[0] = join(strong("DONE: "+it.Title+". "), own(it.Why+" "), code(it.ID))
				row[3], row[4], row[5] = given(dash(d.Value)), given(d.Who), given(d.Date)
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
	if e.Trouble != "" {
		b.say(own("Not computed: " + e.Trouble + "."))
		return
	}
	b.say(own(fmt.Sprintf("Counted from %s (%s). Empty means %s gauge or less (%s).", in.worst(unit.Pressure, e.Start), e.StartWhy,
		strings.TrimSuffix(in.near(unit.Pressure, e.Target), " gauge"), e.TargetWhy)))
	for _, id := range []string{"vent.shutdown", "vent.power-loss", "vent.trapped", "vent.points", "gauge.readable"} {
		if v, ok := b.verdict(id); ok {
			b.verdictLine(v)
		}
	}
	t := Table{Caption: "Time until empty, from every state", Head: []string{"Scenario", "Volume", "From", "Slowest", "Expected", "Fastest", "Result"}, Widths: []int{26, 14, 13, 12, 12, 11, 12}}
	for _, c := range alike(e.Cases) {
		t.Rows = append(t.Rows, []Text{own(c.Scenario), given(c.Volume), own(in.worst(unit.Pressure, c.Start)), own(in.timeText(c.Slowest)), own(in.timeText(c.Expected)), own(in.timeText(c.Fastest)), own(string(c.Status))})
		tone := Neutral
		if c.Status != vent.Vented {
			tone = Bad
		}
		t.Tones = append(t.Tones, tone)
	}
	b.add(t)
	b.curves()
	if stop := b.notBefore(); stop != "" {
		b.say(own(stop + ": until then there is no sheet to fill in."))
		return
	}
	b.sheets()
	b.leakSheets()
}

// alike puts cases of one kind and volume that say the same into one.
func alike(cases []vent.Case) []vent.Case {
	var out []vent.Case
	for _, c := range cases {
		i := slices.IndexFunc(out, func(o vent.Case) bool {
			return o.Kind == c.Kind && o.Volume == c.Volume && o.Start == c.Start && o.Status == c.Status && o.Slowest == c.Slowest && o.Expected == c.Expected && o.Fastest == c.Fastest
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

func (in *Input) timeText(t float64) string {
	if math.IsInf(t, 1) || math.IsNaN(t) {
		return "never"
	}
	switch {
	case t == 0:
		return "is empty"
	case t < 1: // nobody times less by hand
		return "at once"
	}
	return in.worst(unit.Time, t)
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

// curve draws one course of emptying.
func (b *builder) curve(c vent.Case) {
	in := b.in
	volume := given(c.Volume).String()
	u, pressureName := in.style().AxisUnit(unit.Pressure, c.Start)
	var x, y, low, high []float64
	for _, r := range legible(c.Sheet, in.Vent.Target) {
		x, y = append(x, r.Time), append(y, u.FromSI(r.Gauge))
		low, high = append(low, u.FromSI(r.Low)), append(high, u.FromSI(r.High))
	}
	marks := []figure.ChartLimit{{Name: "empty", At: u.FromSI(in.Vent.Target)}}
	note := ""
	if w := in.Vent.Within; !math.IsNaN(w) {
		note = " Allowed: " + in.near(unit.Time, w) + "."
		if w <= 1.5*x[len(x)-1] {
			marks = append(marks, figure.ChartLimit{Name: "time allowed", At: w, Vertical: figure.OnX})
		}
	}
	chart := figure.Chart{X: "Time after the command, s", Y: "Gauge on " + volume + ", " + pressureName,
		Lines: []figure.ChartLine{{Name: "expected", X: x, Y: y, Low: low, High: high}}, Limits: marks}
	b.draw(c.Scenario+", "+volume+": computed from the highest pressure that a fault can leave, "+in.worst(unit.Pressure, c.Start)+"; not a test to do. Band of the tolerances."+note,
		fmt.Sprintf("Gauge reading falling from %s to %s or less in %s expected, %s at the slowest.",
			in.near(unit.Pressure, c.Start), in.near(unit.Pressure, in.Vent.Target), in.timeText(c.Expected), in.timeText(c.Slowest)), chart.Draw)
}

// sheet is one table to fill in beside the launcher.
func (b *builder) sheet(s vent.StopwatchTest) {
	in := b.in
	u, pressureName := in.style().AxisUnit(unit.Pressure, s.Start)
	decimals := max(0, 2-int(math.Floor(math.Log10(u.FromSI(s.Start))))) // a hundredth of the start is what a gauge shows
	t := Table{Caption: "Stopwatch test, gauge on " + given(s.Volume).String() + " (" + pressureName + "). Charge until the supply stops by itself, arm, cut the power, nothing loaded: start the stopwatch then.",
		Head: []string{"Time, s", "Lowest", "Expected", "Highest", "Read"}, Shape: Narrow}
	for _, r := range legible(s.Sheet, in.Vent.Target) {
		cell := func(v float64) Text {
			return own(strconv.FormatFloat(math.Max(0, u.FromSI(v)), 'f', decimals, 64))
		}
		t.Rows = append(t.Rows, []Text{own(fmt.Sprintf("%g", math.Round(r.Time*10)/10)), cell(r.Low), cell(r.Gauge), cell(r.High), nil})
	}
	b.add(t)
	words := ""
	switch {
	case s.Trapped || math.IsInf(s.Slowest, 1):
		words = "It does not reach the target by itself."
	default:
		words = "At most " + in.worst(unit.Time, s.Slowest) + " to the target from the highest cut-out."
	}
	if s.Rebound > in.Vent.Target {
		words += " Shut too early, at the target, it can come back to " + in.worst(unit.Pressure, s.Rebound) + " as its air warms up: keep the vent open."
	}
	b.say(own(words))
}

// numbered are blank rows with their number.
func numbered(rows, columns int) [][]Text {
	out := blanks(rows, columns)
	for i := range out {
		out[i][0] = own(fmt.Sprint(i + 1))
	}
	return out
}
