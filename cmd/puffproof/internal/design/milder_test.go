package design

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/doubt"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/verdict"
)

// exampleWith is an example design with one line of it replaced.
func exampleWith(t *testing.T, name, line, by string) []byte {
	t.Helper()
	data, err := os.ReadFile("../../../../testdata/designs/" + name + ".toml")
	require.NoError(t, err)
	is := regexp.MustCompile("(?m)^" + line + ".*$")
	require.Regexp(t, is, string(data))
	return is.ReplaceAll(data, []byte(by))
}

// A clearance that the two diameters contradict does not let more air past the projectile than they do: 18.3 less 18.0 mm, each
// ± 0.05 mm, leave 0.2 mm at least. One that they allow counts as it is, and one that is smaller too.
func TestAClearanceThatTheDiametersContradict(t *testing.T) {
	for stated, low := range map[string]float64{"1.2 mm ± 0 mm": 0.2e-3, "0.4 mm ± 0.05 mm": 0.35e-3, "0.02 mm ± 0 mm": 0.02e-3} {
		l := read(t, exampleWith(t, "rocket", "clearance", `clearance = "`+stated+`, measured"`))
		assert.InDelta(t, low, l.Projectile.Clearance.Low, 1e-9, stated)
		_, _, other := doubt.OtherClearance(l)
		assert.Equal(t, low != 0.35e-3, other, "told: %s", stated)
	}
}

// A dead volume that its barrel cannot have counts over all that the barrel leaves: 14.0 ± 0.1 mm of bore along 35 ± 2 mm are
// pi/4 (13.9 mm)^2 33 mm = 5.01 mL at least, and 30 bores more pi/4 (14.1 mm)^2 (37 mm + 423 mm) = 71.8 mL at most. The air of a rocket
// that is told to have 1.5 L behind it is not 20 times milder by that.
func TestADeadVolumeThatTheBarrelContradicts(t *testing.T) {
	for stated, ends := range map[string][2]float64{"1.5 L ± 0": {5.01, 1500}, "2 mL ± 0": {2, 71.8}, "22 mL ± 2 mL": {20, 24}} {
		l := read(t, exampleWith(t, "rocket", "dead_volume", `dead_volume = "`+stated+`, measured"`))
		assert.InDeltaSlice(t, ends[:], []float64{1e6 * l.Barrel.DeadVolume.Low, 1e6 * l.Barrel.DeadVolume.High}, 0.05, "%s: digits", stated)
	}
	judged := func(stated string) float64 {
		l := read(t, exampleWith(t, "rocket", "dead_volume", `dead_volume = "`+stated+`, measured"`))
		a, err := assessment.Make(lightly(t.Context(), 0.02), l, assessment.Options{Day: "2026-05-31", Want: assessment.EnergyStage})
		require.NoError(t, err)
		return a.Energy.Judged
	}
	assert.GreaterOrEqual(t, judged("1.5 L ± 0"), judged("22 mL ± 2 mL"), "not milder than as it is")
}

// A coil does not take seconds to lift a seal: 40 ms as a rule, 150 ms with a pilot. What is stated beyond three times as much counts
// from none on; what is slower than the rule keeps its band, and a hand and the air's own way out theirs.
func TestAValveThatCurrentMovesIsNotSlow(t *testing.T) {
	for _, c := range []struct {
		kind, drive, stated string
		low, doubted        float64 // [ms]
	}{
		{"valve", "direct", "5 s ± 0", 0, 5000}, {"valve", "direct", "121 ms ± 0", 0, 121}, {"valve", "direct", "119 ms ± 0", 119, 0},
		{"valve", "piloted", "440 ms ± 0", 440, 0}, {"valve", "piloted", "460 ms ± 0", 0, 460}, {"valve", "", "460 ms ± 0", 0, 460},
		{"diaphragm", "", "4 s ± 1 s", 0, 3000}, {"hand valve", "", "2 s ± 0", 2000, 0},
	} {
		drive, rest := "", `unpowered = "closed"`
		if c.drive != "" {
			drive = `drive = "` + c.drive + `", `
		}
		if c.kind == "hand valve" {
			rest = `points = "away"`
		}
		l := read(t, []byte(minimal+`paths.more = { from = "dose", to = "atmosphere", kind = "`+c.kind+`", seat_bore = "4 mm", `+
			`open_in = ["off"], `+drive+rest+`, opening_time = "`+c.stated+`, measured" }`+"\n"))
		more := l.Paths[l.PathIndex("more")]
		assert.InDelta(t, c.low, 1e3*more.OpeningTime.Low, 1e-9, "%s %s %s", c.kind, c.drive, c.stated)
		assert.InDelta(t, c.doubted, 1e3*more.OpeningSaid.Low, 1e-9, "%s %s %s", c.kind, c.drive, c.stated)
	}
}

