package design

import (
	"bytes"
	"fmt"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/launcher"
	"puffproof/pneumatics"
	"puffproof/testdata/compare/random"
)

// Random designs are there to be computed: the reader takes nearly all of them.
func TestRandomDesignsAreRead(t *testing.T) {
	n, refused := 100, 0
	if os.Getenv("PUFFPROOF_MORE") != "" {
		n = 400
	}
	for seed := range uint64(n) {
		if _, problems := Read("random.toml", random.Design(seed)); len(problems) > 0 {
			refused++
			t.Logf("seed %d: %s", seed, list(problems))
		}
	}
	require.LessOrEqual(t, refused, n/20, "at most one in twenty is refused")
}

// Every band that the reader makes of a random design is sound. Readings of a bench
// give their reason for a band that is not assumed; those designs are left out.
func TestRandomDesignsHaveSoundBands(t *testing.T) {
	designs := uint64(20)
	if os.Getenv("PUFFPROOF_MORE") != "" {
		designs = 60
	}
	for seed := range designs {
		if l, problems := Read("random.toml", random.Design(seed)); len(problems) == 0 && l.Bench == nil {
			soundBands(t, l)
		}
	}
}

// A random design says nothing that counts as not stated: figures that no part has test the reader, not the engine.
func TestRandomDesignsAreHonest(t *testing.T) {
	sources := 0
	for seed := range uint64(400) {
		if l, problems := Read("random.toml", random.Design(seed)); len(problems) == 0 {
			for _, g := range l.TooGood {
				assert.Fail(t, "counts as not stated", "seed %d: %s = %s", seed, g.Key, g.Stated)
			}
			if l.Supply != nil && l.Supply.Regulated() && l.Supply.SourcePressure.Line != 0 {
				sources++
			}
		}
	}
	require.Positive(t, sources)
}

// The same seed gives the same design; another one gives another.
func TestRandomDesignsComeFromTheirSeed(t *testing.T) {
	for seed := range uint64(50) {
		require.True(t, bytes.Equal(random.Design(seed), random.Design(seed)), "seed %d", seed)
		require.False(t, bytes.Equal(random.Design(seed), random.Design(seed+1)), "seed %d", seed)
	}
}

// The first 120 designs, as many as testdata/compare takes, have every kind of path,
// supply and fit, every form of flow, and launchers with and without the parts that
// verdicts ask for.
func TestRandomDesignsSpanTheKinds(t *testing.T) {
	seen := map[string]bool{}
	for seed := range uint64(120) {
		l, problems := Read("random.toml", random.Design(seed))
		if len(problems) > 0 {
			continue
		}
		for _, p := range l.Paths {
			seen["path "+p.Kind.String()] = true
			if p.Kind != pneumatics.Hose {
				seen[fmt.Sprint("flow ", p.Flow.Form)] = true
			}
			seen[fmt.Sprint("hose on a path ", p.Hose != nil)] = true
			if p.Kind == pneumatics.Relief {
				seen["relief on "+p.From] = true
			}
		}
		if l.Supply != nil {
			if l.Switch == nil {
				seen[fmt.Sprint("filled by ", l.Working().By)] = true
			}
			seen[fmt.Sprint("supply ", l.Supply.Kind)], seen[fmt.Sprint("curve ", len(l.Supply.Curve) > 0)] = true, true
		}
		if l.Switch != nil {
			seen["switch on "+l.Switch.Senses] = true
		}
		for what, has := range map[string]bool{"supply": l.Supply != nil, "switch": l.Switch != nil, "bench": l.Bench != nil,
			"event": l.Event != nil, "venting": l.Venting != nil, "objects": len(l.Objects) > 0, "answers": len(l.Checklist) > 0,
			"gauge": len(l.Gauges) > 0, "friction": l.Projectile.Breakaway.Set, "over a tube": l.Barrel.Fit == pneumatics.OverTube,
			"fixed seat": l.Barrel.FixedSeat, "ride-on": l.Mount.RideOn, "nitrogen": l.Gas == "nitrogen"} {
			seen[fmt.Sprint(what, " ", has)] = true
		}
	}
	var want []string
	for kind := pneumatics.Orifice; kind <= pneumatics.Regulator; kind++ {
		want = append(want, "path "+kind.String())
	}
	for form := launcher.SonicConductance; form <= launcher.SeatBore; form++ {
		want = append(want, fmt.Sprint("flow ", form))
	}
	for _, kind := range []launcher.SupplyKind{launcher.Compressor, launcher.HandPump, launcher.RegulatedCylinder, launcher.ShopAir} {
		want = append(want, fmt.Sprint("supply ", kind))
	}
	for _, what := range []string{"supply", "switch", "bench", "event", "venting", "objects", "answers", "gauge", "friction",
		"over a tube", "fixed seat", "ride-on", "nitrogen", "curve", "hose on a path"} {
		want = append(want, what+" true", what+" false")
	}
	for _, by := range []launcher.Stop{launcher.StopMark, launcher.StopTimer, launcher.StopRelief, launcher.StopDeadHead} {
		want = append(want, fmt.Sprint("filled by ", by))
	}
	want = append(want, "relief on tank", "relief on dose", "relief on barrel", "switch on tank", "switch on dose")
	for _, one := range want {
		require.Contains(t, seen, one)
	}
}
