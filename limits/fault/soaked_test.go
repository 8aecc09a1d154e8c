package fault

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

const soakedID = "projectile.soaked-with-water"

func cells(a launcher.Answer) func(*launcher.Launcher) {
	return func(l *launcher.Launcher) { l.Projectile.OpenCell = a }
}

// Open cells soak water, and so do those of which nothing is said; then a heavier one is a wrong one, and a soaked one a fault of its own.
func TestOpenCellsAreShotSoaked(t *testing.T) {
	for answer, soaks := range map[launcher.Answer]bool{launcher.Yes: true, launcher.Unanswered: true, launcher.No: false} {
		st := stageOf(t, sample.Plain(cells(answer)))
		assert.Len(t, st.soaked(), map[bool]int{true: 1, false: 0}[soaks])
		heavier := faultOf(t, st, "projectile.heavier").consequence.String()
		assert.Equal(t, !soaks, heavier == "a wrong or wet projectile, up to twice the mass", heavier)
		if soaks {
			assert.Equal(t, "a wrong projectile, up to twice the mass", heavier)
			assert.Equal(t, soakedID, faultOf(t, st, soakedID).id)
		}
	}
}

// A soaked projectile has the water of the objects' list: ten times its mass more, and any less.
func TestASoakedProjectileWeighsUpToElevenTimesAsMuch(t *testing.T) {
	f := faultOf(t, stageOf(t, sample.Plain(cells(launcher.Yes))), soakedID)
	for u, times := range map[float64]float64{0: 1, 0.5: 6, 1: 11} {
		c := &pneumatics.Circuit{Barrel: pneumatics.Barrel{Mass: 4e-3}}
		f.adjust(c, []float64{u})
		assert.InEpsilon(t, times*4e-3, c.Barrel.Mass, 1e-12)
	}
	assert.Equal(t, 10, benchmark.SoakedMass)
}

// Its shot is searched like that of a heavier one, and takes up no less than twice the mass does.
func TestASoakedProjectileIsShot(t *testing.T) {
	st := stageOf(t, sample.Plain(cells(launcher.Yes)))
	soaked, heavier := runFault(t, st, soakedID), runFault(t, st, "projectile.heavier")
	require.Equal(t, ChangesShot, soaked.Effect)
	assert.Greater(t, soaked.Judged, 1.2*heavier.Judged)
	require.Greater(t, soaked.Judged, st.Limits.Total.Value)
	assert.Equal(t, finding.OpenItem, soaked.Status)
	assert.Equal(t, finding.ItemWeighed, soaked.HeldBy)
	assert.Contains(t, st.report.Asked, finding.ItemWeighed)
	assert.True(t, soaked.Kept())
	assert.Equal(t, finding.Fail, heavier.Status, "no item keeps a wrong one away")
	assert.False(t, heavier.Kept())
}

// What a soaked one has passes where a dry one may have it too, in all and on the print of the tip; else the item that weighs holds it, and
// an answer of what the design states, on its day, closes that. A wet one closes nothing.
func TestASoakedShotIsHeldByWeighing(t *testing.T) {
	const allowed = 0.5 // J, of a soft tip (EN 71-1); its print of 30 mm allows 1600 J/m2 pi/4 0.03^2 = 1.13 J
	at := func(l *launcher.Launcher, judged float64, day string) *Result {
		st := stageOf(t, l)
		st.Day = day
		f := faultOf(t, st, soakedID)
		r := &Result{Judged: judged, Status: finding.Pass, Basis: finding.OnModel}
		st.kept(r, &f)
		return r
	}
	open := sample.Plain(cells(launcher.Yes))
	r := at(open, allowed, "")
	assert.Equal(t, finding.Pass, r.Status)
	assert.False(t, r.Kept())
	r = at(open, 1.0001*allowed, "")
	assert.Equal(t, finding.OpenItem, r.Status)
	assert.Contains(t, r.Reason.String(), "above the limit of 0.50 J; OPEN: people alone hold it (item projectile.weighed)")

	small := sample.Plain(cells(launcher.Yes), func(l *launcher.Launcher) {
		l.Projectile.ContactDiameter = launcher.Exact("projectile.contact_diameter", 15*sample.Millimetres) // 1600 pi/4 0.015^2 = 0.2827 J
	})
	assert.Equal(t, finding.Pass, at(small, 0.282, "").Status)
	r = at(small, 0.283, "")
	assert.Equal(t, finding.OpenItem, r.Status)
	assert.Contains(t, r.Reason.String(), "that energy.area allows")

	weighed := func(value, date string) *launcher.Launcher {
		return sample.Plain(cells(launcher.Yes), func(l *launcher.Launcher) {
			l.Projectile.Mass = sample.Between("projectile.mass", 3.6*sample.Grams, 4.4*sample.Grams)
			c := finding.Confirmation{Item: finding.ItemWeighed, Who: "A. Adult", Date: date, Value: value + " g"}
			for _, one := range map[string][]float64{"3.9": {3.9e-3}, "12": {12e-3}}[value] {
				c.Figures = append(c.Figures, finding.Figure{Value: one, Unit: finding.OnScale})
			}
			l.Checklist = []finding.Confirmation{c}
		})
	}
	r = at(weighed("3.9", "2026-05-30"), 2, "2026-05-31")
	assert.Equal(t, finding.Pass, r.Status)
	assert.Equal(t, finding.OnProcedure, r.Basis)
	assert.True(t, r.Kept(), "it is people who keep it from being fired")
	assert.Equal(t, finding.OpenItem, at(weighed("12", "2026-05-30"), 2, "2026-05-31").Status)
	assert.Equal(t, finding.OpenItem, at(weighed("3.9", "2026-06-02"), 2, "2026-05-31").Status, "a day that is still to come")
}

