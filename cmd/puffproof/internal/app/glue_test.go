package app

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/render"
	"puffproof/pneumatics"
)

// 1 psi is 6894.757 Pa, 1 atm 101325 Pa (NIST SP 811, 2008, Appendix B.8).
func TestReadGauge(t *testing.T) {
	for text, want := range map[string]float64{
		"0.8 bar": 0.8e5, "12 psi": 12 * 6894.757, "40 kPa gauge": 40e3, "1.5 bara": 1.5e5 - 101325, "0 bar": 0,
	} {
		got, err := readGauge(text, 101325)
		require.NoError(t, err, text)
		assert.InDelta(t, want, got, 0.01, text) // 0.01 Pa: the printed digits of the psi
	}
	for _, text := range []string{"", "0.8", "0.8 mm", "0,8 bar", "0.8 bar ± 0.1 bar", "NaN bar", "abc"} {
		_, err := readGauge(text, 101325)
		assert.Error(t, err, text)
	}
}

// run of invented figures: each must come out where the screens look for it,
// above the ambient pressure and from the seat.
func inventedRun() shotRun {
	const pa = 100000
	return shotRun{
		Circuit: pneumatics.Circuit{Ambient: pneumatics.Ambient{Pressure: pa},
			Volumes: []pneumatics.Volume{{Name: "tank"}, {Name: "dose"}}, Barrel: pneumatics.Barrel{Travel: 0.3}},
		Scenario: pneumatics.Scenario{Volumes: []pneumatics.Condition{{Pressure: pa + 5}, {Pressure: pa + 6}}, Seat: 0.1},
		Result: &pneumatics.Result{Outcome: pneumatics.Left, MuzzleSpeed: 1, MuzzleEnergy: 2, ExitTime: 3, BarrelExit: pa + 4,
			FinalSpeed: 5, FinalEnergy: 6, BarrelPeak: pa + 7, Volumes: []pneumatics.Condition{{Pressure: pa + 1}, {Pressure: pa + 2}},
			Account: pneumatics.Account{GasWork: 8, Friction: 2},
			Trace:   pneumatics.Trace{Time: []float64{0, 1}, Position: []float64{0.1, 0.3}, Speed: []float64{0, 1}, Barrel: []float64{pa, pa + 7}}},
		Ceiling: 9, ContactArea: 2,
	}
}

func TestShotViewIsInGaugeReadings(t *testing.T) {
	v, err := inventedRun().view()
	require.NoError(t, err)
	assert.Equal(t, "left", v.Outcome)
	assert.Equal(t, []render.NodeGauge{{Name: "tank", Gauge: 5}, {Name: "dose", Gauge: 6}}, v.Start)
	assert.Equal(t, []render.NodeGauge{{Name: "tank", Gauge: 1}, {Name: "dose", Gauge: 2}}, v.After)
	assert.Equal(t, []float64{1, 2, 3, 4, 5, 6, 7}, []float64{v.MuzzleSpeed, v.MuzzleEnergy, v.ExitTime, v.ExitGauge, v.FinalSpeed, v.FinalEnergy, v.PeakGauge})
	assert.Equal(t, 3.0, v.AreaEnergy)
	assert.InDeltaSlice(t, []float64{0, 0.2}, v.Series.Travel, 1e-15) // rounding of one subtraction
	assert.Equal(t, []float64{0, 7}, v.Series.Gauge)
	assert.Len(t, v.Account, 3, "parts without a role are left out")
}

func TestShotWhoseBalanceIsOpenIsWithheld(t *testing.T) {
	for _, spoil := range []func(*pneumatics.Result){
		func(r *pneumatics.Result) { r.EnergyResidual = 1 },
		func(r *pneumatics.Result) { r.MassResidual = math.NaN() },
		func(r *pneumatics.Result) { r.Reason = "the step became too small" },
	} {
		s := inventedRun()
		spoil(s.Result)
		_, err := s.view()
		assert.Error(t, err)
	}
}
