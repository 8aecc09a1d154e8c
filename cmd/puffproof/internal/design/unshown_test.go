package design

import (
	"bytes"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/verdict"
)

// An error of nothing is none that was measured: the finest dial gauges have a thousandth of their range (class 0.1 of EN 837-1). The
// class of the gauge counts then, without one class 4, as where nothing is stated.
func TestAGaugeErrorOfNothingIsNoMeasurement(t *testing.T) {
	whale := demo(t, "whale.toml") // its gauge has class 1.0 of 1.6 bar
	for text, want := range map[string]float64{`"0 bar"`: 0.016e5, `"0.0003 bar"`: 0.016e5, `"0.005 bar"`: 0.005e5, `"0.03 bar"`: 0.03e5} {
		of := bytes.Replace(whale, []byte("[pressure_switch]\n"), []byte("[pressure_switch]\ngauge_error = "+text+"\n"), 1)
		e := read(t, of).Switch.GaugeError
		assert.InDelta(t, want, e.High, 1e-9, text)
		assert.InDelta(t, -want, e.Low, 1e-9, text)
	}
	for text, want := range map[string]float64{`"0 bar"`: 0.064e5, `"0.001 bar"`: 0.064e5, `"0.005 bar"`: 0.005e5} {
		of := bytes.Replace(whale, []byte("class = 1.0"), []byte("error = "+text), 1)
		require.NotEqual(t, whale, of)
		l := read(t, of)
		assert.InDelta(t, want, l.Switch.GaugeError.High, 1e-9, text)
		size, _ := l.Gauges[0].ErrorSize()
		assert.InDelta(t, want, size, 1e-9, text)
	}
}

// A hole that is drilled through its part is said so; what is not said can be missing. Beside another flow figure the key means nothing.
func TestAHoleThatCannotBeLeftOut(t *testing.T) {
	whale := demo(t, "whale.toml")
	const feed = "to = \"dose\"\nkind = \"valve\"\n"
	with := func(line string) []byte { return bytes.Replace(whale, []byte(feed), []byte(feed+line+"\n"), 1) }
	assert.Equal(t, launcher.Unanswered, read(t, whale).Paths[0].Flow.Removable)
	assert.Equal(t, launcher.Unanswered, read(t, with(`orifice_removable = "?"`)).Paths[0].Flow.Removable)
	assert.Equal(t, launcher.No, read(t, with("orifice_removable = false")).Paths[0].Flow.Removable)
	declared := read(t, with(`orifice_removable = "declared no"`))
	assert.Equal(t, launcher.No, declared.Paths[0].Flow.Removable)
	assert.Contains(t, declared.Declared, "paths.feed.orifice_removable")
	_, problems := Read("whale.toml", bytes.Replace(whale, []byte("Cv = \"2.0 ± 10 %, datasheet\""),
		[]byte("Cv = \"2.0 ± 10 %, datasheet\"\norifice_removable = false"), 1))
	require.Len(t, problems, 1)
	assert.Contains(t, problems[0].Message, "does not belong to Cv")
}

// The finest class of dial gauges is 0.1 (EN 837-1, from memory): a finer figure is a slip, such as of a percentage that was divided by a
// hundred, and would make each reading ten times as good. It is refused with what would be accepted; the finest class is read.
func TestAClassThatNoGaugeHasIsRefused(t *testing.T) {
	whale := demo(t, "whale.toml")
	of := func(class string) []byte {
		require.Contains(t, string(whale), "class = 1.0")
		return bytes.Replace(whale, []byte("class = 1.0"), []byte("class = "+class), 1)
	}
	for _, class := range []string{"0.01", "0.016", "0.099"} {
		_, problems := Read("whale.toml", of(class))
		require.Len(t, problems, 1, class)
		assert.Contains(t, list(problems), "gauge.class")
		assert.Contains(t, list(problems), "0.1")
	}
	assert.Equal(t, 0.1, read(t, of("0.1")).Gauges[0].Class)
}

