package commission

import (
	"puffproof/limits/checklist"
	"puffproof/limits/finding"
)

// toRead is what to write down of a step, with an example. one tells that the launcher has one volume.
func toRead(s *Step, one bool) finding.Text {
	t := example(s, one)
	if says := s.Beside(); says != nil && s.Figure != nil {
		t = t.Say("; with ").And(says)
	}
	return t
}

// example is the same without what the item asks beside its figure.
func example(s *Step, one bool) finding.Text {
	bars := func(p ...float64) finding.Text { // as people write a list: the last one says the unit
		var all []finding.Text
		for i, v := range p {
			one := finding.Bars.Of(v*1e5, 2)
			if i < len(p)-1 {
				one = one.Beside()
			}
			all = append(all, finding.Say("%s", one))
		}
		return finding.Join(all, ", ")
	}
	empty := "5 s, every gauge at zero"
	if len(s.Says) > 0 { // no gauge shows all of it
		empty = "5 s, hissed, every gauge at zero"
	}
	switch s.ID {
	case finding.ItemVentTest:
		if one {
			return finding.Say("the longest time until every gauge was empty, as \"5 s, every gauge at zero\"; or the readings of two runs, as "+
				"\"%s, ...\"", pairs(0, 0.36, 2, 0.21, 4, 0.12))
		}
		return finding.Say("the longest time until every gauge was empty, as \"%s\"", empty)
	case finding.ItemFaultsTried:
		return finding.Words("the longest time until every gauge was empty, as \"nothing fires, 5 s, every gauge at zero\"")
	case finding.ItemVentLow:
		return finding.Say("the longest time until every gauge was empty, as \"%s\"", empty)
	case finding.ItemReliefTest:
		return finding.Say("at what it began to hiss each time, and what it was full by, as \"%s, full by %s\"", bars(0.71, 0.74, 0.72),
			bars(0.95))
	case finding.ItemReliefInPlace:
		return finding.Say("where the gauge came to rest, as \"%s\"", bars(0.82))
	case finding.ItemSwitchTest:
		return finding.Say("all ten readings, or the lowest and the highest, as \"ten cycles, %s\"", bars(0.35, 0.37))
	case finding.ItemPumpMark, finding.ItemTimerEmpty:
		return finding.Say("all readings, or the lowest and the highest, as \"ten fills, %s\"", bars(0.35, 0.37))
	case finding.ItemGaugeCompare:
		return finding.Say("the largest difference of the two, as \"%s\"", bars(0.01))
	case finding.ItemStaysEmpty:
		return finding.Say("what every gauge showed, and for how long, as \"%s for two minutes\"", finding.Bars.Of(0, 2))
	case finding.ItemSupplyOff:
		return finding.Say("what every gauge showed, as \"plug pulled, %s on every gauge\"", finding.Bars.Of(0, 2))
	case finding.ItemLeakDown:
		return finding.Say("the readings, as \"%s\"", pairs(0, 0.36, 60, 0.35, 120, 0.35))
	case finding.ItemShotsWeak, finding.ItemShotsMiddle, finding.ItemShots:
		return finding.Say("every speed, or how many and the slowest and the fastest, and the pressure, as \"five shots from %s, %s, %s\"",
			finding.Bars.Of(0.2e5, 2), finding.Speed(4.1).Beside(), finding.Speed(4.4))
	case finding.ItemWaterTest:
		return finding.Say("the pressure of the water and for how long, as \"%s for 10 min, no drop, no growth\"", bars(15))
	}
	if t := figuresToRead(s.ID); t != nil && (s.Figure != nil || s.ID == finding.ItemLandingClear) {
		return t
	}
	if s.Figure != nil {
		return finding.Words("what was read, with its unit")
	}
	seen := finding.Words("what was seen")
	if says := s.Beside(); says != nil {
		seen = seen.Say(", as ").And(says)
	}
	return seen.Say("; \"failed\" and why, where it was not as it should be")
}

// figuresToRead are the figures that a step without a gauge yields; nil: it yields none.
func figuresToRead(id string) finding.Text {
	switch id {
	case finding.ItemLabels:
		return finding.Say("the pressure on each label, of what it is and for what, air or gas, as \"tank %s for air\", one of each part by "+
			"its name",
			finding.Bars.Of(1e6, 2))
	case finding.ItemTip:
		return finding.Say("force and flattening in each state, and how cold it was, as \"%s %s dry, %s %s wet, %s %s cold at %s\"",
			finding.Newton(60), finding.Millimetre(8e-3),
			finding.Newton(55), finding.Millimetre(8e-3), finding.Newton(70), finding.Millimetre(7e-3), finding.Celsius.Of(278.15, 2))
	case finding.ItemTipRadius:
		return finding.Say("the smallest radius, as \"%s\"", finding.Millimetre(3e-3))
	case finding.ItemBore:
		return finding.Say("the largest shank that goes in, of each restrictor, or where there is none the bore of each hose, as \"bleed %s\"",
			finding.Millimetre(1e-3))
	case finding.ItemPassage:
		return finding.Say("the largest shank that goes through, of each valve, as \"fire %s\"", finding.Millimetre(6e-3))
	case finding.ItemDeadVolume:
		return finding.Say("what the water weighs, the least and the most of three, as \"%s, %s\"", finding.Grams.Of(21e-3, 3),
			finding.Grams.Of(22e-3, 3))
	case finding.ItemWeighed:
		return finding.Say("what the lightest and the heaviest of all weigh, as \"%s, %s\"", finding.Grams.Of(3.9e-3, 2),
			finding.Grams.Of(4.2e-3, 2))
	case finding.ItemOpeningTime:
		return finding.Say("the shortest of ten, of each valve, as \"fire %s\"", finding.Millisecond(0.42))
	case finding.ItemSealGuard:
		return finding.Say("the area of all openings, as \"%s, air gets past\"", finding.SquareMillimetre(250e-6))
	case finding.ItemMuzzleAdmits:
		return finding.Say("the largest shank that goes in, as \"%s\"", finding.Millimetre(3e-3))
	case finding.ItemSeatStop:
		return finding.Say("the smallest and the largest depth, as \"ten loads, %s, %s\"", finding.Millimetre(34e-3), finding.Millimetre(35e-3))
	case finding.ItemFuses:
		return finding.Say("the amperes (A) printed on each fuse behind its name, or what it is for, and the wire that it is on by its size, as "+
			"\"f1 2 A on %s\"; above %s the size is needed", finding.SquareMillimetres.Of(0.75e-6, 2), finding.Ampere(finding.UsualWire))
	case finding.ItemElevation:
		return finding.Words("the angle at either stop, in degrees (deg)")
	case finding.ItemGuard:
		return finding.Say("how long the probe is, as \"probe of %s does not reach the bore\"", finding.Millimetre(0.9))
	case finding.ItemClearAllRound:
		return finding.Say("how far, as \"taped %s all round, nobody behind\"", finding.Metre(6))
	case finding.ItemLandingClear:
		return finding.Say("how far from the muzzle each came down, and within what distance nobody stood, as \"%s, nobody within %s\"",
			finding.Metre(8), finding.Metre(12))
	}
	return nil
}

