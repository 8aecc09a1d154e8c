// Package spring is how far spring-loaded parts are open [0 … 1]. Pressures are gauge values [Pa].
package spring

// Rise is a relief valve's lift while the pressure before it rises: shut at the set pressure, open at full flow. Between its two lines
// the lift stays as it is.
func Rise(gauge, set, full float64) float64 { return line(gauge, set, full) }

// Fall is its lift while the pressure falls: open at the set pressure, shut at reseat.
func Fall(gauge, reseat, set float64) float64 { return line(gauge, reseat, set) }

// Regulator is open while its outlet is below the set pressure, fully so by its droop; 0: 5 % of the set pressure.
func Regulator(outlet, set, droop float64) float64 {
	if droop <= 0 {
		droop = 0.05 * max(set, 1)
	}
	return line(set-outlet, 0, droop)
}

// Check is open above its cracking pressure, fully so a tenth of it, or 1 kPa, further on.
func Check(difference, cracking float64) float64 {
	return line(difference, cracking, cracking+max(0.1*cracking, 1000))
}

// line rises from 0 at shut to 1 at open.
func line(p, shut, open float64) float64 { return min(max((p-shut)/(open-shut), 0), 1) }
