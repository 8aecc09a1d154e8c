package launcher

import (
	"math"

	"puffproof/limits/finding"
	"puffproof/pneumatics"
)

// Stop is what ends the filling of a launcher in normal operation.
type Stop uint8

// The ways a filling ends.
const (
	StopUnknown  Stop = iota
	StopSwitch        // the pressure switch
	StopMark          // a person who stops pumping at a mark on the gauge
	StopTimer         // a timer that lets the supply run for so long, from empty
	StopPrefill       // nothing fills it here: it comes filled and closed
	StopRelief        // a relief valve that carries the supply
	StopDeadHead      // the supply pushes no further
)

// Working is where the sensed volume stands when it is filled in normal operation, before any heat. High is what normal operation is judged
// by, Low and Nominal what a shot is expected to start from.
type Working struct {
	By                 Stop
	Low, Nominal, High float64 // [Pa gauge]
}

// Working gives the working pressure and what ends the filling: the switch where there is one. Without one it is the lowest of what the
// supply, a relief valve that carries it, a timer and a mark allow. By is StopUnknown where the design does not tell.
//
// Where something is open meanwhile, Low and Nominal are no higher than where the supply comes to rest against it, or gets to before a
// timer stops it (Resting); Low is 0, none at all, where nobody knows that. High stays: a relief valve that carries the supply is a part
// with a rating, that is tested and whose failure is a fault, and lowers it; a hole of some tenths of a millimetre is not. It is blocked by
// a grain of dust, unnoticed, and where it holds the pressure follows from a delivery curve of two points; so no energy is judged milder
// for it, and a single fault of another part counts from the full pressure too.
func (l *Launcher) Working() Working {
	w := l.stops()
	if w.By == StopUnknown || w.Nominal == 0 {
		return w
	}
	if r := l.Resting(); r.Known {
		n := l.Node(l.Sensed())
		w.Low, w.Nominal = min(w.Low, r.Low[n]), min(w.Nominal, r.Nominal[n])
	} else if r.Open {
		w.Low = 0
	}
	return w
}

// Stops is what ends the filling, as in Working.
func (l *Launcher) Stops() Stop { return l.stops().By }

// stops is Working with all that is open while it fills shut.
func (l *Launcher) stops() Working {
	switch {
	case l.Switch != nil:
		return l.switchWorks()
	case l.Supply == nil:
		return l.prefilled()
	}
	out := Working{High: math.Inf(1)}
	lower := func(w Working) {
		if w.By != StopUnknown && w.High < out.High {
			out = w
		}
	}
	if d := l.Supply.DeadHead; d.Set {
		lower(Working{StopDeadHead, d.Low, d.Nominal, d.High})
		lower(l.reliefWorks())
		lower(l.timerWorks())
	}
	lower(l.markWorks())
	if s := l.Supply; s.RunsInStated && s.RunsIn&pneumatics.SetOf(pneumatics.Charging, pneumatics.Armed) == 0 {
		out.Low, out.Nominal = 0, 0 // it blows only when it fires: nothing is expected to be filled before
	}
	return out
}

// switchWorks is the cut-out with the error of the gauge it is set by and the overshoot.
func (l *Launcher) switchWorks() Working {
	s := l.Switch
	high := s.CutOut.High + s.GaugeError.High
	top := high + l.Overshoot()
	if l.Supply != nil && l.Supply.DeadHead.Set {
		top = min(top, l.deadHead(high))
	}
	return Working{StopSwitch, max(0, s.CutOut.Low-math.Abs(s.GaugeError.High)), s.CutOut.Nominal, top}
}

// prefilled is the pressure of the vessel that comes filled.
func (l *Launcher) prefilled() Working {
	if i := l.Prefilled(); i >= 0 {
		p := l.Volumes[i].FilledTo
		return Working{StopPrefill, p.Low, p.Nominal, p.High}
	}
	return Working{}
}

// Prefilled is the index of the volume that comes filled from elsewhere; -1: none.
func (l *Launcher) Prefilled() int {
	for i := range l.Volumes {
		if l.Volumes[i].FilledTo.Set {
			return i
		}
	}
	return -1
}

// reliefWorks is the full flow of the relief valve at the top of its tolerance, where one on the supplied volume carries the supply, a hand
// pump at the peak of its stroke. Once nobody pumps it falls back to between set and reseat.
func (l *Launcher) reliefWorks() Working {
	o := l.overcharge("", l)
	if !o.Known || o.FullFlow == 0 || o.Balance > o.FullFlow {
		return Working{}
	}
	p := &l.Paths[l.ReliefOnSupply()]
	return Working{StopRelief, min(p.ReseatLow(), o.FullFlow), min(p.SetPressure.Nominal, o.FullFlow), o.FullFlow}
}

