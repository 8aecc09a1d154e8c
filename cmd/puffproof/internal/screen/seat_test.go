package screen

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/worst"
)

// A seat that differs from the stated one by less than anybody can tell is the stated one.
func TestASeatIsShownInTheDigitsThatAreKnown(t *testing.T) {
	for seat, says := range map[float64]string{0: "seated as stated", 2e-5: "seated as stated", 0.02: "seated 20.0 mm forward"} {
		s := &ShotScreen{Shot: show.ShotView{Highest: &worst.ShotFigures{Outcome: show.OutcomeLeft, Seat: seat}}}
		var out bytes.Buffer
		require.NoError(t, s.Write(&out))
		assert.Contains(t, out.String(), says)
	}
}
