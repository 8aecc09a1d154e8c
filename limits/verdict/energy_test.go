package verdict

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"puffproof/limits/worst"
)

// totalsOf has the energies alone, weakly searched: a verdict asks what becomes of them.
func totalsOf(t *testing.T, changes ...func(*launcher.Launcher)) *assessment.Assessment {
	t.Helper()
	return assessed.Energies(t, sample.Plain(append([]func(*launcher.Launcher){sample.Weak}, changes...)...), assessment.Options{Strength: 0.05})
}

func TestEnergyVerdicts(t *testing.T) {
	r := totalsOf(t)
	total, area := Of(r, finding.EnergyTotal), Of(r, finding.EnergyArea)
	assert.Equal(t, finding.Pass, total.Status)
	assert.Equal(t, finding.OnModel, total.Basis)
	assert.InEpsilon(t, r.Energy.WorstEnergy*worst.ModelFactor, *total.Value, sample.Rounding)
	assert.Contains(t, total.Advice.String(), "5 measured shots")
	assert.Equal(t, 0.5, *total.Limit)
	require.LessOrEqual(t, *total.Value, 0.08)
	assert.Equal(t, finding.NotApplicable, area.Status, "at or below the floor of 0.08 J")

	strong := func(l *launcher.Launcher) {
		l.Paths[0].Flow, l.Barrel.Travel = sample.Cv(2.5), launcher.Exact("", 0.3)
		l.Volumes[0].Volume = launcher.Exact("", 2e-3)
	}
	r = totalsOf(t, sample.CutOut(0.9*sample.Bars), strong)
	require.Greater(t, r.Energy.Judged, 0.08)
	area = Of(r, finding.EnergyArea)
	assert.InEpsilon(t, r.Energy.Judged/launcher.Circle(30*sample.Millimetres), *area.Value, sample.Rounding)
	assert.Equal(t, 1600.0, *area.Limit)
	r = totalsOf(t, sample.CutOut(0.9*sample.Bars), strong, func(l *launcher.Launcher) { l.Projectile.ContactDiameter = launcher.Band{} })
	assert.Equal(t, finding.Unknown, Of(r, finding.EnergyArea).Status)
	assert.Contains(t, Of(r, finding.EnergyArea).Why.String(), "contact_diameter")
	for name, tip := range map[string]func(*launcher.Launcher){
		"rigid":    func(l *launcher.Launcher) { l.Projectile.Resilient = false },
		"unstated": func(l *launcher.Launcher) { l.Projectile.TipStated = false },
		"unproved": func(l *launcher.Launcher) { l.Projectile.TipProof = " " },
	} {
		assert.Equal(t, 0.08, *Of(totalsOf(t, tip), finding.EnergyTotal).Limit, name)
	}
	own := totalsOf(t, func(l *launcher.Launcher) { l.Limits.TotalEnergy = launcher.Exact("limits.total_energy", 1e-4) })
	assert.Equal(t, finding.Fail, Of(own, finding.EnergyTotal).Status, "the builder's own stricter limit")
	unknown := totalsOf(t, func(l *launcher.Launcher) { l.Switch, l.Supply = nil, nil })
	assert.Equal(t, finding.Unknown, Of(unknown, finding.EnergyTotal).Status)
	assert.Equal(t, finding.Unknown, Of(unknown, finding.EnergyArea).Status)
	tiny := totalsOf(t, sample.CutOut(0.02*sample.Bars), func(l *launcher.Launcher) {
		l.Supply.DeadHead = launcher.Exact("",
			0.02*sample.Bars)
	})
	assert.Equal(t, finding.OnCeiling, Of(tiny, finding.EnergyTotal).Basis, "so little air that no valve can make 0.5 J of it")
}

func BenchmarkWorstCase(b *testing.B) {
	l := sample.Whale()
	high, _ := l.SoakedHigh()
	for b.Loop() {
		if _, err := worst.Maximise(context.Background(), l, worst.EnergyQuestion(l, high), search.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
