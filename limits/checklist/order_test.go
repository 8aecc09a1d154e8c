package checklist

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/finding"
)

// Every item has its place in the order, once: one that had none would come last, behind the shots.
func TestEveryItemHasItsPlace(t *testing.T) {
	all := steps()
	for _, id := range append(finding.ItemIDs(), finding.AheadItem+"barrel.made_on", finding.ObjectControlItem(11)) {
		at := stepOf(all, id)
		if assert.Less(t, at, len(all), id) {
			assert.NotEmpty(t, all[at].who, id)
			assert.Equal(t, len(all), at+1+stepOf(all[at+1:], id), "%s stands twice", id)
		}
	}
	assert.Equal(t, len(all), stepOf(all, "confirm.shot"))
	assert.False(t, Empty("confirm.shot"), "what is not known may need air")
}

// What makes a test safe is done before it: what may burst is looked at before any air, what limits the pressure is tried
// before what fills to it, what empties it before hands go near, all of them before a shot; the weakest shots first.
// Own rule of this project.
func TestTheOrderIsThatOfDoing(t *testing.T) {
	before := func(first, then string) {
		t.Helper()
		items := InOrder([]finding.Item{{ID: then}, {ID: first}})
		assert.Equal(t, first, items[0].ID, "%s before %s", first, then)
	}
	before("date-ahead.projectile.made_on", finding.ItemLabels)
	for _, air := range []string{finding.ItemReliefTest, finding.ItemGaugeCompare, finding.ItemSwitchTest, finding.ItemVentTest} {
		for _, look := range []string{finding.ItemLabels, finding.ItemEndCaps, finding.ItemReliefShutOff, finding.ItemWaterTest} {
			before(look, air)
		}
		for _, shots := range []string{finding.ItemPrint, finding.ItemShots, finding.ItemLandingClear} {
			before(air, shots)
			before(finding.ItemJamDrill, shots)
			before(finding.ItemClearAllRound, shots)
			before(finding.ItemLoadingWait, shots)
		}
	}
	before(finding.ItemReliefTest, finding.ItemSwitchTest)
	before(finding.ItemGaugeCompare, finding.ItemSwitchTest)
	before(finding.ItemVentTest, finding.ItemBarrelEmpty)
	before(finding.ItemPrint, finding.ItemShots)
}

// The phases follow each other as a commissioning does, and no item stands among those of another phase; what limits and
// empties is tried with little air before more of it, and the relief valve before any. Own rule of this project.
func TestThePhasesFollowEachOther(t *testing.T) {
	last := Papers
	for _, s := range steps() {
		assert.GreaterOrEqual(t, s.phase, last, s.id)
		last = s.phase
		if s.phase < Bench {
			assert.Equal(t, empty, s.with, s.id)
		}
	}
	assert.Equal(t, SecondLook, last)
	phaseOf := func(id string) Phase { return InOrder([]finding.Item{{ID: id}})[0].Phase }
	want := []string{finding.ItemLabels, finding.ItemWaterTest, finding.ItemReliefTest, finding.ItemDryControl, finding.ItemVentLow,
		finding.ItemLeakDown, finding.ItemSwitchTest, finding.ItemReliefInPlace, finding.ItemFaultsTried, finding.ItemJamDrill,
		finding.ItemShotsWeak, finding.ItemLandingClear, finding.ItemSecondLook}
	assert.Len(t, want, int(Phases))
	for i, id := range want {
		assert.Equal(t, Phase(i), phaseOf(id), id)
	}
}

// The list that is put in order stays as it is, and nothing gets lost. What is done says who did it.
func TestInOrderKeepsWhatItGets(t *testing.T) {
	items := []finding.Item{{ID: finding.ItemShots}, {ID: "of.no-name"}, {ID: finding.ItemLabels, Done: &finding.Confirmation{Who: "A. N."}}}
	ordered := InOrder(items)
	assert.Equal(t, []Step{{items[2], "A. N.", Papers, 1}, {items[0], twoAdults, TestShots, 2}, {items[1], twoAdults, TestShots, 2}}, ordered)
	assert.Equal(t, finding.ItemShots, items[0].ID)
}
