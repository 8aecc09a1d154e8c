package design

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/rests"
	"puffproof/limits/finding"
)

// answerOf is the answer that a design gives to an item, as its reader finds it.
func answerOf(t *testing.T, e *Editable, item string) finding.Confirmation {
	t.Helper()
	var found []finding.Confirmation
	for _, c := range e.Launcher().Checklist {
		if c.Item == item {
			found = append(found, c)
		}
	}
	require.Len(t, found, 1, item)
	return found[0]
}

// An answer is written in each form in which a checklist can stand (TOML 1.0.0), over the one that is there, and the reader
// finds it; no other byte changes. What must come out was written by hand.
func TestAnAnswerIsWrittenWhereItStands(t *testing.T) {
	head, err := os.ReadFile("../../testdata/least.toml")
	require.NoError(t, err)
	flat, err := rests.Flatten(string(head))
	require.NoError(t, err)
	build := rests.BuildOf(flat, "vent.test")
	entry := "who = \"A.\"\ndate = \"2026-05-02\"\nvalue = \"2 s\"\nbuild = \"" + build + "\"\n"
	const other = "[checklist.\"leak-down\"] # first\nwho = \"B.\"\ndate = \"2026-05-01\"\n"
	for name, c := range map[string]struct{ before, after string }{
		"none":          {"", "\n[checklist.\"vent.test\"]\n" + entry},
		"beside others": {other, other + "\n[checklist.\"vent.test\"]\n" + entry},
		"in quotes": {"[checklist.\"vent.test\"]\ndate = \"2025-05-01\" # old\nvalue = \"3 s\"\nwho = \"B.\"\n",
			"[checklist.\"vent.test\"]\ndate = \"2026-05-02\" # old\nvalue = \"2 s\"\nwho = \"A.\"\nbuild = \"" + build + "\"\n"},
		"as tables": {"[checklist.vent.test]\nwho = \"B.\"\ndate = \"2025-05-01\"\nvalid_until = \"2025-06-01\"\n# end\n",
			"[checklist.vent.test]\n" + entry + "# end\n"},
		"in braces": {"[checklist]\n\"vent.test\" = { who = \"B.\", date = \"2025-05-01\", value = \"3 s\" }\n",
			"[checklist]\n\"vent.test\" = { who = \"A.\", date = \"2026-05-02\", value = \"2 s\", build = \"" + build + "\" }\n"},
	} {
		for _, end := range []string{"\n", "\r\n"} {
			text := func(s string) string { return strings.ReplaceAll(string(head)+s, "\n", end) }
			d, problems := Reader{}.Open("least.toml", []byte(text(c.before)))
			require.Empty(t, problems, name)
			got, err := d.Answered(Given{Item: "vent.test", Who: "A.", Date: "2026-05-02", Value: "2 s"})
			require.NoError(t, err, name)
			assert.Equal(t, text(c.after), string(got.Bytes()), name)
			answer := answerOf(t, got, "vent.test")
			assert.Equal(t, "A. 2026-05-02 2 s ", answer.Who+" "+answer.Date+" "+answer.Value+" "+answer.ValidUntil, name)
			assert.Equal(t, []finding.Figure{{Value: 2, Unit: finding.InSecond}}, answer.Figures, name)
		}
	}
}

// What people write is a line of text: it comes back as it was written, and nothing in it is taken for TOML.
func TestAnAnswerIsPlainText(t *testing.T) {
	head, err := os.ReadFile("../../testdata/least.toml")
	require.NoError(t, err)
	d, problems := Reader{}.Open("least.toml", head)
	require.Empty(t, problems)
	for _, value := range []string{`9" # [x] \n`, `"""`, `'`, "Größe ± 1"} {
		got, err := d.Answered(Given{Item: "drill.jam", Who: "A.", Date: "2026-05-02", Value: value})
		require.NoError(t, err, value)
		assert.Equal(t, value, answerOf(t, got, "drill.jam").Value)
	}
	for _, value := range []string{"two\nlines", "a\x00b", "a\xffb", "a\x7fb"} {
		_, err := d.Answered(Given{Item: "drill.jam", Who: "A.", Date: "2026-05-02", Value: value})
		assert.ErrorContains(t, err, "more than a line of plain text", "%q", value)
	}
	_, err = d.Answered(Given{Item: "drill.jam", Who: "A.", Date: "the second of May", Value: "seen"})
	assert.ErrorContains(t, err, "no longer be read")
}

// An answer counts for the build of which it was given: where a key that it rests on says something else, it is open; where
// only words about the launcher, or readings of it, were added, it is not. That a changed orifice bears on the emptying, and
// nothing on paint, is plain.
func TestAnAnswerIsOfItsBuild(t *testing.T) {
	head, err := os.ReadFile("../../testdata/least.toml")
	require.NoError(t, err)
	d, problems := Reader{}.Open("least.toml", head)
	require.Empty(t, problems)
	given, err := d.Answered(Given{Item: "vent.test", Who: "A.", Date: "2026-05-02", Value: "2 s"})
	require.NoError(t, err)
	for name, c := range map[string]struct {
		old, now string
		changed  bool
	}{
		"nothing":        {"", "", false},
		"a comment":      {"[ambient]", "# painted blue\n[ambient]", false},
		"the name":       {`name = "Least launcher"`, `name = "Blue launcher"`, false},
		"the vent":       {`orifice = "0.4 mm ± 0"`, `orifice = "0.5 mm ± 0"`, true},
		"the projectile": {`mass = "8.0 g ± 0"`, `mass = "8.5 g ± 0"`, false},
		"the supply":     {`dead_head = "0.20 bar ± 0"`, `dead_head = "0.21 bar ± 0"`, true},
	} {
		text := strings.Replace(string(given.Bytes()), c.old, c.now, 1)
		again, problems := Reader{}.Open("least.toml", []byte(text))
		require.Empty(t, problems, name)
		assert.Equal(t, c.changed, answerOf(t, again, "vent.test").Changed, name)
		item := finding.Item{ID: "vent.test"}
		answer := answerOf(t, again, "vent.test")
		assert.Equal(t, c.changed, len(finding.Refuses(&item, &answer, "2026-06-01")) != 0, name)
	}
	hand := strings.Replace(string(given.Bytes()), "build = ", "# build = ", 1)
	again, problems := Reader{}.Open("least.toml", []byte(strings.Replace(hand, `"0.4 mm`, `"0.5 mm`, 1)))
	require.Empty(t, problems)
	assert.False(t, answerOf(t, again, "vent.test").Changed, "an answer written by hand says no build")
}
