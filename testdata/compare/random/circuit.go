package random

import (
	"fmt"
	"math"
)

// circuit writes volumes and paths: from the supply's volume stage by stage to the
// barrel, and the ways out.
func (d *draw) circuit() {
	for i, name := range d.stages {
		d.volume(name, d.litres[i])
	}
	for i := 1; i < len(d.stages); i++ {
		d.transfer(d.stages[i-1], d.stages[i])
	}
	d.firing()
	for i, name := range d.stages {
		d.wayOut(name, d.litres[i])
	}
	d.reliefs()
	d.extras()
}

func (d *draw) volume(name string, litre float64) {
	d.table("volumes." + name)
	d.line("volume = %s", d.quantity(litre, 0.08, litres))
	d.ratings(6, 16, "steel", "aluminium", "PVC drain pipe, 110 mm", "polyethylene", "CPVC")
	// A cylinder between one and ten diameters long.
	d.maybe(0.3, "inner_diameter = %s", d.quantity(100*math.Cbrt(litre/d.uniform(0.8, 8)), 0.1, lengths))
}

// ratings writes what vessels and the barrel share; each may be missing.
func (d *draw) ratings(low, high float64, materials ...string) {
	if d.careful {
		d.line("rated_pressure = %s", d.bare(math.Round(d.log(low, high)), bars[:1]))
		d.line("rated_for_gas = true")
		d.line("material = %q", materials[0])
		return
	}
	low /= 4
	if d.chance(0.8) {
		d.line("rated_pressure = %s", d.word(d.bare(d.log(low, high), bars), d.bare(math.Round(d.log(low, high)), bars[:1])))
	}
	if d.chance(0.8) {
		d.line("rated_for_gas = %s", d.word("true", "true", "false", `"unknown"`))
	}
	d.maybe(0.8, "material = %q", d.word(materials...))
	tested := d.chance(0.1)
	if made := d.dates(0.1); tested { // not before it was made
		d.line("proof_test = %q", "15 bar, water, "+max("2024-03-01", made)+", two initials")
	}
}

// dates writes dates far from any day on which this may run, so that the answer does
// not change with the day. It gives that of its making; "" not written.
func (d *draw) dates(p float64) (written string) {
	made := d.word("2019-03-01", "2019-03-01", "2091-01-01")
	if d.chance(p) {
		written = made
		d.line("made_on = %q", made)
	}
	retire := d.word("2020-06-30", "2090-06-30")
	if retire < made {
		retire = "2099-06-30"
	}
	d.maybe(p, "retire_by = %q", retire)
	return written
}

// transfer writes the path from one stage to the next.
func (d *draw) transfer(from, to string) {
	p := path{name: "feed_" + to, from: from, to: to, cv: d.log(0.01, 0.6), hose: 0.2,
		unpowered: []string{"closed", "closed", "open", "stays"}}
	p.kind = d.word("valve", "valve", "valve", "orifice", "check", "hand valve", "regulator", "hose")
	p.open = append([]string{"charging"}, d.some(0.25, "armed")...)
	d.path(p)
}

// firing writes what lets the air into the barrel: one valve, two side by side, or two
// in a row with a volume between.
func (d *draw) firing() {
	p := path{name: "fire", from: d.last(), to: "barrel", kind: "valve", cv: d.log(0.1, 8), open: []string{"firing"}, hose: 0.12,
		unpowered: []string{"closed", "closed", "closed", "open", "stays"}}
	if d.careful {
		p.hose, p.unpowered = 0, []string{"closed"}
	}
	if d.chance(0.08) {
		p.kind = "hand valve"
	}
	switch {
	case d.chance(0.08):
		guard := p
		guard.name, guard.to, guard.hose = "guard", "breech", 0
		d.volume("breech", d.log(0.01, 0.3))
		d.path(guard)
		p.from = "breech"
		d.pulsed(p)
	case d.chance(0.15):
		d.pulsed(p)
		p.name, p.cv = "fire_second", d.log(0.1, 4)
		if d.chance(0.3) {
			p.from = d.stages[0]
		}
		d.path(p)
	default:
		d.pulsed(p)
	}
}

// pulsed writes a firing valve, some with a timer.
func (d *draw) pulsed(p path) {
	d.path(p)
	d.maybe(0.12, "pulse = %s", d.quantity(d.log(20, 500), 0.1, millis))
}

