package launcher_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

var (
	rigid     = launcher.ProjectileSpec{TipStated: true}
	missing   = launcher.ProjectileSpec{}
	resilient = launcher.ProjectileSpec{TipStated: true, Resilient: true, TipProof: "record of 3 May"}
	unproved  = launcher.ProjectileSpec{TipStated: true, Resilient: true}
)

// Total 0.5 J resilient and 0.08 J rigid (EN 71-1 before 2018, 4.17.3); area 1600 J/m2
// (GB 6675-2003) or 2500 J/m2 (ASTM F963-17); floor 0.08 J (ASTM F963-17).
func TestLimitsOf(t *testing.T) {
	for _, c := range []struct {
		name        string
		policy      string
		projectile  launcher.ProjectileSpec
		tip         launcher.Tip
		total, area float64
	}{
		{"default policy", "", resilient, launcher.ResilientTip, 0.5, 1600},
		{"conservative, resilient", "conservative", resilient, launcher.ResilientTip, 0.5, 1600},
		{"conservative, unproved", "conservative", unproved, launcher.UnprovedTip, 0.08, 1600},
		{"conservative, rigid", "conservative", rigid, launcher.RigidTip, 0.08, 1600},
		{"conservative, no tip declared", "conservative", missing, launcher.RigidTip, 0.08, 1600},
		{"published, resilient", "published", resilient, launcher.ResilientTip, 0.5, 2500},
		{"published, rigid", "published", rigid, launcher.RigidTip, 0.08, 2500},
	} {
		t.Run(c.name, func(t *testing.T) {
			l, err := launcher.LimitsOf(launcher.LimitsSpec{Policy: c.policy}, c.projectile)
			require.NoError(t, err)
			assert.Equal(t, c.tip, l.Tip)
			assert.Equal(t, c.total, l.Total.Value)
			assert.Equal(t, c.area, l.Area.Value)
			assert.Equal(t, 0.08, l.Floor.Value)
			assert.Equal(t, finding.InJoule, l.Total.Unit)
			assert.Equal(t, finding.InJoulePerArea, l.Area.Unit)
			assert.NotEmpty(t, l.Total.Source)
			assert.Equal(t, launcher.No, l.Total.Own)
		})
	}
}

// A tip that is declared resilient without its press test counts as rigid, says
// so, and has an open item; a rigid or undeclared tip has no item.
func TestTip(t *testing.T) {
	l, err := launcher.LimitsOf(launcher.LimitsSpec{}, unproved)
	require.NoError(t, err)
	assert.Contains(t, l.Total.Caveat.String(), "declared resilient but not proved, so it counts as rigid")
	item, ok := launcher.TipItem(unproved, launcher.AmbientSpec{})
	require.True(t, ok)
	assert.Equal(t, "tip.press-test", item.ID)
	assert.Equal(t, "energy.total", item.Verdict)
	assert.Nil(t, item.Done)
	_, ok = launcher.TipItem(rigid, launcher.AmbientSpec{})
	assert.False(t, ok)

	l, err = launcher.LimitsOf(launcher.LimitsSpec{}, missing)
	require.NoError(t, err)
	assert.Contains(t, l.Total.Caveat.String(), "no tip is declared, so it counts as rigid")
	assert.Equal(t, launcher.RigidTip, launcher.TipOf(launcher.ProjectileSpec{Resilient: true}), "not stated is rigid whatever the flag")
	blank := unproved
	blank.TipProof = "  "
	assert.Equal(t, launcher.UnprovedTip, launcher.TipOf(blank))
	assert.Equal(t, "resilient as declared, press test open", launcher.UnprovedTip.String())
}

