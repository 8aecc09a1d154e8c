package control

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/pneumatics"
)

// part is a part of the wiring by its name.
func (w *Wiring) part(name string) *Part { return &w.Parts[w.Index(name)] }

// One contact drawn at two places joins what stands before it: the fuse's wire and the one behind the stop, which is bridged for good.
func TestOneContactAtTwoPlaces(t *testing.T) {
	w := twoRelays(t)
	assert.Empty(t, w.Crossed())
	w.part("pump").Through = ways(t, "f1", "k1.1", "k2.2", "gauge")
	assert.Equal(t, []Contact{{Part: "k1", No: 1}}, w.Crossed())
	w.part("pump").Through = ways(t, "f1", "k1.3", "k2.2", "gauge")
	assert.Empty(t, w.Crossed(), "two loads may hang on the same wire behind it")
}

// Two stops are pressed one at a time, as people do.
func TestEachStopIsPressedAlone(t *testing.T) {
	w := twoRelays(t)
	w.Parts = append(w.Parts, Part{Name: "second", Kind: Stop})
	w.part("k2").Through = ways(t, "f1", "key.2", "second", "start.2 or k2.1")
	assert.Empty(t, w.Stopped(charging), "either of them drops a relay")
	assert.ElementsMatch(t, []string{"dump", "pump"}, named(w, w.Stopped(charging, Failure{Mode: Welded, Part: "k1"})),
		"the first one's relay is welded, and nobody presses the second")
}

// What ends the filling is the pressure switch where there is one: a timer in its place does not.
func TestATimerIsNoPressureSwitch(t *testing.T) {
	w := twoRelays(t)
	assert.True(t, w.EndedBy(PressureSwitch))
	w.Parts = append(w.Parts, Part{Name: "timer", Kind: Timer, ClosedIn: pneumatics.SetOf(charging, armed, firing)})
	w.part("pump").Through = ways(t, "f1", "k1.2", "k2.2", "timer")
	assert.False(t, w.EndedBy(PressureSwitch))
	assert.True(t, w.EndedBy(Timer))
	assert.False(t, w.Overfills(), "as far as it runs out")
}

// Released, a stop starts what a lever still asks for, in the state firing too; a button that has to be held is let go by then.
func TestAStopReleasedWhileFiring(t *testing.T) {
	w := twoRelays(t)
	w.part("fire").Through = ways(t, "f1", "stop.3", "remote")
	released, returned := w.Restarts(firing)
	assert.Equal(t, []string{"fire"}, named(w, released))
	assert.Equal(t, []string{"fire"}, named(w, returned))
	w.part("fire").Through = ways(t, "f1", "stop.3", "pedal")
	released, returned = w.Restarts(firing)
	assert.Empty(t, released)
	assert.Empty(t, returned)
}

// Two fuses side by side let the sum of their currents through.
func TestFusesSideBySide(t *testing.T) {
	w := twoRelays(t)
	w.Parts = append(w.Parts, Part{Name: "f2", Kind: Fuse, Rating: 5, Wire: 6})
	w.part("fire").Through[0] = ways(t, "f1 or f2")[0]
	assert.Equal(t, []FuseFinding{{"fire by fuses side by side", TooLarge, 7, 6}}, w.Fuses())
	w.part("f2").Rating = 4
	assert.Empty(t, w.Fuses())
	w.part("f2").Wire = 0
	assert.Equal(t, []FuseFinding{{"f2", RatingUnknown, 4, 0}}, w.Fuses(), "not known is not too large")
}
