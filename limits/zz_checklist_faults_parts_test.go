package limits

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The expected figures of items are those that close them.
func TestItemsOfFaultsExpectFigures(t *testing.T) {
	l := relieved()
	a := judgedAlone(l)
	a.Loading = &loadingAir{names: []string{"tank"}, wait: 12.3}
	items := faultItems(a)
	relief := itemIn(t, items, ItemReliefTest).Figure
	assert.InDelta(t, 0.2e5, relief.Low, 0)
	assert.InDelta(t, 0.25e5, relief.High, 0)
	assert.InDelta(t, 13, itemIn(t, items, ItemLoadingWait).Figure.Low, 0)
	cut := itemIn(t, items, ItemSwitchTest).Figure
	assert.InDelta(t, 0.1e5, cut.Low, 0)
	assert.InDelta(t, 0.12e5, cut.High, 0)
	a.Faults.Faults = []FaultResult{{Effect: FiresUnasked, Energy: 1e-3}}
	itemIn(t, faultItems(a), ItemGuard)
}
