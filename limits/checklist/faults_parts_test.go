package checklist

import (
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/vent"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The expected figures of items are those that close them.
func TestItemsOfFaultsExpectFigures(t *testing.T) {
	l := relieved()
	a := judgedAlone(l)
	a.Loading = &vent.Loading{Names: []string{"tank"}, Wait: 12.3}
	items := FaultItems(a)
	relief := itemIn(t, items, finding.ItemReliefTest).Figure
	assert.InDelta(t, 0.2e5, relief.Low, 0)
	assert.InDelta(t, 0.25e5, relief.High, 0)
	assert.InDelta(t, 13, itemIn(t, items, finding.ItemLoadingWait).Figure.Low, 0)
	cut := itemIn(t, items, finding.ItemSwitchTest).Figure
	assert.InDelta(t, 0.1e5, cut.Low, 0)
	assert.InDelta(t, 0.12e5, cut.High, 0)
	a.Faults.Faults = []fault.Result{{Effect: fault.FiresUnasked, Energy: 1e-3}}
	itemIn(t, FaultItems(a), finding.ItemGuard)
}
