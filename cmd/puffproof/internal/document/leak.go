package document

import (
	"fmt"
	"math"
	"puffproof/cmd/puffproof/internal/render"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/vent"
	"strconv"
)

// leakSheets are the readings to expect of a leak-down, a table for each volume.
func (b *builder) leakSheets() {
	in := b.in
	for _, c := range in.Vent.Leaks {
		if c.Opens != "" {
			b.say(join(own("No leak-down of "), given(c.Volume), own(": in state armed "), given(c.Opens), own(" is open on it, by design.")))
			continue
		}
		if len(c.Sheet) == 0 {
			continue
		}
		u, pressureName := in.style().AxisUnit(unit.Pressure, c.Start)
		decimals := max(0, 2-int(math.Floor(math.Log10(u.FromSI(c.Start)))))
		t := Table{Caption: "Leak-down, gauge on " + given(c.Volume).String() + " (" + pressureName + "), without a leak. Charged from empty until the supply stops, armed, supply off, nothing loaded, one room, no sun; tap the gauge.",
			Head: []string{"Time, s", "Lowest", "Expected", "Highest", "Read"}, Shape: Narrow}
		for _, r := range c.Sheet {
			cell := func(v float64) Text { return own(strconv.FormatFloat(u.FromSI(v), 'f', decimals, 64)) }
			t.Rows = append(t.Rows, []Text{own(fmt.Sprintf("%g", math.Round(r.Time))), cell(r.Low), cell(r.Gauge), cell(r.High), nil})
		}
		b.add(t)
		b.say(own(render.LeakWords(c, in.near, in.worst)))
	}
}

// leakLog says what a real leak-down shows.
func (b *builder) leakLog() {
	a := b.in.LeakLog
	if a == nil {
		return
	}
	tone := Good
	if a.Status != vent.LeakTight {
		tone = Bad
	}
	b.add(Paragraph{Text: join(strong("Leak-down, real test: "), own(a.Says)), Tone: tone}) // it begins with the status
}
