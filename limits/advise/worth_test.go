package advise

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// What a declaration buys is what holds with it and no more without: a verdict that failed before says nothing of it.
func TestWhatIsLostWithoutADeclaration(t *testing.T) {
	energy := func(v float64, s finding.Status) finding.Verdict {
		limit := 0.08
		return finding.Verdict{ID: finding.EnergyTotal, Title: "Energy", Status: s, Value: &v, Limit: &limit, Unit: finding.InJoule}
	}
	rating := finding.Verdict{ID: finding.VesselRating, Title: "Ratings", Status: finding.Unknown}
	before := []finding.Verdict{energy(0.3, finding.Conditional), {ID: finding.VesselRating, Status: finding.Pass}}
	for _, c := range []struct {
		name  string
		after []finding.Verdict
		want  string
	}{
		{"a limit is passed over", []finding.Verdict{energy(0.31, finding.Fail)}, "without it Energy fails (0.31 J of 0.080 J)"},
		{"not known any more", []finding.Verdict{rating}, "without it Ratings unknown"},
		{"more than are named", []finding.Verdict{energy(0.31, finding.Fail), rating, energy(0.31, finding.Fail)},
			"without it Energy fails (0.31 J of 0.080 J), Ratings unknown, and 1 more"},
		{"nothing but that it does not leave", nil, "without it the weakest launcher of the tolerances does not leave"},
	} {
		j := judged{report: limits.Report{Verdicts: c.after}}
		assert.Equal(t, c.want, lost(before, &j).String(), c.name)
	}
	j := judged{report: limits.Report{Verdicts: []finding.Verdict{rating}}}
	assert.NotContains(t, lost([]finding.Verdict{rating}, &j).String(), "Ratings", "it was unknown before")
}

// tipped is the plain launcher with a tip.
func tipped(change func(*launcher.ProjectileSpec)) *launcher.Launcher {
	l := sample.Plain()
	change(&l.Projectile)
	return l
}

// Where no way is found the energy that was allowed is said, and what the tip has to do with it: 0.08 J of a rigid projectile
// (EN 71-1:2014+A1:2018, 4.17.3, as limits/benchmark has it) for a tip that nobody states, too.
func TestWhyNotSaysWhatTheTipAllows(t *testing.T) {
	soft := func(p *launcher.ProjectileSpec) { p.Resilient, p.TipStated, p.TipProof = true, true, "record" }
	for _, c := range []struct {
		name    string
		tip     func(*launcher.ProjectileSpec)
		narrows []string
		want    string
	}{
		{"not known", func(p *launcher.ProjectileSpec) { p.Resilient, p.TipStated, p.TipProof = false, false, "" }, nil,
			"nothing leaves this barrel within the limits, 0.080 J with a tip that is not proved soft"},
		{"declared only", soft, []string{"projectile.tip_proof"}, "0.50 J and that only with a tip that a press test has yet to show soft"},
		{"proved", soft, nil, "0.50 J with its soft tip"},
	} {
		a := &attempt{name: "all", last: turned{l: tipped(c.tip)}, narrows: c.narrows}
		assert.Contains(t, whyNot(t.Context(), []*attempt{a}, nil).String(), c.want, c.name)
	}
}

// What could be given is found by what stands in the way: first what no figure mends, a hose that can be kinked and a vehicle that moves
// while it fires, on top of that a tip that is stated hard, figures that are known too widely, what is kept.
func TestWhatCouldBeGiven(t *testing.T) {
	hard := tipped(func(p *launcher.ProjectileSpec) { p.Resilient = false })
	hard.Mount.MovingAt = launcher.Exact("mount.moving_at", 2)
	hard.Projectile.Mass = sample.Between("projectile.mass", 3e-3, 6e-3)
	quick := hard.Clone() // to shoot with
	fires(hard).Hose = &launcher.HoseSpec{}
	in := Input{Design: blank{hard}, Keep: []string{"barrel"}}
	moves := &attempt{name: "all", last: turned{l: quick}, blocked: map[string]bool{finding.PeopleWheels: true}}
	kinks := &attempt{name: "pressure", kinked: true}
	for _, c := range []struct {
		name string
		bad  []*attempt
		want []string
		hose bool
	}{
		{"nothing that no figure mends", []*attempt{{name: "all", last: turned{l: sample.Plain(), loss: 1}}, {name: "all",
			last: turned{l: quick}}},
			[]string{"with a tip", "with projectile.mass", "without keeping barrel"}, true},
		{"both", []*attempt{moves, kinks}, []string{"with the firing valve at the barrel, no hose between that can be kinked and a lock that",
			"no hose between that can be kinked and a lock that lets it fire only where it stands (mount.moving_at = \"0 m/s\"), and a tip",
			"measured, four times as closely as now", "without keeping barrel"}, false},
	} {
		list := concessions(t.Context(), in, c.bad)
		require.Len(t, list, len(c.want), c.name)
		for i, want := range c.want {
			assert.Contains(t, list[i].what, want, c.name)
			assert.Equal(t, c.hose, fires(list[i].in.Design.Launcher()).Hose != nil, "%s: %s", c.name, want)
		}
	}
	assert.NotNil(t, fires(hard).Hose, "the design itself is as it was")
}

