package design

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/manual"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/launcher"
)

// The one table is complete and free of contradictions.
func TestKeyTable(t *testing.T) {
	known := keys.New()
	for i := range known.Keys {
		k := &known.Keys[i]
		name := k.Table + "." + k.Name
		require.NotNil(t, known.Row(k.Table), name)
		require.NotEmpty(t, k.Teach, name)
		require.NotEmpty(t, k.Example, name)
		require.Equal(t, k.Kind == keys.Word, len(k.Words) > 0, name)
		for _, s := range append(slices.Clone(k.Synonyms), k.Aliases...) {
			other := known.Index[k.Table][s]
			require.True(t, other == nil || other == k && slices.Contains(k.Aliases, s) || !sharesPlace(k, other),
				"%s: synonym %s is a key of the same place", name, s)
		}
		if k.Kind == keys.Number {
			require.NotZero(t, k.Bands, "%s has no default tolerance", name)
			require.Less(t, k.Min, k.Max, name)
		}
		if k.In != nil {
			for _, r := range k.Required {
				require.Contains(t, k.In, r, name)
			}
		}
		if !slices.Contains(k.Required, "*") && k.Required == nil && !slices.Contains(keys.FlowWords(), k.Name) {
			require.NotEmpty(t, k.Missing, "%s: what is assumed without it", name)
		}
	}
}

func sharesPlace(a, b *keys.Key) bool {
	if a.In == nil || b.In == nil {
		return true
	}
	for _, s := range a.In {
		if slices.Contains(b.In, s) {
			return true
		}
	}
	return false
}

// Every default tolerance of every key and origin keeps the nominal value inside
// and never reaches below what the key allows.
func TestDefaultBandsKeepTheirSign(t *testing.T) {
	known := keys.New()
	for i := range known.Keys {
		k := &known.Keys[i]
		if k.Kind != keys.Number {
			continue
		}
		for o := launcher.Unstated; o <= launcher.Estimated; o++ {
			for _, v := range []float64{k.Min, (k.Min + k.Max) / 2, k.Max} {
				if v == 0 && k.Sign == keys.Positive {
					continue
				}
				b := launcher.Band{Set: true, Nominal: v, Low: v, High: v, Origin: o}
				k.Widen(&b)
				require.LessOrEqual(t, b.Low, v, k.Name)
				require.GreaterOrEqual(t, b.High, v, k.Name)
				if k.Sign != keys.AnySign {
					require.True(t, b.Low > 0 || k.Sign == keys.OrZero && b.Low == 0, "%s.%s low %g at %g", k.Table, k.Name, b.Low, v)
				}
				require.Equal(t, b.Assumed, len(b.Reason) != 0, k.Name)
			}
		}
	}
}

func TestTemplateReads(t *testing.T) {
	l := read(t, manual.Template(quantity.Metric))
	require.Equal(t, "My launcher", l.Name)
	for i, line := range strings.Split(string(manual.Template(quantity.Metric)), "\n") {
		if strings.HasPrefix(line, "# ") {
			require.LessOrEqual(t, len([]rune(line)), 80, "line %d", i+1)
		}
	}
}

// Each key that the template offers as a comment can be used as it stands there.
func TestTemplateOffersReadAsWell(t *testing.T) {
	lines := strings.Split(string(manual.Template(quantity.Metric)), "\n")
	offered := regexp.MustCompile(`^#[A-Za-z_]+ = `)
	unfit := regexp.MustCompile(`^#(critical_ratio|pressure_drop_ratio|discharge_coefficient|sonic_conductance|Cv|Kv|nominal_flow|` +
		`orifice|seat_bore|error|min_differential|filled_to|filler_reaches) = `)
	n := 0
	for i, line := range lines {
		if !offered.MatchString(line) || unfit.MatchString(line) || inOptionalTable(lines, i) {
			continue
		}
		n++
		try := slices.Clone(lines)
		try[i] = line[1:]
		_, problems := Read("template.toml", []byte(strings.Join(try, "\n")))
		require.Empty(t, problems, "%s\n%s", line, list(problems))
	}
	require.Greater(t, n, 25)
}

// inOptionalTable tells whether the header above a line is a comment itself.
func inOptionalTable(lines []string, i int) bool {
	for ; i >= 0; i-- {
		if strings.HasPrefix(lines[i], "#[") {
			return true
		}
		if strings.HasPrefix(lines[i], "[") {
			return false
		}
	}
	return false
}

