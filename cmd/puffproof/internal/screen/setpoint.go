package screen

import (
	"fmt"
	"io"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/benchmark"
	"puffproof/limits/launcher"
	"puffproof/limits/setpoint"
)

// SetpointScreen shows the highest cut-out on a terminal or in a pipe.
type SetpointScreen struct {
	Style    Style
	Design   show.DesignID
	Setpoint setpoint.Answer
	Detail   Detail
	// DimensionOf tells what a key of the design file measures; nil shows no values
	// of keys.
	DimensionOf func(key string) (unit.Dimension, bool)
	Cautions    []benchmark.Statement
}

// Write prints the screen.
func (sc *SetpointScreen) Write(w io.Writer) error {
	return sc.Style.write(w, sc.Detail, sc.finding(), sc.writeDesign, sc.writeSource, sc.writeAnswer, sc.writeLadder, sc.writeSensitivity,
		sc.writeBases,
		sc.writeChanges, sc.writeParts, sc.writeSupply, sc.writeBench, sc.writeProcedure, sc.writeNotes)
}

func (sc *SetpointScreen) writeDesign(b *strings.Builder) {
	sc.Style.say(b, "", "  ", show.Clean(sc.Design.Title())+fingerprint(sc.Design))
}

// allowed shows the most that is allowed: rounded down.
func (s Style) allowed(gauge float64) string { return s.Units.Words(show.Setting, gauge, show.Down) }

// finding is the answer in one line, after what speaks against it and before what
// it counts.
func (sc *SetpointScreen) finding() string {
	s, o := sc.Style, sc.Setpoint
	line, counts, colour := sc.answer()
	lead := ""
	switch {
	case len(o.Unknown) != 0:
		lead = "NOT KNOWN: " + sc.Style.text(o.Unknown) + ". With that left open:"
	case len(o.Unmet) != 0 && o.CutOut == nil:
		lead = "DOES NOT HOLD: " + sc.Style.text(o.Unmet) + "."
	case len(o.Unmet) != 0:
		lead = "DOES NOT HOLD: " + sc.Style.text(o.Unmet) + ". But for that:"
	case len(o.AsItIs) != 0:
		lead = "DOES NOT HOLD as it is: " + sc.Style.text(o.AsItIs) + ". With that mended as told below:"
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
				counts = "That holds for this supply only. It would not hold with: " + sc.Style.text(t.What) + "."
				break
			}
		}
		if len(o.Unmet) != 0 {
			return "The supply alone keeps normal running within the limit; that is not enough.", "", red
		}
		return "No switch is needed: the supply cannot exceed the limit.", counts, green
	case o.TooHigh():
		return fmt.Sprintf("The highest cut-out is %s; the design has %s: TOO HIGH.", s.allowed(*o.CutOut),
			s.Units.Words(show.Setting, *o.Stated, show.Nearest)), counts, red
	case o.Stated != nil:
		return fmt.Sprintf("The highest cut-out is %s; the design has %s.", s.allowed(*o.CutOut),
			s.Units.Words(show.Setting, *o.Stated, show.Nearest)), counts, yellow
	}
	return fmt.Sprintf("The highest cut-out is %s.", s.allowed(*o.CutOut)), counts, yellow
}

func (sc *SetpointScreen) wrap(b *strings.Builder, t string) {
	sc.Style.say(b, "  ", "  ", show.Clean(t))
}

func (sc *SetpointScreen) heading(b *strings.Builder, t string) {
	fmt.Fprintln(b)
	fmt.Fprintln(b, sc.Style.paint(bold, t))
}