// A regulator without any creep, a switch without any reaction time and a relief valve that is fully open where it begins to open are no
// better than those of which nothing is stated (common practice, from memory: lock-up is some hundredths of the set pressure; a relay
// drops in 10 ms or more, and a motor runs down; safety valves reach full flow 3 % above set at the least, most 10 %).
func TestFiguresThatNoPartHasCountAsNotStated(t *testing.T) {
	whale := string(demo(t, "whale.toml"))
	const regulator = "[paths.reg]\nfrom = \"tank\"\nto = \"dose\"\nkind = \"regulator\"\norifice = \"3 mm ± 0.1 mm\"\n" +
		"set_pressure = \"0.5 bar ± 0.02 bar\"\n"
	const relief = "[paths.blow]\nfrom = \"tank\"\nto = \"atmosphere\"\nkind = \"relief\"\norifice = \"4 mm ± 0.1 mm\"\npoints = \"away\"\n" +
		"set_pressure = \"0.60 bar ± 0.02 bar\"\n"
	has := func(text string) *launcher.Launcher { return read(t, []byte(text)) }
	creep := func(l *launcher.Launcher) launcher.Band { return l.Paths[l.PathIndex("reg")].Creep }
	full := func(l *launcher.Launcher) launcher.Band { return l.Paths[l.PathIndex("blow")].FullFlowPressure }
	reaction := func(l *launcher.Launcher) launcher.Band { return l.Switch.ReactionTime }
	onSwitch := func(line string) string {
		return strings.Replace(whale, "[pressure_switch]\n", "[pressure_switch]\n"+line, 1)
	}
	for _, c := range []struct {
		key, without string
		with         func(value string) string
		band         func(*launcher.Launcher) launcher.Band
		none, some   []string
	}{
		{"paths.reg.creep", whale + "\n" + regulator, func(v string) string { return whale + "\n" + regulator + "creep = " + v + "\n" }, creep,
			[]string{`"0 bar"`, `"0 bar ± 0 bar"`, `"0 bar, measured"`, `"0.004 bar ± 0 bar, measured"`},
			[]string{`"0.02 bar"`, `"0 bar -0/+0.05 bar, measured"`, `"0.006 bar ± 0.001 bar, measured"`}},
		{"pressure_switch.reaction_time", onSwitch(""), func(v string) string { return onSwitch("reaction_time = " + v + "\n") }, reaction,
			[]string{`"0 s"`, `"0 s ± 0 s"`, `"0 s, measured"`, `"5 ms ± 4 ms"`},
			[]string{`"0.1 s ± 0.05 s, measured"`, `"0 s -0/+0.1 s"`, `"20 ms"`}},
		{"paths.blow.full_flow_pressure", whale + "\n" + relief, func(v string) string {
			return whale + "\n" + relief + "full_flow_pressure = " + v + "\n"
		}, full, []string{`"0.60 bar"`, `"0.60 bar ± 0.02 bar"`, `"0.605 bar"`, `"0.606 bar ± 0.02 bar"`},
			[]string{`"0.62 bar"`, `"0.66 bar ± 0.02 bar"`}},
	} {
		missing := c.band(has(c.without))
		require.True(t, missing.Assumed, c.key)
		for _, v := range c.none {
			l := has(c.with(v))
			b := c.band(l)
			assert.Equal(t, missing, b, "%s = %s", c.key, v)
			notes := finding.Join(verdict.DesignNotes(&assessment.Assessment{Launcher: l}), " ").String()
			assert.Contains(t, notes, c.key+" says ", v)
			assert.Contains(t, notes, "counts as not stated", v)
			narrow := slices.ContainsFunc(l.Narrow, func(n launcher.Narrow) bool { return n.Key == c.key })
			assert.False(t, narrow, "%s: its tolerance counts no more", v)
		}
		for _, v := range c.some {
			l := has(c.with(v))
			assert.NotEqual(t, missing, c.band(l), "%s = %s", c.key, v)
			assert.NotContains(t, finding.Join(verdict.DesignNotes(&assessment.Assessment{Launcher: l}), " ").String(), c.key+" says ", v)
		}
	}
}

// More drag than anything thrown has would draw the landing zone in: a flat disc has 1.2 at the most, a hollow half ball with its open
// side to the wind 1.4 (Hoerner, Fluid-Dynamic Drag, chapter 3, from memory). It counts as not stated.
func TestADragThatNothingThrownHasCountsAsNotStated(t *testing.T) {
	for value, counts := range map[string]bool{"0.5 ± 20 %": true, "1.4": true, "1.5": true, "1.9 ± 0.5": true, "1.6": false,
		"3, measured": false, "2 ± 0.4": false} {
		l := read(t, exampleWith(t, "whale", "drag_coefficient", `drag_coefficient = "`+value+`"`))
		assert.Equal(t, counts, l.Projectile.Drag.Set, value)
		notes := finding.Join(verdict.DesignNotes(&assessment.Assessment{Launcher: l}), " ").String()
		assert.Equal(t, !counts, strings.Contains(notes, "projectile.drag_coefficient says "), value)
		assert.Equal(t, !counts, strings.Contains(notes, "it counts as not stated, 0 to 1.2. Measure it."), value)
	}
}

