package keys

import (
	"math"

	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
	"puffproof/limits/worst"
)

// The limits that a design's own may not exceed: total energy [J], EN 71-1
// before 2018, 4.17.3 (read in a secondary text), and energy per contact area
// [J/m2], ASTM F963-23, 4.21.2.3 (read in a secondary text).
const (
	publishedTotal = 0.5
	publishedArea  = 2500
)

// MostPast is how far past upright the tolerance of an elevation may reach [rad]: a barrel
// may lean back a little, and no further (own rule of this project).
const MostPast = 10 * math.Pi / 180

func eventKeys() []Key {
	away := bands{measured: plusMinus(0.05, 0.02), other: plusMinus(0.10, 0.05)}
	angle := bands{measured: rule{least: math.Pi / 180}, other: rule{least: 5 * math.Pi / 180}}
	const lightAir = 1.5 // [m/s], the end of Beaufort 1, in which no vane moves (WMO, code table 1100): nobody tells it from calm
	speed := bands{measured: plusMinus(0.10, 0), other: plusMinus(0.20, 0)}
	return []Key{
		{Table: "event", Name: "youngest", Synonyms: []string{"age", "ages", "youngest_child", "min_age"}, Dimension: unit.Age, Sign: OrZero,
			Max: 120 * 365.25 * 86400, Bands: declared(), Missing: "not known: choking is judged for under-threes", Example: `"4 years"`,
			Teach: "Age of the youngest child who may come near."},
		{Table: "event", Name: "ear_to_muzzle", Synonyms: []string{"ear"}, Dimension: unit.Length, Min: 0.01, Max: 100, Bands: away,
			Missing: "not known: sound.peak is unknown", Example: `"0.6 m"`,
			Teach: "From the nearest ear, usually the rider's, to the muzzle: where sound.peak is judged, with the nearest person."},
		{Table: "event", Name: "eye_to_muzzle", Synonyms: []string{"eye"}, Dimension: unit.Length, Sign: OrZero, Max: 100, Bands: away,
			Missing: "not known", Example: `"0.8 m"`, Teach: "From the nearest eye that a guard keeps away."},
		{Table: "event", Name: "nearest_person", Synonyms: []string{"distance", "spectators", "audience"}, Dimension: unit.Length, Sign: OrZero,
			Max: 1000, Bands: away,
			Missing: "not known: people.landing is unknown", Example: `"3 m"`,
			Teach: "Distance from the muzzle to the nearest person who is no crew, held against the clear zone. No energy passes by it."},
		{Table: "event", Name: "kerb", Synonyms: []string{"curb", "kerb_distance"}, Dimension: unit.Length, Sign: OrZero, Max: 1000,
			Bands: away, Missing: "not known", Example: `"4 m"`,
			Teach: "Distance from the muzzle to where spectators stand."},
		{Table: "event", Name: "wheels", Synonyms: []string{"wheel_distance", "wheel"}, Dimension: unit.Length, Sign: OrZero, Max: 100,
			Bands: away, Missing: "not known: on a vehicle people.wheels is unknown", Example: `"2 m"`,
			Teach: "From the muzzle to the vehicle's nearest wheel: children run after balls."},
		{Table: "event", Name: "muzzle_height", Synonyms: []string{"height"}, Dimension: unit.Length, Sign: OrZero, Max: 50, Bands: away,
			Missing: "up to %s is assumed", missingOf: []finding.Shown{finding.Metres.Of(worst.UnstatedHeight, 1)}, Example: `"1.5 m"`,
			Teach: "Muzzle above the ground: the higher, the further it comes down, and the harder."},
		{Table: "event", Name: "elevation", Synonyms: []string{"angle"}, Dimension: unit.Angle, Sign: AnySign, Min: -math.Pi / 2,
			Max: math.Pi / 2, Past: MostPast, Bands: angle,
			Missing: "not known", Example: `"80 deg"`, Teach: "Barrel above the horizon; 90 deg is straight up."},
		{Table: "event", Name: "vehicle_speed", Synonyms: []string{"speed"}, OutIsNone: true,
			Dimension: unit.Speed, Sign: OrZero, Max: 40, Bands: speed, Missing: "mount.moving_at counts", Example: `"0 km/h ± 0"`,
			Teach: "How fast the vehicle drives in the event."},
		{Table: "event", Name: "wind", Synonyms: []string{"wind_speed"}, Dimension: unit.Speed, Sign: OrZero, Max: 40,
			Bands:     bands{measured: rule{above: 0.5, zero: lightAir}, other: rule{above: 0.5, zero: lightAir}},
			Missing:   "%s to %s assumed",
			missingOf: []finding.Shown{finding.MetresPerSecond.Of(0, 1).Beside(), finding.MetresPerSecond.Of(8, 1)}, Example: `"5 m/s"`,
			Teach: "The strongest wind it is used in; gusts are faster than what a forecast names."},

		{Table: "event", Name: "peak_level", Synonyms: []string{"loudness", "peak_sound", "recorded_level", "sound_level"},
			Dimension: unit.SoundLevel, PeakSound: true, Min: 40, Max: 170, Bands: bands{measured: rule{least: 4}, other: rule{least: 8}},
			Missing: "sound.peak has the model's wide interval", Example: `"104 dB ± 4 dB, measured"`,
			teachOf: []finding.Shown{finding.Metres.Of(0.5, 1)},
			Teach: "Peak level of a shot from the cut-out in dB(C), recorded %s from the muzzle, sideways: the loudest of five or more. A " +
				"meter with a C-weighted peak shows it; an A-weighted one, dB(A), leaves low tones out and is refused. A phone " +
				"needs a source of known peak beside it, at the same gain: level = known " +
				"level + 20 log10(peak over peak). A flat top in the recording is clipped: louder than it looks, and no reading; go twice " +
				"as far, which takes 6 dB, and add them."},

		{Table: "mount", Name: "elevation_min", Synonyms: []string{"min_elevation", "lowest"}, Dimension: unit.Angle, Sign: AnySign,
			Min: -math.Pi / 2, Max: math.Pi / 2, Past: MostPast, Bands: angle,
			Missing: "not known", Example: `"75 deg ± 2 deg"`, Teach: "The lower stop of the mount."},
		{Table: "mount", Name: "elevation_max", Synonyms: []string{"max_elevation", "highest"}, Dimension: unit.Angle, Sign: AnySign,
			Min: -math.Pi / 2, Max: math.Pi / 2, Past: MostPast, Bands: angle,
			Missing: "not known", Example: `"85 deg ± 2 deg"`, Teach: "The upper stop of the mount."},
		{Table: "mount", Name: "moving_at", OutIsNone: true, Synonyms: []string{"speed", "vehicle_speed"},
			Dimension: unit.Speed, Sign: OrZero, Max: 40, Bands: speed, Missing: "event.vehicle_speed, else 0; an error on a ride-on",
			Example: `"0 m/s ± 0"`, Teach: "The fastest the launcher moves while it may fire; it is added to the projectile's speed. " +
				"Where event.vehicle_speed is higher, that counts."},
		{Table: "mount", Name: "ride_on", Aliases: []string{"ride-on"}, Kind: Answer, OutIsNone: true, Missing: "no", Example: `false`,
			Teach: "Whether a child rides on it."},
	}
}

