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
	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/setpoint"
)

func pa(bar float64) *float64 { v := bar * 1e5; return &v }

// invented is an answer of invented figures; hostile text where text may come from
// a file.
func inventedSetpoint() setpoint.Answer {
	hostile := "paths.\x1b[31mrelief.set_pressure"
	return setpoint.Answer{Works: true, Why: finding.Words("it does"), CutOut: pa(0.41239), CutIn: pa(0.3), ReliefSet: pa(0.6),
		ReliefSetMin: pa(0.55),
		ReliefSetMax: pa(0.65), ReliefFullFlowMax: pa(0.9), Relief: finding.Words("as the design has it"), Binding: "ladder.order",
		Basis: finding.OnModel,
		Next:  &setpoint.NextVerdict{ID: "energy.fault", CutOut: 0.5e5, What: finding.Words("with more")}, Allowed: 0.5, Pressure: 0.9e5,
		Stated: pa(0.4),
		Ladder: []launcher.Rung{{Name: "cut-out", Gauge: 0.41e5, Low: 0.38e5, High: 0.44e5}, {Name: "relief set", Gauge: 0.5e5, Low: 0.43e5,
			High: 0.57e5},
			{Name: "energy limit", Gauge: 0.9e5, Low: 0.9e5, High: 0.9e5, Limit: launcher.Yes}},
		Sensitivity: []setpoint.Gain{{Key: hostile, CutOut: 2500, Assumed: true}},
		Bases: []setpoint.OnBasis{{Basis: finding.OnCeiling, Pressure: pa(0)}, {Basis: finding.OnModel, Pressure: pa(0.9),
			CutOut: pa(0.41)}, {Basis: finding.OnMeasured}},
		Changes: []setpoint.Change{{Key: "barrel.travel", What: finding.Words("less travel"), From: pa(1e-6), To: pa(5e-7), CutOut: 0.5e5}},
		Source: setpoint.SourceAnswer{DeadHead: 4e5, What: finding.Words("it can push to 4 bar"),
			Turned: []setpoint.Turned{{What: finding.Words("a pump"), Pressure: 6e5}}},
		Parts:     []setpoint.PartNote{{Part: "gauge", Gauge: 0.4e5, Text: finding.Words("0 to 1 bar")}},
		Procedure: finding.AllWords([]string{"Use a gauge."}), Notes: finding.AllWords([]string{"a note"}),
		Supply: &setpoint.SupplyAnswer{FillFromZero: setpoint.Spread{Fast: 5, Nominal: 6, Slow: math.NaN()}, DutyAtOneAMin: 0.1, AirPerShot: 3e-4,
			Relief: &setpoint.ReliefAnswer{Balance: 0.7e5, Simulated: 0.7e5, FullFlow: 0.8e5, Area: 1e-5, Needed: 1e-6, Coefficient: 0.6}},
		Bench: []launcher.Replacement{{Key: "pressure_switch.cut_out", Test: "switch cycles", Before: launcher.Exact("k", 0.4e5),
			After: launcher.Exact("k", 0.41e5)}},
		BenchMoved: pa(-0.01)}
}

func setpointText(t *testing.T, s setpoint.Answer, style Style) string {
	t.Helper()
	var b bytes.Buffer
	sc := SetpointScreen{Frame: Frame{Style: style, DimensionOf: func(key string) (unit.Dimension, bool) {
		return unit.Length, key == "barrel.travel"
	}}, Setpoint: s}
	require.NoError(t, sc.Write(&b))
	return b.String()
}

func TestSetpointScreen(t *testing.T) {
	text := setpointText(t, inventedSetpoint(), Style{Width: 80})
	for _, want := range []string{
		"The highest cut-out is 0.412 bar gauge; the design has 0.400 bar gauge.", // rounded down: 0.413 would be too high
		"Binds: ladder.order, basis model: it does.", "touches the rung below", "assumed: measure it", "DOES NOT HOLD",
		"barrel.travel from 100 mm to 50.0 mm: less travel.", "not within an hour", "They lowered the highest cut-out by 0.010 bar gauge.",
		"1. Use a gauge.",
	} {
		assert.Contains(t, text, want)
	}
	assert.NotContains(t, text, "\x1b", "a file's text steers no terminal")
	for _, width := range []int{MinWidth, 80, MaxWidth} {
		for _, line := range strings.Split(setpointText(t, inventedSetpoint(), Style{Width: width}), "\n") {
			if width >= 80 {
				assert.LessOrEqual(t, show.Columns(line), width, line)
			}
		}
	}
	// 0.41239 bar is 5.981 psi (1 psi = 6894.757 Pa, NIST SP 811), rounded down.
	assert.Contains(t, setpointText(t, inventedSetpoint(), Style{Width: 80, Units: quantity.US}), "5.98 psi gauge")
}

