package design

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits/launcher"
)

// changedWhale is the whale's design with some texts in place of others, each of which stands in it.
func changedWhale(t *testing.T, pairs ...string) []byte {
	t.Helper()
	data, err := os.ReadFile("../../../../testdata/designs/whale.toml")
	require.NoError(t, err)
	for i := 0; i < len(pairs); i += 2 {
		require.Contains(t, string(data), pairs[i])
	}
	return []byte(strings.NewReplacer(pairs...).Replace(string(data)))
}

// "?" of any kind of optional key is as if the key were left out, to the last bit, and is listed.
func TestAQuestionMarkIsAsIfLeftOut(t *testing.T) {
	lines := map[string]string{
		"projectile.tip":           `tip = "resilient"`,
		"projectile.tip_proof":     `tip_proof = "press test record of 2026-04-02, two initials"`,
		"projectile.sliding_force": `sliding_force = "0.2 N ± 0.2 N, measured"`,
		"projectile.open_cell":     "open_cell = false",
		"barrel.object_control":    `object_control = ["supervised loading by the adult in charge"]`,
		"gauge.class":              "class = 1.0",
	}
	var asked, out []string
	for key, line := range lines {
		name := key[strings.LastIndexByte(key, '.')+1:]
		value := `"?"`
		if name == "object_control" {
			value = `["?"]`
		}
		asked = append(asked, "\n"+line, "\n"+name+" = "+value)
		out = append(out, "\n"+line, "\n")
	}
	l, problems := Read("whale.toml", changedWhale(t, asked...))
	require.Empty(t, problems)
	assert.Equal(t, []string{"barrel.object_control", "gauge.class", "projectile.open_cell", "projectile.sliding_force", "projectile.tip",
		"projectile.tip_proof"}, l.ToFind)
	without, problems := Read("whale.toml", changedWhale(t, out...))
	require.Empty(t, problems)
	assert.Empty(t, without.ToFind)
	l.ToFind = nil
	assert.Equal(t, without, l)
}

// Words are read whatever their capitals and whatever parts them, and say the same.
func TestWordsInOtherLetters(t *testing.T) {
	l, problems := Read("whale.toml", changedWhale(t, `name = "air"`, `name = "Air"`, `fit = "in bore"`, `fit = "In-bore"`,
		`tip = "resilient"`, `tip = "Resilient"`, `kind = "compressor"`, `kind = "Compressor"`, `kind = "relief"`, `kind = "RELIEF"`,
		`open_in = ["firing"]`, `open_in = ["Firing"]`))
	require.Empty(t, problems)
	plain, problems := Read("whale.toml", changedWhale(t))
	require.Empty(t, problems)
	assert.Equal(t, plain, l)
	_, problems = Read("whale.toml", changedWhale(t, `name = "air"`, `name = "Airr"`))
	require.Len(t, problems, 1)
}

// A ball that is larger than its bore is soft foam that is squeezed: no gap, whatever the tolerances, and it is said so.
func TestABallLargerThanItsBore(t *testing.T) {
	l, problems := Read("whale.toml", changedWhale(t, `diameter = "41.0 mm ± 0.5 mm, measured"`, `diameter = "48 mm"`))
	require.Empty(t, problems)
	assert.True(t, l.Squeezed())
}

// The unit of a gauge is that of its range; of another volume, or of a range without one, it is the usual one.
func TestGaugeUnit(t *testing.T) {
	two := []byte("[[gauge]]\non = \"tank\"\nrange = \"30 PSI\"\n[[gauge]]\non = \"dose\"\nrange = '1.6 bar, template'\n")
	for volume, want := range map[string]string{"tank": "PSI", "dose": "bar", "keg": "psi"} {
		assert.Equal(t, want, GaugeUnit(two, volume, quantity.US).Name, volume)
	}
	assert.Equal(t, "bar", GaugeUnit(two, "keg", quantity.Metric).Name)
	for text, want := range map[string]string{`"1 kgf/cm2"`: "kgf/cm2", `"?"`: "bar", `"1 bar abs"`: "bar", "[": "bar"} {
		assert.Equal(t, want, GaugeUnit([]byte("[gauge]\non = \"tank\"\nrange = "+text+"\n"), "tank", quantity.Metric).Name, text)
	}
}

// What must be known is refused with the way to find it, and so is what, left out, says that there is none.
func TestWhatMustBeKnown(t *testing.T) {
	_, problems := Read("whale.toml", changedWhale(t, `mass = "4.0 g ± 0.4 g, measured"`, `mass = "?"`,
		`Cv = "2.0 ± 10 %, datasheet"`, `Cv = "?"`, `open_in = ["firing"]`, `open_in = "?"`, "ride_on = false", `ride_on = "?"`,
		`name = "air"`, `name = "?"`))
	said := map[string]Problem{}
	for _, p := range problems {
		said[p.Key] = p
	}
	require.Len(t, problems, 5)
	for key, hint := range map[string]string{"projectile.mass": "Kitchen scale", "paths.fire.Cv": "seat_bore",
		"paths.fire.open_in": "to find it",
		"mount.ride_on":      "a child rides", "gas.name": "Nitrogen only"} {
		assert.Equal(t, "has to be known", said[key].Message, key)
		assert.Equal(t, "?", said[key].Found, key)
		assert.Contains(t, said[key].Hint, hint, key)
		assert.Positive(t, said[key].Line, key)
	}
	l, problems := Read("whale.toml", changedWhale(t, `Cv = "2.0 ± 10 %, datasheet"`, "seat_bore = \"9 mm\"\nCv = \"?\""))
	require.Empty(t, problems)
	assert.Equal(t, []string{"paths.fire.Cv"}, l.ToFind)
	assert.Equal(t, launcher.SeatBore, l.Paths[pathOf(t, l, "fire")].Flow.Form)
}

func pathOf(t *testing.T, l *launcher.Launcher, name string) int {
	t.Helper()
	for i := range l.Paths {
		if l.Paths[i].Name == name {
			return i
		}
	}
	t.Fatal("no path " + name)
	return -1
}

// A figure of the template is as wide as one that is estimated, and its key is kept, once, a point of a curve too.
func TestFiguresOfTheTemplateAreKept(t *testing.T) {
	as := func(origin string) *launcher.Launcher {
		l, problems := Read("whale.toml", changedWhale(t, `mass = "4.0 g ± 0.4 g, measured"`, `mass = "8.0 g, `+origin+`"`,
			`free_air = "12 L/min ± 15 %, measured"`, `curve = [["0 bar, `+origin+`", "12 L/min, `+origin+`"], ["2 bar", "6 L/min"]]`))
		require.Empty(t, problems)
		return l
	}
	l, estimated := as("template"), as("estimated")
	assert.Equal(t, []string{"projectile.mass", "supply.curve"}, l.Template)
	assert.Empty(t, estimated.Template)
	assert.Equal(t, launcher.Template, l.Projectile.Mass.Origin)
	assert.Equal(t, estimated.Projectile.Mass.Low, l.Projectile.Mass.Low)
	assert.Equal(t, estimated.Projectile.Mass.High, l.Projectile.Mass.High)
	measured, problems := Read("whale.toml", changedWhale(t, `mass = "4.0 g ± 0.4 g, measured"`, `mass = "8.0 g, measured"`))
	require.Empty(t, problems)
	assert.Greater(t, l.Projectile.Mass.Width(), measured.Projectile.Mass.Width())
}
