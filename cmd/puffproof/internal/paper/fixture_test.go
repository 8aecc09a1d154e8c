package paper

import (
	"crypto/sha256"
	"encoding/hex"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/manual"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits"
	"puffproof/limits/benchmark"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
)

// invented is an input with the real launcher of an example design and invented
// answers: only their place in the papers matters here.
func invented(t *testing.T, change func(text string) string) Input {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "..", "..", "testdata", "designs", "whale.toml"))
	require.NoError(t, err)
	text := string(data)
	if change != nil {
		text = change(text)
	}
	l, problems := design.Reader{}.Read("whale.toml", []byte(text))
	require.Empty(t, problems)
	sum := sha256.Sum256([]byte(text))
	return Input{
		Design: show.DesignID{Name: l.Name, Revision: l.Revision, SHA256: hex.EncodeToString(sum[:])},
		Text:   text, Launcher: l, Report: inventedReport(), Vent: inventedVent(), Faults: inventedFaults(), Shot: inventedShot(),
		NoFlight: "invented", Date: "2026-05-31", Version: "of the tests", DimensionOf: manual.DimensionOf,
	}
}

func number(v float64) *float64 { return &v }

func inventedReport() limits.Report {
	return limits.Report{
		Holds: true, OpenItems: 1,
		Verdicts: []finding.Verdict{
			{ID: "energy.total", Title: "Energy of the projectile, worst case", Status: finding.Pass, Value: number(0.2071), Limit: number(0.5),
				Unit:   finding.InJoule,
				Margin: number(0.5858), Basis: finding.OnModel, Source: "a standard, 4.17.3 (V2: read in a secondary text)",
				Why: finding.Words("the hardest of 10 invented shots")},
			{ID: "stored.energy", Title: "Energy stored", Status: finding.Pass, Value: number(215), Limit: number(5000), Unit: finding.InJoule,
				Margin: number(0.957),
				Basis:  finding.OnCircuit, Source: "a directive, Art. 4 (M: from memory)"},
			{ID: "valve.differential", Title: "Lowest pressure for the firing valve", Status: finding.NotApplicable,
				Why: finding.Words("none is piloted")},
		},
		Items: []finding.Item{
			{ID: "confirm.shots", Title: finding.Words("Measure at least 5 shots"), Why: finding.Words("A model is no measurement."),
				How: finding.Words("Chronograph."), Expect: finding.Words("about 4.1 m/s"), Verdict: "energy.total"},
			{ID: "seal-guard", Title: finding.Words("Inspect the guard"), Why: finding.Words("Lips."), How: finding.Words("A wet hand."),
				Done: &finding.Confirmation{Item: "seal-guard", Who: "two initials", Date: "2026-05-01", Value: "air passes"}},
		},
		Energy: &worst.EnergyReport{NominalShot: worst.ShotFigures{Outcome: "left", FinalEnergy: 0.044}, WorstEnergy: 0.1657, Factor: 1.25,
			FactorSource: finding.Words("invented"), Model: 0.2071,
			Ceiling: 101.4, Judged: 0.2071, Basis: finding.OnModel, Limit: 0.5, StartHigh: 70300, Runs: 10, Maxima: 2, Gap: 0.01,
			WorstPoint: worst.Point{{Key: "barrel.bore", Value: 0.0412, Side: "high"}, {Key: "start pressure", Value: 70300, Side: "high"}}},
		Eye: []benchmark.EyeFigure{{Injury: "corneal abrasion", Half: 1503, Ratio: 0.1043}},
		Assumed: []launcher.Band{{Set: true, Key: "supply.dead_head", Low: 3.2e5, Nominal: 4e5, High: 4.8e5, Assumed: true,
			Reason: finding.Words("invented")}},
	}
}

// failing is the same with one failure and one unknown.
func failing(in Input) Input {
	r := inventedReport()
	r.Holds, r.OpenItems = false, 1
	r.Verdicts[0].Status, r.Verdicts[0].Value, r.Verdicts[0].Margin = finding.Fail, number(0.71), number(-0.42)
	r.Verdicts[0].Advice = finding.Words("Lower the cut-out.")
	r.Verdicts = append(r.Verdicts, finding.Verdict{ID: "gauge.readable", Title: "The least pressure a gauge can tell",
		Status: finding.Unknown, Why: finding.Words("missing: gauge.range")})
	in.Report = r
	return in
}

func inventedVent() *vent.Report {
	sheet := []vent.Reading{{Time: 0, Low: 1e5, Gauge: 1.05e5, High: 1.05e5}, {Time: 5, Low: 0.1e5, Gauge: 0.14e5, High: 0.3e5}, {Time: 10,
		Low: 0, Gauge: 300, High: 4000}, {Time: 15, Low: 0, Gauge: 1, High: 900}}
	return &vent.Report{Target: 5000, TargetWhy: finding.Words("as stated"), Within: 60, Start: 1.05e5, StartWhy: finding.Words("invented"),
		Tests: []vent.StopwatchTest{{Volume: "tank", Scenario: "power lost from armed", Low: 0.31e5, Start: 0.36e5, High: 0.47e5, Slowest: 8.4,
			Rebound: 12000,
			Sheet: []vent.Reading{{Time: 0, Low: 0.31e5, Gauge: 0.36e5, High: 0.47e5}, {Time: 4, Low: 0, Gauge: 3600, High: 0.22e5}, {Time: 8,
				Low: 0, Gauge: 100, High: 5800}}}}, Cases: []vent.Case{
			{Scenario: "shutdown from armed", Kind: vent.Shutdown, Volume: "tank", Start: 1.05e5, Status: vent.Vented, Slowest: 10.8, Expected: 7.2,
				Fastest: 3.6, Sheet: sheet},
			{Scenario: "power lost from armed", Kind: vent.PowerLost, Volume: "tank", Start: 1.05e5, Status: vent.Vented, Slowest: 10.8,
				Expected: 7.2, Fastest: 3.6, Sheet: sheet},
		}}
}

func inventedFaults() *fault.Report {
	return &fault.Report{Faults: []fault.Result{
		{ID: "fire.open", Part: "fire", Mode: fault.StuckOpen, State: "armed", WorstGauge: 70300, Energy: 0.1, Judged: 0.15,
			Status: finding.Pass, Consequence: finding.Words("fires late"), DetectedBy: finding.Words("the sound")},
		{ID: "relief.shut", Part: "relief", Mode: fault.ReliefStuckShut, State: "any", WorstGauge: math.NaN(), Judged: math.NaN(),
			Status: finding.Unknown, Reason: finding.Words("no dead head"), Latent: true, RevealedBy: "relief.lift"},
	}}
}

func inventedShot() *show.ShotView {
	return &show.ShotView{Outcome: "left", Start: []show.NodeGauge{{Name: "tank", Gauge: 42000}}, MuzzleSpeed: 4.1, MuzzleEnergy: 0.034,
		FinalEnergy: 0.036, ExitTime: 0.03, PeakGauge: 1800,
		Ceiling: 8, Series: show.Series{Time: []float64{0, 0.01, 0.02, 0.03}, Travel: []float64{0, 0.01, 0.03, 0.06}, Speed: []float64{0, 1, 3,
			4.1}, Gauge: []float64{0, 1800, 900, 300}}}
}

func built(t *testing.T, in Input) *document.Document {
	t.Helper()
	d, err := Build(in)
	require.NoError(t, err)
	return d
}
