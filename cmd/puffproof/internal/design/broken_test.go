package design

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/manual"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/unit"
)

const testdata = "../../../../testdata"

// Each file of testdata/broken says in its first line which faults it has:
//
//	# expect: LINE:COLUMN words | LINE:COLUMN words
//
// Exactly these faults must be listed, in this order, each at its place and with
// its words.
func TestBrokenFiles(t *testing.T) {
	for _, file := range brokenFiles(t) {
		name := filepath.Base(file)
		t.Run(name, func(t *testing.T) {
			data, err := os.ReadFile(file)
			require.NoError(t, err)
			first, _, _ := strings.Cut(string(data), "\n")
			expect, ok := strings.CutPrefix(first, "# expect: ")
			require.True(t, ok, "no expectation in the first line")
			launcher, problems := Read(name, data)
			require.Nil(t, launcher)
			wanted := strings.Split(expect, " | ")
			require.Len(t, problems, len(wanted), "%s", list(problems))
			for i, want := range wanted {
				place, words, _ := strings.Cut(want, " ")
				p := problems[i]
				require.Equal(t, place, fmt.Sprintf("%d:%d", p.Line, p.Column), "%s", p)
				require.Contains(t, p.String(), words)
				require.True(t, strings.HasPrefix(p.String(), name+":"+place+": "))
				require.LessOrEqual(t, strings.Count(p.String(), "\n"), 2, "a problem has up to three lines")
				require.True(t, p.Want != "" || p.Hint != "", "what would be accepted: %s", p)
			}
		})
	}
}

// brokenFiles are the files of testdata/broken.
func brokenFiles(t *testing.T) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(testdata, "broken", "*.toml"))
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 25)
	return files
}

func list(problems []Problem) string {
	var b strings.Builder
	for _, p := range problems {
		b.WriteString(p.String() + "\n")
	}
	return b.String()
}

// What keeps things out of a bore that its projectile has to pass is no way out, and neither is a launch tube: what goes over that is
// judged too. What is left is how the loading is controlled.
func TestAMuzzleThatTheProjectileDoesNotPassNamesAWayThatHelps(t *testing.T) {
	for _, name := range []string{"muzzle-too-narrow", "grid-too-narrow"} {
		data, err := os.ReadFile(filepath.Join(testdata, "broken", name+".toml"))
		require.NoError(t, err)
		_, problems := Read(name, data)
		require.Len(t, problems, 1)
		assert.Contains(t, problems[0].Hint, `barrel.object_control`)
		assert.NotContains(t, problems[0].Hint, "tube")
	}
}

// One file with eleven faults lists eleven.
func TestElevenFaults(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(testdata, "broken", "eleven-faults.toml"))
	require.NoError(t, err)
	_, problems := Read("eleven-faults.toml", data)
	require.Len(t, problems, 11)
}

// Whatever the reader's units: what was found is the file's own text, what would be accepted
// is said in them, and nothing else depends on them.
func TestFoundIsTheFilesOwnText(t *testing.T) {
	for _, file := range brokenFiles(t) {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		_, metric := Read("x.toml", data)
		_, us := Reader{Units: quantity.US}.Read("x.toml", data)
		require.Len(t, us, len(metric), file)
		for i, p := range us {
			assert.Equal(t, metric[i].Message, p.Message, file)
			assert.Equal(t, metric[i].Found, p.Found, file)
			if strings.Contains(p.Message, "control character") {
				continue // decoded of its escape
			}
			for _, part := range strings.Split(p.Found, " and ") { // of two keys that exclude each other
				assert.Contains(t, string(data), strings.TrimSuffix(part, "…"), "%s: %s", file, p)
			}
		}
	}
}

// Examples in US units can be written into a file as they stand, and are those of the table.
func TestExamplesInUSUnits(t *testing.T) {
	for _, k := range keys.New().Keys {
		example := k.ExampleIn(quantity.US)
		if k.Kind != keys.Number {
			continue
		}
		before, err := unit.Parse(strings.Trim(k.Example, `"`), k.Dimension)
		require.Nil(t, err, k.Name)
		after, err := unit.US.Parse(strings.Trim(example, `"`), k.Dimension)
		require.Nil(t, err, "%s = %s", k.Name, example)
		assert.Equal(t, [3]any{before.Stated, before.Origin, before.Reference}, [3]any{after.Stated, after.Origin, after.Reference},
			example)
		// Two or three digits are kept: of the last of two, half is up to 5 %.
		assert.InDelta(t, before.Nominal, after.Nominal, 0.05*math.Abs(before.Nominal)+1e-12, "%s: %s, %s", k.Name, k.Example, example)
		wide := before.High - before.Low
		assert.InDelta(t, wide, after.High-after.Low, 0.05*wide+1e-12, "%s: %s, %s", k.Name, k.Example, example)
	}
	l, problems := Read("us.toml", manual.Template(quantity.US))
	require.Empty(t, problems, list(problems))
	require.Equal(t, "My launcher", l.Name)
}
