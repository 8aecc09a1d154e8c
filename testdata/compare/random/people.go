package random

// venting writes how far and how fast it must empty, or nothing.
func (d *draw) venting() {
	if !d.careful && d.chance(0.25) {
		return
	}
	d.table("venting")
	d.maybe(0.7, "target = %s", d.bare(min(d.log(0.01, 0.1), 0.4*d.working), bars)) // a charged launcher is not empty
	d.line("within = %s", d.bare(d.log(3, 300), seconds))
}

// event writes who is near, or nothing.
func (d *draw) event() {
	if !d.careful && d.chance(0.4) {
		return
	}
	d.table("event")
	d.maybe(d.stated(0.7), "youngest = %q", d.word("18 months", "2 years", "4 years", "8 years"))
	d.maybe(0.7, "ear_to_muzzle = %s", d.quantity(d.log(0.1, 5), 0.2, metres))
	d.maybe(0.3, "eye_to_muzzle = %s", d.quantity(d.log(0.1, 3), 0.2, metres))
	d.maybe(0.7, "nearest_person = %s", d.quantity(d.log(0.5, 20), 0.2, metres))
	d.maybe(0.3, "kerb = %s", d.quantity(d.log(1, 20), 0.2, metres))
	d.maybe(0.3, "wheels = %s", d.quantity(d.log(0.3, 5), 0.2, metres))
	d.maybe(0.5, "muzzle_height = %s", d.quantity(d.log(0.3, 3), 0.1, metres))
	elevation := d.uniform(10, 88)
	if text := d.quantity(elevation, 0.02, degrees); d.chance(0.6) {
		d.line("elevation = %s", text)
		d.elevation = elevation
	}
	d.maybe(0.3, "vehicle_speed = %s", d.fromZero(d.log(0.3, 3), speeds))
	d.maybe(0.4, "wind = %s", d.quantity(d.log(1, 10), 0.2, speeds))
}

// mount writes how the barrel is held, or nothing. A ride-on names its speed, as the
// reader asks.
func (d *draw) mount() {
	if d.chance(0.4) {
		return
	}
	d.table("mount")
	if d.chance(0.6) {
		low := d.uniform(-5, 80)
		high := low + d.uniform(2, 9)
		if d.elevation != 0 { // the stops let the barrel point there
			low, high = min(low, d.elevation), max(high, d.elevation)
		}
		d.line("elevation_min = %q", number(low, 3)+" deg ± 2 deg")
		d.line("elevation_max = %q", number(min(high, 87.9), 3)+" deg ± 2 deg")
	}
	rides := d.chance(0.4)
	if rides || d.chance(0.4) {
		d.line("moving_at = %s", d.fromZero(d.log(0.3, 3), speeds))
	}
	if rides || d.chance(0.5) {
		d.line("ride_on = %t", rides)
	}
}

// rules writes limits of its own and parts of the model that are left out.
func (d *draw) rules() {
	if d.chance(0.6) {
		d.table("limits")
		d.maybe(0.9, "policy = %q", d.word("conservative", "conservative", "published"))
		d.maybe(0.15, "total_energy = %s", d.bare(d.log(0.02, 0.08), []scale{{"J", 1}}))
		d.maybe(0.15, "energy_per_area = %s", d.bare(d.log(200, 1600), []scale{{"J/m2", 1}}))
	}
	if d.chance(0.08) {
		d.table("model")
		for _, part := range d.some(0.4, "gas_inertia", "air_ahead", "wall_heat", "after_muzzle") {
			d.line("%s = %q", part, d.word("none", "none", "on"))
		}
	}
}

// objects writes what a child may put into the barrel.
func (d *draw) objects() {
	if d.chance(0.8) {
		return
	}
	for _, name := range d.some(0.6, "wooden bead", "marble & peg", "chalk") {
		d.line("\n[[objects]]")
		d.line("name = %q", name)
		d.line("diameter = %s", d.quantity(d.log(3, 40), 0.05, lengths[:1]))
		d.maybe(0.4, "length = %s", d.quantity(d.log(5, 60), 0.05, lengths[:1]))
		d.line("mass = %s", d.quantity(d.log(0.5, 50), 0.1, grams))
	}
}

// checklist writes answers: in time, run out, still to come, with a figure and without,
// to items that the design may not have.
func (d *draw) checklist() {
	if d.chance(0.5) {
		return
	}
	for _, item := range d.some(0.25, "confirm.shots", "label.ratings", "contact.print", "one-projectile", "seal-guard", "seat-stop",
		"relief.test", "relief.no-shut-off", "switch.test", "restrictor.gauge", "drill.jam", "unasked.two-actions", "unasked.guard",
		"vent.test", "leak-down", "gauge.compare", "loading.wait", "landing.clear", "vent.outlets", "mount.elevation", "object-control.99") {
		d.line("\n[checklist.%q]", item)
		d.line(`who = "two initials"`)
		switch d.r.IntN(4) {
		case 0, 1:
			d.line(`date = "2026-01-05"`)
			d.line(`valid_until = "2090-01-05"`)
		case 2:
			d.line(`date = "2019-01-05"`) // run out, long ago
		case 3:
			d.line(`date = "2089-01-05"`)
		}
		d.maybe(0.6, "value = %s", d.word(`"done"`, `"yes"`,
			d.bare(d.working*d.uniform(0.9, 1.6), bars[:1]), d.bare(d.log(1, 60), seconds[:1]), d.bare(d.log(0.3, 3), lengths[:1])))
	}
}
