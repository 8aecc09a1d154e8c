package measure

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// inUse is a launcher that weighs 3.9 to 4.1 g, used at 10 to 26 degC, and stands in the sun at 40.
func inUse(changes ...func(*launcher.Launcher)) *launcher.Launcher {
	l := sample.Plain(sample.Measured, func(l *launcher.Launcher) {
		l.Ambient.Temperature = sample.Between("ambient.temperature", sample.Kelvin0+10, sample.Kelvin0+26)
	})
	for _, change := range changes {
		change(l)
	}
	return l
}

// Shots that are of another projectile, of another part or of a day on which the launcher is not used do not stand for it: they neither
// count for a bound nor narrow a band, and it is told why. A whale's six shots at 60 and at -20 degC, and with a ball of 2 g where the
// design has 4, once took the model's factor away.
func TestShotsThatDoNotStandForTheLauncher(t *testing.T) {
	for _, c := range []struct {
		name   string
		l      *launcher.Launcher
		change func(s []Shot)
		says   string // "" they count
		doubts bool
	}{
		{"as they are", inUse(), func([]Shot) {}, "", false},
		{"none weighed", inUse(), func(s []Shot) {
			for i := range s {
				s[i].Mass = 0
			}
		}, "none of the projectiles was weighed", false},
		{"weighed once", inUse(), func(s []Shot) {
			for i := range s[1:] {
				s[1+i].Mass = 0
			}
		}, "", false},
		{"weighed, but another one flew", inUse(), func(s []Shot) {
			for i := range s {
				s[i].Mass = 0
			}
			s[0].Mass, s[0].Misfire, s[0].Projectile = 4*sample.Grams, true, "C"
		}, "none of the projectiles was weighed", false},
		{"a light one", inUse(), func(s []Shot) { s[1].Mass = 2 * sample.Grams },
			`projectile "B" weighs 2 g, and the design has 3.9 to 4.1 g`, true},
		{"a soaked one", inUse(), func(s []Shot) { s[0].Mass = 8 * sample.Grams }, `projectile "A" weighs 8 g`, true},
		{"at its end", inUse(), func(s []Shot) { s[0].Mass = 3.9 * sample.Grams; s[1].Mass = 4.1 * sample.Grams }, "", false},
		{"a mass that no foam has", inUse(func(l *launcher.Launcher) {
			l.Projectile.MassSaid.Keep(l.Projectile.Mass)
			l.Projectile.Mass.Low = 1 * sample.Grams
		}), func(s []Shot) { s[0].Mass = 2 * sample.Grams }, `projectile "A" weighs 2 g, and the design has 3.9 to 4.1 g`, true},
		{"hot", inUse(), func(s []Shot) { s[2].Temperature = sample.Kelvin0 + 60 },
			"1 shot made at up to 60 degC, and the design is used at 10 to 26 degC", true},
		{"cold", inUse(), func(s []Shot) {
			for i := range s {
				s[i].Temperature = sample.Kelvin0 - float64(i)
			}
		}, "6 shots made at up to -5 degC", true},
		{"at the ends", inUse(), func(s []Shot) { s[0].Temperature, s[1].Temperature = sample.Kelvin0+9.1, sample.Kelvin0+26.9 }, "", false},
		{"beyond a thermometer's error", inUse(), func(s []Shot) { s[0].Temperature = sample.Kelvin0 + 27.1 },
			"1 shot made at up to 27.1 degC", true},
		{"as hot as it stands", inUse(func(l *launcher.Launcher) { l.Ambient.Hottest = launcher.Exact("", sample.Kelvin0+40) }),
			func(s []Shot) { s[2].Temperature = sample.Kelvin0 + 39 }, "", false},
		{"as cold as it is used", inUse(func(l *launcher.Launcher) { l.Ambient.Coldest = launcher.Exact("", sample.Kelvin0+5) }),
			func(s []Shot) { s[2].Temperature = sample.Kelvin0 + 6 }, "", false},
		{"what is assumed is not used", inUse(func(l *launcher.Launcher) {
			l.Ambient.Coldest, l.Ambient.Hottest = launcher.Exact("", sample.Kelvin0-5), launcher.Exact("", sample.Kelvin0+50)
			l.Ambient.Coldest.Assumed, l.Ambient.Hottest.Assumed = true, true
		}), func(s []Shot) { s[2].Temperature = sample.Kelvin0 + 6 }, "1 shot made at up to 6 degC", true},
		{"older than a part", inUse(func(l *launcher.Launcher) { l.Barrel.MadeOn = "2026-05-02" }),
			func(s []Shot) { s[1].Date = "2026-05-01" }, "line 3 is of 2026-05-01, and barrel.made_on is 2026-05-02", true},
		{"older than its vessel", inUse(func(l *launcher.Launcher) { l.Volumes[0].MadeOn = "2026-05-02" }),
			func(s []Shot) { s[1].Date = "2026-05-01" }, "volumes.tank.made_on is 2026-05-02", true},
		{"older than its projectile", inUse(func(l *launcher.Launcher) { l.Projectile.MadeOn = "2026-05-02" }),
			func(s []Shot) { s[1].Date = "2026-05-01" }, "projectile.made_on is 2026-05-02", true},
		{"of the same day", inUse(func(l *launcher.Launcher) { l.Barrel.MadeOn = "2026-05-02" }),
			func(s []Shot) { s[1].Date = "2026-05-02" }, "", false},
		{"without a day", inUse(func(l *launcher.Launcher) { l.Barrel.MadeOn = "2026-05-02" }), func([]Shot) {}, "", false},
	} {
		shots := shotsAt(0.9*sample.Bars, 2, 8.0, 8.1, 7.9, 8.2, 8.05, 7.95)
		if c.name == "weighed, but another one flew" {
			shots = append(shotsAt(0.9*sample.Bars, 2, 8.0), shots...)
		}
		c.change(shots)
		ev, err := measure(sample.Weakly(), c.l, &ShotLog{Shots: shots})
		require.NoError(t, err)
		require.Empty(t, ev.Severe(), c.name)
		g := ev.Groups[0]
		assert.Equal(t, c.says == "", g.Admissible(), "%s: %v", c.name, g.Faults)
		assert.Equal(t, c.doubts, g.Doubted, c.name)
		if c.says != "" && assert.Len(t, g.Faults, 1, c.name) {
			assert.Contains(t, g.Faults[0].String(), c.says, c.name)
			assert.Nil(t, ev.Best(), c.name)
		}
	}
}

