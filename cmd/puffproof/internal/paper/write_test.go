package paper

import (
	"bytes"
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits"
	"puffproof/limits/finding"
	"puffproof/limits/measure"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
)

// The same input makes the same bytes, in every format, for both papers.
func TestSameInputSameBytes(t *testing.T) {
	for _, format := range document.Formats() {
		for _, build := range []func(Input) (*document.Document, error){Build, Card} {
			var files [2][]byte
			for i := range files {
				d, err := build(invented(t, nil))
				require.NoError(t, err)
				files[i], err = document.Write(d, format)
				require.NoError(t, err)
			}
			assert.True(t, bytes.Equal(files[0], files[1]), format)
			assert.NotEmpty(t, files[0], format)
		}
	}
	_, err := document.Write(&document.Document{}, "docx")
	assert.Error(t, err)
}

func TestFormatOfEnding(t *testing.T) {
	for ending, want := range map[string]string{".html": "html", ".HTM": "html", ".PDF": "pdf", ".md": "md", ".markdown": "md", "": "html",
		".docx": "", ".": ""} {
		got, known := document.FormatOf(ending)
		assert.Equal(t, want, got, ending)
		assert.Equal(t, want != "", known, ending)
	}
}

// hostile is a design whose words try everything that a text can try: markup,
// style, Markdown, another archive, a long word, the other direction, signs that
// no font of ours has.
func hostile(text string) string {
	evil := `</style></title><script>alert(1)</script><img src=x onerror=alert(2)> \"; } @page{} | [a](javascript:b) ` +
		document.ArchiveMark + `QUJD \u202Eevil\u202C שלום مرحبا 🐋 ` + strings.Repeat("x", 150)
	text = strings.Replace(text, `name = "Whale float blowhole"`, `name = "`+evil+`"`, 1)
	text = strings.Replace(text, `description = "`,
		`owner = "`+evil+`"`+"\n"+`adult_in_charge = "`+evil+`"`+"\n"+`description = "</pre>`+evil, 1)
	return text
}

func TestHostileTextIsHarmlessAndLegible(t *testing.T) {
	in := invented(t, hostile)
	d := built(t, in)
	root, data := page(t, d)
	text := textOf(root)
	all(root, func(n *html.Node) {
		assert.NotContains(t, []string{"script", "img"}, n.Data)
		for _, a := range n.Attr {
			assert.False(t, strings.HasPrefix(a.Key, "on"), a.Key)
		}
	})
	assert.Contains(t, text, "<script>alert(1)</script>", "the words are still there to read")
	assert.Contains(t, text, "<U+202E>evil", "a direction override becomes visible")
	assert.Contains(t, text, "שלום")
	assert.NotContains(t, text, "\u202e")
	assert.Equal(t, 1, bytes.Count(data, []byte("</style>")))
	assert.Equal(t, 1, bytes.Count(data, []byte("</title>")))
	assert.Contains(t, string(data), "<bdi>")

	marked, err := document.Markdown(d)
	require.NoError(t, err)
	body := string(marked[bytes.Index(marked, []byte("-->")):])
	assert.NotRegexp(t, `(?m)^[^ ].*[^\\]<script`, body)
	assert.NotRegexp(t, `(?m)^[^ ].*[^\\]\]\(javascript`, body)

	for _, format := range []string{"html", "md"} {
		file, err := document.Write(d, format)
		require.NoError(t, err)
		a, err := document.ReadArchive(file)
		require.NoError(t, err, format)
		assert.Equal(t, in.Text, a.Design, "the archive is ours, not that of the hostile name")
	}
	pdf, err := document.PDF(d)
	require.NoError(t, err)
	assert.True(t, bytes.HasPrefix(pdf, []byte("%PDF-")))
}

// A PDF holds its fonts, the attached files and no picture made of dots.
func TestPDFIsWhole(t *testing.T) {
	data, err := document.PDF(built(t, failing(invented(t, nil))))
	require.NoError(t, err)
	assert.Equal(t, 3, len(regexp.MustCompile(`/FontFile2 `).FindAll(data, -1)), "sans, bold, mono")
	assert.Equal(t, 2, len(regexp.MustCompile(`/Type /EmbeddedFile`).FindAll(data, -1)), "design and archive")
	assert.NotContains(t, string(data), "/Subtype /Image")
	assert.Contains(t, string(data), "/Lang")
	assert.Greater(t, len(regexp.MustCompile(`/Type /Page\b`).FindAll(data, -1)), 11)
}

// The card is one page.
func TestCardIsOnePage(t *testing.T) {
	d, err := Card(invented(t, nil))
	require.NoError(t, err)
	data, err := document.PDF(d)
	require.NoError(t, err)
	assert.Equal(t, 1, len(regexp.MustCompile(`/Type /Page\b`).FindAll(data, -1)))
	text, err := document.Markdown(d)
	require.NoError(t, err)
	for _, w := range []string{pressure(t), "0.050 bar gauge or less on every gauge after 9 s at the latest", "Holds the key", "STOP",
		"not to be used yet"} {
		assert.Contains(t, string(text), w)
	}
}