// With a part of the model switched off nothing that is computed passes.
func TestNothingPassesWithoutAPartOfTheModel(t *testing.T) {
	for _, key := range []string{"after_muzzle", "wall_heat", "gas_inertia", "air_ahead"} {
		data := append(exampleWith(t, "rocket", "clearance", `clearance = "0.3 mm ± 0.2 mm"`), "\n[model]\n"+key+" = \"none\"\n"...)
		l := read(t, data)
		a, err := assessment.Make(lightly(t.Context(), 0.00005), l, assessment.Options{Day: "2026-05-31",
			Want: assessment.EnergyStage})
		require.NoError(t, err)
		v := verdict.Of(a, finding.EnergyTotal)
		assert.Equal(t, finding.Unknown, v.Status, key)
		assert.Contains(t, v.Why.String(), "switched off: model."+key)
	}
}

// A delivery curve that goes on well beyond the dead head contradicts it, and is told with its line.
func TestACurveEndsAtTheDeadHead(t *testing.T) {
	supply := func(last string) []byte {
		return []byte(minimal + `supply = { kind = "compressor", feeds = "dose", free_air = "3 L/min", dead_head = "0.22 bar ± 0.01 bar", ` +
			`curve = [["0 bar", "3 L/min"], ["` + last + `", "1 L/min"]] }` + "\n")
	}
	_, problems := Read("x.toml", supply("2 bar"))
	require.Len(t, problems, 1, list(problems))
	assert.Contains(t, problems[0].String(), "beyond supply.dead_head")
	assert.Positive(t, problems[0].Line)
	_, problems = Read("x.toml", supply("0.2 bar"))
	assert.Empty(t, problems)
}

// A delivery curve that falls to nearly nothing at a fraction of the dead head counts no less than the straight line from 6 L/min to 0.22
// bar, which has 4.636 L/min at 0.05 bar, by hand; and the note says so. A curve as diaphragm pumps have counts as it is.
func TestACurveThatFallsAtOnceMakesNothingMilder(t *testing.T) {
	with := func(point string) (*launcher.Launcher, string) {
		l := read(t, exampleWith(t, "rocket", "dead_head", `dead_head = "0.22 bar ± 0.02 bar, measured"`+
			"\ncurve = [[\"0 bar\", \"6 L/min\"], "+point+"]"))
		return l, finding.Notes(verdict.DesignNotes(&assessment.Assessment{Launcher: l})...).String()
	}
	l, notes := with(`["0.05 bar", "0.01 L/min"]`)
	require.Len(t, l.Supply.Curve, 3)
	assert.InDelta(t, 4.636, 60000*l.Supply.Curve[1].FreeAir, 5e-4, "digits")
	assert.InDelta(t, 0.22e5, l.Supply.Curve[2].Gauge, 1e-6)
	assert.Contains(t, notes, "supply.curve falls at 0.050 bar to less than a third")
	l, notes = with(`["0.11 bar", "2.4 L/min"]`)
	assert.InDelta(t, 2.4, 60000*l.Supply.Curve[1].FreeAir, 1e-9)
	assert.NotContains(t, notes, "supply.curve")
}

