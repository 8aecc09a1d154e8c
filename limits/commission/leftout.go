package commission

import (
	"puffproof/limits/checklist"
	"puffproof/limits/finding"
)

// leftOut lists the steps that a launcher does not have, and why.
func leftOut(in Input) (out []LeftOut) {
	unfed := finding.Words("no single fault of this launcher shoots")
	noCurrent := finding.Words("nothing of it has current: hands move every valve")
	noRelief := finding.Words("there is no relief valve")
	for _, one := range []struct {
		id, title string
		why       finding.Text
	}{
		{finding.ItemEndCaps, "Caps and plugs", finding.Words("no cap or plug has a known force on it")},
		{finding.ItemHoseRestraint, "Hoses clipped", finding.Words("the design has no hose")},
		{finding.ItemReliefShutOff, "No shut-off before the relief valve", noRelief},
		{finding.ItemOneBarrel, "One barrel", finding.Words("one valve leads into the barrel")},
		{finding.ItemMuzzleAdmits, "What the muzzle lets in", finding.Words("the design states no muzzle_admits")},
		{finding.ItemSeatStop, "Stop that fixes the seat", finding.Words("it may sit anywhere, and every seat is judged")},
		{finding.ItemOneProjectile, "One projectile at a time",
			finding.Words("other things get in too: what keeps them out is a step of its own")},
		{finding.ObjectControlItem(0), "What keeps objects out", finding.Words("the design declares none")},
		{finding.ItemBore, "Restrictors gauged", finding.Words("no path is a drilled hole, and no shot hangs on a hose")},
		{finding.ItemPassage, "Passage of the firing valve", finding.Words("its stated flow is one that such valves have")},
		{finding.ItemDeadVolume, "Dead volume weighed", finding.Words("the stated one is what such a barrel leaves")},
		{finding.ItemOpeningTime, "Slow valves timed", finding.Words("no valve that current moves is stated far slower than its drive makes it")},
		{finding.ItemExhaust, "Exhaust ports blown through", finding.Words("no valve has an exhaust that hides a fault")},
		{finding.ItemGuard, "Guard at the muzzle", unfed},
		{finding.ItemFuses, "Fuses", noCurrent},
		{finding.ItemDryControl, "Stop, key and remote, without air", noCurrent},
		{finding.ItemSealGuard, "Guard against sealed lips", finding.Words("the design states none")},
		{finding.ItemTip, "Press test of the tip", finding.Words("the tip is not said to be soft, and counts as rigid")},
		{finding.ItemTipRadius, "Radius of a rigid tip", finding.Words("the tip is shown to be soft")},
		{finding.ItemWeighed, "Projectiles weighed", finding.Words("its foam soaks no water, or soaked it still keeps the limits")},
		{finding.ItemNotFrozen, "Projectiles that turn freely", finding.Words("no frost where it is used, or frozen in its seat it still keeps " +
			"the limits")},
		{finding.ItemWaterTest, "Proved with water",
			finding.Words("no vessel is home-made or without papers; whose label cannot be read is both, and fails label.ratings")},
		{finding.ItemReliefTest, "Relief valve on a bench", noRelief},
		{finding.ItemTwoActions, "Two actions before a shot", unfed},
		{finding.ItemContacts, "Each contact by itself", finding.Words("the design states no [control]")},
		{finding.ItemPrefill, "Gauge of what comes filled", finding.Words("no vessel comes filled")},
		{finding.ItemVentLow, "Venting at a low pressure", finding.Words("a volume does not empty, or how it empties is not known")},
		{finding.ItemVentByHand, "Vents opened by hand", finding.Words("every vent opens by itself")},
		{finding.ItemGaugeCompare, "Gauge compared", finding.Words("the design states no gauge")},
		{finding.ItemShotsWeak, "Weak shots", finding.Words("at no lower mark of the gauge, well apart, does the nominal shot leave the barrel")},
		{finding.ItemShotsMiddle, "Shots between weak and full",
			finding.Words("no mark of the gauge, well apart, lies between the weakest that leaves the barrel and full pressure")},
		{finding.ItemSwitchTest, "Switch by steps", finding.Words("there is no pressure switch")},
		{finding.ItemPumpMark, "Pumped to a mark", finding.Words("nobody ends the filling by a mark")},
		{finding.ItemTimerEmpty, "Timer from empty", finding.Words("no timer ends the filling")},
		{finding.ItemReliefInPlace, "Relief valve in place", checklist.NotInPlace(in.Launcher)},
		{finding.ItemSupplyOff, "Supply unplugged", finding.Words("its supply does not run on by itself")},
		{finding.ItemHearing, "Noise of a shot", finding.Words("whether its peak is too loud is known without a recording, or not computed")},
		{finding.ItemPrint, "Contact print", finding.Words("the design states no contact_diameter")},
	} {
		if finding.IndexOfItem(in.Items, one.id) < 0 {
			out = append(out, LeftOut{one.id, one.title, one.why})
		}
	}
	return out
}
