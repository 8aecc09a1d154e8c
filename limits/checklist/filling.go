package checklist

import (
	"math"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// fillingItems are what people keep where no part ends the filling.
func fillingItems(a *assessment.Assessment) []finding.Item {
	l := a.Launcher
	condition, item := l.Kept()
	it := finding.Item{ID: item, Verdict: finding.EnergyTotal, Expect: condition, Source: ownRule}
	high, _ := l.NormalHigh()
	switch item {
	case finding.ItemPumpMark:
		m := l.Supply.PumpedTo
		if l.Stops() == launcher.StopDeadHead {
			hardest(&it, l.Supply.DeadHead.High)
			break
		}
		it.Title = finding.Words("One named person pumps, and stops at the mark on the gauge")
		it.Why = finding.Words("No part stops the pump at the mark: a person does, and every figure of normal use starts from it.")
		it.How = finding.Words("A mark that is seen from where the pump stands; ten fills, each reading on an independent gauge written down.")
		it.Expect = finding.Say("every reading between %s and %s", finding.Bar(m.Low), finding.Bar(m.High))
		it.Figure = &finding.Expected{Unit: finding.InPascalGauge, Low: m.Low, High: m.High, Least: 2, Times: 10}
	case finding.ItemTimerEmpty:
		it.Title = finding.Words("The timer fills only what is empty")
		it.Why = finding.Words("Started again on top of what is left, it fills further each time.")
		it.How = finding.Words("Ten fills, each reading written down; press start twice without a shot: it vents first, or does not start.")
		it.Expect = finding.Say("no reading above %s", finding.Bar(high))
		it.Figure = &finding.Expected{Unit: finding.InPascalGauge, Low: math.Inf(-1), High: high, Least: 2, Times: 10}
	case finding.ItemPrefill:
		v := &l.Volumes[l.Prefilled()]
		it.Title = finding.Say("Read the gauge of %s before it is used, and keep who filled it and when", v.Name)
		it.Why = finding.Words("Nothing here limits what was filled elsewhere.")
		it.How = finding.Words("An independent gauge at the coupling, in the shade, after it has cooled; a label with pressure, date and name.")
		it.Expect = finding.Say("between %s and %s", finding.Bar(v.FilledTo.Low), finding.Bar(v.FilledTo.High))
		it.Figure = finding.FigureBetween(finding.InPascalGauge, v.FilledTo.Low, v.FilledTo.High)
	default:
		return nil
	}
	return []finding.Item{it}
}

// hardest asks what stops a pump that nothing but the hand on it is said to stop, at top [Pa gauge].
func hardest(it *finding.Item, top float64) {
	it.Title = finding.Words("The strongest person there cannot pump further than stated")
	it.Why = finding.Words("What stops a pump by hand is a person's force over its piston's area: no part does, but for a relief valve.")
	it.How = finding.Words("Nothing loaded, muzzle away from everyone, on a vessel rated for whatever the pump's label says: the strongest " +
		"person there pumps with all their weight, three times; each reading on an independent gauge written down, and what stops it.")
	it.Expect = finding.Say("no reading above %s", finding.Bar(top))
	it.Figure = &finding.Expected{Unit: finding.InPascalGauge, Low: math.Inf(-1), High: top, Least: 2, Times: 3}
}