// Friction of which one figure excludes the other makes no rocket milder than it is as stated in the example, nor does friction that lets
// no shot out; and the note says so.
func TestFrictionThatCannotBeMakesNothingMilder(t *testing.T) {
	judged := func(hold, slides, more string) (float64, string) {
		data := exampleWith(t, "rocket", "breakaway_force", `breakaway_force = "`+hold+`"`+more)
		data = regexp.MustCompile("(?m)^sliding_force.*$").ReplaceAll(data, []byte(`sliding_force = "`+slides+`"`))
		a, err := assessment.Make(lightly(t.Context(), 0.2), read(t, data), assessment.Options{Day: "2026-05-31",
			Want: assessment.EnergyStage})
		require.NoError(t, err)
		return a.Energy.Judged, finding.Notes(verdict.DesignNotes(a)...).String()
	}
	const asIs, drag = "0.3 N -0.3/+0.5 N, measured", "0.15 N -0.15/+0.25 N, measured"
	least, notes := judged(asIs, drag, "")
	require.NotContains(t, notes, "_force")
	for name, c := range map[string][4]string{
		"held by 20 N": {"20 N ± 0 N, measured", drag, "",
			"projectile.breakaway_force says 20 N, many times what it slides with"},
		"slides with more than starts": {asIs, "3.5 N ± 0 N, measured", "",
			"projectile.sliding_force says 3.5 N, more than what starts it (br"},
		"starts again with nothing": {asIs, "2 N ± 0 N, measured", "\nrestart_force = \"0 N\"",
			"projectile.sliding_force says 2.0 N, more than what starts it again (restart_force 0 to 0.50 N)"},
		"nothing leaves": {"20 N ± 0 N, measured", "10 N ± 0 N, measured", "", "lets none of its shots out"},
	} {
		got, notes := judged(c[0], c[1], c[2])
		assert.GreaterOrEqual(t, got, 0.97*least, "%s: searches as short as these differ by less", name)
		assert.Contains(t, notes, c[3], name)
	}
}

// A rocket of 40 mm that is told to weigh 200 g, 25 times what it does, is not five times milder by that; and the note says so.
func TestAMassThatNoFoamHasMakesNothingMilder(t *testing.T) {
	judged := func(mass string) (float64, string) {
		l := read(t, exampleWith(t, "rocket", "mass", `mass = "`+mass+`"`))
		a, err := assessment.Make(lightly(t.Context(), 0.2), l, assessment.Options{Day: "2026-05-31", Want: assessment.EnergyStage})
		require.NoError(t, err)
		return a.Energy.Judged, finding.Notes(verdict.DesignNotes(a)...).String()
	}
	least, notes := judged("8.0 g ± 0.8 g, measured")
	require.NotContains(t, notes, "projectile.mass")
	heavy, notes := judged("200 g ± 0 g, measured")
	assert.GreaterOrEqual(t, heavy, 0.97*least, "searches as short as these differ by less")
	assert.Contains(t, notes, "projectile.mass says 200 to 200 g, and foam of its size has 0.31")
}

// A ball of 41 mm that is told to touch with nearly all of its width has no more area for its energy than one that touches with a third of
// it, until its print was taken; and the note says so.
func TestAPrintAsWideAsTheBallMakesNothingMilder(t *testing.T) {
	of := func(print string) *launcher.Launcher {
		return read(t, exampleWith(t, "whale", "contact_diameter", `contact_diameter = "`+print+`"`))
	}
	notes := func(l *launcher.Launcher) string {
		return finding.Notes(verdict.DesignNotes(&assessment.Assessment{Launcher: l})...).String()
	}
	as := of("24 mm ± 2 mm, measured")
	assert.Equal(t, 22e-3, as.Projectile.ContactDiameter.Low)
	require.NotContains(t, notes(as), "contact_diameter")
	l := of("40 mm ± 1 mm, measured")
	assert.Less(t, l.Projectile.ContactDiameter.Low, 14e-3)
	assert.Contains(t, notes(l), "projectile.contact_diameter says 39.0 mm or more")
	l.Checklist = append(l.Checklist, finding.Confirmation{Item: finding.ItemPrint, Who: "A. N.", Date: "2026-05-01", Value: "40 mm",
		Figures: FiguresIn("40 mm")})
	l = doubt.Settled(l, "2026-05-31")
	assert.Equal(t, 39e-3, l.Projectile.ContactDiameter.Low, "a flat face was shown")
	assert.NotContains(t, notes(l), "contact_diameter")
}

