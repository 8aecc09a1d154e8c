package design

import (
	"math"

	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
)

// The limits that a design's own may not exceed: total energy [J], EN 71-1
// before 2018, 4.17.3 (read in a secondary text), and energy per contact area
// [J/m2], ASTM F963-23, 4.21.2.3 (read in a secondary text).
const (
	publishedTotal = 0.5
	publishedArea  = 2500
)

// mostPast is how far past upright the tolerance of an elevation may reach [rad]: a barrel
// may lean back a little, and no further (own rule of this project).
const mostPast = 10 * math.Pi / 180

func eventKeys() []key {
	away := bands{measured: plusMinus(0.05, 0.02), other: plusMinus(0.10, 0.05)}
	angle := bands{measured: rule{least: math.Pi / 180}, other: rule{least: 5 * math.Pi / 180}}
	speed := bands{measured: plusMinus(0.10, 0), other: plusMinus(0.20, 0)}
	return []key{
		{table: "event", name: "youngest", synonyms: []string{"age", "ages", "youngest_child", "min_age"}, dimension: unit.Age, sign: orZero,
			max: 120 * 365.25 * 86400, bands: declared(), missing: "not known: choking is judged for under-threes", example: `"4 years"`,
			teach: "Age of the youngest child who may come near."},
		{table: "event", name: "ear_to_muzzle", synonyms: []string{"ear"}, dimension: unit.Length, min: 0.01, max: 100, bands: away,
			missing: "not known: sound.peak is unknown", example: `"0.6 m"`,
			teach: "From the nearest ear, usually the rider's, to the muzzle: where sound.peak is judged, with the nearest person."},
		{table: "event", name: "eye_to_muzzle", synonyms: []string{"eye"}, dimension: unit.Length, sign: orZero, max: 100, bands: away,
			missing: "not known", example: `"0.8 m"`, teach: "From the nearest eye that a guard keeps away."},
		{table: "event", name: "nearest_person", synonyms: []string{"distance", "spectators", "audience"}, dimension: unit.Length, sign: orZero,
			max: 1000, bands: away,
			missing: "not known: people.landing is unknown", example: `"3 m"`,
			teach: "Distance from the muzzle to the nearest person who is no crew, held against the clear zone. No energy passes by it."},
		{table: "event", name: "kerb", synonyms: []string{"curb", "kerb_distance"}, dimension: unit.Length, sign: orZero, max: 1000,
			bands: away, missing: "not known", example: `"4 m"`,
			teach: "Distance from the muzzle to where spectators stand."},
		{table: "event", name: "wheels", synonyms: []string{"wheel_distance", "wheel"}, dimension: unit.Length, sign: orZero, max: 100,
			bands: away, missing: "not known: on a vehicle people.wheels is unknown", example: `"2 m"`,
			teach: "From the muzzle to the vehicle's nearest wheel: children run after balls."},
		{table: "event", name: "muzzle_height", synonyms: []string{"height"}, dimension: unit.Length, sign: orZero, max: 50, bands: away,
			missing: "not known", example: `"1.5 m"`, teach: "Muzzle above the ground."},
		{table: "event", name: "elevation", synonyms: []string{"angle"}, dimension: unit.Angle, sign: anySign, min: -math.Pi / 2,
			max: math.Pi / 2, past: mostPast, bands: angle,
			missing: "not known", example: `"80 deg"`, teach: "Barrel above the horizon; 90 deg is straight up."},
		{table: "event", name: "vehicle_speed", synonyms: []string{"speed"}, dimension: unit.Speed, sign: orZero, max: 40, bands: speed,
			missing: "mount.moving_at counts", example: `"0 km/h ± 0"`, teach: "How fast the vehicle drives in the event."},
		{table: "event", name: "wind", synonyms: []string{"wind_speed"}, dimension: unit.Speed, sign: orZero, max: 40,
			bands:     bands{measured: rule{below: 0, above: 0.5}, other: rule{below: 0, above: 0.5}},
			missing:   "%s to %s assumed",
			missingOf: []finding.Shown{finding.MetresPerSecond.Of(0, 1).Beside(), finding.MetresPerSecond.Of(8, 1)}, example: `"5 m/s"`,
			teach: "The strongest wind it is used in; gusts are faster than what a forecast names."},

		{table: "event", name: "peak_level", synonyms: []string{"loudness", "peak_sound", "recorded_level", "sound_level"},
			dimension: unit.SoundLevel, min: 40, max: 170, bands: bands{measured: rule{least: 4}, other: rule{least: 8}},
			missing: "sound.peak has the model's wide interval", example: `"104 dB ± 4 dB, measured"`,
			teachOf: []finding.Shown{finding.Metres.Of(0.5, 1)},
			teach: "Peak level of a shot from the cut-out in dB(C), recorded %s from the muzzle, sideways: the loudest of five or more. A meter with a " +
				"C-weighted peak shows it. A phone needs a source of known peak beside it, at the same gain: level = known level + " +
				"20 log10(peak over peak). A flat top in the recording is clipped: louder than it looks, and no reading; go twice as far, " +
				"which takes 6 dB, and add them."},

		{table: "mount", name: "elevation_min", synonyms: []string{"min_elevation", "lowest"}, dimension: unit.Angle, sign: anySign,
			min: -math.Pi / 2, max: math.Pi / 2, past: mostPast, bands: angle,
			missing: "not known", example: `"75 deg ± 2 deg"`, teach: "The lower stop of the mount."},
		{table: "mount", name: "elevation_max", synonyms: []string{"max_elevation", "highest"}, dimension: unit.Angle, sign: anySign,
			min: -math.Pi / 2, max: math.Pi / 2, past: mostPast, bands: angle,
			missing: "not known", example: `"85 deg ± 2 deg"`, teach: "The upper stop of the mount."},
		{table: "mount", name: "moving_at", synonyms: []string{"speed", "vehicle_speed"}, dimension: unit.Speed, sign: orZero, max: 40,
			bands: speed, missing: "event.vehicle_speed, else 0; an error on a ride-on", example: `"0 m/s ± 0"`, teach: "The fastest the " +
				"launcher moves while it may fire; it is added to the projectile's speed. Where event.vehicle_speed is higher, that counts."},
		{table: "mount", name: "ride_on", aliases: []string{"ride-on"}, kind: answer, missing: "no", example: `false`,
			teach: "Whether a child rides on it."},
	}
}

