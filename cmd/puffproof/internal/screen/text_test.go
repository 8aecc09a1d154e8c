package screen

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"puffproof/cmd/puffproof/internal/export"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits"
)

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
		assert.Equal(t, c.want, show.Wrap(c.text, 10, c.first, c.indent), "%q", c.text)
	}
}

// Whatever the text, no line is too wide and no letter is lost.
func TestWrapKeepsEveryLetter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := show.Clean(rapid.String().Draw(t, "text"))
		width := rapid.IntRange(8, 40).Draw(t, "width")
		got := show.Wrap(text, width, "  ", "    ")
		for line := range strings.Lines(got) {
			if w := show.Columns(strings.TrimRight(line, "\n")); w > width {
				t.Fatalf("%d columns in %q", w, line)
			}
		}
		letters := func(s string) string { return strings.Join(strings.Fields(s), "") }
		if letters(got) != letters(text) {
			t.Fatalf("%q became %q", text, got)
		}
	})
}

// decode renders a document as JSON and reads it back as a program would.
func decode(t *testing.T, doc any) map[string]any {
	t.Helper()
	var b strings.Builder
	require.NoError(t, show.WriteJSON(&b, doc))
	var m map[string]any
	require.NoError(t, json.Unmarshal([]byte(b.String()), &m))
	return m
}

func TestCheckJSONKeepsTheContract(t *testing.T) {
	doc, err := export.Check(inventedID(), failingReport())
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
	doc, err := export.Check(show.DesignID{}, limits.Report{})
	require.NoError(t, err)
	m := decode(t, doc)
	for _, key := range []string{"verdicts", "eye", "items", "assumed", "notes"} {
		assert.Equal(t, []any{}, m[key], key)
	}
	assert.Nil(t, m["energy"])
	assert.Nil(t, m["measured"])
}

func TestShotJSONKeepsTheContract(t *testing.T) {
	figures := []string{"muzzle_speed_m_s", "muzzle_energy_J", "final_speed_m_s", "final_energy_J", "energy_per_contact_area_J_m2",
		"exit_time_s"}
	doc, err := export.Shot(inventedShot())
	require.NoError(t, err)
	m := decode(t, doc)
	shot := m["shot"].(map[string]any)
	for _, key := range append(figures, "barrel_peak_gauge_Pa", "barrel_exit_gauge_Pa", "ceiling_energy_J", "mass_residual",
		"energy_residual") {
		assert.IsType(t, 0.0, shot[key], key)
	}
	assert.Equal(t, "left", shot["outcome"])
	assert.Equal(t, 22800.0, shot["gauge_after_Pa"].(map[string]any)["dose"])
	assert.Equal(t, 40000.0, m["start"].(map[string]any)["gauge_Pa"].(map[string]any)["tank"])

	for _, outcome := range []string{"stalled", "time ran out"} {
		v := stalledShot()
		v.Outcome = outcome
		v.MuzzleSpeed = math.NaN() // not read for a shot that did not leave
		doc, err := export.Shot(v)
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
		_, err := export.Check(inventedID(), r)
		assert.Error(t, err)
		r = holdingReport()
		r.Energy.Gap = bad
		_, err = export.Check(inventedID(), r)
		assert.Error(t, err)
		v := inventedShot()
		v.Series.Speed[3] = bad
		_, err = export.Shot(v)
		assert.Error(t, err)
	}
}
