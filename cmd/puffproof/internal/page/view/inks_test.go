package view

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/figure"
)

// On a dark ground every ink of the figures is seen: the style sheet gives it another colour, or it stands out as it is (WCAG 2.2, 1.4.3:
// 4.5 to 1 for text; 1.4.11: 3 to 1 for what has to be understood in a graphic).
func TestInksOnADarkGround(t *testing.T) {
	chart := figure.Chart{X: "x", Y: "y", Limits: []figure.ChartLimit{{Name: "limit", At: 1.5}}}
	for _, name := range []string{"a", "b", "c", "d", "before"} {
		chart.Lines = append(chart.Lines, figure.ChartLine{Name: name, X: []float64{0, 1}, Y: []float64{1, 2}, Before: name == "before"})
	}
	circuit := figure.Circuit{Nodes: []figure.CircuitNode{{Name: "tank", Note: "2 L"}, {Name: "barrel", Barrel: true, Note: "in bore"}},
		Parts: []figure.CircuitPart{{Number: 1, Name: "fire", Note: "Cv 2", Kind: figure.ValveClosedSymbol, To: 1}}}
	_, rest, _ := strings.Cut(string(Asset("style.css")), "@media (prefers-color-scheme: dark)")
	paper := regexp.MustCompile(`--paper: (#\w+)`).FindStringSubmatch(rest)[1]
	for name, draw := range map[string]func() (*figure.Drawing, error){"chart": chart.Draw, "circuit": circuit.Draw} {
		d, err := draw()
		require.NoError(t, err)
		svg, err := d.Inline()
		require.NoError(t, err)
		for kind, least := range map[string]float64{`<text[^>]*(fill)="(#\w+)"`: 4.5, `(stroke)="(#\w+)"`: 3} {
			for _, m := range regexp.MustCompile(kind).FindAllStringSubmatch(string(svg), -1) {
				if !strings.Contains(rest, "["+m[1]+"=\""+m[2]+"\"]") {
					assert.GreaterOrEqual(t, contrast(t, m[2], paper), least, "%s: %s %s", name, m[1], m[2])
				}
			}
		}
	}
}

// contrast is that of two colours (WCAG 2.2, contrast ratio).
func contrast(t *testing.T, a, b string) float64 {
	light := func(hex string) float64 {
		v, err := strconv.ParseUint(hex[1:], 16, 32)
		require.NoError(t, err)
		part := func(shift int) float64 {
			c := float64(v>>shift&0xFF) / 255
			if c <= 0.04045 {
				return c / 12.92
			}
			return math.Pow((c+0.055)/1.055, 2.4)
		}
		return 0.2126*part(16) + 0.7152*part(8) + 0.0722*part(0)
	}
	high, low := max(light(a), light(b)), min(light(a), light(b))
	return (high + 0.05) / (low + 0.05)
}
