package app

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// metricFigure is a number with a metric unit behind it. J, J/m2, s, ms, min and % are
// the same in both systems.
var metricFigure = regexp.MustCompile(`(?:^|[^\pL\d.-])\d[\d.,]* ?` +
	`(?:bar L|(?:m|k|M|h)?Pa|m?bar|km/h|m/s|[mcMk]?m[23]?|[mµ]?L(?:/min|/\(s bar\)|/s)?|` +
	`k?g|k?N|K|°C|degC|milli(?:met|lit)res?|met(?:re|er)s?|lit(?:re|er)s?|grams?|newtons?|kelvins?|millibar)(?:$|[^\pL\d])`)

// quoted are words of a published document with their figures: they stay as they are
// printed there, whatever the reader's units.
var quoted = []struct{ words, reason string }{
	{"at or below 0.5 bar gauge", "Directive 2014/68/EU, Art. 1(1): the limit as printed; the reader's own figure stands beside it"},
	{"above 0.5 bar gauge", "the same"},
	{"or up to 50 bar L; pressure at most 1000 bar", "Directive 2014/68/EU, Annex II, table 2"},
	{"50 bar L, gauge pressure; or a volume up to 1 L", "the same"},
	{"50 bar L, gauge pressure", "Directive 2014/29/EU, Annex III"},
	{"or 0.69 MPa whichever comes first", "ECSS-E-ST-32-02C"},
	{"or 0.1 bar", "ISO 4126-1"},
	{"m3/h of water at 1 bar", "Kv: IEC 60534-1"},
	{"from 6 to 5 bar gauge", "the nominal flow of pneumatic catalogues"},
	{"flow at 6 bar", "what builders call it"},
	{"grid of 10 mm", "words of the design file"},
	{"PVC drain pipe, 110 mm", "a material in the words of the demo's own design"},
	{"PVC drain pipe, 68 mm", "the same"},
}

// metricFigures finds every metric figure that a reader in US units is shown, with some
// words around it.
func metricFigures(text string) []string {
	text = strings.Join(strings.Fields(text), " ") // a figure may stand on both sides of a line's end
	for _, q := range quoted {
		text = strings.ReplaceAll(text, q.words, "…")
	}
	var out []string
	for _, at := range metricFigure.FindAllStringSubmatchIndex(text, -1) {
		out = append(out, strings.ToValidUTF8(text[max(0, at[0]-60):min(len(text), at[1]+30)], ""))
	}
	return out
}

// What is looked for is found, and nothing else.
func TestMetricFiguresAreSeen(t *testing.T) {
	for text, n := range map[string]int{
		"2.1 bar L (tank), 50 bar L, 3 bar L":     3,
		"at 0.26 bar the shots have 4.7 m/s":      2,
		"a gauge above 0.627\n  bar":              1,
		"sensors 0.3 m.":                          1,
		"12 L/min, 3 mL, 40.0 mm, 5 g and 20 °C":  5,
		"at 30\u00a0kPa":                          1,
		"6.1 psi, 4.7 ft/s, 1600 J/m2, 3 min":     0,
		"2 ms, 3 s, 99 % of 4 J, 3 months, 5 mph": 0,
		"PN10 pipe, part 4, item m, EN 71-1 m":    0,
		"12.5 in3 over 20 mbar":                   1,
	} {
		assert.Len(t, metricFigures(text), n, text)
	}
}

// csvFiles are the files of readings that stand in a script.
func csvFiles(t *testing.T, script string) map[string]string {
	t.Helper()
	a, err := txtar.ParseFile(filepath.Join("..", "..", "testdata", "script", script))
	require.NoError(t, err)
	out := map[string]string{}
	for _, f := range a.Files {
		if strings.HasSuffix(f.Name, ".csv") {
			out[f.Name] = string(f.Data)
		}
	}
	require.NotEmpty(t, out)
	return out
}

// ownWords cuts what stands in a paper as it was read, the design and the readings: it
// is set off by four blanks.
func ownWords(paper string) string {
	return regexp.MustCompile("(?m)^    .*$|(?s)<!--.*?-->").ReplaceAllString(paper, "")
}

// ownText is a text with what it quotes of a file cut out: that stays as it stands there.
func ownText(text, file string) string {
	return regexp.MustCompile(`"[^"\n]*"`).ReplaceAllStringFunc(text, func(quoted string) string {
		if strings.Contains(file, strings.TrimSuffix(strings.Trim(quoted, `"`), "…")) {
			return "…"
		}
		return quoted
	})
}

// Whoever asks for US units is told in them what would be accepted, in what he reads before
// there is a file, and of one that is broken; a document stays as it is.
func TestUSUnitsBeforeThereIsADesign(t *testing.T) {
	files, err := filepath.Glob("../../../../testdata/broken/*.toml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	shown := func(args ...string) string {
		_, out, errOut := puffproof(t, append(args, "--units", "us")...)
		require.NotEmpty(t, out+errOut, "%q", args)
		return out + errOut
	}
	clean := func(text string, args ...string) {
		for _, found := range metricFigures(text) {
			t.Errorf("puffproof %s: %s", strings.Join(args, " "), found)
		}
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		clean(ownText(shown("check", file), string(data)), "check", filepath.Base(file))
	}
	for _, args := range [][]string{{"keys"}, {"keys", "--schema"}, {"init", "-"}} {
		clean(strings.ReplaceAll(shown(args...), "\n#", "\n"), args...) // a comment goes over several lines
	}
	for _, c := range newRegistry().Commands {
		clean(shown("help", c.Name), "help", c.Name)
	}
	for _, args := range [][]string{{"advise", "--bore", "1 m"}, {"advise", "--goal", "far"}, {"size", "--bore", "40"}} {
		clean(ownText(shown(args...), strings.Join(args, " ")), args...)
	}
	_, metric, _ := puffproof(t, "keys", "--json")
	_, same, _ := puffproof(t, "keys", "--json", "--units", "us")
	assert.Equal(t, metric, same)
	_, metric, _ = puffproof(t, "check", files[0], "--json")
	_, same, _ = puffproof(t, "check", files[0], "--json", "--units", "us")
	assert.Equal(t, metric, same)
}

