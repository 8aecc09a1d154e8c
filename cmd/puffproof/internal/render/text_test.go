package render

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"puffproof/limits"
)

func TestCleanShowsWhatItRemoves(t *testing.T) {
	for in, want := range map[string]string{
		"plain ± 3 %":              "plain ± 3 %",
		"\x1b[31mred":              "<U+001B>[31mred",
		"a\u202eb":                 "a<U+202E>b",
		"a\u009bb":                 "a<U+009B>b",
		"a\nb\tc":                  "a b c",
		"bad\xffbyte":              "bad<0xFF>byte",
		"real \ufffd mark":         "real \ufffd mark",
		"👩\u200d🚀":                 "👩🚀",
		"e\u0301":                  "e\u0301",
		"\u05e9\u05dc\u05d5\u05dd": "\u05e9\u05dc\u05d5\u05dd",
		"":                         "",
	} {
		assert.Equal(t, want, Clean(in), "%q", in)
	}
}

func TestWrap(t *testing.T) {
	for _, c := range []struct{ text, first, indent, want string }{
		{"one two three", "", "", "one two\nthree"},
		{"one two three", "- ", "  ", "- one two\n  three"},
		{"abcdefghijklmnop", "", "", "abcdefghij\nklmnop"},
		{"x abcdefghijklmnop", "", " ", "x\n abcdefghi\n jklmnop"},
		{"", "- ", "", "-"},
		{"漢字漢字漢字", "", "", "漢字漢字漢\n字"}, // each takes two columns
		{"\x1b[31mred\x1b[0m two three", "", "", "\x1b[31mred\x1b[0m two\nthree"},
	} {
		assert.Equal(t, c.want, Wrap(c.text, 10, c.first, c.indent), "%q", c.text)
	}
}

// Whatever the text, no line is too wide and no letter is lost.
func TestWrapKeepsEveryLetter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := Clean(rapid.String().Draw(t, "text"))
		width := rapid.IntRange(8, 40).Draw(t, "width")
		got := Wrap(text, width, "  ", "    ")
		for line := range strings.Lines(got) {
			if w := Columns(strings.TrimRight(line, "\n")); w > width {
				t.Fatalf("%d columns in %q", w, line)
			}
		}
		letters := func(s string) string { return strings.Join(strings.Fields(s), "") }
		if letters(got) != letters(text) {
			t.Fatalf("%q became %q", text, got)
		}
	})
}

func TestNumberKeepsTheDigitsAsked(t *testing.T) {
	for _, c := range []struct {
		v      float64
		digits int
		want   string
	}{{0.4567, 2, "0.46"}, {9.996, 3, "10"}, {1234.5, 3, "1230"}, {0, 3, "0"}, {-0.5, 3, "-0.5"}, {1e-5, 2, "0.00001"}, {1.25, 3, "1.25"}} {
		assert.Equal(t, c.want, number(c.v, c.digits))
	}
}

// A margin is never shown larger than it is, and a negative one never as 0.
func TestPercentRoundsDown(t *testing.T) {
	for share, want := range map[float64]string{0.255: "25 %", 0.29: "29 %", -0.0008: "-1 %", 0: "0 %", -1.1: "-110 %", 0.999: "99 %"} {
		assert.Equal(t, want, percent(share))
	}
}

// decode renders a document as JSON and reads it back as a program would.
func decode(t *testing.T, doc any) map[string]any {
	t.Helper()
	var b strings.Builder
	require.NoError(t, WriteJSON(&b, doc))
	var m map[string]any
	require.NoError(t, json.Unmarshal([]byte(b.String()), &m))
	return m
}

