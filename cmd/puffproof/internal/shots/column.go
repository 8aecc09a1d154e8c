package shots

import (
	"slices"

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
	date                 // a day, as an ISO date
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
	to        func(l *line) *float64     // where its number goes
	says      func(l *line, text string) // takes its word or text
}

// smallest is the smallest value other than zero that can be meant [SI].
func (c *column) smallest() float64 {
	if c.least > 0 {
		return c.least
	}
	return 1e-6 * c.most
}

// columns lists every column in the order of the help.
func columns() []column { return append(append(commonColumns(), speedColumns()...), benchColumns()...) }

func commonColumns() []column {
	return []column{
		{name: "pressure", synonyms: []string{"gauge", "gauge_pressure", "p", "start_pressure", "set_pressure"}, dimension: unit.Pressure,
			most: 20e5, example: "pressure [bar]", teach: "gauge reading before the shot; of an emptying test before it begins",
			to: func(l *line) *float64 { return &l.shot.Gauge }},
		{name: "projectile", synonyms: []string{"ball", "rocket", "dart", "number"}, kind: text, example: "projectile",
			teach: "which of your projectiles flew; at least two must",
			says:  func(l *line, t string) { l.shot.Projectile = t }},
		{name: "projectile_mass", synonyms: []string{"mass", "ball_mass", "rocket_mass", "weighed"}, dimension: unit.Mass, least: 1e-4, most: 5,
			example: "projectile_mass [g]", teach: "of that projectile, as you weighed it: once in the file, on the line of one of its shots",
			to: func(l *line) *float64 { return &l.shot.Mass }},
		{name: "temperature", synonyms: []string{"air_temperature", "temp"}, dimension: unit.Temperature, least: 243.15, most: 333.15,
			example: "temperature [degC]", teach: "of the air", to: func(l *line) *float64 { return &l.shot.Temperature }},
		{name: "date", synonyms: []string{"day", "shot_on", "measured_on"}, kind: date, example: "date",
			teach: "year-month-day, such as 2026-05-31", says: func(l *line, t string) { l.shot.Date = t }},
		{name: "misfire", synonyms: []string{"dud", "stalled", "jam", "failed"}, kind: word, words: []string{"no", "yes"}, example: "misfire",
			teach: "yes where nothing flew; the line is kept", says: func(l *line, t string) { l.shot.Misfire = t == "yes" }},
		{name: "note", synonyms: []string{"notes", "remark", "remarks", "comment"}, kind: text, example: "note", teach: "what was different",
			says: func(l *line, t string) { l.shot.Note = t }},
	}
}

func speedColumns() []column {
	return []column{
		{name: "speed", synonyms: []string{"velocity", "v", "chronograph", "muzzle_speed"}, dimension: unit.Speed, most: 200,
			example: "speed [m/s]",
			teach:   "read off a chronograph", to: func(l *line) *float64 { return &l.shot.Speed }},
		{name: "speed_error", synonyms: []string{"chronograph_error"}, kind: count, most: 0.5, example: "speed_error [%]",
			teach: "of the chronograph; 2 % where the file does not say", to: func(l *line) *float64 { return &l.shot.SpeedError }},
		{name: "chronograph_distance", synonyms: []string{"distance", "sensor_distance"}, dimension: unit.Length, zero: true, most: 5,
			example: "chronograph_distance [m]",
			teach:   "from the muzzle to the middle of its sensors", to: func(l *line) *float64 { return &l.shot.Distance }},
		{name: "frames", synonyms: []string{"pictures", "frame_count"},
			kind: count, most: 1e5, example: "frames", teach: "video: intervals between two pictures; the picture at the first mark is number 0",
			to: func(l *line) *float64 { return &l.shot.Frames }},
		{name: "frame_rate", synonyms: []string{"fps", "rate", "frames_per_second"}, kind: rate, most: 1e6, example: "frame_rate [1/s]",
			teach: "at which the pictures were taken, not played back", to: func(l *line) *float64 { return &l.shot.FrameRate }},
		{name: "first_frame_error", synonyms: []string{"frame_error"}, kind: count, most: 100, example: "first_frame_error",
			teach: "in frames; half a frame where the file does not say", to: func(l *line) *float64 { return &l.shot.FrameError }},
		{name: "video_start", synonyms: []string{"start"}, dimension: unit.Length, zero: true, most: 100, example: "video_start [m]",
			teach: "from the muzzle to the first mark; 0 where the file does not say", to: func(l *line) *float64 { return &l.shot.Start }},
		{name: "video_span", synonyms: []string{"span", "travelled", "distance_travelled"}, dimension: unit.Length, most: 100,
			example: "video_span [m]",
			teach:   "from the first mark to the second", to: func(l *line) *float64 { return &l.shot.Span }},
		{name: "muzzle_height", synonyms: []string{"height", "drop"}, dimension: unit.Length, zero: true,
			most: 50, example: "muzzle_height [m]", teach: "of a level barrel above the ground; of a timed shot up, above where it comes down",
			to: func(l *line) *float64 { return &l.shot.Height }},
		{name: "impact_distance", synonyms: []string{"range", "first_impact", "impact"}, dimension: unit.Length, most: 500,
			example: "impact_distance [m]",
			teach:   "level shot: from the muzzle to where it first hits the ground", to: func(l *line) *float64 { return &l.shot.Distance }},
		{name: "return_time", synonyms: []string{"time_up_and_down", "flight_time"}, dimension: unit.Time, most: 60, example: "return_time [s]",
			teach: "shot straight up: until it is down", to: func(l *line) *float64 { return &l.shot.Interval }},
		{name: "apex_height", synonyms: []string{"apex", "max_height"}, dimension: unit.Length, most: 200, example: "apex_height [m]",
			teach: "shot straight up: above the muzzle, against a marked pole", to: func(l *line) *float64 { return &l.shot.Height }},
		{name: "board_time", synonyms: []string{"sound_time"}, dimension: unit.Time, most: 20, example: "board_time [ms]",
			teach: "between the sounds of muzzle and board", to: func(l *line) *float64 { return &l.shot.Interval }},
		{name: "board_distance", synonyms: []string{"board"}, dimension: unit.Length, most: 100, example: "board_distance [m]",
			teach: "from the muzzle to the board", to: func(l *line) *float64 { return &l.shot.Distance }},
		{name: "microphone", synonyms: []string{"phone", "mic"}, kind: word, words: []string{"muzzle", "board"}, example: "microphone",
			teach: "where the sounds were recorded; muzzle where the file does not say", says: func(l *line, t string) {
				if t == "board" {
					l.shot.Microphone = measure.AtBoard
				}
			}},
	}
}

