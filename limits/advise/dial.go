package advise

import (
	"math"

	"puffproof/limits/catalogue"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// dial is one figure that can be turned, cut or bought otherwise.
type dial struct {
	keys      []string // that have the value, all alike
	unit      finding.Unit
	bare      bool // the figure has no unit
	low, high float64
	step      func(float64) float64 // rounds to what there is
	tolerance func(float64) float64
	why       string
	sort      Sort
	part      string
	loss      float64 // what a change costs beside a goal, per doubling
	dear      float64 // from where on more of it costs more than what it is worth; 0: from nowhere

	of *launcher.Launcher // that is was read of
	is float64
}

// bandOf is the band of a key; nil: the launcher has none.
func bandOf(l *launcher.Launcher, key string) *launcher.Band {
	return bandsOf(l)[key]
}

// bands are those of a launcher that are set, by their keys: to list them anew for each that is turned would cost more than the
// shots of a screening.
type bands map[string]*launcher.Band

func bandsOf(l *launcher.Launcher) bands {
	out := bands{}
	for _, b := range catalogue.Machine(l) {
		if b.Set && out[b.Key] == nil {
			out[b.Key] = b
		}
	}
	return out
}

// at is the value where a dial stands in a launcher that nothing changes any more.
func (d *dial) at(l *launcher.Launcher) float64 {
	if d.of != l {
		d.of, d.is = l, math.NaN()
		if b := bandOf(l, d.keys[0]); b != nil {
			d.is = b.Nominal
		}
	}
	return d.is
}

// same is how near a value counts as the one that is there [-].
const same = 0.02

// round is the step next to a value, or what is there where that is as near.
func (d *dial) round(l *launcher.Launcher, v float64) float64 {
	s := d.step(v)
	if is := d.at(l); math.Abs(math.Log(s/is)) < same {
		return is
	}
	return s
}

// costs is what a value costs beside a goal, where the dial stands at another.
func (d *dial) costs(v, is float64) float64 {
	c := d.loss * math.Abs(math.Log2(v/is))
	if d.dear > 0 && v > d.dear {
		const each = 0.15 // per doubling: as much as a seventh more speed
		c += each * math.Log2(v/d.dear)
	}
	return c
}

// turn puts a value into the bands of a launcher, with the tolerance that the change will state. What is
// there stays as it is.
func (d *dial) turn(b bands, v float64) {
	if b[d.keys[0]] != nil && v == b[d.keys[0]].Nominal {
		return
	}
	for _, k := range d.keys {
		b.put(k, v, d.tolerance(v))
	}
}

// put gives a band a value and a tolerance to both sides.
func (b bands) put(key string, v, tolerance float64) {
	if b := b[key]; b != nil {
		*b = launcher.Band{Set: true, Nominal: v, Low: v - tolerance, High: v + tolerance, Key: key}
	}
}

// changes are those that put the value into a design.
func (d *dial) changes(v float64) (out []Change) {
	to := number(v, d.unit, d.tolerance(v))
	to.Bare = d.bare
	for _, k := range d.keys {
		out = append(out, Change{Key: k, To: to, Why: d.why, Sort: d.sort, Part: d.part})
	}
	return out
}

func share(s float64) func(float64) float64 { return func(v float64) float64 { return s * v } }

func fixed(t float64) func(float64) float64 { return func(float64) float64 { return t } }

// The tolerances that changes state [Pa, m]: to be set, sealed and measured so.
const (
	switchBand = 0.02e5
	reliefBand = 0.03e5
	springBand = 0.1e5
	cut        = 2e-3
)

// pressureDial is what sets the working pressure; nil: nothing that can be turned.
func pressureDial(l *launcher.Launcher) *dial {
	d := &dial{unit: finding.Bars, low: 0.1e5, high: mostPressure, step: stepped(0.02e5), loss: 0.02, dear: lawStarts}
	switch {
	case l.Switch != nil:
		d.keys, d.tolerance, d.why = []string{"pressure_switch.cut_out"}, fixed(switchBand), "the pressure of a shot"
	case l.Supply != nil && l.Supply.Kind == launcher.HandPump && !l.Supply.PumpedTo.Set:
		for i := range l.Paths {
			if p := &l.Paths[i]; p.Kind == pneumatics.Relief && p.From == l.Supply.Feeds && p.SetPressure.Set {
				d.keys = append(d.keys, p.SetPressure.Key)
			}
		}
		d.tolerance, d.step, d.why = fixed(reliefBand), stepped(0.05e5), "the pressure of a shot: a pump is stopped by the relief valve"
		d.low = 0.15e5
	case l.Supply != nil && l.Supply.PumpedTo.Set:
		d.keys, d.tolerance, d.step, d.why = []string{l.Supply.PumpedTo.Key}, fixed(switchBand), stepped(0.05e5), "the mark to which it is pumped"
	case l.Supply == nil && l.Prefilled() >= 0:
		d.keys, d.tolerance, d.step = []string{l.Volumes[l.Prefilled()].FilledTo.Key}, fixed(switchBand), stepped(0.05e5)
		d.why = "the pressure that it is filled to"
	case deadHeadStops(l):
		b := l.Supply.DeadHead
		d.keys, d.step, d.loss = []string{b.Key}, stepped(0.02e5), 0.05
		d.tolerance = share(math.Max(0.05, (b.High-b.Low)/(2*b.Nominal)))
		d.sort, d.part = Bought, "pump of that dead head"
		d.why = "a pump that pushes no further, measured on a closed gauge: the pressure of a shot"
		d.high = weakPump
	}
	if len(d.keys) == 0 {
		return nil
	}
	return d
}

// The pressure [Pa gauge] up to which a way is looked for (own rule of this project), and that from which EU pressure law starts (Directive
// 2014/68/EU, Art. 1(1)). What a guard, a wait and an adult hold back grows with it: what a mouth at the muzzle gets, another object,
// a stuck projectile.
const (
	mostPressure = 1e5
	lawStarts    = 0.5e5
)

// weakPump is the dead head [Pa gauge] up to which a pump may itself be what limits the pressure: that of blowers and of pumps
// for air beds (common practice, no source).
const weakPump = 0.5e5

// deadHeadStops tells that the filling ends where the supply pushes no further, and that this is a pump that cannot push far: no
// switch and no relief valve are needed.
func deadHeadStops(l *launcher.Launcher) bool {
	return l.Switch == nil && l.Supply != nil && l.Stops() == launcher.StopDeadHead && l.Supply.DeadHead.High <= weakPump
}

// pumpDial is another pump, which delivers more: where it comes to rest against a bleed that is never shut, that takes it less far
// below its dead head. nil: nothing holds it there, or its delivery is not one figure.
func pumpDial(l *launcher.Launcher) *dial {
	if rest := l.Resting(); !rest.Ends || !deadHeadStops(l) || len(l.Supply.Curve) > 0 {
		return nil
	}
	const litre, most = 1e-3 / 60, 20 // [m3/s], a minute
	f := l.Supply.FreeAir
	return &dial{keys: []string{f.Key}, unit: finding.LitresPerMinute, low: f.Nominal, high: max(f.Nominal, most*litre), step: stepped(litre),
		tolerance: share(0.1), why: "a pump that delivers more: what is open while it fills takes less of its pressure", sort: Bought,
		part: "pump of that dead head", loss: 0.02}
}

// volumeDial is the volume behind the firing valve, also where the supply feeds it directly: then that vessel is the air of one shot. A
// tank, which is there for many, is left as it is and gets a dose; not on a pump so weak that nothing but itself has to limit it.
func volumeDial(l *launcher.Launcher) *dial {
	p := fires(l)
	if p == nil {
		return nil
	}
	v := volumeNamed(l, p.From)
	if v == nil || wholeTank(l) && electric(l) && v.Volume.Nominal > largeDose && !deadHeadStops(l) {
		return nil
	}
	part := "vessel in the place of " + v.Name
	return &dial{keys: []string{v.Volume.Key}, unit: finding.Litres, low: vessels[0], high: math.Max(2*v.Volume.Nominal, 1e-3),
		step: nearest(vessels), tolerance: share(0.03), why: "the air of one shot", sort: Bought, part: part, loss: 0.02}
}

// travelDial is the way that the air pushes along; it can only be cut.
func travelDial(l *launcher.Launcher) *dial {
	b, why := l.Barrel.Travel, "a shorter way for the air to push along: on a longer one it pushes too hard, or stops before the muzzle"
	if l.Barrel.Fit == pneumatics.OverTube {
		b, why = l.Barrel.Engagement, "a shorter way for the air to push along: by a stop, a ring on the tube or a plug in the hollow, that "+
			"lets the rocket on no further"
	}
	return &dial{keys: []string{b.Key}, unit: finding.Millimetres, low: math.Min(20e-3, b.Nominal), high: b.Nominal, step: stepped(5e-3),
		tolerance: fixed(cut), why: why, loss: 0.02}
}

// massDial is another projectile.
func massDial(l *launcher.Launcher) *dial {
	m := l.Projectile.Mass
	return &dial{keys: []string{m.Key}, unit: finding.Grams, low: 0.5 * m.Nominal, high: 2 * m.Nominal, step: stepped(0.5e-3),
		tolerance: share(0.08), why: "a projectile of another mass", sort: Bought, part: "projectile of that mass", loss: 0.05}
}

// valveDial is another firing valve.
func valveDial(l *launcher.Launcher) *dial {
	p := fires(l)
	if p == nil || !p.Flow.Value.Set {
		return nil
	}
	f := p.Flow.Value
	d := &dial{keys: []string{f.Key}, low: 0.25 * f.Nominal, high: 1.5 * f.Nominal, tolerance: share(0.1),
		why:  "a firing valve of another size",
		sort: Bought, part: "firing valve", loss: 0.05}
	switch p.Flow.Form {
	case launcher.OrificeBore, launcher.SeatBore:
		d.unit, d.step, d.tolerance = finding.Millimetres, stepped(0.5e-3), fixed(0.2e-3)
	case launcher.FlowCv, launcher.FlowKv:
		d.bare, d.step = true, stepped(0.1)
	default:
		return nil
	}
	return d
}
