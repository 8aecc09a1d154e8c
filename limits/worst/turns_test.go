package worst

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"puffproof/pneumatics"
)

// inSeries is the plain launcher with a second valve before the firing one, and a small volume between: their kinds, and how long each
// takes to open [s].
func inSeries(one, two pneumatics.PathKind, before, behind float64) *launcher.Launcher {
	return sample.Plain(func(l *launcher.Launcher) {
		l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "mid", Volume: launcher.Exact("volumes.mid.volume", 30*sample.Millilitres)})
		fire := &l.Paths[0]
		fire.Kind, fire.From, fire.OpeningTime = two, "mid", launcher.Exact("paths.fire.opening_time", behind)
		l.Paths = append(l.Paths, launcher.PathSpec{Name: "safety", From: "tank", To: "mid", Kind: one, Flow: sample.Cv(2.5),
			OpenIn: pneumatics.SetOf(pneumatics.Firing), OpeningTime: launcher.Exact("paths.safety.opening_time", before)})
	}).InTurn()
}

// Of two valves in series with presses of their own, or that a hand turns, either may be the first one that stands open. Held against the
// three shots as they are, put together by hand: both at once, the first one before with the air between as in the tank, and the second one
// before with none. Two taps counted as opened from the tank on: a slow one behind throttled a fast one before it.
func TestValvesInSeriesAreOpenedInEitherOrder(t *testing.T) {
	const high = 0.95e5
	firing := pneumatics.SetOf(pneumatics.Firing)
	hand, electric := pneumatics.HandValve, pneumatics.Valve
	for name, kinds := range map[string][2]pneumatics.PathKind{"two that current opens": {electric, electric}, "two taps": {hand, hand},
		"a tap before": {hand, electric}, "a tap behind": {electric, hand}} {
		for slow, c := range map[string]struct {
			before, behind float64 // opening times [s]
			hardest        int     // of the three
		}{"a slow one before": {0.3, 1e-3, 1}, "a slow one behind": {1e-3, 0.3, 2}} {
			name := name + ", " + slow
			l := inSeries(kinds[0], kinds[1], c.before, c.behind)
			var want [3]float64
			for i := range want {
				w := l.Clone()
				w.Paths[0].OpenIn, w.Paths[1].OpenIn = firing, firing
				if i > 0 {
					w.Paths[2-i].OpenIn |= pneumatics.SetOf(pneumatics.Armed)
				}
				circuit := new(pneumatics.Circuit)
				w.FillShot(circuit)
				sc := &pneumatics.Scenario{From: pneumatics.Armed, To: pneumatics.Firing, Parts: w.Model.Parts}
				for _, g := range [][]float64{{high, 0}, {high, high}, {high, 0}}[i] {
					sc.Volumes = append(sc.Volumes, pneumatics.Condition{Pressure: circuit.Ambient.Pressure + g, Temperature: 293.15})
				}
				var sim pneumatics.Sim
				r := sim.Run(circuit, sc, pneumatics.Options{})
				require.Equal(t, pneumatics.Left, r.Outcome, name)
				want[i] = r.FinalEnergy
			}
			for i := range want {
				if i != c.hardest {
					require.Greater(t, want[c.hardest], 1.2*want[i], "%s: else it shows nothing", name)
				}
			}
			found, err := Maximise(sample.Weakly(), l, EnergyQuestion(l, high), search.Options{})
			require.NoError(t, err)
			energy, _ := found.Energies()
			assert.GreaterOrEqual(t, energy, want[c.hardest]*(1-1e-4), "%s: a search's tolerance", name)
			assert.LessOrEqual(t, energy, want[c.hardest]*1.01, "%s: nothing else is fixed, and the pressure is at most that; the push on", name)
		}
	}
}

// A valve that fills the volume before the firing valve while charging, and opens again for the shot, is not opened last: with the firing
// valve open before it that volume would be empty. It counted as full, behind a firing valve that stands wide open.
func TestAValveThatChargesIsNotTheLast(t *testing.T) {
	for charges, orders := range map[bool]int{false: 2, true: 0} {
		l := sample.Plain(func(l *launcher.Launcher) {
			l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "dose", Volume: launcher.Exact("volumes.dose.volume", 30*sample.Millilitres)})
			l.Paths[0].From = "dose"
			feed := launcher.PathSpec{Name: "feed", From: "tank", To: "dose", Kind: pneumatics.Valve, Flow: sample.Cv(0.1),
				OpenIn: pneumatics.SetOf(pneumatics.Firing)}
			if charges {
				feed.OpenIn |= pneumatics.SetOf(pneumatics.Charging)
			}
			l.Paths = append(l.Paths, feed)
		}).InTurn()
		assert.Len(t, turnsOf(l), orders, "charges: %v", charges)
	}
}
