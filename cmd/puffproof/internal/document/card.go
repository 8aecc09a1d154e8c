package document

import (
	"fmt"
	"math"
	"strings"

	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits"
	"puffproof/pneumatics"
)

// Card makes the one page that stays with the launcher: what it is set to, what
// to check, how long emptying takes, how to stop, who may hold the key.
func Card(in Input) (*Document, error) {
	b := &builder{in: &in}
	d := b.frame("Card")
	d.Heading = given(in.Design.Name).String()
	d.Layout = OneLeaf
	b.add(Callout{Title: d.Running, Tone: d.Tone, Body: []Text{join(strong("Holds until: "), own(b.holdsUntil()))}})
	b.cardPressures()
	b.cardChecks()
	b.cardStop()
	d.Blocks = b.blocks
	return d, b.err
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

// ventLine is the time to see on a stopwatch.
func (b *builder) ventLine() string {
	e, in := b.in.Vent, b.in
	if e == nil || e.Trouble != "" {
		return "Key out while filled: write down how long the gauge takes to zero, ______ s."
	}
	fast, slow := math.Inf(1), 0.0
	for _, c := range e.Cases {
		if c.Kind != limits.PowerLost || c.Start <= e.Target {
			continue
		}
		if c.Trapped || math.IsInf(c.Slowest, 1) {
			return "It does not empty by itself without power: do not use."
		}
		if c.Fastest > 0 { // a volume that starts at the target takes no time
			fast = min(fast, c.Fastest)
		}
		slow = max(slow, c.Slowest)
	}
	if slow == 0 {
		return "Key out while filled: write down how long the gauge takes to zero, ______ s."
	}
	return fmt.Sprintf("Key out while filled, nothing loaded: every gauge at zero after %s to %s. Later than that: do not use.", in.shown(unit.Time, fast, unit.Down), in.worst(unit.Time, slow))
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
	b.add(Form{[]Field{{"Holds the key, may fire", optional(b.in.Launcher.InCharge)}, {"May load", nil}, {"Emergency, first aid (telephone)", nil}}})
	b.add(Paragraph{Tone: Faint, Text: own("Never load anything but the projectile. Figures are benchmarks, used voluntarily; local law goes first. This card goes with the safety file of the same file number.")})
}
