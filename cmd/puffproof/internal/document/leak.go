package document

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits"
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
		b.say(own(in.leakWords(c)))
	}
}

// leakWords says what the cooling does and how long to read.
func (in *Input) leakWords(c limits.LeakTest) string {
	t := fmt.Sprintf("Cooling alone takes it down by %s, %s at most, and is over after %s.", fall(in.near(unit.Pressure, c.Falls)), fall(in.worst(unit.Pressure, c.FallsMost)), in.worst(unit.Time, c.Settled))
	switch {
	case math.IsNaN(c.Needed):
		return t + " No gauge is stated on it."
	case math.IsInf(c.Needed, 1):
		return t + " Its gauge is too coarse to tell a leak within an hour."
	}
	return t + fmt.Sprintf(" Read for %s: then no leak of more than %s a minute can hide.", in.near(unit.Time, c.Needed), fall(in.near(unit.Pressure, c.Loses)))
}

// fall is a difference of readings: no gauge pressure.
func fall(text string) string { return strings.TrimSuffix(text, " gauge") }

// leakLog says what a real leak-down shows.
func (b *builder) leakLog() {
	a := b.in.LeakLog
	if a == nil {
		return
	}
	tone := Good
	if a.Status != limits.LeakTight {
		tone = Bad
	}
	b.add(Paragraph{Text: join(strong("Leak-down, real test: "), own(a.Says)), Tone: tone}) // it begins with the status
}
