package measure

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"puffproof/limits/benchmark"
)

// normalityLevel is the probability below which a scatter counts as not normal
// [-] (common practice, no source).
const normalityLevel = 0.01

// leastForNormality is the number of shots from which the scatter is tested.
const leastForNormality = 10

// Normality is what can be said about the shape of the scatter.
type Normality struct {
	Tested bool    // false: too few shots; the bound then assumes a normal scatter
	W, P   float64 // of the test of Shapiro and Wilk [-]
	// OrderConfidence is the confidence with which the fastest shot lies above
	// BoundCoverage of all shots, whatever the scatter's shape: 1 - coverage^n [-].
	OrderConfidence float64
}

func normality(v []float64) Normality {
	n := Normality{OrderConfidence: 1 - math.Pow(benchmark.BoundCoverage, float64(len(v)))}
	if len(v) < leastForNormality || slices.Max(v) == slices.Min(v) {
		return n
	}
	n.Tested = true
	n.W, n.P = shapiroWilk(v)
	return n
}

// shapiroWilk gives the statistic W of Shapiro and Wilk and the probability of
// a lower one in a normal sample of 12 to 2000 values (from 4 to 11 with the
// small-sample form). Values must differ.
//
// Source: P. Royston, Algorithm AS R94, Applied Statistics 44 (1995) 547-551.
func shapiroWilk(values []float64) (w, p float64) {
	x := slices.Sorted(slices.Values(values))
	n := len(x)
	a := shapiroWeights(n)
	mean := stat.Mean(x, nil)
	var num, den float64
	for i, v := range x {
		num += a[i] * (v - mean)
		den += (v - mean) * (v - mean)
	}
	w = math.Min(1, num*num/den)
	N := float64(n)
	y := math.Log1p(-w)
	var m, s float64
	if n <= 11 {
		gamma := -2.273 + 0.459*N
		if y >= gamma {
			return w, 0
		}
		y = -math.Log(gamma - y)
		m = 0.5440 + N*(-0.39978+N*(0.025054-N*6.714e-4))
		s = math.Exp(1.3822 + N*(-0.77857+N*(0.062767-N*2.0322e-3)))
	} else {
		u := math.Log(N)
		m = -1.5861 + u*(-0.31082+u*(-0.083751+u*3.8915e-3))
		s = math.Exp(-0.4803 + u*(-0.082676+u*3.0302e-3))
	}
	return w, 1 - distuv.UnitNormal.CDF((y-m)/s)
}

// shapiroWeights are the weights of the ordered values, Royston's approximation.
func shapiroWeights(n int) []float64 {
	N := float64(n)
	m := make([]float64, n)
	var sum float64
	for i := range m {
		m[i] = distuv.UnitNormal.Quantile((float64(i+1) - 0.375) / (N + 0.25))
		sum += m[i] * m[i]
	}
	u, root := 1/math.Sqrt(N), math.Sqrt(sum)
	last := m[n-1]/root + u*(0.221157+u*(-0.147981+u*(-2.071190+u*(4.434685-u*2.706056))))
	a := make([]float64, n)
	a[n-1], a[0] = last, -last
	if n <= 5 {
		phi := (sum - 2*m[n-1]*m[n-1]) / (1 - 2*last*last)
		for i := 1; i < n-1; i++ {
			a[i] = m[i] / math.Sqrt(phi)
		}
		return a
	}
	next := m[n-2]/root + u*(0.042981+u*(-0.293762+u*(-1.752461+u*(5.682633-u*3.582633))))
	a[n-2], a[1] = next, -next
	phi := (sum - 2*m[n-1]*m[n-1] - 2*m[n-2]*m[n-2]) / (1 - 2*last*last - 2*next*next)
	for i := 2; i < n-2; i++ {
		a[i] = m[i] / math.Sqrt(phi)
	}
	return a
}

// outliers names the value farthest from the mean where Grubbs' test finds it
// too far at the 5 % level, two-sided; lines are the places of the values.
//
//	G > (n-1)/sqrt(n) sqrt(t^2/(n-2+t^2)),  t = t(1 - 0.05/(2n); n-2)
//
// Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17.1. Up to 6
// values the test tags too many at that level (same place): the 1 % level is used
// there (own rule); below 4 none is named.
func outliers(v []float64, lines []int) []Outlier {
	if len(v) < 4 {
		return nil
	}
	level := 0.05
	if len(v) <= 6 {
		level = 0.01
	}
	mean, sd := stat.MeanStdDev(v, nil)
	if sd == 0 {
		return nil
	}
	far := 0
	for i := range v {
		if math.Abs(v[i]-mean) > math.Abs(v[far]-mean) {
			far = i
		}
	}
	g := math.Abs(v[far]-mean) / sd
	if g <= grubbs(len(v), level/2) {
		return nil
	}
	return []Outlier{{Line: lines[far], Speed: v[far], G: g}}
}

// grubbs is the critical value of Grubbs' test for n values at a one-sided level.
func grubbs(n int, level float64) float64 {
	N := float64(n)
	t := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: N - 2}.Quantile(1 - level/N)
	return (N - 1) / math.Sqrt(N) * math.Sqrt(t*t/(N-2+t*t))
}

// Outlier is a shot that does not look like the others. It still counts.
type Outlier struct {
	Line  int
	Speed float64 // [m/s]
	G     float64 // distance from the mean in standard deviations [-]
}
