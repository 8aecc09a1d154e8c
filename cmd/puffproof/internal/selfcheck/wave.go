package selfcheck

import (
	"math"

	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/wave"
)

func waveChecks() []check {
	const toro = "Toro, Riemann Solvers and Numerical Methods for Fluid Dynamics (2009), table 4.2, exact to 13 digits"
	const lagrange = "Lagrange problem by its net of characteristics (testdata/reference/gas_dynamics.csv)"
	const digits = "relative 1e-12: 13 digits"
	star := func(l, r wave.State) func() float64 {
		return func() float64 { return wave.Riemann(1.4, l, r).Pressure }
	}
	return []check{
		{"Sod's tube: pressure between the waves", toro, "", 0.3031301780506, 1e-12, digits,
			star(wave.State{Density: 1, Pressure: 1}, wave.State{Density: 0.125, Pressure: 0.1})},
		{"strong shock, test 3: pressure", toro, "", 460.8937874914, 5e-10, digits,
			star(wave.State{Density: 1, Pressure: 1000}, wave.State{Density: 1, Pressure: 0.01})},
		{"Lax's tube: pressure", "Lax, Comm. Pure Appl. Math. 7 (1954) 159, exact to 13 digits", "", 2.466097919207, 5e-12, digits,
			star(wave.State{Density: 0.445, Velocity: 0.698, Pressure: 3.528}, wave.State{Density: 0.5, Pressure: 0.571})},
		{"gun with endless chamber, travel 1: speed over sound speed, 100 cells", "Siegel, The Theory of High Speed Guns, AGARDograph 91", "",
			0.8851148795, 9e-5, "1e-4 on 100 cells", func() float64 { return endlessGun(100) }},
		{"the same, 50 and 100 cells extrapolated", "Siegel, AGARDograph 91", "", 0.8851148795, 9e-6, "1e-5, second order",
			func() float64 { return extrapolated(endlessGun) }},
		{"gun with gas as heavy as its projectile, travel 1", lagrange, "", 0.7909697, 8e-6, "1e-5, 50 and 100 cells extrapolated",
			func() float64 { return extrapolated(lagrangeGun(1, 1)) }},
		{"gun with a tenth of that gas, travel 0.5", lagrange, "", 0.2271709, 2e-6, "1e-5, 50 and 100 cells extrapolated",
			func() float64 { return extrapolated(lagrangeGun(0.1, 0.5)) }},
		{"shock ahead of a piston at Mach 0.1: pressure ratio", "Rankine-Hugoniot relations", "", 1.14865177, 5e-9, printed,
			func() float64 { return wave.ShockAhead(1.4, 0.1) }},
		{"length of pipe to sonic flow from Mach 0.3, f L/D", "Fanno flow, tables of gas dynamics", "", 5.2992531, 5e-8, printed,
			func() float64 { return wave.FannoLength(1.4, 0.3) }},
		{"mass left over by a shot in the wave model, share", "conservation of mass", "", 0, 1e-12, "rounding of some 1e5 additions",
			func() float64 {
				return math.Abs(gun(0.5, 0.5, 1, 50).Fire().MassResidual)
			}},
	}
}

// gun is a plain gun with vacuum ahead: chamber [m], travel [m], gas over
// projectile mass [-].
func gun(chamber, travel, gasOverMass float64, cells int) wave.Gun {
	const p, area = 401325.0, 1e-3
	g := flow.Air()
	return wave.Gun{Gas: g, Pressure: p, Temperature: room, ChamberLength: chamber, Area: area,
		Mass: g.Density(p, room) * chamber * area / gasOverMass, Travel: travel, Cells: cells}
}

// machOf is the muzzle speed of a gun over the sound speed of its gas at the start.
func machOf(u wave.Gun) float64 { return u.Fire().Speed / u.Gas.SoundSpeed(room) }

// lagrangeGun is a closed chamber of 0.5 m, by gas over projectile mass and travel
// over chamber length.
func lagrangeGun(gasOverMass, travel float64) func(cells int) float64 {
	return func(cells int) float64 { return machOf(gun(0.5, 0.5*travel, gasOverMass, cells)) }
}

// endlessGun has a travel of 1 in units of m a^2/(p A), and a chamber of three
// times that, from whose end no wave returns in time.
func endlessGun(cells int) float64 {
	g := flow.Air()
	const p, area, mass = 401325.0, 1e-3, 0.05
	a := g.SoundSpeed(room)
	travel := mass * a * a / (p * area)
	return machOf(wave.Gun{Gas: g, Pressure: p, Temperature: room, ChamberLength: 3 * travel, Area: area, Mass: mass, Travel: travel,
		Cells: cells})
}

// extrapolated is Richardson's extrapolation at second order from 50 and 100 cells.
func extrapolated(speed func(cells int) float64) float64 {
	coarse, fine := speed(50), speed(100)
	return fine + (fine-coarse)/3
}