// wayOut writes what empties a volume: a valve that opens without power, a bleed, a
// tap, or nothing.
func (d *draw) wayOut(volume string, litre float64) {
	p := path{name: "dump_" + volume, from: volume, to: "atmosphere", cv: d.log(0.006, 0.5), hose: 0.1,
		open: append([]string{"off"}, d.some(0.4, "loading")...), unpowered: []string{"open", "open", "open", "open", "closed", "stays"}}
	p.kind = d.word("valve", "valve", "valve", "valve", "hand valve")
	if d.careful {
		p.kind, p.unpowered, p.cv = "valve", []string{"open"}, litre*d.log(0.03, 0.4)
	}
	if d.chance(d.stated(0.7)) {
		d.path(p)
	}
	if d.chance(0.25) {
		d.path(path{name: "bleed_" + volume, from: volume, to: "atmosphere", kind: "orifice", cv: d.log(0.002, 0.03), hose: 0.05})
	}
}

// reliefs writes relief valves on the supply's volume, the last one, the barrel, or
// none.
func (d *draw) reliefs() {
	if d.chance(d.stated(0.5)) {
		d.relief("relief", d.stages[0])
	}
	if len(d.stages) > 1 && d.chance(0.15) {
		d.relief("relief_dose", d.last())
	}
	if d.chance(0.05) {
		d.relief("relief_barrel", "barrel")
	}
}

func (d *draw) relief(name, volume string) {
	d.table("paths." + name)
	d.line("from = %q", volume)
	d.line(`to = "atmosphere"`)
	d.line(`kind = "relief"`)
	d.flow("relief", d.log(0.02, 2))
	set := d.working * d.log(1.02, 3)
	if d.chance(0.1) {
		set = d.working * d.uniform(0.6, 1) // too low: it blows while it fills
	}
	d.line("set_pressure = %s", d.quantity(set, 0.1, bars))
	// Above the default tolerance of the set pressure at both ends, as the reader asks:
	// 15 %, at least 0.1 bar.
	d.maybe(0.5, "full_flow_pressure = %s", d.bare(set*d.uniform(1.1, 1.6)+0.01, bars[:1]))
	if d.chance(0.15) {
		d.line("reseat_pressure = %s", d.bare(set*d.uniform(0.93, 0.98), bars[:1]))
	}
	d.points()
}

// points writes where an outlet blows.
func (d *draw) points() {
	if d.careful {
		d.line(`points = "away"`)
		return
	}
	d.maybe(0.7, "points = %q", d.word("away", "away", "barrel", "unknown"))
}

// extras writes paths that few launchers have.
func (d *draw) extras() {
	if d.chance(0.08) {
		d.path(path{name: "bleed_barrel", from: "barrel", to: "atmosphere", kind: "orifice", cv: d.log(0.002, 0.05)})
	}
	if d.chance(0.05) {
		d.path(path{name: "snifter", from: "atmosphere", to: "barrel", kind: "check", cv: d.log(0.05, 0.5)})
	}
	if len(d.stages) > 1 && d.chance(0.1) {
		d.path(path{name: "back", from: d.last(), to: d.stages[0], kind: "check", cv: d.log(0.02, 0.5)})
	}
	if d.kinds.Float64() < 0.06 {
		d.quickExhaust()
	}
	if d.chance(0.06) {
		d.volume("spare", d.log(0.05, 1))
		d.path(path{name: "to_spare", from: d.stages[0], to: "spare", kind: d.word("orifice", "hose", "check"), cv: d.log(0.02, 0.3)})
	}
}

// quickExhaust writes a small volume that the first stage fills, and a quick-exhaust valve
// from it to the last one.
func (d *draw) quickExhaust() {
	d.table("volumes.pilot_line")
	d.line("volume = %q", fmt.Sprintf("%.2g mL", 5+50*d.kinds.Float64()))
	d.table("paths.to_line")
	d.line("from = %q", d.stages[0])
	d.line(`to = "pilot_line"`)
	d.line(`kind = "orifice"`)
	d.line(`orifice = "1 mm"`)
	d.table("paths.quick")
	d.line(`from = "pilot_line"`)
	d.line("to = %q", d.last())
	d.line(`kind = "quick_exhaust"`)
	d.line("orifice = %q", fmt.Sprintf("%.2g mm", 1+5*d.kinds.Float64()))
	if d.kinds.Float64() < 0.3 {
		d.line(`exhaust = { to = "barrel", orifice = "6 mm" }`)
	}
}
