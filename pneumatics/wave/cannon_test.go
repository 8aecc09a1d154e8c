package wave

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/pneumatics/flow"
)

type measuredShot struct{ length, speed float64 }

func cannonShots(t *testing.T) (shots []measuredShot) {
	f, err := os.Open("../../testdata/reference/vacuum-cannon.csv")
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	for _, row := range rows[1:] {
		length, err := strconv.ParseFloat(row[0], 64)
		require.NoError(t, err)
		speed, err := strconv.ParseFloat(row[1], 64)
		require.NoError(t, err)
		shots = append(shots, measuredShot{length, speed})
	}
	return shots
}

// cannon is the experiment: 2.7 g, bore 40.4 mm, vacuum ahead, the atmosphere
// behind. The gas behind is a column of the bore's section, so long that the
// reflection from its end comes too late.
func cannon(length float64) Gun {
	return Gun{Gas: flow.Air(), Pressure: 101325, Temperature: 293.15, ChamberLength: 1.2*length + 0.5,
		Area: math.Pi / 4 * 0.0404 * 0.0404, Mass: 2.7e-3, Travel: length, Cells: 80}
}

// The vacuum cannon: 28 shots at six lengths, read off the figure of Ayars and
// Buchholtz, Am. J. Phys. (2004), to ±1.5 m/s; see testdata/wave/README.md.
// Nothing is tuned: mass, bore and atmosphere are those of the paper.
//
// The lossless column is an upper envelope. The fastest shots of each length lie
// 0 to 17 % below it (one is 0.25 % above, inside its reading error), all 28 up
// to 38 %; shots at one length scatter by up to 28 %. What the model
// leaves out slows the ball: the cover of the breech, which has to tear and lets
// the air in late; the cap at the muzzle; the air the pump has left; the air that
// leaks past the ball. The gap is 0.4 mm on the diameter, 2 % of the section: it
// passes at most 42 mg while the ball covers 2 m, and to set that moving with the
// ball costs 1.5 % of speed (hand estimate with Cd 0.6). So the caps are what
// counts; their loss and its scatter do not grow with length, as one would expect
// of losses at the ends. One thing works the other way: a rounded, open breech
// lets the air in from all sides, which the column does not have; that inlet gives
// 16 to 19 % more speed (TestVacuumCannonInlet). A sharp tube end lies between:
// Borda's mouthpiece loses just what sets the column moving (from memory).
func TestVacuumCannon(t *testing.T) {
	shots := cannonShots(t)
	require.Len(t, shots, 28)
	predicted := map[float64]float64{}
	best := map[float64]float64{}
	var sum, squares float64
	for _, s := range shots {
		if predicted[s.length] == 0 {
			u := cannon(s.length)
			r := u.Fire()
			a0 := u.Gas.SoundSpeed(u.Temperature)
			siegel := infiniteChamberSpeed(1.4, s.length*u.Pressure*u.Area/(u.Mass*a0*a0)) * a0
			// The closed form of the same column: 80 cells give 1e-4.
			assert.InEpsilon(t, siegel, r.Speed, 1e-4)
			predicted[s.length] = r.Speed
		}
		best[s.length] = max(best[s.length], s.speed)
		d := s.speed/predicted[s.length] - 1
		sum += d
		squares += d * d
		assert.Less(t, s.speed, predicted[s.length]+1.5, "no shot is faster than the lossless one by more than its reading error")
	}
	n := float64(len(shots))
	mean := sum / n
	sd := math.Sqrt((squares - n*mean*mean) / (n - 1))
	t.Logf("28 shots against the lossless column: mean %+.1f %%, standard deviation %.1f %%", 100*mean, 100*sd)
	// The same statistics of the file and Siegel's closed form, made in Python
	// (testdata/reference/gas_dynamics.csv). 80 cells move a speed by 1e-4.
	assert.InDelta(t, -0.21383, mean, 1e-4)
	assert.InDelta(t, 0.08674, sd, 1e-4)
	for length, speed := range best {
		d := speed/predicted[length] - 1
		t.Logf("%.3f m: predicted %.1f m/s, fastest %.1f m/s, %+.1f %%", length, predicted[length], speed, 100*d)
		assert.Greater(t, d, -0.17, "fastest shot of each length")
		assert.Less(t, d, 0.003)
	}
}

// The open inlet is an upper bound on the column: steady inflow from rest keeps
// more pressure behind the ball than a column that has to be set moving.
// Bernoulli against momentum; the bounds sqrt(2 p/rho) and the column's.
func TestVacuumCannonInlet(t *testing.T) {
	for _, length := range []float64{0.56, 2.001} {
		u := cannon(length)
		column := u.Fire()
		u.ChamberLength, u.Breech = 0.02, OpenBreech
		inlet := u.Fire()
		gain := inlet.Speed/column.Speed - 1
		t.Logf("%.2f m: column %.1f m/s, open inlet %.1f m/s (%+.0f %%)", length, column.Speed, inlet.Speed, 100*gain)
		assert.InDelta(t, 0, inlet.EnergyResidual, 1e-12)
		assert.Greater(t, gain, 0.0)
		assert.Less(t, inlet.Speed, math.Sqrt(2*u.Pressure*u.Area*length/u.Mass), "all of the work goes to the ball")
	}
}
