package checklist

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// Who holds a hose's print against the list finds there what the print has to say: a wider hose shoots harder, and shows it nowhere else.
func TestHosesHaveTheirBoreInTheList(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) {
		l.Paths[0].Name, l.Paths[0].Hose = "fire", &launcher.HoseSpec{Bore: launcher.Band{Set: true, Low: 7.8e-3, Nominal: 8e-3, High: 8.2e-3}}
	})
	assert.Equal(t, "; inside of hoses, by their print: fire 7.80 mm to 8.20 mm", hosePrints(l).String())
	l.Paths[0].Hose.Shared = true
	assert.Empty(t, hosePrints(l), "it is told with the way that has it")
}
