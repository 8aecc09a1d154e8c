package flow

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The polynomials are the powers they stand for, from choking to 1: the library's
// logarithm and exponential at 1e5 ratios, and near 1, where 1 - r^(2/7) needs
// care. 4e-15 is ten of their own errors; the sums of the comparison round by as
// much.
func TestDiatomicPowers(t *testing.T) {
	air := Air()
	b, psi := air.CriticalRatio(), air.NozzleConstant()
	assert.InEpsilon(t, 2/(1-b), diatomicSpan, 1e-15)
	worstPhi, worstDensity := 0.0, 0.0
	look := func(r float64) {
		d := -math.Expm1(2.0 / 7 * math.Log(r)) // 1 - r^(2/7), exact near 1
		want := math.Sqrt(7*math.Pow(1-d, 5)*d) / psi
		worstPhi = max(worstPhi, math.Abs(nozzlePhi(r)/want-1))
		density := math.Exp(5.0 / 7 * math.Log(r))
		worstDensity = max(worstDensity, math.Abs(diatomicDensity.at(diatomicSpan*(1-r)-1)/density-1))
	}
	for i := range 100000 {
		look(b + (1-b)*float64(i)/100000)
	}
	for e := 1e-12; e < 0.1; e *= 1.3 {
		look(1 - e)
	}
	t.Logf("flow function %.1e, density %.1e", worstPhi, worstDensity)
	assert.Less(t, worstPhi, 4e-15)
	assert.Less(t, worstDensity, 4e-15)
	assert.InEpsilon(t, 1, nozzlePhi(b), 1e-15)
	assert.Zero(t, nozzlePhi(1))
}

// A gas beside gamma 7/5 takes the general law, and the two agree where they meet.
func TestDiatomicMeetsTheGeneralLaw(t *testing.T) {
	near := Air()
	near.Gamma += 1e-7
	air := Air()
	for r := 0.53; r < 0.9995; r += 0.013 {
		a, g := NewLaw(Nozzle(1, 1), &air, 1), NewLaw(Nozzle(1, 1), &near, 1)
		assert.False(t, g.diatomic)
		assert.True(t, a.diatomic)
		// d ln phi/d gamma is below 1.
		assert.InEpsilon(t, a.Phi(r), g.Phi(r), 1e-7, "ratio %g", r)
		assert.InEpsilon(t, a.Expansion(r), g.Expansion(r), 1e-7, "ratio %g", r)
	}
}

// What Passes says to be passed is passed, at every ratio; and it says so of all but the
// last half percent, which is how far nozzle and ellipse lie apart.
func TestPassesIsCertain(t *testing.T) {
	air := Air()
	f := NewLaw(Nozzle(1, 1), &air, DefaultLaminarRatio)
	for r := 0.0; r <= 1; r += 1e-5 {
		phi := f.Phi(r)
		assert.False(t, f.Passes(3*phi*(1+1e-12), 3, 2e5, 2e5*r), "ratio %g", r)
		if r < 0.999 {
			assert.True(t, f.Passes(0.995*3*phi, 3, 2e5, 2e5*r), "ratio %g", r)
		}
	}
}
