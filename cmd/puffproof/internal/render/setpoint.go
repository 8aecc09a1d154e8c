package render

import (
	"fmt"
	"io"
	"math"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/benchmark"
	"puffproof/limits/launcher"
	"puffproof/limits/setpoint"
	"strconv"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"
)

// SetpointScreen shows the highest cut-out on a terminal or in a pipe.
type SetpointScreen struct {
	Style    Style
	Design   DesignID
	Setpoint setpoint.Answer
	Detail   Detail
	// DimensionOf tells what a key of the design file measures; nil shows no values
	// of keys.
	DimensionOf func(key string) (unit.Dimension, bool)
	Cautions    []benchmark.Statement
}

// Write prints the screen.
func (sc *SetpointScreen) Write(w io.Writer) error {
	var b strings.Builder
	fmt.Fprintln(&b, sc.finding())
	if sc.Detail == Everything {
		fmt.Fprintln(&b, Wrap(Clean(titleOf(sc.Design))+fingerprint(sc.Design), sc.Style.Width, "", "  "))
		sc.writeSource(&b)
		sc.writeAnswer(&b)
		sc.writeLadder(&b)
		sc.writeSensitivity(&b)
		sc.writeBases(&b)
		sc.writeChanges(&b)
		sc.writeParts(&b)
		sc.writeSupply(&b)
		sc.writeBench(&b)
		sc.writeProcedure(&b)
		sc.writeNotes(&b)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// allowed shows the most that is allowed: rounded down.
func (s Style) allowed(gauge float64) string { return s.setting(gauge, unit.Down) }

// setting shows a pressure that is set by, with one digit more than a reading has.
func (s Style) setting(gauge float64, r unit.Rounding) string {
	u, name := s.axisUnit(unit.Pressure, max(gauge, 1e5)) // bar or psi, never a smaller one
	return fixed(u.FromSI(gauge), settingDecimals(name), r) + " " + name
}

// fixed writes a value with some decimals, rounded up or down as it is a limit to
// stay above or below.
func fixed(v float64, decimals int, r unit.Rounding) string {
	step := math.Pow(10, float64(decimals))
	switch scaled := v * step; r { // 1e-6 of a step: what is exact but for rounding stays
	case unit.Up:
		v = math.Ceil(scaled-1e-6) / step
	case unit.Down:
		v = math.Floor(scaled+1e-6) / step
	}
	return strconv.FormatFloat(v+0, 'f', decimals, 64) // + 0: never the zero with a minus
}

func settingDecimals(name string) int {
	if strings.HasPrefix(name, "psi") {
		return 2
	}
	return 3
}

// finding is the answer in one line, after what speaks against it and before what
// it counts.
func (sc *SetpointScreen) finding() string {
	s, o := sc.Style, sc.Setpoint
	line, counts, colour := sc.answer()
	lead := ""
	switch {
	case o.Unknown != "":
		lead = "NOT KNOWN: " + Clean(o.Unknown) + ". With that left open:"
	case o.Unmet != "" && o.CutOut == nil:
		lead = "DOES NOT HOLD: " + Clean(o.Unmet) + "."
	case o.Unmet != "":
		lead = "DOES NOT HOLD: " + Clean(o.Unmet) + ". But for that:"
	case o.AsItIs != "":
		lead = "DOES NOT HOLD as it is: " + Clean(o.AsItIs) + ". With that mended as told below:"
	}
	out := ""
	if lead != "" {
		colour = red
		out = s.paint(red, Wrap(lead, s.Width, "", "  ")) + "\n"
	}
	out += s.paint(colour, line)
	if counts != "" {
		out += "\n" + Wrap(counts, s.Width, "", "  ")
	}
	return out
}

// answer is the cut-out in one sentence, and what it counts.
func (sc *SetpointScreen) answer() (line, counts, colour string) {
	s, o := sc.Style, sc.Setpoint
	counts = "It counts normal running, heat, a welded switch and other single faults."
	if o.BeyondShots {
		counts += " It lies beyond what the measured shots show and rests on the model."
	}
	switch {
	case !o.Works:
		return "NO CUT-OUT WORKS with this design.", "", red // what is not known stands before it
	case o.CutOut == nil:
		counts = ""
		for _, t := range o.Source.Turned {
			if !t.Holds {
				counts = "That holds for this supply only. It would not hold with: " + Clean(t.What) + "."
				break
			}
		}
		if o.Unmet != "" {
			return "The supply alone keeps normal running within the limit; that is not enough.", "", red
		}
		return "No switch is needed: the supply cannot exceed the limit.", counts, green
	case o.TooHigh():
		return fmt.Sprintf("The highest cut-out is %s; the design has %s: TOO HIGH.", s.allowed(*o.CutOut), s.setting(*o.Stated, unit.Nearest)), counts, red
	case o.Stated != nil:
		return fmt.Sprintf("The highest cut-out is %s; the design has %s.", s.allowed(*o.CutOut), s.setting(*o.Stated, unit.Nearest)), counts, yellow
	}
	return fmt.Sprintf("The highest cut-out is %s.", s.allowed(*o.CutOut)), counts, yellow
}

func (sc *SetpointScreen) wrap(b *strings.Builder, t string) {
	fmt.Fprintln(b, Wrap(Clean(t), sc.Style.Width, "  ", "  "))
}

func (sc *SetpointScreen) heading(b *strings.Builder, t string) {
	fmt.Fprintln(b)
	fmt.Fprintln(b, sc.Style.paint(bold, t))
}

// writeSource comes first where the source is limited: the strongest argument.
func (sc *SetpointScreen) writeSource(b *strings.Builder) {
	src := sc.Setpoint.Source
	sc.heading(b, "The source")
	sc.wrap(b, sentence(src.What))
	for _, t := range src.Turned {
		verdict := "holds"
		if !t.Holds {
			verdict = "DOES NOT HOLD"
		}
		sc.wrap(b, sentence(fmt.Sprintf("%s: %s, %s", t.What, sc.Style.worst(unit.Pressure, t.Pressure), verdict)))
	}
}

// sentence makes a sentence of a phrase.
func sentence(t string) string {
	if t == "" {
		return ""
	}
	r := []rune(t)
	out := strings.ToUpper(string(r[0])) + string(r[1:])
	if !strings.HasSuffix(out, ".") {
		out += "."
	}
	return out
}

func (sc *SetpointScreen) writeAnswer(b *strings.Builder) {
	s, o := sc.Style, sc.Setpoint
	sc.heading(b, "What to set")
	t := plainTable()
	row := func(name string, p *float64, show func(float64) string, note string) {
		if p != nil {
			t.AppendRow(table.Row{"  " + name, joinWith(show(*p), ": ", note)})
		}
	}
	up := func(p float64) string { return s.setting(p, unit.Up) }
	row("cut-out, at most", o.CutOut, s.allowed, "")
	row("cut-in, at most", o.CutIn, s.allowed, "")
	row("relief set, at least", o.ReliefSetMin, up, "it never opens in normal running")
	row("relief set, at most", o.ReliefSetMax, s.allowed, "at full flow the energy still holds")
	row("at a fault, at most", o.ReliefFullFlowMax, s.allowed, "")
	if t.Length() > 0 {
		fmt.Fprintln(b, trimLines(t.Render()))
	}
	sc.wrap(b, "Relief valve: "+o.Relief+".")
	basis := fmt.Sprintf("Binds: %s, basis %s: %s.", o.Binding, o.Basis, o.Why)
	sc.wrap(b, basis)
	switch n := o.Next; {
	case n == nil:
	case n.ID == o.Binding:
		sc.wrap(b, fmt.Sprintf("It would allow %s %s.", s.allowed(n.CutOut), n.What))
	default:
		sc.wrap(b, fmt.Sprintf("The next verdict, %s, would allow %s %s.", n.ID, s.allowed(n.CutOut), n.What))
	}
}

// joinWith joins two texts where there is a second one.
func joinWith(a, between, b string) string {
	if b == "" {
		return a
	}
	return a + between + b
}

func (sc *SetpointScreen) writeLadder(b *strings.Builder) {
	o := sc.Setpoint
	if len(o.Ladder) == 0 {
		return
	}
	title := "The ladder with these settings"
	if o.CutOut == nil {
		title = "The ladder of the design as it is"
	}
	sc.heading(b, title+", in the order that it must have, top first")
	t := plainTable()
	t.SetColumnConfigs([]table.ColumnConfig{{Number: 2, Align: text.AlignRight}, {Number: 3, Align: text.AlignRight}, {Number: 4, Align: text.AlignRight}})
	_, name := sc.Style.axisUnit(unit.Pressure, 1e5)
	t.AppendRow(table.Row{"  " + name, "low", "", "high", ""})
	for i := len(o.Ladder) - 1; i >= 0; i-- {
		r := o.Ladder[i]
		mark := ""
		if i > 0 && r.Low < o.Ladder[i-1].High*(1-1e-9) {
			mark = sc.Style.paint(red, "touches the rung below")
		}
		t.AppendRow(table.Row{"  " + r.Name, sc.bare(r.Low, unit.Down), sc.bare(r.Gauge, unit.Nearest), sc.bare(r.High, unit.Up), mark})
	}
	fmt.Fprintln(b, trimLines(t.Render()))
}

// bare shows a setting without its unit.
func (sc *SetpointScreen) bare(gauge float64, r unit.Rounding) string {
	n, _, _ := strings.Cut(sc.Style.setting(gauge, r), " ")
	return n
}

func (sc *SetpointScreen) writeSensitivity(b *strings.Builder) {
	g := sc.Setpoint.Sensitivity
	if len(g) == 0 {
		return
	}
	sc.heading(b, "What measuring better would gain, one at a time, at most")
	t := plainTable()
	const shown = 8
	for i, one := range g {
		if i == shown {
			break
		}
		note := ""
		if one.Assumed {
			note = "assumed: measure it"
		}
		t.AppendRow(table.Row{"  " + Clean(one.Key), "+" + sc.Style.allowed(one.CutOut), note})
	}
	fmt.Fprintln(b, trimLines(t.Render()))
	if len(g) > shown {
		sc.wrap(b, fmt.Sprintf("and %d more that gain less (--json lists them).", len(g)-shown))
	}
}

func (sc *SetpointScreen) writeBases(b *strings.Builder) {
	sc.heading(b, "What each basis would allow")
	for _, x := range sc.Setpoint.Bases {
		allow := "nothing"
		switch {
		case x.Any == launcher.Yes:
			allow = "all that the supply can do"
		case x.CutOut != nil:
			allow = "cut-out " + sc.Style.allowed(*x.CutOut)
		case x.Pressure == nil:
			allow = "not known"
		}
		fmt.Fprintln(b, Wrap(fmt.Sprintf("%s: %s; %s.", x.Basis, allow, Clean(x.What)), sc.Style.Width, "  ", "    "))
	}
}

func (sc *SetpointScreen) writeChanges(b *strings.Builder) {
	c := sc.Setpoint.Changes
	if len(c) == 0 {
		return
	}
	sc.heading(b, "Changes that would do, one of them")
	for _, x := range c {
		t := x.What
		if x.From != nil && x.To != nil {
			t = fmt.Sprintf("%s from %s to %s: %s", x.Key, sc.keyValue(x.Key, *x.From), sc.keyValue(x.Key, *x.To), x.What)
		}
		fmt.Fprintln(b, Wrap(Clean(t)+".", sc.Style.Width, "  - ", "    "))
	}
}

// keyValue shows a value of a key of the design file.
func (sc *SetpointScreen) keyValue(key string, si float64) string {
	if sc.DimensionOf != nil {
		if d, ok := sc.DimensionOf(key); ok {
			return unit.Format(si, d, sc.Style.Units)
		}
	}
	return number(si, 3)
}

func (sc *SetpointScreen) writeParts(b *strings.Builder) {
	if len(sc.Setpoint.Parts) == 0 {
		return
	}
	sc.heading(b, "Parts for these pressures")
	for _, p := range sc.Setpoint.Parts {
		sc.wrap(b, fmt.Sprintf("%s at %s: %s.", sentenceCase(p.Part), sc.Style.near(unit.Pressure, p.Gauge), p.Text))
	}
}

func sentenceCase(t string) string { return strings.TrimSuffix(sentence(t), ".") }

func (sc *SetpointScreen) writeSupply(b *strings.Builder) {
	a, s := sc.Setpoint.Supply, sc.Style
	if a == nil {
		return
	}
	sc.heading(b, "Air")
	span := func(x setpoint.Spread) string {
		if orNull(x.Nominal) == nil || orNull(x.Slow) == nil {
			return "not within an hour"
		}
		return fmt.Sprintf("%s (%s to %s)", s.near(unit.Time, x.Nominal), s.quantity(unit.Time, x.Fast, unit.Down), s.worst(unit.Time, x.Slow))
	}
	t := plainTable()
	t.AppendRow(table.Row{"  fill from zero", span(a.FillFromZero)})
	t.AppendRow(table.Row{"  from cut-in to cut-out", span(a.FillFromCutIn)})
	t.AppendRow(table.Row{"  between shots", span(a.BetweenShots)})
	t.AppendRow(table.Row{"  shots from cut-out to cut-in", fmt.Sprintf("%d", a.ShotsPerFill)})
	t.AppendRow(table.Row{"  free air used by a shot", s.near(unit.Volume, a.AirPerShot)})
	if orNull(a.DutyAtOneAMin) != nil {
		t.AppendRow(table.Row{"  supply runs, one shot a minute", percent(a.DutyAtOneAMin) + " of the time"})
	}
	fmt.Fprintln(b, trimLines(t.Render()))
	if r := a.Relief; r != nil {
		line := fmt.Sprintf("Supply and relief valve balance at %s by the circuit, %s by simulation; full flow at %s.",
			s.setting(r.Balance, unit.Nearest), s.setting(r.Simulated, unit.Nearest), s.setting(r.FullFlow, unit.Nearest))
		if r.Area > 0 && r.Needed > 0 {
			line += fmt.Sprintf(" API 520 asks for %s, the valve has %s.", s.worst(unit.Area, r.Needed), s.quantity(unit.Area, r.Area, unit.Down))
		}
		sc.wrap(b, line)
	}
}

func (sc *SetpointScreen) writeBench(b *strings.Builder) {
	o := sc.Setpoint
	if len(o.Bench)+len(o.BenchSilent) == 0 {
		return
	}
	sc.heading(b, "Bench tests used")
	for _, t := range o.BenchSilent {
		sc.wrap(b, Clean(t)+": agrees with what the design states, and tells no more.")
	}
	for _, r := range o.Bench {
		sc.wrap(b, fmt.Sprintf("%s, %s: %s to %s, before %s to %s.", r.Key, r.Test, sc.keyValue(r.Key, r.After.Low), sc.keyValue(r.Key, r.After.High),
			sc.keyValue(r.Key, r.Before.Low), sc.keyValue(r.Key, r.Before.High)))
	}
	if o.BenchMoved != nil && len(o.Bench) > 0 {
		sign, moved := "raised", *o.BenchMoved
		if moved < 0 {
			sign, moved = "lowered", -moved
		}
		sc.wrap(b, fmt.Sprintf("They %s the highest cut-out by %s.", sign, sc.Style.setting(moved, unit.Nearest)))
	}
}

func (sc *SetpointScreen) writeProcedure(b *strings.Builder) {
	if len(sc.Setpoint.Procedure) == 0 {
		return
	}
	sc.heading(b, "How to set it")
	for i, p := range sc.Setpoint.Procedure {
		fmt.Fprintln(b, Wrap(Clean(p), sc.Style.Width, fmt.Sprintf("  %d. ", i+1), "     "))
	}
}

func (sc *SetpointScreen) writeNotes(b *strings.Builder) {
	fmt.Fprintln(b)
	for _, n := range sc.Setpoint.Notes {
		fmt.Fprintln(b, Wrap("Note: "+Clean(n), sc.Style.Width, "", "  "))
	}
	for _, c := range sc.Cautions {
		fmt.Fprintln(b, Wrap(Clean(c.Text), sc.Style.Width, "", "  "))
	}
}
