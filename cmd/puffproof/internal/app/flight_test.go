package app

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/trial"
)

// The status of flight is that of check's verdicts on where a projectile comes down: 0 too where they hold on a condition, which is
// told; 1 where nobody said who is near, or where the own wheels are reached by a vehicle that moves.
func TestFlightHoldsAsItsVerdictsDo(t *testing.T) {
	const near, wheels = `nearest_person = "2 m"`, "nearest_person = \"2 m\"\nwheels = \"1 m\"\nvehicle_speed = "
	for _, c := range []struct {
		name string
		with []string
		want status
		said string
	}{
		{"somebody inside", nil, statusOK, "(people.landing) holds only while this is kept"},
		{"nobody far and wide", []string{near, `nearest_person = "90 m"`, `ear_to_muzzle = "1 m"`, `ear_to_muzzle = "90 m"`}, statusOK,
			"(people.landing) holds only while this is kept: 23 tolerances"},
		{"not known who", []string{near, ``}, statusNotHeld, "(people.landing) UNKNOWN: missing: event.nearest_person"},
		{"wheels at a stand", []string{near, wheels + `"0 km/h"`}, statusOK, "(people.wheels) holds only while this is kept"},
		{"wheels that move", []string{near, wheels + `"6 km/h"`}, statusNotHeld, "(people.wheels) FAIL: it may fire while it moves"},
	} {
		text := least(t, append([]string{`# The least`, `# The`}, c.with...)...)
		st, out, errOut := puffproof(t, "flight", designFile(t, text))
		assert.Equal(t, c.want, st, "%s: %s", c.name, errOut)
		assert.Contains(t, strings.Join(strings.Fields(out), " "), c.said, c.name)
	}
}

// The energies of flight are the fastest shot's speed with the heaviest projectile's mass: none is below what check judges on the model.
func TestTheEnergiesOfFlightAreNotBelowWhatCheckJudges(t *testing.T) {
	path := designFile(t, least(t, `mass = "8.0 g ± 0"`, `mass = "8.0 g ± 2 g"`))
	var flown struct {
		Flight struct {
			Levels []struct {
				Energy float64 `json:"energy_J"`
			} `json:"level_shot"`
		}
	}
	var checked told
	for command, into := range map[string]any{"flight": &flown, "check": &checked} {
		var out, errOut bytes.Buffer
		host := Host{Stdin: strings.NewReader(""), Stdout: &out, Stderr: &errOut, Now: time.Now}
		run(trial.Lightly(t.Context(), 0.02), newRegistry(), host, []string{"puffproof", command, path, "--json"})
		require.NoError(t, json.Unmarshal(out.Bytes(), into), errOut.String())
	}
	require.NotEmpty(t, flown.Flight.Levels)
	// A given energy is fastest at 6 g; 10 g at that speed have 10/6 of it.
	assert.InEpsilon(t, 10.0/6, flown.Flight.Levels[0].Energy/checked.Energy.Judged, 0.02, "what two searches of one maximum differ by")
}
