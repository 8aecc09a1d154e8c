package app

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/manual"
	"puffproof/cmd/puffproof/internal/paper"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits"
	"puffproof/limits/assessment"
	"puffproof/limits/fault"
	"puffproof/limits/vent"
)

// mostPages is the most pages of the body of a safety file: own rule of this project (common practice, no source). Who signs reads
// that much; what is longer stands in the appendix.
const mostPages = 12

// The body of the examples' files keeps to it, page by page as in the PDF. Pairs of faults and the set pressures stand in the
// appendix, so they are not computed here; how long its words are hardly hangs on how hard the searches look. With PUFFPROOF_LONG=1
// they look as hard as for people, and the soapbox is asked too, which takes two minutes of processor time.
func TestTheBodyOfASafetyFileIsShort(t *testing.T) {
	names, strength := []string{"rocket", "whale"}, 0.00005
	switch {
	case os.Getenv("PUFFPROOF_LONG") != "":
		names, strength = append(names, "soapbox"), 1
	case os.Getenv("PUFFPROOF_MORE") != "":
		strength = 0.02
	}
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			text, err := os.ReadFile(filepath.Join("..", "..", "..", "..", "testdata", "designs", name+".toml"))
			require.NoError(t, err)
			l, problems := design.Reader{}.Read(name+".toml", text)
			require.Empty(t, problems)
			sum := sha256.Sum256(text)
			in := paper.Input{Design: show.DesignID{Name: l.Name, Revision: l.Revision, SHA256: hex.EncodeToString(sum[:])}, Text: string(text),
				Launcher: l, Version: "of the tests", DimensionOf: manual.DimensionOf, Date: "2026-05-31"}
			a, err := assessment.Make(context.Background(), l, assessment.Options{Day: in.Date, Sheets: vent.FullSheets,
				Pairs: fault.LatentPairs, Strength: strength})
			require.NoError(t, err)
			in.Report, in.Vent, in.Faults = limits.ReportOf(a), limits.VentReportOf(a), limits.FaultReportOf(a)
			in.Flights, in.NoFlight = a.Flights, a.NoFlight.String()
			doc, err := paper.Build(in)
			require.NoError(t, err)
			body, appendix, err := document.Pages(doc)
			require.NoError(t, err)
			t.Logf("%d pages, and %d of the appendix", body, appendix)
			assert.LessOrEqual(t, body, mostPages)
			assert.Greater(t, appendix, 10, "it has what the body leaves out")
		})
	}
}
