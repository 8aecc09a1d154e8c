package doubt

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/launcher"
)

// At rest dry friction is at least that in motion (any handbook of mechanics), and at most four times as much (own rule): what is stated
// otherwise counts from where the other begins, once, and what was stated is kept. Bands that touch contradict nothing.
func TestFrictionThatExcludesItself(t *testing.T) {
	type ends = [2]float64
	band := func(e ends) launcher.Band {
		return launcher.Band{Set: e != ends{-1, -1}, Low: e[0], Nominal: (e[0] + e[1]) / 2, High: e[1]}
	}
	none := ends{-1, -1}
	for _, c := range []struct {
		name                     string
		hold, restart, slides    ends    // stated [N]
		holds, restarts, slides0 float64 // low ends that count [N]
	}{
		{"as usual", ends{0.1, 0.5}, none, ends{0.1, 0.3}, 0.1, -1, 0.1},
		{"four times", ends{1.2, 1.4}, none, ends{0.2, 0.3}, 1.2, -1, 0.2},
		{"far more than it slides with", ends{20, 20}, none, ends{0.1, 0.4}, 0.1, -1, 0.1},
		{"nothing brakes it, and something holds", ends{1, 2}, none, ends{0, 0}, 0, -1, 0},
		{"slides with more than starts it", ends{0.1, 0.8}, none, ends{3.5, 3.5}, 0.1, -1, 0.1},
		{"the bands touch", ends{0.1, 0.8}, none, ends{0.8, 0.9}, 0.1, -1, 0.8},
		{"slides with more than starts it again", ends{2, 2}, ends{0, 0}, ends{2, 2}, 2, 0, 0},
		{"starts again with far more", ends{0.3, 0.5}, ends{9, 9}, ends{0.2, 0.4}, 0.3, 0.2, 0.2},
	} {
		l := &launcher.Launcher{}
		l.Projectile = launcher.ProjectileSpec{Breakaway: band(c.hold), Restart: band(c.restart), Sliding: band(c.slides)}
		for range 2 {
			Friction(l)
			p := &l.Projectile
			assert.Equal(t, []float64{c.holds, c.restarts, c.slides0}, []float64{p.Breakaway.Low, p.Restart.Low, p.Sliding.Low}, c.name)
			assert.Equal(t, []float64{c.hold[1], c.slides[1]}, []float64{p.Breakaway.High, p.Sliding.High}, "%s: the high ends stay", c.name)
			told := func(said launcher.Said, stated ends, changed bool) {
				if want := (launcher.Said{Low: stated[0], High: stated[1]}); changed {
					assert.Equal(t, want, said, c.name)
				} else {
					assert.Zero(t, said, c.name)
				}
			}
			told(p.BreakawaySaid, c.hold, c.holds != c.hold[0])
			told(p.RestartSaid, c.restart, c.restarts != c.restart[0])
			told(p.SlidingSaid, c.slides, c.slides0 != c.slides[0])
		}
	}
}
