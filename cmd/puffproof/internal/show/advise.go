package show

import (
	"fmt"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits/advise"
)

// AdviseFinding is the answer of advise in a sentence or two, and whether it is what was asked for: a way that reaches the goal. How many
// declarations it counts is what check counts of the design with them.
func AdviseFinding(u quantity.System, a *advise.Answer) (text string, ok bool) {
	n := len(a.Ways)
	if len(a.Stopped) > 0 {
		text = "NOT FINISHED: " + u.Text(a.Stopped) + "."
		if n > 0 {
			holds, none := Plural(n, "way holds", "ways hold")+" on the model so far", " None reaches the goal."
			if w := &a.Ways[0]; len(w.Steps) == 0 && len(w.Declarations) == 0 {
				holds, none = "It holds on the model as it is, and nothing has to change for that", " It does not reach the goal."
			}
			text += " " + holds
			if d := a.Ways[0].Report.Declared; d > 0 {
				text += " if " + Plural(d, "declaration proves", "declarations prove") + " true"
			}
			if text += "."; !a.Reaches {
				text += none
			}
		}
		return text, n > 0 && a.Reaches
	}
	if n == 0 {
		return "NO WAY FOUND that holds and flies.", false
	}
	first := &a.Ways[0]
	d := Plural(first.Report.Declared, "declaration proves", "declarations prove") + " true"
	switch declared := first.Report.Declared > 0; {
	case !a.Reaches && declared:
		return "GOAL NOT REACHED: " + u.Text(a.Short) + ". What is below holds on the model if " + d + ".", false
	case !a.Reaches:
		return "GOAL NOT REACHED: " + u.Text(a.Short) + ". What is below holds on the model.", false
	case declared:
		return Plural(n, "way holds", "ways hold") + " on the model if " + d + "; nominal and weakest launcher leave.", true
	case len(first.Steps) == 0 && len(first.Declarations) == 0:
		return "Nothing has to change: it holds on the model, and nominal and weakest launcher leave.", true
	}
	return Plural(n, "way holds", "ways hold") + " on the model, and nominal and weakest launcher leave.", true
}

// OtherDeclarations says which declarations the first way rests on beside those that it lists, and where they stand; "" there is none.
// Of a design begun from nothing, without a file, they are the sketch's.
func OtherDeclarations(a *advise.Answer, file string) string {
	if len(a.Ways) == 0 {
		return ""
	}
	w := &a.Ways[0]
	n := w.Report.Declared - len(w.Declarations)
	switch {
	case n <= 0:
		return ""
	case file != "":
		return fmt.Sprintf("Beside these the design itself has %s: its lines with the word declared.", Plural(n, "declaration", "declarations"))
	}
	return fmt.Sprintf("Beside these the sketch itself has %s: each figure of it, the changes above too, and what its parts are like. They "+
		"stand in the file that -o writes, with the word declared: make each true, or put your own in its place.",
		Plural(n, "declaration", "declarations"))
}

// Share is a share of a limit in percent; one that rounds to none says so.
func Share(of float64) string {
	if of < 0.01 {
		return "less than 1 %"
	}
	return fmt.Sprintf("%.0f %%", 100*of)
}