func ruleKeys() []Key {
	part := func(name, teach string) Key {
		return Key{Table: "model", Name: name, Kind: Word, Words: []string{"none", "on"}, Missing: "on", Example: `"none"`, Teach: teach}
	}
	return []Key{
		{Table: "venting", Name: "target", Synonyms: []string{"residual", "down_to", "to"}, Dimension: unit.Pressure,
			Min: 10, Max: 1e6, Bands: declared(), Missing: "%s, or less where that could still shoot too hard",
			missingOf: []finding.Shown{finding.Bars.Of(5e3, 1)}, Example: `"0.05 bar"`,
			Teach: "Gauge pressure that counts as empty."},
		{Table: "venting", Name: "within", Synonyms: []string{"time", "in"}, Dimension: unit.Time, Required: always(), Min: 0.1, Max: 600,
			Bands: declared(), Example: `"60 s"`, Teach: "How long emptying may take, and nobody goes near."},

		{Table: "limits", Name: "policy", Kind: Word, Words: []string{"conservative", "published"}, Missing: "conservative",
			Example: `"conservative"`,
			Teach:   "conservative: the strictest published figures. published: the figures of the newest edition."},
		{Table: "limits", Name: "total_energy", Synonyms: []string{"energy", "joules", "max_energy", "muzzle_energy"}, Dimension: unit.Energy,
			Min: 1e-3, Max: publishedTotal,
			Bands: declared(), Missing: "the policy's", Example: `"0.07 J"`, Teach: "Your own stricter limit of the final energy."},
		{Table: "limits", Name: "energy_per_area", Synonyms: []string{"area", "energy_density"}, Dimension: unit.EnergyPerArea, Min: 1,
			Max:   publishedArea,
			Bands: declared(), Missing: "the policy's", Example: `"1600 J/m2"`, Teach: "Your own stricter limit of energy per contact area."},

		part("gas_inertia", "The mass of the gas in the barrel; \"none\" leaves it out."),
		part("air_ahead", "The mass of the air ahead of the projectile."),
		part("wall_heat", "Heat from the walls while venting and filling."),
		part("after_muzzle", "The push behind the muzzle."),

		{Table: "objects", Name: "name", Kind: Text, Required: always(), Example: `"wooden bead"`, Teach: "What it is."},
		{Table: "objects", Name: "diameter", Dimension: unit.Length, Required: always(), Min: 5e-4, Max: 0.5,
			Bands: bands{measured: rule{least: 2e-4}, other: plusMinus(0.05, 5e-4)}, Example: `"15 mm"`,
			Teach: "Its smallest diameter, the way it goes in."},
		{Table: "objects", Name: "length", Dimension: unit.Length, Min: 5e-4, Max: 5, Bands: bands{measured: rule{least: 1e-3},
			other: plusMinus(0.05, 1e-3)}, Missing: "its diameter", Example: `"15 mm"`, Teach: "Its length."},
		{Table: "objects", Name: "mass", Synonyms: []string{"weight"}, Dimension: unit.Mass, Required: always(), Min: 1e-5, Max: 5,
			Bands: bands{measured: plusMinus(0.02, 5e-4), other: plusMinus(0.10, 5e-4)}, Example: `"3 g"`, Teach: "Its mass."},

		{Table: "checklist", Name: "who", Synonyms: []string{"by", "name"}, Kind: Text, Required: always(), Example: `"two initials"`,
			Teach: "Who confirmed the item."},
		{Table: "checklist", Name: "date", Synonyms: []string{"when", "on"}, Kind: Date, Required: always(), Example: `"2026-05-01"`,
			Teach: "When."},
		{Table: "checklist", Name: "value", Synonyms: []string{"reading", "result"}, Kind: Text, Missing: "none", Example: `"0.46 bar"`,
			Teach: "The reading, where the item has one."},
		{Table: "checklist", Name: "valid_until", Synonyms: []string{"expires"}, Kind: Date, Missing: "12 months after date",
			Example: `"2027-05-01"`, Teach: "When it has to be confirmed again."},
		{Table: "checklist", Name: "build", Kind: Text, Missing: "nothing: the answer counts whatever is changed", Example: `"0d8f1c27a96b4e35"`,
			ByProgram: true,
			Teach: "Written with an answer by items --done and commission: the fingerprint of the keys that the answer rests on. Where one " +
				"of them is changed later, the item is open again."},
		{Table: "checklist", Name: "record", Kind: Text, Missing: "nothing: the answer is said, not recorded, unless the record beside the " +
			"design has it", Example: `"5be0c41f7d29a386"`, ByProgram: true,
			Teach: "Written with an answer by items --done and commission: which reading of the record beside the design it came from. Where " +
				"the record lacks that reading, or says something else, the item is open again."},
	}
}
