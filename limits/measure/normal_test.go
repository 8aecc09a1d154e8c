package measure

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Shapiro and Wilk against SciPy 1.10.1, scipy.stats.shapiro(values); the first
// sample is the example of the
// 1965 paper (weights of 11 men). SciPy uses the same algorithm AS R94 with
// single precision inside: 1e-4.
func TestShapiroWilk(t *testing.T) {
	for _, c := range []struct {
		v    []float64
		w, p float64
	}{
		{[]float64{148, 154, 158, 160, 161, 162, 166, 170, 182, 195, 236}, 0.7888147830963135, 0.006703833118081093},
		{[]float64{4.01, 4.12, 3.97, 4.05, 4.20, 3.88, 4.09, 4.02, 3.95, 4.11}, 0.9912770390510559, 0.99811851978302},
		{[]float64{5.1, 5.3, 4.9, 5.0, 5.2, 5.15, 4.95, 5.05, 5.25, 4.85, 5.4, 4.7, 9.0}, 0.4819348454475403, 7.4107019827351905e-06},
		{[]float64{2.1, 2.2, 2.25, 2.3, 2.31, 2.35, 2.4, 2.41, 2.5, 2.6, 2.62, 2.7, 3.3, 3.35, 3.4, 3.42, 3.45, 3.5, 3.51, 3.6},
			0.8419250845909119, 0.003915103618055582},
	} {
		w, p := shapiroWilk(c.v)
		assert.InDelta(t, c.w, w, 1e-4)
		assert.InDelta(t, c.p, p, 1e-4)
	}
}

// NIST/SEMATECH e-Handbook 1.3.5.17.1: eight mass-spectrometer readings, G =
// 2.4687, critical value of the upper one-sided test at 5 %: 2.0317.
func TestGrubbs(t *testing.T) {
	v := []float64{199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57}
	assert.InDelta(t, 2.0317, grubbs(8, 0.05), 0.0002)
	out := outliers(v, []int{2, 3, 4, 5, 6, 7, 8, 9})
	require.Len(t, out, 1)
	assert.Equal(t, 9, out[0].Line)
	assert.InDelta(t, 2.4687, out[0].G, 0.0001) // 2.46876: the handbook cuts
	assert.Empty(t, outliers(v[:7], []int{2, 3, 4, 5, 6, 7, 8}))
}

// Grubbs' greatest possible value for five readings is (n-1)/sqrt(n) = 1.789, the
// critical one at 1 % two-sided 1.764 (NIST/SEMATECH 1.3.5.17.1, formula): one far
// reading among five is named, an even five is not.
func TestOutlierOfFive(t *testing.T) {
	assert.InDelta(t, 1.764, grubbs(5, 0.005), 0.001) // printed to three decimals
	lines := []int{2, 3, 4, 5, 6}
	require.Len(t, outliers([]float64{5.1, 5.0, 5.2, 5.15, 9}, lines), 1)
	assert.Empty(t, outliers([]float64{5.1, 5.0, 5.2, 5.15, 5.05}, lines))
}
