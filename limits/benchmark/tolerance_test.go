package benchmark_test

import (
	"bufio"
	"fmt"
	"math"
	"os"
	"puffproof/limits/benchmark"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Montgomery and Runger, Applied Statistics and Probability for Engineers, table
// XII, to the digits printed.
func TestToleranceFactorsOfTheTable(t *testing.T) {
	columns := [][2]float64{{0.95, 0.99}, {0.95, 0.95}, {0.95, 0.90}, {0.90, 0.99}, {0.99, 0.99}}
	table := map[int][5]string{
		5:  {"5.741", "4.203", "3.407", "4.666", "8.939"},
		10: {"3.981", "2.911", "2.355", "3.532", "5.074"},
		20: {"3.295", "2.396", "1.926", "3.052", "3.832"},
		30: {"3.064", "2.220", "1.777", "2.884", "3.447"},
	}
	for n, row := range table {
		for i, want := range row {
			k, err := benchmark.ToleranceFactor(n, columns[i][0], columns[i][1])
			require.NoError(t, err)
			assert.Equal(t, want, fmt.Sprintf("%.3f", k), "n %d, confidence and coverage %v", n, columns[i])
		}
	}
}

// NIST/SEMATECH e-Handbook 7.2.6.3: n = 43, confidence 99 %, coverage 90 %. Its
// approximate formula gives 1.8752, the exact method 1.87395.
func TestToleranceFactorOfNIST(t *testing.T) {
	k, err := benchmark.ToleranceFactor(43, 0.99, 0.90)
	require.NoError(t, err)
	assert.Equal(t, "1.87395", fmt.Sprintf("%.5f", k))
	assert.NotEqual(t, "1.8752", fmt.Sprintf("%.4f", k), "the approximation")
}

// Two general reference libraries, testdata/tolerance/factors.csv. Against
// mpmath at 30 digits: 1e-12, a hundred times the rounding of the sum over the
// quadrature's nodes over the slope of the probability. Against SciPy the same:
// in this file the two libraries agree to 4e-15.
func TestToleranceFactorsOfOtherLibraries(t *testing.T) {
	file, err := os.Open("testdata/tolerance/factors.csv")
	require.NoError(t, err)
	defer file.Close()
	rows := 0
	for lines := bufio.NewScanner(file); lines.Scan(); {
		if strings.HasPrefix(lines.Text(), "#") || strings.HasPrefix(lines.Text(), "n,") {
			continue
		}
		f := strings.Split(lines.Text(), ",")
		require.Len(t, f, 5)
		var v [5]float64
		for i, s := range f {
			v[i], err = strconv.ParseFloat(s, 64)
			require.NoError(t, err)
		}
		k, err := benchmark.ToleranceFactor(int(v[0]), v[1], v[2])
		require.NoError(t, err)
		assert.InEpsilon(t, v[4], k, 1e-12, "mpmath: %s", lines.Text())
		assert.InEpsilon(t, v[3], k, 1e-12, "SciPy: %s", lines.Text())
		rows++
	}
	assert.Equal(t, 18*6, rows)
}

// Two values, closed form: with coverage 1/2, z is 0 and the noncentral
// distribution is Student's with one degree of freedom, Cauchy's: t =
// tan(pi (confidence - 1/2)).
func TestToleranceFactorOfTwoValues(t *testing.T) {
	for _, confidence := range []float64{0.6, 0.9, 0.95, 0.99} {
		k, err := benchmark.ToleranceFactor(2, confidence, 0.5)
		require.NoError(t, err)
		assert.InEpsilon(t, math.Tan(math.Pi*(confidence-0.5))/math.Sqrt2, k, 1e-11, "confidence %v: the slope of the tangent", confidence)
	}
}

// More values never ask for a greater factor, more confidence or coverage never
// for a smaller one, and the factor is above the normal quantile that it nears.
func TestToleranceFactorIsMonotone(t *testing.T) {
	k := func(n int, c, p float64) float64 {
		k, err := benchmark.ToleranceFactor(n, c, p)
		require.NoError(t, err)
		return k
	}
	for _, n := range []int{2, 3, 7, 20, 90, 499} {
		for _, share := range [][2]float64{{0.8, 0.8}, {0.9, 0.985}, {0.985, 0.9}, {0.95, 0.99}} {
			c, p := share[0], share[1]
			base := k(n, c, p)
			assert.Less(t, k(n+1, c, p), base, "%d values, %v", n, share)
			assert.Greater(t, k(n, c+0.005, p), base, "%d values, %v", n, share)
			assert.Greater(t, k(n, c, p+0.005), base, "%d values, %v", n, share)
			assert.Greater(t, base, math.Sqrt2*math.Erfinv(2*p-1), "%d values, %v", n, share)
		}
	}
}

func TestToleranceFactorRefuses(t *testing.T) {
	for _, c := range []struct {
		n                    int
		confidence, coverage float64
		says                 string
	}{
		{1, 0.95, 0.99, "a tolerance factor needs 2 to 500 values, not 1"},
		{501, 0.95, 0.99, "a tolerance factor needs 2 to 500 values, not 501"},
		{5, 95, 0.99, "a tolerance factor needs a confidence from 0.5 to 0.999, not 95"},
		{5, math.NaN(), 0.99, "a tolerance factor needs a confidence from 0.5 to 0.999, not NaN"},
		{5, 0.95, 1, "a tolerance factor needs a coverage from 0.5 to 0.999, not 1"},
	} {
		_, err := benchmark.ToleranceFactor(c.n, c.confidence, c.coverage)
		assert.EqualError(t, err, c.says)
	}
}

func BenchmarkToleranceFactor(b *testing.B) {
	for b.Loop() {
		if _, err := benchmark.ToleranceFactor(20, 0.95, 0.99); err != nil {
			b.Fatal(err)
		}
	}
}
