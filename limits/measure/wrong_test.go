package measure

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics/flight"
)

// A bound is below no shot, whatever their number: of a very skewed series mean
// plus k s may be.
func TestBoundHoldsTheFastestShot(t *testing.T) {
	g := SpeedGroup{Mean: 5, SD: 0.1, K: 2.5, Fastest: 9, Systematic: 0.2, MassHigh: 4e-3}
	g.upper()
	assert.InDelta(t, 9.2, g.UpperSpeed, 1e-12)
}

// A stated band and a reading: inside it narrows, around it tells nothing, partly
// or wholly outside the union is used. A band nobody stated is replaced.
func TestReadingMeetsBand(t *testing.T) {
	stated := sample.Between("k", 2, 4)
	for _, c := range []struct {
		name              string
		low, high         float64
		wantLow, wantHigh float64
		want              launcher.Meeting
	}{
		{"inside", 2.5, 3.5, 2.5, 3.5, launcher.Narrows},
		{"around", 1, 5, 2, 4, launcher.TellsNothing},
		{"same", 2, 4, 2, 4, launcher.TellsNothing},
		{"partly above", 3, 5, 2, 5, launcher.Clashes},
		{"partly below", 1, 3, 1, 4, launcher.Clashes},
		{"above", 6, 7, 2, 7, launcher.Clashes},
		{"below", 0, 1, 0, 4, launcher.Clashes},
	} {
		out, m := launcher.Meet(stated, sample.Between("k", c.low, c.high))
		assert.Equal(t, c.want, m, c.name)
		assert.Equal(t, [2]float64{c.wantLow, c.wantHigh}, [2]float64{out.Low, out.High}, c.name)
	}
	assumed := stated
	assumed.Assumed = true
	out, m := launcher.Meet(assumed, sample.Between("k", 6, 7))
	assert.Equal(t, launcher.Narrows, m)
	assert.InDelta(t, 6, out.Low, 0)
}

// A click holds dead time: it lowers the slow end and never lifts the fast one,
// unless that was measured.
func TestClickNeverLiftsTheFastEnd(t *testing.T) {
	stated := sample.Between("paths.fire.opening_time", 0, 40e-3)
	read := MeasuredBand("paths.fire.opening_time", 20e-3, 25e-3, 30e-3, "click")
	out := popEnd(stated, read)
	assert.InDelta(t, 0, out.Low, 0)
	assert.InDelta(t, 30e-3, out.High, 0)
	stated.Origin = launcher.Measured
	assert.InDelta(t, 20e-3, popEnd(stated, read).Low, 0)

	// Wholly slower than stated: both count, nothing passes.
	l := sample.Gentle()
	l.Paths[0].OpeningTime = sample.Between("paths.fire.opening_time", 0, 10e-3)
	e := &Findings{}
	e.TakeBench(l, &BenchValue{Kind: ClickToPop, Lines: []int{2}, Band: MeasuredBand("paths.fire.opening_time", 60e-3, 80e-3, 99e-3, "click")})
	require.Len(t, e.Clashes, 1)
	narrowed := e.Narrow(l).Paths[0].OpeningTime
	assert.Equal(t, [2]float64{0, 99e-3}, [2]float64{narrowed.Low, narrowed.High})
}

// With a strong tail wind the light projectile with much drag goes farthest: the
// zone holds every corner, each flown on its own.
func TestFarthestOverAllCorners(t *testing.T) {
	l := sample.Plain(sample.Measured, sample.Weak, atEvent(10, 0))
	l.Projectile.Drag = sample.Between("projectile.drag_coefficient", 0.4, 0.6)
	r := &FlightReport{Fast: 9}
	r.conditions(l)
	r.farthest(l, "farthest ahead", flight.Throw{Speed: 9, Height: r.Height}, +1)
	far := r.Cases[0].Distance
	light := 0.0
	for _, mass := range []int{0, 2} {
		for _, drag := range []int{0, 2} {
			x := flight.Farthest(flyingAt(l, mass, 1, drag), air(l, 10), flight.Throw{Speed: 9, Height: r.Height}, r.ElevationLow,
				r.ElevationTop, +1).Flight.Landing.X
			assert.GreaterOrEqual(t, far, x*(1-1e-9))
			if mass == 0 && drag == 2 {
				light = x
			}
		}
	}
	heavy := flight.Farthest(flying(l, 0), air(l, 10), flight.Throw{Speed: 9, Height: r.Height}, r.ElevationLow, r.ElevationTop,
		+1).Flight.Landing.X
	assert.Greater(t, light, heavy, "the wind carries it")
}

