package interview

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/problem"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// talk answers every question that is asked from a list, the rest with "?".
func talk(t *testing.T, answers map[string]string) ([]byte, []problem.Problem) {
	t.Helper()
	s := Begin(quantity.Metric)
	line := 0
	for q, more := s.Next(); more; q, more = s.Next() {
		line++
		if p := s.Answer(q, answers[q.ID], line); p != nil {
			t.Fatalf("%s: %s", q.ID, p)
		}
	}
	return s.Finish()
}

func read(t *testing.T, data []byte) *launcher.Launcher {
	t.Helper()
	l, problems := design.Reader{}.Read("answers.toml", data)
	require.Empty(t, problems)
	return l
}

// A rocket over a tube with a hand pump and no electricity: every answer stands as it was given, with its origin, and
// nothing in the file moves by current.
func TestARocketOnAHandPump(t *testing.T) {
	data, problems := talk(t, map[string]string{"flies": "rocket", "fit": "over a tube", "tube": "18 mm ± 0.1 mm, measured", "tail": "18.4 mm",
		"outside": "40 mm", "over": "60 mm", "mass": "8 g, measured", "air": "bike pump", "flow": "3 L/min", "most": "0.5 bar",
		"vessel": "0.2 L", "chamber": "no",
		"valve": "tap", "passes": "6 mm", "hose": "8 mm x 0.5 m", "relief": "0.25 bar", "empties": "hole", "gauge": "0.6 bar",
		"youngest": "8 years", "nearest": "3 m", "vehicle": "no"})
	require.Empty(t, problems)
	l := read(t, data)
	assert.Equal(t, pneumatics.OverTube, l.Barrel.Fit)
	assert.Equal(t, launcher.Measured, l.Barrel.TubeOuterDiameter.Origin)
	assert.Equal(t, launcher.HandPump, l.Supply.Kind)
	assert.Nil(t, l.Switch)
	assert.Len(t, l.Volumes, 1)
	assert.InDelta(t, 0, l.Mount.MovingAt.High, 0)
	assert.False(t, l.Mount.RideOn)
	for i := range l.Paths {
		assert.NotEqual(t, pneumatics.Valve, l.Paths[i].Kind, l.Paths[i].Name)
	}
	for _, line := range []string{`tube_outer_diameter = "18 mm ± 0.1 mm, measured"`, `mass = "8 g, measured"`, `set_pressure = "0.25 bar"`,
		`hose = { bore = "8 mm", length = "0.5 m", side = "after" }`, `youngest = "8 years"`, `tip = "?"  # such as "resilient"`} {
		assert.Contains(t, string(data), "\n"+line+"\n")
	}
	assert.NotContains(t, l.Template, "projectile.mass")
	assert.Contains(t, l.Template, "barrel.dead_volume")
	assert.Contains(t, l.ToFind, "projectile.tip")
	assert.InDelta(t, 0.040, l.Projectile.Diameter.Nominal, 1e-12, "how wide a rocket is outside decides whether it chokes")
}

// What holds a projectile is nobody's figure before somebody has pushed it: it is not known, rather than one of the template.
func TestWhatHoldsTheProjectileIsNotMadeUp(t *testing.T) {
	for _, flies := range []string{"ball", "rocket"} {
		data, problems := talk(t, map[string]string{"flies": flies})
		require.Empty(t, problems)
		l := read(t, data)
		assert.False(t, l.Projectile.Breakaway.Set)
		assert.Contains(t, l.ToFind, "projectile.breakaway_force")
		assert.Equal(t, flies == "rocket", !l.Projectile.Diameter.Set, "a ball's width follows from its barrel, a rocket's from nothing")
	}
}

// Who knows nothing gets a complete file, in which nothing claims that it stands, or that there is no hose.
func TestNothingIsKnown(t *testing.T) {
	data, problems := talk(t, nil)
	require.Empty(t, problems)
	l := read(t, data)
	assert.Positive(t, l.Mount.MovingAt.Nominal)
	assert.True(t, l.Mount.RideOn)
	assert.Contains(t, l.Template, "paths.fire.hose.bore")
	assert.Contains(t, l.Template, "mount.moving_at")
	for line := range strings.Lines(string(data)) {
		assert.NotRegexp(t, `^[a-z].*(measured|datasheet|label|estimated)"`, line)
		if strings.HasPrefix(line, "# ") {
			assert.LessOrEqual(t, len([]rune(line)), 81, line)
		}
	}
}

// On no vehicle nothing asks for the way to its wheels; on one that stands while it fires it does.
func TestNoVehicleHasNoWheels(t *testing.T) {
	for answer, on := range map[string]bool{"no": false, "0 km/h": true} {
		data, problems := talk(t, map[string]string{"vehicle": answer})
		require.Empty(t, problems)
		l := read(t, data)
		assert.Equal(t, on, l.Mount.RideOn, answer)
		assert.Zero(t, l.Mount.MovingAt.Nominal, answer)
	}
}

