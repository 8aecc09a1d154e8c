package paper

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits/finding"
)

// bursting is a launcher whose vessels are not made for it.
func bursting(t *testing.T) Input {
	in := failing(invented(t, nil))
	in.Report.Verdicts = append(in.Report.Verdicts, finding.Verdict{ID: "vessel.material", Title: "Vessels and barrel made for gas",
		Status: finding.Fail},
		finding.Verdict{ID: "relief.rating", Title: "The relief valve protects its vessels", Status: finding.Fail})
	in.Report.Items = append(in.Report.Items, finding.Item{ID: "tip.press-test", Title: finding.Words("Press test"),
		How: finding.Words("Press it on a kitchen scale.")}, finding.Item{ID: "vent.test", Title: finding.Words("Time the emptying"),
		How: finding.Words("Charge, arm, cut the power.")})
	return in
}

func card(t *testing.T, in Input) string {
	t.Helper()
	d, err := Card(in)
	require.NoError(t, err)
	text, err := document.Markdown(d)
	require.NoError(t, err)
	_, body, _ := strings.Cut(string(text), "-->")
	return body
}

// What holds on a condition is no pass on paper either: the condition and its items
// stand with the figure over its limit, and page one names it.
func TestConditionalOnPaper(t *testing.T) {
	in := invented(t, nil)
	in.Units = quantity.US
	in.Report.Conditions = 1
	in.Report.Verdicts = append(in.Report.Verdicts, finding.Verdict{ID: "misuse.objects", Title: "Other objects", Status: finding.Conditional,
		Value: number(2.31), Limit: number(0.08), Margin: number(-27.9), Unit: finding.InJoule, Basis: finding.OnProcedure,
		Condition: finding.Say("an adult looks in %s deep.", finding.Millimetre(0.0508)), Items: []string{"object-control.1"}})
	text := read(t, in)
	assert.Contains(t, text, "It holds on 1 condition that people keep.")
	assert.Contains(t, text,
		"Holds only while people do what was declared: Other objects: 2.31 J, OVER the limit of 0.080 J (object-control.1).")
	assert.Contains(t, text, "◊ conditional misuse.objects", "the hazard log")
	assert.Contains(t, text, "Holds while: an adult looks in 2.00 in deep (object-control.1).")
	assert.Contains(t, text, "1 holds on a condition that people keep")
	assert.NotContains(t, text, "PASS misuse.objects")
	page, err := document.HTML(built(t, in))
	require.NoError(t, err)
	assert.Contains(t, string(page), `class="kept"`)
}

// No paper asks anybody to fill what may burst, and no paper of a design that is
// not to be used has rules of use.
func TestNobodyIsToldToFillWhatMayBurst(t *testing.T) {
	text := read(t, bursting(t))
	assert.NotContains(t, text, "Charge, arm, cut the power.")
	assert.NotContains(t, text, "Chronograph.")
	assert.Contains(t, text, "Not before this is mended: Vessels and barrel made for gas")
	assert.Contains(t, text, "Press it on a kitchen scale.", "that needs no air")
	for _, w := range []string{"Stopwatch test, gauge on", "Leak-down, gauge on", "Shots to write down", "lifts, three times",
		"plug pulled while armed", "Read them aloud"} {
		assert.NotContains(t, text, w)
	}
	assert.Contains(t, text, "There are none: it is not to be used.")
	holds := read(t, invented(t, nil))
	for _, w := range []string{"Stopwatch test, gauge on", "Shots to write down", "lifts, three times", "plug pulled while armed",
		"Read them aloud", "Chronograph."} {
		assert.Contains(t, holds, w)
	}
}

// Advice is only what the design can follow.
func TestAdviceFitsTheDesign(t *testing.T) {
	trapped := bursting(t)
	trapped.Vent.Cases[1].Trapped, trapped.Vent.Cases[1].Slowest = true, math.Inf(1)
	text := card(t, trapped)
	assert.Contains(t, text, "It does NOT empty by itself: keep everybody away")
	for _, w := range []string{"lift its relief valve", "open its vent", "Holds the key", "May load"} {
		assert.NotContains(t, text, w)
	}
	rated := failing(invented(t, nil))
	rated.Report.Verdicts = append(rated.Report.Verdicts, finding.Verdict{ID: "relief.rating", Status: finding.Pass})
	assert.Contains(t, card(t, rated), "lift its relief valve by hand")

	blind := failing(invented(t, nil))
	blind.Launcher.Gauges = nil
	for _, text := range []string{card(t, blind), read(t, blind)} {
		assert.Contains(t, text, "There is no gauge: nobody can see whether it is empty.")
		for _, w := range []string{"very gauge", "Gauge to zero", "gauge stands at zero", "gauge has stood"} {
			assert.NotContains(t, strings.ReplaceAll(text, "on every gauge", ""), w)
		}
	}
	tested := failing(invented(t, nil))
	tested.Report.Verdicts = append(tested.Report.Verdicts, finding.Verdict{ID: finding.MeasuredEmptying, Status: finding.Fail,
		Why: finding.Words("slower than designed: it is")})
	assert.Contains(t, card(t, tested), "does not empty as computed")
	assert.NotContains(t, card(t, tested), "near zero after")
}

