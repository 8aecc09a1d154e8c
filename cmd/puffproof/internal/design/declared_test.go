package design

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/launcher"
)

func TestDeclaredValuesAreKept(t *testing.T) {
	data, err := os.ReadFile("../../../../testdata/designs/whale.toml")
	require.NoError(t, err)
	text := strings.NewReplacer(
		`tip_proof = "press test record of 2026-04-02, two initials"`, `tip_proof = "declared: the adult in charge says so"`,
		"stop_pin = false", `stop_pin = "declared no"`, `"4.0 g ± 0.4 g, measured"`, `"4.0 g ± 0.4 g, declared"`).Replace(string(data))
	l, problems := Read("whale.toml", []byte(text))
	require.Empty(t, problems)
	assert.Equal(t, []string{"gauge.stop_pin", "projectile.mass", "projectile.tip_proof"}, l.Declared)
	assert.Equal(t, launcher.No, l.Gauges[0].StopPin)
	assert.Equal(t, launcher.ResilientTip, launcher.TipOf(l.Projectile))
	assert.Equal(t, launcher.Declared, l.Projectile.Mass.Origin)
}