// markWorks is the mark to which a person pumps, with the error of the gauge.
func (l *Launcher) markWorks() Working {
	m := l.Supply.PumpedTo
	if !m.Set {
		return Working{}
	}
	size := 0.0
	if g := l.GaugeOn(l.Supply.Feeds); g != nil {
		size, _ = g.ErrorSize()
	}
	return Working{StopMark, max(0, m.Low-size), m.Nominal, m.High + size}
}

// timerWorks is where the supply ends that runs for so long from empty; from anything else it may be started
// again and again, up to the dead head. The fill is followed by steps,
//
//	dp/dt = k pa Q(p)/V
//
// with k = 1 (isothermal) and all volumes that are filled together for the expected pressure; for the highest k = gamma,
// which no fill with air at the ambient temperature exceeds (adiabatic), the fed volume alone at its smallest, the supply
// at its strongest and the longest time; for the lowest the other ends.
func (l *Launcher) timerWorks() Working {
	s := l.Supply
	if !s.RunTime.Set || s.FromEmpty != Yes || !s.DeliveryKnown() {
		return Working{}
	}
	strong := l.Clone()
	strong.Supply.Strongest()
	var c, hard pneumatics.Circuit
	l.Fill(&c)
	strong.Fill(&hard)
	fed := c.Supply.Feeds
	all, most := 0.0, 0.0
	for i, joined := range l.JoinedToSupply() {
		if joined {
			all += c.Volumes[i].Volume
			most += l.Volumes[i].Volume.High
		}
	}
	share := 1.0
	if s.FreeAir.Set && s.FreeAir.Nominal > 0 {
		share = s.FreeAir.Low / s.FreeAir.Nominal
	}
	return Working{StopTimer,
		filledFor(c.Supply, l.Ambient.Pressure.Low*share/most, s.RunTime.Low),
		filledFor(c.Supply, l.Ambient.Pressure.Nominal/all, s.RunTime.Nominal),
		filledFor(hard.Supply, c.Gas.Gamma*l.Ambient.Pressure.High/l.Volumes[fed].Volume.Low, s.RunTime.High)}
}

// filledFor is the gauge pressure [Pa] after so many seconds of a delivery that adds k [Pa/m3] times its free air.
func filledFor(s *pneumatics.Supply, k, seconds float64) (gauge float64) {
	const steps = 500
	for range steps { // delivery falls with the pressure: each step counts that of its start, the larger
		gauge = min(gauge+k*s.Delivery(gauge)*seconds/steps, s.DeadHead)
	}
	return gauge
}

// Kept is what people must keep so that the working pressure holds, and the item that it rests on; "" nothing: a part limits it.
func (l *Launcher) Kept() (condition finding.Text, item string) {
	switch w := l.stops(); w.By {
	case StopDeadHead:
		if l.Supply.Kind == HandPump {
			return finding.Say("nobody pumps harder than to %s, which is a person's force over the pump's piston", finding.Bar(w.High)),
				finding.ItemPumpMark
		}
	case StopMark:
		return finding.Say("whoever pumps watches the gauge and stops at the mark of %s", finding.Bar(l.Supply.PumpedTo.Nominal)),
			finding.ItemPumpMark
	case StopTimer:
		return finding.Words("nobody starts the timer again before the launcher is empty"), finding.ItemTimerEmpty
	case StopPrefill:
		v := &l.Volumes[l.Prefilled()]
		return finding.Say("%s is filled to no more than %s, and a gauge is read before it is used", v.Name, finding.Bar(v.FilledTo.High)),
			finding.ItemPrefill
	}
	return nil, ""
}

// HowFilled says how a person fills the launcher for a test, up to its working pressure and no further; from, such as "from
// empty ", is where it begins, or "".
func (l *Launcher) HowFilled(from string) string {
	switch l.Stops() {
	case StopMark:
		return "Pump " + from + "to the mark on the gauge, no further"
	case StopTimer:
		return "Charge " + from + "until the timer stops the supply"
	case StopRelief:
		return "Charge " + from + "until the relief valve blows, then stop"
	case StopPrefill:
		return "Have it filled as the design says"
	case StopDeadHead:
		return "Charge " + from + "until the gauge rises no more"
	case StopSwitch:
		if l.Resting().Ends {
			return "Charge " + from + "until the gauge rises no more"
		}
	}
	return "Charge " + from + "until the supply stops by itself"
}

// NoHighest says that neither a switch nor the supply tells the highest working pressure.
func NoHighest() finding.Text {
	return finding.Say("no pressure switch and %s: highest working pressure not known", finding.KeyAs("supply.dead_head", "no dead head"))
}