func TestSetpointFindings(t *testing.T) {
	s := inventedSetpoint()
	s.Stated = pa(0.5)
	assert.Contains(t, setpointText(t, s, Style{Width: 80}), "TOO HIGH")
	s.Unknown = finding.Words("supply.dead_head is not stated")
	assert.Regexp(t, "^NOT KNOWN: supply.dead_head is not stated", setpointText(t, s, Style{Width: 80}))
	s.Unknown, s.Unmet = nil, finding.Words("energy.fault fails")
	assert.Regexp(t, "^DOES NOT HOLD: energy.fault fails", setpointText(t, s, Style{Width: 80}))
	s.Unmet = nil
	s.CutOut = nil
	assert.Contains(t, setpointText(t, s, Style{Width: 80}), "No switch is needed")
	s.Works = false
	assert.Contains(t, setpointText(t, s, Style{Width: 80}), "NO CUT-OUT WORKS")
}

// The keys that the contract names are there, null where there is no figure.
func TestSetpointJSON(t *testing.T) {
	s := inventedSetpoint()
	s.CutIn = nil
	doc, err := export.Setpoint(show.DesignID{Name: "n"}, s)
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, show.WriteJSON(&b, doc))
	var read struct {
		Setpoint map[string]any
		Ladder   []map[string]any
		Supply   struct {
			FillFromZero map[string]any `json:"fill_from_zero"`
		}
	}
	require.NoError(t, json.Unmarshal(b.Bytes(), &read))
	for _, key := range []string{"cut_out_Pa", "cut_in_Pa", "relief_set_min_Pa", "relief_set_max_Pa", "relief_full_flow_max_Pa", "binding",
		"basis"} {
		assert.Contains(t, read.Setpoint, key)
	}
	assert.InDelta(t, 41239, read.Setpoint["cut_out_Pa"], 1e-9)
	assert.Nil(t, read.Setpoint["cut_in_Pa"])
	assert.Nil(t, read.Supply.FillFromZero["slow_s"])
	for _, key := range []string{"name", "gauge_Pa", "low_Pa", "high_Pa"} {
		assert.Contains(t, read.Ladder[0], key)
	}
	s.Pressure = math.NaN()
	_, err = export.Setpoint(show.DesignID{}, s)
	assert.Error(t, err, "a figure that is no number withholds the document")
}

func TestLadderFigureIsInTheUnitsShown(t *testing.T) {
	f := curve.Ladder(inventedSetpoint().Ladder, quantity.Metric)
	require.Len(t, f.Rows.Rows, 3)
	assert.Equal(t, figure.Boundary, f.Rows.Rows[2].Kind)
	assert.InDelta(t, 0.41, f.Rows.Rows[0].Mark, 1e-12) // rounding
	assert.Equal(t, "0.41 bar", f.Rows.Rows[0].Value)
	assert.Equal(t, "Pressure, psi gauge", curve.Ladder(inventedSetpoint().Ladder, quantity.US).Rows.Axis)
}

func TestSizeScreenAndFigure(t *testing.T) {
	z, err := setpoint.FindSize(setpoint.SizeQuestion{Limit: 0.5, Bore: 0.04, Mass: 4e-3})
	require.NoError(t, err)
	var b bytes.Buffer
	sc := SizeScreen{Frame: Frame{Style: Style{Width: 80}}, Size: z}
	require.NoError(t, sc.Write(&b))
	assert.Contains(t, b.String(), "123 mL")
	assert.Contains(t, b.String(), "4.00 g then flies at 15.8 m/s", "the root of 2 x 0.5 J/4 g")
	for _, line := range strings.Split(b.String(), "\n") {
		assert.LessOrEqual(t, show.Columns(line), 80, line)
	}
	f := SizeFigure(z, quantity.Metric)
	assert.Equal(t, "ceiling", f.Lines[0].Name)
	assert.Len(t, f.Lines, 1+len(z.Travels))
	_, err = export.Size(z)
	assert.NoError(t, err)
}
