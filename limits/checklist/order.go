package checklist

import (
	"cmp"
	"slices"
	"strings"

	"puffproof/limits/finding"
)

// The people who do an item.
const (
	twoAdults = "two adults, one of them watches and initials"
	inCharge  = "the adult in charge, on the day"
	loaders   = "everyone who loads, and the adult in charge"
	fillers   = "whoever fills it, and a second adult who reads the gauge"
	owner     = "whoever keeps the design file"
)

// stage says what a launcher has in it while an item is done.
type stage uint8

const (
	empty   stage = iota // no air, the supply unplugged
	charged              // air, nobody shoots
	shot                 // air, and shots at nobody
)

// step is what is known of an item beside the launcher that has it.
type step struct {
	id   string // or what it begins with, where a number or a key follows
	with stage
	who  string // does it
}

// steps are all items in the order of doing: first what is looked at and tried without air, beginning with what could burst;
// then air, beginning with what limits it and what shows it, and only then what rests on both; then shots, the weakest first.
// Own rule of this project (common practice, no source).
func steps() []step {
	return []step{
		{finding.AheadItem, empty, owner},
		{finding.ItemLabels, empty, twoAdults}, {finding.ItemAgeRetire, empty, twoAdults},
		{finding.ItemEndCaps, empty, twoAdults}, {finding.ItemHoseRestraint, empty, twoAdults},
		{finding.ItemReliefShutOff, empty, twoAdults}, {finding.ItemOneBarrel, empty, twoAdults},
		{finding.ItemBore, empty, twoAdults}, {finding.ItemExhaust, empty, twoAdults},
		{finding.ItemFuses, empty, twoAdults}, {finding.ItemTwoActions, empty, twoAdults},
		{finding.ItemGuard, empty, twoAdults}, {finding.ItemSealGuard, empty, twoAdults},
		{finding.ItemMuzzleAdmits, empty, twoAdults}, {finding.ItemSeatStop, empty, twoAdults},
		{finding.ItemElevation, empty, twoAdults}, {finding.ItemTip, empty, twoAdults},
		{finding.ItemTugAndBite, empty, twoAdults}, {finding.ItemOpenTag, empty, inCharge},
		{finding.ItemJamDrill, empty, loaders},

		{finding.ItemReliefTest, charged, twoAdults}, {finding.ItemGaugeCompare, charged, twoAdults},
		{finding.ItemPrefill, charged, fillers}, {finding.ItemPumpMark, charged, fillers}, {finding.ItemTimerEmpty, charged, fillers},
		{finding.ItemSwitchTest, charged, twoAdults}, {finding.ItemKeyAndStop, charged, inCharge},
		{finding.ItemVentByHand, charged, twoAdults}, {finding.ItemVentTest, charged, twoAdults},
		{finding.ItemStaysEmpty, charged, twoAdults}, {finding.ItemSupplyOff, charged, twoAdults},
		{finding.ItemVentOutlets, charged, twoAdults}, {finding.ItemLeakDown, charged, twoAdults},
		{finding.ItemBarrelEmpty, charged, twoAdults}, {finding.ItemColdDrain, charged, twoAdults},

		{finding.ItemClearAllRound, empty, inCharge}, {finding.ItemLookIn, empty, loaders},
		{finding.ItemOneProjectile, empty, loaders}, {finding.ControlItem, empty, inCharge},
		{finding.ItemLoadingWait, charged, loaders}, {finding.ItemPrint, shot, twoAdults},
		{finding.ItemShots, shot, twoAdults}, {finding.ItemHearing, shot, twoAdults}, {finding.ItemLandingClear, shot, inCharge},
	}
}

// stepOf is the place of an item among all steps; one that is not there comes last.
func stepOf(all []step, id string) int {
	i := slices.IndexFunc(all, func(s step) bool { return s.id == id || strings.HasSuffix(s.id, ".") && strings.HasPrefix(id, s.id) })
	if i < 0 {
		return len(all)
	}
	return i
}

// Step is an item with who does it; where it is done, who did it, or the file of readings that answers it.
type Step struct {
	finding.Item
	Who string
}

// InOrder gives items in the order of doing. The list given stays as it is.
func InOrder(items []finding.Item) []Step {
	all, out := steps(), make([]Step, len(items))
	for i, it := range items {
		out[i] = Step{it, twoAdults}
		if at := stepOf(all, it.ID); at < len(all) {
			out[i].Who = all[at].who
		}
		if it.Done != nil {
			out[i].Who = it.Done.Who
		}
	}
	slices.SortStableFunc(out, func(a, b Step) int { return cmp.Compare(stepOf(all, a.ID), stepOf(all, b.ID)) })
	return out
}

// Empty tells whether an item is done without air in the launcher. One that is not known may need it.
func Empty(id string) bool {
	all := steps()
	i := stepOf(all, id)
	return i < len(all) && all[i].with == empty
}