// The optional tables of the template read too, all at once.
func TestTemplateOptionalTablesRead(t *testing.T) {
	lines := strings.Split(string(manual.Template(quantity.Metric)), "\n")
	before := slices.Clone(lines)
	for i, line := range before {
		if strings.HasPrefix(line, "#[") || regexp.MustCompile(`^#[A-Za-z_]+ = `).MatchString(line) && inOptionalTable(before, i) {
			lines[i] = line[1:]
		}
	}
	l := read(t, []byte(strings.Join(lines, "\n")))
	require.Len(t, l.Objects, 1)
	require.Len(t, l.Checklist, 1)
	require.Len(t, l.Control.Loads(), 5)
	require.True(t, l.Model.Parts.NoGasInertia)
}

func TestReferenceNamesEveryKey(t *testing.T) {
	var b strings.Builder
	manual.WriteReference(&b, manual.Reference(quantity.Metric))
	known := keys.New()
	for i := range known.Keys {
		k := &known.Keys[i]
		require.Contains(t, strings.ReplaceAll(b.String(), ",\n      ", ", "), "\n  "+k.Name+" = "+k.Example+"\n", k.Table)
	}
	for line := range strings.Lines(b.String()) {
		require.LessOrEqual(t, len([]rune(line)), 81, line) // 80 and the line's end
	}
	require.NotRegexp(t, `±\n|\n *%`, b.String(), "a tolerance is on one line")
}

// One table is explained as it is among all of them, by each of its names.
func TestTable(t *testing.T) {
	all := manual.Reference(quantity.Metric)
	require.Len(t, all, len(manual.TableNames()))
	for i, name := range manual.TableNames() {
		for _, word := range []string{name, "[" + name + "]", all[i].Table} {
			if word == "" {
				continue // the top of the file has no name of its own
			}
			one, err := manual.Table(word, quantity.Metric)
			require.NoError(t, err, word)
			require.Equal(t, all[i], one, word)
		}
	}
	for word, says := range map[string]string{
		"suply":              "did you mean supply?",
		"compressor":         "did you mean supply?",
		"air-can":            "did you mean volumes?",
		"Barrel":             "did you mean barrel?",
		"cut_out":            "cut_out is a key of the table pressure_switch",
		"cutout":             "cut_out is a key of the table pressure_switch",
		"dead-head":          "dead_head is a key of the table supply",
		"paths.fire.Cv":      "Cv is a key of the table paths",
		"paths.x.hose.bore":  "bore is a key of the table hose",
		"owner":              "owner is a key of the table top",
		"quite another word": "there are top, ambient, gas, volumes, paths, exhaust, hose, ",
		"":                   "there are top, ",
	} {
		_, err := manual.Table(word, quantity.Metric)
		require.ErrorContains(t, err, says, word)
	}
}

func TestSchemaNamesEveryKey(t *testing.T) {
	var schema map[string]any
	require.NoError(t, json.Unmarshal(manual.Schema(quantity.Metric), &schema))
	text := string(manual.Schema(quantity.Metric))
	known := keys.New()
	for i := range known.Keys {
		require.Contains(t, text, `"`+known.Keys[i].Name+`": {`)
	}
	require.ElementsMatch(t, []any{"name", "volumes", "paths", "barrel", "projectile"}, schema["required"])
	paths := schema["properties"].(map[string]any)["paths"].(map[string]any)["additionalProperties"].(map[string]any)
	require.Equal(t, false, paths["additionalProperties"])
	require.Len(t, paths["allOf"], len(keys.PathKinds()))
}

func TestDimensionOf(t *testing.T) {
	for key, want := range map[string]unit.Dimension{"projectile.breakaway_force": unit.Force, "paths.fire.Cv": unit.Dimensionless,
		"paths.fire.hose.bore": unit.Length, "gauge[2].range": unit.Pressure} {
		got, known := manual.DimensionOf(key)
		require.True(t, known, key)
		require.Equal(t, want, got, key)
	}
	for _, key := range []string{"projectile.colour", "projectile.tip", ""} {
		_, known := manual.DimensionOf(key)
		require.False(t, known, key)
	}
}

// A broken file is named for its fault, and none is broken by accident in
// another way: mending is not tested here, but each has at most the faults that
// its first line tells (TestBrokenFiles).
func TestBrokenFilesAreNamed(t *testing.T) {
	files, err := os.ReadDir(filepath.Join(testdata, "broken"))
	require.NoError(t, err)
	for _, f := range files {
		require.Regexp(t, `^[a-z0-9-]+\.toml$`, f.Name())
	}
}
