package export

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits"
	"puffproof/limits/finding"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// Another program is told of every shot that a change of state lets off, and which of them is judged; what nobody knows is null.
func TestShotsByAChangeOfStateAreTold(t *testing.T) {
	energy := &worst.EnergyReport{Basis: finding.OnModel, Model: 0.1, Judged: 0.5, Entered: []worst.Entered{
		{State: pneumatics.Off, Valves: []string{"fire"}, Energy: 0.4, Judged: 0.5},
		{State: pneumatics.Armed, Energy: 0.2, Judged: 0.25},
		{State: pneumatics.Charging, Unknown: finding.Words("no free air")}}}
	of := func(r *worst.EnergyReport) any {
		text, err := Check(show.DesignID{}, limits.Report{Energy: r})
		require.NoError(t, err)
		var doc struct {
			Energy struct {
				Entered any `json:"entered"`
			} `json:"energy"`
		}
		require.NoError(t, json.Unmarshal(text, &doc))
		return doc.Energy.Entered
	}
	assert.Equal(t, []any{
		map[string]any{"state": "off", "does": "switching it off", "valves": []any{"fire"}, "final_energy_J": 0.4, "judged_J": 0.5,
			"shoots": true, "decides": true, "unknown": nil},
		map[string]any{"state": "armed", "does": "arming it", "valves": []any{}, "final_energy_J": 0.2, "judged_J": 0.25,
			"shoots": true, "decides": false, "unknown": nil},
		map[string]any{"state": "charging", "does": "charging it", "valves": []any{}, "final_energy_J": nil, "judged_J": nil,
			"shoots": false, "decides": false, "unknown": "no free air"},
	}, of(energy))
	assert.Equal(t, []any{}, of(&worst.EnergyReport{}))
}
