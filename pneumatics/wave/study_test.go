package wave

import (
	"encoding/csv"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/pneumatics"
)

// go test -run RandomDesigns -designs 2000 -study study.csv -v
var (
	designs = flag.Int("designs", 60, "random designs of TestRandomDesigns")
	study   = flag.String("study", "", "file for the table of TestRandomDesigns")
)

// randomDesign draws a launcher of the kind that the program accepts: foam of 3
// to 30 g in a bore of 12 to 80 mm, 0.1 to 5 L at 0.1 to 3 bar, valves up to the
// size of the bore, from instant to 80 ms.
func randomDesign(r *rand.Rand) spec {
	between := func(low, high float64) float64 { return low * math.Exp(r.Float64()*math.Log(high/low)) }
	s := spec{bore: between(0.012, 0.08), tank: between(1e-4, 5e-3), gauge: between(1e4, 3e5), mass: between(3e-3, 30e-3), b: 0.2 +
		0.3*r.Float64()}
	area := math.Pi / 4 * s.bore * s.bore
	s.c = between(0.05, 1) * area / 502 // 5.02 mm2 per L/(s bar)
	s.dead = area * s.bore * between(0.2, 3)
	s.travel = min(s.bore*between(1, 30), 1.2)
	s.breakaway = 3 * r.Float64() * r.Float64()
	s.sliding = s.breakaway * r.Float64()
	if r.IntN(4) > 0 {
		s.opened = 0.08 * r.Float64()
	}
	if r.IntN(2) > 0 {
		s.clearance = 0.5e-3 * r.Float64()
	}
	return s
}

// difference is one design in both models.
type difference struct {
	spec
	rule         Rule
	lumped, wave float64 // muzzle speed [m/s]
	// wave less lumped energy, over the energy at the fastest point in the bore: at
	// the muzzle, and at that point [-]
	muzzle, peak float64
}

// compare runs both models; false where the lumped one does not leave.
func compare(t *testing.T, s spec) (difference, bool) {
	c, sc := launcher(s)
	return compareCircuit(t, s, c, sc, Options{Cells: 40})
}

// compareCircuit is compare for a circuit that is made.
func compareCircuit(t *testing.T, s spec, c *pneumatics.Circuit, sc *pneumatics.Scenario, o Options) (difference, bool) {
	sc.Parts.NoAfterMuzzle = true
	sc.Until = 2
	var sim pneumatics.Sim
	lumped := sim.Run(c, sc, pneumatics.Options{}).Clone()
	if lumped.Outcome != pneumatics.Left {
		return difference{}, false
	}
	fastest := lumped.MuzzleSpeed
	for _, v := range sim.Run(c, sc, pneumatics.Options{Samples: 1000, TraceEnd: lumped.ExitTime}).Trace.Speed {
		fastest = max(fastest, v)
	}
	w := shoot(t, c, sc, o)
	d := difference{spec: s, rule: RuleOf(c, lumped), lumped: lumped.MuzzleSpeed, wave: w.MuzzleSpeed}
	if w.Outcome != pneumatics.Left {
		d.wave = 0
	}
	d.muzzle = (d.wave*d.wave - d.lumped*d.lumped) / (fastest * fastest)
	d.peak = w.PeakSpeed*w.PeakSpeed/(fastest*fastest) - 1
	return d, true
}

// Lumped against wave over random designs. Inside the rule the wave model gives
// at most 10 % more energy than the lumped one; the model factor of the verdicts
// must be above that. A verdict is the maximum over the seating, so energies are
// measured by that at the fastest point in the bore: a projectile that leaves at
// the bottom of a bounce has a large relative difference in little energy.
// -designs 3000 gave, for the 1788 of 1927 that leave inside the rule, -4.1 to
// +7.0 % (root mean square 0.6 %), for the 139 outside -25 to +15 %.
// Common practice, no source.
func TestRandomDesigns(t *testing.T) {
	r := rand.New(rand.NewPCG(2026, 7))
	var all []difference
	for range *designs {
		if d, ok := compare(t, randomDesign(r)); ok {
			all = append(all, d)
		}
	}
	require.NotEmpty(t, all)
	var inside, outside []float64
	for _, d := range all {
		if !d.rule.Inside() {
			outside = append(outside, d.peak)
			continue
		}
		inside = append(inside, d.peak)
		assert.Less(t, d.peak, 0.10, "%+v", d)
		assert.Less(t, d.muzzle, 0.10, "%+v", d)
	}
	t.Logf("%d designs left; inside the rule %s; outside %s", len(all), summary(inside), summary(outside))
	writeStudy(t, all)
}

func summary(x []float64) string {
	if len(x) == 0 {
		return "none"
	}
	low, high, squares := math.Inf(1), math.Inf(-1), 0.0
	for _, v := range x {
		low, high, squares = min(low, v), max(high, v), squares+v*v
	}
	return fmt.Sprintf("%d: %+.2f … %+.2f %%, root mean square %.2f %%", len(x), 100*low, 100*high, 100*math.Sqrt(squares/float64(len(x))))
}

func writeStudy(t *testing.T, all []difference) {
	if *study == "" {
		return
	}
	f, err := os.Create(*study)
	require.NoError(t, err)
	defer f.Close()
	w := csv.NewWriter(f)
	defer w.Flush()
	row := func(v ...float64) (s []string) {
		for _, x := range v {
			s = append(s, strconv.FormatFloat(x, 'g', 6, 64))
		}
		return s
	}
	require.NoError(t, w.Write([]string{"tank_m3", "gauge_Pa", "C", "b", "dead_m3", "bore_m", "travel_m", "mass_kg", "breakaway_N",
		"sliding_N",
		"opening_s", "clearance_m", "hose_bore_m", "hose_length_m", "hose_over_valve", "gas_over_mass", "sound_times", "lumped_m_s",
		"wave_m_s", "muzzle_energy_difference", "peak_energy_difference"}))
	for _, d := range all {
		require.NoError(t, w.Write(row(d.tank, d.gauge, d.c, d.b, d.dead, d.bore, d.travel, d.mass, d.breakaway, d.sliding,
			d.opened, d.clearance, d.hose.Bore, d.hose.Length, d.hoseOverValve, d.rule.GasRatio, d.rule.SoundTimes, d.lumped, d.wave,
			d.muzzle, d.peak)))
	}
}
