package checklist

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// A hole that the design says cannot be left out is looked at: the verdict on faults does not reckon with its being missing.
func TestAHoleOfThePartItselfIsShown(t *testing.T) {
	how := func(removable launcher.Answer) string {
		l := sample.Whale()
		sample.PathNamed(l, "feed").Flow.Removable = removable
		return assessed.Item(t, controlTests(assessed.WithFaults(l)), finding.ItemBore).How.String()
	}
	assert.NotContains(t, how(launcher.Unanswered), "Unscrew")
	assert.Contains(t, how(launcher.No), "Unscrew the fittings at feed: the hole is drilled through the part itself")
}

// What is said to stop a pump by hand is tried by the strongest person there: more than the stated dead head closes nothing.
func TestWhatStopsAPumpByHandIsTried(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) { l.Switch, l.Supply.Kind = nil, launcher.HandPump })
	it := assessed.Item(t, fillingItems(assessed.WithFaults(l)), finding.ItemPumpMark)
	assert.Contains(t, it.Title.String(), "strongest person")
	assert.InDelta(t, 4*sample.Bars, it.Figure.High, 0)
	assert.Equal(t, "no reading above 4.0 bar", it.Expect.String())
}
