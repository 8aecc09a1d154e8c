package search

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// An orthogonal array of strength 3: in any three columns each of the eight
// combinations occurs equally often. The definition, counted out.
func TestFoldoverHasStrengthThree(t *testing.T) {
	for _, dim := range []int{3, 4, 5, 11, 16, 17, 31} {
		design := foldover(dim)
		for i := range dim {
			for j := range i {
				for k := range j {
					var count [8]int
					for _, u := range design {
						count[int(4*u[i]+2*u[j]+u[k])]++
					}
					for c, n := range count {
						assert.Equal(t, len(design)/8, n, "%d columns: %d, %d, %d, combination %d", dim, i, j, k, c)
					}
				}
			}
		}
	}
}

// One dimension has two corners, two have four.
func TestFoldoverOfFewColumns(t *testing.T) {
	assert.Equal(t, [][]float64{{0}, {1}}, foldover(1))
	assert.Equal(t, [][]float64{{0, 0}, {0, 1}, {1, 1}, {1, 0}}, foldover(2))
}

// A low-discrepancy sequence is even: of 1024 points each tenth of each
// coordinate holds 102.4 give or take the discrepancy bound of the van der
// Corput sequence in base b, (b log_b n)/4 + 2 points (Niederreiter 1992, from
// memory); for b = 53, 25 points. Scrambling keeps it.
func TestHaltonIsEvenAndRepeatable(t *testing.T) {
	points := halton(1024, 16, 3)
	assert.Equal(t, points, halton(1024, 16, 3))
	assert.NotEqual(t, points, halton(1024, 16, 4))
	for i := range 16 {
		var tenth [10]int
		for _, u := range points {
			tenth[min(9, int(10*u[i]))]++
		}
		for k, n := range tenth {
			assert.InDelta(t, 102.4, n, 25, "coordinate %d, tenth %d", i, k)
		}
	}
}
