package worst

import (
	"context"
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/recall"
	"puffproof/limits/search"
	"puffproof/pneumatics"
)

// A shot is recalled where circuit, scenario and options are the same, to the last bit, and in no other case; one that was stopped is not.
func TestAShotIsRecalledWhereAllIsTheSame(t *testing.T) {
	m := recall.Of(recall.With(t.Context(), recall.New()))
	type change func(c *pneumatics.Circuit, sc *pneumatics.Scenario, o *pneumatics.Options)
	ask := func(changes ...change) *pneumatics.Result {
		e := NewBox(sample.Whale(), EnergyQuestion(sample.Whale(), 5e4)).Evaluator()
		at := make([]float64, e.Box.Dim)
		at[e.Box.Start] = 1
		c, sc := e.Setup(at)
		o := e.Options
		for _, change := range changes {
			change(c, sc, &o)
		}
		return m.Run(&e.sim, c, sc, o)
	}
	stopped := func(_ *pneumatics.Circuit, _ *pneumatics.Scenario, o *pneumatics.Options) {
		o.Stop = func() bool { return true }
	}
	cut := ask(stopped)
	assert.NotEqual(t, cut.Reason, ask().Reason, "and what is kept is this one")
	known := ask()
	assert.Same(t, known, ask())
	assert.Same(t, known, ask(stopped))
	for i, one := range []change{
		func(c *pneumatics.Circuit, _ *pneumatics.Scenario, _ *pneumatics.Options) { c.Barrel.Mass *= 1 + 1e-15 },
		func(c *pneumatics.Circuit, _ *pneumatics.Scenario, _ *pneumatics.Options) {
			c.Ambient.Temperature *= 1 + 1e-15
		},
		func(c *pneumatics.Circuit, _ *pneumatics.Scenario, _ *pneumatics.Options) {
			c.Volumes[0].Volume *= 1 + 1e-15
		},
		func(_ *pneumatics.Circuit, sc *pneumatics.Scenario, _ *pneumatics.Options) {
			sc.Volumes[0].Pressure *= 1 + 1e-15
		},
		func(_ *pneumatics.Circuit, sc *pneumatics.Scenario, _ *pneumatics.Options) {
			sc.To = pneumatics.Loading
		},
		func(_ *pneumatics.Circuit, _ *pneumatics.Scenario, o *pneumatics.Options) { o.Tolerance *= 1 + 1e-15 },
		func(_ *pneumatics.Circuit, _ *pneumatics.Scenario, o *pneumatics.Options) { o.Leap = !o.Leap },
	} {
		first := ask(one)
		assert.NotSame(t, known, first, i)
		assert.NotSame(t, known, ask(one), i)
	}
	assert.Same(t, known, ask(), "what was asked between took its place in nothing")
}

// What a search finds is the same, and in as many evaluations, whether or not its shots were computed before.
func TestASearchFindsTheSameOfRecalledShots(t *testing.T) {
	l := sample.Whale()
	find := func(ctx context.Context) *Case {
		w, err := Maximise(search.WithStrength(ctx, 0.02), l, EnergyQuestion(l, 3e4), search.Quick())
		require.NoError(t, err)
		return w
	}
	plain, ctx := find(t.Context()), recall.With(t.Context(), recall.New())
	for range 2 {
		w := find(ctx)
		assert.Equal(t, plain.Value, w.Value)
		assert.True(t, reflect.DeepEqual(plain.Result, w.Result))
		assert.Equal(t, plain.Shot.FinalEnergy, w.Shot.FinalEnergy)
	}
}