// The builder may be stricter, by the low end of the band, and never looser.
func TestOwnLimits(t *testing.T) {
	own := launcher.Band{Set: true, Nominal: 0.3, Low: 0.29, High: 0.31, Key: "limits.total_energy"}
	l, err := launcher.LimitsOf(launcher.LimitsSpec{TotalEnergy: own, AreaEnergy: launcher.Exact("limits.area_energy", 1600)}, resilient)
	require.NoError(t, err)
	assert.Equal(t, 0.29, l.Total.Value)
	assert.Equal(t, launcher.Yes, l.Total.Own)
	assert.Contains(t, l.Total.Source, "the builder's own limit, limits.total_energy")
	assert.Contains(t, l.Total.Source, "EN 71-1")
	assert.Contains(t, l.Total.Caveat.String(), "stricter than the 0.5 J")
	assert.Equal(t, 1600.0, l.Area.Value)

	_, err = launcher.LimitsOf(launcher.LimitsSpec{
		TotalEnergy: launcher.Exact("limits.total_energy", 0.3),
		AreaEnergy:  launcher.Exact("limits.area_energy", 2000),
	}, rigid)
	require.Error(t, err)
	assert.Contains(t, err.Error(), `limits.total_energy is 0.3 J, looser than the 0.08 J of the policy "conservative" for this tip; `+
		"state at most that, or leave it out")
	assert.Contains(t, err.Error(), `limits.area_energy is 2000 J/m2, looser than the 1600 J/m2`)

	// What a press test may still prove is the builder's to want; until it is on record nothing above the rigid figure applies.
	unproved := launcher.ProjectileSpec{TipStated: true, Resilient: true}
	l, err = launcher.LimitsOf(launcher.LimitsSpec{TotalEnergy: launcher.Exact("limits.total_energy", 0.3)}, unproved)
	require.NoError(t, err)
	assert.Equal(t, 0.08, l.Total.Value)
	assert.Equal(t, launcher.No, l.Total.Own)
	_, err = launcher.LimitsOf(launcher.LimitsSpec{TotalEnergy: launcher.Exact("limits.total_energy", 0.6)}, unproved)
	require.ErrorContains(t, err, "looser than the 0.5 J")

	_, err = launcher.LimitsOf(launcher.LimitsSpec{Policy: "published", AreaEnergy: launcher.Exact("limits.area_energy", 2000)}, resilient)
	assert.NoError(t, err)
	_, err = launcher.LimitsOf(launcher.LimitsSpec{TotalEnergy: launcher.Exact("limits.total_energy", 0)}, resilient)
	assert.EqualError(t, err, "limits.total_energy is 0 J; a limit must be above zero")
	_, err = launcher.LimitsOf(launcher.LimitsSpec{TotalEnergy: launcher.Exact("limits.total_energy", math.NaN())}, resilient)
	assert.Error(t, err)
	_, err = launcher.LimitsOf(launcher.LimitsSpec{Policy: "lax"}, resilient)
	assert.EqualError(t, err, `no policy is named "lax"; there are "conservative" and "published"`)
}

// At the floor there is no energy per area, above it there is (ASTM F963-17
// 4.21.2.3: "at or below"); an unknown energy is judged.
func TestFloor(t *testing.T) {
	l, err := launcher.LimitsOf(launcher.LimitsSpec{}, resilient)
	require.NoError(t, err)
	assert.False(t, l.AreaApplies(0.08))
	assert.True(t, l.AreaApplies(math.Nextafter(0.08, 1)))
	assert.False(t, l.AreaApplies(0))
	assert.True(t, l.AreaApplies(math.NaN()))
}

// A word that puts a guard off is none.
func TestAGuardToBeMadeIsNoGuard(t *testing.T) {
	for _, word := range []string{"to be made", "TODO", "planned", "later", "?", "will be a ring", "not yet fitted", "tbd (ring)", " "} {
		assert.Empty(t, finding.Declared(word), word)
	}
	for _, word := range []string{"ring with four slots", "todorov's ring, 8 mm", "a grid of 5 mm"} {
		assert.NotEmpty(t, finding.Declared(word), word)
	}
}

