package quantity

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The units are those of NIST SP 811 (2008), Appendix B: 1 bar is 14.50 psi, 1 in is
// 25.4 mm, 1 oz is 28.35 g, 10 K are 18 degrees Fahrenheit.
func TestExample(t *testing.T) {
	for text, want := range map[string]string{
		`"0.45 bar ± 0.05 bar"`:                        `"6.5 psi ± 0.73 psi"`,
		`"1013 hPa abs ± 30 hPa"`:                      `"14.7 psi abs ± 0.44 psi"`,
		`"18 degC ± 10 K"`:                             `"64 °F ± 18 °F"`,
		`"0.80 L ± 2 %, measured"`:                     `"48.8 in3 ± 2 %, measured"`,
		`"0.5 N -0.5/+1.0 N"`:                          `"0.11 lbf -0.11 lbf/+0.22 lbf"`,
		`"0 km/h ± 0"`:                                 `"0 ft/s ± 0"`,
		`"15 bar, water, 2026-03-01"`:                  `"218 psi, water, 2026-03-01"`,
		`--value "9 s, 0.00 bar"`:                      `--value "9 s, 0 psi"`,
		`"30 ms ± 30 ms"`:                              `"30 ms ± 30 ms"`,
		`{ bore = "6 mm", side = "before" }`:           `{ bore = "0.236 in", side = "before" }`,
		`--goal "apex 3 m" --bore "41 mm", 0.5 bar`:    `--goal "apex 9.84 ft" --bore "1.61 in", 0.5 bar`,
		`"grid of 10 mm" "PN10" "2026-03-01" "1.7" ""`: `"grid of 10 mm" "PN10" "2026-03-01" "1.7" ""`,
	} {
		assert.Equal(t, want, US.Example(text))
		assert.Equal(t, text, Metric.Example(text))
	}
}
