package vent

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
	"puffproof/pneumatics"
)

// What is one with a volume while armed, the way the air goes, and by which path it
// gets out, read off the drawing.
func TestWhatIsSealedTogetherInABranchedCircuit(t *testing.T) {
	l := sample.Branched()
	sealed := func(from string) *LeakModel {
		m := &LeakModel{l: l, volume: int(l.Node(from))}
		l.Fill(&m.c)
		m.join()
		return m
	}
	joined := func(from string) []string { return sample.VolumesOf(l, sealed(from).joined) }
	assert.Equal(t, []string{"tank", "dose", "side"}, joined("tank"))
	assert.Equal(t, []string{"dose", "side"}, joined("dose"), "nothing back through the check valve")
	assert.Equal(t, []string{"side"}, joined("side"))
	assert.Empty(t, sealed("tank").opens)
	assert.InEpsilon(t, 2e-3+0.5e-3+1e-4, sealed("tank").space, 1e-12) // rounding

	vent := sample.PathNamed(l, "vent")
	vent.OpenIn = pneumatics.SetOf(pneumatics.Armed)
	assert.Equal(t, "vent", sealed("tank").opens)
	assert.Empty(t, sealed("dose").opens)
	vent.Kind, vent.From, vent.To = pneumatics.Check, "atmosphere", "tank"
	assert.Empty(t, sealed("tank").opens, "a check valve into it lets nothing out")
	vent.Kind = pneumatics.Orifice
	assert.Equal(t, "vent", sealed("tank").opens, "a hole passes either way")
}
