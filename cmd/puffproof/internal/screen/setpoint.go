package screen

import (
	"fmt"
	"io"
	"strings"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/benchmark"
	"puffproof/limits/launcher"
	"puffproof/limits/setpoint"
)

// SetpointScreen shows the highest cut-out on a terminal or in a pipe.
type SetpointScreen struct {
	Frame
	Setpoint setpoint.Answer
	Cautions []benchmark.Statement
}

// Write prints the screen.
func (sc *SetpointScreen) Write(w io.Writer) error {
	return sc.write(w, sc.finding(), sc.writeDesign, sc.writeSource, sc.writeAnswer, sc.writeLadder, sc.writeSensitivity,
		sc.writeBases,
		sc.writeChanges, sc.writeParts, sc.writeSupply, sc.writeBench, sc.writeProcedure, sc.writeNotes)
}

func (sc *SetpointScreen) writeDesign() {
	sc.say("", "  ", show.Clean(sc.Design.Title())+fingerprint(sc.Design))
}

// allowed shows the most that is allowed: rounded down.
func (s Style) allowed(gauge float64) string {
	return s.Units.Words(quantity.Setting, gauge, quantity.Down)
}

// finding is the answer in one line, after what speaks against it and before what
// it counts.
func (sc *SetpointScreen) finding() string {
	o := sc.Setpoint
	line, counts, colour := sc.answer()
	lead := ""
	switch {
	case len(o.Unknown) != 0:
		lead = "NOT KNOWN: " + sc.text(o.Unknown) + ". With that left open:"
	case len(o.Unmet) != 0 && o.CutOut == nil:
		lead = "DOES NOT HOLD: " + sc.text(o.Unmet) + "."
	case len(o.Unmet) != 0:
		lead = "DOES NOT HOLD: " + sc.text(o.Unmet) + ". But for that:"
	case len(o.AsItIs) != 0:
		lead = "DOES NOT HOLD as it is: " + sc.text(o.AsItIs) + ". With that mended as told below:"
	}
	out := ""
	if lead != "" {
		colour = red
		out = sc.lines(red, "", "  ", lead) + "\n"
	}
	out += sc.paint(colour, line)
	if counts != "" {
		out += "\n" + show.Wrap(counts, sc.Width, "", "  ")
	}
	return out
}

// answer is the cut-out in one sentence, and what it counts.
func (sc *SetpointScreen) answer() (line, counts, colour string) {
	o := sc.Setpoint
	counts = "Judged at these settings as check does, in every verdict that hangs on the pressures."
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
				counts = "That holds for this supply only. It would not hold with: " + sc.text(t.What) + "."
				break
			}
		}
		if len(o.Unmet) != 0 {
			return "The supply alone keeps normal running within the limit; that is not enough.", "", red
		}
		return "No switch is needed: the supply cannot exceed the limit.", counts, green
	case o.TooHigh():
		return fmt.Sprintf("The highest cut-out is %s; the design has %s: TOO HIGH.", sc.allowed(*o.CutOut),
			sc.Units.Words(quantity.Setting, *o.Stated, quantity.Nearest)), counts, red
	case o.Stated != nil:
		return fmt.Sprintf("The highest cut-out is %s; the design has %s.", sc.allowed(*o.CutOut),
			sc.Units.Words(quantity.Setting, *o.Stated, quantity.Nearest)), counts, yellow
	}
	return fmt.Sprintf("The highest cut-out is %s.", sc.allowed(*o.CutOut)), counts, yellow
}

func (sc *SetpointScreen) wrap(t string) { sc.say("  ", "  ", show.Clean(t)) }

