package design

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits"
	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/remedy"
	"puffproof/limits/vent"
)

// What to do first holds together: each step is taken on the design with those before it, so that none is told which those make needless,
// none spoils what they mended, and with all of them typed in what they are for holds.
func TestWhatToDoFirstHoldsTogether(t *testing.T) {
	ctx := lightly(t.Context(), 0.005)
	const day = "2026-11-28"
	begun := func(name string, spoilt ...[2]string) *Editable {
		data, err := os.ReadFile(filepath.Join(testdata, name+".toml"))
		require.NoError(t, err)
		d, problems := Reader{}.Open(name, data)
		require.Empty(t, problems)
		for _, s := range spoilt {
			d = spoil(t, d, s[0], s[1])
		}
		return d
	}
	judged := func(d *Editable) limits.Report {
		r, err := limits.Check(ctx, d.Launcher(), assessment.Options{Day: day, Sheets: vent.SlowEndOnly})
		require.NoError(t, err)
		return r
	}
	for _, c := range []struct {
		name  string
		of    *Editable
		first []string // the verdicts of the first steps
		says  string   // in the last of these
	}{
		{"wood, and somebody at the muzzle", begun("designs/rocket", [2]string{"volumes.dose.material", `"wood"`},
			[2]string{"event.nearest_person", `"0 m"`}), []string{finding.VesselMaterial, finding.SoundAtPeak}, `event.nearest_person = "2 m"`},
		{"a relief valve too small", begun("starts/strong-pump"), []string{finding.ReliefCapacity}, "paths.relief.orifice"},
	} {
		r := judged(c.of)
		steps, err := remedy.InTurn(ctx, c.of, nil, day, &r)
		require.NoError(t, err)
		var of []string
		d := c.of
		for _, s := range steps {
			of = append(of, s.Verdicts[0])
			next, problems := Reader{}.Open(c.name, []byte(typed(t, d, s.Do.String())))
			require.Empty(t, problems, "%s", s.Do)
			d = next
		}
		require.GreaterOrEqual(t, len(of), len(c.first))
		assert.Equal(t, c.first, of[:len(c.first)], c.name)
		assert.Contains(t, steps[len(c.first)-1].Do.String(), c.says)
		after := judged(d)
		for _, id := range of {
			v, _ := after.Verdict(id)
			assert.NotEqual(t, finding.Fail, v.Status, "%s: %s", c.name, id)
		}
	}

	// A press test that shows the tip soft lets the shot be as hard as it is: nobody has to stand further away.
	hard := begun("starts/hard-tip")
	r := judged(hard)
	require.True(t, slices.ContainsFunc(r.DoFirst(), func(c limits.Cause) bool { return c.Verdicts[0] == finding.PeopleLanding }))
	steps, err := remedy.InTurn(ctx, hard, nil, day, &r)
	require.NoError(t, err)
	require.NotEmpty(t, steps)
	assert.Equal(t, limits.TipUnknown, steps[0].Lies)
	for _, s := range steps {
		assert.NotEqual(t, finding.PeopleLanding, s.Verdicts[0])
		assert.False(t, strings.Contains(s.Step.String(), "weaker shot"), "%s", s.Step)
	}
	holds := begun("designs/rocket")
	r = judged(holds)
	steps, err = remedy.InTurn(ctx, holds, nil, day, &r)
	require.NoError(t, err)
	assert.Nil(t, steps, "it holds")
}
