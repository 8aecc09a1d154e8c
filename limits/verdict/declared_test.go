package verdict

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// What rests on a declaration is never a pass; what does not, stays one; a failure stays one.
func TestDeclaredIsNeverAPass(t *testing.T) {
	judged := func(id string, value float64, declared ...string) finding.Verdict {
		v := finding.NewVerdict(id, "", finding.InJoule)
		v.Judge(value, 1)
		holdsIfTrue(&launcher.Launcher{Declared: declared}, &v)
		return v
	}
	v := judged(finding.EnergyTotal, 0.5, "barrel.material", "projectile.tip_proof")
	assert.Equal(t, finding.Conditional, v.Status)
	assert.Contains(t, v.Condition.String(), "projectile.tip_proof")
	assert.NotContains(t, v.Condition.String(), "material")
	assert.Equal(t, []string{finding.ItemTip}, v.Items)
	assert.InDelta(t, 0.5, *v.Margin, 0)
	assert.Equal(t, finding.Fail, judged(finding.EnergyTotal, 2, "projectile.tip_proof").Status)
	assert.Equal(t, finding.Pass, judged(finding.SwitchBand, 0.5, "projectile.tip_proof").Status)
	assert.Equal(t, finding.Conditional, judged(finding.SwitchBand, 0.5, "projectile.mass").Status, "what is not listed bears on all")

	v = finding.NewVerdict(finding.MuzzleSealed, "", finding.InJoule)
	v.Judge(0.5, 1)
	v.HoldsWhile(finding.Words("the guard stays on"), finding.ItemGuard)
	holdsIfTrue(&launcher.Launcher{Declared: []string{"supply.dead_head", "barrel.seal_guard"}}, &v)
	assert.Contains(t, v.Condition.String(), "the guard stays on; and 2 declarations")
	assert.Equal(t, []string{finding.ItemSealGuard, finding.ItemGuard}, v.Items)
}

// What is computed from a tolerance that nothing of its origin gives is never a pass; what hangs on no figure stays one, a failure too.
func TestATooNarrowToleranceIsNeverAPass(t *testing.T) {
	judged := func(id string, value float64, narrow ...string) finding.Verdict {
		v := finding.NewVerdict(id, "", finding.InJoule)
		v.Judge(value, 1)
		l := &launcher.Launcher{Declared: []string{"barrel.bore"}}
		for _, key := range narrow {
			l.Narrow = append(l.Narrow, launcher.Narrow{Key: key})
		}
		holdsIfNarrow(l, &v)
		return v
	}
	v := judged(finding.EnergyTotal, 0.5, "projectile.mass")
	assert.Equal(t, finding.Conditional, v.Status)
	assert.Equal(t, "the tolerance of projectile.mass is as narrow as stated", v.Condition.String())
	v = judged(finding.VentShutdown, 0.5, "volumes.tank.volume", "projectile.mass")
	assert.Contains(t, v.Condition.String(), "the tolerances of volumes.tank.volume, projectile.mass are")
	v = judged(finding.VentShutdown, 0.5, "a", "b", "c", "d")
	assert.Equal(t, "4 tolerances that a note lists are as narrow as stated", v.Condition.String())
	assert.Equal(t, []string{finding.ItemPrint}, judged(finding.EnergyTotal, 0.5, "projectile.contact_diameter").Items)
	for name, v := range map[string]finding.Verdict{"sound": judged(finding.SoundAtPeak, 0.5, "projectile.mass"),
		"no figure": judged(finding.DatesPast, 0.5, "projectile.mass"), "none": judged(
			finding.EnergyTotal, 0.5), "declared already": judged(finding.EnergyTotal, 0.5, "barrel.bore"), "bears on another": judged(
			finding.EnergyTotal, 0.5, "supply.noise_level")} {
		assert.Equal(t, finding.Pass, v.Status, name)
	}
	assert.Equal(t, finding.Fail, judged(finding.EnergyTotal, 2, "projectile.mass").Status)
}

