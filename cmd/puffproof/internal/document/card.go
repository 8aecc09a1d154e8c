package document

import (
	"fmt"
	"math"
	"strings"

	"puffproof/cmd/puffproof/internal/render"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits"
	"puffproof/pneumatics"
)

// Card makes the one page that stays with the launcher: what it is set to, what
// to check, how long emptying takes, how to stop, who may hold the key. The card
// of a design that must not be used has no figure that anybody could set: it
// says what is wrong and how to empty it.
func Card(in Input) (*Document, error) {
	b := &builder{in: &in}
	d := b.frame("Card")
	d.Heading = shortened(given(in.Design.Name).String(), cardText)
	d.Layout = OneLeaf
	b.add(Callout{Title: d.Running, Tone: d.Tone, Body: []Text{join(strong("Holds until: "), own(b.holdsUntil()))}})
	if d.Tone == Bad {
		b.cardWrong()
	} else {
		b.cardPressures()
		b.cardChecks()
	}
	b.cardStop()
	d.Blocks = b.blocks
	d.Archive = archiveOf(CardPaper, in, d.Running)
	return d, b.err
}

// cardText is the most characters of a name on a card: it stays one page.
const cardText = 120

// cardWrong says what is wrong in words only: figures and advice stand in the
// safety file, where nobody takes them for a setting.
func (b *builder) cardWrong() {
	const shown = 8 // more do not fit on one page
	b.add(Heading{Level: 2, Text: "Do not fill it, do not load it", ID: "do-not"})
	var items []Text
	more := 0
	for _, v := range b.in.Report.Verdicts {
		if v.Status != limits.Fail && v.Status != limits.Unknown {
			continue
		}
		if len(items) == shown {
			more++
			continue
		}
		items = append(items, join(strong(render.StatusWord(v.Status)), own(" "+v.Title)))
	}
	if more > 0 {
		items = append(items, own(fmt.Sprintf("and %d more in the safety file", more)))
	}
	if past := b.expired(); past != "" && len(items) == 0 {
		items = append(items, own("a date in the design is past: "+past))
	}
	b.add(List{Items: items})
	b.say(own("This card gives no pressure on purpose: none is allowed. Mend what the safety file names, then make the card again."))
	b.add(Heading{Level: 2, Text: "Still filled? Empty it", ID: "empty"})
	b.add(List{Items: []Text{
		own("Everybody away from the muzzle and behind the launcher. Eye protection on. Key out, launcher off, pump unplugged."),
		own(b.emptyingLine()),
		own("Hang a tag on it: DO NOT FILL. Nobody carries it, opens it or works on it before every gauge stands at zero for a minute."),
	}})
}

// emptyingLine says what the gauges should do once it is off.
func (b *builder) emptyingLine() string {
	slow, ok := b.powerLost()
	switch {
	case math.IsInf(slow.slow, 1):
		return "It does NOT empty by itself: open its vent or lift its relief valve by hand, from the side, until every gauge is at zero."
	case !ok:
		return "Wait for every gauge to reach zero. If one stays up: open the vent or lift the relief valve by hand, from the side."
	}
	return fmt.Sprintf("Every gauge should be at zero after %s. If one is not: keep away, then open the vent or lift the relief valve by hand, from the side.", b.in.worst(unit.Time, slow.slow))
}

func (b *builder) cardPressures() {
	in, l := b.in, b.in.Launcher
	t := Table{Caption: "Set pressures (gauge)", Head: []string{"What", "Setting", "Wrong below or above"}, Shape: Narrow}
	row := func(name string, band limits.Band) {
		if band.Set {
			low, high := in.near(unit.Pressure, band.Low), in.near(unit.Pressure, band.High)
			t.Rows = append(t.Rows, []Text{own(name), strong(in.near(unit.Pressure, band.Nominal)), own(strings.TrimSuffix(low, " gauge") + " to " + high)})
		}
	}
	switch {
	case l.Switch != nil:
		row("pump stops (cut-out)", l.Switch.CutOut)
		row("pump starts (cut-in)", l.Switch.CutIn)
	case l.Supply != nil:
		row("pump stops by itself", l.Supply.DeadHead)
	}
	for i := range l.Paths {
		if p := &l.Paths[i]; p.Kind == pneumatics.Relief {
			row("relief valve "+given(p.Name).String()+" opens", p.SetPressure)
		}
	}
	b.add(t)
}

