package screen

import (
	"fmt"
	"io"
	"strings"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/advise"
)

// AdviseScreen shows ways to a launcher that holds and flies.
type AdviseScreen struct {
	Frame
	Answer  advise.Answer
	Declare show.Declarations
	File    string // the design's file, as it was named; "" none
	Asked   string // the options of the line that bear on the answer, as they may be typed again; "" none
	Written string // name of the file that the first way goes to; "" none
}

// Write prints the screen.
func (a *AdviseScreen) Write(w io.Writer) error {
	return a.write(w, a.finding(), a.design, a.ways, a.whyNot,
		a.closing("The ways are searched on the model; nothing of them is confirmed before it is built, measured and checked."), a.next)
}

// finding is the first line.
func (a *AdviseScreen) finding() string {
	text, ok := show.AdviseFinding(a.Units, &a.Answer)
	colour := green
	if !ok {
		colour = red
	}
	return a.lines(colour, "", "  ", text)
}

// ways prints each way, and the declarations once: they are the same for all.
func (a *AdviseScreen) ways() {
	for i := range a.Answer.Ways {
		a.way(i, &a.Answer.Ways[i])
	}
	if len(a.Answer.Ways) > 0 {
		if n := len(a.Answer.Ways[0].Template); n > 0 {
			a.gap()
			are := show.Plural(n, "figure is", "figures are")
			if a.Declare == show.WithDeclarations {
				a.say("", "  ", are+" nobody's yet and now declared: build or buy it so. Put yours in its place as you know it, then ask again.")
			} else {
				a.say("", "  ", are+" still the template's: this is a way for a launcher of such figures, not yet for yours. "+
					"Replace them, then ask again.")
			}
		}
		a.declarations(a.Answer.Ways[0].Declarations)
	}
	for i, t := range a.Answer.Worth {
		if i == 0 {
			a.heading("Worth measuring")
		}
		a.say("  ", "      ", a.text(t))
	}
}

func (a *AdviseScreen) way(i int, w *advise.Way) {
	name := fmt.Sprintf("Way %d", i+1)
	if len(w.Steps) == 0 {
		name = "As it is"
	}
	a.heading(name + ": " + a.flies(w))
	a.sayf("  ", "  ", "Judged %s of %s allowed. Nearest its limit, with %s left: %s.", a.Units.Worst(quantity.Energy, w.Judged),
		a.Units.Near(quantity.Energy, w.Limit), show.Share(w.Margin), w.Closest)
	a.steps(w.Steps)
	if len(w.Parts) > 0 {
		a.say("  To buy: ", "    ", strings.Join(w.Parts, "; "))
	}
}

// flies says what then flies.
func (a *AdviseScreen) flies(w *advise.Way) string {
	return fmt.Sprintf("%s, %s high; the weakest leaves at %s", a.Units.Near(quantity.Speed, w.Nominal.Speed),
		a.Units.Near(quantity.Length, w.Nominal.Apex), a.Units.Near(quantity.Speed, w.Weakest.Speed))
}

// steps prints the changes by their tables.
func (a *AdviseScreen) steps(list []advise.Step) {
	var tables []string
	lines, why := map[string][]string{}, map[string]string{}
	for _, s := range list {
		at := strings.LastIndexByte(s.Key, '.')
		t := s.Key[:max(at, 0)]
		line := fmt.Sprintf("%s = %s", s.Key[at+1:], s.To.Line())
		if s.Old != "" {
			line += " (was " + s.Old + ")"
		}
		if why[t] == "" {
			tables, why[t] = append(tables, t), s.Why
		}
		lines[t] = append(lines[t], line)
	}
	for _, t := range tables {
		a.say("  ", "    ", show.Clean("["+t+"] "+strings.Join(lines[t], "; ")))
		a.say("    ", "    ", show.Clean(why[t]))
	}
}

// declarations lists what only people can say.
func (a *AdviseScreen) declarations(list []advise.Step) {
	others := show.OtherDeclarations(&a.Answer, a.File)
	if len(list) > 0 || others != "" {
		a.heading("Yours to say, and to show")
	}
	var begun []string // all for one reason
	for _, s := range list {
		line := fmt.Sprintf("%s = %s: %s", s.Key, s.To.Line(), s.Why)
		if s.Begun {
			begun = append(begun, s.Key+" = "+s.To.Line())
			continue
		}
		if len(s.Buys) > 0 { // of the first way alone
			line += "; " + a.text(s.Buys)
		}
		a.say("  ", "      ", show.Clean(line))
	}
	if len(begun) > 0 {
		a.say("  ", "      ", show.Clean(strings.Join(begun, ", ")+": nobody's figures so far; build or buy it so, or put yours in their place"))
	}
	if others != "" {
		a.say("  ", "  ", others)
	}
}

func (a *AdviseScreen) whyNot() {
	if len(a.Answer.WhyNot) > 0 {
		a.gap()
		a.say("", "  ", "In the way: "+a.text(a.Answer.WhyNot)+".")
	}
	if len(a.Answer.Instead) > 0 {
		a.say("", "  ", "Giving way: "+a.text(a.Answer.Instead)+".")
	}
}

// next is what was written, and the next step. What goes without its declarations does not hold yet: that is said.
func (a *AdviseScreen) next() {
	command := "check " + show.InShell(a.Written)
	if len(a.Answer.Stopped) > 0 && len(a.Answer.Ways) == 0 {
		command = strings.TrimSuffix("advise "+show.InShell(a.File), " DESIGN") + ", with more time, or to its end"
	} else if ways := a.Answer.Ways; len(ways) == 0 || a.Written == "" && len(ways[0].Steps)+len(ways[0].Declarations) == 0 {
		command = "check " + show.InShell(a.File)
	} else if a.Written == "" {
		again := strings.TrimSuffix("advise "+show.InShell(a.File), " DESIGN")
		command = again + a.Asked + " -o better.toml, which writes the first way"
		if len(ways[0].Declarations) > 0 {
			command += "; --declare with your declarations"
		}
	} else {
		without := ""
		if left := len(ways[0].Declarations); left > 0 && a.Declare == show.WithoutDeclarations {
			without = fmt.Sprintf(" without %s listed above, so check does not say the same of it yet: write in what you can show, or ask "+
				"again with --declare --force", show.Plural(left, "declaration", "declarations"))
		}
		a.say("", "  ", "Wrote "+show.Clean(a.Written)+without+".")
	}
	a.say("next: ", "  ", "puffproof "+command)
}