// The card tells that its clear zone rests on a height of the muzzle that nobody stated, and keeps its page.
func TestCardTellsThatAHeightIsAssumed(t *testing.T) {
	for guess, want := range map[bool]string{false: "Clear zone of 5.00 m all round; free of all but",
		true: "Clear zone of 5.00 m all round; a muzzle up to 3 m high is assumed; free of all but"} {
		in := invented(t, nil)
		in.Flights = &measure.FlightReport{Height: 3, HeightGuess: guess, ClearRadius: 5}
		d, err := Card(in)
		require.NoError(t, err)
		text, err := document.Markdown(d)
		require.NoError(t, err)
		assert.True(t, strings.Contains(string(text), want), want)
		data, err := document.PDF(d)
		require.NoError(t, err)
		assert.Equal(t, 1, len(regexp.MustCompile(`/Type /Page\b`).FindAll(data, -1)))
	}
}

// The card of a design that must not be used gives nobody a pressure to set: no
// figure with a unit of pressure is on it, in any format. How to empty it is.
func TestCardOfAFailingDesignHasNoPressure(t *testing.T) {
	expired := invented(t, nil)
	expired.Launcher.Projectile.RetireBy = "2026-05-30"
	unknown := invented(t, nil)
	unknown.Report.Holds = false
	unknown.Report.Verdicts[0].Status, unknown.Report.Verdicts[0].Value = finding.Unknown, nil
	pressures := regexp.MustCompile(`\d\s*(bar|psi|kPa|MPa|mbar)\b`)
	holding, err := Card(invented(t, nil))
	require.NoError(t, err)
	text, err := document.Markdown(holding)
	require.NoError(t, err)
	require.Regexp(t, pressures, string(text), "the card of one that holds has its set pressures")
	for name, in := range map[string]Input{"fails": failing(invented(t, nil)), "expired": expired, "unknown": unknown} {
		d, err := Card(in)
		require.NoError(t, err)
		text, err := document.Markdown(d)
		require.NoError(t, err)
		_, body, _ := strings.Cut(string(text), "-->") // the archive holds the design
		assert.NotRegexp(t, pressures, body, name)
		assert.NotContains(t, body, "Before use", name)
		for _, w := range []string{d.Running, "ot to be used", "Do not fill it", "Still filled? Empty it", "near zero after 11 s", "STOP"} {
			assert.Contains(t, body, w, name)
		}
		pdf, err := document.PDF(d)
		require.NoError(t, err)
		assert.Equal(t, 1, len(regexp.MustCompile(`/Type /Page\b`).FindAll(pdf, -1)), name)
	}
	body := func(in Input) string {
		d, err := Card(in)
		require.NoError(t, err)
		text, err := document.Markdown(d)
		require.NoError(t, err)
		return string(text)
	}
	assert.Contains(t, body(failing(invented(t, nil))), "**FAIL** Energy of the projectile, worst case")
	assert.Contains(t, body(failing(invented(t, nil))), "**UNKNOWN** The least pressure a gauge can tell")
	trapped := failing(invented(t, nil))
	trapped.Vent.Cases[1].Trapped, trapped.Vent.Cases[1].Status, trapped.Vent.Cases[1].Slowest = true, vent.Trapped, math.Inf(1)
	assert.Contains(t, body(trapped), "It does NOT empty by itself: keep everybody away")
	trapped.Vent = nil
	assert.Contains(t, body(trapped), "If one stays up")
}

// The card is an archive of its own, and says that it is a card.
func TestCardCarriesItsInputs(t *testing.T) {
	in := invented(t, nil)
	d, err := Card(in)
	require.NoError(t, err)
	for _, format := range document.Formats() {
		file, err := document.Write(d, format)
		require.NoError(t, err)
		a, err := document.ReadArchive(file)
		require.NoError(t, err, format)
		assert.Equal(t, document.CardPaper, a.Paper, format)
		assert.Equal(t, in.Text, a.Design, format)
	}
	pdf, err := document.PDF(d)
	require.NoError(t, err)
	assert.Equal(t, 2, len(regexp.MustCompile(`/Type /EmbeddedFile`).FindAll(pdf, -1)), "design and archive")
}

// A file past one of its dates says so first and everywhere.
func TestExpiredFileSaysSo(t *testing.T) {
	in := invented(t, nil)
	in.Launcher.Projectile.RetireBy = "2026-05-30"
	d := built(t, in)
	assert.Contains(t, d.Running, "EXPIRED on 2026-05-30: not to be used.")
	assert.Equal(t, show.Bad, d.Tone)
	in.Launcher.Projectile.RetireBy = "2026-05-31"
	assert.NotContains(t, built(t, in).Running, "EXPIRED", "the last day still counts")
}

func TestFindingIsNeverBetterThanTheReport(t *testing.T) {
	for want, r := range map[string]limits.Report{
		"DOES NOT HOLD: 0 verdicts fail":                                               {OpenItems: 0, Confirmed: true},
		"Holds on the model. NOT yet confirmed: 2 items open: not to be used yet.":     {Holds: true, OpenItems: 2},
		"Holds on the model. NOT yet confirmed by measured shots: not to be used yet.": {Holds: true},
		"Holds on measured shots. NOT yet confirmed: 1 item open: not to be used yet.": {Holds: true, OpenItems: 1,
			Energy: &worst.EnergyReport{Basis: finding.OnMeasured}},
		"Holds, confirmed by measurement.": {Holds: true, Confirmed: true},
		"DOES NOT HOLD: the measured emptying does not agree (slower than designed); 1 verdict fails, 0 unknown. Not to be used.": {
			Verdicts: []finding.Verdict{{ID: finding.MeasuredEmptying, Status: finding.Fail,
				Why: finding.Words("slower than designed: the opening is 40 %")}}},
	} {
		got, _ := Finding(r)
		assert.Equal(t, 0, strings.Index(got, want), "%q begins with %q", got, want)
	}
}
