package random

import (
	"fmt"
	"math"
	"strconv"
)

// barrel writes what guides the projectile.
func (d *draw) barrel() {
	d.table("barrel")
	inside := d.width
	if d.overTube {
		inside = d.width - d.uniform(1.5, 4)
		d.line(`fit = "over tube"`)
		d.line("tube_outer_diameter = %s", d.quantity(d.width, 0.01, lengths))
		d.line("tube_inner_diameter = %s", d.quantity(inside, 0.01, lengths))
		d.line("engagement = %s", d.quantity(d.way, 0.1, lengths))
	} else {
		d.line(`fit = "in bore"`)
		d.line("bore = %s", d.quantity(d.width, 0.01, lengths))
		d.line("travel = %s", d.quantity(d.way, 0.1, lengths))
	}
	// From a valve close to the breech to as much as 200 mm of bore [mL]. The default
	// tolerance of one that is stated without reaches down by a millilitre at least.
	dead := math.Max(math.Pi/4*inside*inside*d.log(5, 200)/1000, 2)
	written := d.quantity(dead, 0.3, []scale{{"mL", 1}, {"cm3", 1}, {"L", 0.001}})
	if d.chance(0.04) {
		// Near zero, which itself is refused. The draws stay those of a figure that may be zero, so that no seed's design changes behind it.
		d.fromZero(dead, []scale{{"mL", 1}})
		written = strconv.Quote(number(dead, 3) + " mL ± 95 %")
	}
	d.line("dead_volume = %s", written)
	d.maybe(0.7, "seating = %q", d.word("free", "fixed"))
	mesh := 10.0
	if !d.overTube { // what leaves a bore passes the mesh
		mesh = math.Ceil(d.width)
	}
	admits := inside * d.uniform(0.1, 0.9)
	if line := "muzzle_admits = " + d.fromZero(admits, lengths[:1]); d.chance(0.2) && d.overTube {
		d.line("%s", line)
		mesh = math.Max(mesh, math.Ceil(3*admits)) // what a grid lets in is no larger than its mesh, at the top of its band too
	}
	if d.chance(0.5) {
		d.line("object_control = %s", list(d.some(0.5, "supervised loading by the adult in charge",
			"loading from the breech with the muzzle covered", fmt.Sprintf("grid of %.0f mm", mesh))))
	}
	d.maybe(d.stated(0.2), "seal_guard = %q", "four slots in the muzzle ring")
	d.ratings(6, 10, "polycarbonate", "aluminium", "PVC drain pipe, 68 mm")
}

// projectile writes what flies.
func (d *draw) projectile() {
	d.table("projectile")
	d.line("mass = %s", d.quantity(d.log(0.5, 120), 0.3, grams))
	outside := d.width
	if d.overTube {
		d.line("inside_diameter = %s", d.quantity(d.width+d.uniform(0.1, 0.8), 0.01, lengths))
		outside = d.width + d.uniform(6, 40)
		d.maybe(0.95, "diameter = %s", d.quantity(outside, 0.02, lengths))
	} else {
		if d.chance(0.5) {
			outside -= d.uniform(0, 0.6)
		}
		d.line("diameter = %s", d.quantity(outside, 0.02, lengths))
	}
	d.maybe(d.stated(0.7), "contact_diameter = %s", d.quantity(outside*d.uniform(0.15, 0.9), 0.2, lengths))
	d.maybe(d.stated(0.6), "tip = %q", d.word("resilient", "resilient", "rigid"))
	d.maybe(d.stated(0.3), "tip_proof = %q", "press test record, two initials")
	if d.chance(d.stated(0.4)) {
		d.line("open_cell = %s", d.word("true", "false", "false", `"unknown"`))
	}
	d.friction()
	d.maybe(0.4, "clearance = %s", d.fromZero(d.log(0.05, 1.5), lengths[:1]))
	d.maybe(0.3, "cup = %t", d.chance(0.5))
	d.maybe(0.7, "drag_coefficient = %s", d.quantity(d.uniform(0.3, 1.2), 0.3, plain))
	d.maybe(0.1, "lot = %q", "bag of 2024-02")
	d.dates(0.1)
}

// friction writes forces up to 30 N: mostly below what the pressure can push, some
// above, some not stated.
func (d *draw) friction() {
	if !d.careful && d.chance(0.12) {
		return
	}
	push := d.working * 1e5 * math.Pi / 4 * d.width * d.width * 1e-6
	force := math.Min(push*d.log(0.01, 0.4), 30)
	if d.chance(0.15) {
		force = d.log(0.1, 30)
	}
	if d.chance(0.05) {
		d.line("breakaway_force = %s", d.none(newtons))
		return
	}
	d.line("breakaway_force = %s", d.reaching(force, newtons))
	d.maybe(0.6, "sliding_force = %s", d.fromZero(force*d.uniform(0.2, 1), newtons))
	d.maybe(0.1, "restart_force = %s", d.reaching(force*d.uniform(0.5, 1.1), newtons))
}
