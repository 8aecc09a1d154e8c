package shots

import (
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/measure"
)

// kind is what stands in a column.
type kind uint8

const (
	quantity kind = iota // a number in the unit of the header
	rate                 // a number of frames a second
	count                // a number without a unit
	word                 // one of some words
	text                 // anything
)

// line is one line of the file while it is read.
type line struct {
	shot  measure.Shot
	bench measure.BenchReading
}

// column is one column that a file may have.
type column struct {
	name      string
	synonyms  []string
	kind      kind
	dimension unit.Dimension
	words     []string // of a word
	zero      bool     // may be 0
	most      float64  // largest value that can be meant [SI]
	least     float64  // smallest value that can be meant [SI]; 0: a millionth of most
	example   string   // a header
	teach     string
	set       func(l *line, v float64, text string)
}

// smallest is the smallest value other than zero that can be meant [SI].
func (c *column) smallest() float64 {
	if c.least > 0 {
		return c.least
	}
	return 1e-6 * c.most
}

// columns lists every column in the order of the help.
func columns() []column {
	return append(append(commonColumns(), speedColumns()...), benchColumns()...)
}

func commonColumns() []column {
	return []column{
		{name: "pressure", synonyms: []string{"gauge", "gauge_pressure", "p", "start_pressure", "set_pressure"}, dimension: unit.Pressure,
			most: 20e5, example: "pressure [bar]", teach: "gauge reading before the shot; of an emptying test before it begins",
			set: func(l *line, v float64, _ string) { l.shot.Gauge, l.bench.Gauge = v, v }},
		{name: "projectile", synonyms: []string{"ball", "rocket", "dart", "number"}, kind: text, example: "projectile",
			teach: "which of your projectiles flew; at least two must",
			set:   func(l *line, _ float64, t string) { l.shot.Projectile = t }},
		{name: "temperature", synonyms: []string{"air_temperature", "temp"}, dimension: unit.Temperature, least: 243.15, most: 333.15,
			example: "temperature [degC]", teach: "of the air", set: func(l *line, v float64, _ string) { l.shot.Temperature = v }},
		{name: "misfire", synonyms: []string{"dud", "stalled", "jam", "failed"}, kind: word, words: []string{"no", "yes"}, example: "misfire",
			teach: "yes where nothing flew; the line is kept", set: func(l *line, _ float64, t string) { l.shot.Misfire = t == "yes" }},
		{name: "note", synonyms: []string{"notes", "remark", "remarks", "comment"}, kind: text, example: "note", teach: "what was different",
			set: func(l *line, _ float64, t string) { l.shot.Note = t }},
	}
}

func speedColumns() []column {
	return []column{
		{name: "speed", synonyms: []string{"velocity", "v", "chronograph", "muzzle_speed"}, dimension: unit.Speed, most: 200,
			example: "speed [m/s]",
			teach:   "read off a chronograph", set: func(l *line, v float64, _ string) { l.shot.Speed = v }},
		{name: "speed_error", synonyms: []string{"chronograph_error"}, kind: count, most: 0.5, example: "speed_error [%]",
			teach: "of the chronograph; 2 % where the file does not say", set: func(l *line, v float64, _ string) { l.shot.SpeedError = v }},
		{name: "chronograph_distance", synonyms: []string{"distance", "sensor_distance"}, dimension: unit.Length, zero: true, most: 5,
			example: "chronograph_distance [m]",
			teach:   "from the muzzle to the middle of its sensors", set: func(l *line, v float64, _ string) { l.shot.Distance = v }},
		{name: "frames", synonyms: []string{"pictures", "frame_count"}, kind: count, most: 1e5, example: "frames",
			teach: "video: intervals between two pictures; the picture at the first mark is number 0", set: func(l *line, v float64,
				_ string) {
				l.shot.Frames = v
			}},
		{name: "frame_rate", synonyms: []string{"fps", "rate", "frames_per_second"}, kind: rate, most: 1e6, example: "frame_rate [1/s]",
			teach: "at which the pictures were taken, not played back", set: func(l *line, v float64, _ string) { l.shot.FrameRate = v }},
		{name: "first_frame_error", synonyms: []string{"frame_error"}, kind: count, most: 100, example: "first_frame_error",
			teach: "in frames; half a frame where the file does not say", set: func(l *line, v float64, _ string) { l.shot.FrameError = v }},
		{name: "video_start", synonyms: []string{"start"}, dimension: unit.Length, zero: true, most: 100, example: "video_start [m]",
			teach: "from the muzzle to the first mark; 0 where the file does not say", set: func(l *line, v float64, _ string) { l.shot.Start = v }},
		{name: "video_span", synonyms: []string{"span", "travelled", "distance_travelled"}, dimension: unit.Length, most: 100,
			example: "video_span [m]",
			teach:   "from the first mark to the second", set: func(l *line, v float64, _ string) { l.shot.Span = v }},
		{name: "muzzle_height", synonyms: []string{"height", "drop"}, dimension: unit.Length, zero: true, most: 50, example: "muzzle_height [m]",
			teach: "of a level barrel above the ground; of a timed shot up, above where it comes down", set: func(l *line, v float64,
				_ string) {
				l.shot.Height = v
			}},
		{name: "impact_distance", synonyms: []string{"range", "first_impact", "impact"}, dimension: unit.Length, most: 500,
			example: "impact_distance [m]",
			teach:   "level shot: from the muzzle to where it first hits the ground", set: func(l *line, v float64,
				_ string) {
				l.shot.Distance = v
			}},
		{name: "return_time", synonyms: []string{"time_up_and_down", "flight_time"}, dimension: unit.Time, most: 60, example: "return_time [s]",
			teach: "shot straight up: until it is down", set: func(l *line, v float64, _ string) { l.shot.Interval = v }},
		{name: "apex_height", synonyms: []string{"apex", "max_height"}, dimension: unit.Length, most: 200, example: "apex_height [m]",
			teach: "shot straight up: above the muzzle, against a marked pole", set: func(l *line, v float64, _ string) { l.shot.Height = v }},
		{name: "board_time", synonyms: []string{"sound_time"}, dimension: unit.Time, most: 20, example: "board_time [ms]",
			teach: "between the sounds of muzzle and board", set: func(l *line, v float64, _ string) { l.shot.Interval = v }},
		{name: "board_distance", synonyms: []string{"board"}, dimension: unit.Length, most: 100, example: "board_distance [m]",
			teach: "from the muzzle to the board", set: func(l *line, v float64, _ string) { l.shot.Distance = v }},
		{name: "microphone", synonyms: []string{"phone", "mic"}, kind: word, words: []string{"muzzle", "board"}, example: "microphone",
			teach: "where the sounds were recorded; muzzle where the file does not say", set: func(l *line, _ float64, t string) {
				if t == "board" {
					l.shot.Microphone = measure.AtBoard
				}
			}},
	}
}

