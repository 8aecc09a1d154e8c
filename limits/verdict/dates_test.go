package verdict

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/launcher"
)

// A part past its date fails whatever else holds; the day itself still counts. A
// question without a day gets no answer.
func TestDatesAreJudged(t *testing.T) {
	dated := &launcher.Launcher{Projectile: launcher.ProjectileSpec{RetireBy: "2026-05-30"},
		Barrel: launcher.BarrelSpec{RetireBy: "2030-01-01"}}
	young := func(tests ...finding.Confirmation) *launcher.Launcher {
		return &launcher.Launcher{Checklist: tests, Barrel: launcher.BarrelSpec{MadeOn: "2025-01-01"},
			Projectile: launcher.ProjectileSpec{MadeOn: "2025-01-01"}}
	}
	tested := young(finding.Confirmation{Item: "seal-guard", Date: "2025-05-30"})
	for name, c := range map[string]struct {
		l    *launcher.Launcher
		day  string
		want finding.Status
		past float64
	}{
		"before":                      {dated, "2026-05-29", finding.Pass, 0},
		"the day":                     {dated, "2026-05-30", finding.Pass, 0},
		"the day after":               {dated, "2026-05-31", finding.Fail, 1},
		"the month after":             {dated, "2026-06-01", finding.Fail, 1},
		"both":                        {dated, "2030-01-02", finding.Fail, 2},
		"no day":                      {dated, "", finding.Unknown, 0},
		"nothing to come":             {young(), "2026-06-01", "", 0},
		"no dates":                    {&launcher.Launcher{}, "2026-06-01", finding.Conditional, 0},
		"a test of twelve months ago": {tested, "2026-05-30", finding.Pass, 0},
		"a test of a day more":        {tested, "2026-05-31", finding.Fail, 1},
		"a test that states till when": {young(finding.Confirmation{Item: "seal-guard", Date: "2025-05-30",
			ValidUntil: "2025-06-01"}), "2025-06-02", finding.Fail, 1},
	} {
		v := Of(&assessment.Assessment{Computed: assessed.All, Stated: c.l, Day: c.day}, finding.DatesPast)
		assert.Equal(t, c.want != "", v.ID != "", name)
		assert.Equal(t, c.want, v.Status, name)
		if c.want == finding.Fail {
			assert.Contains(t, v.Why.String(), "past on "+c.day, name)
			assert.Equal(t, c.past, *v.Value, name)
		}
	}
	made := func(on string) *launcher.Launcher {
		return &launcher.Launcher{Volumes: []launcher.VolumeSpec{{Name: "tank", MadeOn: on}}, Barrel: launcher.BarrelSpec{MadeOn: on},
			Projectile: launcher.ProjectileSpec{MadeOn: on}}
	}
	for on, status := range map[string]finding.Status{"2026-05-31": finding.Fail, "2026-05-30": "", "2020-01-01": "",
		"": finding.Conditional} {
		v := Of(&assessment.Assessment{Computed: assessed.All, Stated: made(on), Day: "2026-05-30"}, finding.DatesPast)
		assert.Equal(t, status, v.Status, "made on %s", on)
		if status == finding.Fail {
			assert.Equal(t, 3.0, *v.Value)
			assert.Equal(t, "made after 2026-05-30, as the design has it: volumes.tank.made_on, 2026-05-31; barrel.made_on, 2026-05-31; "+
				"projectile.made_on, 2026-05-31", v.Why.String())
		}
	}
	v := Of(&assessment.Assessment{Computed: assessed.All, Stated: dated, Day: "2026-05-30"}, finding.DatesPast)
	assert.Equal(t, "2 dates are stated, the next is 2026-05-30", v.Why.String())
}

