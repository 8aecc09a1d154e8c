package screen

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/record"
	"puffproof/limits"
	"puffproof/limits/commission"
	"puffproof/limits/finding"
)

// What a series of readings shows is a sentence of its own: it ends with one full stop.
func TestWhatWasWrittenEndsOnce(t *testing.T) {
	for _, says := range []string{"it leaks", "It leaks. Look at the fittings."} {
		s := &CommissionScreen{Frame: Frame{Style: Style{Width: 200}, Design: inventedID()}, Report: limits.Report{Holds: true},
			Run:  &commission.Run{Complete: true},
			File: "whale.toml", Wrote: &record.Wrote{Step: finding.ItemLeakDown, Result: record.Failed, Says: finding.Words(says)}}
		var b strings.Builder
		require.NoError(t, s.Write(&b))
		assert.Contains(t, b.String(), "  "+strings.TrimSuffix(says, ".")+".\n")
		assert.NotContains(t, b.String(), "..")
	}
}

// When all is done the last letters of the record are shown, for the second person to write down.
func TestTheLastLettersAreShown(t *testing.T) {
	log := &record.Log{Entries: []record.Entry{{Kind: record.Written, Chain: "0123456789abcdef01"}}}
	s := &CommissionScreen{Frame: Frame{Style: Style{Width: 200}, Design: inventedID()}, Report: limits.Report{Holds: true},
		Run: &commission.Run{Complete: true}, File: "whale.toml", Record: record.State{Log: log}}
	var b strings.Builder
	require.NoError(t, s.Write(&b))
	assert.Contains(t, b.String(), "The record ends in 0123 4567 89ab cdef: whoever looked last writes that beside the signature")
}

// Where all steps are done and something has to be mended the screen says that, and leads to check.
func TestMendingGoesBeforePapers(t *testing.T) {
	s := &CommissionScreen{Frame: Frame{Style: Style{Width: 200}, Design: inventedID()}, File: "whale.toml",
		Run: &commission.Run{NoAir: finding.Words("its energies fail")}}
	var b strings.Builder
	require.NoError(t, s.Write(&b))
	assert.Contains(t, b.String(), "NO AIR: its energies fail.")
	assert.Contains(t, b.String(), "next: puffproof check whale.toml\n")
}
