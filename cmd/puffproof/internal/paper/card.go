package paper

import (
	"fmt"
	"math"
	"strings"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/drill"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// Card makes the one page that stays with the launcher: what it is set to, what to check, how long emptying takes, how to stop, who may
// hold the key. The card of a design that must not be used has no figure that anybody could set: it says what is wrong and how to empty
// it.
func Card(in Input) (*document.Document, error) {
	b := &builder{in: &in, paper: "card"}
	d := b.frame("Card")
	d.Heading = "Name given by the builder: " + quoted(document.Shortened(document.AsGiven(in.Design.Name).String(), nameLength))
	d.OneLeaf = true
	b.add(document.Callout{Title: d.Running,
		Tone: d.Tone, Body: []document.Text{document.Join(document.AsStrong(b.untilLabel()+": "), b.holdsUntil())}})
	b.code(d.Tone)
	if d.Tone == show.Bad {
		b.cardWrong()
	} else {
		b.cardPressures()
		b.cardChecks()
	}
	b.cardStop(d)
	d.Blocks = b.blocks
	d.Archive = archiveOf(document.CardPaper, in, d.Running)
	return d, b.err
}

// code is the fingerprint of the design file for a phone: whoever holds the safety file or the design compares the two.
// What must not be filled says so there too.
func (b *builder) code(t show.Tone) {
	says := "puffproof card " + b.in.Date + " sha256:" + b.in.Design.SHA256
	if t == show.Bad {
		says += " DOES NOT HOLD: do not fill it"
	}
	before := len(b.blocks)
	b.draw("Design file "+b.in.Design.Fingerprint(), "QR code with the text: "+says,
		func() (*figure.Drawing, error) { return figure.Code(says) })
	for i := before; i < len(b.blocks); i++ {
		f := b.blocks[i].(document.Figure)
		f.Aside = true
		b.blocks[i] = f
	}
}

// cardWrong says what is wrong in words only: figures and advice stand in the safety file, where nobody takes them for a setting.
func (b *builder) cardWrong() {
	const shown = 8 // more do not fit on one page
	b.add(document.Heading{Level: 2, Text: "Do not fill it, do not load it", ID: "do-not"})
	var items []any
	more := 0
	for _, v := range show.Troubled(b.in.Report.Verdicts) {
		if len(items) == shown {
			more++
			continue
		}
		items = append(items, document.Join(document.AsStrong(show.PaperWord(v.Status)), " "+v.Title))
	}
	if more > 0 {
		items = append(items, fmt.Sprintf("and %d more in the safety file", more))
	}
	if past := b.expired(); past != "" && len(items) == 0 {
		items = append(items, "a date in the design is past: "+past)
	}
	b.list(items...)
	b.say("This card gives no pressure on purpose: none is allowed. Mend what the safety file names, then make the card again.")
	b.add(document.Heading{Level: 2, Text: "Still filled? Empty it", ID: "empty"})
	b.list(
		"Everybody away from the muzzle and behind the launcher. Eye protection on."+drill.Off(b.in.Launcher),
		b.emptyingLine(),
		"A tag on it: DO NOT FILL. Nobody carries it, opens it or works on it before "+b.zeroSign()+".")
}

func (b *builder) cardPressures() {
	in, l := b.in, b.in.Launcher
	t := document.Table{Caption: "Set pressures (gauge)", Head: []string{"What", "Setting", "Wrong below or above"}, Shape: document.Narrow}
	row := func(name string, band launcher.Band) {
		if band.Set {
			low, high := in.Units.Near(quantity.Pressure, band.Low), in.Units.Near(quantity.Gauge, band.High)
			t.Add(name, document.AsStrong(in.Units.Near(quantity.Gauge, band.Nominal)), low+" to "+high)
		}
	}
	if l.Switch != nil {
		row("pump stops (cut-out)", l.Switch.CutOut)
		row("pump starts (cut-in)", l.Switch.CutIn)
	}
	f := b.filledBy()
	row(f.row, f.at)
	for i := range l.Paths {
		if p := &l.Paths[i]; p.Kind == pneumatics.Relief {
			row(reliefName(p.Name)+" opens", p.SetPressure)
		}
	}
	b.add(t)
}

// reliefName is a relief valve by its name, which often says what it is.
func reliefName(name string) string {
	if name = document.AsGiven(name).String(); strings.Contains(strings.ToLower(name), "relief") {
		return strings.ReplaceAll(name, "_", " ") + " valve"
	}
	return "relief valve " + name
}

func (b *builder) cardChecks() {
	b.add(document.Heading{Level: 2, Text: "Before use", ID: "before-use"})
	items := []any{
		b.gaugeFirst() + "From the side, with a light: " + b.emptyBarrel() + ". " + drill.InPlace(b.in.Launcher),
		b.weighed() + "Projectiles dry, soft, whole, counted. Nothing else near the muzzle.",
		drill.Filled(b.in.Launcher) + " If not: stop, do not use.",
	}
	if b.hasRelief() { // before it is emptied: without pressure none blows
		items = append(items, "Still filled, from the side: relief valve lifted, where it has a ring or a lever: it blows and shuts.")
	}
	b.boxes(append(items, b.ventLine(), "Eye protection on. "+b.distanceLine())...)
}

func (b *builder) gaugeFirst() string {
	if b.hasGauge() {
		return "Gauge at zero. "
	}
	return ""
}

// ventLine is the time to see on a stopwatch, by the criterion of the verdicts:
// the target, read on the gauge.
func (b *builder) ventLine() string {
	slow, ok := b.stopwatch()
	switch {
	case math.IsInf(slow, 1):
		return "It does not empty by itself without power: do not use."
	case !ok:
		return "Filled, then " + drill.CutOff(b.in.Launcher) + ": write down how long the gauge takes to fall to its lowest, ______ s."
	}
	when := b.in.seconds(slow)
	if slow >= 1 {
		when = "after " + when + " at the latest"
	}
	return fmt.Sprintf("Filled as above, armed, nothing loaded, then %s: %s or less on every gauge %s. Later than that: do "+
		"not use.", drill.CutOff(b.in.Launcher), b.in.Units.Near(quantity.Gauge, b.in.Vent.Target), when)
}

func (b *builder) distanceLine() string {
	crew := "the crew"
	if b.rider() {
		crew = "the crew (a rider is no crew)"
	}
	if f := b.in.Flights; f != nil {
		return "Nobody in front. Clear zone of " + b.in.Units.Worst(quantity.Length, f.ClearRadius) + " all round" +
			show.Lead("; ", b.text(f.Guess())) + "; free of all but " + crew + "."
	}
	if near, known := b.in.Launcher.Event.Nearest(); known {
		return "Nobody in front, nobody but " + crew + " nearer than " + b.in.asStated(quantity.Length, near) + "."
	}
	return "Nobody in front of the muzzle."
}

func (b *builder) cardStop(d *document.Document) {
	b.add(document.Heading{Level: 2, Text: "STOP", ID: "stop"})
	b.say(document.AsStrong(drill.Stop(b.in.Launcher)))
	b.add(document.Heading{Level: 2, Text: "Stuck", ID: "stuck"})
	b.say(b.jamLine())
	emergency := document.Field{Label: "Emergency, first aid (telephone)", Value: nil}
	if d.Tone == show.Bad { // nobody fires it, nobody loads it
		b.add(document.Form{Fields: []document.Field{emergency}})
	} else {
		b.add(document.Form{Fields: []document.Field{{Label: drill.MayFire(b.in.Launcher), Value: optional(b.in.Launcher.InCharge)},
			{Label: "May load", Value: nil}, emergency}})
	}
	b.tell(show.Faint, "Never load anything but the projectile. Figures are benchmarks, used voluntarily; local "+
		"law goes first. This card goes with the safety file of the same file number.")
}
