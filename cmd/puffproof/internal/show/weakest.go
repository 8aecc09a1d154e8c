package show

import (
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits/worst"
)

// WeakestShot is what the launcher that does least makes of a shot when it is filled, in words.
type WeakestShot struct{ Name, Speed, Energy, Note string }

// Weakest words it.
func Weakest(u quantity.System, w worst.Weakest) WeakestShot {
	out := WeakestShot{Name: "weakest, when filled", Speed: "-", Energy: "-", Note: "does not leave"}
	if w.Leaves {
		out.Speed, out.Energy = u.Near(quantity.Speed, w.Speed), u.Near(quantity.Energy, w.Energy)
		out.Note = "from " + u.Near(quantity.Gauge, w.Start)
	}
	return out
}
