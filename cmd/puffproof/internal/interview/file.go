package interview

import (
	"math"
	"strconv"
	"strings"

	"puffproof/cmd/puffproof/internal/manual"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/unit"
)

const head = `# Written from your answers. A figure that says "template" was not asked, or you
# did not know it: it is nobody's, and while there is one, nothing holds.
# Replace it by your own, and say how you know it: measured, datasheet, label or
# estimated. "?" says that you do not know: the strict side is taken, and check
# lists it among what is to be found out.
#
# Parts that you were not asked about are not in it: add each valve, hose and
# vessel that your launcher has besides. A line that begins with "#key =" is a
# key you may add: take the # away.
`

// writer makes the parts of a file and remembers which answer stands where.
type writer struct {
	Answers
	units quantity.System
	parts []manual.Part
	asked map[string]string // the question of each dotted key
}

// File makes a design file of answers, in units of a system, and says of which question the value of a dotted key is.
func File(a Answers, units quantity.System) (data []byte, asked map[string]string) {
	w := &writer{Answers: a, units: units, asked: map[string]string{}}
	w.part("", "", "", given("name", "My launcher"), given("revision", "A"), given("description", "Written from the answers of its builder"))
	w.part("ambient", "ambient", "", unknown("pressure"), unknown("temperature"), unknown("hottest"), unknown("coldest"))
	w.part("gas", "gas", "", given("name", "air"))
	w.vessels()
	w.firing()
	w.waysOut()
	w.supply()
	w.barrel()
	w.projectile()
	w.part("venting", "venting", "", figure("target", "0.05 bar"), figure("within", "60 s"))
	w.people()
	w.part("limits", "limits", "", given("policy", "conservative"))
	return manual.Compose(head, w.parts, units), w.asked
}

// given is a word that stands as it is.
func given(key, text string) manual.Value {
	return manual.Value{Key: key, Text: written(text), Own: true}
}

// stated is a TOML value that stands as it is.
func stated(key, toml string) manual.Value { return manual.Value{Key: key, Text: toml, Own: true} }

// unknown is a key that is to be found out.
func unknown(key string) manual.Value { return given(key, NotKnown) }

// figure is one of the template.
func figure(key, text string) manual.Value {
	return manual.Value{Key: key, Text: written(text)}
}

// part adds a table.
func (w *writer) part(row, header, about string, values ...manual.Value) {
	w.parts = append(w.parts, manual.Part{Row: row, Header: header, About: about, Values: values})
}

// answered is the answer of a question as the value of a key of a table, else another value.
func (w *writer) answered(id, table, key string, other manual.Value) manual.Value {
	w.asked[table+"."+key] = id
	if w.has(id) {
		return given(key, w.Answers[id])
	}
	return other
}

// has tells that a question was answered with something.
func (w *writer) has(id string) bool {
	v := w.Answers[id]
	return v != "" && v != NotKnown && v != "no"
}

// size is the nominal value of an answer [SI], or another where it is not known.
func (w *writer) size(id string, d unit.Dimension, other float64) float64 {
	if q, err := unit.Parse(w.Answers[id], d); err == nil && q.Nominal > 0 {
		return q.Nominal
	}
	return other
}

// millimetres writes a length.
func millimetres(m float64) string { return strconv.FormatFloat(1e3*m, 'f', 1, 64) + " mm" }

// chamber is the vessel before the firing valve.
func (w *writer) chamber() string {
	if w.two() {
		return "dose"
	}
	return "tank"
}

// two tells that there is a vessel for the air of one shot.
func (w *writer) two() bool { return w.has("chamber") }

func (w *writer) vessels() {
	vessel := func(name, id, other, about string) {
		table := "volumes." + name
		w.part("volumes.*", table, about, w.answered(id, table, "volume", figure("volume", other)), unknown("rated_pressure"),
			unknown("rated_for_gas"), unknown("material"))
	}
	vessel("tank", "vessel", "2.0 L", "Filled by the supply.")
	if w.two() {
		vessel("dose", "chamber", "1.0 L", "Holds the air of one shot.")
	}
}

