package finding

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Figures that must not look smaller than they are, in digits that mean something: three femtojoules are no figure of a launcher.
func TestWorstFigures(t *testing.T) {
	for want, got := range map[string]Shown{
		"0.00010 J": WorstJoule(3.1e-15), "0.00013 J": WorstJoule(1.21e-4), "0 J": WorstJoule(0), "0.50 J": WorstJoule(0.4999),
		"10.3 m": WorstMetre(10.217), "14.0 m": WorstMetre(13.951), "0.46 m": WorstMetre(0.451),
	} {
		assert.Equal(t, want, got.String())
	}
}
