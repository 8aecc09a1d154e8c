package paper

import (
	"fmt"
	"math"
	"slices"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/stopwatch"
)

// measurements shows what was measured, raw, and what the program makes of it.
func (b *builder) measurements() {
	b.section("Measured shots and readings")
	files := slices.DeleteFunc(slices.Clone(b.in.Attached), func(a document.Attached) bool { return a.Role == RecordRole })
	if len(files) == 0 {
		if stop := b.notBefore(); stop != "" {
			b.say("No measurement was given to this file. " + stop + ": until then nobody shoots with it.")
			return
		}
		b.say("No measurement was given to this file. Until at least 5 shots are measured the energies of part 9 are calculated, not measured.")
		b.add(document.Table{Caption: "Shots to write down", Head: []string{"No.", "Gauge before", "Projectile", "Speed or range",
			"Instrument", "Date, two initials"}, Rows: numbered(8, 6), Shape: document.Blanks, Widths: []int{8, 17, 17, 20, 20, 18}})
		return
	}
	b.shotGroups()
	b.bound()
	b.narrowed()
	b.log()
	b.leakLog()
	for _, a := range files {
		name := "measured shots and bench tests"
		if a.Role == VentLogRole {
			name = "readings while it emptied"
		}
		if a.Role == LeakLogRole {
			name = "readings while it was sealed"
		}
		b.add(document.Raw{Caption: "Raw data as read: " + name + ", " + document.AsGiven(a.Name).String() + ", file " + a.SHA256[:min(12,
			len(a.SHA256))],
			Text: a.Text})
	}
}

// shotGroups are the shots of one pressure each.
func (b *builder) shotGroups() {
	f, in := b.in.Found, b.in
	if f == nil {
		return
	}
	t := document.Table{Caption: "Shots by pressure: speeds at the muzzle", Head: []string{"Gauge",
		"Shots", "Mean", "Scatter (s)", "Bound of speed", "Bound of energy", "Counts?"}, Widths: []int{15, 8, 12, 13, 15, 15, 22}}
	for i := range f.Groups {
		g := &f.Groups[i]
		counts, tone := "yes", show.Good
		if !g.Admissible() {
			counts, tone = "no: "+b.text(finding.Join(g.Faults, "; ")), show.Open
		}
		t.AddToned(tone, in.Units.Near(quantity.Gauge, g.Gauge), fmt.Sprint(g.Shots), in.Units.Near(quantity.Speed, g.Mean),
			in.Units.Near(quantity.Speed, g.SD), in.Units.Worst(quantity.Speed, g.UpperSpeed),
			in.Units.Worst(quantity.Energy, g.UpperEnergy), counts)
	}
	if len(t.Rows) > 0 {
		b.add(t)
	}
	var remarks []any
	for _, r := range f.Remarks {
		remarks = append(remarks, b.text(r.Text)+lineOf(r.Line))
	}
	if len(remarks) > 0 {
		b.list(remarks...)
	}
}

func lineOf(n int) string {
	if n == 0 {
		return ""
	}
	return fmt.Sprintf(" (line %d)", n)
}

// bound says what the shots bound, and how far it was carried.
func (b *builder) bound() {
	m, in := b.in.Report.Measured, b.in
	if m == nil {
		return
	}
	for _, x := range m.Clashes {
		b.tell(show.Bad, "Contradiction: "+b.text(x.Says())+".")
	}
	if len(m.Disagrees) != 0 {
		b.tell(show.Bad, "The shots do not agree with the model: "+b.text(m.Disagrees)+".")
	}
	switch {
	case len(m.Wrong) != 0:
		b.tell(show.Bad, "Contradiction: "+b.text(m.Wrong))
	case m.Bound != nil:
		b.say(fmt.Sprintf("Bound for normal use: %s, the measured bound times %s to reach the highest start pressure and the worst "+
			"seating.", in.Units.Worst(quantity.Energy, *m.Bound), quantity.Number(m.Carry, 3)))
	case len(m.NotCarried) != 0:
		b.say("The measured bound does not reach the pressures of normal use: " + b.text(m.NotCarried) + ".")
	}
}

// narrowed lists the bands that measurements replaced.
func (b *builder) narrowed() {
	f := b.in.Found
	if f == nil || len(f.Narrowed) == 0 {
		return
	}
	t := document.Table{Caption: "Bands that measurements replaced", Head: []string{"Key", "Was", "Is", "By"}, Widths: []int{30, 22, 22, 26}}
	for _, n := range f.Narrowed {
		t.Add(document.AsCode(n.Now.Key), b.bandEnds(n.Was), b.bandEnds(n.Now), b.text(n.How))
	}
	b.add(t)
}

// bandEnds shows the ends of a band in the unit of its key.
func (b *builder) bandEnds(band launcher.Band) string {
	return b.in.keys().ValueOrNumber(band.Key, band.Low) + " to " + b.in.keys().ValueOrNumber(band.Key, band.High)
}

// log says what a real emptying shows.
func (b *builder) log() {
	a, in := b.in.VentLog, b.in
	if a == nil {
		return
	}
	tone := show.Good
	if a.Status != stopwatch.Agrees {
		tone = show.Bad
	}
	t := document.Join(document.AsStrong("Emptying, real test: "+string(a.Status)+". "), b.text(a.Says))
	if !math.IsInf(a.Duration, 1) && !math.IsNaN(a.Duration) {
		t = document.Join(t, " Empty after "+in.Units.Worst(quantity.Time, a.Duration)+".")
	}
	b.tell(tone, t)
}
