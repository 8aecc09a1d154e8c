package launcher

import "puffproof/pneumatics"

// WholeTank names the volume that the supply feeds where the firing valve opens that very one, so that nothing measures
// the air of a shot; "" where a dose stands between.
func (l *Launcher) WholeTank() string {
	for i := range l.Paths {
		p := &l.Paths[i]
		if p.To == "barrel" && p.OpenIn.Has(pneumatics.Firing) && l.Supply != nil && p.From == l.Supply.Feeds {
			return p.From
		}
	}
	return ""
}
