package sound_test

import (
	"context"
	"math"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/sound"
	"puffproof/limits/worst"
)

// heard is how loud a launcher is, weakly searched.
func heard(t *testing.T, l *launcher.Launcher) *sound.Report {
	t.Helper()
	high, known := l.SoakedHigh()
	require.True(t, known)
	r, err := sound.Compute(sample.Weakly(), sound.Input{Launcher: l, High: high})
	require.NoError(t, err)
	return r
}

// ear puts the nearest ear at a distance [m], and whoever is nearest at another.
func ear(at, person float64) func(*launcher.Launcher) {
	return func(l *launcher.Launcher) {
		l.Event = &launcher.EventSpec{EarToMuzzle: launcher.Exact("event.ear_to_muzzle", at),
			NearestPerson: launcher.Exact("event.nearest_person", person)}
	}
}

// Without tolerances the loudest shot is the nominal one or one from a lower pressure: its upper end is that
// of the excess it leaves with, dp a/(2 r) (linear burst before a wall, by hand), or more where its ring is quick.
func TestTheUpperEndIsTheBoreOpenedAtOnce(t *testing.T) {
	r := heard(t, sample.Plain(ear(0.6, 3)))
	require.Len(t, r.Ears, 2)
	burst := 20 * math.Log10(math.Abs(r.Most)*0.0205/(2*0.6)/20e-6)
	assert.GreaterOrEqual(t, r.Ears[0].Upper, burst-1e-9)
	assert.Less(t, r.Ears[0].Expected, r.Ears[0].Upper-6.02, "free space and a slower ring")
	assert.InDelta(t, r.Ears[0].Upper-20*math.Log10(3/0.6), r.Ears[1].Upper, 1e-9, "6 dB for twice the distance")
	assert.GreaterOrEqual(t, math.Abs(r.Most), math.Abs(r.Excess)*0.999, "the nominal shot is one of them")
	assert.InDelta(t, 0.0205, r.Radius, 1e-9)
	for i := 1; i < len(r.Sources); i++ {
		assert.GreaterOrEqual(t, r.Sources[i-1].Upper, r.Sources[i].Upper, "the loudest first")
	}
}

// The near end of the distance's band counts, and an ear at the muzzle is one at its width: no source is a point.
func TestTheNearestEar(t *testing.T) {
	l := sample.Plain(ear(1, 0))
	l.Event.EarToMuzzle = sample.Between("event.ear_to_muzzle", 0.8, 1.2)
	r := heard(t, l)
	require.Len(t, r.Ears, 2)
	assert.InDelta(t, 0.041, r.Ears[0].Nearest, 1e-9, "twice the radius")
	assert.InDelta(t, 0.8, r.Ears[1].Nearest, 1e-9)
	assert.Equal(t, "the nearest person's ear", r.Ears[0].Who)

	// The nearest person is at one distance in every sentence: at the lower end of what is stated, the expected peak too.
	l.Event.NearestPerson = sample.Between("event.nearest_person", 2.7, 3.3)
	near, known := l.Event.Nearest()
	assert.True(t, known)
	assert.InDelta(t, 2.7, near, 1e-12)
	person := heard(t, l).Ears[slices.IndexFunc(heard(t, l).Ears, func(e sound.Ear) bool { return e.Who == "the nearest person's ear" })]
	assert.Equal(t, [2]float64{near, near}, [2]float64{person.Distance, person.Nearest})

	// Spectators who stand nearer, at a kerb, are the nearest persons.
	l.Event.Kerb = launcher.Exact("event.kerb", 1)
	near, _ = l.Event.Nearest()
	assert.InDelta(t, 1, near, 1e-12)
	l.Event.Kerb = launcher.Exact("event.kerb", 9)
	near, _ = l.Event.Nearest()
	assert.InDelta(t, 2.7, near, 1e-12)

	none := sample.Plain()
	assert.Empty(t, heard(t, none).Ears, "no distance is stated")
	_, known = none.Event.Nearest()
	assert.False(t, known)
}

// A recorded peak takes the model's place at every ear, with its band and with what the tolerances add; it may be above
// the model, and then it counts as well.
func TestARecordingNarrows(t *testing.T) {
	wide := heard(t, sample.Plain(ear(0.5, 3)))
	for name, level := range map[string]float64{"quiet": 101, "louder than the model": 160} {
		l := sample.Plain(ear(0.5, 3))
		l.Event.PeakLevel = launcher.Band{Set: true, Origin: launcher.Measured, Nominal: level, Low: level - 4, High: level + 4}
		r := heard(t, l)
		require.NotNil(t, r.Recorded, name)
		assert.InDelta(t, level+4+r.Recorded.Spread, r.Near.Upper, 1e-9, name)
		assert.GreaterOrEqual(t, r.Recorded.Spread, 0.0, name)
		assert.InDelta(t, wide.Near.Upper, r.Recorded.Model.Upper, 1e-9, name)
		assert.InDelta(t, level, r.Near.Expected, 1e-9, name)
		assert.InDelta(t, r.Near.Upper-20*math.Log10(6), r.Ears[1].Upper, 1e-9, name)
	}
}

// A level that nobody measured on this launcher narrows nothing: it counts only where it is above what the model has.
func TestAGuessedLevelNeverNarrows(t *testing.T) {
	wide := heard(t, sample.Plain(ear(0.5, 3)))
	for _, origin := range []launcher.Origin{launcher.Estimated, launcher.Template, launcher.Label, launcher.Declared, launcher.Unstated} {
		for _, level := range []float64{wide.Near.Expected - 9, 160} {
			l := sample.Plain(ear(0.5, 3))
			l.Event.PeakLevel = launcher.Band{Set: true, Origin: origin, Nominal: level, Low: level - 4, High: level + 4}
			r := heard(t, l)
			assert.InDelta(t, max(wide.Near.Upper, level+4+r.Recorded.Spread), r.Near.Upper, 1e-9, "%v, %g dB", origin, level)
			assert.InDelta(t, max(wide.Near.Expected, level), r.Near.Expected, 1e-9, "%v, %g dB", origin, level)
		}
	}
}