func benchColumns() []column {
	return []column{
		{name: "click_to_pop", synonyms: []string{"pop_time", "click"}, dimension: unit.Time, most: 5, example: "click_to_pop [ms]",
			teach: "from the valve's click to the pop at the muzzle, one sound recording there", set: func(l *line, v float64,
				_ string) {
				l.bench.Time = v
			}},
		{name: "water_height", synonyms: []string{"u_tube", "utube", "water_column"}, dimension: unit.Length, most: 20,
			example: "water_height [mm]",
			teach:   "U-tube: difference of the levels when the projectile starts to move", set: func(l *line, v float64,
				_ string) {
				l.bench.Height = v
			}},
		{name: "coin_mass", synonyms: []string{"coins", "weight"}, dimension: unit.Mass, most: 50, example: "coin_mass [g]",
			teach: "rod and coins that start it, tube upright", set: func(l *line, v float64, _ string) { l.bench.Mass = v }},
		{name: "slope_angle", synonyms: []string{"slope", "tilt"}, dimension: unit.Angle, most: 1.5708, example: "slope_angle [deg]",
			teach: "tilt of the tube at which it slides on evenly", set: func(l *line, v float64, _ string) { l.bench.Angle = v }},
		{name: "sink_distance", dimension: unit.Length, most: 20, example: "sink_distance [mm]",
			teach: "sink test: breech corked, tube upright", set: func(l *line, v float64, _ string) { l.bench.Distance = v }},
		{name: "sink_time", dimension: unit.Time, most: 3600, example: "sink_time [s]", teach: "for that distance",
			set: func(l *line, v float64, _ string) { l.bench.Time = v }},
		{name: "empty_path", synonyms: []string{"path", "valve"}, kind: text, example: "empty_path",
			teach: "emptying test: the one path that was open to the air", set: func(l *line, _ float64, t string) { l.bench.Path = t }},
		{name: "empty_to", synonyms: []string{"end_pressure"}, dimension: unit.Pressure, zero: true, most: 20e5, example: "empty_to [bar]",
			teach: "gauge reading at its end", set: func(l *line, v float64, _ string) { l.bench.GaugeEnd = v }},
		{name: "empty_time", dimension: unit.Time, most: 36000, example: "empty_time [s]", teach: "from pressure to empty_to",
			set: func(l *line, v float64, _ string) { l.bench.Time = v }},
	}
}

// reading is a way to fill a line: its own column and those it cannot do without.
type reading struct {
	signature string
	needs     []string
	method    measure.Method
	bench     measure.BenchKind
	isBench   bool
}

func readings() []reading {
	return []reading{
		{signature: "speed", needs: []string{"pressure", "chronograph_distance"}, method: measure.Chronograph},
		{signature: "frames", needs: []string{"pressure", "frame_rate", "video_span"}, method: measure.Video},
		{signature: "impact_distance", needs: []string{"pressure", "muzzle_height"}, method: measure.HorizontalShot},
		{signature: "return_time", needs: []string{"pressure"}, method: measure.UpwardTime},
		{signature: "apex_height", needs: []string{"pressure"}, method: measure.UpwardHeight},
		{signature: "board_time", needs: []string{"pressure", "board_distance"}, method: measure.SoundToBoard},
		{signature: "click_to_pop", needs: []string{"pressure"}, bench: measure.ClickToPop, isBench: true},
		{signature: "water_height", bench: measure.UTube, isBench: true},
		{signature: "coin_mass", bench: measure.Coins, isBench: true},
		{signature: "slope_angle", bench: measure.Slope, isBench: true},
		{signature: "sink_time", needs: []string{"sink_distance"}, bench: measure.Sink, isBench: true},
		{signature: "empty_time", needs: []string{"pressure", "empty_path", "empty_to"}, bench: measure.Emptying, isBench: true},
	}
}

// fold brings the spellings of one name together.
func fold(s string) string {
	return strings.NewReplacer("-", "_", " ", "_").Replace(strings.ToLower(strings.TrimSpace(s)))
}

// find gives the column of a name.
func find(all []column, name string) (int, bool) {
	i := slices.IndexFunc(all, func(c column) bool { return c.name == fold(name) })
	return i, i >= 0
}
