package paper

import (
	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/vent"
)

// leakSheets are the readings to expect of a leak-down, a table for each volume.
func (b *builder) leakSheets() {
	in := b.in
	for _, c := range in.Vent.Leaks {
		if c.Opens != "" {
			b.say("No leak-down of ", document.AsGiven(c.Volume), ": in state armed ", document.AsGiven(c.Opens), " is open on it, by design.")
			continue
		}
		if len(c.Sheet) == 0 {
			continue
		}
		b.gaugeSheet("Leak-down, gauge on "+document.AsGiven(c.Volume).String(),
			", without a leak. "+in.Launcher.HowFilled("from empty ")+", armed, supply off, nothing loaded, one room, no sun; tap the gauge.",
			c.Start, c.Sheet, func(t float64) string { return quantity.Fixed(t, 0, quantity.Nearest) })
		b.say(show.LeakWords(in.Units, in.Vent, c))
	}
}

// leakLog says what a real leak-down shows.
func (b *builder) leakLog() {
	a := b.in.LeakLog
	if a == nil {
		return
	}
	tone := show.Good
	if a.Status != vent.LeakTight {
		tone = show.Bad
	}
	b.tell(tone, document.AsStrong("Leak-down, real test: "), b.text(a.Says)) // it begins with the status
}