// A decimal point that slipped in the flow of the firing valve makes no shot milder: 0.33 in place of 3.3 still shoots a rocket at 5 m/s,
// at a third of its energy. The note says so, and the valve that was gauged counts as it is stated: what passes as much as an ideal hole
// of 3.3 mm has a seat of up to twice that.
func TestAFlowThatNoFiringValveHasMakesNothingMilder(t *testing.T) {
	judged := func(kv, more string) (float64, string) {
		data := append(exampleWith(t, "rocket", "Kv", `Kv = "`+kv+` ± 10 %, datasheet"`), more...)
		a, err := assessment.Make(lightly(t.Context(), 0.2), read(t, data), assessment.Options{Day: "2026-05-31",
			Want: assessment.EnergyStage})
		require.NoError(t, err)
		return a.Energy.Judged, finding.Notes(verdict.DesignNotes(a)...).String()
	}
	least, notes := judged("3.3", "")
	require.NotContains(t, notes, "paths.fire.Kv")
	slipped, notes := judged("0.33", "")
	assert.GreaterOrEqual(t, slipped, 0.97*least, "searches as short as these differ by less")
	assert.Contains(t, notes, "paths.fire.Kv lets through as much as an ideal hole of 3.34 mm does, and what it feeds is 14.1 mm wide")
	const answer = "\n[checklist.\"valve.passage\"]\nwho = \"A. Adult\"\ndate = \"2026-05-30\"\nvalue = \"fire "
	gauged, notes := judged("0.33", answer+"4.5 mm\"\n")
	assert.Less(t, gauged, 0.7*least)
	assert.NotContains(t, notes, "paths.fire.Kv")
	wide, notes := judged("0.33", answer+"12 mm\"\n")
	assert.GreaterOrEqual(t, wide, 0.97*least)
	assert.Contains(t, notes, "paths.fire.Kv")
}

// What was weighed, or timed, as it is stated is no longer doubted; another figure, or one without a day, settles nothing.
func TestAMeasurementSettlesADoubt(t *testing.T) {
	settled := func(line, by, item, value, day string) *launcher.Launcher {
		data := append(exampleWith(t, "rocket", line, by), "\n[checklist.\""+item+"\"]\nwho = \"A. Adult\"\ndate = \"2026-05-30\"\nvalue = \""+
			value+"\"\n"...)
		l := doubt.Settled(read(t, data), day)
		assert.Same(t, l, doubt.Settled(l, day), "settled once")
		return l
	}
	for value, low := range map[string]float64{"150.2 g, 151 g and 149.5 g": 145, "15 g and 15.2 g": 5.01, "150.2 g": 5.01} {
		l := settled("dead_volume", `dead_volume = "150 mL ± 5 mL, measured"`, finding.ItemDeadVolume, value, "2026-05-31")
		assert.InDelta(t, low, 1e6*l.Barrel.DeadVolume.Low, 0.05, "%s: digits", value)
	}
	for value, low := range map[string]float64{"fire 420 ms": 400, "fire 42 ms": 0} {
		l := settled("opening_time", `opening_time = "450 ms ± 50 ms, measured"`, finding.ItemOpeningTime, value, "2026-05-31")
		assert.InDelta(t, low, 1e3*l.Paths[0].OpeningTime.Low, 1e-9, value)
		assert.Equal(t, low == 0, l.Paths[0].OpeningSaid.Doubted(), value)
		l = settled("opening_time", `opening_time = "450 ms ± 50 ms, measured"`, finding.ItemOpeningTime, value, "")
		assert.Zero(t, l.Paths[0].OpeningTime.Low, "no day")
	}
}

