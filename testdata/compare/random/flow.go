package random

import (
	"fmt"
	"math"
)

// What one of Cv is in the other ways to state a flow, near enough for a drawn
// figure: Kv [m3/h], C [L/(s bar)], free air from 6 to 5 bar [L/min], and the hole
// that passes as much [mm].
const (
	kvOfCv      = 0.865
	cOfCv       = 4
	nominalOf   = 984
	holeOfCv    = 5.5
	seatOfCv    = 6.7
	narrowest   = 0.2 // of a drilled hole [mm]
	narrowSeat  = 0.8 // of a valve's seat [mm]
	widestHose  = 30
	widestOfAll = 60
)

// flow writes the flow of a path as large as cv [US flow coefficient], in one of the
// forms that its kind allows.
func (d *draw) flow(kind string, cv float64) {
	forms := []string{"Cv", "Kv", "sonic_conductance", "nominal_flow", "orifice"}
	switch kind {
	case "valve", "hand valve", "check", "regulator":
		forms = append(forms, "seat_bore")
	case "orifice", "relief":
		forms = []string{"orifice", "orifice", "orifice", "Cv", "sonic_conductance"}
	}
	form := d.word(forms...)
	hole := func(of, least float64) float64 { return math.Min(math.Max(of*math.Sqrt(cv), least), widestOfAll) }
	switch form {
	case "Cv":
		d.line("Cv = %s", d.quantity(cv, 0.3, plain))
	case "Kv":
		d.line("Kv = %s", d.quantity(kvOfCv*cv, 0.3, plain))
	case "sonic_conductance":
		d.line("sonic_conductance = %s", d.quantity(cOfCv*cv, 0.3, []scale{{"L/(s bar)", 1}}))
	case "nominal_flow":
		d.line("nominal_flow = %s", d.quantity(nominalOf*cv, 0.3, flows))
	case "orifice":
		d.line("orifice = %s", d.quantity(hole(holeOfCv, narrowest), 0.1, lengths[:1]))
	case "seat_bore":
		d.line("seat_bore = %s", d.quantity(hole(seatOfCv, narrowSeat), 0.1, lengths[:1]))
	}
	if form == "orifice" || form == "seat_bore" {
		d.maybe(0.3, "discharge_coefficient = %s", d.quantity(d.uniform(0.5, 0.85), 0.1, plain))
		return
	}
	d.maybe(0.3, "critical_ratio = %s", d.quantity(d.uniform(0.2, 0.5), 0.15, plain))
	if form == "Cv" || form == "Kv" {
		d.maybe(0.3, "pressure_drop_ratio = %s", d.quantity(d.uniform(0.4, 0.85), 0.15, plain))
	}
}

// hose writes a hose wide enough for a flow as large as cv.
func (d *draw) hose(cv float64) {
	bore := math.Min(math.Max(holeOfCv*math.Sqrt(cv)*d.log(0.9, 2.5), 2), widestHose)
	side := ""
	if d.chance(0.7) {
		side = fmt.Sprintf(", side = %q", d.word("before", "after"))
	}
	if d.fills.Float64() < 0.3 {
		side += fmt.Sprintf(`, rated_pressure = "%s bar"`, number(1+14*d.fills.Float64(), 2))
	}
	d.line("hose = { bore = %s, length = %s%s }", d.quantity(bore, 0.05, lengths[:1]), d.quantity(d.log(0.1, 3), 0.1, metres[:2]), side)
}

// path is one path before it is written.
type path struct {
	name, from, to, kind string
	cv                   float64
	open                 []string
	unpowered            []string // words to draw from
	hose                 float64  // how likely a hose is
}

// path writes a path.
func (d *draw) path(p path) {
	d.table("paths." + p.name)
	d.line("from = %q", p.from)
	d.line("to = %q", p.to)
	kind := d.bodied(p)
	d.line("kind = %q", kind)
	if p.kind == "hose" {
		d.hose(p.cv)
	} else {
		d.flow(p.kind, p.cv)
		if d.chance(p.hose) {
			d.hose(p.cv)
		}
	}
	switch p.kind {
	case "valve":
		d.line("open_in = %s", list(p.open))
		d.line("unpowered = %q", d.word(p.unpowered...))
		d.drive(kind)
	case "hand valve":
		d.line("open_in = %s", list(p.open))
		d.maybe(0.4, "opening_time = %s", d.fromZero(d.log(30, 300), millis))
	case "check":
		d.maybe(0.6, "cracking_pressure = %s", d.fromZero(d.log(0.005, 0.2), gaps))
	case "regulator":
		d.line("set_pressure = %s", d.quantity(d.working*d.uniform(0.3, 0.9), 0.15, bars))
		d.maybe(0.4, "droop = %s", d.quantity(d.working*d.uniform(0.02, 0.1), 0.3, gaps))
		d.maybe(0.4, "creep = %s", d.real(d.working*d.uniform(0.01, 0.1), gaps))
		d.maybe(0.3, "relieving = %t", d.chance(0.5))
	}
	if p.to == "atmosphere" {
		d.points()
	}
}

// bodied is the kind of a path: some valves have a diaphragm or a third port.
func (d *draw) bodied(p path) string {
	if p.kind != "valve" {
		return p.kind
	}
	switch u := d.kinds.Float64(); {
	case u < 0.10:
		return "diaphragm"
	case u < 0.22 && p.to != "atmosphere":
		if d.kinds.Float64() < 0.5 {
			d.line("exhaust = { orifice = %q, points = %q }", fmt.Sprintf("%.2g mm", 0.8+4*d.kinds.Float64()), "away")
		}
		return "three_way"
	}
	return p.kind
}

// drive writes how a valve of a kind is moved.
func (d *draw) drive(kind string) {
	piloted := !d.careful && d.chance(0.3) || d.chance(0.08)
	switch {
	case piloted:
		d.line(`drive = "piloted"`)
		d.maybe(0.7, "min_differential = %s", d.fromZero(d.log(0.02, 0.6), gaps))
	default:
		if d.chance(0.7) && kind != "diaphragm" {
			d.line(`drive = "direct"`)
		}
		d.maybe(0.1, "min_differential = %s", d.fromZero(d.log(0.01, 0.1), gaps))
	}
	d.maybe(0.7, "opening_time = %s", d.fromZero(d.log(2, 200), millis))
	d.maybe(0.2, "closing_time = %s", d.fromZero(d.log(2, 200), millis))
}