// Whatever is answered of what questions accept, the reader takes the file; nothing that was answered is lost.
func TestEveryAnswerMakesAFile(t *testing.T) {
	figures := map[string]string{"bore": "41 mm", "tube": "18 mm", "wide": "43 mm", "tail": "18.3 mm", "outside": "35 mm", "travel": "15 cm",
		"over": "60 mm",
		"mass": "3 to 5 g", "flow": "12 L/min ± 15 %, measured", "most": "4 bar, label", "vessel": "2 L", "chamber": "1 L", "relief": "0.75 bar",
		"switch": "0.36 bar ± 0.03 bar", "gauge": "1 bar", "youngest": "4 years", "nearest": "3 m", "vehicle": "5 km/h"}
	flows := []string{"Cv 2.0", "kv = 1.7 ± 10 %, datasheet", "9 mm", "400 L/min", "4 L/(s bar)"}
	r := rand.New(rand.NewPCG(7, 16))
	for range 60 {
		s := Begin(quantity.Metric)
		given := map[string]string{}
		for q, more := s.Next(); more; q, more = s.Next() {
			text := NotKnown
			if r.IntN(4) > 0 {
				switch q.Form {
				case OneWord:
					text = q.Words[r.IntN(len(q.Words))]
				case FlowFigure:
					text = flows[r.IntN(len(flows))]
				case HoseOrNo:
					text = []string{"8 mm x 1.2 m", "no"}[r.IntN(2)]
				case FigureOrNo:
					text = []string{figures[q.ID], "no"}[r.IntN(2)]
				default:
					text = figures[q.ID]
				}
			}
			require.Nil(t, s.Answer(q, text, 1), q.ID)
			given[q.ID] = text
		}
		data, problems := s.Finish()
		require.Empty(t, problems, "%v", given)
		for id, text := range given {
			if f := figures[id]; f != "" && text == f {
				assert.Contains(t, string(data), `"`+text+`"`, id)
			}
		}
		l := read(t, data)
		assert.Equal(t, given["relief"] == figures["relief"], l.ReliefOnSupply() >= 0)
		assert.Equal(t, given["switch"] == figures["switch"], l.Switch != nil)
		assert.Equal(t, given["gauge"] == figures["gauge"], len(l.Gauges) == 1)
		assert.Equal(t, given["chamber"] == figures["chamber"], len(l.Volumes) == 2)
	}
}

// Each question says what it accepts and how to find it out, takes its own example, and asks what the design file has.
func TestQuestions(t *testing.T) {
	seen := map[string]bool{}
	for _, q := range Questions() {
		assert.False(t, seen[q.ID], q.ID)
		seen[q.ID] = true
		assert.Regexp(t, `^[A-Z].*\?$`, q.Ask)
		assert.NotEqual(t, q.Key == "", q.key() != nil, q.ID)
		for _, units := range []quantity.System{quantity.Metric, quantity.US} {
			assert.NotEmpty(t, q.HowTo(units), q.ID)
			example := strings.TrimSuffix(q.Accepts(units), ", or no")
			if _, such, is := strings.Cut(example, ", such as "); is {
				example = such
			}
			switch q.Form {
			case OneWord, FlowFigure:
				example, _, _ = strings.Cut(example, ", ")
			}
			_, p := q.Read(example, units)
			assert.Nil(t, p, "%s: %s", q.ID, example)
		}
	}
	assert.Len(t, seen, 25)
}

// What is wrong with an answer says what would be accepted and what was meant.
func TestWrongAnswers(t *testing.T) {
	for _, c := range []struct{ id, text, message, hint string }{
		{"flies", "bal", "is none of the answers", `did you mean "ball"?`},
		{"bore", "41", "no unit", "put the unit"},
		{"bore", "41 m", "is outside", ""},
		{"mass", "no", "not a number", ""},
		{"passes", "2.0", "is no flow", ""},
		{"passes", "Cv fast", "not a number", ""},
		{"hose", "8 mm", "is no bore and length", "an x between"},
		{"hose", "8 mm x 1 kg", "wrong dimension", ""},
		{"switch", "half", "not a number", ""},
	} {
		q := questionOf(c.id)
		_, p := q.Read(c.text, quantity.Metric)
		require.NotNil(t, p, c.text)
		assert.Contains(t, p.Message, c.message, c.text)
		assert.Contains(t, p.Hint, c.hint, c.text)
		assert.Equal(t, c.id, p.Key)
	}
	for text, want := range map[string]string{" Foam ball ": "ball", "?": "?", "": "?", "ROCKET": "rocket"} {
		q := questionOf("flies")
		kept, p := q.Read(text, quantity.Metric)
		assert.Nil(t, p)
		assert.Equal(t, want, kept)
	}
}

// Answers that contradict each other make no file: the question and its line are named, and can be asked again.
func TestAnswersThatContradict(t *testing.T) {
	s := Begin(quantity.Metric)
	line := 0
	for q, more := s.Next(); more; q, more = s.Next() {
		line++
		require.Nil(t, s.Answer(q, map[string]string{"switch": "0.8 bar", "gauge": "0.5 bar"}[q.ID], line))
	}
	data, problems := s.Finish()
	require.Len(t, problems, 1)
	assert.Nil(t, data)
	assert.Equal(t, "gauge", problems[0].Key)
	assert.Contains(t, problems[0].Message, "ends below")
	assert.Equal(t, s.asked["gauge"], problems[0].Line)
	s.Again("gauge")
	q, more := s.Next()
	require.True(t, more)
	require.Equal(t, "gauge", q.ID)
	require.Nil(t, s.Answer(q, "1 bar", line+1))
	_, problems = s.Finish()
	assert.Empty(t, problems)
}
