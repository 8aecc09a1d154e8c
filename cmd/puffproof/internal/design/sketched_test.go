package design

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/manual"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// Nothing of a design begun from nothing is a fact: of every line that is no layout (which parts there are, and between what) and no wish
// (how soon it is to be empty) the value is declared, so that no verdict that rests on it is a pass.
func TestASketchStatesNothing(t *testing.T) {
	text := string(manual.Sketch(0.041))
	l, problems := Read("sketch.toml", []byte(text))
	require.Empty(t, problems)
	line, table := regexp.MustCompile(`^(\w+) = `), ""
	facts := 0
	for _, row := range strings.Split(text, "\n") {
		if strings.HasPrefix(row, "[") {
			table = row[1:strings.IndexByte(row, ']')] + "."
		}
		m := line.FindStringSubmatch(row)
		wiring := regexp.MustCompile(`^(from|to|kind|open_in|senses|feeds|on|fit)$`)
		if m == nil || table == "" || table == "venting." || wiring.MatchString(m[1]) {
			continue
		}
		facts++
		assert.Contains(t, l.Declared, table+m[1])
	}
	assert.Len(t, l.Declared, facts)
	fire := l.Paths[l.PathIndex("fire")]
	assert.Equal(t, pneumatics.Closed, fire.Unpowered, "a promised word counts as the word")
	assert.Equal(t, launcher.No, l.Switch.Adjustable)
}

// A word or a control that is promised is read as the word, and kept in mind as declared; another word stays an error.
func TestPromisedWords(t *testing.T) {
	text := string(manual.Sketch(0.041))
	with := func(old, new string) (*launcher.Launcher, []Problem) {
		require.Contains(t, text, old)
		return Read("sketch.toml", []byte(strings.Replace(text, old, new, 1)))
	}
	plain, problems := with(`unpowered = "declared closed"`, `unpowered = "closed"`)
	require.Empty(t, problems)
	assert.NotContains(t, plain.Declared, "paths.feed.unpowered")
	held, problems := with("[barrel]\n", "[barrel]\nobject_control = [\"declared: supervised loading by the adult in charge\"]\n")
	require.Empty(t, problems)
	assert.Contains(t, held.Declared, "barrel.object_control")
	assert.Equal(t, []string{"supervised loading by the adult in charge"}, held.Barrel.ObjectControl)
	_, problems = with(`unpowered = "declared closed"`, `unpowered = "declared shut"`)
	require.Len(t, problems, 1)
	assert.Contains(t, problems[0].Want, "declared")
	_, problems = with(`kind = "valve"`, `kind = "declared valve"`)
	assert.NotEmpty(t, problems, "which parts there are is no promise")
}
