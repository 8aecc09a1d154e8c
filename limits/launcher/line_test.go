package launcher_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// hosed is the plain launcher with a hose of 8 mm and 1.2 m on a side of its firing valve.
func hosed(side launcher.HoseSide, changes ...func(*launcher.HoseSpec)) *launcher.Launcher {
	l := sample.Plain()
	l.Paths[0].Hose = &launcher.HoseSpec{Bore: launcher.Exact("", 8e-3), Length: launcher.Exact("", 1.2), Side: side}
	for _, change := range changes {
		change(l.Paths[0].Hose)
	}
	return l
}

// For a shot a hose is a line on its side and in no volume; for what is slow a
// resistance, its air with the volume on its side: pi/4 64 mm2 1.2 m = 60.3 mL.
func TestAHoseIsALineForAShot(t *testing.T) {
	for side, after := range map[launcher.HoseSide]bool{launcher.HoseBefore: false, launcher.HoseAfter: true} {
		var shot, slow pneumatics.Circuit
		l := hosed(side)
		l.FillShot(&shot)
		l.Fill(&slow)
		p := &shot.Paths[0]
		lines := p.Before
		if after {
			lines = p.After
		}
		require.Len(t, lines, 1)
		assert.Equal(t, 1, len(p.Before)+len(p.After))
		assert.Equal(t, []float64{8e-3, 1.2}, []float64{lines[0].Bore, lines[0].Length})
		assert.True(t, p.Hose.IsZero())
		assert.False(t, slow.Paths[0].Hose.IsZero())
		more := slow.Barrel.DeadVolume + slow.Volumes[0].Volume - shot.Barrel.DeadVolume - shot.Volumes[0].Volume
		assert.InEpsilon(t, math.Pi/4*64e-6*1.2, more, 1e-9, "rounding")
	}
	// One that a fault has taken away is none, nor is that of an outlet, nor one that another way counts.
	var c pneumatics.Circuit
	for _, change := range []func(*launcher.Launcher){
		func(l *launcher.Launcher) { l.Paths[0].Hose.Conductance = launcher.Exact("", 100) },
		func(l *launcher.Launcher) { l.Paths[0].To = "atmosphere" },
		func(l *launcher.Launcher) { l.Paths[0].Hose.Shared = true },
	} {
		l := hosed(launcher.HoseAfter)
		change(l)
		l.FillShot(&c)
		assert.Empty(t, c.Paths[0].After)
		assert.False(t, l.Rushes())
	}
}

// Air that rushes in through a hose can bring a closed barrel to twice what feeds it
// (reflection of sound at a closed end); without one it fills to that.
func TestABarrelBehindAHoseIsBoundedByTwiceWhatFeedsIt(t *testing.T) {
	top := func(l *launcher.Launcher) float64 { parts := l.Parts(); return parts[len(parts)-1].Top }
	assert.Equal(t, 4*sample.Bars, top(sample.Plain()), "the supply's dead head")
	l := hosed(launcher.HoseAfter)
	assert.True(t, l.Rushes())
	assert.Equal(t, 8*sample.Bars, top(l))
	assert.Equal(t, 8*sample.Bars, top(hosed(launcher.HoseBefore)))
	assert.Equal(t, 4*sample.Bars, l.Parts()[0].Top, "the tank itself stands at its pressure")
	// A fitting that only a shot fills is such an end as well.
	l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "fitting", Volume: launcher.Exact("", 1e-5)})
	l.Paths[0].To = "fitting"
	l.Paths = append(l.Paths, launcher.PathSpec{Name: "port", From: "fitting", To: "barrel", Kind: pneumatics.Orifice,
		Flow: sample.Orifice(8e-3, 0.8)})
	assert.Equal(t, 8*sample.Bars, l.Parts()[1].Top)
}

// The air of a hose that opens into the barrel is behind the projectile, once, where two
// ways of a body share it.
func TestTheHoseIsBehindTheProjectile(t *testing.T) {
	plain, hose := sample.Plain().SpaceBehindProjectile(), math.Pi/4*64e-6*1.2
	l := hosed(launcher.HoseAfter)
	assert.InEpsilon(t, plain+hose, l.SpaceBehindProjectile(), 1e-9)
	shared := *l.Paths[0].Hose
	shared.Side, shared.Shared = launcher.HoseBefore, true
	l.Paths = append(l.Paths, launcher.PathSpec{Name: "fire.exhaust", From: "barrel", To: "atmosphere", Kind: pneumatics.Valve, Hose: &shared,
		Flow: sample.Orifice(3e-3, 0.8)})
	assert.InEpsilon(t, plain+hose, l.SpaceBehindProjectile(), 1e-9)
	assert.Equal(t, plain, hosed(launcher.HoseBefore).SpaceBehindProjectile())
	assert.InEpsilon(t, math.Pi/4*81e-6*1.3, hosed(launcher.HoseAfter, func(h *launcher.HoseSpec) {
		h.Bore, h.Length = sample.Between("", 7e-3, 9e-3), sample.Between("", 1.1, 1.3)
	}).Paths[0].MostHoseAir(), 1e-9)
}