// A vessel of 1899 is no part like another: what is older than such parts are used is past its date, until somebody states how long it
// may be used. Forty years of a vessel or a barrel and ten of foam are an own rule, no source.
func TestWhatIsVeryOldHasToSayHowLongItLasts(t *testing.T) {
	const day = "2026-05-30"
	of := func(l *launcher.Launcher) finding.Verdict {
		return Of(&assessment.Assessment{Computed: assessed.All, Stated: l, Day: day}, finding.DatesPast)
	}
	tank := func(made, retire string) *launcher.Launcher {
		return &launcher.Launcher{Volumes: []launcher.VolumeSpec{{Name: "tank", MadeOn: made, RetireBy: retire}},
			Barrel: launcher.BarrelSpec{MadeOn: "2020-01-01"}, Projectile: launcher.ProjectileSpec{MadeOn: "2020-01-01"}}
	}
	v := of(tank("1899-03-01", ""))
	assert.Equal(t, finding.Fail, v.Status)
	assert.Equal(t, "made long ago, and no retire_by says how long it lasts: volumes.tank.made_on, 1899-03-01", v.Why.String())
	assert.Contains(t, v.Advice.String(), "retire_by")
	assert.Equal(t, finding.Fail, of(tank("1986-05-29", "")).Status)
	assert.Empty(t, of(tank("1986-05-30", "")).Status, "forty years to the day")
	held := of(tank("1899-03-01", "2030-01-01"))
	assert.Equal(t, finding.Conditional, held.Status, "its builder says so: a paper has to show it")
	assert.Contains(t, held.Condition.String(), "volumes.tank")
	assert.Contains(t, held.Why.String(), "beyond the 40 years")
	assert.Equal(t, []string{finding.ItemAgeRetire}, held.Items)
	assert.Equal(t, finding.Fail, of(tank("1899-03-01", "2026-01-01")).Status)
	assert.Equal(t, 1.0, *of(tank("1899-03-01", "2026-01-01")).Value, "one part is one")
	assert.Equal(t, finding.Fail, of(&launcher.Launcher{Barrel: launcher.BarrelSpec{MadeOn: "1950-01-01"}}).Status)
	assert.Equal(t, finding.Fail, of(&launcher.Launcher{Projectile: launcher.ProjectileSpec{MadeOn: "2016-05-29"}}).Status)
	assert.Empty(t, of(&launcher.Launcher{Barrel: launcher.BarrelSpec{MadeOn: "2020-01-01"},
		Projectile: launcher.ProjectileSpec{MadeOn: "2016-05-30"}}).Status)
}

// A part of which nobody says how old it is, is no younger than one that is too old: it holds only while somebody has looked.
func TestAPartWithoutAnyDateIsNotTakenForYoung(t *testing.T) {
	for _, c := range []struct {
		part  string
		undid func(*launcher.Launcher)
	}{
		{"volumes.tank", func(l *launcher.Launcher) { l.Volumes[0].MadeOn = "" }},
		{"barrel", func(l *launcher.Launcher) { l.Barrel.MadeOn = "" }},
		{"projectile", func(l *launcher.Launcher) { l.Projectile.MadeOn = "" }},
	} {
		l := &launcher.Launcher{Volumes: []launcher.VolumeSpec{{Name: "tank", MadeOn: "2020-01-01"}},
			Barrel: launcher.BarrelSpec{MadeOn: "2020-01-01"}, Projectile: launcher.ProjectileSpec{MadeOn: "2020-01-01"}}
		of := func() finding.Verdict {
			return Of(&assessment.Assessment{Computed: assessed.All, Stated: l, Day: "2026-05-30"}, finding.DatesPast)
		}
		assert.Empty(t, of().Status, "%s: all are known, and none has a date to come", c.part)
		c.undid(l)
		v := of()
		assert.Equal(t, finding.Conditional, v.Status, c.part)
		assert.Contains(t, v.Condition.String(), c.part)
		assert.Equal(t, []string{finding.ItemAgeRetire}, v.Items)
	}
}

// A retire_by is no milder than none: beyond what such parts are used as a rule (forty years, ten of foam: own rule, no source) it is the
// condition that a part without any date is.
func TestARetireByBeyondItsLifeIsNoMilderThanNone(t *testing.T) {
	const day = "2026-05-30"
	for _, c := range []struct {
		made, retire string
		vessel, foam bool // what is asked for
	}{
		{"1948-04-09", "2099-01-01", true, true},
		{"1986-05-29", "2026-05-30", true, true},
		{"1986-05-30", "2099-01-01", false, true},
		{"2016-05-30", "2099-01-01", false, false},
		{"2020-01-01", "2030-01-01", false, false},
		{"", "2099-01-01", true, true},
		{"", "2066-05-31", true, true},
		{"", "2066-05-30", false, true},
		{"", "2036-05-31", false, true},
		{"", "2036-05-30", false, false},
	} {
		for part, want := range map[string]bool{"volumes.tank": c.vessel, "barrel": c.vessel, "projectile": c.foam} {
			l := &launcher.Launcher{Volumes: []launcher.VolumeSpec{{Name: "tank", MadeOn: "2020-01-01"}},
				Barrel: launcher.BarrelSpec{MadeOn: "2020-01-01"}, Projectile: launcher.ProjectileSpec{MadeOn: "2020-01-01"}}
			switch part {
			case "barrel":
				l.Barrel.MadeOn, l.Barrel.RetireBy = c.made, c.retire
			case "projectile":
				l.Projectile.MadeOn, l.Projectile.RetireBy = c.made, c.retire
			default:
				l.Volumes[0].MadeOn, l.Volumes[0].RetireBy = c.made, c.retire
			}
			v := Of(&assessment.Assessment{Computed: assessed.All, Stated: l, Day: day}, finding.DatesPast)
			if !want {
				assert.Equal(t, finding.Pass, v.Status, "%s %s to %s", part, c.made, c.retire)
				continue
			}
			assert.Equal(t, finding.Conditional, v.Status, "%s %s to %s", part, c.made, c.retire)
			assert.Contains(t, v.Condition.String(), part)
			assert.Equal(t, []string{finding.ItemAgeRetire}, v.Items)
		}
	}
}