func benchColumns() []column {
	return []column{
		{name: "click_to_pop", synonyms: []string{"pop_time", "click"}, dimension: unit.Time,
			most: 5, example: "click_to_pop [ms]", teach: "from the valve's click to the pop at the muzzle, one sound recording there",
			to: func(l *line) *float64 { return &l.bench.Time }},
		{name: "water_height", synonyms: []string{"u_tube", "utube", "water_column"}, dimension: unit.Length, most: 20,
			example: "water_height [mm]",
			teach:   "U-tube: difference of the levels when the projectile starts to move", to: func(l *line) *float64 { return &l.bench.Height }},
		{name: "coin_mass", synonyms: []string{"coins", "weight"}, dimension: unit.Mass, most: 50, example: "coin_mass [g]",
			teach: "rod and coins that start it, tube upright", to: func(l *line) *float64 { return &l.bench.Mass }},
		{name: "slope_angle", synonyms: []string{"slope", "tilt"}, dimension: unit.Angle, most: 1.5708, example: "slope_angle [deg]",
			teach: "tilt of the tube at which it slides on evenly", to: func(l *line) *float64 { return &l.bench.Angle }},
		{name: "sink_distance", dimension: unit.Length, most: 20, example: "sink_distance [mm]",
			teach: "sink test: breech corked, tube upright", to: func(l *line) *float64 { return &l.bench.Distance }},
		{name: "sink_time", dimension: unit.Time, most: 3600, example: "sink_time [s]", teach: "for that distance",
			to: func(l *line) *float64 { return &l.bench.Time }},
		{name: "empty_path", synonyms: []string{"path", "valve"}, kind: text, example: "empty_path",
			teach: "emptying test: the one path that was open to the air", says: func(l *line, t string) { l.bench.Path = t }},
		{name: "empty_to", synonyms: []string{"end_pressure"}, dimension: unit.Pressure, zero: true, most: 20e5, example: "empty_to [bar]",
			teach: "gauge reading at its end", to: func(l *line) *float64 { return &l.bench.GaugeEnd }},
		{name: "empty_time", dimension: unit.Time, most: 36000, example: "empty_time [s]", teach: "from pressure to empty_to",
			to: func(l *line) *float64 { return &l.bench.Time }},
		{name: "empty_time_error", dimension: unit.Time, most: 60, example: "empty_time_error [s]",
			teach: "how far off that may be, of a recording; by hand it is 0.2 s late, and under 2 s says only how much flows at least",
			to:    func(l *line) *float64 { return &l.bench.TimeError }},
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

// find gives the column of a name.
func find(all []column, name string) (int, bool) {
	i := slices.IndexFunc(all, func(c column) bool { return c.name == unit.Fold(name) })
	return i, i >= 0
}