// No regulator has a seat of a tenth of a millimetre: those of cylinders and mains have 1 to 8 mm (common practice, no source). Taken at
// its word it would let a relief valve carry any regulator that fails open.
func TestASeatThatNoRegulatorHasIsNotStated(t *testing.T) {
	rocket := string(demo(t, "rocket.toml"))
	bore := func(line string) (*launcher.Launcher, string) {
		l := read(t, []byte(strings.Replace(rocket, `kind = "compressor"`, "kind = \"shop air\"\n"+line, 1)))
		return l, finding.Join(verdict.DesignNotes(&assessment.Assessment{Launcher: l}), " ").String()
	}
	missing, _ := bore("")
	require.Equal(t, 8e-3, missing.Supply.RegulatorBore.High)
	for value, counts := range map[string]bool{"0.1 mm": false, "0.1 mm, measured": false, "0.4 mm ± 0.05 mm": false, "0.5 mm": true,
		"2 mm, datasheet": true} {
		l, notes := bore("regulator_bore = \"" + value + "\"\n")
		assert.Equal(t, !counts, l.Supply.RegulatorBore.Assumed && l.Supply.RegulatorBore.High == 8e-3, value)
		assert.Equal(t, !counts, strings.Contains(notes, "supply.regulator_bore says "), value)
		assert.Equal(t, !counts, strings.Contains(notes, "1 to 8 mm. Its maker's sheet has the bore of its seat."), value)
		assert.Equal(t, counts, l.FailedSource().Supply.FreeAir.High < 0.9*missing.FailedSource().Supply.FreeAir.High, value)
	}
}

// A small cylinder that is filled to 8 bar is stated as the note about a source_pressure so low says: a vessel that comes filled, before a
// regulator. Nothing of it counts as not stated, and what stands behind a regulator that fails open is what it was filled to.
func TestASmallCylinderIsStatedAsAVesselThatComesFilled(t *testing.T) {
	rocket := string(demo(t, "rocket.toml"))
	from, to := strings.Index(rocket, "[supply]"), strings.Index(rocket, "[gauge]")
	supply := strings.Replace(rocket[from:to], `kind = "compressor"`,
		"kind = \"regulated cylinder\"\nsource_pressure = \"8 bar ± 0.5 bar\"", 1)
	notes := func(l *launcher.Launcher) string {
		return finding.Join(verdict.DesignNotes(&assessment.Assessment{Launcher: l}), " ").String()
	}
	said := notes(read(t, []byte(rocket[:from]+supply+rocket[to:])))
	require.Contains(t, said, `[volumes.cylinder] filled_to = "8 bar ± 0.5 bar", with its volume and rating; and [paths.regulator] from = `+
		`"cylinder", to = "dose", kind = "regulator", its orifice, and as set_pressure what stands as dead_head.`)
	const filled = `[volumes.cylinder]
volume = "0.5 L ± 2 %"
rated_pressure = "16 bar, label"
rated_for_gas = true
material = "steel"
filled_to = "8 bar ± 0.5 bar"
[paths.regulator]
from = "cylinder"
to = "dose"
kind = "regulator"
orifice = "1 mm ± 0.1 mm"
set_pressure = "0.22 bar ± 0.02 bar"
`
	l := read(t, []byte(rocket[:from]+filled+rocket[to:]))
	assert.NotContains(t, notes(l), "counts as not stated")
	high, ok := l.NormalHigh()
	assert.True(t, ok)
	assert.InDelta(t, 8.5e5, high, 1, "the top of what is stated")
}

