package limits

import (
	"fmt"
	"math"

	"puffproof/pneumatics"
)

// SizeQuestion is what a builder knows before there is a design. SI values.
type SizeQuestion struct {
	Limit   float64 // energy [J]
	Bore    float64 // [m]
	Travel  float64 // [m]; 0: the usual travels only
	Mass    float64 // of the projectile [kg]; 0: no speeds, and the worst of SizeMasses
	Ambient float64 // [Pa absolute]; 0: 101325
}

// Size is a table to plan from.
type Size struct {
	Question SizeQuestion
	Rows     []SizeRow
	Travels  []float64 // columns of SizeRow.ByTravel [m]
	Factor   float64   // the travel columns keep this factor below the limit [-]
	Speed    *float64  // of the projectile at the limit [m/s]
	Most     float64   // the travel columns end here: no larger volume was looked at [m3]
	Notes    []string
}

// SizeRow is one charge pressure.
type SizeRow struct {
	Gauge    float64   // [Pa]
	Ceiling  float64   // volume of air that no valve can make exceed the limit [m3]
	ByTravel []float64 // volume of air for each travel, by the model [m3]
	Source   string    // what kind of source and parts the pressure means
}

// SizeMasses are the projectiles that the travel columns stand for where no mass
// is given [kg]: from a small foam ball to a foam rocket (own choice).
func SizeMasses() []float64 { return []float64{2e-3, 8e-3, 32e-3} }

const (
	mostSizeVolume = 10e-3 // [m3]
	// longestPlan ends a shot of the plan [s]: a projectile without friction that
	// swings in its bore by then counts with all that the air can still give.
	longestPlan = 0.5
)

// FindSize plans: how much air may reach the barrel at which pressure. It is an
// error where a figure is not above zero or the model does not cover it.
//
// Ceiling is the volume whose whole availability is the limit
// (pneumatics.CeilingDose). The travel columns are by simulation of the hardest
// launcher of that travel: see hardest. The push after the muzzle is in them.
func FindSize(q SizeQuestion) (Size, error) {
	if q.Ambient == 0 {
		q.Ambient = 101325
	}
	for _, f := range []struct {
		name string
		v    float64
	}{{"limit", q.Limit}, {"bore", q.Bore}, {"ambient pressure", q.Ambient}} {
		if !(f.v > 0) || math.IsInf(f.v, 1) {
			return Size{}, fmt.Errorf("the %s must be above zero", f.name)
		}
	}
	if !(q.Travel >= 0 && q.Mass >= 0) || math.IsInf(q.Travel+q.Mass, 1) {
		return Size{}, fmt.Errorf("travel and mass cannot be negative")
	}
	s := Size{Question: q, Factor: ModelFactor, Most: mostSizeVolume, Travels: []float64{0.01, 0.02, 0.05, 0.1}}
	if q.Travel > 0 {
		s.Travels = []float64{0.1 * q.Travel, 0.25 * q.Travel, 0.5 * q.Travel, q.Travel}
	}
	if q.Mass > 0 {
		v := math.Sqrt(2 * q.Limit / q.Mass)
		s.Speed = &v
	}
	for _, gauge := range []float64{0.05e5, 0.1e5, 0.2e5, 0.3e5, 0.5e5, 0.7e5, 1e5, 1.5e5, 2e5, 3e5, 4e5} {
		row := SizeRow{Gauge: gauge, Ceiling: pneumatics.CeilingDose(q.Limit, gauge, q.Ambient), Source: sourceFor(gauge)}
		least := mostSizeVolume // a longer barrel may be loaded less deep: never more than for a shorter travel
		for _, x := range s.Travels {
			least = min(least, volumeForTravel(q, gauge, x))
			row.ByTravel = append(row.ByTravel, least)
		}
		s.Rows = append(s.Rows, row)
	}
	s.Notes = q.notes()
	return s, nil
}

