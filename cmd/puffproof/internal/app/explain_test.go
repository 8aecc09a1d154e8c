package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/cmd/puffproof/internal/manual"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits/explain"
)

// Every key that an explanation names is one of the design file: as the reference has them.
func TestExplanationsNameKeysThatThereAre(t *testing.T) {
	known := map[string]bool{}
	for _, table := range manual.Reference(quantity.Metric) {
		name := table.Table
		if name == "hose" {
			name = "paths.NAME.hose"
		}
		for _, k := range table.Keys {
			known[name+"."+k.Key] = true
		}
	}
	for _, e := range explain.All() {
		seen := map[string]bool{}
		for _, key := range e.Moves {
			assert.True(t, known[key], "%s: the design file has no key %s", e.ID, key)
			assert.False(t, seen[key], "%s: %s is named twice", e.ID, key)
			seen[key] = true
		}
	}
}

// In US units no explanation says a metric figure; those of a published document stay as
// they are printed there.
func TestExplanationsInUSUnits(t *testing.T) {
	for _, id := range verdictIDs() {
		st, out, errOut := puffproof(t, "explain", "--units", "us", id)
		assert.Equal(t, statusOK, st, errOut)
		text := strings.Join(strings.Fields(out), " ")
		for _, q := range quoted {
			text = strings.ReplaceAll(text, q.words, "")
		}
		assert.Empty(t, metricFigures(text), id)
	}
}