// The largest energy that passes both limits: per area on the smallest print of the band,
// 1600 J/m2 pi/4 (15 mm)^2 = 0.28274 J, never below the floor nor above the total.
func TestAllowed(t *testing.T) {
	l, err := launcher.LimitsOf(launcher.LimitsSpec{}, resilient)
	require.NoError(t, err)
	for _, c := range []struct {
		contact launcher.Band
		want    float64
		why     string
	}{
		{launcher.Band{Set: true, Nominal: 17e-3, Low: 15e-3, High: 19e-3}, 0.28274, "energy.area"},
		{launcher.Exact("", 30e-3), 0.5, "energy.total"},
		{launcher.Exact("", 5e-3), 0.08, "energy.area"},
		{launcher.Band{}, 0.08, "contact_diameter is not stated"},
	} {
		energy, why := l.Allowed(c.contact)
		assert.InDelta(t, c.want, energy, 1e-5)
		assert.Contains(t, why, c.why)
	}
	rigidLimits, err := launcher.LimitsOf(launcher.LimitsSpec{}, rigid)
	require.NoError(t, err)
	energy, why := rigidLimits.Allowed(launcher.Band{})
	assert.Equal(t, 0.08, energy)
	assert.Equal(t, "energy.total", why)
}

// A press test on the checklist proves the tip from its date on until it expires; a record in the design
// that is put off proves nothing.
func TestThePressTestOfTheChecklistProvesTheTip(t *testing.T) {
	l := &launcher.Launcher{Projectile: unproved, Checklist: []finding.Confirmation{{Item: finding.ItemTip, Who: "A. N.", Date: "2026-05-01",
		Value: sample.PressedWords, Figures: sample.Pressed()}}}
	l.Projectile.TipProof = ""
	for day, want := range map[string]float64{"2026-04-30": 0.08, "2026-05-01": 0.5, "2027-05-02": 0.08, "": 0.08} {
		limits, err := l.EnergyLimits(day)
		require.NoError(t, err)
		assert.Equal(t, want, limits.Total.Value, day)
	}
	// 40 N over 3 mm do 40 x 0.003/2 = 0.06 J, less than the 0.08 J of a rigid tip: a stone gives way like that.
	l.Checklist[0].Figures = slices.Repeat([]finding.Figure{{Value: 40, Unit: finding.InNewton}, {Value: 3e-3, Unit: finding.InMetre}}, 3)
	hard, err := l.EnergyLimits("2026-05-01")
	require.NoError(t, err)
	assert.Equal(t, 0.08, hard.Total.Value)
	l.Projectile.TipProof = "to be made"
	limits, err := l.EnergyLimits("2026-05-01")
	require.NoError(t, err)
	assert.Equal(t, 0.08, limits.Total.Value)
	l.Projectile.TipProof, l.Checklist = "", nil
	limits, err = l.EnergyLimits("2026-05-01")
	require.NoError(t, err)
	assert.Equal(t, 0.08, limits.Total.Value)
}

// A press test that is still to come proves no tip: the limit is that of a rigid one, however its date is written.
func TestAPressTestAheadProvesNothing(t *testing.T) {
	limit := func(proof string) float64 {
		l := sample.Plain(func(l *launcher.Launcher) { l.Projectile.TipProof = proof })
		limits, err := l.EnergyLimits("2026-11-28")
		require.NoError(t, err)
		return limits.Total.Value
	}
	proved, unproved := limit("press test of 2026-05-09, AB"), limit("")
	require.Greater(t, proved, unproved)
	for _, ahead := range []string{"press test 2027-05-09, AB", "9 May 2099, AB", "09.05.2099", "2099/05/09", "20990509"} {
		assert.Equal(t, unproved, limit(ahead), ahead)
	}
	l := sample.Plain(func(l *launcher.Launcher) { l.Projectile.TipProof = "press test of 2026-05-09, AB" })
	limits, err := l.EnergyLimits("")
	require.NoError(t, err)
	assert.Equal(t, unproved, limits.Total.Value, "without a day nobody knows whether the test has been made")
}