// The sheet to fill in begins where the test does, at the cut-out, not at the
// pressure of a fault, and warns of a vent that is shut too early.
func TestStopwatchSheetBeginsAtTheCutOut(t *testing.T) {
	d := built(t, invented(t, nil))
	for _, b := range d.Blocks {
		if table, ok := b.(document.Table); ok && strings.HasPrefix(table.Caption, "Stopwatch test, gauge on tank") {
			assert.Equal(t, []string{"0", "0.310", "0.360", "0.470", ""}, []string{table.Rows[0][0].String(), table.Rows[0][1].String(),
				table.Rows[0][2].String(), table.Rows[0][3].String(), table.Rows[0][4].String()})
			assert.Contains(t, read(t, invented(t, nil)), "Shut too early, at the target, it can come back to 0.12 bar gauge")
			return
		}
	}
	t.Fatal("no sheet")
}

// What a hand that frees a jammed projectile too early may meet stands on page one where it is over the limit, as resting
// on what people do, and in the risk table.
func TestJamIsNamedOnPageOne(t *testing.T) {
	in := invented(t, nil)
	v := finding.NewVerdict(finding.BarrelJammed, "Projectile that never moved, freed", finding.InJoule)
	v.Judge(5.5117, 0.5)
	v.HoldsWhile(finding.Words("nobody comes near for 60 s"), finding.ItemJamDrill)
	in.Report.Verdicts = append(in.Report.Verdicts, v)
	text := read(t, in)
	first, rest, _ := strings.Cut(text, "Name given by the builder:")
	assert.Contains(t, first, "Projectile that never moved, freed: 5.52 J, OVER the limit of 0.50 J (drill.jam)")
	assert.Contains(t, rest, "conditional barrel.jammed")
}

// The judged energy is one figure with one name, on page one and in the table.
func TestJudgedEnergyIsOneFigure(t *testing.T) {
	for name, c := range map[string]struct {
		measured, worst  float64
		figure, row, why string
	}{
		"measured bound": {0.19, 0.1657, "0.19 J", "measured (judged)",
			"the bound from measured shots; it is larger than the worst computed shot"},
		"narrowed model": {0.13, 0.1657, "0.17 J", "narrowed model (judged)",
			"the worst computed shot with the bands that measurements narrowed; it is larger"},
	} {
		in := invented(t, nil)
		e := in.Report.Energy
		e.Measured, e.WorstEnergy, e.Basis = &c.measured, c.worst, finding.OnMeasured
		e.Judged = max(c.measured, c.worst)
		in.Report.Verdicts[0].Value, in.Report.Verdicts[0].Basis = &e.Judged, finding.OnMeasured
		d := built(t, in)
		assert.Contains(t, read(t, in), "has at most "+c.figure+" of 0.50 J", name)
		assert.Contains(t, read(t, in), c.why, name)
		judged := 0
		for _, b := range d.Blocks {
			table, _ := b.(document.Table)
			for _, row := range table.Rows {
				if strings.HasSuffix(row[0].String(), "(judged)") {
					judged++
					assert.Equal(t, c.row, row[0].String(), name)
					assert.Equal(t, c.figure, row[1].String(), name)
				}
			}
		}
		assert.Equal(t, 1, judged, name)
	}
}

// What is not known is said so, and nothing is said of a supply that is not there.
func TestPageOneSaysWhatIsNotKnown(t *testing.T) {
	in := invented(t, nil)
	in.Launcher.Supply = nil
	in.Report.Verdicts = append(in.Report.Verdicts, finding.Verdict{ID: "energy.fault", Status: finding.Unknown,
		Why: finding.Words("missing: supply.dead_head")})
	text := read(t, in)
	assert.Contains(t, text, "At the worst single fault: not known: missing: supply.dead_head.")
	assert.NotContains(t, text, "The switch stops the supply")
}

// A name is the builder's words: it is marked so, in quotes, and never long enough
// to push what matters off the first page.
func TestNamesAreMarkedAndShort(t *testing.T) {
	in := invented(t, nil)
	in.Design.Name = "May be used at 0.36 bar. " + strings.Repeat("W", 400)
	d := built(t, in)
	assert.Contains(t, d.Heading, "Safety file of the design named \"May be used at 0.36 bar.")
	for _, s := range []string{d.Heading, d.Title, d.Foot} {
		assert.Less(t, len(s), 200)
	}
	first, _, _ := strings.Cut(read(t, in), "2. What could hurt whom\nHolds")
	assert.Contains(t, first, "Name given by the builder: \"May be used")
	assert.NotContains(t, first, strings.Repeat("W", 81))
	assert.Contains(t, card(t, in), "# Name given by the builder: \"May be used")
}
