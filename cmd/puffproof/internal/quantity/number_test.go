package quantity

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestNumberKeepsTheDigitsAsked(t *testing.T) {
	for _, c := range []struct {
		v      float64
		digits int
		want   string
	}{{0.4567, 2, "0.46"}, {9.996, 3, "10"}, {1234.5, 3, "1230"}, {0, 3, "0"}, {-0.5, 3, "-0.5"}, {1e-5, 2, "0.00001"}, {1.25, 3, "1.25"}} {
		assert.Equal(t, c.want, Number(c.v, c.digits))
	}
}

// A margin is never shown larger than it is, and a negative one never as 0.
func TestPercentRoundsDown(t *testing.T) {
	for share, want := range map[float64]string{0.255: "25 %", 0.29: "29 %", -0.0008: "-1 %", 0: "0 %", -1.1: "-110 %", 0.999: "99 %"} {
		assert.Equal(t, want, Percent(share, 0, Down))
	}
}

// Two digits, never better than the figure is; the digits are those of what is shown.
func TestSignificantKeepsItsDigits(t *testing.T) {
	for _, c := range []struct {
		v    float64
		r    Rounding
		want string
	}{
		{0.2071, Up, "0.21"}, {0.21, Up, "0.21"}, {0.2101, Up, "0.22"}, {0.996, Nearest, "1.0"}, {9.93, Up, "10"}, {9.93, Down, "9.9"}, {0.0993,
			Up, "0.10"}, {126.7, Nearest, "130"},
		{1401985, Up, "1500000"}, {0.29, Up, "0.29"}, {0.29, Down, "0.29"}, {0.299, Down, "0.29"}, {0, Up, "0"}, {-0.044, Nearest, "-0.044"},
		{5000, Nearest, "5000"}, {2, Nearest, "2.0"},
	} {
		assert.Equal(t, c.want, Significant(c.v, 2, c.r), "%g", c.v)
	}
}

func TestFixedHasNoZeroWithAMinus(t *testing.T) {
	for _, c := range []struct {
		v        float64
		decimals int
		r        Rounding
		want     string
	}{{-1e-9, 2, Nearest, "0.00"}, {-0.4, 0, Up, "0"}, {-0.004, 2, Down, "-0.01"}, {1250, -2, Nearest, "1200"}, {1201, -2, Up, "1300"}} {
		assert.Equal(t, c.want, Fixed(c.v, c.decimals, c.r), "%g", c.v)
	}
}

func TestMarginsNobodyMisreads(t *testing.T) {
	assert.Equal(t, "margin 58 %", Margin(0.5899))
	assert.Equal(t, "margin -100 %", Margin(-1))
	assert.Equal(t, "18 times the limit", Margin(-17))
	assert.Equal(t, "-0.50 %", Deviation(-0.005))
}
