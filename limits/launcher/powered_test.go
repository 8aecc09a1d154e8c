package launcher_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// By the words of a solenoid valve: one that rests closed has current where it is open, one that rests open where it is
// closed, one that stays as it is in no state.
func TestWhereAValveHasCurrent(t *testing.T) {
	firing := pneumatics.SetOf(pneumatics.Firing)
	all := pneumatics.SetOf(pneumatics.States()...)
	for rest, want := range map[pneumatics.Position]pneumatics.StateSet{pneumatics.Closed: firing, pneumatics.Open: all &^ firing,
		pneumatics.Stays: 0} {
		p := launcher.PathSpec{OpenIn: firing, Unpowered: rest}
		assert.Equal(t, want, p.PoweredIn(), rest)
	}
}