// valve are the keys of a valve that current or a hand moves.
func valve(from, to string, byHand bool, states, unpowered string) []manual.Value {
	v := []manual.Value{given("from", from), given("to", to)}
	if byHand {
		return append(v, given("kind", "hand valve"), stated("open_in", states))
	}
	return append(v, given("kind", "valve"), stated("open_in", states), given("unpowered", unpowered), unknown("drive"))
}

// firing writes the valve that fires, and what fills the vessel before it.
func (w *writer) firing() {
	byHand := w.is("valve", "hand")
	if w.two() {
		w.part("paths.*", "paths.feed", "Fills the dose, and is shut during a shot: its hole was not asked.",
			append(valve("tank", "dose", byHand, `["charging"]`, "closed"), figure("orifice", "1.2 mm"), unknown("orifice_removable"))...)
	}
	const table = "paths.fire"
	w.asked[table] = "valve"
	values := valve(w.chamber(), "barrel", byHand, `["firing"]`, "closed")
	flow := figure("seat_bore", "9 mm")
	if w.has("passes") {
		q := questionOf("passes")
		if f, p := q.flow(w.Answers["passes"], w.units); p == nil {
			if byHand && f[0] == "seat_bore" {
				f[0] = "orifice" // of a tap the bore is the hole
			}
			flow = given(f[0], f[1])
			w.asked[table+"."+f[0]] = "passes"
		}
	} else if byHand {
		flow.Key = "orifice"
	}
	values = append(values, flow, unknown("opening_time"))
	if hose, is := w.hose(); is {
		values = append(values, stated("hose", hose))
	}
	w.part("paths.*", table, "Lets the air into the barrel.", values...)
}

// hose is the hose between the firing valve and the barrel. One of which nobody knows whether it is there is the
// template's: without it the file would say that there is none.
func (w *writer) hose() (toml string, is bool) {
	bore, length := "8 mm, template", "1 m, template"
	switch {
	case w.is("hose", "no"):
		return "", false
	case w.has("hose"):
		q := questionOf("hose")
		bore, length, _ = q.hose(w.Answers["hose"], w.units)
		w.asked["paths.fire.hose.bore"], w.asked["paths.fire.hose.length"] = "hose", "hose"
	default:
		bore, length = strings.Trim(w.units.Example(written(bore)), `"`), strings.Trim(w.units.Example(written(length)), `"`)
	}
	return "{ bore = " + written(bore) + ", length = " + written(length) + `, side = "after" }`, true
}

// waysOut writes what empties each vessel, and the relief valve.
func (w *writer) waysOut() {
	vents := []string{"tank"}
	if w.two() {
		vents = append(vents, "dose")
	}
	const about = "Its hole was not asked. "
	for _, v := range vents {
		states := `["off"]`
		if v == w.chamber() {
			states = `["off", "loading"]`
		}
		name := "paths.dump_" + v
		hole, points := figure("orifice", "1.2 mm"), unknown("points")
		switch w.Answers["empties"] {
		case "valve":
			w.part("paths.*", name, about+"Empties the "+v+" when it is switched off or the power fails.",
				append(valve(v, "atmosphere", false, states, "open"), hole, points)...)
		case "hand":
			w.part("paths.*", name, about+"Empties the "+v+" where somebody opens it.",
				append(valve(v, "atmosphere", true, states, ""), hole, points)...)
		case "hole":
			w.part("paths.*", "paths.bleed_"+v, about+"Always open: whatever happens, the "+v+" empties.", given("from", v),
				given("to", "atmosphere"), given("kind", "orifice"), figure("orifice", "0.5 mm"), points)
		}
	}
	if w.has("relief") {
		const table = "paths.relief"
		w.part("paths.*", table, "Opens if the pressure rises too far. Its hole was not asked.", given("from", "tank"), given("to", "atmosphere"),
			given("kind", "relief"), w.answered("relief", table, "set_pressure", manual.Value{}), figure("orifice", "5 mm"),
			unknown("full_flow_pressure"), unknown("points"))
	}
}