// What a design does not say of drag and wind is assumed, wide, and said.
func TestDragAndWindAreAssumed(t *testing.T) {
	l := sample.Plain(sample.Measured, sample.Weak, func(l *launcher.Launcher) { l.Projectile.Drag, l.Event = launcher.Band{}, nil })
	drag := dragBand(l)
	assert.Equal(t, [2]float64{0, 1.2}, [2]float64{drag.Low, drag.High})
	assert.True(t, drag.Assumed)
	r := &FlightReport{}
	r.conditions(l)
	assert.InDelta(t, 8, r.Wind, 0)
	said := ""
	for _, n := range finding.Strings(r.Notes) {
		said += n + "\n"
	}
	assert.Contains(t, said, "drag_coefficient: 0 to 1.2 is assumed")
	assert.Contains(t, said, "wind: up to 8 m/s is assumed")
	d := Decay(l, 0)
	assert.InEpsilon(t, flight.Decay(airDensity(l, 0), launcher.Circle(flyingDiameter(l).Nominal), 0.6, l.Projectile.Mass.Nominal),
		d.Value, 1e-12)
	assert.GreaterOrEqual(t, d.error, d.Value, "both ends are inside the error")
}

// Grubbs' greatest possible value for five readings is (n-1)/sqrt(n) = 1.789, the
// critical one at 1 % two-sided 1.764 (NIST/SEMATECH 1.3.5.17.1, formula): one far
// reading among five is named, an even five is not.
func TestOutlierOfFive(t *testing.T) {
	assert.InDelta(t, 1.764, grubbs(5, 0.005), 0.001) // printed to three decimals
	lines := []int{2, 3, 4, 5, 6}
	require.Len(t, outliers([]float64{5.1, 5.0, 5.2, 5.15, 9}, lines), 1)
	assert.Empty(t, outliers([]float64{5.1, 5.0, 5.2, 5.15, 5.05}, lines))
}

// Playback at half of the rate is caught at every pair of common rates; too many
// pressures are refused at once.
func TestHalfRateAndManyPressures(t *testing.T) {
	for _, rate := range []float64{30, 60, 120, 240} {
		s := &ShotSpeed{Shot: Shot{Line: 2, FrameRate: rate, Frames: 40}}
		got := videoRemark(s, 2.5, 5, "the model gives")
		require.Len(t, got, 1)
		assert.Contains(t, got[0].Text.String(), "slow-motion")
	}
	l := sample.Plain(sample.Measured)
	var shots []Shot
	for i := range 900 {
		shots = append(shots, Shot{Line: i + 2, Gauge: (0.05 + 0.02*float64(i)) * sample.Bars, Method: Chronograph, Speed: 5})
	}
	found, err := Evaluate(context.Background(), l, &ShotLog{Shots: shots})
	require.NoError(t, err)
	require.NotEmpty(t, found.Severe())
	assert.Contains(t, found.Severe()[0].Text.String(), "different pressures")
	assert.False(t, math.IsNaN(found.Groups[0].Gauge))
	assert.Equal(t, 1, speedGroups(l, found.Shots[:1])[0].Shots)
}

// Names differ by more than the case of their letters.
func TestBallsAreCountedWithoutCase(t *testing.T) {
	l := sample.Plain(sample.Measured)
	shots := shotsAt(0.9*sample.Bars, 1, 8.0, 8.1, 7.9, 8.2, 8.05)
	shots[1].Projectile = "a"
	found, err := measure(context.Background(), l, &ShotLog{Shots: shots})
	require.NoError(t, err)
	assert.Equal(t, 1, found.Groups[0].Projectiles)
}
