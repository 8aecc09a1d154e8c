package selfcheck

import (
	"puffproof/pneumatics/flight"
)

func flightChecks() []check {
	const morrison = "Morrison, Data Correlation for Drag Coefficient for Sphere (2010)"
	const vertical = "closed form of vertical flight with quadratic drag"
	return []check{
		{"drag of a sphere at Re 200", morrison, "", 0.7677, 5e-5, printed, func() float64 { return flight.Sphere(200) }},
		{"drag of a sphere at Re 1e5", morrison, "", 0.42468, 5e-6, printed, func() float64 { return flight.Sphere(1e5) }},
		{"height of a shot at 20 m/s, terminal speed 12 m/s", vertical, "m", 9.755126219, 5e-10, printed,
			func() float64 { return flight.ApexHeight(20, 12, 9.81) }},
		{"its speed when it comes down", vertical, "m/s", 10.289915, 5e-7, printed,
			func() float64 { return flight.ImpactSpeed(flight.ApexHeight(20, 12, 9.81), 12, 9.81) }},
	}
}
