package worst

import (
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The pressure on either side of the projectile counts, above the ambient.
func TestPluggedTakesTheLargerSide(t *testing.T) {
	q := PluggedQuestion(sample.Plain(), 1e5)
	c := &pneumatics.Circuit{Ambient: pneumatics.Ambient{Pressure: 1e5}}
	assert.InDelta(t, 1e5, q.Measure(c, &pneumatics.Result{AheadPeak: 2e5, BarrelPeak: 1.5e5}), 1e-9)
	assert.InDelta(t, 2e5, q.Measure(c, &pneumatics.Result{AheadPeak: 2e5, BarrelPeak: 3e5}), 1e-9)
	var sc pneumatics.Scenario
	q.Adjust(c, &sc, nil)
	assert.True(t, sc.MuzzleClosed)
}

// A slow valve fills the barrel to what feeds it at a fault, no less; a fast one drives
// the projectile against the plug and goes beyond.
func TestPluggedIsNeverBelowTheFaultPressure(t *testing.T) {
	plugged := func(changes ...func(*launcher.Launcher)) (Plugged, float64) {
		l := sample.Plain(changes...)
		p, err := ComputePlugged(weakly(), l, nil)
		require.NoError(t, err)
		top, ok := l.FaultHigh()
		require.True(t, ok)
		return p, top
	}
	slow, top := plugged(sample.FireCv(0.01))
	assert.Equal(t, 4*sample.Bars, top, "the dead head: no relief valve")
	assert.Equal(t, top, slow.Value)
	fast, top := plugged(sample.FireCv(60), sample.Friction(0, 0), func(l *launcher.Launcher) {
		l.Volumes[0].Volume, l.Barrel.RatedPressure = launcher.Exact("", 0.2), launcher.Exact("", 4.5*sample.Bars)
	})
	assert.Greater(t, fast.Value, 1.1*top)
	assert.Contains(t, fast.Why.String(), "compresses the air ahead")
	assert.Contains(t, slow.Why.String(), "the barrel fills")
	assert.Equal(t, 4.5*sample.Bars, fast.Limit)
	assert.True(t, fast.Exceeds())
	assert.False(t, Plugged{Value: 2, Limit: 2}.Exceeds())
	assert.False(t, Plugged{Value: 3, Limit: 2, Unknown: fast.Why}.Exceeds())
	pvc, _ := plugged(sample.FireCv(0.01), func(l *launcher.Launcher) {
		l.Barrel.Material, l.Ambient.Hottest = "PVC pipe", launcher.Exact("", sample.Kelvin0+65)
	})
	assert.Zero(t, pvc.Limit, "above 60 degC PVC has no rating: makers' derating tables, as in PVCFactor")
}

// Behind a projectile that does not move the air of a hose overshoots what feeds it; what
// is judged is that with the model factor, at most twice what feeds it. Without a hose, or
// with a valve that opens slowly, it only fills.
func TestTheAirOfAHoseOvershoots(t *testing.T) {
	plugged := func(changes ...func(*launcher.Launcher)) Plugged {
		p, err := ComputePlugged(weakly(), sample.Plain(append(changes, sample.FireCv(4))...), nil)
		require.NoError(t, err)
		return p
	}
	hose := func(opens float64) func(*launcher.Launcher) {
		return func(l *launcher.Launcher) {
			l.Paths[0].Hose = &launcher.HoseSpec{Bore: launcher.Exact("", 8e-3), Length: launcher.Exact("", 0.4), Side: launcher.HoseAfter}
			l.Paths[0].OpeningTime = launcher.Exact("", opens)
			l.Barrel.DeadVolume = launcher.Exact("", 1e-6)
		}
	}
	const top = 4 * sample.Bars // the supply's dead head
	assert.Zero(t, plugged().Behind)
	fast := plugged(hose(0))
	assert.Greater(t, fast.Behind, 1.2*top)
	assert.LessOrEqual(t, fast.Behind, 2.3*top, "twice, and what the cells ring (TestJamBehindALine)")
	assert.Equal(t, min(ModelFactor*fast.Behind, 2*top), fast.Value)
	assert.Contains(t, fast.Why.String(), "the air of the hose rushes in")
	slow := plugged(hose(2))
	assert.InEpsilon(t, top, slow.Behind, 0.05, "the tank's pressure, less what the hose takes")

	unrated := plugged(hose(0), func(l *launcher.Launcher) { l.Barrel.RatedPressure = launcher.Band{} })
	assert.InEpsilon(t, fast.Behind, unrated.Behind, sample.Rounding, "a jam asks for it, whatever the rating")
	assert.Contains(t, unrated.Unknown.String(), "barrel.rated_pressure")
}

// The jam may be anywhere in the barrel, and no supply runs: what it adds is in the start pressures.
func TestAJamIsAnywhere(t *testing.T) {
	q := JammedQuestion(sample.Plain(), 1e5)
	var sc pneumatics.Scenario
	c := &pneumatics.Circuit{Ambient: pneumatics.Ambient{Pressure: 1e5}, Barrel: pneumatics.Barrel{Travel: 0.2}}
	sc.SupplyRuns = true
	q.Adjust(c, &sc, []float64{0.25})
	assert.True(t, sc.Jammed)
	assert.False(t, sc.SupplyRuns)
	assert.InDelta(t, 0.05, sc.Seat, 1e-15)
	ended := &pneumatics.Result{Outcome: pneumatics.Stalled, BarrelPeak: 1.7e5, Volumes: []pneumatics.Condition{{Pressure: 1.5e5}}}
	assert.InDelta(t, 0.7e5, q.Measure(c, ended), 1e-9)
	ended.Outcome = pneumatics.TimeRanOut
	assert.InDelta(t, 2*0.7e5, q.Measure(c, ended), 1e-9, "not followed to its end: the bound")
}

// What a slow supply brings is left to the shots that are judged; one that drives the projectile itself is in all of them. The sample's
// tank holds 2 litres, 0.1 of which come in a quarter of a second at 48 litres of free air a minute.
func TestASlowSupplyIsLeftToWhatIsJudged(t *testing.T) {
	fed := func(free float64) *launcher.Launcher {
		return sample.Plain(func(l *launcher.Launcher) {
			l.Volumes[0].Volume, l.Supply.FreeAir = launcher.Exact("", 2e-3), launcher.Exact("", free*1e-3/60)
			l.Supply.RunsInStated = false // it feeds on
		})
	}
	assert.True(t, FeedsSlowly(fed(47)))
	assert.False(t, FeedsSlowly(fed(49)))
	unknown := fed(47)
	unknown.Supply.DeadHead = launcher.Band{}
	assert.False(t, FeedsSlowly(unknown))

	q := PluggedQuestion(fed(47), 1e5)
	q.Unfed = true
	b := NewBox(fed(47), q)
	u := make([]float64, b.Dim)
	searches, judges := b.Evaluator(), b.Evaluator()
	judges.judges = true
	_, sc := searches.Setup(u)
	assert.False(t, sc.SupplyRuns)
	_, sc = judges.Setup(u)
	assert.True(t, sc.SupplyRuns)
}
