package checklist

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// An answer that this design does not ask for is said; one that it asks for is not.
func TestAnswersThatThisDesignDoesNotAsk(t *testing.T) {
	l := &launcher.Launcher{Checklist: []finding.Confirmation{{Item: finding.ItemShots}, {Item: finding.ObjectControlItem(3)}}}
	items := []finding.Item{{ID: finding.ItemShots}}
	assert.Contains(t, Unneeded(l, items).String(), "does not ask: object-control.4.")
	assert.Empty(t, Unneeded(&launcher.Launcher{Checklist: l.Checklist[:1]}, items))
}
