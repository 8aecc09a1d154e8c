package wave

import "math"

// risingRoot finds where a rising function changes its sign between low and high, by the
// secant method from a guess with the slope at the last solution, which it keeps; where a
// step leaves the bracket, or a kink slows it down, by halving. The function is a share of
// what it balances, or a Mach number: 1e-11 is far below every other error.
func risingRoot(f func(float64) float64, guess float64, slope *float64, low, high float64) float64 {
	x := guess
	if !(x > low && x < high) {
		x, *slope = 0.5*(low+high), 0
	}
	fx := f(x)
	for i := range 120 {
		if math.Abs(fx) < 1e-11 || high-low <= 1e-14*high {
			break
		}
		if fx < 0 {
			low = x
		} else {
			high = x
		}
		next := x - fx / *slope
		if !(next > low && next < high) || (i > 10 && i%2 == 0) {
			next = 0.5 * (low + high)
		}
		fn := f(next)
		if s := (fn - fx) / (next - x); s > 0 {
			*slope = s
		}
		x, fx = next, fn
	}
	return x
}
