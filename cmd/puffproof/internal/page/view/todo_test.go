package view

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/quantity"
)

// stateOf is the page of a design before anything is computed.
func stateOf(t *testing.T, text string) *State {
	t.Helper()
	tables, err := design.NewForms(quantity.Metric).Tables([]byte(text))
	require.NoError(t, err)
	opened, problems := design.Reader{Units: quantity.Metric}.Open("launcher.toml", []byte(text))
	require.Empty(t, problems)
	return &State{Text: text, Tables: tables, Launcher: opened.Launcher()}
}

// A design that was begun from a template is not filled in: the page counts what is left, leads to the first of it, and shows no figure
// for a value that nobody knows.
func TestWhatIsStillToBeFilledIn(t *testing.T) {
	file, err := os.ReadFile("../../../../../testdata/designs/whale.toml")
	require.NoError(t, err)
	whole := stateOf(t, string(file))
	_, html := Parts(whole, nil)
	assert.Contains(t, html["tables"], `class="todo" hidden`)
	road := Road{}
	road.stretches(whole)
	assert.True(t, road.Stage[0].Done)

	text := strings.Replace(string(file), "4.0 g ± 0.4 g, measured", "4.0 g ± 0.4 g, template", 1)
	text = strings.Replace(text, `rated_pressure = "10 bar, label"`, `rated_pressure = "?"`, 1)
	begun := stateOf(t, text)
	_, html = Parts(begun, nil)
	assert.Contains(t, html["tables"], "To fill in: 1 figure is the template&#39;s, 1 value is to be found out.")
	assert.Contains(t, html["tables"], `href="#f-`+partID("volumes.tank.rated_pressure")+`"`, "the first in the order of the tables")
	assert.Equal(t, 2, strings.Count(html["tables"], "1 to fill in"), "at their tables")
	tank := html[partID("volumes.tank")]
	assert.Contains(t, tank, "not known yet: its verdicts are unknown")
	assert.NotContains(t, tank, "0 Pa", "a value that nobody knows is not nothing")
	assert.Contains(t, html[partID("projectile")], "the template&#39;s: write your own")
	road = Road{}
	road.stretches(begun)
	assert.False(t, road.Stage[0].Done)
	assert.True(t, road.Stage[0].Now)
}