// supply writes where the air comes from, what stops it and what shows it.
func (w *writer) supply() {
	kind := "compressor"
	if w.has("air") {
		kind = w.Answers["air"]
	}
	w.asked["supply.kind"] = "air"
	w.part("supply", "supply", "", given("kind", kind), given("feeds", "tank"), w.answered("flow", "supply", "free_air", unknown("free_air")),
		w.answered("most", "supply", "dead_head", unknown("dead_head")))
	if w.has("switch") && !w.pumped() {
		low := 0.6 * w.size("switch", unit.Pressure, 5e4)
		w.part("pressure_switch", "pressure_switch", "", given("senses", "tank"),
			w.answered("switch", "pressure_switch", "cut_out", manual.Value{}),
			figure("cut_in", strconv.FormatFloat(low/1e5, 'g', 3, 64)+" bar"), unknown("differential"), unknown("adjustable"))
	}
	if w.has("gauge") {
		w.part("gauge", "gauge", "", given("on", "tank"), w.answered("gauge", "gauge", "range", manual.Value{}), unknown("class"),
			unknown("graduation"), unknown("stop_pin"))
	}
}

// Widths of a launcher that nobody measured [m].
const (
	usualBore = 0.041
	usualTube = 0.018
	usualWall = 0.002
	usualPlay = 0.0003
)

func (w *writer) barrel() {
	fit, width := "in bore", w.size("bore", unit.Length, usualBore)
	var values []manual.Value
	dead := 40.0 * math.Pow(width/usualBore, 2) // [mL], as of the bore of 41 mm
	if w.overTube() {
		fit, width = "over tube", w.size("tube", unit.Length, usualTube)
		dead = 20 * math.Pow(width/usualTube, 2)
		inside := math.Max(width-2*usualWall, width/2)
		values = []manual.Value{w.answered("tube", "barrel", "tube_outer_diameter", figure("tube_outer_diameter", millimetres(width))),
			figure("tube_inner_diameter", millimetres(inside)), w.answered("over", "barrel", "engagement", figure("engagement", "60 mm"))}
	} else {
		values = []manual.Value{w.answered("bore", "barrel", "bore", figure("bore", millimetres(width))),
			w.answered("travel", "barrel", "travel", figure("travel", "150 mm"))}
	}
	w.asked["barrel.fit"] = "fit"
	values = append(append([]manual.Value{given("fit", fit)}, values...), figure("dead_volume", strconv.FormatFloat(dead, 'g', 3, 64)+" mL"),
		given("seating", "free"), unknown("rated_pressure"), unknown("rated_for_gas"), unknown("material"), unknown("muzzle_admits"),
		unknown("object_control"), unknown("seal_guard"))
	w.part("barrel", "barrel", "", values...)
}

func (w *writer) projectile() {
	values := []manual.Value{w.answered("mass", "projectile", "mass", figure("mass", "4.0 g"))}
	if w.overTube() {
		tail := w.size("tube", unit.Length, usualTube) + usualPlay
		values = append(values, w.answered("tail", "projectile", "inside_diameter", figure("inside_diameter", millimetres(tail))),
			w.answered("outside", "projectile", "diameter", unknown("diameter")))
	} else {
		wide := w.size("bore", unit.Length, usualBore)
		values = append(values, w.answered("wide", "projectile", "diameter", figure("diameter", millimetres(wide))))
	}
	w.part("projectile", "projectile", "", append(values, unknown("contact_diameter"), unknown("tip"), unknown("tip_proof"),
		unknown("open_cell"), unknown("breakaway_force"), unknown("sliding_force"), unknown("drag_coefficient"))...)
}

// people writes who is near, and whether it moves. Where nobody says that it stands, or on no vehicle, it moves.
func (w *writer) people() {
	w.part("event", "event", "", w.answered("youngest", "event", "youngest", unknown("youngest")), unknown("ear_to_muzzle"),
		w.answered("nearest", "event", "nearest_person", unknown("nearest_person")), unknown("muzzle_height"), unknown("elevation"),
		unknown("wind"))
	stops := []manual.Value{unknown("elevation_min"), unknown("elevation_max")}
	if w.is("vehicle", "no") {
		w.part("mount", "mount", "", append(stops, stated("ride_on", "false"))...)
		return
	}
	w.part("mount", "mount", "ride_on is false only where nobody rides on it.", append(stops,
		w.answered("vehicle", "mount", "moving_at", figure("moving_at", "10 km/h")), stated("ride_on", "true"))...)
}

// questionOf is the question of an identifier; one without a form where there is none.
func questionOf(id string) Question {
	for _, q := range Questions() {
		if q.ID == id {
			return q
		}
	}
	return Question{}
}
