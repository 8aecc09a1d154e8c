package design

import (
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
)

func barrelKeys() []key {
	bore, over := []string{"in bore"}, []string{"over tube"}
	width := bands{measured: rule{least: 2e-4}, other: plusMinus(0.01, 5e-4)}
	stroke := bands{measured: plusMinus(0.02, 2e-3), other: plusMinus(0.05, 5e-3)}
	return append([]key{
		{table: "barrel", name: "fit", synonyms: []string{"type", "kind"}, kind: word, words: []string{"in bore", "over tube"},
			required: always(), example: `"in bore"`,
			teach: "in bore: the projectile sits in the barrel. over tube: a hollow rocket slides over a launch tube."},
		{table: "barrel", name: "bore", synonyms: []string{"diameter", "inner_diameter", "inside_diameter", "caliber", "calibre"},
			dimension: unit.Length, in: bore, required: bore,
			min: 2e-3, max: 0.3, bands: width, example: `"41.0 mm ± 0.2 mm"`,
			teach: "Inside diameter of the barrel, calipers, three places, two directions."},
		{table: "barrel", name: "travel", synonyms: []string{"length", "barrel_length", "stroke"}, dimension: unit.Length, in: bore,
			required: bore, min: 1e-3, max: 5,
			bands: stroke, example: `"150 mm ± 5 mm"`, teach: "From the projectile's rear edge, pushed right in, to the muzzle: a marked stick."},
		{table: "barrel", name: "tube_outer_diameter", synonyms: []string{"tube_diameter", "outer_diameter", "outside_diameter"},
			dimension: unit.Length, in: over, required: over,
			min: 2e-3, max: 0.3, bands: width, example: `"18.0 mm ± 0.1 mm"`, teach: "Outside diameter of the launch tube, calipers."},
		{table: "barrel", name: "tube_inner_diameter", synonyms: []string{"tube_bore", "inner_diameter", "bore_of_tube"},
			dimension: unit.Length, in: over, required: over,
			min: 1e-3, max: 0.3, bands: width, example: `"14.0 mm ± 0.1 mm"`, teach: "Inside diameter of the launch tube."},
		{table: "barrel", name: "engagement", synonyms: []string{"overlap", "insertion"}, dimension: unit.Length, in: over, required: over,
			min: 1e-3, max: 5, bands: stroke, example: `"60 mm ± 5 mm"`, teach: "How far the rocket is pushed over the tube: mark the tube."},
		{table: "barrel", name: "dead_volume", synonyms: []string{"breech", "breech_volume", "plenum", "clearance_volume"},
			dimension: unit.Volume, required: always(), min: 1e-8, max: 0.1, bands: bands{measured: plusMinus(0.05, 1e-6), other: plusMinus(0.30,
				1e-6)}, example: `"55 mL ± 15 mL"`, teach: "Everything between the firing valve's seat and the seated projectile, but for a hose " +
				"stated in its path. Turn it upside down with the ball in place, fill with water, weigh: %s is %s. Computed: ± 30 %%.",
			teachOf: []finding.Shown{finding.Grams.Of(0.1, 3), finding.Millilitres.Of(1e-4, 3)}},
		{table: "barrel", name: "seating", synonyms: []string{"seat", "loading"}, kind: word, words: []string{"free", "fixed"}, missing: "free",
			example: `"free"`,
			teach:   "free: the loader decides how deep it sits, and the worst depth counts. fixed: a stop makes sure; the stop is then inspected."},
		{table: "barrel", name: "muzzle_admits", synonyms: []string{"grid", "muzzle_opening"}, dimension: unit.Length, sign: orZero, max: 0.3,
			bands: bands{measured: rule{least: 5e-4}, other: plusMinus(0.05, 1e-3)}, missing: "the whole bore, or the tube's inside",
			example: `"10 mm"`,
			teach:   "The largest object that the muzzle lets in, if a grid or a bar keeps larger ones out. It becomes an item to inspect."},
		{table: "barrel", name: "object_control", synonyms: []string{"object_controls"}, kind: controls, missing: "none declared",
			example: `["supervised loading by the adult in charge"]`, teach: "How other objects are kept out: \"supervised loading by the adult " +
				"in charge\", \"loading from the breech with the muzzle covered\", \"grid of 10 mm\". Each becomes an item."},
		{table: "barrel", name: "seal_guard", synonyms: []string{"lip_guard", "muzzle_guard"}, kind: text, missing: "none",
			example: `"four slots of 8 mm in the muzzle ring"`, exampleUS: `"four slots of 0.3 in in the muzzle ring"`,
			teach: "What keeps lips and ears from sealing on the muzzle."},
	}, ratingKeys("barrel")...)
}