func TestCheckJSONKeepsTheContract(t *testing.T) {
	doc, err := CheckJSON(inventedID(), failingReport())
	require.NoError(t, err)
	m := decode(t, doc)
	assert.Equal(t, false, m["holds"])
	assert.Equal(t, false, m["confirmed"])
	assert.Equal(t, 2.0, m["open_items"])
	assert.Equal(t, "Whale float blowhole", m["design"].(map[string]any)["name"])
	assert.Equal(t, inventedID().SHA256, m["design"].(map[string]any)["sha256"])
	statuses := map[string]int{}
	for _, e := range m["verdicts"].([]any) {
		v := e.(map[string]any)
		for _, key := range []string{"id", "title", "status", "value", "limit", "unit", "margin", "basis", "source", "advice"} {
			assert.Contains(t, v, key)
		}
		st := v["status"].(string)
		statuses[st]++
		if st == "unknown" || st == "not applicable" {
			for _, key := range []string{"value", "limit", "margin"} {
				assert.Nil(t, v[key], "%s of %s", key, v["id"])
			}
		}
	}
	assert.Equal(t, map[string]int{"fail": 2, "unknown": 1, "pass": 1, "not applicable": 1}, statuses)
}

func TestEmptyReportHasListsAndNoNulls(t *testing.T) {
	doc, err := CheckJSON(DesignID{}, limits.Report{})
	require.NoError(t, err)
	m := decode(t, doc)
	for _, key := range []string{"verdicts", "eye", "items", "assumed", "notes"} {
		assert.Equal(t, []any{}, m[key], key)
	}
	assert.Nil(t, m["energy"])
}

func TestShotJSONKeepsTheContract(t *testing.T) {
	figures := []string{"muzzle_speed_m_s", "muzzle_energy_J", "final_speed_m_s", "final_energy_J", "energy_per_contact_area_J_m2", "exit_time_s"}
	doc, err := ShotJSON(inventedShot())
	require.NoError(t, err)
	m := decode(t, doc)
	shot := m["shot"].(map[string]any)
	for _, key := range append(figures, "barrel_peak_gauge_Pa", "barrel_exit_gauge_Pa", "ceiling_energy_J", "mass_residual", "energy_residual") {
		assert.IsType(t, 0.0, shot[key], key)
	}
	assert.Equal(t, "left", shot["outcome"])
	assert.Equal(t, 22800.0, shot["gauge_after_Pa"].(map[string]any)["dose"])
	assert.Equal(t, 40000.0, m["start"].(map[string]any)["gauge_Pa"].(map[string]any)["tank"])

	for _, outcome := range []string{"stalled", "time ran out"} {
		v := stalledShot()
		v.Outcome = outcome
		v.MuzzleSpeed = math.NaN() // not read for a shot that did not leave
		doc, err := ShotJSON(v)
		require.NoError(t, err)
		shot := decode(t, doc)["shot"].(map[string]any)
		for _, key := range figures {
			assert.Nil(t, shot[key], key)
		}
	}
}

// A figure that is no number never reaches a reader, wherever it stands.
func TestNoNumberIsAnError(t *testing.T) {
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		r := holdingReport()
		r.Verdicts[0].Value = f(bad)
		_, err := CheckJSON(inventedID(), r)
		assert.Error(t, err)
		r = holdingReport()
		r.Energy.Gap = bad
		_, err = CheckJSON(inventedID(), r)
		assert.Error(t, err)
		v := inventedShot()
		v.Series.Speed[3] = bad
		_, err = ShotJSON(v)
		assert.Error(t, err)
	}
}

func TestJSONCannotSteerATerminal(t *testing.T) {
	in := "\x1b[2J\u009b\u202e\u200b\U000E0041é漢👩"
	var b strings.Builder
	require.NoError(t, WriteJSON(&b, map[string]string{"k": in}))
	for _, r := range b.String() {
		assert.False(t, r == 0x1b || r == 0x9b || r == 0x202e || r == 0xE0041, "%U", r)
	}
	assert.Contains(t, b.String(), "é漢👩")
	var back map[string]string
	require.NoError(t, json.Unmarshal([]byte(b.String()), &back))
	assert.Equal(t, in, back["k"])
}
