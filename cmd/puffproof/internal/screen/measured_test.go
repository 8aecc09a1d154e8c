package screen

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/curve"
	"puffproof/cmd/puffproof/internal/export"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
)

// inventedFindings has a shot that counts, a misfire, a fit that disagrees and a
// hostile note.
func inventedFindings() *measure.Findings {
	band := launcher.Band{Set: true, Key: "projectile.mass", Low: 0.003, Nominal: 0.004, High: 0.005}
	return &measure.Findings{Log: "s\x1b[31m.csv",
		Shots: []measure.ShotSpeed{
			{Shot: measure.Shot{Line: 2, Gauge: 4e4, Method: measure.Chronograph, Projectile: "A", Note: "wet\x1b[2J"}, Speed: 5, Systematic: 0.1,
				Conversion: finding.Words("v exp(k x)")},
			{Shot: measure.Shot{Line: 3, Gauge: 4e4, Misfire: true}, Speed: math.NaN()},
		},
		Groups: []measure.SpeedGroup{{Gauge: 4e4, Shots: 5, Misfires: 1, Projectiles: 2, Mean: 5, SD: 0.1, Systematic: 0.1, K: 5.741,
			UpperSpeed: 5.674, UpperEnergy: 0.066}},
		Bench: []measure.BenchValue{{Kind: measure.Coins, Band: band, How: finding.Words("coins, 3 readings")}},
		Fit: &measure.Fit{P: 0.001, Parameters: []measure.Parameter{{Key: "projectile.mass", Value: 0.004, Low: 0.003, High: 0.005,
			Learned: true, How: "fitted"}},
			Residuals: []measure.Residual{{Gauge: 4e4, Measured: 5, Model: 4, Before: 0, Error: 0.1}},
			Suspects:  []measure.Suspect{{Key: "projectile.mass", Value: 0.002, P: 0.4}}},
		Narrowed: []measure.Narrowing{{Was: band, Now: band, How: finding.Words("coins")}},
		Remarks:  []measure.Remark{{Line: 2, Text: finding.Words("a suspected outlier")}},
	}
}

func massOnly(key string) (unit.Dimension, bool) { return unit.Mass, key == "projectile.mass" }

func TestCalibrateScreen(t *testing.T) {
	var b bytes.Buffer
	c := CalibrateScreen{Frame: Frame{Style: Style{Width: 80}, Design: inventedID(), DimensionOf: massOnly}, Found: inventedFindings()}
	require.NoError(t, c.Write(&b))
	text := b.String()
	for _, want := range []string{"Measured bound 0.066 J at 0.40 bar gauge", "does NOT agree", "misfire", "k x", "wet<U+001B>",
		"projectile.mass 4.00 g (3.00 g to 5.00 g)", "It would agree with projectile.mass at 2.00 g", "Look at line 2: a suspected outlier",
		"stalls", "|========>"} {
		assert.Contains(t, strings.Join(strings.Fields(text), " "), want)
	}
	assert.NotContains(t, text, "\x1b")
	for _, l := range strings.Split(text, "\n") {
		assert.LessOrEqual(t, show.Columns(l), 80, l)
	}
}

// Keys of the contract, and null where there is no number.
func TestCalibrateJSON(t *testing.T) {
	doc, err := export.Calibrate(inventedID(), inventedFindings())
	require.NoError(t, err)
	data, err := json.Marshal(doc)
	require.NoError(t, err)
	var m map[string]any
	require.NoError(t, json.Unmarshal(data, &m))
	shots := m["shots"].(map[string]any)
	for _, k := range []string{"n", "mean_energy_J", "sd_energy_J", "k", "upper_bound_J", "confidence", "coverage",
		"mean_speed_m_s", "sd_speed_m_s", "systematic_m_s", "upper_speed_m_s", "at_gauge_Pa"} {
		assert.Contains(t, shots, k)
	}
	assert.Contains(t, m, "fit")
	assert.Nil(t, m["speeds"].([]any)[1].(map[string]any)["speed_m_s"])
	// One shot has no scatter and no bound.
	f := &measure.Findings{Groups: []measure.SpeedGroup{{Shots: 1, Mean: 5, K: math.NaN(), UpperSpeed: math.NaN(), UpperEnergy: math.NaN(),
		Faults: finding.AllWords([]string{"1 shot"})}}}
	doc, err = export.Calibrate(inventedID(), f)
	require.NoError(t, err)
	data, _ = json.Marshal(doc)
	assert.Contains(t, string(data), `"k":null`)
	assert.Contains(t, string(data), `"fit":null`)
}

