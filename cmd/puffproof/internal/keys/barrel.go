package keys

import (
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
)

func barrelKeys() []Key {
	bore, over := []string{"in bore"}, []string{"over tube"}
	width := bands{measured: rule{least: 2e-4}, other: plusMinus(0.01, 5e-4)}
	stroke := bands{measured: plusMinus(0.02, 2e-3), other: plusMinus(0.05, 5e-3)}
	return append([]Key{
		{Table: "barrel", Name: "fit", Synonyms: []string{"type", "kind"}, Kind: Word, Words: []string{"in bore", "over tube"},
			Required: always(), Example: `"in bore"`,
			Teach: "in bore: the projectile sits in the barrel. over tube: a hollow rocket slides over a launch tube."},
		{Table: "barrel", Name: "bore", Synonyms: []string{"diameter", "inner_diameter", "inside_diameter", "caliber", "calibre"},
			Dimension: unit.Length, In: bore, Required: bore,
			Min: 2e-3, Max: 0.3, Bands: width, Example: `"41.0 mm ± 0.2 mm"`,
			Teach: "Inside diameter of the barrel, calipers, three places, two directions."},
		{Table: "barrel", Name: "travel", Synonyms: []string{"length", "barrel_length", "stroke"}, Dimension: unit.Length, In: bore,
			Required: bore, Min: 1e-3, Max: 5,
			Bands: stroke, Example: `"150 mm ± 5 mm"`, Teach: "From the projectile's rear edge, pushed right in, to the muzzle: a marked stick."},
		{Table: "barrel", Name: "tube_outer_diameter", Synonyms: []string{"tube_diameter", "outer_diameter", "outside_diameter"},
			Dimension: unit.Length, In: over, Required: over,
			Min: 2e-3, Max: 0.3, Bands: width, Example: `"18.0 mm ± 0.1 mm"`, Teach: "Outside diameter of the launch tube, calipers."},
		{Table: "barrel", Name: "tube_inner_diameter", Synonyms: []string{"tube_bore", "inner_diameter", "bore_of_tube"},
			Dimension: unit.Length, In: over, Required: over,
			Min: 1e-3, Max: 0.3, Bands: width, Example: `"14.0 mm ± 0.1 mm"`, Teach: "Inside diameter of the launch tube."},
		{Table: "barrel", Name: "engagement", Synonyms: []string{"overlap", "insertion"}, Dimension: unit.Length, In: over, Required: over,
			Min: 1e-3, Max: 5, Bands: stroke, Example: `"60 mm ± 5 mm"`,
			Teach: "How far the rocket goes over the tube when it is pushed right on, " +
				"until the end of its hollow or a stop holds it: a mark alone holds nobody. Measure how much of the tube is in it."},
		{Table: "barrel", Name: "dead_volume", Synonyms: []string{"breech", "breech_volume", "plenum", "clearance_volume"},
			Dimension: unit.Volume, Required: always(), Min: 1e-8, Max: 0.1, Bands: bands{measured: plusMinus(0.05, 1e-6), other: plusMinus(0.30,
				1e-6)}, Example: `"55 mL ± 15 mL"`, Teach: "Everything between the firing valve's seat and the seated projectile, but for a hose " +
				"stated in its path. Turn it upside down with the ball in place, fill with water, weigh: %s is %s. Computed: ± 30 %%. Where " +
				"this barrel cannot leave what is stated, all that it can leave counts too.",
			teachOf: []finding.Shown{finding.Grams.Of(0.1, 3), finding.Millilitres.Of(1e-4, 3)}},
		{Table: "barrel", Name: "seating", Synonyms: []string{"seat", "loading"}, Kind: Word, Words: []string{"free", "fixed"}, Missing: "free",
			Example: `"free"`,
			Teach:   "free: the loader decides how deep it sits, and the worst depth counts. fixed: a stop makes sure; the stop is then inspected."},
		{Table: "barrel", Name: "muzzle_admits", Synonyms: []string{"grid", "muzzle_opening"}, Dimension: unit.Length, Sign: OrZero, Max: 0.3,
			Bands: bands{measured: rule{least: 5e-4}, other: plusMinus(0.05, 1e-3)}, Missing: "the whole bore, or the tube's inside",
			Example: `"10 mm"`,
			Teach:   "The largest object that the muzzle lets in, if a grid or a bar keeps larger ones out. It becomes an item to inspect."},
		{Table: "barrel", Name: "object_control", Synonyms: []string{"object_controls"}, Kind: Controls, Missing: "none declared",
			Example: `["supervised loading by the adult in charge"]`, Teach: "How other objects are kept out: \"supervised loading by the adult " +
				"in charge\", \"loading from the breech with the muzzle covered\", \"grid of 10 mm\". Each becomes an item."},
		{Table: "barrel", Name: "seal_guard", Synonyms: []string{"lip_guard", "muzzle_guard"}, Kind: Text, Missing: "none",
			Example: `"four slots of 8 mm in the muzzle ring"`, exampleUS: `"four slots of 0.3 in in the muzzle ring"`,
			Teach: "What keeps lips and ears from sealing on the muzzle."},
	}, ratingKeys("barrel")...)
}

