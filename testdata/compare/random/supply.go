package random

import (
	"bytes"
	"fmt"
	"math"
	"strings"
)

// supply writes where the air comes from, or nothing.
func (d *draw) supply() {
	if !d.cylinder && !d.careful && d.chance(0.08) {
		return
	}
	free := d.log(0.5, 60)
	d.table("supply")
	switch {
	case d.cylinder:
		free = d.log(20, 300)
		d.line(`kind = "regulated cylinder"`)
		d.regulated(20, 300)
	default:
		d.driven(d.word("compressor", "compressor", "compressor", "hand pump"))
	}
	d.line("feeds = %q", d.stages[0])
	d.maybe(d.stated(0.9), "free_air = %s", d.quantity(free, 0.2, flows))
	d.maybe(d.stated(0.85), "dead_head = %s", d.quantity(d.deadHead, 0.12, bars))
	if d.chance(0.12) {
		d.line("curve = [[%s, %s], [%s, %s], [%s, %s]]",
			d.bare(0, bars[:1]), d.bare(free, flows[:1]),
			d.bare(0.4*d.deadHead, bars[:1]), d.bare(d.uniform(0.3, 0.9)*free, flows[:1]),
			d.bare(d.deadHead, bars[:1]), d.bare(0, flows[:1]))
	}
	if d.chance(0.3) {
		d.line("runs_in = %s", list(append([]string{"charging"}, d.some(0.4, "armed", "loading", "firing")...)))
	}
}

// regulated writes what stands before a regulator: as much as cylinders or mains have [bar].
func (d *draw) regulated(low, high float64) {
	if d.fills.Float64() < 0.6 {
		d.line(`source_pressure = "%s bar"`, number(low+(high-low)*d.fills.Float64(), 3))
	}
	if d.fills.Float64() < 0.6 {
		d.line(`regulator_bore = "%s mm"`, number(0.6+3*d.fills.Float64(), 2))
	}
}

// driven writes the kind of a pump, sometimes shop air in its place, and what ends its filling where no switch does.
func (d *draw) driven(kind string) {
	chance := func(p float64) bool { return d.fills.Float64() < p }
	switch {
	case kind == "compressor" && chance(0.1):
		kind = "shop air"
	case d.switched: // it stops no arm
		kind = "compressor"
	}
	d.line("kind = %q", kind)
	switch {
	case kind == "shop air":
		d.regulated(5, 16)
	case d.switched:
	case kind == "compressor" && chance(0.4):
		d.line(`fill_time = "%s s"`, number(1+20*d.fills.Float64(), 2))
		if chance(0.6) {
			d.line(`fills_from = "empty"`)
		}
	case kind == "hand pump" && d.careful && chance(0.5): // a careful builder has a gauge there
		d.line(`pumped_to = "%s bar"`, number(0.7*d.working, 3))
	}
	if kind == "hand pump" && chance(0.3) {
		d.line(`peak_flow = "%s L/min"`, number(20+200*d.fills.Float64(), 2))
	}
}

// pressureSwitch writes the switch, on the supply's volume or the last one.
func (d *draw) pressureSwitch() {
	if !d.switched {
		return
	}
	d.table("pressure_switch")
	d.line("senses = %q", d.word(d.stages[0], d.stages[0], d.stages[0], d.last()))
	if d.chance(0.05) && d.working > 0.3 { // the air's own tolerance widens it too
		d.line("cut_out = %q", number(d.working+1.01325, 4)+" bara ± 0.02 bar")
	} else {
		d.line("cut_out = %s", d.quantity(d.working, 0.15, bars))
	}
	d.line("cut_in = %s", d.quantity(d.working*d.uniform(0.3, 0.9), 0.15, bars))
	d.maybe(d.stated(0.4), "differential = %s", d.quantity(d.working*d.uniform(0.03, 0.3), 0.3, gaps))
	d.maybe(0.3, "reaction_time = %s", d.real(d.log(0.02, 1), seconds[:1]))
	d.maybe(0.2, "gauge_error = %s", d.bare(d.working*d.uniform(0.005, 0.05), gaps))
	if d.chance(0.6) {
		d.line("adjustable = %s", d.word("true", "false", "false", `"unknown"`))
	}
	d.maybe(0.3, "adjustable_to = %s", d.quantity(d.working*d.uniform(1.1, 4), 0.05, bars))
}

// gauges writes no gauge, one, or one a volume.
func (d *draw) gauges() {
	on := []string{d.stages[0]}
	header := "\n[gauge]"
	switch {
	case !d.careful && d.chance(0.35):
		return
	case d.chance(0.3):
		on, header = d.stages, "\n[[gauge]]"
	}
	for _, volume := range on {
		d.line("%s", header)
		d.line("on = %q", volume)
		end := math.Pow(10, math.Ceil(5*math.Log10(1.2*d.working))/5) // 1, 1.6, 2.5, 4, 6.3, 10
		if d.chance(0.15) {
			end = 10
		}
		d.line("range = %s", d.bare(end, gaps))
		switch d.r.IntN(4) {
		case 0, 1:
			d.line("class = %s", d.word("1.0", "1.6", "2.5"))
		case 2:
			d.line("error = %s", d.bare(0.02*end, gaps))
		}
		d.maybe(0.4, "graduation = %s", d.bare(end/d.uniform(20, 100), gaps))
		d.maybe(0.6, "stop_pin = %s", d.word("true", "false", "false"))
	}
}

// bench writes raw readings of bench tests, near what the design states.
func (d *draw) bench() {
	if d.chance(0.85) {
		return
	}
	d.table("bench")
	d.line("gauge_error = %s", d.bare(d.uniform(0.002, 0.02), gaps))
	if d.switched {
		d.readings(0.6, "cut_outs", 10, d.working, "bar")
		d.readings(0.4, "cut_ins", 10, 0.6*d.working, "bar")
	}
	d.onlyWith(`kind = "relief"`, func() { d.readings(0.3, "relief_steady", 3, 1.6*d.working, "bar") })
	d.onlyWith("[supply]", func() {
		if d.chance(0.4) {
			d.line("fill_volume = %s", d.quantity(d.litres[0], 0.05, litres))
			d.maybe(0.5, "fill_from = %s", d.word(`"0 bar"`, d.bare(0.1*d.working, bars[:1])))
			d.line("fill_to = %s", d.bare(0.7*d.working, bars[:1]))
			d.readings(1, "fill_times", 3, d.log(2, 60), "s")
		}
	})
}

// onlyWith keeps what write writes where the text before it has the part: readings of one that the design does not
// have are refused. What is drawn is drawn either way.
func (d *draw) onlyWith(part string, write func()) {
	before := d.out.Len()
	write()
	if !bytes.Contains(d.out.Bytes()[:before], []byte(part)) {
		d.out.Truncate(before)
	}
}

// readings writes n readings that scatter by 2 percent.
func (d *draw) readings(p float64, key string, n int, about float64, unit string) {
	if !d.chance(p) {
		return
	}
	var out []string
	for range n {
		out = append(out, fmt.Sprintf("%q", number(about*(1+0.02*d.r.NormFloat64()), 3)+" "+unit))
	}
	d.line("%s = [%s]", key, strings.Join(out, ", "))
}
