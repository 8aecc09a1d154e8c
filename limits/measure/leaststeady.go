package measure

import (
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
	"puffproof/pneumatics/filling"
)

// leastSteady is the lowest gauge pressure [Pa] at which the air of a supply that nothing stops and all that lets it out while charging
// can be in balance: the supply at its weak end in thin warm air, the ways out wide, the relief valves set low. 0: nothing is known of it.
func leastSteady(l *launcher.Launcher) float64 {
	if l.Supply == nil || !l.Supply.DeliveryKnown() {
		return 0
	}
	w := l.Clone()
	w.Supply.Weakest()
	w.Ambient.Pressure.Nominal, w.Ambient.Temperature.Nominal = l.Ambient.Pressure.Low, l.Hottest()
	for i := range w.Paths {
		p := &w.Paths[i]
		launcher.WideFlow(p)
		p.FullFlowPressure.Nominal = min(p.FullFlowPressure.Low, p.FullFlowPressure.Nominal-p.SetPressure.Nominal+p.SetPressure.Low)
		p.SetPressure.Nominal = p.SetPressure.Low
	}
	var c pneumatics.Circuit
	w.Fill(&c)
	if gauge, ok := filling.Rest(&c, pneumatics.Charging); ok {
		return gauge[c.Supply.Feeds]
	}
	return 0
}