// With another fault a soaked projectile is held by the same item: without water the pair is the other fault alone.
func TestPairsOfASoakedProjectile(t *testing.T) {
	st := stageOf(t, sample.Plain(cells(launcher.Yes)))
	soaked, other := faultOf(t, st, soakedID), faultOf(t, st, "fire.opens-faster")
	for _, both := range []fault{st.both(&soaked, &other), st.both(&other, &soaked)} {
		assert.Equal(t, finding.ItemWeighed, both.keptBy.ID)
	}
	require.NoError(t, st.runPairs([][2]*fault{{&other, &soaked}}))
	p := st.report.Pairs[0]
	assert.Equal(t, finding.OpenItem, p.Status)
	assert.Equal(t, finding.ItemWeighed, p.HeldBy)
	assert.True(t, p.AsAlone())
}

// What is kept from being fired does not hide another fault: the others are searched as long as if it were not there, and the hardest of
// them is told apart.
func TestASoakedProjectileHidesNoOtherFault(t *testing.T) {
	others := []string{"projectile.heavier", "fire.opens-faster"}
	l := sample.Whale()
	cells(launcher.Yes)(l)
	high, ok := l.SoakedHigh()
	require.True(t, ok)
	normal, err := worst.Maximise(glance(), l, worst.EnergyQuestion(l, high), search.Quick())
	require.NoError(t, err)
	normal.Result.Met = true // as if its climbs had come to the same: else nothing is sketched
	run := func(ids ...string) *Report {
		st := newStage(t.Context(), inputOf(t, l))
		st.Normal, st.NormalUnknown = normal, nil
		st.Limits.Total.Value, st.Limits.Area.Value = 100, 1e9 // far above them all: only which is the hardest is asked
		st.report.Faults = runFaults(t, st, func(f *fault) bool { return slices.Contains(ids, f.id) })
		return st.report
	}
	with, without := run(append(others, soakedID)...), run(others...)
	assert.Greater(t, faultNamed(t, with.Faults, soakedID).Judged, 1.5*without.Most(), "harder by far")
	for _, id := range others {
		assert.Equal(t, faultNamed(t, without.Faults, id).Shots, faultNamed(t, with.Faults, id).Shots, id)
	}

	faults := []Result{{Effect: ChangesShot, Judged: 0.3}, {Effect: ChangesShot, Judged: 2, HeldBy: finding.ItemWeighed},
		{Effect: NoEffect, Judged: 5}, {Effect: ChangesShot, Judged: 1, HeldBy: finding.ItemWeighed}}
	r := &Report{Faults: faults}
	assert.Equal(t, 0.3, r.Most())
	assert.Equal(t, 0.3, r.Hardest().Judged, "the same one")
	r.Faults = append(r.Faults, Result{Judged: 2, Effect: r.Hardest().Effect, Status: finding.Unknown})
	assert.Equal(t, 0.3, r.Most(), "one that is not known has no figure that counts")
	require.NotNil(t, r.KeptBy(finding.ItemWeighed))
	assert.Equal(t, 2.0, r.KeptBy(finding.ItemWeighed).Judged)
}

// Soaked it keeps the limit when it is fired, and dry it keeps it when a wide way from the tank opens unasked; both at once it does not.
// The joint is computed for each way that shoots, and held by the same item; where it is above the limit in any shot, nothing more is
// computed.
func TestAnUnaskedShotOfASoakedProjectile(t *testing.T) {
	l := sample.Plain(cells(launcher.Yes), coldest(280))
	both := func(limit float64) *Report {
		in := inputOf(t, l)
		in.Limits.Total.Value, in.Limits.Area.Value = limit, 1e9
		in.Only = func(id string) bool { return id == soakedID || id == "fire.stuck-open.armed" }
		r, err := Compute(glance(), in, LatentPairs)
		require.NoError(t, err)
		return r
	}
	wide := both(100)
	soaked, dry := faultNamed(t, wide.Faults, soakedID), faultNamed(t, wide.Faults, "fire.stuck-open.armed")
	require.Len(t, wide.Unasked, 1)
	joint := wide.Unasked[0]
	assert.Equal(t, FiresUnasked, joint.Effect)
	assert.Equal(t, "armed", joint.State)
	assert.Equal(t, soakedID, joint.With)
	assert.Greater(t, joint.Judged, 1.2*dry.Judged, "it is heavier")
	assert.Empty(t, joint.HeldBy)
	assert.False(t, wide.RestsOn(finding.ItemWeighed))

	require.Greater(t, joint.Judged, 1.005*soaked.Judged, "nothing holds it back for certain when nobody asks")
	between := both(math.Sqrt(soaked.Judged * joint.Judged))
	require.NotNil(t, between.UnaskedKeptBy(finding.ItemWeighed), "each alone keeps the limit, both do not")
	assert.Nil(t, between.KeptBy(finding.ItemWeighed))
	assert.True(t, between.RestsOn(finding.ItemWeighed))

	less := both(0.5 * soaked.Judged)
	assert.Empty(t, less.Unasked, "weighing keeps it from any shot")
	assert.True(t, less.RestsOn(finding.ItemWeighed))
	assert.Nil(t, less.UnaskedKeptBy(finding.ItemWeighed))
}
