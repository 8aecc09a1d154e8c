package design

import (
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/verdict"
)

// statedLine is a key with its value as the example designs have it, one a line.
var statedLine = regexp.MustCompile(`^(\w+) = ("[^"]*"|true|false|\[[^\]]*\])(\s+#.*)?$`)

// aNumber is the first number of a quantity.
var aNumber = regexp.MustCompile(`^"(-?[0-9.]+)`)

// moved are other values that a key may have: a figure far less and far more, the other answer, other words, or nothing.
func moved(key, value string) (out []string) {
	switch m := aNumber.FindStringSubmatch(value); {
	case m != nil && !strings.HasSuffix(key, ".material") && !strings.HasSuffix(key, "_on") && !strings.HasSuffix(key, "_by"):
		n, err := strconv.ParseFloat(m[1], 64)
		if err != nil {
			return nil
		}
		for _, f := range []float64{0.3, 4} {
			out = append(out, `"`+strconv.FormatFloat(f*n, 'g', 4, 64)+value[len(m[0]):])
		}
	case value == "true":
		out = []string{"false"}
	case value == "false":
		out = []string{"true"}
	case strings.HasSuffix(key, ".material"):
		out = []string{`"polyurethane"`, `"PVC"`, `"acetal"`, `"steel"`}
	case key == "projectile.tip":
		out = []string{`"rigid"`}
	}
	return append(out, "")
}

// For each key that an example states: the design with it, with other values of it in its place and without it. What a verdict says
// then, where it does not say the same each time, rests on the key; so with the key declared none of them is a plain pass. By
// construction, whatever the list of what a declaration bears on says; the searches are light, for no figure of theirs is held to
// anything. All keys of three examples, with and without a stated target, take ten minutes (PUFFPROOF_LONG); of the rocket some do.
func TestNoPassMovesWithADeclaredKey(t *testing.T) {
	names, some, all := []string{"rocket"}, []string{"supply.dead_head", "projectile.tip_proof"}, false
	if os.Getenv("PUFFPROOF_MORE") != "" {
		some = append(some, "volumes.dose.rated_pressure")
	}
	if os.Getenv("PUFFPROOF_LONG") != "" {
		names, all = []string{"whale", "rocket", "soapbox"}, true
	}
	moves := 0
	for _, name := range names {
		data, err := os.ReadFile(testdata + "/designs/" + name + ".toml")
		require.NoError(t, err)
		untold := regexp.MustCompile(`(?m)^target = .*$`).ReplaceAllString(string(data), "")
		texts := []string{untold}
		if all {
			texts = append(texts, string(data))
		}
		for _, text := range texts {
			lines, table, base := strings.Split(text, "\n"), "", assessedOf(t, []byte(text))
			for i, line := range lines {
				if strings.HasPrefix(line, "[") {
					table = strings.Trim(line[:strings.LastIndex(line, "]")], "[]")
					continue
				}
				m := statedLine.FindStringSubmatch(line)
				if m == nil || table == "" || !all && !slices.Contains(some, table+"."+m[1]) || restsAll(base, table+"."+m[1]) {
					continue
				}
				key := table + "." + m[1]
				moves += holdsDeclared(t, name, key, append([]string{m[2]}, moved(key, m[2])...), func(value string) []byte {
					other := slices.Clone(lines)
					if other[i] = ""; value != "" {
						other[i] = m[1] + " = " + value
					}
					return []byte(strings.Join(other, "\n"))
				})
			}
		}
	}
	assert.Greater(t, moves, 10, "verdicts that moved with a key")
}

// assessedOf is a design computed with light searches; nil: it cannot be read.
func assessedOf(t *testing.T, data []byte) *assessment.Assessment {
	t.Helper()
	l, problems := Read("x.toml", data)
	if len(problems) > 0 {
		return nil
	}
	a, err := assessment.Make(lightly(t.Context(), 0.00005), l, assessment.Options{Day: "2026-06-01"})
	require.NoError(t, err)
	return a
}

// judged are the verdicts of an assessment with some keys declared, by id.
func judged(a *assessment.Assessment, keys ...string) map[string]finding.Verdict {
	a.Launcher.Declared = keys
	out := map[string]finding.Verdict{}
	for _, v := range verdict.Judge(a, 0) {
		out[v.ID] = v
	}
	return out
}

// restsAll tells that with a key declared nothing at all passes.
func restsAll(a *assessment.Assessment, key string) bool {
	for _, v := range judged(a, key) {
		if v.Status == finding.Pass {
			return false
		}
	}
	return true
}

