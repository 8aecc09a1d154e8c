package benchmark

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"
)

// The range of sample sizes of ToleranceFactor.
const (
	fewestShots = 2
	mostShots   = 500
)

// ToleranceFactor is the exact factor k of a one-sided normal tolerance bound:
// with the given confidence, at least the share coverage of a normal population
// lies below mean + k s, where mean and s are those of n independent values.
//
//	k = t(confidence; n-1, z sqrt(n)) / sqrt(n)
//
// t is the quantile of the noncentral t distribution with n-1 degrees of freedom
// [-], z the normal quantile of coverage [-]. n is from 2 to 500; confidence and
// coverage from 0.5 to 0.999. Anything else is an error.
//
// Source: NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.6.3, exact
// method; table: Montgomery and Runger, Applied Statistics and Probability for
// Engineers, table XII.
//
// gonum's distuv.NoncentralT has a quantile, but from z sqrt(n) = 38.6 upwards
// (coverage 0.99: n = 276) it takes an approximation in its place. So the
// probability is integrated here:
//
//	P(T <= k sqrt(n)) = integral of f(s) Phi(sqrt(n) (k s - z)) ds, s > 0
//
// f is the density of s = sqrt(chi2/(n-1)) and Phi the normal distribution.
func ToleranceFactor(n int, confidence, coverage float64) (float64, error) {
	switch {
	case n < fewestShots || n > mostShots:
		return 0, fmt.Errorf("a tolerance factor needs %d to %d values, not %d", fewestShots, mostShots, n)
	case !(confidence >= 0.5 && confidence <= 0.999):
		return 0, fmt.Errorf("a tolerance factor needs a confidence from 0.5 to 0.999, not %v", confidence)
	case !(coverage >= 0.5 && coverage <= 0.999):
		return 0, fmt.Errorf("a tolerance factor needs a coverage from 0.5 to 0.999, not %v", coverage)
	}
	z := distuv.UnitNormal.Quantile(coverage)
	rule := legendreRule(24)
	low, high := 0.0, 1.0
	for boundProbability(n, high, z, rule) < confidence {
		low, high = high, 2*high
	}
	// Bisection to the last bit: the probability rises strictly with k.
	for {
		k := low + (high-low)/2
		if k <= low || k >= high {
			return high, nil
		}
		if boundProbability(n, k, z, rule) < confidence {
			low = k
		} else {
			high = k
		}
	}
}

// boundProbability is the probability that mean + k s of n values lies above
// the population's mean + z standard deviations, integrated by rule.
func boundProbability(n int, k, z float64, rule quadrature) float64 {
	const (
		reach  = 10 // beyond 10 standard deviations lies less than 1e-22
		panels = 3
	)
	nu, root := float64(n-1), math.Sqrt(float64(n))
	gamma, _ := math.Lgamma(nu / 2)
	norming := math.Ln2 + nu/2*math.Log(nu/2) - gamma
	integrand := func(s float64) float64 {
		density := math.Exp(norming + (nu-1)*math.Log(s) - nu*s*s/2)
		return density * math.Erfc(root*(z-k*s)/math.Sqrt2) / 2
	}
	// The normal distribution rises from 0 to 1 around s = z/k; the density has
	// its hill around 1 with a standard deviation of 1/sqrt(2 nu) at most.
	first, last := max(0, 1-reach/math.Sqrt(nu)), 1+reach/math.Sqrt(nu)
	sum, from := 0.0, first
	for _, cut := range [...]float64{z/k - reach/(k*root), z / k, z/k + reach/(k*root), last} {
		to := min(max(cut, from), last)
		for i := range panels {
			a := from + (to-from)*float64(i)/panels
			b := from + (to-from)*float64(i+1)/panels
			if b > a {
				sum += rule.of(integrand, a, b)
			}
		}
		from = to
	}
	return sum
}

// quadrature holds the nodes of a rule over [0, 1] and their weights [-]. A factor takes some 600 integrals by the same ones.
type quadrature struct{ at, weight []float64 }

func legendreRule(nodes int) quadrature {
	q := quadrature{make([]float64, nodes), make([]float64, nodes)}
	quad.Legendre{}.FixedLocations(q.at, q.weight, 0, 1)
	return q
}

// of is the integral of f from a to b.
func (q quadrature) of(f func(float64) float64, a, b float64) (integral float64) {
	for i, x := range q.at {
		integral += q.weight[i] * (b - a) * f(x*(b-a)+a)
	}
	return integral
}

// The confidence and coverage of the measured bound [-]: with 95 % confidence at
// least 99 % of all shots are slower (own choice of this project).
const (
	BoundConfidence = 0.95
	BoundCoverage   = 0.99
)

// BoundFactor is the factor of n shots, 2 or more, at the project's confidence
// and coverage.
func BoundFactor(n int) float64 {
	k, err := ToleranceFactor(min(n, mostShots), BoundConfidence, BoundCoverage)
	if err != nil {
		panic("limits: " + err.Error())
	}
	return k
}
