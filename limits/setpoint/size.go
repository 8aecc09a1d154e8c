package setpoint

import (
	"fmt"
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/halving"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
	"puffproof/pneumatics/filling"
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
	Notes    []finding.Text
}

// SizeRow is one charge pressure.
type SizeRow struct {
	Gauge    float64      // [Pa]
	Ceiling  float64      // volume of air that no valve can make exceed the limit [m3]
	ByTravel []float64    // volume of air for each travel, by the model [m3]
	Source   finding.Text // what kind of source and parts the pressure means
}

// SizeMasses are the projectiles that the travel columns stand for where no mass
// is given [kg]: from a light foam ball to a foam rocket (own choice).
func SizeMasses() []float64 { return []float64{0.5e-3, 1e-3, 2e-3, 4e-3, 8e-3, 16e-3, 32e-3} }

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
	s := Size{Question: q, Factor: worst.ModelFactor, Most: mostSizeVolume, Travels: []float64{0.01, 0.02, 0.05, 0.1}}
	if q.Travel > 0 {
		s.Travels = []float64{0.1 * q.Travel, 0.25 * q.Travel, 0.5 * q.Travel, q.Travel}
	}
	if q.Mass > 0 {
		v := math.Sqrt(2 * q.Limit / q.Mass)
		s.Speed = &v
	}
	for _, gauge := range []float64{0.05e5, 0.1e5, 0.2e5, 0.3e5, 0.5e5, 0.7e5, 1e5, 1.5e5, 2e5, 3e5, 4e5} {
		row := SizeRow{Gauge: gauge, Ceiling: pneumatics.CeilingDose(q.Limit, gauge, q.Ambient), Source: finding.Words(sourceFor(gauge))}
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

// notes say what the table holds and what it leaves out.
func (q SizeQuestion) notes() []finding.Text {
	ball := finding.Words("the projectile of that mass")
	if q.Mass == 0 {
		masses := SizeMasses()
		ball = finding.Say("the worst of projectiles from %s", finding.Grams.Of(masses[0], 2).To(finding.Grams.Of(masses[len(masses)-1], 2)))
	}
	return []finding.Text{
		finding.Words("The ceiling column holds whatever the valve and the friction: it counts all air that can reach the barrel, hoses and " +
			"dead volume too."),
		finding.Words("Every row is for that pressure in the launcher and the stated air pressure, without any tolerance: left in the heat, " +
			"with the " +
			"switch's band, at a fault or high above the sea there is more. Plan with the row of the highest pressure that a fault can reach."),
		finding.Say("Of the energy only the total is looked at: 0.5 J needs a proved soft tip and a contact print of %s or more, a hard tip "+
			"may have 0.08 J (--limit \"0.08 J\").", finding.Millimetres.Of(20e-3, 3)),
		finding.Say("The travel columns are by the model, for travels up to that, for %s: tight, without friction, behind a valve as wide "+
			"as the bore "+
			"that opens at once. The push after the muzzle is counted, and the factor %.3g kept. They stand on the ceiling column where the "+
			"model shows "+
			"no more, and end at %s, the largest volume looked at.", ball, worst.ModelFactor, finding.Litre(mostSizeVolume).In(finding.Decimals, 0)),
		finding.Words("A supply that runs while it fires, or a hose to the barrel, is not in the table. Check the design before anyone plays."),
	}
}

// volumeForTravel is the volume of air up to which the hardest launcher of a
// travel, seated anywhere, keeps the limit with the model factor [m3]: the first
// crossing from below, never less than the ceiling's volume, which holds whatever the
// model says.
func volumeForTravel(q SizeQuestion, gauge, travel float64) float64 {
	h := newHardest(q, gauge, travel)
	const step = 1.5
	low := pneumatics.CeilingDose(q.Limit, gauge, q.Ambient)
	if low >= mostSizeVolume {
		return low
	}
	high := low
	for high < mostSizeVolume {
		if high = min(step*high, mostSizeVolume); !h.holds(high) {
			low, _ = halving.OnScale(low, high, 7, func(dose float64) bool { return !h.holds(dose) }) // to 0.3 %
			return max(low*(1-sizeReserve), pneumatics.CeilingDose(q.Limit, gauge, q.Ambient))
		}
		low = high
	}
	return mostSizeVolume
}

// sizeReserve is what a volume of the table stays below the one computed: between the
// masses and seats looked at a shot may be a little harder (found by trying: 3 %).
const sizeReserve = 0.04

// hardest asks whether the hardest launchers of a travel keep the limit: a tight
// projectile without friction of any mass and any seat, and a valve that opens at once
// with the section of the bore; a wider one would pass no more, the bore itself is in
// the way. The dead volume is none or a tenth of the dose.
type hardest struct {
	q      SizeQuestion
	gauge  float64
	l      *launcher.Launcher
	c      *pneumatics.Circuit
	sim    pneumatics.Sim
	masses []float64
}

// sizeSeats are the shares of the travel that are looked at [-].
var sizeSeats = [...]float64{1, 0.9, 0.75, 0.6, 0.45, 0.3}

func newHardest(q SizeQuestion, gauge, travel float64) *hardest {
	masses := SizeMasses()
	if q.Mass > 0 {
		masses = []float64{q.Mass}
	}
	return &hardest{q: q, gauge: gauge, l: hardestLauncher(q, travel), c: new(pneumatics.Circuit), masses: masses}
}

// holds tells whether every launcher of that dose keeps the limit. The longest travel
// comes first: there most that do not hold are found.
func (h *hardest) holds(dose float64) bool {
	for _, share := range sizeSeats {
		for _, m := range h.masses {
			for _, dead := range [...]float64{1e-3, 0.1} {
				if !h.keeps(dose, dead*dose, m, share) {
					return false
				}
			}
		}
	}
	return true
}

// keeps tells whether one of them does. At the longest travel one that does not leave
// shows nothing: with another dead volume it may; at a shorter one it is the longer
// travel's business. One that was not computed does not hold.
func (h *hardest) keeps(dose, dead, mass, share float64) bool {
	h.l.Volumes[0].Volume = launcher.Exact("volumes.dose.volume", dose)
	h.l.Barrel.DeadVolume = launcher.Exact("barrel.dead_volume", dead)
	h.l.Projectile.Mass = launcher.Exact("projectile.mass", mass)
	h.l.Fill(h.c)
	sc := pneumatics.Scenario{From: pneumatics.Armed, To: pneumatics.Firing, Volumes: filling.GaugeConditions(h.c, []float64{h.gauge}),
		Until: longestPlan}
	sc.Seat = (1 - share) * h.c.Barrel.Travel
	r := h.sim.Run(h.c, &sc, pneumatics.Options{Tolerance: 1e-5, NoPeak: true, MaxSteps: 1000})
	if r.Outcome != pneumatics.Left {
		return share < 1
	}
	return worst.JudgedEnergy(0)(h.c, r)*worst.ModelFactor <= h.q.Limit
}

// hardestLauncher is that launcher, its dose, dead volume and mass still open.
func hardestLauncher(q SizeQuestion, travel float64) *launcher.Launcher {
	return &launcher.Launcher{
		Name: "plan", Gas: "air",
		Ambient: launcher.AmbientSpec{Pressure: launcher.Exact("ambient.pressure", q.Ambient),
			Temperature: launcher.Exact("ambient.temperature", 293.15)},
		Volumes: []launcher.VolumeSpec{{Name: "dose", Volume: launcher.Exact("volumes.dose.volume", 1e-3)}},
		Paths: []launcher.PathSpec{{Name: "fire", From: "dose", To: "barrel", Kind: pneumatics.Valve, OpenIn: pneumatics.SetOf(pneumatics.Firing),
			Flow: launcher.FlowSpec{Form: launcher.OrificeBore, Value: launcher.Exact("paths.fire.orifice", q.Bore),
				DischargeCoefficient: launcher.Exact("paths.fire.discharge_coefficient", 1)}}},
		Barrel: launcher.BarrelSpec{Fit: pneumatics.InBore, Bore: launcher.Exact("barrel.bore", q.Bore),
			Travel:     launcher.Exact("barrel.travel", travel),
			DeadVolume: launcher.Exact("barrel.dead_volume", 1e-6), FixedSeat: true},
		Projectile: launcher.ProjectileSpec{Diameter: launcher.Exact("projectile.diameter", q.Bore),
			Breakaway: launcher.Exact("projectile.breakaway_force", 0),
			Sliding:   launcher.Exact("projectile.sliding_force", 0)},
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
