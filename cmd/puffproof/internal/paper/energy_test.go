package paper

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/limits/finding"
)

// The figure of the energies shows what is above its limit too: a jam, an object, a fault. What is within it is not said to be over.
func TestTheEnergyFigureShowsWhatExceeds(t *testing.T) {
	in := invented(t, nil)
	in.Report.Verdicts = append(in.Report.Verdicts,
		finding.Verdict{ID: finding.BarrelJammed, Title: "Jam", Status: finding.Conditional, Value: number(0.955), Limit: number(0.5),
			Unit: finding.InJoule, Margin: number(-0.91)},
		finding.Verdict{ID: finding.MisuseOfObjects, Title: "Objects", Status: finding.Fail, Value: number(3.1), Limit: number(0.08),
			Unit: finding.InJoule, Margin: number(-37)},
		finding.Verdict{ID: finding.EnergyFault, Title: "Faults", Status: finding.Pass, Value: number(0.4), Limit: number(0.5),
			Unit: finding.InJoule, Margin: number(0.2)})
	f := figureOf(t, in, "Energies against the limit")
	assert.Contains(t, f.Alt, "never moved (jam), freed 0.96 J, OVER 0.50 J")
	assert.Contains(t, f.Alt, "another object 3.10 J, OVER 0.080 J")
	assert.Contains(t, f.Alt, "worst single fault 0.40 J;")
	assert.Contains(t, f.Caption, "above its limit")
	assert.NotContains(t, figureOf(t, invented(t, nil), "Energies against the limit").Caption, "above its limit")
}

// figureOf is the figure of a file whose caption begins so.
func figureOf(t *testing.T, in Input, caption string) document.Figure {
	t.Helper()
	for _, b := range built(t, in).Blocks {
		if f, ok := b.(document.Figure); ok && len(f.Caption) >= len(caption) && f.Caption[:len(caption)] == caption {
			return f
		}
	}
	require.Failf(t, "missing", "no figure %q", caption)
	return document.Figure{}
}

// The card carries the whole fingerprint of the design file as a code beside its text, also where it must not be used.
func TestTheCardHasTheFingerprintAsACode(t *testing.T) {
	for name, in := range map[string]Input{"holds": invented(t, nil), "fails": failing(invented(t, nil))} {
		d, err := Card(in)
		require.NoError(t, err, name)
		codes := 0
		for _, b := range d.Blocks {
			if f, ok := b.(document.Figure); ok {
				codes++
				assert.True(t, f.Aside, name)
				assert.Contains(t, f.Alt, "sha256:"+in.Design.SHA256, name)
			}
		}
		assert.Equal(t, 1, codes, name)
		body, _, err := document.Pages(d)
		require.NoError(t, err)
		assert.Equal(t, 1, body, "%s: it stays one page", name)
	}
}
