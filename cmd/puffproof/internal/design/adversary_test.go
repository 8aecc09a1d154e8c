package design

import (
	"context"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/fault"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/testdata/compare/random"
)

// The adversary of the searches: every maximum that is judged (normal operation, ceiling, stuck
// projectile, plugged barrel, other objects, each single fault), searched again many times as
// long and from other points, must not come out more than 2 % higher. The two share the
// method; points drawn without one are the assault's (TestAssault).
//
//	PUFFPROOF_LONG=1 go test ./cmd/puffproof/internal/design -run Adversary -v -timeout 0
//
// PUFFPROOF_DESIGNS (40) random designs from PUFFPROOF_SEED (0) on, PUFFPROOF_TIMES (6) as long. PUFFPROOF_DEAR leaves out those
// whose usual search takes longer than so many seconds (600), and counts them. PUFFPROOF_SHOTS=1 looks at normal operation, ceiling
// and stuck projectile alone, in a tenth of the time.
func TestAdversary(t *testing.T) {
	if os.Getenv("PUFFPROOF_LONG") == "" {
		text, err := os.ReadFile("../../testdata/least.toml")
		require.NoError(t, err)
		l, problems := Read("least.toml", text)
		require.Empty(t, problems)
		ctx := context.Background()
		brief, longer := maximaOf(ctx, t, l, 0.02), maximaOf(ctx, t, l, 0.1)
		require.Len(t, longer, len(brief), "the same questions")
		assert.Greater(t, len(brief), 10)
		for i, m := range brief {
			assert.Equal(t, m.name, longer[i].name)
			assert.Greater(t, longer[i].value, 0.98*m.value, "%s: five times as long a search finds no less", m.name)
		}
		return
	}
	first, designs := uint64(numberFrom("PUFFPROOF_SEED", 0)), numberFrom("PUFFPROOF_DESIGNS", 40)
	strong, dear, left := float64(numberFrom("PUFFPROOF_TIMES", 6)), time.Duration(numberFrom("PUFFPROOF_DEAR", 600))*time.Second, 0
	table := map[string][]float64{} // by kind of question: what the adversary found over what is judged
	for seed := first; designs > 0; seed++ {
		l, problems := Read("random.toml", random.Design(seed))
		if len(problems) > 0 {
			continue
		}
		vary(l, rand.New(rand.NewPCG(seed, 5)))
		designs--
		start := time.Now()
		brief, cancel := context.WithTimeout(context.Background(), dear)
		usual := maximaOf(brief, t, l, 1)
		cancel()
		if brief.Err() != nil && len(usual) == 0 {
			left++
			t.Logf("seed %d: left out, not searched in %v", seed, dear)
			continue
		}
		longer := maximaOf(context.Background(), t, l, strong)
		if len(usual) != len(longer) {
			t.Logf("seed %d: withheld at one strength only", seed)
			continue
		}
		for i, m := range usual {
			require.Equal(t, m.name, longer[i].name)
			if !(m.value > negligibleMaximum) || math.IsNaN(longer[i].value) {
				continue
			}
			if most := topOf(usual, m.kind); (m.kind == "fault" || m.kind == "object") && !worst.MayBeMost(m.value, most) {
				assert.Less(t, longer[i].value, most, "seed %d: %s was only sketched", seed, m.name)
				continue
			}
			ratio := longer[i].value / m.value
			table[m.kind] = append(table[m.kind], ratio)
			if ratio > 1.02 {
				t.Logf("seed %d: %s: %.5g, searched longer %.5g, %.1f %% more", seed, m.name, m.value, longer[i].value, 100*(ratio-1))
			}
		}
		t.Logf("seed %d: %d maxima, %.0f s", seed, len(usual), time.Since(start).Seconds())
	}
	t.Logf("%d designs left out, whose usual search took longer than %v", left, dear)
	for kind, ratios := range table {
		slices.Sort(ratios)
		over := len(ratios) - 1 - lastBelow(ratios, 1.02)
		t.Logf("%-10s %5d maxima, %d more than 2 %% higher, most %.3f", kind, len(ratios), over, ratios[len(ratios)-1])
	}
}

// topOf is the greatest value of a kind.
func topOf(list []maximum, kind string) float64 {
	top := math.Inf(-1)
	for _, m := range list {
		if m.kind == kind && m.value > top {
			top = m.value
		}
	}
	return top
}

// negligibleMaximum is the energy or pressure below which it does not matter [J or Pa].
const negligibleMaximum = 1e-3

// lastBelow is the index of the last of sorted values that is not above a limit; -1: none.
func lastBelow(values []float64, limit float64) int {
	at, _ := slices.BinarySearch(values, math.Nextafter(limit, math.Inf(1)))
	return at - 1
}

// maximum is what one search found.
type maximum struct {
	kind, name string
	value      float64
}

// maximaOf searches everything that is judged of a launcher at a strength; none where it is
// withheld or not known, or where the context ended.
func maximaOf(ctx context.Context, t *testing.T, l *launcher.Launcher, strength float64) (out []maximum) {
	o := assessment.Options{Strength: strength, Day: "2026-01-01"}
	shots := os.Getenv("PUFFPROOF_SHOTS") != ""
	if shots {
		o.Want = assessment.EnergyStage | assessment.StuckStage
	}
	a, err := assessment.Make(ctx, l, o)
	if _, withheld := err.(*worst.WithheldError); withheld { //nolint:errorlint // never wrapped
		return nil
	}
	if ctx.Err() != nil {
		return nil
	}
	require.NoError(t, err)
	add := func(kind, name string, value float64) { out = append(out, maximum{kind, kind + " " + name, value}) }
	if len(a.EnergyUnknown()) == 0 {
		add("normal", "", a.Normal.Value)
		add("ceiling", "", a.Energy.Ceiling)
	}
	add("stuck", "", a.Stuck.Freed)
	add("plugged", "", a.Plugged.Value)
	if shots {
		return out
	}
	for _, m := range a.Misuse {
		add("object", m.Name.String(), m.Energy)
	}
	for _, f := range a.Faults.ByPart() {
		if f.Effect != fault.NoEffect && f.SameAs == "" {
			add("fault", f.ID, f.Energy)
		}
	}
	return out
}
