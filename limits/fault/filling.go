package fault

import (
	"puffproof/limits/dial"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// fillingFaults are those of what ends the filling where no pressure switch does, and of a regulator that is part of
// the supply: a person who pumps on, a timer that runs on, a vessel that comes too full.
func (st *stage) fillingFaults() (out []fault) {
	l := st.Launcher
	base := fault{anyState: true, overcharges: true, changes: true}
	add := func(part string, mode Mode, f fault) {
		f.part, f.mode = part, mode
		out = append(out, f)
	}
	s := l.Supply
	if s != nil && s.Regulated() {
		f := base
		f.apply = func(w *launcher.Launcher) { w.Supply = w.FailedSource().Clone().Supply }
		f.consequence = finding.Words("the cylinder's regulator creeps or fails open: a full cylinder stands behind it")
		if s.Kind == launcher.ShopAir {
			f.consequence = finding.Words("the regulator of the shop's air creeps or fails open: the whole main stands behind it")
		}
		f.consequence, f.endsAt = f.consequence.Say(", at up to %s", finding.Bar(s.SourcePressure.High)), "; %s"
		f.detected = shownBy(l, l.Source(), dial.Ready, "the gauge, ten minutes after charging")
		f.prevented = finding.Words("a relief valve on the supplied volume that carries the open regulator")
		add("supply", Creeps, f)
	}
	f := base
	f.endsAt = ": %s"
	f.prevented = finding.Words("a relief valve that carries the supply")
	switch l.Stops() {
	case launcher.StopMark:
		f.consequence = finding.Words("nothing but the person's eye stops it")
		f.detected = shownBy(l, l.Source(), dial.Filling, "the gauge")
		add("supply", OverPumped, f)
	case launcher.StopDeadHead:
		if s.Kind == launcher.HandPump {
			f.consequence = finding.Words("a stronger person pushes on, whatever stopped the one who tried it")
			f.detected = shownBy(l, l.Source(), dial.Filling, "the gauge")
			add("supply", PumpedHarder, f)
		}
	case launcher.StopTimer:
		f.consequence = finding.Words("the supply runs on, or on top of what is left")
		f.detected = shownBy(l, l.Source(), dial.Filling, "the gauge").Say("; the supply does not stop")
		add("timer", TimerFails, f)
	case launcher.StopPrefill:
		f.endsAt = "%s"
		f.detected = shownBy(l, l.Source(), dial.Ready, "the gauge, before it is used")
		f.prevented = finding.Words("a filling station that cannot push further")
		add("volumes."+l.Volumes[l.Prefilled()].Name, OverFilled, f)
	}
	return out
}

// readToStop tells that somebody stops the filling, or has set what stops it, by a gauge.
func (st *stage) readToStop(g *launcher.GaugeSpec) bool {
	switch st.Launcher.Stops() {
	case launcher.StopSwitch, launcher.StopMark, launcher.StopPrefill:
		return g.On == st.Launcher.Sensed()
	}
	return false
}

// stoppedBy says what goes on to a higher pressure where the gauge reads low.
func (st *stage) stoppedBy() string {
	switch st.Launcher.Stops() {
	case launcher.StopMark:
		return "who pumps to its mark stops"
	case launcher.StopPrefill:
		return "who fills by it stops"
	}
	return "a switch set by it stops the supply"
}
