package advise

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/control"
	"puffproof/limits/internal/sample"
)

// No dial turns a wire: a wiring that fails is told at once, and searching for pressures does not begin. One that is not stated
// forbids nothing.
func TestAWiringThatFailsIsToldAtOnce(t *testing.T) {
	l := sample.VentedTank()
	assert.Empty(t, wiringForbids(l))
	l.Control = &control.Wiring{Parts: []control.Part{{Name: "f1", Kind: control.Fuse, Rating: 2, Wire: 3}, {Name: "key",
		Kind: control.KeySwitch},
		{Name: "all", Kind: control.Load, Moves: []string{"fire", "vent", control.Supply},
			Through: []control.Step{{{Part: "f1", No: 1}}, {{Part: "key", No: 1}}}}}}
	assert.Contains(t, wiringForbids(l).String(), "(control.stop)")
	assert.NotContains(t, wiringForbids(l).String(), "(control.fuses)")
	l.Control.Parts[2].Moves = []string{"fire"}
	assert.Contains(t, wiringForbids(l).String(), "which load of [control] moves paths.vent")
}