// A projectile that is heavier than the design's holds more at the same speed, a lighter one less: both count where a group is held
// against the model.
func TestWhatWasWeighedCountsBesideTheDesign(t *testing.T) {
	shots := shotsAt(0.9*sample.Bars, 2, 8.0, 8.1, 7.9, 8.2, 8.05)
	shots[0].Mass, shots[1].Mass = 8*sample.Grams, 2*sample.Grams
	ev, err := measure(sample.Weakly(), inUse(), &ShotLog{Shots: shots})
	require.NoError(t, err)
	g := ev.Groups[0]
	assert.InEpsilon(t, 8*sample.Grams, g.MassHigh, sample.Rounding)
	assert.InEpsilon(t, 2*sample.Grams, g.MassLow, sample.Rounding)
	assert.InEpsilon(t, 0.5*8*sample.Grams*g.UpperSpeed*g.UpperSpeed, g.UpperEnergy, sample.Rounding)
	assert.InEpsilon(t, g.UpperEnergy, ev.LargestContrast(0), sample.Rounding)
}

// A bench test is of the part that it was made with: what empties a vessel of the vessel, what moves a projectile of the barrel and the
// projectile, the sound of a shot of all.
func TestABenchTestOlderThanItsPartIsRefused(t *testing.T) {
	for table, void := range map[string][]BenchKind{"volumes.tank": {ClickToPop, Emptying},
		"barrel": {ClickToPop, UTube, Coins, Slope, Sink}, "projectile": {ClickToPop, UTube, Coins, Slope, Sink}} {
		for kind := ClickToPop; kind <= Emptying; kind++ {
			assert.Equal(t, kind.restsOn(table), slices.Contains(void, kind), "%s on %s", kind, table)
		}
	}
	l := inUse(func(l *launcher.Launcher) { l.Projectile.MadeOn = "2026-05-02" })
	for date, severe := range map[string]int{"2026-05-01": 1, "2026-05-02": 0, "": 0} {
		ev, err := measure(sample.Weakly(), l, &ShotLog{Bench: []BenchReading{{Line: 7, Kind: Coins, Mass: 50 * sample.Grams, Date: date}}})
		require.NoError(t, err)
		require.Len(t, ev.Severe(), severe, date)
		if severe > 0 {
			assert.Contains(t, ev.Severe()[0].Text.String(), "line 7 is of 2026-05-01, and projectile.made_on is 2026-05-02")
		}
	}
}