// writeSource comes first where the source is limited: the strongest argument.
func (sc *SetpointScreen) writeSource() {
	src := sc.Setpoint.Source
	sc.heading("The source")
	sc.wrap(sentence(sc.text(src.What)))
	for _, t := range src.Turned {
		verdict := "holds"
		if !t.Holds {
			verdict = "DOES NOT HOLD"
		}
		sc.wrap(sentence(fmt.Sprintf("%s: %s, %s", sc.text(t.What), sc.Units.Worst(quantity.Gauge, t.Pressure), verdict)))
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

func (sc *SetpointScreen) writeAnswer() {
	o := sc.Setpoint
	sc.heading("What to set")
	row := func(name string, p *float64, words func(float64) string, note string) {
		if p != nil {
			sc.say(fmt.Sprintf("  %-20s ", name), strings.Repeat(" ", 6), words(*p)+show.Lead(": ", note))
		}
	}
	up := func(p float64) string { return sc.Units.Words(quantity.Setting, p, quantity.Up) }
	row("cut-out, at most", o.CutOut, sc.allowed, "")
	row("cut-in, at most", o.CutIn, sc.allowed, sc.text(o.CutInWhy))
	row("relief set, at least", o.ReliefSetMin, up, "it never opens in normal running")
	row("relief set, at most", o.ReliefSetMax, sc.allowed, "at full flow the energy still holds"+show.Lead("; ", sc.text(o.ReliefMaxNeeds)))
	row("at a fault, at most", o.ReliefFullFlowMax, sc.allowed, "")
	sc.wrap("Relief valve: " + sc.text(o.Relief) + ".")
	basis := fmt.Sprintf("Binds: %s, basis %s: %s.", o.Binding, o.Basis, sc.text(o.Why))
	sc.wrap(basis)
	switch n := o.Next; {
	case n == nil:
	case n.ID == o.Binding:
		sc.wrap(fmt.Sprintf("It would allow %s %s.", sc.allowed(n.CutOut), sc.text(n.What)))
	default:
		sc.wrap(fmt.Sprintf("The next verdict, %s, would allow %s %s.", n.ID, sc.allowed(n.CutOut), sc.text(n.What)))
	}
}

func (sc *SetpointScreen) writeLadder() {
	o := sc.Setpoint
	if len(o.Ladder) == 0 {
		return
	}
	title := "The ladder with these settings"
	if o.CutOut == nil {
		title = "The ladder of the design as it is"
	}
	sc.heading(title + ", in the order that it must have, top first")
	t := sc.grid()
	t.right(2, 3, 4)
	t.add("  "+sc.Units.Axis(quantity.Setting, 0).Name, "low", "", "high", "")
	for i := len(o.Ladder) - 1; i >= 0; i-- {
		r := o.Ladder[i]
		mark := ""
		if i > 0 && r.Low < o.Ladder[i-1].High*(1-1e-9) && o.Ladder[i-1].Under != launcher.Yes {
			mark = sc.paint(red, "touches the rung below")
		}
		t.add("  "+r.Name, sc.bare(r.Low, quantity.Down), sc.bare(r.Gauge, quantity.Nearest), sc.bare(r.High, quantity.Up), mark)
	}
	sc.printRows(t)
}

// bare shows a setting without its unit.
func (sc *SetpointScreen) bare(gauge float64, r quantity.Rounding) string {
	return sc.Units.Bare(quantity.Setting, gauge, r)
}

func (sc *SetpointScreen) writeSensitivity() {
	g := sc.Setpoint.Sensitivity
	if len(g) == 0 {
		return
	}
	sc.heading("What measuring better would gain, one at a time, at most")
	t := sc.grid()
	const shown = 8
	for i, one := range g {
		if i == shown {
			break
		}
		note := ""
		if one.Assumed {
			note = "assumed: measure it"
		}
		t.add("  "+show.Clean(one.Key), "+"+sc.allowed(one.CutOut), note)
	}
	sc.printRows(t)
	if len(g) > shown {
		sc.wrap(fmt.Sprintf("and %d more that gain less (--json lists them).", len(g)-shown))
	}
}

func (sc *SetpointScreen) writeBases() {
	sc.heading("What each basis would allow")
	for _, x := range sc.Setpoint.Bases {
		allow := "nothing"
		switch {
		case x.Any == launcher.Yes:
			allow = "all that the supply can do"
		case x.CutOut != nil:
			allow = "cut-out " + sc.allowed(*x.CutOut)
		case x.Pressure == nil:
			allow = "not known"
		}
		sc.sayf("  ", "    ", "%s: %s; %s.", x.Basis, allow, sc.text(x.What))
	}
}

func (sc *SetpointScreen) writeChanges() {
	c := sc.Setpoint.Changes
	if len(c) == 0 {
		return
	}
	sc.heading("Changes that would do, one of them")
	for _, x := range c {
		t := sc.text(x.What)
		if x.From != nil && x.To != nil {
			t = fmt.Sprintf("%s from %s to %s: %s", x.Key, sc.value(x.Key, *x.From), sc.value(x.Key, *x.To), sc.text(x.What))
		}
		sc.say("  - ", "    ", show.Clean(t)+".")
	}
}

func (sc *SetpointScreen) writeParts() {
	if len(sc.Setpoint.Parts) == 0 {
		return
	}
	sc.heading("Parts for these pressures")
	for _, p := range sc.Setpoint.Parts {
		sc.wrap(fmt.Sprintf("%s at %s: %s.", sentenceCase(p.Part), sc.Units.Near(quantity.Gauge, p.Gauge), sc.text(p.Text)))
	}
}

func sentenceCase(t string) string { return strings.TrimSuffix(sentence(t), ".") }

func (sc *SetpointScreen) writeSupply() {
	a := sc.Setpoint.Supply
	if a == nil {
		return
	}
	sc.heading("Air")
	span := func(x setpoint.Spread) string {
		if show.Finite(x.Nominal) == nil || show.Finite(x.Slow) == nil {
			return "not within an hour"
		}
		return fmt.Sprintf("%s (%s to %s)", sc.Units.Near(quantity.Time, x.Nominal), sc.Units.Words(quantity.Time, x.Fast, quantity.Down),
			sc.Units.Worst(quantity.Time, x.Slow))
	}
	t := sc.grid()
	t.add("  fill from zero", span(a.FillFromZero))
	t.add("  from cut-in to cut-out", span(a.FillFromCutIn))
	t.add("  between shots", span(a.BetweenShots))
	t.add("  shots from cut-out to cut-in", fmt.Sprintf("%d", a.ShotsPerFill))
	t.add("  free air used by a shot", sc.Units.Near(quantity.Volume, a.AirPerShot))
	if show.Finite(a.DutyAtOneAMin) != nil {
		t.add("  supply runs, one shot a minute", quantity.Percent(a.DutyAtOneAMin, 0, quantity.Down)+" of the time")
	}
	sc.printRows(t)
	if r := a.Relief; r != nil {
		line := fmt.Sprintf("Supply and relief valve balance at %s by the circuit, %s by simulation; full flow at %s.",
			sc.Units.Words(quantity.Setting, r.Balance, quantity.Nearest), sc.Units.Words(quantity.Setting, r.Simulated, quantity.Nearest),
			sc.Units.Words(quantity.Setting, r.FullFlow, quantity.Nearest))
		if r.Area > 0 && r.Needed > 0 {
			line += fmt.Sprintf(" API 520 asks for %s, the valve has %s.", sc.Units.Worst(quantity.Area, r.Needed),
				sc.Units.Words(quantity.Area, r.Area, quantity.Down))
			if scope := benchmark.BenchmarkOf(benchmark.ASMEScopePressure).Value; r.FullFlow < scope {
				line += fmt.Sprintf(" It is written for %s and more (15 psi; from memory): here it is a mark, not a rule.",
					sc.Units.Near(quantity.Gauge, scope))
			}
		}
		sc.wrap(line)
	}
}

func (sc *SetpointScreen) writeBench() {
	o := sc.Setpoint
	if len(o.Bench)+len(o.BenchSilent) == 0 {
		return
	}
	sc.heading("Bench tests used")
	for _, t := range o.BenchSilent {
		sc.wrap(sc.text(t))
	}
	for _, r := range o.Bench {
		sc.wrap(fmt.Sprintf("%s, %s: %s to %s, before %s to %s.", r.Key, r.Test, sc.value(r.Key, r.After.Low),
			sc.value(r.Key, r.After.High),
			sc.value(r.Key, r.Before.Low), sc.value(r.Key, r.Before.High)))
	}
	if o.BenchMoved != nil && len(o.Bench) > 0 {
		sign, moved := "raised", *o.BenchMoved
		if moved < 0 {
			sign, moved = "lowered", -moved
		}
		sc.wrap(fmt.Sprintf("They %s the highest cut-out by %s.", sign, sc.Units.Words(quantity.Setting, moved, quantity.Nearest)))
	}
}

func (sc *SetpointScreen) writeProcedure() {
	if len(sc.Setpoint.Procedure) == 0 {
		return
	}
	sc.heading("How to set it")
	for i, p := range sc.Setpoint.Procedure {
		sc.say(fmt.Sprintf("  %d. ", i+1), "     ", sc.text(p))
	}
}

func (sc *SetpointScreen) writeNotes() {
	sc.gap()
	sc.notes(sc.Setpoint.Notes)()
	for _, c := range sc.Cautions {
		sc.say("", "  ", show.Clean(c.Text))
	}
}
