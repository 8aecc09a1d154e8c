package worst

import (
	"slices"

	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// A turn is an order in which valves in series are opened that a hand turns, or that current moves by presses of their own: nobody holds a
// person to one. The launcher's own (launcher.InTurn) opens the last one last, or one that current moves, all that lies between full.
type turn struct {
	opened, shut []int // the paths, by index, that are open before the shot, and that are not, other than in the launcher's own order
}

// turnsOf lists the orders of a launcher, its own in the middle, where a search begins; nil: there is one only. A valve that fills what
// lies behind it while charging is not the last: what opens before it shoots that, and its own order counts no less.
func turnsOf(l *launcher.Launcher) []turn {
	var out []turn
	for k := range l.Paths {
		if l.Paths[k].OpensFirst && !l.Paths[k].OpenIn.Has(pneumatics.Charging) {
			out = append(out, lastIs(l, k))
		}
	}
	if len(out) == 0 {
		return nil
	}
	return slices.Insert(out, (len(out)+1)/2, turn{})
}

// lastIs is the order in which a valve is the last one that is opened: those behind it stand open, without air, those before it with
// what feeds them. What would fill the former by another way opens with it.
func lastIs(l *launcher.Launcher, last int) (t turn) {
	t.shut = []int{last}
	for i := range l.Paths {
		p := &l.Paths[i]
		if i != last && movable(p) && p.OpenIn.Has(pneumatics.Firing) && (l.LeadsOn(last, i) || !p.OpensFirst && l.LeadsOn(i, last)) &&
			!l.Control.Together(l.Paths[last].Name, p.Name) {
			t.opened = append(t.opened, i)
		}
	}
	for i := range l.Paths {
		behind := func(k int) bool { return l.LeadsOn(i, k) }
		if i != last && l.Paths[i].OpensFirst && !slices.Contains(t.opened, i) && !l.LeadsOn(i, last) && slices.ContainsFunc(t.opened, behind) {
			t.shut = append(t.shut, i)
		}
	}
	return t
}

// apply puts the order into a circuit, with the other ways of the bodies.
func (t turn) apply(l *launcher.Launcher, c *pneumatics.Circuit) {
	armed := pneumatics.SetOf(pneumatics.Armed)
	set := func(i int, open bool) {
		if i < 0 {
			return
		}
		if c.Paths[i].OpenIn &^= armed; open {
			c.Paths[i].OpenIn |= armed
		}
	}
	for _, i := range t.opened {
		set(i, true)
		set(l.OtherWay(i), false)
	}
	for _, i := range t.shut {
		set(i, false)
		set(l.OtherWay(i), true)
	}
}
