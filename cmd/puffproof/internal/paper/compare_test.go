package paper

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/limits"
	"puffproof/limits/finding"
)

func archived(t *testing.T) (*document.Archive, Input) {
	t.Helper()
	in := invented(t, nil)
	file, err := document.HTML(built(t, in))
	require.NoError(t, err)
	a, err := document.ReadArchive(file)
	require.NoError(t, err)
	return a, in
}

func TestArchiveComesBackWhole(t *testing.T) {
	a, in := archived(t)
	assert.Equal(t, in.Text, a.Design)
	assert.Equal(t, in.Date, a.Date)
	assert.Equal(t, VerdictsOf(in.Report), a.Verdicts)
}

func TestDamagedArchivesAreRefused(t *testing.T) {
	a, _ := archived(t)
	code, err := a.Encode()
	require.NoError(t, err)
	changed := *a
	changed.Design += "#"
	other, err := changed.Encode()
	require.NoError(t, err)
	changed = *a
	changed.Format = 99
	newer, err := changed.Encode()
	require.NoError(t, err)
	changed = *a
	changed.Paper = "poem"
	foreign, err := changed.Encode()
	require.NoError(t, err)
	changed = *a
	changed.Date = "soon"
	dateless, err := changed.Encode()
	require.NoError(t, err)
	pdf, err := document.PDF(built(t, invented(t, nil)))
	require.NoError(t, err)
	at := bytes.LastIndex(pdf, []byte("/Type /EmbeddedFile "))
	for name, c := range map[string]struct{ file, want string }{
		"PDF of another":   {"%PDF-1.3\nnothing", "no puffproof archive"},
		"PDF cut":          {string(pdf[:at+400]), "damaged"},
		"PDF without it":   {string(pdf[:at]), "no puffproof archive"},
		"none":             {"<html>nothing</html>", "no puffproof archive"},
		"cut":              {code[:len(code)/2] + "!", "damaged"},
		"not an archive":   {document.ArchiveMark + "QUJD", "damaged"},
		"changed design":   {other, "fingerprint"},
		"of another time":  {newer, "format 99"},
		"mark without one": {document.ArchiveMark, "damaged"},
		"of another paper": {foreign, "unknown kind of paper"},
		"no date":          {dateless, "its date is none"},
	} {
		_, err := document.ReadArchive([]byte(c.file))
		assert.ErrorContains(t, err, c.want, name)
	}
}

func TestCompareFindsWhatChanged(t *testing.T) {
	a, in := archived(t)
	edit := func(pairs ...string) string {
		text := strings.NewReplacer(pairs...).Replace(in.Text)
		require.NotEqual(t, in.Text, text)
		return text
	}
	worse := inventedReport()
	worse.Verdicts[0].Value, worse.Verdicts[0].Status = number(0.6), finding.Fail
	for name, c := range map[string]struct {
		design      string
		report      limits.Report
		keys        []string
		verdicts    []string
		items       []string
		signed, hit bool
	}{
		"nothing":   {design: in.Text, report: inventedReport()},
		"a comment": {design: in.Text + "\n# a remark\n", report: inventedReport()},
		"one key, worse": {design: edit(`volume = "1.0 L ± 3 %, measured"`, `volume = "2.0 L ± 3 %, measured"`), report: worse,
			keys: []string{"volumes.dose.volume"}, verdicts: []string{"energy.total"}, items: []string{"confirm.shots"}, signed: true},
		"the barrel": {design: edit(`seal_guard = "four slots in the blowhole ring"`, `seal_guard = "none"`), report: inventedReport(),
			keys: []string{"barrel.seal_guard"}, items: []string{"confirm.shots", "seal-guard"}, signed: true},
		"only words": {design: edit(`revision = "C"`, `revision = "D"`), report: inventedReport(), keys: []string{"revision"},
			signed: true},
		"a confirmed item": {design: in.Text + "\n[checklist.confirm]\nwho = \"two\"\ndate = \"2026-06-01\"\n", report: inventedReport(),
			keys: []string{"checklist.confirm.date", "checklist.confirm.who"}},
		"an item that was done": {design: in.Text, report: undoneReport(), items: []string{"seal-guard"}},
		"a value by 0.1 %":      {design: in.Text, report: nudged(1.001)},
		"a value by 1 %":        {design: in.Text, report: nudged(1.01), verdicts: []string{"energy.total"}},
		"a verdict that went": {design: in.Text, report: limits.Report{Verdicts: inventedReport().Verdicts[:2]},
			verdicts: []string{"valve.differential"}},
	} {
		got, err := Compare(a, c.design, a.Version, c.report)
		require.NoError(t, err, name)
		var keys, verdicts, items []string
		for _, k := range got.Changed {
			keys = append(keys, k.Key)
		}
		for _, v := range got.Verdicts {
			verdicts = append(verdicts, v.ID)
		}
		for _, it := range got.Items {
			items = append(items, it.ID)
		}
		assert.Equal(t, c.keys, keys, name)
		assert.Equal(t, c.verdicts, verdicts, name)
		assert.Equal(t, c.items, items, name)
		assert.Equal(t, c.signed, len(got.Signatures) > 0, name)
		assert.Equal(t, !c.signed && len(c.items) == 0, got.Describes, name)
		assert.Empty(t, got.OtherWork, name)
	}
	got, err := Compare(a, in.Text, "newer", inventedReport())
	require.NoError(t, err)
	assert.Equal(t, a.Version, got.OtherWork)
}