func projectileKeys() []key {
	bore, over := []string{"in bore"}, []string{"over tube"}
	foam := bands{measured: plusMinus(0.01, 5e-4), other: plusMinus(0.02, 1e-3)}
	friction := bands{measured: rule{below: 1, above: 1}, other: rule{below: 1, above: 2}}
	return []key{
		{table: "projectile", name: "mass", synonyms: []string{"weight"}, dimension: unit.Mass, required: always(), min: 1e-4, max: 5,
			bands: bands{measured: plusMinus(0.02, 5e-4), other: plusMinus(0.10, 5e-4)}, example: `"5.0 g ± 0.5 g"`, teach: "Kitchen scale, ten " +
				"together. Weigh it dry, then soaked and squeezed: open foam takes up to ten times its mass. The range must span what is used."},
		{table: "projectile", name: "diameter", synonyms: []string{"size", "outer_diameter", "od"},
			dimension: unit.Length, required: bore, min: 1e-3, max: 0.5, bands: foam, example: `"41.0 mm ± 0.5 mm"`,
			teach: "Outside diameter, measured without squeezing. A ball that is squeezed in the bore is as wide as the bore."},
		{table: "projectile", name: "inside_diameter", synonyms: []string{"inner_diameter", "bore", "id"}, dimension: unit.Length,
			in: over, required: over, min: 2e-3, max: 0.5, bands: bands{measured: rule{least: 2e-4}, other: plusMinus(0.02, 5e-4)},
			example: `"18.3 mm ± 0.1 mm"`, teach: "Inside diameter of the rocket's hollow tail."},
		{table: "projectile", name: "contact_diameter", synonyms: []string{"tip_diameter", "print", "contact"}, dimension: unit.Length,
			min: 1e-4, max: 0.5, bands: bands{measured: rule{least: 2e-3}, other: plusMinus(0.20, 2e-3)}, missing: "energy.area is unknown",
			example: `"22 mm ± 2 mm"`, teach: "The print of the tip. Stamp-pad ink on the tip, a shot at the lowest working pressure on paper " +
				"over a board; mean of 5, two directions. It is much smaller than the ball."},
		{table: "projectile", name: "tip", synonyms: []string{"nose", "hardness"}, kind: word, words: []string{"resilient", "rigid"},
			missing: "rigid", example: `"resilient"`, teach: "resilient only if it is proved (tip_proof). Taped, painted, hard-skinned, frozen " +
				"is rigid. A thumb test is no evidence; try cold and wet ones too."},
		{table: "projectile", name: "tip_proof", synonyms: []string{"press_test"}, kind: text, missing: "the tip counts as unproved",
			example: `"press test of 2026-04-02, two initials"`, teach: "Where the record of the tip's press test is."},
		{table: "projectile", name: "open_cell", synonyms: []string{"porous", "soaks"}, kind: answer, missing: "unknown, which counts as yes",
			example: `false`, teach: "Whether the foam soaks water: put it in a glass of water, squeeze, weigh."},
		{table: "projectile", name: "breakaway_force", synonyms: []string{"breakaway", "stiction", "tightness", "grip", "static_friction"},
			dimension: unit.Force, sign: orZero, max: 5000, bands: friction, missing: "energies are unknown", example: `"0.5 N -0.5/+1.0 N"`,
			teach: "Force that starts it. Stand the barrel on a kitchen scale, push, film the display (%s is %s); or blow with a U-tube: F " +
				"= p A. Cold, dust and a night in the bore change it.",
			teachOf: []finding.Shown{finding.Grams.Of(0.102, 3), finding.Newtons.Of(1, 1)}},
		{table: "projectile", name: "restart_force", synonyms: []string{"restart"}, dimension: unit.Force, sign: orZero, max: 5000,
			bands:   friction,
			missing: "the breakaway force", example: `"0.3 N ± 0.3 N"`, teach: "Force that starts it again after it stopped on the way."},
		{table: "projectile", name: "sliding_force", synonyms: []string{"friction", "sliding", "sliding_friction", "drag_force"},
			dimension: unit.Force, sign: orZero, max: 5000,
			bands: friction, missing: "0 to the breakaway force", example: `"0.2 N ± 0.2 N"`,
			teach: "Force that keeps it moving: tilt the tube until it slides on, or pull it steadily on a scale."},
		{table: "projectile", name: "clearance", synonyms: []string{"gap", "play", "slop", "fit", "windage"},
			dimension: unit.Length, sign: orZero, max: 0.02, bands: bands{measured: rule{below: 1, above: 0.5}, other: rule{below: 1, above: 1}},
			missing: "from the two diameters", example: `"0.5 mm ± 0.5 mm"`, teach: "Difference of the two diameters (diametral: twice the gap " +
				"on one side). Breech corked, barrel upright: time how long the ball takes to sink."},
		{table: "projectile", name: "cup", synonyms: []string{"hollow_tail", "open_tail"}, kind: answer,
			missing: "yes over a tube, no in a bore", example: `true`,
			teach: "Whether its tail is an open cup that catches the jet."},
		{table: "projectile", name: "drag_coefficient", synonyms: []string{"drag", "cd", "cw"}, dimension: unit.Dimensionless, min: 0.01, max: 3,
			bands: bands{measured: plusMinus(0.10, 0), other: plusMinus(0.20, 0)}, missing: "0 to 1.2 assumed", example: `"0.5 ± 20 %"`,
			teach: "By shape: ball 0.5, blunt rocket 0.6 to 0.8, flat disc 1.1. It matters for where it lands only."},
		{table: "projectile", name: "lot", synonyms: []string{"batch", "serial"}, kind: text, missing: "not known", example: `"bag of 2026-02"`,
			teach: "Which batch: another one is measured again."},
		{table: "projectile", name: "made_on", kind: date, missing: "not known", example: `"2026-02-01"`,
			teach: "When the projectiles were bought or made."},
		{table: "projectile", name: "retire_by", synonyms: []string{"expires"}, kind: date, missing: "not known", example: `"2027-02-01"`,
			teach: "Foam hardens: when they are thrown away."},
	}
}
