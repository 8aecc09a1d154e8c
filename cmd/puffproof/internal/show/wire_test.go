package show

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/control"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// A wire says in which states it has current, what that does and, where the wiring is stated, what is in series with it.
func TestWiresSayWhatIsInSeries(t *testing.T) {
	fire := &launcher.PathSpec{Name: "fire", Kind: pneumatics.Valve, OpenIn: pneumatics.SetOf(pneumatics.Firing), Unpowered: pneumatics.Closed}
	l := &launcher.Launcher{Supply: &launcher.SupplySpec{}}
	assert.Equal(t, "current in firing; without current it is closed", CoilOf(l, fire).Says())
	assert.Len(t, OtherWires(l), 1)
	on := func(part string, no int) control.Contact { return control.Contact{Part: part, No: no} }
	l.Control = &control.Wiring{Parts: []control.Part{
		{Name: "k1", Kind: control.Relay, Through: []control.Step{{on("f1", 1)}, {on("start", 1), on("k1", 1)}}},
		{Name: "fire", Kind: control.Load, Moves: []string{"fire"}, Through: []control.Step{{on("f1", 1)}, {on("k1", 2)}}}}}
	assert.Equal(t, "current in firing; without current it is closed; in series: f1, k1.2", CoilOf(l, fire).Says())
	wires := OtherWires(l)
	assert.Equal(t, "relay k1", wires[1].Part)
	assert.Equal(t, "pulls in while it has current; in series: f1, start or k1.1", wires[1].Says())
	assert.Empty(t, wires[0].Through, "nothing moves the supply")
	stays := *fire
	stays.Unpowered = pneumatics.Stays
	assert.Equal(t, "current moves it; without it stays where it is; in series: f1, k1.2", CoilOf(l, &stays).Says())
}
