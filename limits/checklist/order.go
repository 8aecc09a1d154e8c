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
	other     = "a second adult, who neither built it nor took the readings"
)

// stage says what a launcher has in it while an item is done.
type stage uint8

const (
	empty   stage = iota // no air, the supply unplugged
	charged              // air, nobody shoots
	shot                 // air, and shots at nobody
)

// Phase is a stretch of the way from a built launcher to one that may be used.
type Phase uint8

// The phases in the only safe order. Nothing rests on what comes after it: what may burst is read and proved before any air
// enters; what limits the pressure is tried before what fills to it; what lets the air out, at a pressure that does little,
// before one that does more; hands practise without air before they go near it; the weakest shot is the first (own rule of
// this project, common practice).
const (
	Papers Phase = iota
	Water
	Bench
	DryControl
	LowVent
	LeakDown
	SwitchSteps
	ReliefInPlace
	FaultsTried
	Drills
	TestShots
	ClearZone
	SecondLook
	Phases // how many there are
)

// step is what is known of an item beside the launcher that has it.
type step struct {
	id    string // or what it begins with, where a number or a key follows
	phase Phase
	with  stage
	who   string // does it
}

// steps are all items in the order of doing. Own rule of this project (common practice, no source).
func steps() []step {
	return []step{
		{finding.AheadItem, Papers, empty, owner},
		{finding.ItemLabels, Papers, empty, twoAdults}, {finding.ItemAgeRetire, Papers, empty, twoAdults},
		{finding.ItemEndCaps, Papers, empty, twoAdults}, {finding.ItemHoseRestraint, Papers, empty, twoAdults},
		{finding.ItemReliefShutOff, Papers, empty, twoAdults}, {finding.ItemOneBarrel, Papers, empty, twoAdults},
		{finding.ItemBore, Papers, empty, twoAdults}, {finding.ItemExhaust, Papers, empty, twoAdults},
		{finding.ItemFuses, Papers, empty, twoAdults}, {finding.ItemGuard, Papers, empty, twoAdults},
		{finding.ItemSealGuard, Papers, empty, twoAdults}, {finding.ItemMuzzleAdmits, Papers, empty, twoAdults},
		{finding.ItemSeatStop, Papers, empty, twoAdults}, {finding.ItemElevation, Papers, empty, twoAdults},
		{finding.ItemTip, Papers, empty, twoAdults}, {finding.ItemTugAndBite, Papers, empty, twoAdults},
		{finding.ItemOpenTag, Papers, empty, inCharge},

		{finding.ItemWaterTest, Water, empty, twoAdults},

		{finding.ItemReliefTest, Bench, charged, twoAdults},

		{finding.ItemTwoActions, DryControl, empty, twoAdults}, {finding.ItemDryControl, DryControl, empty, twoAdults},

		{finding.ItemPrefill, LowVent, charged, fillers}, {finding.ItemVentLow, LowVent, charged, twoAdults},
		{finding.ItemKeyAndStop, LowVent, charged, inCharge}, {finding.ItemVentByHand, LowVent, charged, twoAdults},
		{finding.ItemVentOutlets, LowVent, charged, twoAdults},

		{finding.ItemGaugeCompare, LeakDown, charged, twoAdults}, {finding.ItemLeakDown, LeakDown, charged, twoAdults},

		{finding.ItemSwitchTest, SwitchSteps, charged, twoAdults}, {finding.ItemPumpMark, SwitchSteps, charged, fillers},
		{finding.ItemTimerEmpty, SwitchSteps, charged, fillers},

		{finding.ItemReliefInPlace, ReliefInPlace, charged, twoAdults},

		{finding.ItemVentTest, FaultsTried, charged, twoAdults}, {finding.ItemStaysEmpty, FaultsTried, charged, twoAdults},
		{finding.ItemSupplyOff, FaultsTried, charged, twoAdults}, {finding.ItemFaultsTried, FaultsTried, charged, twoAdults},
		{finding.ItemBarrelEmpty, FaultsTried, charged, twoAdults}, {finding.ItemColdDrain, FaultsTried, charged, twoAdults},

		{finding.ItemJamDrill, Drills, empty, loaders}, {finding.ItemLookIn, Drills, empty, loaders},
		{finding.ItemOneProjectile, Drills, empty, loaders}, {finding.ControlItem, Drills, empty, inCharge},
		{finding.ItemLoadingWait, Drills, charged, loaders},

		{finding.ItemClearAllRound, TestShots, empty, inCharge}, {finding.ItemShotsWeak, TestShots, shot, twoAdults},
		{finding.ItemPrint, TestShots, shot, twoAdults}, {finding.ItemShotsMiddle, TestShots, shot, twoAdults},
		{finding.ItemShots, TestShots, shot, twoAdults}, {finding.ItemHearing, TestShots, shot, twoAdults},

		{finding.ItemLandingClear, ClearZone, shot, inCharge},

		{finding.ItemSecondLook, SecondLook, empty, other},
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
	Who   string
	Phase Phase // one that is not known belongs to the last shots
}

// InOrder gives items in the order of doing. The list given stays as it is.
func InOrder(items []finding.Item) []Step {
	all, out := steps(), make([]Step, len(items))
	for i, it := range items {
		out[i] = Step{it, twoAdults, TestShots}
		if at := stepOf(all, it.ID); at < len(all) {
			out[i].Who, out[i].Phase = all[at].who, all[at].phase
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
