package worst

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
)

// The expected edge is the sum of straight lines in its logarithm: exact at the middle and at the middle of each face.
func TestTheExpectedEdge(t *testing.T) {
	g := &edgeGuess{middle: math.Log(0.2), ends: [][2]float64{{math.Log(0.5), math.Log(2)}, {0, math.Log(3)}}}
	assert.InEpsilon(t, 0.2, g.of([]float64{0.5, 0.5}), 1e-12)
	assert.InEpsilon(t, 0.1, g.of([]float64{0, 0.5}), 1e-12)
	assert.InEpsilon(t, 1.2, g.of([]float64{1, 1}), 1e-12)
	assert.InEpsilon(t, 0.2*math.Sqrt2, g.of([]float64{0.75, 0.25}), 1e-12)
	assert.Zero(t, (*edgeGuess)(nil).of([]float64{0.5}))
}

// Where the edge is expected changes what it costs to find it, not where it is: with an expectation that is right,
// none at all, and one that is far off, the same edge comes out, to the width to which it is looked for, in fewer shots
// where it is right.
func TestTheEdgeIsWhereItIsExpectedOrNot(t *testing.T) {
	l := sample.Plain(sample.Friction(60, 1))
	const high = 0.95 * sample.Bars
	b := NewBox(l, EnergyQuestion(l, high))
	worker := func() *stuck {
		return &stuck{e: b.Evaluator(), full: make([]float64, b.Dim), start: b.Start, edge: searchEdge}
	}
	right, err := guessEdge(context.Background(), b.Dim-1, worker)
	require.NoError(t, err)
	require.NotNil(t, right)
	off := &edgeGuess{middle: right.middle + math.Log(1.25), ends: right.ends}
	wrong := &edgeGuess{middle: right.middle + math.Log(4), ends: right.ends}
	u := make([]float64, b.Dim-1)
	for i := range u {
		u[i] = 0.3 + 0.4*float64(i%2)
	}
	plain := worker()
	freed := plain.Value(u)
	require.Positive(t, freed)
	for name, g := range map[string]*edgeGuess{"right": right, "off": off, "wrong": wrong} {
		s := worker()
		s.guess = g
		assert.InEpsilon(t, freed, s.Value(u), 0.012, "%s: the edge to 0.4 %%, the energy with its power of up to three", name)
		assert.InEpsilon(t, plain.full[b.Start], s.full[b.Start], 2*searchEdge, name)
	}
}
