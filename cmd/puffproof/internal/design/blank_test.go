package design

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/edit"
	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/manual"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits"
	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/testdata/designs"
)

// claimsNothing holds a file to start from to its promise: each figure is the template's, each claim "?", in either
// system of units.
func claimsNothing(t *testing.T, data []byte) *launcher.Launcher {
	t.Helper()
	l := read(t, data)
	f, err := edit.Open(data)
	require.NoError(t, err)
	figures, claims := 0, 0
	for _, s := range f.All() {
		k := manual.LookUp(s.Key)
		require.NotNil(t, k, s.Key)
		switch {
		case k.Claim():
			claims++
			assert.Equal(t, "?", s.Value, s.Key)
			assert.Contains(t, l.ToFind, s.Key)
		case k.Kind == keys.Number:
			figures++
			assert.True(t, strings.HasSuffix(s.Value, ", template"), "%s = %s", s.Key, s.Value)
			assert.Contains(t, l.Template, s.Key)
		case k.Kind == keys.Answer:
			assert.Equal(t, "true", s.Value, "%s: the strict side of what must be known", s.Key)
		default:
			assert.NotContains(t, []keys.Kind{keys.Controls, keys.Curve, keys.Readings}, k.Kind, s.Key)
		}
	}
	assert.Len(t, l.Template, figures)
	assert.Len(t, l.ToFind, claims)
	assert.Greater(t, figures, 20)
	assert.Greater(t, claims, 10)
	assert.False(t, l.Projectile.Resilient)
	assert.Empty(t, l.Barrel.ObjectControl)
	return l
}

func TestTheTemplateClaimsNothing(t *testing.T) {
	claimsNothing(t, manual.Template(quantity.Metric))
	claimsNothing(t, manual.Template(quantity.US))
}

// An example made blank keeps each of its comments, in order, and its build: what is left says the same as before.
func TestBlankKeepsComments(t *testing.T) {
	for _, name := range []string{"whale", "rocket", "soapbox"} {
		data, err := os.ReadFile(filepath.Join("../../../../testdata/designs", name+".toml"))
		require.NoError(t, err)
		for _, units := range []quantity.System{quantity.Metric, quantity.US} {
			blank, err := manual.Blank(data, units)
			require.NoError(t, err, name)
			l := claimsNothing(t, blank)
			before := read(t, data)
			assert.Equal(t, len(before.Paths), len(l.Paths), name)
			for i := range l.Paths {
				assert.Equal(t, before.Paths[i].OpenIn, l.Paths[i].OpenIn, name)
				assert.Equal(t, before.Paths[i].From+before.Paths[i].To, l.Paths[i].From+l.Paths[i].To, name)
			}
			assert.Equal(t, comments(data), comments(blank), name)
			again, err := manual.Blank(blank, units)
			require.NoError(t, err)
			assert.Equal(t, string(blank), string(again), "what is blank stays as it is")
		}
	}
}

// A file from an example says so, names nobody's launcher, and keeps the remarks.
func TestFromAnExample(t *testing.T) {
	require.Equal(t, []string{"rocket", "soapbox", "whale"}, designs.Names())
	for _, name := range designs.Names() {
		example, known := designs.Example(name)
		require.True(t, known)
		data, err := manual.From(name, example, quantity.Metric)
		require.NoError(t, err)
		l := claimsNothing(t, data)
		assert.Equal(t, "My launcher", l.Name)
		assert.Contains(t, l.Description, name)
		assert.Subset(t, comments(data), comments(example))
		for _, line := range strings.Split(string(data), "\n")[:7] {
			assert.LessOrEqual(t, len(line), 80, line)
		}
	}
	_, known := designs.Example("wale")
	assert.False(t, known)
	assert.Equal(t, `no example "wale"; there are rocket, soapbox, whale; did you mean whale?`, manual.NoExample("wale", designs.Names()))
	assert.NotContains(t, manual.NoExample("tricycle", designs.Names()), "did you mean")
}

// comments are those of a file in order.
func comments(data []byte) (out []string) {
	for line := range strings.Lines(string(data)) {
		if _, text, has := strings.Cut(line, "#"); has {
			out = append(out, text)
		}
	}
	return out
}

// The file that init writes is judged as a whole, and never holds: its figures are of nobody's launcher.
func TestTheTemplateIsJudgedAndNeverHolds(t *testing.T) {
	l := read(t, manual.Template(quantity.Metric))
	r, err := limits.Check(lightly(t.Context(), 0.00005), l, assessment.Options{Day: "2026-05-31"})
	require.NoError(t, err)
	require.False(t, r.Holds)
	require.NotEmpty(t, r.ToFind)
	v, found := r.Verdict(finding.DesignTemplate)
	require.True(t, found)
	require.Equal(t, finding.Unknown, v.Status)
	require.Contains(t, v.Why.String(), "template")
	require.Len(t, r.Template, 41)
}

// The start that is brought to hold is what init writes, with its blanks filled in: each figure of the one is in the other.
func TestTheFilledTemplateIsTheTemplate(t *testing.T) {
	data, err := os.ReadFile("../../../../testdata/starts/template.toml")
	require.NoError(t, err)
	filled, err := edit.Open(data)
	require.NoError(t, err)
	written, err := edit.Open(manual.Template(quantity.Metric))
	require.NoError(t, err)
	var keys, want []string
	for _, s := range filled.All() {
		keys = append(keys, s.Key)
	}
	for _, s := range written.All() {
		want = append(want, s.Key)
		if s.Value == "?" {
			continue
		}
		value, _ := filled.Value(s.Key)
		assert.Equal(t, strings.ReplaceAll(s.Value, ", template", ""), strings.Trim(value, `"`), s.Key)
	}
	assert.Equal(t, want, keys)
}