// A regulator has two gauges. What the one behind it shows is no pressure of a source: full cylinders have 150 to 300 bar, mains of shops
// 6 to 10 bar (common practice, no source). Taken at its word it would make a regulator that fails open harmless.
func TestThePressureBehindARegulatorIsNoSource(t *testing.T) {
	rocket := string(demo(t, "rocket.toml"))
	for kind, values := range map[string]struct{ none, some []string }{
		"regulated cylinder": {[]string{`"3.5 psi, measured"`, `"0.25 bar"`, `"0.25 bar ± 0 bar"`, `"8 bar"`,
			`"19 bar ± 0.9 bar, measured"`, `"18 bar"`},
			[]string{`"19 bar ± 1 bar, measured"`, `"20 bar"`, `"200 bar, label"`}},
		"shop air": {[]string{`"0.25 bar"`, `"3.9 bar, measured"`, `"3.5 bar ± 0.4 bar"`}, []string{`"3.5 bar ± 0.5 bar"`, `"8 bar"`}},
	} {
		with := func(line string) *launcher.Launcher {
			text := strings.Replace(rocket, `kind = "compressor"`, "kind = \""+kind+"\"\n"+line, 1)
			require.NotEqual(t, rocket, text)
			return read(t, []byte(text))
		}
		notes := func(l *launcher.Launcher) string {
			return finding.Join(verdict.DesignNotes(&assessment.Assessment{Launcher: l}), " ").String()
		}
		missing := with("").Supply.SourcePressure
		require.True(t, missing.Assumed, kind)
		for _, v := range values.none {
			l := with("source_pressure = " + v + "\n")
			assert.Equal(t, missing, l.Supply.SourcePressure, "%s: %s", kind, v)
			assert.Equal(t, missing.High, l.FailedSource().Supply.DeadHead.High, "%s: %s", kind, v)
			assert.Contains(t, notes(l), "supply.source_pressure says ", v)
			assert.Contains(t, notes(l), "A regulator has two gauges", v)
		}
		low := notes(with(`source_pressure = "8 bar ± 0.5 bar"` + "\n"))
		assert.Equal(t, kind == "regulated cylinder", strings.Contains(low, `[volumes.cylinder] filled_to = "8 bar ± 0.5 bar", with`), kind)
		for _, v := range values.some {
			l := with("source_pressure = " + v + "\n")
			assert.NotEqual(t, missing, l.Supply.SourcePressure, "%s: %s", kind, v)
			assert.NotContains(t, notes(l), "supply.source_pressure says ", v)
		}
	}
}

// No stroke is weaker than its mean, nor, of two strokes in turn that both deliver as a sine does, than pi/2 times that (closed form): a
// peak below it would let a relief valve carry any pump.
func TestAStrokeIsNoWeakerThanItsMean(t *testing.T) {
	rocket := string(demo(t, "rocket.toml"))
	from, to := strings.Index(rocket, "[supply]"), strings.Index(rocket, "[gauge]")
	pump := func(peak string) (launcher.Band, string) {
		l := read(t, []byte(rocket[:from]+"[supply]\nkind = \"hand pump\"\nfeeds = \"dose\"\nfree_air = \"20 L/min ± 10 %, measured\"\n"+
			"dead_head = \"3 bar\"\n"+peak+"\n"+rocket[to:]))
		return l.Supply.PeakFlow, finding.Join(verdict.DesignNotes(&assessment.Assessment{Launcher: l}), " ").String()
	}
	unstated, _ := pump("")
	require.InEpsilon(t, math.Pi*20e-3/60, unstated.Nominal, 0.01, "pi, in two digits")
	for value, counts := range map[string]bool{"2 L/min, measured": false, "20 L/min ± 0": false, "31 L/min ± 1 %": false,
		"35 L/min ± 5 %": true, "63 L/min": true} {
		peak, notes := pump(`peak_flow = "` + value + `"`)
		assert.Equal(t, !counts, peak.Assumed && peak.High == unstated.High, value)
		assert.Equal(t, !counts, strings.Contains(notes, "supply.peak_flow says "), value)
	}
}

// No wire of a toy bears 200 A: 10 mm2 of copper bear 63 (IEC 60364-5-52, from memory). Taken at its word it would let any fuse pass.
func TestAWireThatBearsTooMuchIsNotStated(t *testing.T) {
	whale := string(demo(t, "whale.toml"))
	for value, counts := range map[string]bool{"200 A, estimated": false, "80 A ± 2 A": false, "63 A": true, "10 A": true} {
		l := read(t, []byte(whale+"\n[control.f1]\nkind = \"fuse\"\nrating = \"5 A\"\nwire_rating = \""+value+"\"\n"))
		notes := finding.Join(verdict.DesignNotes(&assessment.Assessment{Launcher: l}), " ").String()
		assert.Equal(t, counts, l.Control.Parts[0].Wire > 0, value)
		assert.Equal(t, !counts, strings.Contains(notes, "control.f1.wire_rating says "), value)
	}
}