// The tolerance of what flies, and of where to, is no condition of a pressure before the shot while the firing valve shuts the barrel off;
// where air gets into it before, or by a hose, and of all that a shot moves it is one.
func TestANarrowToleranceBearsOnWhatIsComputedWithIt(t *testing.T) {
	shutOff := func(change func(*launcher.PathSpec)) *launcher.Launcher {
		p := launcher.PathSpec{Name: "fire", From: "dose", To: "barrel", Kind: pneumatics.Valve, OpenIn: pneumatics.SetOf(pneumatics.Firing)}
		change(&p)
		return &launcher.Launcher{Paths: []launcher.PathSpec{p, {Name: "bleed", From: "barrel", To: "atmosphere"}}}
	}
	asIs := func(*launcher.PathSpec) {}
	for _, c := range []struct {
		id, key string
		change  func(*launcher.PathSpec)
		want    finding.Status
	}{
		{finding.StoredEnergy, "projectile.clearance", asIs, finding.Pass},
		{finding.ReliefRating, "mount.elevation_max", asIs, finding.Pass},
		{finding.VesselRating, "event.wind", asIs, finding.Pass},
		{finding.ReliefRating, "barrel.travel", asIs, finding.Pass},
		{finding.VesselRating, "barrel.bore", asIs, finding.Conditional},
		{finding.VesselRating, "barrel.rated_pressure", asIs, finding.Conditional},
		{finding.StoredEnergy, "volumes.tank.volume", asIs, finding.Conditional},
		{finding.HeatSoak, "ambient.pressure", asIs, finding.Conditional},
		{finding.ReliefRating, "paths.relief.orifice", asIs, finding.Conditional},
		{finding.EnergyTotal, "mount.elevation_max", asIs, finding.Conditional},
		{finding.PeopleLanding, "event.wind", asIs, finding.Conditional},
		{finding.GaugeReadable, "barrel.dead_volume", asIs, finding.Conditional},
		{finding.VesselRating, "projectile.clearance", func(p *launcher.PathSpec) { p.Hose = &launcher.HoseSpec{} }, finding.Conditional},
		{finding.HeatSoak, "projectile.clearance", func(p *launcher.PathSpec) { p.Kind = pneumatics.Orifice }, finding.Conditional},
		{finding.HeatSoak, "projectile.clearance", func(p *launcher.PathSpec) { p.OpenIn |= pneumatics.SetOf(pneumatics.Armed) },
			finding.Conditional},
	} {
		v := finding.NewVerdict(c.id, "", finding.InJoule)
		v.Judge(0.5, 1)
		l := shutOff(c.change)
		l.Narrow = []launcher.Narrow{{Key: c.key}}
		holdsIfNarrow(l, &v)
		assert.Equal(t, c.want, v.Status, "%s on %s", c.key, c.id)
	}
}

// None of the verdicts before a shot moves with what flies, whatever it is: each of those figures is moved by half of itself.
func TestPressuresBeforeAShotKnowNoProjectile(t *testing.T) {
	judged := func(change func(*launcher.Launcher)) (out []finding.Verdict) {
		l := sample.Whale()
		change(l)
		a := &assessment.Assessment{Computed: assessed.All, Launcher: l}
		for _, id := range beforeAShot {
			out = append(out, Of(a, id))
		}
		return out
	}
	asIs := judged(func(*launcher.Launcher) {})
	at := func(l *launcher.Launcher) []*launcher.Band {
		p, b := &l.Projectile, &l.Barrel
		return []*launcher.Band{&p.Mass, &p.Diameter, &p.ContactDiameter, &p.Breakaway, &p.Restart, &p.Sliding, &p.Clearance, &b.Bore,
			&b.Travel, &b.DeadVolume, &b.Engagement, &b.TubeInnerDiameter, &b.TubeOuterDiameter}
	}
	for i := range at(sample.Whale()) {
		for _, by := range []float64{0.5, 1.5} {
			moved := judged(func(l *launcher.Launcher) {
				b := at(l)[i]
				b.Low, b.Nominal, b.High = by*b.Low, by*b.Nominal, by*b.High
			})
			for k, v := range moved {
				if v.ID == finding.VesselRating && i >= 7 {
					continue // the wave of the valve in the bore
				}
				assert.Equal(t, asIs[k].Status, v.Status, "%d: %s", i, v.ID)
				assert.Equal(t, asIs[k].Value, v.Value, "%d: %s", i, v.ID)
				assert.Equal(t, asIs[k].Limit, v.Limit, "%d: %s", i, v.ID)
			}
		}
	}
	assert.NotNil(t, asIs[0].Value, "the figures are there")
}