// writeSource comes first where the source is limited: the strongest argument.
func (sc *SetpointScreen) writeSource(b *strings.Builder) {
	src := sc.Setpoint.Source
	sc.heading(b, "The source")
	sc.wrap(b, sentence(sc.Style.text(src.What)))
	for _, t := range src.Turned {
		verdict := "holds"
		if !t.Holds {
			verdict = "DOES NOT HOLD"
		}
		sc.wrap(b, sentence(fmt.Sprintf("%s: %s, %s", sc.Style.text(t.What), sc.Style.Units.Worst(show.Gauge, t.Pressure), verdict)))
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
	up := func(p float64) string { return s.Units.Words(show.Setting, p, show.Up) }
	row("cut-out, at most", o.CutOut, s.allowed, "")
	row("cut-in, at most", o.CutIn, s.allowed, "")
	row("relief set, at least", o.ReliefSetMin, up, "it never opens in normal running")
	row("relief set, at most", o.ReliefSetMax, s.allowed, "at full flow the energy still holds")
	row("at a fault, at most", o.ReliefFullFlowMax, s.allowed, "")
	if t.Length() > 0 {
		fmt.Fprintln(b, trimLines(t.Render()))
	}
	sc.wrap(b, "Relief valve: "+sc.Style.text(o.Relief)+".")
	basis := fmt.Sprintf("Binds: %s, basis %s: %s.", o.Binding, o.Basis, sc.Style.text(o.Why))
	sc.wrap(b, basis)
	switch n := o.Next; {
	case n == nil:
	case n.ID == o.Binding:
		sc.wrap(b, fmt.Sprintf("It would allow %s %s.", s.allowed(n.CutOut), s.text(n.What)))
	default:
		sc.wrap(b, fmt.Sprintf("The next verdict, %s, would allow %s %s.", n.ID, s.allowed(n.CutOut), s.text(n.What)))
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
	t.SetColumnConfigs([]table.ColumnConfig{{Number: 2, Align: text.AlignRight}, {Number: 3, Align: text.AlignRight},
		{Number: 4, Align: text.AlignRight}})
	t.AppendRow(table.Row{"  " + sc.Style.Units.Axis(show.Setting, 0).Name, "low", "", "high", ""})
	for i := len(o.Ladder) - 1; i >= 0; i-- {
		r := o.Ladder[i]
		mark := ""
		if i > 0 && r.Low < o.Ladder[i-1].High*(1-1e-9) {
			mark = sc.Style.paint(red, "touches the rung below")
		}
		t.AppendRow(table.Row{"  " + r.Name, sc.bare(r.Low, show.Down), sc.bare(r.Gauge, show.Nearest), sc.bare(r.High, show.Up), mark})
	}
	fmt.Fprintln(b, trimLines(t.Render()))
}

// bare shows a setting without its unit.
func (sc *SetpointScreen) bare(gauge float64, r show.Rounding) string {
	return sc.Style.Units.Bare(show.Setting, gauge, r)
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
		t.AppendRow(table.Row{"  " + show.Clean(one.Key), "+" + sc.Style.allowed(one.CutOut), note})
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
		sc.Style.sayf(b, "  ", "    ", "%s: %s; %s.", x.Basis, allow, sc.Style.text(x.What))
	}
}

func (sc *SetpointScreen) writeChanges(b *strings.Builder) {
	c := sc.Setpoint.Changes
	if len(c) == 0 {
		return
	}
	sc.heading(b, "Changes that would do, one of them")
	for _, x := range c {
		t := sc.Style.text(x.What)
		if x.From != nil && x.To != nil {
			t = fmt.Sprintf("%s from %s to %s: %s", x.Key, sc.keyValue(x.Key, *x.From), sc.keyValue(x.Key, *x.To), sc.Style.text(x.What))
		}
		sc.Style.say(b, "  - ", "    ", show.Clean(t)+".")
	}
}

// keyValue shows a value of a key of the design file.
func (sc *SetpointScreen) keyValue(key string, si float64) string {
	return show.Keys{Units: sc.Style.Units, DimensionOf: sc.DimensionOf}.ValueOrNumber(key, si)
}

func (sc *SetpointScreen) writeParts(b *strings.Builder) {
	if len(sc.Setpoint.Parts) == 0 {
		return
	}
	sc.heading(b, "Parts for these pressures")
	for _, p := range sc.Setpoint.Parts {
		sc.wrap(b, fmt.Sprintf("%s at %s: %s.", sentenceCase(p.Part), sc.Style.Units.Near(show.Gauge, p.Gauge), sc.Style.text(p.Text)))
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
		if show.Finite(x.Nominal) == nil || show.Finite(x.Slow) == nil {
			return "not within an hour"
		}
		return fmt.Sprintf("%s (%s to %s)", s.Units.Near(show.Time, x.Nominal), s.Units.Words(show.Time, x.Fast, show.Down),
			s.Units.Worst(show.Time, x.Slow))
	}
	t := plainTable()
	t.AppendRow(table.Row{"  fill from zero", span(a.FillFromZero)})
	t.AppendRow(table.Row{"  from cut-in to cut-out", span(a.FillFromCutIn)})
	t.AppendRow(table.Row{"  between shots", span(a.BetweenShots)})
	t.AppendRow(table.Row{"  shots from cut-out to cut-in", fmt.Sprintf("%d", a.ShotsPerFill)})
	t.AppendRow(table.Row{"  free air used by a shot", s.Units.Near(show.Volume, a.AirPerShot)})
	if show.Finite(a.DutyAtOneAMin) != nil {
		t.AppendRow(table.Row{"  supply runs, one shot a minute", show.Percent(a.DutyAtOneAMin, 0, show.Down) + " of the time"})
	}
	fmt.Fprintln(b, trimLines(t.Render()))
	if r := a.Relief; r != nil {
		line := fmt.Sprintf("Supply and relief valve balance at %s by the circuit, %s by simulation; full flow at %s.",
			s.Units.Words(show.Setting, r.Balance, show.Nearest), s.Units.Words(show.Setting, r.Simulated, show.Nearest),
			s.Units.Words(show.Setting, r.FullFlow, show.Nearest))
		if r.Area > 0 && r.Needed > 0 {
			line += fmt.Sprintf(" API 520 asks for %s, the valve has %s.", s.Units.Worst(show.Area, r.Needed),
				s.Units.Words(show.Area, r.Area, show.Down))
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
		sc.wrap(b, sc.Style.text(t)+": agrees with what the design states, and tells no more.")
	}
	for _, r := range o.Bench {
		sc.wrap(b, fmt.Sprintf("%s, %s: %s to %s, before %s to %s.", r.Key, r.Test, sc.keyValue(r.Key, r.After.Low),
			sc.keyValue(r.Key, r.After.High),
			sc.keyValue(r.Key, r.Before.Low), sc.keyValue(r.Key, r.Before.High)))
	}
	if o.BenchMoved != nil && len(o.Bench) > 0 {
		sign, moved := "raised", *o.BenchMoved
		if moved < 0 {
			sign, moved = "lowered", -moved
		}
		sc.wrap(b, fmt.Sprintf("They %s the highest cut-out by %s.", sign, sc.Style.Units.Words(show.Setting, moved, show.Nearest)))
	}
}

func (sc *SetpointScreen) writeProcedure(b *strings.Builder) {
	if len(sc.Setpoint.Procedure) == 0 {
		return
	}
	sc.heading(b, "How to set it")
	for i, p := range sc.Setpoint.Procedure {
		sc.Style.say(b, fmt.Sprintf("  %d. ", i+1), "     ", sc.Style.text(p))
	}
}

func (sc *SetpointScreen) writeNotes(b *strings.Builder) {
	fmt.Fprintln(b)
	sc.Style.notes(sc.Setpoint.Notes)(b)
	for _, c := range sc.Cautions {
		sc.Style.say(b, "", "  ", show.Clean(c.Text))
	}
}
