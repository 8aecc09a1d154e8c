package checklist

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// Each control has an item of its own; where nothing enters, one projectile at a time is
// left to watch.
func TestItemsOnWhatEnters(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) {
		l.Barrel.ObjectControl = []string{"supervised loading by the adult in charge", "a cover"}
	})
	items := controlItems(l)
	assert.Contains(t, assessed.Item(t, items, "object-control.1").Title.String(), "supervised loading")
	assert.Contains(t, assessed.Item(t, items, "object-control.2").Title.String(), "a cover")
	assert.Negative(t, finding.IndexOfItem(items, finding.ItemOneProjectile))
	for name, change := range map[string]func(*launcher.Launcher){
		"grid":          func(l *launcher.Launcher) { l.Barrel.ObjectControl = []string{"grid of 5 mm"} },
		"muzzle_admits": func(l *launcher.Launcher) { l.Barrel.MuzzleAdmits = launcher.Exact("", 5*sample.Millimetres) },
	} {
		assert.GreaterOrEqual(t, finding.IndexOfItem(controlItems(sample.Plain(change)), finding.ItemOneProjectile), 0, name)
	}
}
