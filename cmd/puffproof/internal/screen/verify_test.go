package screen

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/export"
	"puffproof/cmd/puffproof/internal/paper"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits/finding"
)

func verifyText(t *testing.T, v *paper.Verification, detail Detail) string {
	t.Helper()
	var b strings.Builder
	require.NoError(t, (&VerifyScreen{Frame: Frame{Style: Style{Width: 300}, Detail: detail}, Verification: v}).Write(&b))
	return b.String()
}

// verifyJSON is the document of verify as another program reads it.
func verifyJSON(t *testing.T, v *paper.Verification) map[string]any {
	t.Helper()
	data, err := export.Verify(v)
	require.NoError(t, err)
	var doc map[string]map[string]any
	require.NoError(t, json.Unmarshal(data, &doc))
	return doc["verify"]
}

// A paper that fits approves nothing: its line and its JSON say what the design
// itself is worth.
func TestVerificationNamesTheFinding(t *testing.T) {
	no := false
	v := paper.Verification{Archive: &document.Archive{Paper: document.SafetyFile, Date: "2026-05-31"}, Date: "2026-06-01", Altered: &no,
		Again: &paper.Comparison{Describes: true, Holds: true, OpenItems: 3,
			Finding: "Holds on the model. NOT yet confirmed: 3 items open: not to be used yet."}}
	assert.Equal(t, "The safety file's own inputs give its answers again. As it is now: Holds on the model. NOT yet confirmed: 3 items "+
		"open: not to be used yet.", v.Finding())
	assert.Contains(t, verifyText(t, &v, FindingOnly), "3 items open: not to be used yet")
	doc := verifyJSON(t, &v)
	assert.Equal(t, 3.0, doc["open_items"])
	assert.Equal(t, false, doc["confirmed"])
	assert.Contains(t, doc["finding"], "NOT yet confirmed")
}

// A finding that the inputs do not give, a cut and every altered place are named.
func TestVerificationNamesWhatIsWrong(t *testing.T) {
	yes := true
	now := &paper.Comparison{Describes: true, Holds: true, Finding: "DOES NOT HOLD: it is too fast."}
	v := paper.Verification{Archive: &document.Archive{Paper: document.SafetyFile, Date: "2026-05-31",
		Finding: "Holds, confirmed by measurement."}, Date: "2026-06-01", Altered: &yes, Again: now,
		Own: "DOES NOT HOLD: it is too fast.", Differs: []document.Difference{{Place: "line 7", Is: "0.08 J", Should: "0.71 J"}}}
	assert.Contains(t, v.Finding(), "its finding is NOT what its inputs give. As it is now: DOES NOT HOLD: it is too fast.")
	assert.Contains(t, verifyText(t, &v, Everything), `line 7: it says "0.08 J", its inputs give "0.71 J"`)
	doc := verifyJSON(t, &v)
	assert.Equal(t, true, doc["finding_is_not_its_inputs"])
	assert.Equal(t, []any{map[string]any{"place": "line 7", "is": "0.08 J", "should": "0.71 J"}}, doc["altered_places"])
	v.Cut = true
	assert.Contains(t, v.Finding(), "is CUT OFF")
	no := false
	assert.False(t, (&paper.Verification{Archive: &document.Archive{Date: "2026-05-31"}, Date: "2026-06-01", Altered: &no, Again: now,
		Cut: true}).Good())
}

// Two figures that differ never look the same, and they are rounded as on the
// screens: up, and down where the limit is one to stay above.
func TestChangedFiguresAreToldApart(t *testing.T) {
	for want, d := range map[string]paper.VerdictChange{
		"PASS 0.18 J -> PASS 0.181 J": {Before: finding.Pass, After: finding.Pass, ValueBefore: f(0.1801), ValueAfter: f(0.1812), Unit: "J"},
		"PASS 0.19 J -> FAIL 0.62 J":  {Before: finding.Pass, After: finding.Fail, ValueBefore: f(0.1801), ValueAfter: f(0.6101), Unit: "J"},
		"PASS 2.31 J -> PASS 2.41 J":  {Before: finding.Pass, After: finding.Pass, ValueBefore: f(2.305), ValueAfter: f(2.405), Unit: "J"},
		"PASS 0.18 J -> FAIL 0.61 J": {Before: finding.Pass, After: finding.Fail, ValueBefore: f(0.1899), ValueAfter: f(0.6199), Unit: "J",
			Lower: true},
	} {
		a, b := changedAnswers(quantity.Metric, d)
		assert.Equal(t, want, a+" -> "+b)
	}
}

// Whether the words of a paper were altered is said to be unknown where it is.
func TestVerificationSaysWhatIsNotKnown(t *testing.T) {
	no := false
	for _, altered := range []*bool{nil, &no} {
		v := paper.Verification{Archive: &document.Archive{Paper: document.CardPaper, Date: "2026-05-31"}, Date: "2026-06-01",
			Altered: altered, NotKnown: "another program made it",
			Again: &paper.Comparison{Describes: true, Holds: true}}
		assert.Equal(t, altered == nil, strings.Contains(verifyText(t, &v, Everything), "altered is not known: another program"))
	}
}

// A test to be done again is named in the reader's units. 50.8 mm is 2 in by definition.
func TestVoidItemsAreNamedInTheReadersUnits(t *testing.T) {
	v := paper.Verification{Archive: &document.Archive{Paper: document.SafetyFile, Date: "2026-05-31"}, Date: "2026-06-01",
		Against: &paper.Comparison{Items: []paper.VoidItem{{ID: "restrictor.gauge",
			Title: finding.Say("Hold the bore of %s against a drill", finding.Millimetre(0.0508))}}}}
	var b strings.Builder
	s := VerifyScreen{Frame: Frame{Style: Style{Width: 300, Units: quantity.US}}, Verification: &v}
	require.NoError(t, s.Write(&b))
	assert.Contains(t, b.String(), "Hold the bore of 2.00 in against a drill (restrictor.gauge)")
}