// pairs are times [s] and pressures [bar] in turn, as a list of readings.
func pairs(v ...float64) finding.Text {
	var all []finding.Text
	for i := 0; i < len(v); i += 2 {
		all = append(all, finding.Say("%g s %s", v[i], finding.Bars.Of(v[i+1]*1e5, 2)))
	}
	return finding.Join(all, ", ")
}

// outside is what to do where a step shows something else than it should.
func outside(s checklist.Step) finding.Text {
	switch s.ID {
	case finding.ItemWaterTest:
		return finding.Words("Scrap it. A vessel that wept or grew is not mended.")
	case finding.ItemReliefTest:
		return finding.Words("It does not go on this launcher. Set and seal it anew, or take another; or state what it does as " +
			"set_pressure, and check whether the design still holds.")
	case finding.ItemReliefInPlace:
		return finding.Words("Pull the plug. A valve that lets it rise further is too small or sticks: puffproof setpoint says which one " +
			"is needed.")
	case finding.ItemTwoActions, finding.ItemDryControl, finding.ItemContacts:
		return finding.Words("No air until the wiring is mended; then both steps without air again.")
	case finding.ItemVentLow, finding.ItemVentTest, finding.ItemVentByHand, finding.ItemSupplyOff, finding.ItemFaultsTried,
		finding.ItemStaysEmpty:
		return finding.Words("Let the air out by hand and pull the plug. A vent is blocked, too narrow, or did not open; what comes back " +
			"is shut in behind a valve. Mend it, and begin again at the low pressure; puffproof vent --log says which bore fits what was " +
			"read.")
	case finding.ItemPassage, finding.ItemDeadVolume, finding.ItemOpeningTime:
		return finding.Words("The design is wrong there: state what was measured, and check whether it still holds.")
	case finding.ItemWeighed:
		return finding.Words("Put it aside until it is dry, and weigh it again. One that stays heavier is none of this design.")
	case finding.ItemNotFrozen:
		return finding.Words("Not shot. It comes out by the jam drill, and barrel and projectile are wiped dry.")
	case finding.ItemGaugeCompare:
		return finding.Words("The worse gauge goes. Every reading taken with it is taken again.")
	case finding.ItemLeakDown, finding.ItemBarrelEmpty:
		return finding.Words("Soapy water at a low pressure shows where. One at a fitting is sealed with the air out; one into the " +
			"barrel is the firing valve: clean or replace it.")
	case finding.ItemSwitchTest, finding.ItemPumpMark, finding.ItemTimerEmpty:
		return finding.Words("With the air out: turn the screw, or move the mark, and read again from the start. Where the readings " +
			"scatter more than the band, take another switch; or state the wider band as cut_out, and check whether the design still " +
			"holds.")
	case finding.ItemPrefill:
		return finding.Words("Do not open it. Let it down by its own valve outdoors, and fill it again to its mark.")
	case finding.ItemShotsWeak, finding.ItemShotsMiddle, finding.ItemShots:
		return finding.Words("Stop, vent, no higher pressure. Faster than the band: an input is wrong, and puffproof calibrate --shots " +
			"says which one fits; slower: something leaks or sticks. Correct the design, check it, and begin again with the weakest shots.")
	case finding.ItemPrint:
		return finding.Words("State the print that was measured as contact_diameter, and check whether the design still holds.")
	case finding.ItemLoadingWait:
		return finding.Words("Nobody loads sooner. If that is too long, it needs a wider vent on what stands before the firing valve.")
	case finding.ItemJamDrill:
		return finding.Words("Whoever had a face or hand in line does it again, until nobody has.")
	case finding.ItemLandingClear, finding.ItemClearAllRound:
		return finding.Words("A larger zone, a net, or another place; not fewer adults.")
	case finding.ItemSecondLook:
		return finding.Words("What was found is mended, and the steps that it bears on are done again.")
	}
	if s.Phase == checklist.Papers {
		return finding.Words("It is mended, replaced or read properly before anything else; no air until then.")
	}
	return finding.Words("Air out, plug pulled; mend it, then this step again.")
}
