package remedy

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/advise"
	"puffproof/limits/finding"
)

func words(w string) advise.Value { return advise.Value{Words: []string{w}} }

// A change that mends a verdict is told before one that only helps, whichever was tried first.
func TestWhatMendsIsToldFirst(t *testing.T) {
	at := func(v float64, st finding.Status) finding.Verdict {
		limit := 0.5
		return finding.Verdict{ID: finding.EnergyFault, Status: st, Value: &v, Limit: &limit}
	}
	proof := func(key string, after finding.Verdict) Proof {
		return Proof{Remedy: advise.Remedy{Verdict: finding.EnergyFault, Changes: []advise.Change{{Key: key, To: words("x"), Why: "why"}}},
			Before: at(1, finding.Fail), After: after}
	}
	verdicts := []finding.Verdict{at(1, finding.Fail)}
	Proven(verdicts, []Proof{proof("a.helps", at(0.6, finding.Fail)), proof("b.mends", at(0.4, finding.Pass))})
	said := verdicts[0].Advice.String()
	require.Contains(t, said, `a.helps = "x"`)
	require.True(t, strings.HasPrefix(said, `b.mends = "x"`), said)
	assert.Equal(t, `b.mends = "x"`, verdicts[0].Brief.String(), "in brief the first alone, without its reason")
	Proven(verdicts, []Proof{proof("a.helps", at(0.6, finding.Fail))})
	assert.Equal(t, `a.helps = "x", which alone does not do`, verdicts[0].Brief.String())
	p := proof("paths.relief.set_pressure", at(0.4, finding.Pass))
	p.Changes = append(p.Changes, advise.Change{Key: "paths.relief.full_flow_pressure", To: words("y")}, advise.Change{Key: "barrel.travel",
		To: words("z")})
	assert.Equal(t, `paths.relief.set_pressure = "x", full_flow_pressure = "y", barrel.travel = "z"`, p.brief().String())
}