// A tolerance that nothing of its origin gives is kept in mind: of a data sheet or a guess less than a tenth of its default band (here
// ± 10 and ± 20 %), of a measurement less than a twentieth (± 0.5 g on a kitchen scale, ± 0.1 mm with calipers), a force that is
// nothing at all too.
func TestATooNarrowToleranceIsKeptInMind(t *testing.T) {
	for _, c := range []struct {
		line, by string
		narrow   bool
	}{
		{"Kv", `Kv = "3.3 ± 0.9 %, datasheet"`, true}, {"Kv", `Kv = "3.3 ± 1.1 %, datasheet"`, false},
		{"Kv", `Kv = "3.3 ± 1.9 %, estimated"`, true}, {"Kv", `Kv = "3.3 ± 2.1 %, estimated"`, false}, {"Kv", `Kv = "3.3, datasheet"`, false},
		{"mass", `mass = "8.0 g ± 0, measured"`, true}, {"mass", `mass = "8.0 g ± 0.02 g, measured"`, true},
		{"mass", `mass = "8.0 g ± 0.03 g, measured"`, false}, {"inside_diameter", `inside_diameter = "18.3 mm ± 0.004 mm, measured"`, true},
		{"dead_head", `dead_head = "0.22 bar ± 0"`, true}, {"sliding_force", `sliding_force = "0 N ± 0 N"`, true},
		{"sliding_force", `sliding_force = "0 N -0/+0.2 N"`, false},
		{"within", `within = "20 s ± 0"`, false}, {"opening_time", `opening_time = "20 ms -0/+30 ms"`, false},
	} {
		l := read(t, exampleWith(t, "rocket", c.line, c.by))
		if assert.Equal(t, c.narrow, len(l.Narrow) == 1, c.by); c.narrow {
			assert.Contains(t, l.Narrow[0].Key, "."+c.line)
			assert.Contains(t, finding.Notes(verdict.DesignNotes(&assessment.Assessment{Launcher: l})...).String(), "as a rule", c.by)
		}
	}
	for _, name := range []string{"rocket", "soapbox", "whale", "careless"} {
		assert.Empty(t, read(t, demo(t, name+".toml")).Narrow, name)
	}
}

// Of nothing no fraction is left: a force that is stated as zero may be as large as what nobody feels, and calm air as fast as what moves
// no vane. What holds a projectile least stays at zero: it is shot the hardest as a rule.
func TestNothingHasABandToo(t *testing.T) {
	atRest := func(l *launcher.Launcher) launcher.Band { return l.Projectile.Breakaway }
	for _, c := range []struct {
		line, by  string
		of        func(l *launcher.Launcher) launcher.Band
		low, high float64
	}{
		{"breakaway_force", `breakaway_force = "0 N"`, atRest, 0, 0.5},
		{"breakaway_force", `breakaway_force = "0 N, measured"`, atRest, 0, 0.5},
		{"breakaway_force", `breakaway_force = "0 N ± 0"`, atRest, 0, 0},
		{"breakaway_force", `breakaway_force = "0.1 N, measured"`, atRest, 0, 0.2},
		{"sliding_force", `sliding_force = "0 N"`, func(l *launcher.Launcher) launcher.Band { return l.Projectile.Sliding }, 0, 0.5},
		{"wind", `wind = "0 m/s"`, func(l *launcher.Launcher) launcher.Band { return l.Event.Wind }, 0, 1.5},
		{"wind", `wind = "2 m/s"`, func(l *launcher.Launcher) launcher.Band { return l.Event.Wind }, 2, 3},
	} {
		b := c.of(read(t, exampleWith(t, "whale", c.line, c.by)))
		assert.InDelta(t, c.low, b.Low, 1e-12, c.by)
		assert.InDelta(t, c.high, b.High, 1e-12, c.by)
	}
	unstated := read(t, []byte(strings.Replace(string(exampleWith(t, "whale", "breakaway_force", `breakaway_force = "0 N"`)),
		`sliding_force = "0.2 N ± 0.2 N, measured"`, "", 1)))
	assert.InDelta(t, 0.5, unstated.Projectile.Sliding.High, 1e-12, "of which nothing is stated it is up to what holds it")
}

// Foam that is wider than its bore at every tolerance rubs on it.
func TestASqueezedProjectileIsHeldBySomething(t *testing.T) {
	wide := exampleWith(t, "whale", "diameter", `diameter = "42.0 mm ± 0.5 mm, measured"`)
	for stated, refused := range map[string]bool{"0 N": true, "0 N ± 0, measured": true, "0 N -0/+0.5 N": false, "0.2 N ± 0.2 N": false} {
		for _, key := range []string{"breakaway_force", "sliding_force"} {
			data := regexp.MustCompile("(?m)^"+key+".*$").ReplaceAll(wide, []byte(key+` = "`+stated+`"`))
			_, problems := Read("x.toml", data)
			if !refused {
				assert.Empty(t, problems, stated)
				continue
			}
			if assert.Len(t, problems, 1, stated) {
				assert.Equal(t, "projectile."+key, problems[0].Key)
				assert.Contains(t, problems[0].Message, "wider than its bore is held by it")
			}
			narrow := exampleWith(t, "whale", key, key+` = "`+stated+`"`)
			_, problems = Read("x.toml", narrow)
			assert.Empty(t, problems, "that of another may roll")
		}
	}
}

