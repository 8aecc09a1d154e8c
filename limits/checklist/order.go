package checklist

import (
	"cmp"
	"slices"
	"strings"

	"puffproof/limits/finding"
)

// The people who do an item.
const (
	oneAdult  = "one adult, who initials what was seen"
	twoAdults = "two adults, one of them watches and initials"
	inCharge  = "the adult in charge, on the day"
	watched   = "the adult in charge, and a second who watches"
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
		{finding.RecordItem, Papers, empty, owner},
		{finding.AheadItem, Papers, empty, owner},
		{finding.ItemLabels, Papers, empty, oneAdult}, {finding.ItemAgeRetire, Papers, empty, oneAdult},
		{finding.ItemEndCaps, Papers, empty, oneAdult}, {finding.ItemHoseRestraint, Papers, empty, oneAdult},
		{finding.ItemReliefShutOff, Papers, empty, oneAdult}, {finding.ItemOneBarrel, Papers, empty, oneAdult},
		{finding.ItemBore, Papers, empty, oneAdult}, {finding.ItemExhaust, Papers, empty, oneAdult},
		{finding.ItemPassage, Papers, empty, oneAdult}, {finding.ItemDeadVolume, Papers, empty, oneAdult},
		{finding.ItemFuses, Papers, empty, oneAdult}, {finding.ItemGuard, Papers, empty, oneAdult},
		{finding.ItemSealGuard, Papers, empty, oneAdult}, {finding.ItemMuzzleAdmits, Papers, empty, oneAdult},
		{finding.ItemSeatStop, Papers, empty, oneAdult}, {finding.ItemElevation, Papers, empty, oneAdult},
		{finding.ItemTip, Papers, empty, oneAdult}, {finding.ItemTipRadius, Papers, empty, oneAdult},
		{finding.ItemTugAndBite, Papers, empty, oneAdult}, {finding.ItemWeighed, Papers, empty, oneAdult},
		{finding.ItemOpenTag, Papers, empty, inCharge},

		{finding.ItemWaterTest, Water, empty, twoAdults},

		{finding.ItemReliefTest, Bench, charged, twoAdults},

		{finding.ItemContacts, DryControl, empty, oneAdult},
		{finding.ItemTwoActions, DryControl, empty, oneAdult}, {finding.ItemDryControl, DryControl, empty, oneAdult},
		{finding.ItemOpeningTime, DryControl, empty, oneAdult},

		{finding.ItemPrefill, LowVent, charged, fillers}, {finding.ItemVentLow, LowVent, charged, twoAdults},
		{finding.ItemKeyAndStop, LowVent, charged, watched}, {finding.ItemVentByHand, LowVent, charged, twoAdults},
		{finding.ItemVentOutlets, LowVent, charged, twoAdults},

		{finding.ItemGaugeCompare, LeakDown, charged, twoAdults}, {finding.ItemLeakDown, LeakDown, charged, twoAdults},

		{finding.ItemSwitchTest, SwitchSteps, charged, twoAdults}, {finding.ItemPumpMark, SwitchSteps, charged, fillers},
		{finding.ItemTimerEmpty, SwitchSteps, charged, fillers},

		{finding.ItemReliefInPlace, ReliefInPlace, charged, twoAdults},

		{finding.ItemVentTest, FaultsTried, charged, twoAdults}, {finding.ItemStaysEmpty, FaultsTried, charged, twoAdults},
		{finding.ItemSupplyOff, FaultsTried, charged, twoAdults}, {finding.ItemFaultsTried, FaultsTried, charged, twoAdults},
		{finding.ItemBarrelEmpty, FaultsTried, charged, twoAdults}, {finding.ItemColdDrain, FaultsTried, charged, twoAdults},

		{finding.ItemJamDrill, Drills, empty, loaders}, {finding.ItemLookIn, Drills, empty, loaders},
		{finding.ItemNotFrozen, Drills, empty, loaders}, {finding.ItemOneProjectile, Drills, empty, loaders},
		{finding.ControlItem, Drills, empty, inCharge},
		{finding.ItemLoadingWait, Drills, charged, loaders},

		{finding.ItemClearAllRound, TestShots, empty, inCharge}, {finding.ItemShotsWeak, TestShots, shot, twoAdults},
		{finding.ItemPrint, TestShots, shot, twoAdults}, {finding.ItemShotsMiddle, TestShots, shot, twoAdults},
		{finding.ItemShots, TestShots, shot, twoAdults}, {finding.ItemHearing, TestShots, shot, twoAdults},

		{finding.ItemLandingClear, ClearZone, shot, watched},

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
	Who    string
	Phase  Phase // one that is not known belongs to the last shots
	People int   // how many different names an answer has at least
}

// people is how many have to have been there: where something is under pressure nobody is alone.
func (s *step) people() int {
	if s.with != empty || s.phase == Water {
		return 2
	}
	return 1
}

// InOrder gives items in the order of doing. The list given stays as it is.
func InOrder(items []finding.Item) []Step {
	all, out := steps(), make([]Step, len(items))
	for i, it := range items {
		out[i] = Step{it, twoAdults, TestShots, 2}
		if at := stepOf(all, it.ID); at < len(all) {
			out[i].Who, out[i].Phase, out[i].People = all[at].who, all[at].phase, all[at].people()
		}
		if it.Done != nil {
			out[i].Who = it.Done.Who
		}
	}
	slices.SortStableFunc(out, func(a, b Step) int { return cmp.Compare(stepOf(all, a.ID), stepOf(all, b.ID)) })
	return out
}

// ToDo are the steps of some that are open; where none is, those that are only said.
func ToDo(steps []Step) []Step {
	open := slices.DeleteFunc(slices.Clone(steps), func(s Step) bool { return s.Done != nil })
	if len(open) > 0 {
		return open
	}
	return slices.DeleteFunc(slices.Clone(steps), func(s Step) bool { return !s.Done.Said() })
}

// Empty tells whether an item is done without air in the launcher. One that is not known may need it.
func Empty(id string) bool {
	all := steps()
	i := stepOf(all, id)
	return i < len(all) && all[i].with == empty
}
