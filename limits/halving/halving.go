// Package halving narrows the bracket of a turn: past is false before it and true from it
// on. The ends of the bracket are not asked.
package halving

import "math"

// Between halves the bracket [low, high] so many times.
func Between(low, high float64, steps int, past func(float64) bool) (before, after float64) {
	for range steps {
		if mid := 0.5 * (low + high); past(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	return low, high
}

// OnScale halves the ratio of the ends instead, which are above zero.
func OnScale(low, high float64, steps int, past func(float64) bool) (before, after float64) {
	for range steps {
		if mid := math.Sqrt(low * high); past(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	return low, high
}
