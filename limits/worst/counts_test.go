package worst

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/search"
)

// TestAPassNearALimitIsSearchedAgain: a case whose climbs ended on a hill a little below the highest, and that keeps a limit between the
// two, is found to exceed it; one that keeps its limit by more than a tenth, or exceeds it, is not searched again. Found with
// testdata/starts/template.toml, whose figure at its supply's dead head was 0.44 of 0.50 J by climbs, and is 0.504 J.
func TestAPassNearALimitIsSearchedAgain(t *testing.T) {
	l := sample.Plain(sample.FireCv(0.6))
	q := EnergyQuestion(l, 0.5*sample.Bars)
	find := func() *Case {
		w, err := Maximise(fairly(), l, q, search.Options{})
		require.NoError(t, err)
		return w
	}
	top := find().Value
	for _, k := range []struct {
		found, limit float64
		again        bool
	}{{0.93, 0.95, true}, {0.93, 1.01, true}, {0.8, 0.95, false}, {0.97, 0.95, false}} {
		w := find()
		made := w.Result.Evaluations
		w.Value = k.found * top
		require.NoError(t, w.Surely(context.Background(), k.limit*top))
		assert.Equal(t, k.again, w.Result.Evaluations > made, "%+v", k)
		if k.again {
			assert.InEpsilon(t, top, w.Value, 1e-6, "%+v", k)
		}
	}
}