// undoneReport is one in which an item is open that the paper has as done.
func undoneReport() limits.Report {
	r := inventedReport()
	r.Items[1].Done = nil
	return r
}

func nudged(by float64) limits.Report {
	r := inventedReport()
	*r.Verdicts[0].Value *= by
	return r
}

// A verdict that fails now and did not before, or that was not asked before, withdraws a
// paper; one that failed before, or is unknown now, does not by itself.
func TestWhatFailsNowWithdrawsAPaper(t *testing.T) {
	c := &Comparison{Verdicts: []VerdictChange{
		{ID: "passed", Before: finding.Pass, After: finding.Fail}, {ID: "new", After: finding.Fail},
		{ID: "failed", Before: finding.Fail, After: finding.Fail}, {ID: "unknown now", Before: finding.Pass, After: finding.Unknown},
		{ID: "gone", Before: finding.Pass}}}
	var ids []string
	for _, v := range c.FailNow() {
		ids = append(ids, v.ID)
	}
	assert.Equal(t, []string{"passed", "new"}, ids)
}

// An answer is good only where nothing stands against it.
func TestVerificationIsGoodOnlyWhenAllIs(t *testing.T) {
	yes, no := true, false
	fine := &Comparison{Describes: true, Holds: true}
	for name, c := range map[string]struct {
		v    Verification
		want bool
		says string
	}{
		"describes":        {Verification{Against: fine, Altered: &no}, true, "The card still describes the design."},
		"describes, fails": {Verification{Against: &Comparison{Describes: true}, Altered: &no}, false, "does not hold"},
		"other answers": {Verification{Against: &Comparison{Describes: true, Holds: true, Verdicts: []VerdictChange{{}}}, Altered: &no},
			false, "answers have changed"},
		"changed": {Verification{Against: &Comparison{Holds: true, Changed: []Change{{}}}, Altered: &no}, false,
			"NO LONGER DESCRIBES"},
		"a verdict changed by an answer": {Verification{Against: &Comparison{Describes: true, Holds: true, ByAnswers: true,
			Verdicts: []VerdictChange{{}}}, Altered: &no}, true, "still describes the design."},
		"expired":            {Verification{Against: fine, Altered: &no, Expired: "2026-01-01"}, false, "EXPIRED on 2026-01-01"},
		"expired, no design": {Verification{Again: fine, Altered: &no, Expired: "2026-01-01"}, false, "EXPIRED on 2026-01-01"},
		"again":              {Verification{Again: fine, Altered: &no}, true, "give its answers again."},
		"altered":            {Verification{Again: fine, Altered: &yes}, false, "ALTERED"},
		"words behind its end": {Verification{Again: fine, Altered: &yes, After: true}, false,
			"The card was ALTERED: something follows its end; what stands before that may be whole."},
		"altered, not known": {Verification{Again: fine, NotKnown: "another program"}, false, "NOT KNOWN"},
		"describes, unknown": {Verification{Against: fine, NotKnown: "another program"}, false, "NOT KNOWN"},
		"of the future":      {Verification{Against: fine, Altered: &no, Date: "2026-05-30"}, false, "AFTER 2026-05-30"},
		"again, other answer": {Verification{Again: &Comparison{Describes: true, Holds: true, Verdicts: []VerdictChange{{}}}, Altered: &no},
			false, "no longer give its answers"},
		"fails now": {Verification{Again: &Comparison{Describes: true, Holds: true}, Altered: &no,
			Withdraw: []VerdictChange{{ID: "energy.total"}}}, false,
			"WITHDRAW IT: energy.total fails now, and did not in this card. The card's own inputs"},
		"more fail now": {Verification{Against: fine, Altered: &no, Withdraw: []VerdictChange{{ID: "a"}, {ID: "b"}}}, false,
			"WITHDRAW IT: a, b fail now, and did not in this card. "},
	} {
		c.v.Archive = &document.Archive{Paper: document.CardPaper, Date: "2026-05-31", Version: "of the tests"}
		if c.v.Date == "" {
			c.v.Date = "2026-06-01"
		}
		assert.Equal(t, c.want, c.v.Good(), name)
		assert.Contains(t, c.v.Finding(), c.says, name)
	}
}