// said is what a verdict says, without its words.
func said(v finding.Verdict) string {
	figure := func(f *float64) string {
		if f == nil {
			return "-"
		}
		return strconv.FormatFloat(*f, 'g', 9, 64)
	}
	return string(v.Status) + " " + figure(v.Value) + " " + figure(v.Limit)
}

// holdsDeclared tries the values of a key, and counts the verdicts that move with it.
func holdsDeclared(t *testing.T, name, key string, values []string, with func(value string) []byte) int {
	t.Helper()
	first, moves, passed := map[string]string{}, map[string]bool{}, map[string]string{}
	for i, value := range values {
		a := assessedOf(t, with(value))
		if a == nil {
			continue // refused
		}
		for id, v := range judged(a) {
			if i == 0 {
				first[id] = said(v)
			} else if first[id] != said(v) {
				moves[id] = true
			}
		}
		for id, v := range judged(a, key) {
			if value != "" && v.Status == finding.Pass {
				passed[id] = value
			}
		}
	}
	for id := range moves {
		assert.NotContains(t, passed, id, "%s: %s bears on %s, and is declared", name, key, id)
	}
	return len(moves)
}

// Whatever an example states, with the word that it is declared: it is refused, or counted among what is declared. None is taken for more
// than that in silence.
func TestWhatIsDeclaredIsCounted(t *testing.T) {
	names, least, counted := []string{"soapbox"}, 50, 0 // the one that states most
	if os.Getenv("PUFFPROOF_MORE") != "" {
		names, least = []string{"whale", "rocket", "soapbox", "careless"}, 150
	}
	for _, name := range names {
		data, err := os.ReadFile(testdata + "/designs/" + name + ".toml")
		require.NoError(t, err)
		lines, table := strings.Split(string(data), "\n"), ""
		for i, line := range lines {
			if strings.HasPrefix(line, "[") {
				table = strings.Trim(line[:strings.LastIndex(line, "]")], "[]")
				continue
			}
			m := statedLine.FindStringSubmatch(line)
			if m == nil {
				continue
			}
			key := strings.TrimPrefix(table+"."+m[1], ".")
			if slices.Contains([]string{"name", "revision", "description"}, key) {
				continue // nothing rests on them
			}
			for _, value := range declaredForms(m[2]) {
				other := slices.Clone(lines)
				other[i] = m[1] + " = " + value
				l, problems := Read("x.toml", []byte(strings.Join(other, "\n")))
				if len(problems) > 0 {
					continue
				}
				assert.Contains(t, l.Declared, key, "%s: %s", name, other[i])
				counted++
			}
		}
	}
	assert.Greater(t, counted, least)
}

// A declared point of a curve, and a declared reading, count for all of it.
func TestWhatIsDeclaredInAListIsCounted(t *testing.T) {
	const pump = `supply = { kind = "compressor", feeds = "dose", dead_head = "2 bar"`
	for text, key := range map[string]string{
		pump + `, curve = [["0 bar", "3 L/min, declared"], ["1.9 bar", "1 L/min"]] }`: "supply.curve",
		pump + `, curve = [["0 bar", "3 L/min"], ["1.9 bar, declared", "1 L/min"]] }`: "supply.curve",
		pump + `, free_air = "3 L/min" }` + "\n" + `pressure_switch = { senses = "dose", cut_out = "0.5 bar", cut_in = "0.3 bar" }` + "\n" +
			`bench = { gauge_error = "0.01 bar", cut_outs = ["0.5 bar, declared"` + strings.Repeat(`, "0.5 bar"`, 9) + "] }": "bench.cut_outs",
	} {
		l, problems := Read("x.toml", []byte(minimal+text+"\n"))
		require.Empty(t, problems, "%s", list(problems))
		assert.Equal(t, []string{key}, l.Declared)
	}
}

// declaredForms are a value with the word that it is declared, before it or behind it, where an origin may stand.
func declaredForms(value string) []string {
	switch text := strings.Trim(value, `"`); {
	case value == "true":
		return []string{`"declared yes"`, `"declared: yes"`, `"yes, declared"`}
	case value == "false":
		return []string{`"declared no"`, `"no, declared"`}
	case strings.HasPrefix(value, "["):
		inside := strings.Trim(value, `[]"`)
		return []string{`["declared: ` + inside + `"]`, `["` + inside + `, declared"]`, `["declared ` + inside + `"]`}
	default:
		bare := regexp.MustCompile(`, (measured|datasheet|label|estimated)$`).ReplaceAllString(text, "")
		return []string{`"` + bare + `, declared"`, `"declared: ` + bare + `"`, `"declared ` + bare + `"`, `"Declared: ` + bare + `"`}
	}
}
