package worst

import (
	"context"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
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

// Where the edge is known nearby it is found in fewer shots, at the same place, and neither depends on what was asked before: a search
// asks on any number of workers.
func TestTheEdgeIsFoundFromItsNeighbour(t *testing.T) {
	band := func(b *launcher.Band, share float64) { b.Low, b.High = b.Nominal*(1-share), b.Nominal*(1+share) }
	l := sample.Plain(sample.Friction(60, 1), func(l *launcher.Launcher) {
		band(&l.Projectile.Breakaway, 0.3)
		band(&l.Projectile.Mass, 0.2)
		band(&l.Volumes[0].Volume, 0.1)
		band(&l.Barrel.DeadVolume, 0.2)
	})
	q, shots := EnergyQuestion(l, 0.95*sample.Bars), 0
	q.Adjust = func(*pneumatics.Circuit, *pneumatics.Scenario, []float64) { shots++ }
	b := NewBox(l, q)
	worker := func() *stuck {
		return &stuck{e: b.Evaluator(), full: make([]float64, b.Dim), start: b.Start, edge: searchEdge}
	}
	require.GreaterOrEqual(t, b.Dim, 5)
	at := make([]float64, b.Dim-1)
	for i := range at {
		at[i] = 0.3 + 0.4*float64(i%2)
	}
	plain, near, again := worker(), worker(), worker()
	guess, err := guessEdge(t.Context(), b.Dim-1, worker)
	require.NoError(t, err)
	near.guess, again.guess = guess, guess
	near.ValueNear(at, at)
	plainly, nearby := 0, 0
	for i := range at {
		u := slices.Clone(at)
		u[i] = 1 - u[i]
		shots = 0
		freed := plain.Value(u)
		require.Positive(t, freed)
		plainly += shots
		shots = 0
		found := near.ValueNear(u, at)
		nearby += shots
		assert.InEpsilon(t, freed, found, 2*searchEdge, "the energy goes with the square of the start")
		again.ValueNear(at, u) // it was elsewhere before
		assert.Equal(t, found, again.ValueNear(u, at))
	}
	assert.Less(t, nearby, plainly/5)
}