func (q SizeQuestion) notes() []string {
	ball := "the projectile of that mass"
	if q.Mass == 0 {
		ball = "the worst of projectiles of 2, 8 and 32 g"
	}
	return []string{
		"The ceiling column holds whatever the valve and the friction: it counts all air that can reach the barrel, hoses and dead volume too.",
		fmt.Sprintf("The travel columns are by the model, for travels up to that, for %s: tight, without friction, behind a valve as wide as the bore that opens at once. The push after the muzzle is counted, and the factor %.3g kept. They stand on the ceiling column where the model shows no more, and end at %.0f L, the largest volume looked at.",
			ball, ModelFactor, mostSizeVolume*1e3),
		"A supply that runs while it fires, or a hose to the barrel, is not in the table. Check the design before anyone plays.",
	}
}

// volumeForTravel is the volume of air up to which the hardest launcher of a
// travel keeps the limit with the model factor [m3]: the first crossing from
// below, never less than the ceiling's volume, which holds whatever the model says.
func volumeForTravel(q SizeQuestion, gauge, travel float64) float64 {
	masses := SizeMasses()
	if q.Mass > 0 {
		masses = []float64{q.Mass}
	}
	l := hardest(q, travel)
	c := new(pneumatics.Circuit)
	var sim pneumatics.Sim
	holds := func(v float64) bool {
		l.Volumes[0].Volume = Exact("volumes.dose.volume", v)
		for _, m := range masses {
			l.Projectile.Mass = Exact("projectile.mass", m)
			l.Fill(c)
			sc := pneumatics.Scenario{From: pneumatics.Armed, To: pneumatics.Firing, Volumes: gaugeConditions(c, []float64{gauge}), Until: longestPlan}
			r := sim.Run(c, &sc, pneumatics.Options{Tolerance: 1e-5, NoPeak: true, MaxSteps: 1000})
			// One that does not leave shows nothing: with another dead volume it may. One
			// that was not computed does not hold.
			if r.Outcome != pneumatics.Left || !(judgedEnergy(0)(c, r)*ModelFactor <= q.Limit) {
				return false
			}
		}
		return true
	}
	const step = 1.5
	low := pneumatics.CeilingDose(q.Limit, gauge, q.Ambient)
	if low >= mostSizeVolume {
		return low
	}
	high := low
	for high < mostSizeVolume {
		if high = min(step*high, mostSizeVolume); !holds(high) {
			for range 7 { // to 0.3 %
				if mid := math.Sqrt(low * high); holds(mid) {
					low = mid
				} else {
					high = mid
				}
			}
			return low
		}
		low = high
	}
	return mostSizeVolume
}

// hardest is the launcher of a travel whose shots are the hardest: a tight
// projectile without friction, next to no dead volume, and a valve that opens at
// once with the section of the bore. A wider one would pass no more: the bore
// itself is in the way.
func hardest(q SizeQuestion, travel float64) *Launcher {
	const deadVolume = 1e-6 // [m3]
	return &Launcher{
		Name: "plan", Gas: "air",
		Ambient: AmbientSpec{Pressure: Exact("ambient.pressure", q.Ambient), Temperature: Exact("ambient.temperature", 293.15)},
		Volumes: []VolumeSpec{{Name: "dose", Volume: Exact("volumes.dose.volume", 1e-3)}},
		Paths: []PathSpec{{Name: "fire", From: "dose", To: "barrel", Kind: pneumatics.Valve, OpenIn: pneumatics.SetOf(pneumatics.Firing),
			Flow: FlowSpec{Form: OrificeBore, Value: Exact("paths.fire.orifice", q.Bore), DischargeCoefficient: Exact("paths.fire.discharge_coefficient", 1)}}},
		Barrel: BarrelSpec{Fit: pneumatics.InBore, Bore: Exact("barrel.bore", q.Bore), Travel: Exact("barrel.travel", travel),
			DeadVolume: Exact("barrel.dead_volume", deadVolume), FixedSeat: true},
		Projectile: ProjectileSpec{Diameter: Exact("projectile.diameter", q.Bore), Breakaway: Exact("projectile.breakaway_force", 0),
			Sliding: Exact("projectile.sliding_force", 0)},
	}
}

// sourceFor says what a charge pressure means for source and parts.
func sourceFor(gauge float64) string {
	switch {
	case gauge < 0.25e5:
		return "a blower or aquarium-type pump that stalls below it needs no switch"
	case gauge < ordinaryPart:
		return "special low-pressure switch and relief valve"
	case gauge <= 1.5e5:
		return "ordinary workshop switch, relief valve, small compressor"
	}
	return "workshop compressor: only with a small dose"
}
