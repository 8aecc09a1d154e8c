package advise

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// blank is a design that states nothing of what is asked.
type blank struct{ l *launcher.Launcher }

func (d blank) Launcher() *launcher.Launcher  { return d.l }
func (d blank) Stated(string) string          { return "" }
func (d blank) With([]Change) (Design, error) { return d, nil }

// A rocket of which only the hollow is known is wider than that: how wide, its builder has to say, or nobody knows whether it chokes. What
// is stated is not asked.
func TestARocketWithoutItsOutsideIsAskedForIt(t *testing.T) {
	of := func(edit func(*launcher.Launcher)) (list []Change) {
		b := newDraft(blank{sample.Plain(sample.OverTube, edit)}, nil)
		declarations(b)
		for _, c := range b.list {
			if c.Key == "projectile.diameter" {
				list = append(list, c)
			}
		}
		return list
	}
	asked := of(func(l *launcher.Launcher) {
		l.Projectile.Diameter, l.Projectile.InsideDiameter = launcher.Band{}, launcher.Exact("projectile.inside_diameter", 18.4e-3)
	})
	require.Len(t, asked, 1)
	assert.Equal(t, Declaration, asked[0].Sort)
	assert.Equal(t, "31 mm ± 8 mm, declared", asked[0].To.Text())
	assert.Empty(t, of(func(l *launcher.Launcher) { l.Projectile.Diameter = launcher.Exact("projectile.diameter", 40e-3) }))
}

// Weather, a sealed screw and who is near are for people to say: no change makes such a claim,
// which would drop a fault or narrow the heat without anybody having said so.
func TestNoChangeClaimsWhatOnlyPeopleCanSay(t *testing.T) {
	l := sample.Plain()
	for _, b := range []*launcher.Band{&l.Ambient.Temperature, &l.Ambient.Hottest, &l.Ambient.Coldest} {
		b.Assumed = true
	}
	l.Switch.Adjustable = launcher.Unanswered
	b := newDraft(blank{l}, nil)
	b.weather()
	b.stop()
	b.sealed()
	b.people()
	said := map[string]bool{}
	for _, c := range b.list {
		for _, claim := range []string{"ambient.", "event.", "pressure_switch.adjustable", "barrel.seal_guard", "barrel.object_control"} {
			if strings.HasPrefix(c.Key, claim) {
				said[claim] = true
				assert.Equal(t, Declaration, c.Sort, c.Key)
			}
		}
	}
	require.Len(t, said, 5, "each claim is made, else the test shows nothing: %v", said)
}

// Foam that soaks, or of which nothing is said, may be declared to be of closed cells; one that does not soak has nothing to declare.
func TestClosedCellsAreOfferedToWhatSoaks(t *testing.T) {
	for answer, offered := range map[launcher.Answer]bool{launcher.Yes: true, launcher.Unanswered: true, launcher.No: false} {
		b := newDraft(blank{sample.Plain(func(l *launcher.Launcher) { l.Projectile.OpenCell = answer })}, nil)
		narrower(b)
		found := false
		for _, c := range b.list {
			if c.Key == "projectile.open_cell" {
				found = true
				assert.Equal(t, Declaration, c.Sort)
				assert.Contains(t, c.To.Text(), "declared no")
			}
		}
		assert.Equal(t, offered, found, answer)
	}
}

// A way is first looked for with what is only assumed taken at its widest: how soon a switch stops its pump, how long a valve takes,
// and the other figures that are only assumed. Only where there is none may these be declared; what leaves a verdict unknown is listed at
// once, as what holds the projectile fast.
func TestWhatOnlyNarrowsIsDeclaredLast(t *testing.T) {
	l := sample.Plain(sample.WithRelief(sample.Between("paths.relief.set_pressure", 2e5, 2.1e5),
		launcher.Exact("paths.relief.full_flow_pressure", 2.3e5), 6e-3, 0.62))
	l.Switch.ReactionTime = launcher.Band{Set: true, Assumed: true, High: 1, Nominal: 0.5, Key: "pressure_switch.reaction_time"}
	l.Supply.FreeAir = launcher.Exact("supply.free_air", 90e-3/60)
	l.Projectile.Breakaway = launcher.Band{}
	l.Volumes[0].RatedPressure = launcher.Band{}
	require.Greater(t, l.Overshoot(), leastOvershoot)
	for _, c := range []struct {
		narrow bool
		want   []string
		not    []string
	}{
		{false, []string{"volumes.tank.rated_pressure", "projectile.breakaway_force"}, []string{"pressure_switch.reaction_time"}},
		{true, []string{"volumes.tank.rated_pressure", "pressure_switch.reaction_time", "projectile.breakaway_force"}, nil},
	} {
		for _, turns := range []string{asItIs, "pressure"} {
			a, err := newAttempt(Input{Design: blank{l}, narrow: c.narrow}, asBuilt, turns)
			require.NoError(t, err)
			require.NotNil(t, a)
			assert.True(t, a.wide)
			var keys []string
			for _, d := range a.laid {
				keys = append(keys, d.Key)
			}
			assert.Subset(t, keys, c.want, turns)
			for _, k := range c.not {
				assert.NotContains(t, keys, k, turns)
			}
		}
	}
}
