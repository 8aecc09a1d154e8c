package wave

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// riemannProblems are published Riemann problems, gamma 1.4, diaphragm at 0.5 of
// a unit length, with the time at which they are usually shown.
// Source: Toro (2009), table 4.1 (tests 1, 2, 3); Lax, Comm. Pure Appl. Math. 7
// (1954) 159.
var riemannProblems = []struct {
	name        string
	left, right State
	time        float64
	star        Star // zero: not stated
}{
	// Star states: the root of the exact equations at 30 digits
	// (testdata/reference/gas_dynamics.csv); they agree with Toro's printed ones, table 4.2.
	{name: "Sod", left: State{1, 0, 1}, right: State{0.125, 0, 0.1}, time: 0.2,
		star: Star{0.3031301780506, 0.9274526200489, 0.4263194281785, 0.2655737117053}},
	{name: "Toro 2", left: State{1, -2, 0.4}, right: State{1, 2, 0.4}, time: 0.15,
		star: Star{Pressure: 0.001893873420055}},
	{name: "Toro 3", left: State{1, 0, 1000}, right: State{1, 0, 0.01}, time: 0.012,
		star: Star{Pressure: 460.8937874914, Velocity: 19.59745138872}},
	{name: "Lax", left: State{0.445, 0.698, 3.528}, right: State{0.5, 0, 0.571}, time: 0.14,
		star: Star{Pressure: 2.466097919207, Velocity: 1.528723026633}},
}

func TestStarStates(t *testing.T) {
	for _, c := range riemannProblems {
		t.Run(c.name, func(t *testing.T) {
			got := Riemann(1.4, c.left, c.right)
			// The figures are given to 13 digits.
			assert.InEpsilon(t, c.star.Pressure, got.Pressure, 1e-12)
			if c.star.Velocity != 0 {
				assert.InEpsilon(t, c.star.Velocity, got.Velocity, 1e-12)
			} else {
				assert.InDelta(t, 0, got.Velocity, 1e-14, "the problem is symmetric")
			}
			if c.star.LeftDensity != 0 {
				assert.InEpsilon(t, c.star.LeftDensity, got.LeftDensity, 1e-12)
				assert.InEpsilon(t, c.star.RightDensity, got.RightDensity, 1e-12)
			}
		})
	}
}

// Identity: the sampled solution satisfies the jump conditions in the frame of
// its shock, and two gases that part too fast leave a vacuum.
func TestRiemannIdentities(t *testing.T) {
	c := riemannProblems[0]
	star := Riemann(1.4, c.left, c.right)
	speed := star.RightDensity * star.Velocity / (star.RightDensity - c.right.Density)
	behind := sampleRiemann(1.4, c.left, c.right, star, speed*(1-1e-9))
	ahead := sampleRiemann(1.4, c.left, c.right, star, speed*(1+1e-9))
	momentum := func(s State) float64 { return s.Pressure + s.Density*(s.Velocity-speed)*(s.Velocity-speed) }
	assert.InEpsilon(t, momentum(ahead), momentum(behind), 1e-12, "rounding")
	assert.Equal(t, c.right, ahead)

	void := Riemann(1.4, State{1, -10, 1}, State{1, 10, 1})
	assert.Zero(t, void.Pressure)
	assert.Zero(t, void.LeftDensity)
}

// sampleRiemann gives the exact solution of a Riemann problem at speed s = x/t
// [m/s] (Toro, section 4.5).
func sampleRiemann(gamma float64, left, right State, star Star, s float64) State {
	if s <= star.Velocity {
		return fan(gamma, left, star.Pressure, star.Velocity, star.LeftDensity, s)
	}
	right.Velocity = -right.Velocity
	m := fan(gamma, right, star.Pressure, -star.Velocity, star.RightDensity, -s)
	m.Velocity = -m.Velocity
	return m
}

// fan samples the left wave.
func fan(gamma float64, k State, p, u, rho, s float64) State {
	a := math.Sqrt(gamma * k.Pressure / k.Density)
	inside := State{rho, u, p}
	if p > k.Pressure {
		shock := k.Velocity - a*math.Sqrt((gamma+1)/(2*gamma)*p/k.Pressure+(gamma-1)/(2*gamma))
		if s <= shock {
			return k
		}
		return inside
	}
	if s <= k.Velocity-a {
		return k
	}
	if p > 0 && s >= u-math.Sqrt(gamma*p/rho) {
		return inside
	}
	y := 2/(gamma+1) + (gamma-1)/((gamma+1)*a)*(k.Velocity-s)
	if y <= 0 {
		return State{}
	}
	return State{k.Density * math.Pow(y, 2/(gamma-1)),
		2 / (gamma + 1) * (a + 0.5*(gamma-1)*k.Velocity + s),
		k.Pressure * math.Pow(y, 2*gamma/(gamma-1))}
}