// A supply that cannot push as far as the switch is set never stops: the two contradict each other. Where their tolerances meet it may.
func TestADeadHeadBelowTheCutOutIsRefused(t *testing.T) {
	for stated, refused := range map[string]bool{"0.30 bar ± 0.02 bar": true, "0.32 bar ± 0.02 bar": false, "0.35 bar ± 0.05 bar": false,
		"0.2 bar": true, "4 bar": false} {
		_, problems := Read("x.toml", exampleWith(t, "whale", "dead_head", `dead_head = "`+stated+`, measured"`))
		if !refused {
			assert.Empty(t, problems, stated)
			continue
		}
		if assert.Len(t, problems, 1, stated) {
			p := problems[0]
			assert.Equal(t, "supply.dead_head", p.Key)
			assert.Positive(t, p.Line)
			assert.Contains(t, p.Message, "cannot push as far as pressure_switch.cut_out")
			assert.Contains(t, p.Want, "0.33 bar")
			assert.Contains(t, p.Hint, "the switch would never stop it")
		}
	}
}

// Nobody pumps to a mark that is not on the dial, and no needle shows what a vessel that comes filled has beyond it.
func TestAMarkBeyondTheDialIsRefused(t *testing.T) {
	hand := func(scale, to string) []byte {
		return []byte(minimal + `supply = { kind = "hand pump", feeds = "dose", free_air = "3 L/min", dead_head = "2 bar", pumped_to = "` + to +
			`" }` + "\n" + `gauge = { on = "dose", range = "` + scale + `", class = 1.6 }` + "\n")
	}
	filled := func(scale string) []byte {
		return []byte(strings.Replace(minimal, `{ volume = "1 L" }`, `{ volume = "1 L", filled_to = "0.3 bar", filler_reaches = "0.6 bar" }`, 1) +
			`gauge = { on = "dose", range = "` + scale + `", class = 1.6 }` + "\n")
	}
	for name, c := range map[string]struct {
		data []byte
		key  string
	}{
		"a mark beyond the dial": {hand("0.25 bar", "0.30 bar ± 0.05 bar"), "supply.pumped_to"},
		"a mark at its end":      {hand("0.30 bar", "0.30 bar ± 0.05 bar"), ""}, "a mark on it": {hand("1 bar", "0.30 bar ± 0.05 bar"), ""},
		"filled beyond the dial": {filled("0.25 bar"), "volumes.dose.filled_to"}, "filled to what it shows": {filled("0.6 bar"), ""},
	} {
		_, problems := Read("x.toml", c.data)
		if c.key == "" {
			assert.Empty(t, problems, "%s: %s", name, list(problems))
			continue
		}
		if assert.Len(t, problems, 1, "%s: %s", name, list(problems)) {
			assert.Equal(t, "gauge.range", problems[0].Key, name)
			assert.Contains(t, problems[0].Message, "ends below "+c.key, name)
			assert.Positive(t, problems[0].Line, name)
		}
	}
}

// A pressure switch stops no arm: beside a hand pump it is refused, with what is there instead. Without it the relief valve, the mark or
// the dead head is the working pressure.
func TestASwitchStopsNoHandPump(t *testing.T) {
	const (
		pump    = `supply = { kind = "KIND", feeds = "dose", free_air = "3 L/min", dead_head = "2 bar" }` + "\n"
		stopped = `pressure_switch = { senses = "dose", cut_out = "0.2 bar ± 0.01 bar", cut_in = "0.1 bar ± 0.01 bar" }` + "\n"
	)
	_, problems := Read("x.toml", []byte(minimal+strings.Replace(pump, "KIND", "hand pump", 1)+stopped))
	require.Len(t, problems, 1)
	assert.Contains(t, list(problems), "no switch stops a person's arm")
	assert.Contains(t, list(problems), "supply.pumped_to")
	read(t, []byte(minimal+strings.Replace(pump, "KIND", "compressor", 1)+stopped))
	l := read(t, []byte(minimal+strings.Replace(pump, "KIND", "hand pump", 1)))
	assert.Equal(t, launcher.StopDeadHead, l.Working().By)
	assert.GreaterOrEqual(t, l.Working().High, 2e5)
}
