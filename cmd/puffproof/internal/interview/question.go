package interview

import (
	"strings"

	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/quantity"
)

// NotKnown answers a question whose answer is not known.
const NotKnown = keys.NotKnown

// Form is what an answer looks like.
type Form uint8

// The forms.
const (
	OneWord    Form = iota // one of a few words
	Figure                 // a quantity, as the design file has it
	FigureOrNo             // a quantity, or no
	FlowFigure             // what a valve lets through: Cv, Kv, a bore, a flow
	HoseOrNo               // bore and length of a hose, or no
)

// Question is one question.
type Question struct {
	ID    string
	Ask   string
	Form  Form
	Words []string             // of OneWord, and what people say instead
	Key   string               // of the design file, such as "barrel.bore": its dimension, its range, how to find it
	Such  string               // an example of an answer; "": that of the key
	How   string               // how to find it, where no key says it
	When  func(a Answers) bool // whether it is asked; nil: always
}

// Answers are what was answered, by the identifiers of the questions; what is not there is not known.
type Answers map[string]string

// is tells whether an answer is one of some words.
func (a Answers) is(id string, words ...string) bool {
	for _, w := range words {
		if a[id] == w {
			return true
		}
	}
	return false
}

// overTube tells that the projectile slides over a tube.
func (a Answers) overTube() bool { return a.is("flies", "rocket") && !a.is("fit", "bore") }

// pumped tells that a person pumps, so that no switch stops the supply.
func (a Answers) pumped() bool { return a.is("air", "hand pump") }

// Questions lists them in the order in which they are asked.
func Questions() []Question {
	bore := func(a Answers) bool { return !a.overTube() }
	tube := Answers.overTube
	motor := func(a Answers) bool { return !a.pumped() }
	return []Question{
		{ID: "flies", Ask: "What flies?", Words: []string{"ball", "rocket", "dart"},
			How: "A ball fills its barrel; a rocket has a hollow tail that slides over a thin tube; a dart sits in the barrel."},
		{ID: "fit", Ask: "Does the rocket sit in a barrel, or over a tube?", Words: []string{"tube", "bore"}, Key: "barrel.fit",
			When: func(a Answers) bool { return a.is("flies", "rocket") }},
		{ID: "bore", Ask: "How wide is the barrel inside?", Form: Figure, Key: "barrel.bore", When: bore},
		{ID: "tube", Ask: "How wide is the launch tube outside?", Form: Figure, Key: "barrel.tube_outer_diameter", When: tube},
		{ID: "wide", Ask: "How wide is the projectile, not squeezed?", Form: Figure, Key: "projectile.diameter", When: bore},
		{ID: "tail", Ask: "How wide is the rocket's tail inside?", Form: Figure, Key: "projectile.inside_diameter", When: tube},
		{ID: "outside", Ask: "How wide is the rocket outside, not squeezed?", Form: Figure, Key: "projectile.diameter", When: tube},
		{ID: "travel", Ask: "How far does it travel to the muzzle?", Form: Figure, Key: "barrel.travel", When: bore},
		{ID: "over", Ask: "How far is it pushed over the tube?", Form: Figure, Key: "barrel.engagement", When: tube},
		{ID: "mass", Ask: "How heavy is one projectile?", Form: Figure, Key: "projectile.mass"},
		{ID: "air", Ask: "Where does the air come from?", Words: []string{"compressor", "hand pump", "regulated cylinder", "shop air"},
			Key: "supply.kind"},
		{ID: "flow", Ask: "How much free air does it give?", Form: Figure, Key: "supply.free_air"},
		{ID: "most", Ask: "Which pressure can it push to at most, with everything shut?", Form: Figure, Key: "supply.dead_head"},
		{ID: "vessel", Ask: "How large is the vessel that it fills?", Form: Figure, Key: "volumes.*.volume"},
		{ID: "chamber", Ask: "Is there a second, smaller vessel that holds the air of one shot, and how large is it?", Form: FigureOrNo,
			Key: "volumes.*.volume"},
		{ID: "valve", Ask: "What opens the firing valve?", Words: []string{"current", "hand"},
			How: "A coil that current moves, or a hand at a lever or a tap."},
		{ID: "passes", Ask: "What does the firing valve let through?", Form: FlowFigure,
			How: "Cv or Kv from its data sheet, such as Cv 2.0; or the bore of its seat, such as 9 mm, with a drill's shank."},
		{ID: "hose", Ask: "Is there a hose or pipe between the firing valve and the barrel: its bore and length?", Form: HoseOrNo,
			How: "Bore x length, such as 8 mm x 1.2 m: a drill's shank in its end, a tape along it. no where the valve sits at the barrel."},
		{ID: "relief", Ask: "Is there a relief valve, and at which pressure does it open?", Form: FigureOrNo, Key: "paths.*.set_pressure"},
		{ID: "empties", Ask: "What empties it when it is switched off?", Words: []string{"valve", "hand", "hole", "nothing"},
			How: "valve: one that opens by itself without current. hand: a tap that somebody opens. hole: a small one that is always open. " +
				"Shut it off and watch the gauge."},
		{ID: "switch", Ask: "Is there a pressure switch, and at which pressure does it stop the supply?", Form: FigureOrNo,
			Key: "pressure_switch.cut_out", When: motor},
		{ID: "gauge", Ask: "Is there a gauge, and what is the last figure on its dial?", Form: FigureOrNo, Key: "gauge.range"},
		{ID: "youngest", Ask: "How old is the youngest who comes near?", Form: Figure, Key: "event.youngest"},
		{ID: "nearest", Ask: "How far away is the nearest person while it fires?", Form: Figure, Key: "event.nearest_person"},
		{ID: "vehicle", Ask: "Is it on a vehicle, and how fast may that move while it fires?", Form: FigureOrNo, Key: "mount.moving_at",
			Such: "6 km/h",
			How:  "The speed at which it may still fire; 0 km/h where it fires only while the vehicle stands. no: it is on none."},
	}
}

// key is the row of the design file's keys behind a question; nil: there is none.
func (q *Question) key() *keys.Key {
	at := strings.LastIndexByte(q.Key, '.')
	if at < 0 {
		return nil
	}
	return keys.New().Index[q.Key[:at]][q.Key[at+1:]]
}

// HowTo is the way to find the answer out, in units of a system.
func (q *Question) HowTo(units quantity.System) string {
	if q.How != "" {
		return q.How
	}
	return q.key().TeachIn(units)
}

// Accepts says what may be answered, in units of a system.
func (q *Question) Accepts(units quantity.System) string {
	example := strings.Trim(units.Example(`"`+q.Such+`"`), `"`)
	if k := q.key(); k != nil && q.Such == "" {
		example = strings.Trim(k.ExampleIn(units), `"`)
	}
	switch q.Form {
	case Figure:
		return q.key().Dimension.String() + ", such as " + example
	case FigureOrNo:
		return q.key().Dimension.String() + ", such as " + example + ", or no"
	case FlowFigure:
		return "Cv 2.0, Kv 1.7, or a bore such as " + strings.Trim(units.Example(`"9 mm"`), `"`)
	case HoseOrNo:
		return strings.Trim(units.Example(`"8 mm"`), `"`) + " x " + strings.Trim(units.Example(`"1.2 m"`), `"`) + ", or no"
	}
	return strings.Join(q.Words, ", ")
}
