package drill

import (
	"strings"

	"puffproof/limits/dial"
	"puffproof/limits/launcher"
)

// This file words what a card has people do, each by what the launcher has: a key and a plug only where something has current, a pump that
// stops only where one does so by itself (common practice, no source).

// supplyOff is how people end the supply; "" there is none, or it goes off with the launcher's own current.
func supplyOff(l *launcher.Launcher) string {
	switch s := l.Supply; {
	case s == nil || s.Kind == launcher.Compressor:
		return ""
	case s.Kind == launcher.HandPump:
		return "Nobody pumps. "
	}
	return "Supply shut. "
}

// byHand is what a hand opens to let the air out; "" nothing.
func byHand(l *launcher.Launcher) string {
	if len(HandVents(l)) > 0 {
		return "Vents opened by hand, from the side. "
	}
	return ""
}

// Stop is what the stop word means.
func Stop(l *launcher.Launcher) string {
	t := "Anyone may call STOP. Hand off. " + supplyOff(l)
	if l.Electric() {
		t += "Key out. Launcher off. "
	} else if len(l.Gauges) > 0 {
		t += byHand(l)
	}
	if len(l.Gauges) == 0 {
		return t + "Nobody goes near: there is no gauge."
	}
	if unseen := dial.Unseen(l, l.VolumeNames(), dial.SwitchedOff); len(unseen) > 0 {
		return t + "Gauge to zero, no vent hisses: no gauge shows " + strings.Join(unseen, ", ") + ". Then people move."
	}
	return t + "Gauge to zero. Then people move."
}

// Off is how a launcher is put out of action before it is emptied, in sentences with a space before them; "" there is nothing to do.
func Off(l *launcher.Launcher) string {
	pump := l.Supply != nil && l.Supply.Kind == launcher.Compressor
	t := " " + supplyOff(l)
	switch {
	case l.Electric() && pump:
		t += "Key out, launcher off, pump unplugged."
	case l.Electric():
		t += "Key out, launcher off, its plug or battery out."
	}
	return strings.TrimRight(t, " ")
}

// CutOff is what begins an emptying that is timed, as the end of a sentence that says how it was filled. No vent is opened by hand: the
// time is that of what empties it by itself.
func CutOff(l *launcher.Launcher) string {
	switch {
	case l.Electric():
		return "key out"
	case l.Supply != nil && l.Supply.Kind == launcher.HandPump:
		return "the pumping ended"
	case l.Supply != nil:
		return "the supply shut"
	}
	return "left alone"
}

// Filled is who fills it once, and what that is to show against the figures of the card.
func Filled(l *launcher.Launcher) string {
	if l.Supply != nil && l.Supply.Kind == launcher.HandPump {
		return "Filled once with nobody near but the one who pumps: " + shown(l)
	}
	return "Filled once with nobody near: " + shown(l)
}

// shown is what a filling is to show.
func shown(l *launcher.Launcher) string {
	by, hand := l.Stops(), l.Supply != nil && l.Supply.Kind == launcher.HandPump
	if by == launcher.StopSwitch && l.Resting().Ends {
		by = launcher.StopDeadHead
	}
	switch {
	case by == launcher.StopMark:
		return "pumped to the mark and no further, the gauge stays between the figures above."
	case by == launcher.StopDeadHead && hand:
		return "the gauge comes to rest between the figures above, still pumped."
	case by == launcher.StopDeadHead && l.Supply.Kind == launcher.Compressor:
		return "the gauge comes to rest between the figures above, the pump still on."
	case by == launcher.StopDeadHead:
		return "the gauge comes to rest between the figures above, the supply still open."
	case by == launcher.StopRelief:
		return "the relief valve holds the gauge between the figures above."
	case by == launcher.StopPrefill:
		return "the gauge stands between the figures above."
	case l.Supply == nil || l.Supply.Kind != launcher.Compressor:
		return "the filling stops between the figures above."
	}
	return "the pump stops between the figures above."
}

// InPlace is what has to be in its place before a launcher is used.
func InPlace(l *launcher.Launcher) string {
	if l.Electric() {
		return "Guard, stop, key and clips in place."
	}
	return "Guard and clips in place."
}

// MayFire is the label of the person who may.
func MayFire(l *launcher.Launcher) string {
	if l.Electric() {
		return "Holds the key, may fire"
	}
	return "In charge, may fire"
}

// off begins the drill of a jam.
func off(l *launcher.Launcher) string {
	switch {
	case l.Supply != nil && l.Supply.Kind == launcher.Compressor:
		return "Off, the plug out"
	case l.Electric():
		return "Off, the plug or battery out"
	case l.Supply == nil:
		return "Nobody fills it"
	case l.Supply.Kind == launcher.HandPump:
		return "Nobody pumps"
	}
	return "The supply shut"
}