// lazyShots are slower than those of vented.toml, 3.8 m/s at that pressure, by what a wider
// gap, more friction or a slower valve would explain. Invented.
const lazyShots = `pressure [bar],speed [m/s],chronograph_distance [m],projectile,temperature [degC]
0.20,3.20,0.3,A,21
0.20,3.26,0.3,B,21
0.20,3.14,0.3,A,21
0.20,3.23,0.3,B,21
0.20,3.17,0.3,A,21
`

// Whoever asks for US units is shown no metric figure, by no command and of no design:
// what was measured, what fails and what cannot be known is written in them too.
func TestUSUnitsHaveNoMetricFigure(t *testing.T) {
	demos, err := filepath.Abs("../../../../testdata")
	require.NoError(t, err)
	files := csvFiles(t, "vent.txtar")
	for name, text := range csvFiles(t, "careless-shots.txtar") {
		files["shots-"+name] = text
	}
	files["shots-ten.csv"], files["shots-lazy.csv"] = csvFiles(t, "calibrate.txtar")["ten.csv"], lazyShots
	hosed := designFile(t, least(t, `critical_ratio = "0.3 ± 0"`,
		"critical_ratio = \"0.3 ± 0\"\nhose = { bore = \"8 mm ± 0.2 mm\", length = \"0.4 m ± 0.02 m\", side = \"after\" }"))
	weak := designFile(t, least(t, `within = "20 s"`, `within = "1 s"`, `rated_pressure = "10 bar"`, `rated_pressure = "0.15 bar"`,
		`contact_diameter = "22 mm ± 0.5 mm"`, `contact_diameter = "4 mm ± 0.5 mm"`, `points = "away"`, `points = "unknown"`))
	read, err := os.ReadFile("../../testdata/vented.toml")
	require.NoError(t, err)
	vented := designFile(t, strings.Replace(string(read), `nearest_person = "2 m"`, "nearest_person = \"2 m\"\nwheels = \"2.2 m\"", 1))
	inFolder(t, files)
	digits, seen, met := regexp.MustCompile(`\d+`), map[string]bool{}, map[string]bool{}
	walk := func(args ...string) string {
		_, out, errOut := puffproof(t, append(args, "--units", "us")...)
		assert.NotContains(t, errOut, "internal error", "%q", args)
		if args[0] == "dossier" || args[0] == "card" {
			out = ownWords(out)
		}
		line := strings.Join(strings.Fields(out+errOut), " ")
		for _, q := range quoted {
			met[q.words] = met[q.words] || strings.Contains(line, q.words)
		}
		for _, found := range metricFigures(out + "\n" + errOut) {
			if same := digits.ReplaceAllString(found, "#"); !seen[same] { // once, whatever its figures
				seen[same] = true
				t.Errorf("puffproof %s %s: %s", args[0], strings.Join(args[2:], " "), found)
			}
		}
		return out + errOut
	}
	rocket := []string{"shot --at 9psi", "flight", "dossier -o - --format md"}
	if os.Getenv("PUFFPROOF_MORE") != "" { // what the whale and the least one are asked as well
		rocket = append(rocket, "check --thorough --full", "shot", "vent --size", "plan")
	}
	for name, commands := range map[string][]string{
		"whale":    {"check --sources --assumed --full", "shot", "vent --size", "faults", "plan", "flight"},
		"rocket":   rocket,
		"careless": {"check --sources --assumed --full", "shot", "setpoint"},
	} {
		for _, args := range commands {
			words := strings.Fields(args)
			out := walk(append([]string{words[0], filepath.Join(demos, "designs", name+".toml")}, words[1:]...)...)
			assert.NotEmpty(t, out, "%s %q", name, args)
		}
	}
	walk("check", weak)
	walk("faults", weak)
	walk("dossier", weak, "-o", "-", "--format", "md")
	walk("check", hosed, "--full")
	walk("parts", hosed)
	for file := range files {
		if strings.HasPrefix(file, "shots-") {
			walk("calibrate", vented, "--shots", file)
		} else {
			walk("vent", vented, "--log", file)
			walk("vent", vented, "--leak-log", file)
		}
	}
	for _, args := range []string{"check --shots shots-lazy.csv", "setpoint", "setpoint --shots shots-ten.csv", "card -o - --format md",
		"dossier --shots shots-ten.csv --vent-log good.csv --leak-log tight.csv -o - --format md"} {
		words := strings.Fields(args)
		walk(append([]string{words[0], vented}, words[1:]...)...)
	}
	whale, shots := filepath.Join(demos, "designs", "whale.toml"), filepath.Join(demos, "shots", "whale.csv")
	walk("calibrate", whale, "--shots", shots)
	walk("size", "--limit", "5000 J")
	walk("size", "--travel", "6 in", "--mass", "0.2 oz", "--bore", "1.5 in")
	walk("keys", "paths")
	walk("keys", "barrel")
	for _, q := range quoted {
		assert.True(t, met[q.words], "nothing quotes %q any more", q.words)
	}
}
