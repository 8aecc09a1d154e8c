package measure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// dumped is a tank of 2 L with a gauge and a dump hole of 1 mm whose discharge coefficient nobody states.
func dumped() *launcher.Launcher {
	l := sample.Plain(sample.Measured)
	l.Gauges = []launcher.GaugeSpec{{On: "tank", Range: launcher.Exact("gauge.range", 1.6*sample.Bars),
		Error: launcher.Exact("gauge.error", 500)}}
	flow := sample.Orifice(1*sample.Millimetres, 0.75)
	flow.DischargeCoefficient = launcher.Band{Set: true, Key: "paths.dump.discharge_coefficient", Low: 0.5, Nominal: 0.75, High: 1,
		Assumed: true}
	l.Paths = append(l.Paths, launcher.PathSpec{Name: "dump", From: "tank", To: "atmosphere", Kind: pneumatics.Valve, Flow: flow,
		OpenIn: pneumatics.SetOf(pneumatics.Off)})
	return l
}

// reading is what the gauge of dumped shows after so many seconds with a discharge coefficient, by the inverse of the test itself:
// TestEmptyingTest holds that to a closed form.
func reading(l *launcher.Launcher, cd, seconds float64) BenchReading {
	b := BenchReading{Line: 2, Kind: Emptying, Path: "dump", Gauge: 1 * sample.Bars, Time: seconds}
	low, high := 0.0, b.Gauge
	for range 50 { // the pressure that the test's own inverse takes for this coefficient
		b.GaugeEnd = 0.5 * (low + high)
		f, in, _, trouble := benchTest(l, &b)
		if trouble != "" {
			return b
		}
		x := make([]float64, len(in))
		for i := range in {
			x[i] = in[i].Value
		}
		if got := f(x); math.IsNaN(got) || got < cd { // fell by less than it would
			high = b.GaugeEnd
		} else {
			low = b.GaugeEnd
		}
	}
	return b
}

// used is the band of the dump's discharge coefficient once a test is taken in.
func used(t *testing.T, l *launcher.Launcher, b BenchReading) (launcher.Band, *Findings) {
	t.Helper()
	v := BenchValues(l, []BenchReading{b, b, b, b, b, b})
	require.Len(t, v, 1)
	require.Empty(t, v[0].Trouble.String())
	e := &Findings{}
	e.UseBench(l, &v[0])
	return e.Narrow(l).Paths[len(l.Paths)-1].Flow.DischargeCoefficient, e
}

// TestAHandThatIsLateTightensNoFlow: a vessel empties in tenths of a second, and a hand takes as long to stop the watch: what is read is
// less flow than there is. It never takes flow away from the worst case; a minute's emptying does.
func TestAHandThatIsLateTightensNoFlow(t *testing.T) {
	l := dumped()
	band, _ := used(t, l, reading(l, 0.7, 20))
	assert.InDelta(t, 0.7, band.Nominal, 1e-3, "what the reading was made with")
	t.Logf("20 s by hand: %.3f to %.3f", band.Low, band.High)
	assert.Less(t, band.High, 0.85)
	assert.Greater(t, band.Low, 0.55)

	band, e := used(t, l, reading(l, 0.7, 1.5))
	assert.InDelta(t, 1, band.High, 0, "too short for a hand: %v", e.Narrowed)

	recorded := reading(l, 0.7, 1.5)
	recorded.TimeError = 0.01
	band, _ = used(t, l, recorded)
	assert.Less(t, band.High, 1.0, "a recording is not late")
	recorded.TimeError = 0.16
	band, _ = used(t, l, recorded)
	assert.InDelta(t, 1, band.High, 0, "a poor one is")

	slow := dumped()
	slow.Paths[len(slow.Paths)-1].OpeningTime = launcher.Exact("paths.dump.opening_time", 4)
	wide, _ := used(t, slow, reading(slow, 0.7, 20))
	narrow, _ := used(t, l, reading(l, 0.7, 20))
	assert.Greater(t, wide.Width(), 1.3*narrow.Width(), "it opened meanwhile: for 4 of the 20 s")
}

