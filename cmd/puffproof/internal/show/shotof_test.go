package show

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/finding"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// A shot of invented figures: each must come out where the screens look for it,
// above the ambient pressure and from the seat.
func TestShotOfIsInGaugeReadings(t *testing.T) {
	const pa = 100000
	v := ShotOf(&worst.Nominal{
		Circuit: &pneumatics.Circuit{Ambient: pneumatics.Ambient{Pressure: pa},
			Volumes: []pneumatics.Volume{{Name: "tank"}, {Name: "dose"}}, Barrel: pneumatics.Barrel{Travel: 0.3}},
		Scenario: &pneumatics.Scenario{Volumes: []pneumatics.Condition{{Pressure: pa + 5}, {Pressure: pa + 6}}, Seat: 0.1},
		Result: &pneumatics.Result{Outcome: pneumatics.Left, MuzzleSpeed: 1, MuzzleEnergy: 2, ExitTime: 3, BarrelExit: pa + 4,
			FinalSpeed: 5, FinalEnergy: 6, BarrelPeak: pa + 7, Volumes: []pneumatics.Condition{{Pressure: pa + 1}, {Pressure: pa + 2}},
			Account: pneumatics.Account{GasWork: 8, Friction: 2},
			Trace:   pneumatics.Trace{Time: []float64{0, 1}, Position: []float64{0.1, 0.3}, Speed: []float64{0, 1}, Barrel: []float64{pa, pa + 7}}},
		Ceiling: 9, ContactArea: 2, Above: 0.4e5,
	})
	assert.Equal(t, "left", v.Outcome)
	assert.Equal(t, []NodeGauge{{Name: "tank", Gauge: 5}, {Name: "dose", Gauge: 6}}, v.Start)
	assert.Equal(t, []NodeGauge{{Name: "tank", Gauge: 1}, {Name: "dose", Gauge: 2}}, v.After)
	assert.Equal(t, []float64{1, 2, 3, 4, 5, 6, 7},
		[]float64{v.MuzzleSpeed, v.MuzzleEnergy, v.ExitTime, v.ExitGauge, v.FinalSpeed, v.FinalEnergy, v.PeakGauge})
	assert.Equal(t, 3.0, v.AreaEnergy)
	assert.InDeltaSlice(t, []float64{0, 0.2}, v.Series.Travel, 1e-15) // rounding of one subtraction
	assert.Equal(t, []float64{0, 7}, v.Series.Gauge)
	assert.Len(t, v.Account, 3, "parts without a role are left out")
	assert.Equal(t, "This start is 0.4 bar above the highest pressure of normal operation.", finding.Join(v.Notes, "; ").String())
}
