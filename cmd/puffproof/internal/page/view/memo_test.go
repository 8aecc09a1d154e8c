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

// What is kept of the drafts before changes nothing: each part reads as one that is written anew, whatever was changed, spoiled and
// taken back in between.
func TestKeptPartsReadAsNewOnes(t *testing.T) {
	file, err := os.ReadFile("../../../testdata/least.toml")
	require.NoError(t, err)
	text := string(file)
	heavier := strings.Replace(text, "mass = \"", "mass = \"1", 1)
	require.NotEqual(t, text, heavier)
	forms, reader := design.NewForms(quantity.Metric), design.Reader{Units: quantity.Metric}
	var memo Memo
	for i, draft := range []string{text, heavier, heavier + "\n[nonsense]\n", text, strings.Replace(text, "mass = \"", "mass = \"? ", 1),
		heavier, text} {
		st := &State{Generation: i, Text: draft, Altered: draft != text, Day: "2026-05-31"}
		st.Tables, err = forms.Tables([]byte(draft))
		require.NoError(t, err)
		opened, problems := reader.Open("launcher.toml", []byte(draft))
		if st.Problems = problems; opened != nil {
			st.Launcher = opened.Launcher()
		}
		st.Changed, err = design.DifferencesOf(file, []byte(draft))
		require.NoError(t, err)
		order, kept := Parts(st, &memo)
		again, anew := Parts(st, nil)
		assert.Equal(t, again, order)
		for _, id := range again {
			assert.Equal(t, anew[id], kept[id], "draft %d, part %s", i, id)
		}
	}
}