// What the tolerances add to a recorded shot is what the model has between it and the loudest one.
func TestTheTolerancesAddToARecording(t *testing.T) {
	l := sample.Plain(ear(0.5, 3))
	l.Barrel.Travel = sample.Between("barrel.travel", 0.1, 0.5) // what leaves early leaves more behind
	l.Event.PeakLevel = launcher.Band{Set: true, Origin: launcher.Measured, Nominal: 101, Low: 97, High: 105}
	r := heard(t, l)
	require.NotNil(t, r.Recorded)
	assert.Greater(t, r.Recorded.Spread, 3.0)
	assert.InDelta(t, 105+r.Recorded.Spread, r.Near.Upper, 1e-9)
}

// A pump counts by its stated level at half a metre from it, wherever the muzzle is.
func TestThePump(t *testing.T) {
	l := sample.Plain(ear(50, 80))
	l.Supply.NoiseLevel = launcher.Band{Set: true, Nominal: 95, Low: 90, High: 100}
	r := heard(t, l)
	assert.Equal(t, "pump", r.Ears[0].By)
	assert.InDelta(t, 100+20+6.02, r.Ears[0].Upper, 0.01, "95 ± 5 dB(A) at 1 m, 20 dB to the peak, 6 dB to half a metre")
	assert.NotEmpty(t, heard(t, sample.Plain(ear(1, 3))).Notes, "a compressor whose level is not known is not in it")
	assert.Nil(t, r.Changes, "no shot is quieter than the pump")
	assert.Equal(t, 4.0, r.PumpQuietFrom(108), "120 dB at 1 m: 12 dB are a factor of 3.98 in distance")
	assert.Zero(t, r.PumpQuietFrom(130))
	for line, says := range map[int]string{0: "supply.noise_level is not stated", 7: "by its stated level"} { // a band with a line is stated
		l.Supply.NoiseLevel.Assumed, l.Supply.NoiseLevel.Line = true, line
		assert.Contains(t, heard(t, l).NameOf("pump").String(), says)
	}
}

// A pump is not in the recording of a shot: the two are held against each other without it.
func TestARecordingOfAShotHasNoPump(t *testing.T) {
	l := sample.Plain(ear(0.5, 3))
	l.Event.PeakLevel = launcher.Band{Set: true, Origin: launcher.Measured, Nominal: 104, Low: 100, High: 108}
	quiet := heard(t, l).Recorded.Model
	l.Supply.NoiseLevel = launcher.Band{Set: true, Nominal: 125, Low: 122, High: 128}
	r := heard(t, l)
	assert.Equal(t, quiet, r.Recorded.Model)
	assert.Equal(t, "pump", r.Ears[0].By)
}

// Each change is computed: what is changed so in the design is as much quieter.
func TestChangesAreComputed(t *testing.T) {
	slow := func(l *launcher.Launcher) { l.Paths[0].OpeningTime = launcher.Exact("", 10e-3) }
	r := heard(t, sample.Plain(slow, ear(0.6, 3)))
	require.NotEmpty(t, r.Changes)
	now := r.Ears[0].Upper
	for i, c := range r.Changes {
		assert.Less(t, c.Upper, now-0.5, c.What)
		if i > 0 {
			assert.GreaterOrEqual(t, c.Upper, r.Changes[i-1].Upper, "the most effective first")
		}
		if c.Distance {
			assert.InDelta(t, now-6.02, c.Upper, 0.01, "twice as far")
		}
		if c.What.String() == "a barrel half as long again" {
			long := heard(t, sample.Plain(slow, ear(0.6, 3), func(l *launcher.Launcher) { l.Barrel.Travel = launcher.Exact("", 0.45) }))
			// 1 dB: two light searches for the same maximum, from different points.
			assert.InDelta(t, long.Ears[0].Upper, c.Upper, 1)
		}
	}
}

// The loudest shot is no quieter than shots drawn from the tolerances: upper ends of bursts, each by dp a/2 at 1 m.
func TestNoDrawnShotIsLouder(t *testing.T) {
	l := sample.Whale()
	high, _ := l.SoakedHigh()
	r, err := sound.Compute(context.Background(), sound.Input{Launcher: l, High: high})
	require.NoError(t, err)
	box := worst.NewBox(l, worst.EnergyQuestion(l, high))
	e := box.Evaluator()
	shots := 1000
	if os.Getenv("PUFFPROOF_MORE") != "" {
		shots = 4000
	}
	u := make([]float64, box.Dim)
	for i := range shots {
		for k := range u { // Kronecker's sequence, of powers of the (d+1)-th root of a half
			_, u[k] = math.Modf(0.5 + float64(i+1)*math.Pow(1.0/math.Pow(2, 1/float64(box.Dim+1)), float64(k+1)))
		}
		res := e.Run(u)
		if res.Outcome.String() == "left" {
			excess := math.Abs(res.BarrelExit - e.Circuit.Ambient.Pressure)
			assert.LessOrEqual(t, excess*math.Sqrt(e.Circuit.Barrel.Area/math.Pi), math.Abs(r.Most)*r.Radius*1.03,
				"3 percent: the bore's own band")
		}
	}
}