func (b *builder) cardChecks() {
	b.add(Heading{Level: 2, Text: "Before use", ID: "before-use"})
	items := []Text{
		own("Gauge at zero. Bore empty: look from the side, with a light. Guard, stop, key and clips in place."),
		own("Projectiles dry, soft, whole, counted. Nothing else near the muzzle."),
		own("Filled once with nobody near: the pump stops between the figures above. If not: stop, do not use."),
		own(b.ventLine()),
	}
	if b.hasRelief() {
		items = append(items, own("Relief valve lifted by hand: it blows and shuts."))
	}
	items = append(items, own("Eye protection on. "+b.distanceLine()))
	b.add(List{Boxes: TickBoxes, Items: items})
}

func (b *builder) hasRelief() bool {
	for i := range b.in.Launcher.Paths {
		if b.in.Launcher.Paths[i].Kind == pneumatics.Relief {
			return true
		}
	}
	return false
}

// span is how long emptying takes, the fastest and the slowest [s].
type span struct{ fast, slow float64 }

// powerLost is the time to empty of all volumes without power, from any state;
// false where it is not known. A volume that keeps its air makes it endless.
func (b *builder) powerLost() (span, bool) {
	e := b.in.Vent
	s := span{fast: math.Inf(1)}
	if e == nil || e.Trouble != "" {
		return s, false
	}
	for _, c := range e.Cases {
		if c.Kind != limits.PowerLost || c.Start <= e.Target {
			continue
		}
		if c.Trapped || math.IsInf(c.Slowest, 1) || c.Status == limits.VentTimeRanOut {
			return span{math.Inf(1), math.Inf(1)}, false
		}
		if c.Fastest > 0 { // a volume that starts at the target takes no time
			s.fast = min(s.fast, c.Fastest)
		}
		s.slow = max(s.slow, c.Slowest)
	}
	return s, s.slow > 0
}

// ventLine is the time to see on a stopwatch.
func (b *builder) ventLine() string {
	s, ok := b.powerLost()
	switch {
	case math.IsInf(s.slow, 1):
		return "It does not empty by itself without power: do not use."
	case !ok:
		return "Key out while filled: write down how long the gauge takes to zero, ______ s."
	}
	return fmt.Sprintf("Key out while filled, nothing loaded: every gauge at zero after %s to %s. Later than that: do not use.", b.in.shown(unit.Time, s.fast, unit.Down), b.in.worst(unit.Time, s.slow))
}

func (b *builder) distanceLine() string {
	if e := b.in.Launcher.Event; e != nil && e.NearestPerson.Set {
		if f := b.in.Flights; f != nil {
			return "Nobody in front. Clear zone of " + b.in.far(f.ClearRadius) + " all round, free of all but the crew."
		}
		return "Nobody in front, nobody nearer than " + b.in.near(unit.Length, e.NearestPerson.Nominal) + "."
	}
	return "Nobody in front of the muzzle."
}

func (b *builder) cardStop() {
	b.add(Heading{Level: 2, Text: "STOP", ID: "stop"})
	b.say(strong("Anyone may call STOP. Hand off. Key out. Launcher off. Gauge to zero. Then people move."))
	b.add(Heading{Level: 2, Text: "Stuck", ID: "stuck"})
	b.say(own("Off, wait until the gauge has stood at zero for a minute, look from the side, push out with a rod from the muzzle. Never by hand, never with air."))
	b.add(Form{[]Field{{"Holds the key, may fire", optional(shortened(given(b.in.Launcher.InCharge).String(), cardText))}, {"May load", nil}, {"Emergency, first aid (telephone)", nil}}})
	b.add(Paragraph{Tone: Faint, Text: own("Never load anything but the projectile. Figures are benchmarks, used voluntarily; local law goes first. This card goes with the safety file of the same file number.")})
}
