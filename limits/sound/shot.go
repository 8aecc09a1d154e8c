package sound

import (
	"math"

	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/sound"
)

// airOf is the air around a circuit.
func airOf(c *pneumatics.Circuit) sound.Air {
	air := flow.Air()
	return sound.Air{Density: air.Density(c.Ambient.Pressure, c.Ambient.Temperature), Speed: air.SoundSpeed(c.Ambient.Temperature)}
}

// slowest is the speed [m/s] below which a projectile that leaves is taken to leave with it: what is slower uncovers
// the bore more slowly and is quieter.
const slowest = 0.1

// burstOf is the burst of a shot; false: the projectile does not leave.
func burstOf(c *pneumatics.Circuit, r *pneumatics.Result) (sound.Burst, bool) {
	if r.Outcome != pneumatics.Left {
		return sound.Burst{}, false
	}
	b := &c.Barrel
	return sound.Burst{Air: airOf(c), Excess: r.BarrelExit - c.Ambient.Pressure, Speed: max(r.MuzzleSpeed, slowest),
		Radius: math.Sqrt(b.Area / math.Pi), Length: (b.DeadVolume + b.Area*b.Travel) / b.Area}, true
}

// expectedBurst is the C-weighted peak of a burst 1 m away, into free space from a pipe's end [Pa].
func expectedBurst(b sound.Burst) float64 {
	b.Mouth = sound.Unflanged()
	_, weighted := b.Pulse().Peak()
	return sound.AtOneMetre(weighted, sound.FreeSpace)
}

// mostBurst is the upper end of a burst 1 m away, before a wall [Pa]: the bore opened at once; or by the
// ring where a fast projectile and its gas make more of that.
func mostBurst(b sound.Burst, fine int) float64 {
	most := sound.AtOnce(b.Excess, b.Radius)
	// The ring's first slope and the gas that comes after the projectile, each at its steepest. Waves make at
	// most a few times that of them; where that stays below, the pulse is not computed.
	area := math.Pi * b.Radius * b.Radius
	ring := 2 * math.Pi * b.Radius * b.Speed * math.Sqrt(2*b.Air.Density*math.Abs(b.Excess))
	moving := b.Air.Density * area * b.Speed * math.Pi * b.Air.Speed / (2 * b.Length)
	if 4*(ring+moving) > most {
		b.Mouth, b.Fine = sound.Flanged(), fine
		plain, weighted := b.Pulse().Peak()
		most = max(most, plain, weighted)
	}
	return sound.AtOneMetre(most, sound.HalfSpace)
}

// loudness is the measure of a question about the loudest shot: the upper end of its burst 1 m
// away [Pa]; 0: it does not leave.
func loudness(c *pneumatics.Circuit, r *pneumatics.Result) float64 {
	const coarse = 4 // steps a radius: the order of shots is wanted
	if r.Reason != "" {
		return math.NaN()
	}
	b, ok := burstOf(c, r)
	if !ok {
		return 0
	}
	return mostBurst(b, coarse)
}

// motionOf is the way of a projectile to the muzzle.
func motionOf(c *pneumatics.Circuit, sc *pneumatics.Scenario, r *pneumatics.Result) sound.Motion {
	const samples = 400
	var sim pneumatics.Sim
	tr := sim.Run(c, sc, pneumatics.Options{Samples: samples, TraceEnd: r.ExitTime}).Trace
	return sound.Motion{Time: tr.Time, Position: tr.Position, Speed: tr.Speed}
}

// pushed is how what the projectile pushes out ahead of it, or aside, changes.
func pushed(c *pneumatics.Circuit, m sound.Motion, end sound.Mouth) sound.Pulse {
	b := &c.Barrel
	if b.Fit == pneumatics.OverTube {
		return sound.Displaced(airOf(c), b.Area, m)
	}
	return sound.Column{Air: airOf(c), Radius: math.Sqrt(b.Area / math.Pi), Length: b.Travel, Mouth: end, Motion: m}.Pulse()
}

// expectedColumn is the C-weighted peak of what is pushed out, 1 m away [Pa]; 0: the projectile does not leave.
func expectedColumn(c *pneumatics.Circuit, sc *pneumatics.Scenario, r *pneumatics.Result) float64 {
	if r.Outcome != pneumatics.Left {
		return 0
	}
	_, weighted := pushed(c, motionOf(c, sc, r), sound.Unflanged()).Peak()
	return sound.AtOneMetre(weighted, sound.FreeSpace)
}

// untraced is by how much the column of a shot that was not traced may be louder than that of those that were [-]: own
// rule of this project, no source.
const untraced = 2

// mostColumn is the upper end of what is pushed out 1 m away, before a wall [Pa], and whether a wave may become a
// shock on its way.
func mostColumn(c *pneumatics.Circuit, sc *pneumatics.Scenario, r *pneumatics.Result) (most float64, shock bool) {
	if r.Outcome != pneumatics.Left {
		return 0, false
	}
	m := motionOf(c, sc, r)
	plain, weighted := pushed(c, m, sound.Flanged()).Peak()
	steepest := 0.0
	for i := 1; i < len(m.Time); i++ {
		steepest = max(steepest, (m.Speed[i]-m.Speed[i-1])/(m.Time[i]-m.Time[i-1]))
	}
	shock = c.Barrel.Fit == pneumatics.InBore && steepest > 0 && c.Barrel.Travel > sound.ShockDistance(airOf(c), steepest)
	return untraced * sound.AtOneMetre(max(plain, weighted), sound.HalfSpace), shock
}

// nominal is the shot with nominal values.
func nominal(l *launcher.Launcher) (*pneumatics.Circuit, *pneumatics.Scenario, *pneumatics.Result) {
	c, sc := worst.NominalScenario(l, worst.NominalStart(l))
	var sim pneumatics.Sim
	return c, sc, sim.Run(c, sc, pneumatics.Options{})
}
