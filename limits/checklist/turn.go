package checklist

import (
	"slices"
	"strings"

	"puffproof/limits/finding"
)

// InTurn opens again what was answered out of its turn. An answer by hand closes its item only where whoever writes answers down would
// have taken it: with no open item before it in the order of doing, and on no earlier day than one before it. A reading of the record
// is due again where something that it rests on was done anew after it, of another build or after it had failed. The list given
// stays as it is.
func InTurn(items []finding.Item) []finding.Item {
	items = slices.Clone(items)
	var open, last *finding.Item
	for _, s := range InOrder(items) {
		it := &items[finding.IndexOfItem(items, s.ID)]
		if why := outOfTurn(it, open, last); why != nil {
			it.Done, it.OpenWhy = nil, why
		} else if x := doneAnew(it, items); x != nil {
			it.OpenWhy = finding.Say("its reading of %s is older than %s (%s), on which it rests and which was done anew on %s, of another build "+
				"or after it had failed: do it again", it.Done.Date, x.Title, x.ID, x.Done.Date)
			it.Done = nil
		}
		switch {
		case it.Done == nil && open == nil:
			open = it
		case it.Done != nil && (last == nil || dayOf(it) > dayOf(last)):
			last = it
		}
	}
	return items
}

// dayOf is the day on which an item was done; "" none is told.
func dayOf(it *finding.Item) string { return strings.TrimSpace(it.Done.Date) }

// shooting are the items that a file of measured shots answers.
var shooting = []string{finding.ItemShotsWeak, finding.ItemShotsMiddle, finding.ItemShots}

// outOfTurn says why an answer by hand does not close its item behind those before it: the first that is open, and the one that was
// done last; nil: there is none. nil: it does, or the answer is none by hand.
func outOfTurn(it, open, last *finding.Item) finding.Text {
	switch {
	case it.Done == nil:
		return nil
	case it.Done.Shows != nil && open != nil && slices.Contains(shooting, it.ID):
		return finding.Say("%s does not count yet: %s (%s) goes before it and is open", it.Done.Who, open.Title, open.ID)
	case !it.Done.Said():
		return nil
	case open != nil:
		return finding.Say("its answer of %s is said, out of order: %s (%s) goes before it and is open", dayOf(it), open.Title, open.ID)
	case last != nil && dayOf(it) < dayOf(last):
		return finding.Say("its answer of %s is said, out of order: %s (%s) goes before it and was done on %s", dayOf(it), last.Title, last.ID,
			dayOf(last))
	}
	return nil
}

// doneAnew is an item on which one rests and that was done anew after it; nil: none was.
func doneAnew(it *finding.Item, items []finding.Item) *finding.Item {
	if it.Done == nil || !it.Done.Recorded {
		return nil
	}
	for i := range items {
		x := &items[i]
		if x.Done != nil && x.Done.Recorded && x.Done.Since > it.Done.Entry && rests(it.ID, x.ID) {
			return x
		}
	}
	return nil
}

// rests tells whether what a reading of an item says rests on an item that goes before it: what was mended there may have changed it.
// Own rule of this project, no source.
func rests(id, before string) bool {
	shots := []string{finding.ItemShotsWeak, finding.ItemShotsMiddle, finding.ItemShots, finding.ItemLandingClear}
	emptyings := []string{finding.ItemVentTest, finding.ItemStaysEmpty, finding.ItemSupplyOff, finding.ItemFaultsTried,
		finding.ItemLoadingWait}
	filled := slices.Concat(emptyings, shots)
	first := []string{finding.ItemVentLow, finding.ItemKeyAndStop, finding.ItemVentByHand}
	if id == finding.ItemSecondLook {
		return id != before
	}
	on := map[string][]string{
		finding.ItemGaugeCompare: slices.Concat(filled, []string{finding.ItemLeakDown, finding.ItemSwitchTest, finding.ItemPumpMark,
			finding.ItemTimerEmpty, finding.ItemReliefInPlace}), // every reading off the gauge
		finding.ItemBore:        slices.Concat(first, filled),
		finding.ItemPassage:     shots,
		finding.ItemDeadVolume:  shots,
		finding.ItemOpeningTime: shots,
		finding.ItemExhaust:     emptyings,
		finding.ItemReliefTest:  {finding.ItemReliefInPlace},
		finding.ItemTwoActions:  {finding.ItemDryControl, finding.ItemKeyAndStop, finding.ItemFaultsTried},
		finding.ItemContacts:    {finding.ItemDryControl, finding.ItemKeyAndStop, finding.ItemFaultsTried},
		finding.ItemDryControl:  {finding.ItemKeyAndStop, finding.ItemVentTest, finding.ItemFaultsTried},
		finding.ItemVentLow:     slices.Concat(first, emptyings),
		finding.ItemVentByHand:  emptyings,
		finding.ItemVentTest:    {finding.ItemStaysEmpty, finding.ItemFaultsTried, finding.ItemLoadingWait},
		finding.ItemLeakDown:    slices.Concat([]string{finding.ItemBarrelEmpty}, shots),
		finding.ItemSwitchTest:  filled,
		finding.ItemPumpMark:    filled,
		finding.ItemTimerEmpty:  filled,
		finding.ItemSeatStop:    shots,
		finding.ItemElevation:   {finding.ItemLandingClear},
		finding.ItemTip:         slices.Concat([]string{finding.ItemPrint}, shots),
		finding.ItemTipRadius:   shots,
		finding.ItemTugAndBite:  slices.Concat([]string{finding.ItemPrint}, shots),
		finding.ItemWeighed:     shots,
		finding.ItemNotFrozen:   shots,
		finding.ItemShotsWeak:   shots,
		finding.ItemShotsMiddle: shots[2:],
		finding.ItemShots:       shots[3:],
	}[before]
	return id != before && slices.Contains(on, id)
}
