// Package spring is how far spring-loaded parts are open [0 … 1]. Pressures are gauge values [Pa].
package spring

// Lift is that of a relief valve at the last turn of the pressure before it. Rising, it is shut at the set pressure and open at full flow;
// falling, open at the set pressure and shut at reseat; between these two lines it stays as it was where the pressure last turned. Along a
// stretch on which the pressure only rises or only falls
//
//	lift = max(rise, min(lift at its start, fall))
//
// is exact.
type Lift float64

// At is the lift at a gauge pressure on the stretch after the turn.
func (l Lift) At(gauge, reseat, set, full float64) Lift {
	return max(Lift(line(gauge, set, full)), min(l, Lift(line(gauge, reseat, set))))
}

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