// A figure that is supposed to be known closer keeps its nominal value, and stays as close when the design is changed.
func TestKnownCloser(t *testing.T) {
	l := sample.Plain()
	l.Projectile.Mass = launcher.Band{Set: true, Key: "projectile.mass", Low: 3e-3, Nominal: 4e-3, High: 6e-3}
	d := suppose(blank{l}, knownCloser([]string{"projectile.mass"}))
	assert.Equal(t, 6e-3, l.Projectile.Mass.High, "the design itself is as it was")
	changed, err := d.With(nil)
	require.NoError(t, err)
	for _, of := range []Design{d, changed} {
		m := of.Launcher().Projectile.Mass
		assert.InDelta(t, 3.75e-3, m.Low, 1e-12)
		assert.InDelta(t, 4.5e-3, m.High, 1e-12)
		assert.Equal(t, 4e-3, m.Nominal)
	}
}

// A search is given up early only where with all turned the weakest launcher does not even come out, and only where the tip is not
// proved soft or shots take long.
func TestWhatIsHopeless(t *testing.T) {
	unproved := func(l *launcher.Launcher) []*attempt {
		a := &attempt{name: "all", narrows: []string{"projectile.tip_proof"}, base: newDraft(blank{l}, nil),
			sieve: sieve{factor: worst.ModelFactor}}
		a.dials = []*dial{pressureDial(l)}
		return []*attempt{a}
	}
	l := tipped(func(p *launcher.ProjectileSpec) { p.TipProof = "" })
	no, err := hopeless(sample.Weakly(), unproved(l))
	require.NoError(t, err)
	assert.Nil(t, no, "it leaves")
	l = tipped(func(p *launcher.ProjectileSpec) {
		p.TipProof, p.Breakaway = "", launcher.Exact("projectile.breakaway_force", 1e3)
	})
	no, err = hopeless(sample.Weakly(), unproved(l))
	require.NoError(t, err)
	assert.Len(t, no, 1, "nothing moves it")
	l.Projectile.TipProof = "record"
	no, err = hopeless(sample.Weakly(), unproved(l))
	require.NoError(t, err)
	assert.Nil(t, no, "its tip is proved: all is tried")
}

// A goal that no way comes near without declarations is looked for with them; a way that is as lively as holds is enough without.
func TestWhenWaysAreEnough(t *testing.T) {
	goal := Goal{Aim: Apex, Value: 3}
	way := foundWay{way: Way{Missed: 2}}
	for _, c := range []struct {
		name string
		f    finder
		want bool
	}{
		{"none", finder{}, false},
		{"lively", finder{found: []foundWay{way}}, true},
		{"short of the goal", finder{in: Input{Goal: goal}, found: []foundWay{way}}, false},
		{"at the goal", finder{in: Input{Goal: goal}, found: []foundWay{way}, out: Answer{Reaches: true}}, true},
	} {
		assert.Equal(t, c.want, c.f.enough(), c.name)
	}
	assert.Equal(t, 2.0, (&finder{found: []foundWay{{way: Way{Missed: 3}}, way}}).missed())
}

// stating is a design in which every key says the same.
type stating struct{ blank }

func (stating) Stated(string) string { return `"80 mm"` }

// What a sketch had was nobody's: it is not told as what was there.
func TestASketchHasNoOldValues(t *testing.T) {
	l := sample.Plain()
	for sketch, want := range map[bool]string{false: "80 mm", true: ""} {
		a := &attempt{design: blank{l}, found: []Change{{Key: "barrel.travel", To: word("40 mm")}}}
		a.judged = judged{report: limits.Report{Energy: &worst.EnergyReport{}}, nominal: &worst.Nominal{Result: &pneumatics.Result{}}}
		w, err := a.way(t.Context(), Input{Design: stating{blank{l}}, Sketch: sketch})
		require.NoError(t, err)
		require.Len(t, w.Steps, 1)
		assert.Equal(t, want, w.Steps[0].Old)
	}
}

// The reason of a part's first change is told for the whole part: where its outlet blows comes behind.
func TestWhereOutletsBlowComesLast(t *testing.T) {
	l := sample.Plain()
	a := &attempt{design: blank{l}, found: []Change{{Key: "paths.relief.points", To: word("away")},
		{Key: "paths.relief.set_pressure", To: word("1 bar")}}}
	a.judged = judged{report: limits.Report{Energy: &worst.EnergyReport{}}, nominal: &worst.Nominal{Result: &pneumatics.Result{}}}
	w, err := a.way(t.Context(), Input{Design: blank{l}})
	require.NoError(t, err)
	require.Len(t, w.Steps, 2)
	assert.Equal(t, "paths.relief.set_pressure", w.Steps[0].Key)
}