// What a fragment says can be read back by the unit reader of design files.
func TestFragmentReads(t *testing.T) {
	text := Fragment(inventedID(), inventedFindings(), massOnly)
	assert.NotContains(t, text, "\x1b")
	require.Contains(t, text, "[projectile]\n")
	_, value, ok := strings.Cut(text, "mass = \"")
	require.True(t, ok)
	value, _, _ = strings.Cut(value, "\"")
	q, err := unit.Parse(value, unit.Mass)
	require.Nil(t, err, value)
	assert.InEpsilon(t, 0.003, q.Low, 1e-9)
	assert.InEpsilon(t, 0.005, q.High, 1e-9)
	assert.Equal(t, unit.Measured, q.Origin)
	// A plain number has no unit.
	q, err = unit.Parse(fragmentValue(launcher.Band{Key: "x", Low: 1.8, Nominal: 2, High: 2.3}, massOnly), unit.Dimensionless)
	require.Nil(t, err)
	assert.InEpsilon(t, 2.3, q.High, 1e-9)
}

// The figures show what was measured and computed, and an empty log draws none.
func TestCalibrateLines(t *testing.T) {
	l := curve.Calibrate(inventedID(), inventedFindings(), quantity.Metric)
	require.Len(t, l.Lines, 3)
	assert.Equal(t, []float64{0.4}, l.Lines[0].X)
	assert.Equal(t, []float64{4}, l.Lines[1].Y)
	assert.Contains(t, l.X, "bar gauge")
}

// check shows the measured basis with its carry and what was narrowed.
func TestCheckMeasured(t *testing.T) {
	f := inventedFindings()
	bound := 0.08
	c := CheckScreen{Frame: Frame{Style: Style{Width: 80}, DimensionOf: massOnly},
		Report: limits.Report{Measured: &measure.Report{Group: &f.Groups[0], Bound: &bound, Carry: 1.21, Narrowed: f.Narrowed}}}
	c.writeMeasured()
	text := strings.Join(strings.Fields(c.page.String()), " ")
	assert.Contains(t, text, "5 shots at 0.40 bar gauge, bound 0.066 J there, energy times 1.21")
	assert.Contains(t, text, "projectile.mass: 3.00 g to 5.00 g becomes 3.00 g to 5.00 g (coins)")
	c.Report.Measured = &measure.Report{NotCarried: finding.Words("measure at 0.5 bar")}
	c.page.Reset()
	c.writeMeasured()
	assert.Contains(t, c.page.String(), "Measured bound unknown: measure at 0.5 bar.")
}

func TestFlightAndPlanScreens(t *testing.T) {
	r := &measure.FlightReport{ClearRadius: 8.1, Ahead: 6.1, Behind: 3.5, Bounce: 2, Fast: 9.5, Height: 1.5,
		Cases:    []measure.FlightCase{{Name: "farthest \x1b[1mahead", Speed: 9.5, Wind: -5, Distance: 6.1}},
		Standing: []measure.Standing{{Name: "nearest person", Distance: 3, Inside: true, Person: true}, {Name: "kerb", Distance: 20}},
		Levels:   []measure.AtDistance{{Distance: 1, Speed: 9, Energy: 0.2}}, Notes: finding.AllWords([]string{"invented"})}
	for _, u := range []quantity.System{quantity.Metric, quantity.US} {
		var b bytes.Buffer
		require.NoError(t, (&FlightScreen{Frame: Frame{Style: Style{Width: 80, Units: u}, Design: inventedID()}, Report: r}).Write(&b))
		assert.NotContains(t, b.String(), "\x1b")
		assert.Contains(t, b.String(), "INSIDE the landing zone: nearest person")
		assert.Contains(t, b.String(), "Outside: kerb")
		assert.Contains(t, b.String(), "head")
		assert.Contains(t, strings.Join(strings.Fields(b.String()), " "), "which no shot has together")
	}
	_, err := export.Flight(inventedID(), r)
	require.NoError(t, err)
	p := &measure.ShotPlan{Refused: finding.Words("it has 32 J"), Pressures: []measure.PlanPressure{{Gauge: 4e4, Shots: 5,
		Why: finding.Words("gentle"), Nominal: 4, High: 5, Stop: 6,
		Readings: []measure.PlanReading{{Method: measure.Video, Setup: finding.Words("marks"), Nominal: 30, High: 20,
			Quantity: finding.InCount}}}},
		Count: []measure.PlanShots{{Scatter: 0.1, Bound: 2}}, Stand: finding.AllWords([]string{"nobody in front"})}
	var b bytes.Buffer
	require.NoError(t, (&PlanScreen{Frame: Frame{Style: Style{Width: 80}, Design: inventedID()}, Plan: p}).Write(&b))
	text := strings.Join(strings.Fields(b.String()), " ")
	for _, want := range []string{"Do NOT test this build: it has 32 J.", "between a stall and 5.0 m/s",
		"30 frames; weakest none, it may stall, strongest 20 frames",
		"not even 100 shots would do", "nobody in front"} {
		assert.Contains(t, text, want)
	}
	_, err = export.Plan(inventedID(), p)
	require.NoError(t, err)
}