// TestAFlowThatNoSuchPartHasContradicts: nobody states a discharge coefficient, but such holes have 0.5 to 1. A test that reads a
// twentieth of that is as likely to be wrong as they are: both count, as beside a stated one.
func TestAFlowThatNoSuchPartHasContradicts(t *testing.T) {
	l := dumped()
	band, e := used(t, l, reading(l, 0.04, 60))
	assert.InDelta(t, 1, band.High, 0)
	assert.Less(t, band.Low, 0.05)
	require.Len(t, e.Clashes, 1)
	assert.Contains(t, e.Clashes[0].Says().String(), "such parts have")
}

// TestOtherWaysBesideAnEmptying: what feeds the vessel meanwhile makes it empty more slowly, what else lets out, faster: of the flow of
// the one path only the one or the other end is known then.
func TestOtherWaysBesideAnEmptying(t *testing.T) {
	hole := sample.Orifice(0.5*sample.Millimetres, 0.75)
	for _, c := range []struct {
		name  string
		other launcher.PathSpec
		want  bounds
	}{
		{"nothing", launcher.PathSpec{Name: "other", From: "dose", To: "atmosphere", Kind: pneumatics.Orifice}, 0},
		{"fed through a hole", launcher.PathSpec{Name: "other", From: "dose", To: "tank", Kind: pneumatics.Orifice}, atLeast},
		{"joined to another", launcher.PathSpec{Name: "other", From: "tank", To: "dose", Kind: pneumatics.Hose}, atLeast | atMost},
		{"a bleed hole", launcher.PathSpec{Name: "other", From: "tank", To: "atmosphere", Kind: pneumatics.Orifice}, atMost},
		{"fed by a valve that is shut then", launcher.PathSpec{Name: "other", From: "dose", To: "tank", Kind: pneumatics.Valve,
			OpenIn: pneumatics.SetOf(pneumatics.Charging)}, 0},
		{"fed by a valve that is open then", launcher.PathSpec{Name: "other", From: "dose", To: "tank", Kind: pneumatics.Valve,
			OpenIn: pneumatics.SetOf(pneumatics.Off)}, atLeast},
		{"a check valve out of it", launcher.PathSpec{Name: "other", From: "tank", To: "dose", Kind: pneumatics.Check}, atMost},
		{"a relief valve", launcher.PathSpec{Name: "other", From: "tank", To: "atmosphere", Kind: pneumatics.Relief}, 0},
	} {
		l := dumped()
		c.other.Flow = hole
		b := reading(l, 0.7, 20)
		l.Paths = append([]launcher.PathSpec{c.other}, l.Paths...)
		assert.Equal(t, c.want, emptiedBounds(l, &b), c.name)
		band, _ := used(t, l, b)
		assert.Equal(t, c.want&atLeast != 0, band.High >= 1, c.name)
		assert.Equal(t, c.want&atMost != 0, band.Low <= 0.5, c.name)
	}
	l := dumped()
	l.Supply = &launcher.SupplySpec{Feeds: "tank"}
	l.Paths[len(l.Paths)-1].OpenIn = pneumatics.SetOf(pneumatics.Firing)
	b := reading(l, 0.7, 20)
	assert.Equal(t, atLeast, emptiedBounds(l, &b)&atLeast, "a supply that may run meanwhile")
}

// TestAnEmptyingThatNothingShows: a gauge on another vessel shows what comes through to it, and a path into another vessel empties
// nothing into the open.
func TestAnEmptyingThatNothingShows(t *testing.T) {
	l := dumped()
	b := reading(l, 0.7, 20)
	l.Gauges[0].On = "dose"
	assert.Contains(t, BenchValues(l, []BenchReading{b})[0].Trouble.String(), `shows "tank", which path "dump" empties`)
	l = dumped()
	l.Paths[len(l.Paths)-1].To = "dose"
	assert.Contains(t, BenchValues(l, []BenchReading{b})[0].Trouble.String(), `leads into "dose"`)
}
