package paper

import "puffproof/limits/launcher"

// filling is how a launcher is filled where no pressure switch ends it, in words.
type filling struct {
	sentence string // "" it is not known
	row      string
	at       launcher.Band // [Pa gauge]
}

// filledBy tells what ends the filling of a launcher where no pressure switch does.
func (b *builder) filledBy() filling {
	l := b.in.Launcher
	w := l.Working()
	at := launcher.Band{Set: true, Low: w.Low, Nominal: w.Nominal, High: w.High}
	switch w.By {
	case launcher.StopMark:
		return filling{"No switch: whoever pumps stops at the mark on the gauge,", "stop pumping at the mark", l.Supply.PumpedTo}
	case launcher.StopTimer:
		return filling{"No switch: a timer ends the filling", "timer stops the pump", at}
	case launcher.StopPrefill:
		return filling{"It comes filled,", "comes filled to", l.Volumes[l.Prefilled()].FilledTo}
	case launcher.StopRelief:
		return filling{"No switch: the relief valve ends the filling", "relief valve ends the filling", at}
	case launcher.StopDeadHead, launcher.StopSwitch:
		if e := b.in.Vent; e != nil && e.Rest.Ends {
			return filling{"No switch: the supply itself, against what is open while charging, comes to rest", "gauge at rest, pump " +
				"on", e.Rest.Shown(l)}
		} else if w.By == launcher.StopDeadHead {
			return filling{"No switch: the supply itself stops", "pump stops by itself", l.Supply.DeadHead}
		}
	}
	return filling{}
}
