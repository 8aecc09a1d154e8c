package inputfile

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What is given in the place of a design is told apart by its first line: the columns that plan and vent write, those of an own sheet,
// the first entry of a record. A design, and what is broken, is none of these.
func TestWhatAFileIsInstead(t *testing.T) {
	for text, want := range map[string]string{
		"# shots\n\npressure [bar],speed [m/s],projectile\n":                               "calibrate DESIGN --shots f.csv reads it",
		"\ufeffPressure [psi];Projectile;speed [ft/s]\n":                                   "calibrate DESIGN --shots f.csv reads it",
		"volume,scenario,time [s],gauge [bar]\ntank,off,0,0.3\n":                           "vent DESIGN --log f.csv reads it",
		"volume,scenario,time [s],gauge [bar]\ntank,\"leak-down, armed\",0,0.3\n":          "vent DESIGN --leak-log f.csv reads it",
		"{\"n\":1,\"kind\":\"design\",\"at\":\"2026-11-30T01:30:29Z\",\"program\":\"x\"\n": "record of a commissioning",
	} {
		assert.Contains(t, Instead("f.csv", text), want, text)
	}
	for _, text := range []string{"", "name = \"A launcher, at a pressure, in time\"\n", "[barrel]\nbore = \"41 mm\"\n", "a,b\n", "{}",
		"speed = \"1 m/s\", pressure\n"} {
		assert.Empty(t, Instead("f.toml", text), text)
	}
}