func ruleKeys() []key {
	part := func(name, teach string) key {
		return key{table: "model", name: name, kind: word, words: []string{"none", "on"}, missing: "on", example: `"none"`, teach: teach}
	}
	return []key{
		{table: "venting", name: "target", synonyms: []string{"residual", "down_to", "to"}, dimension: unit.Pressure,
			min: 10, max: 1e6, bands: declared(), missing: "%s, or less where that could still shoot too hard",
			missingOf: []finding.Shown{finding.Bars.Of(5e3, 1)}, example: `"0.05 bar"`,
			teach: "Gauge pressure that counts as empty."},
		{table: "venting", name: "within", synonyms: []string{"time", "in"}, dimension: unit.Time, required: always(), min: 0.1, max: 36000,
			bands: declared(), example: `"60 s"`, teach: "How long emptying may take."},

		{table: "limits", name: "policy", kind: word, words: []string{"conservative", "published"}, missing: "conservative",
			example: `"conservative"`,
			teach:   "conservative: the strictest published figures. published: the figures of the newest edition."},
		{table: "limits", name: "total_energy", synonyms: []string{"energy", "joules", "max_energy", "muzzle_energy"}, dimension: unit.Energy,
			min: 1e-3, max: publishedTotal,
			bands: declared(), missing: "the policy's", example: `"0.4 J"`, teach: "Your own stricter limit of the final energy."},
		{table: "limits", name: "energy_per_area", synonyms: []string{"area", "energy_density"}, dimension: unit.EnergyPerArea, min: 1,
			max:   publishedArea,
			bands: declared(), missing: "the policy's", example: `"1600 J/m2"`, teach: "Your own stricter limit of energy per contact area."},

		part("gas_inertia", "The mass of the gas in the barrel; \"none\" leaves it out."),
		part("air_ahead", "The mass of the air ahead of the projectile."),
		part("wall_heat", "Heat from the walls while venting and filling."),
		part("after_muzzle", "The push behind the muzzle."),

		{table: "objects", name: "name", kind: text, required: always(), example: `"wooden bead"`, teach: "What it is."},
		{table: "objects", name: "diameter", dimension: unit.Length, required: always(), min: 5e-4, max: 0.5,
			bands: bands{measured: rule{least: 2e-4}, other: plusMinus(0.05, 5e-4)}, example: `"15 mm"`,
			teach: "Its smallest diameter, the way it goes in."},
		{table: "objects", name: "length", dimension: unit.Length, min: 5e-4, max: 5, bands: bands{measured: rule{least: 1e-3},
			other: plusMinus(0.05, 1e-3)}, missing: "its diameter", example: `"15 mm"`, teach: "Its length."},
		{table: "objects", name: "mass", synonyms: []string{"weight"}, dimension: unit.Mass, required: always(), min: 1e-5, max: 5,
			bands: bands{measured: plusMinus(0.02, 5e-4), other: plusMinus(0.10, 5e-4)}, example: `"3 g"`, teach: "Its mass."},

		{table: "checklist", name: "who", synonyms: []string{"by", "name"}, kind: text, required: always(), example: `"two initials"`,
			teach: "Who confirmed the item."},
		{table: "checklist", name: "date", synonyms: []string{"when", "on"}, kind: date, required: always(), example: `"2026-05-01"`,
			teach: "When."},
		{table: "checklist", name: "value", synonyms: []string{"reading", "result"}, kind: text, missing: "none", example: `"0.46 bar"`,
			teach: "The reading, where the item has one."},
		{table: "checklist", name: "valid_until", synonyms: []string{"expires"}, kind: date, missing: "12 months after date",
			example: `"2027-05-01"`, teach: "When it has to be confirmed again."},
	}
}
