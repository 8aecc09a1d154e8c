package sound

import (
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// Levels are the two ends of what is known of a peak level [dB(C)]; -Inf: silent. Expected is NaN
// where it is not known.
type Levels struct{ Expected, Upper float64 }

// plus gives the levels so many dB higher.
func (l Levels) plus(db float64) Levels { return Levels{l.Expected + db, l.Upper + db} }

// Source is one thing that sounds.
type Source struct {
	ID     string // "burst", "column", "empty", "outlet." with the path's name, "pump"
	Name   finding.Text
	Levels // 1 m from it
	// Apart tells that it does not sound from the muzzle: an ear counts pumpDistance from it.
	Apart bool
}

// Ear is an ear that hears the shot.
type Ear struct {
	Who      string
	Distance float64 // from the muzzle, nominal [m]
	Nearest  float64 // the nearest that it may be [m]
	Levels
	By string // id of the source that its upper end comes from
}

// Recording is what a stated peak level makes of the interval.
type Recording struct {
	Origin      launcher.Origin // how the level is known
	Level, High float64         // as stated, and the upper end of its band, PlaceOfBenchmark from the muzzle [dB(C)]
	Burst       float64         // the upper end that the model gives of the burst, 1 m away [dB(C)]
	Spread      float64         // what the loudest shot over the tolerances is above the recorded one, by the model [dB]
	Upper       float64         // High with Spread [dB(C)]
	Model       Levels          // of the shot without it, in the same place: a pump or an outlet is not in a recording of it
}

// Measured tells whether the level is a reading of this launcher: no label or datasheet knows it. Else it narrows nothing, and counts
// only where it is above the model.
func (r *Recording) Measured() bool { return r.Origin == launcher.Measured }

// Guessed tells that somebody made the level up.
func (r *Recording) Guessed() bool {
	return r.Origin == launcher.Estimated || r.Origin == launcher.Template
}

// How says in a word how the level is known.
func (r *Recording) How() string {
	switch {
	case r.Measured():
		return "Recorded"
	case r.Guessed():
		return "Guessed"
	}
	return "Stated, not as measured"
}

// Change is something that would make it quieter, computed.
type Change struct {
	What     finding.Text
	Distance bool    // it is one of where people are, not of the launcher
	Upper    float64 // upper end at the worse ear with it [dB(C)]
}

// Report says how loud the shots of normal operation are.
type Report struct {
	Sources  []Source // the loudest upper end first
	Ears     []Ear    // the loudest upper end first; none: no ear's distance is stated
	Near     Ear      // PlaceOfBenchmark from the muzzle
	Excess   float64  // of the pressure behind the projectile as it leaves, nominal shot [Pa]; NaN: it does not leave
	Most     float64  // likewise, of the loudest shot [Pa]; NaN: none leaves
	Radius   float64  // of the opening [m]
	Recorded *Recording
	Changes  []Change // the most effective first; nil: nothing needs to be quieter
	Notes    []finding.Text
	Runs     int // shots of the search
}

// PlaceOfBenchmark is where the toy standard measures [m]: EN 71-1, 4.20, as in limits/benchmark.
const PlaceOfBenchmark = 0.5

// loudestFirst orders levels by their upper end.
func loudestFirst(a, b Levels) int {
	switch {
	case a.Upper > b.Upper:
		return -1
	case a.Upper < b.Upper:
		return 1
	}
	return 0
}

// louder is the higher of two levels, either of which may be unknown.
func louder(a, b float64) float64 {
	switch {
	case math.IsNaN(a):
		return b
	case math.IsNaN(b):
		return a
	}
	return math.Max(a, b)
}

// Between is an interval in words.
func (r *Report) Between(l Levels) finding.Text {
	if math.IsNaN(l.Expected) || math.IsInf(l.Expected, 0) {
		return finding.Say("up to %s, what to expect is not known", finding.Decibel(l.Upper))
	}
	return finding.Say("%s expected, up to %s", finding.Decibel(l.Expected), finding.Decibel(l.Upper))
}

// PumpQuietFrom is the distance [m] from the pump from which on its upper end is below a level, to half a metre upwards; 0: no pump is
// louder than that anywhere, or none sounds.
func (r *Report) PumpQuietFrom(level float64) float64 {
	most := math.Inf(-1)
	for _, s := range r.Sources {
		if s.Apart {
			most = max(most, s.Upper)
		}
	}
	if most-20*math.Log10(pumpDistance) < level {
		return 0
	}
	return math.Ceil(2*math.Pow(10, (most-level)/20)) / 2
}

// NameOf is the name of a source.
func (r *Report) NameOf(id string) finding.Text {
	for _, s := range r.Sources {
		if s.ID == id {
			return s.Name
		}
	}
	return finding.Words("nothing")
}

// QuietFrom is the distance [m] from the muzzle from which on the upper end is below a level, to half a metre upwards.
func (r *Report) QuietFrom(level float64) float64 {
	most := math.Inf(-1)
	for _, s := range r.Sources {
		if !s.Apart {
			most = max(most, s.Upper)
		}
	}
	return math.Max(PlaceOfBenchmark, math.Ceil(2*math.Pow(10, (most-level)/20))/2)
}