func projectileKeys() []Key {
	bore, over := []string{"in bore"}, []string{"over tube"}
	foam := bands{measured: plusMinus(0.01, 5e-4), other: plusMinus(0.02, 1e-3)}
	// A luggage scale goes by steps of 50 g, and on a kitchen scale a hand does not hold much less still: what nobody felt may be as much
	// (own rule of this project, no source).
	const unfelt = 0.5 // [N]
	friction := bands{measured: rule{below: 1, above: 1, zero: unfelt}, other: rule{below: 1, above: 2, zero: unfelt}}
	return []Key{
		{Table: "projectile", Name: "mass", Synonyms: []string{"weight"}, Dimension: unit.Mass, Required: always(), Min: 1e-4, Max: 5,
			Bands: bands{measured: plusMinus(0.02, 5e-4), other: plusMinus(0.10, 5e-4)}, Example: `"5.0 g ± 0.5 g"`, Teach: "Kitchen scale, ten " +
				"together. Weigh it dry, then soaked and squeezed: open foam takes up to ten times its mass. The range must span what is used."},
		{Table: "projectile", Name: "diameter", Synonyms: []string{"size", "outer_diameter", "od"},
			Dimension: unit.Length, Required: bore, Min: 1e-3, Max: 0.5, Bands: foam, Example: `"41.0 mm ± 0.5 mm"`,
			Teach: "Outside diameter, measured without squeezing. A ball that is squeezed in the bore is as wide as the bore."},
		{Table: "projectile", Name: "inside_diameter", Synonyms: []string{"inner_diameter", "bore", "id"}, Dimension: unit.Length,
			In: over, Required: over, Min: 2e-3, Max: 0.5, Bands: bands{measured: rule{least: 2e-4}, other: plusMinus(0.02, 5e-4)},
			Example: `"18.3 mm ± 0.1 mm"`, Teach: "Inside diameter of the rocket's hollow tail."},
		{Table: "projectile", Name: "contact_diameter", Synonyms: []string{"tip_diameter", "print", "contact"}, Dimension: unit.Length,
			Min: 1e-4, Max: 0.5, Bands: bands{measured: rule{least: 2e-3}, other: plusMinus(0.20, 2e-3)}, Missing: "energy.area is unknown",
			Example: `"22 mm ± 2 mm"`, Teach: "The print of the tip. Stamp-pad ink on the tip, a shot at the lowest working pressure on paper " +
				"over a board; mean of 5, two directions. It is much smaller than the ball: of one that is nearly as wide a third counts too, " +
				"until the print was taken."},
		{Table: "projectile", Name: "tip", Synonyms: []string{"nose", "hardness"}, Kind: Word, Words: []string{"resilient", "rigid"},
			Missing: "rigid", Example: `"resilient"`, Teach: "resilient only if it is proved (tip_proof). Taped, painted, hard-skinned, frozen " +
				"is rigid. A thumb test is no evidence; try cold and wet ones too."},
		{Table: "projectile", Name: "tip_proof", Synonyms: []string{"press_test"}, Kind: Text, Missing: "the tip counts as unproved",
			Example: `"press test of 2026-04-02, two initials"`, Teach: "Where the record of the tip's press test is."},
		{Table: "projectile", Name: "open_cell", Synonyms: []string{"porous", "soaks"}, Kind: Answer, Missing: "unknown, which counts as yes",
			Example: `false`, Teach: "Whether the foam soaks water: put it in a glass of water, squeeze, weigh."},
		{Table: "projectile", Name: "breakaway_force", Synonyms: []string{"breakaway", "stiction", "tightness", "grip", "static_friction"},
			Dimension: unit.Force, Sign: OrZero, Max: 5000, Bands: friction, Missing: "none is counted, barrel.stalled is unknown",
			Example: `"0.5 N -0.5/+1.0 N"`,
			Teach: "Force that starts it. Stand the barrel on a kitchen scale, push, film the display (%s is %s); or blow with a U-tube: F " +
				"= p A. Cold, dust and a night in the bore change it.",
			teachOf: []finding.Shown{finding.Grams.Of(0.102, 3), finding.Newtons.Of(1, 1)}},
		{Table: "projectile", Name: "restart_force", Synonyms: []string{"restart"}, Dimension: unit.Force, Sign: OrZero, Max: 5000,
			Bands:   friction,
			Missing: "the breakaway force", Example: `"0.3 N ± 0.3 N"`, Teach: "Force that starts it again after it stopped on the way."},
		{Table: "projectile", Name: "sliding_force", Synonyms: []string{"friction", "sliding", "sliding_friction", "drag_force"},
			Dimension: unit.Force, Sign: OrZero, Max: 5000,
			Bands: friction, Missing: "0 to the breakaway force", Example: `"0.2 N ± 0.2 N"`,
			Teach: "Force that keeps it moving: tilt the tube until it slides on, or pull it steadily on a scale."},
		{Table: "projectile", Name: "clearance", Synonyms: []string{"gap", "play", "slop", "fit", "windage"},
			Dimension: unit.Length, Sign: OrZero, Max: 0.02, Bands: bands{measured: rule{below: 1, above: 0.5}, other: rule{below: 1, above: 1}},
			Missing: "from the two diameters", Example: `"0.5 mm ± 0.5 mm"`, Teach: "Difference of the two diameters (diametral: twice the gap " +
				"on one side); one that the diameters contradict counts from the smallest that they leave. Breech corked, barrel upright: " +
				"time how long the ball takes to sink."},
		{Table: "projectile", Name: "cup", Synonyms: []string{"hollow_tail", "open_tail"}, Kind: Answer, OutIsNone: true,
			Missing: "yes over a tube, no in a bore", Example: `true`,
			Teach: "Whether its tail is an open cup that catches the jet."},
		{Table: "projectile", Name: "drag_coefficient", Synonyms: []string{"drag", "cd", "cw"}, Dimension: unit.Dimensionless, Min: 0.01, Max: 3,
			Bands: bands{measured: plusMinus(0.10, 0), other: plusMinus(0.20, 0)}, Missing: "0 to 1.2 assumed", Example: `"0.5 ± 20 %"`,
			Teach: "By shape: ball 0.5, blunt rocket 0.6 to 0.8, flat disc 1.1. It matters for where it lands only. More than 1.5 counts as " +
				"not stated."},
		{Table: "projectile", Name: "lot", Synonyms: []string{"batch", "serial"}, Kind: Text, Missing: "not known", Example: `"bag of 2026-02"`,
			Teach: "Which batch: another one is measured again."},
		{Table: "projectile", Name: "made_on", Kind: Date, Missing: "without a retire_by either, its age is a condition", Example: `"2026-02-01"`,
			Teach: "When the projectiles were bought or made. Foam older than ten years needs a retire_by, and a paper that shows it."},
		{Table: "projectile", Name: "retire_by", Synonyms: []string{"expires"}, Kind: Date, Missing: "not known", Example: `"2027-02-01"`,
			Teach: "Foam hardens: when they are thrown away."},
	}
}
