package design

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A file describes one barrel and one projectile: every way of writing a second one is
// refused with the way to judge it, never with the name of the first.
func TestSecondBarrelIsRefused(t *testing.T) {
	whale := string(demo(t, "whale.toml"))
	second := "\nfit = \"in bore\"\nbore = \"41 mm\"\n"
	for _, header := range []string{"[barrel2]", "[barrel_left]", "[barrel-b]", "[barrels.left]", "[[barrels]]", "[[barrel]]", "[barrel]",
		"[tube]", "[muzzle]", "[barrel.left]", "[Barrel2]", "[barrel.2]"} {
		t.Run(header, func(t *testing.T) {
			_, problems := Read("test.toml", []byte(whale+header+second))
			told := list(problems)
			require.Contains(t, told, "a file describes one barrel", told)
			require.Contains(t, told, "a file of its own, in which the valves of the others stay shut", told)
			require.NotContains(t, told, "did you mean", told)
		})
	}
	several := strings.Replace(whale, "[barrel]", "[[barrel]]", 1) + "[[barrel]]" + second
	_, problems := Read("test.toml", []byte(several))
	require.Contains(t, list(problems), "a file describes one barrel")
	for _, header := range []string{"[projectile2]", "[[projectile]]", "[ball]"} {
		_, problems := Read("test.toml", []byte(whale+header+"\nmass = \"5 g\"\n"))
		require.Contains(t, list(problems), "a file describes one kind of projectile", header)
	}
}

// A second supply and a second pressure switch are refused with the way to describe both safely.
func TestSecondSupplyOrSwitchIsRefused(t *testing.T) {
	whale := string(demo(t, "whale.toml"))
	for header, want := range map[string][2]string{
		"[supply2]\nkind = \"hand pump\"":            {"a file describes one supply", "the sum of both free_air and the higher dead_head"},
		"[[supply]]\nkind = \"hand pump\"":           {"a file describes one supply", "the stricter side"},
		"[compressor]\nfree_air = \"5 L/min\"":       {"a file describes one supply", "the stricter side"},
		"[supply.second]\nfree_air = \"5 L/min\"":    {"a file describes one supply", "the stricter side"},
		"[pressure_switch_2]\ncut_out = \"0.6 bar\"": {"a file describes one pressure switch", "what must hold at a fault is a relief valve"},
		"[[pressure_switch]]\ncut_out = \"1 bar\"":   {"a file describes one pressure switch", "the stricter side"},
		"[pressure_switch]\ncut_out = \"1 bar\"":     {"a file describes one pressure switch", "the stricter side"},
	} {
		_, problems := Read("test.toml", []byte(whale+"\n"+header+"\n"))
		require.Contains(t, list(problems), want[0], header)
		require.Contains(t, list(problems), want[1], header)
	}
}

// Two gauges, one on the tank and one on the dose, are read; written otherwise they are refused with the way to write them.
func TestSeveralGauges(t *testing.T) {
	whale := string(demo(t, "whale.toml"))
	second := "\non = \"dose\"\nrange = \"1 bar\"\n"
	l, problems := Read("test.toml", []byte(strings.Replace(whale, "[gauge]", "[[gauge]]", 1)+"[[gauge]]"+second))
	require.Empty(t, problems)
	require.Equal(t, []string{"tank", "dose"}, []string{l.Gauges[0].On, l.Gauges[1].On})
	for _, header := range []string{"[gauge]", "[[gauge]]", "[gauge2]", "[gauge_dose]", "[gauges.dose]", "[gauge.dose]", "[dial]"} {
		_, problems := Read("test.toml", []byte(whale+header+second))
		require.Contains(t, list(problems), "[[gauge]] in double brackets above each of them", header)
		require.NotContains(t, list(problems), "did you mean", header)
	}
}

// One barrel under a wrong name, or as a list of one, is still the one barrel.
func TestOneBarrelUnderAnotherName(t *testing.T) {
	whale := string(demo(t, "whale.toml"))
	for _, name := range []string{"[barrels]", "[tube]"} {
		_, problems := Read("test.toml", []byte(strings.Replace(whale, "[barrel]", name, 1)))
		require.Contains(t, list(problems), "did you mean [barrel]?", name)
	}
	_, problems := Read("test.toml", []byte(strings.Replace(whale, "[barrel]", "[[barrel]]", 1)))
	require.Contains(t, list(problems), "is a list of tables")
	require.NotContains(t, list(problems), "one barrel")
}

// A kind that is refused is refused with the nearest one.
func TestRefusedKindNamesTheNearest(t *testing.T) {
	whale := string(demo(t, "whale.toml"))
	for found, kind := range map[string]string{"solenoid": `"valve"`, "Solenoid valve": `"valve"`, "ball valve": `"hand valve"`,
		"lever tap": `"hand valve"`, "safety valve": `"relief"`, "pop-off": `"relief"`, "non-return valve": `"check"`, "check valve": `"check"`,
		"needle valve": `"orifice"`, "flow control valve": `"orifice"`, "pressure reducing valve": `"regulator"`, "PRV": `"regulator"`,
		"valv": `"valve"`, "pipe": `"hose"`, "relief valve": `"relief"`, "gizmo": `"orifice" for what is always open`} {
		_, problems := Read("test.toml", []byte(strings.Replace(whale, `kind = "valve"`, `kind = "`+found+`"`, 1)))
		require.Contains(t, list(problems), "paths.feed.kind: unknown word", found)
		require.Contains(t, list(problems), kind, found)
	}
	for found, kind := range map[string]string{"tyre inflator": "compressor", "leaf blower": "compressor", "foot pump": "hand pump",
		"scuba bottle": "regulated cylinder", "workshop line": "shop air", "gizmo": "hand pump"} {
		_, problems := Read("test.toml", []byte(strings.Replace(whale, `kind = "compressor"`, `kind = "`+found+`"`, 1)))
		require.Contains(t, list(problems), `"`+kind+`"`, found)
	}
}

// What could be accepted is never an empty name.
func TestNothingEmptyIsAccepted(t *testing.T) {
	_, problems := Read("test.toml", []byte("name = \"x\"\n[supply]\nkind = \"x\"\nfeeds = \"tank\"\n"))
	require.Contains(t, list(problems), "names an unknown volume")
	for _, p := range problems {
		require.NotEqual(t, `""`, p.Want, p.Key)
	}
}
