package design

import (
	"fmt"
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/toml"
	"puffproof/limits/doubt"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// mostWorking is the highest working pressure that the gas model covers [Pa
// gauge].
const mostWorking = 1e6

// crossChecks finds what is wrong between keys that are right by themselves.
func (r *reader) crossChecks(l *launcher.Launcher) {
	r.checkNames(l)
	r.checkConnections(l)
	r.checkSupplyAndSwitch(l)
	r.checkPrefilled(l)
	r.checkRelief(l)
	r.checkFit(l)
	r.checkMount(l)
	r.checkControl(l)
	r.contradictions(l)
	r.waysBounded(l)
}

func (r *reader) checkNames(l *launcher.Launcher) {
	alike := func(family string, names []string) {
		for i, name := range names {
			for _, other := range names[:i] {
				if strings.EqualFold(name, other) {
					r.at(family+name, "differs from "+other+" in capitals only", name, "names that cannot be mixed up")
				}
			}
		}
	}
	alike("volumes.", volumeNames(l))
	var paths []string
	for i := range l.Paths {
		paths = append(paths, l.Paths[i].Name)
	}
	alike("paths.", paths)
}

// volumeNames lists the names that exist, with the further ones given.
func volumeNames(l *launcher.Launcher, further ...string) []string {
	var names []string
	for _, v := range l.Volumes {
		names = append(names, v.Name)
	}
	return append(names, further...)
}

// exists tells whether a name is one of those there are, and reports one that is not.
func (r *reader) exists(key, name string, names []string) bool {
	if name == "" || slices.Contains(names, name) {
		return name != ""
	}
	want := keys.Quoted(names)
	if len(names) == 0 {
		want = "a volume of this file: [volumes.NAME]"
	}
	r.at(key, "names an unknown volume", name, want, nodeHint(name, names))
	return false
}

// nodeHint explains builders' names of volumes.
func nodeHint(found string, names []string) string {
	return keys.MeantWord(found, names, map[string]string{"bottle": "tank", "reservoir": "tank", "accumulator": "tank", "receiver": "tank",
		"air_can": "tank", "can": "tank", "pop_chamber": "dose", "burst_tank": "dose", "plenum": "dose", "chamber": "dose", "air": "atmosphere",
		"outside": "atmosphere", "ambient": "atmosphere", "room": "atmosphere", "vent": "atmosphere", "exhaust": "atmosphere",
		"muzzle": "barrel", "bore": "barrel", "tube": "barrel", "launch_tube": "barrel", "breech": "barrel"})
}

func (r *reader) checkConnections(l *launcher.Launcher) {
	names := volumeNames(l, "barrel", "atmosphere")
	joined := map[string]bool{}
	fed := false
	for i := range l.Paths {
		p := &l.Paths[i]
		key := "paths." + p.Name
		if p.Way.Exhausts() {
			r.checkExhaust(l, i, names)
		}
		from, to := p.Way.Exhausts() || r.exists(key+".from", p.From, names), r.exists(key+".to", p.To, names)
		joined[p.From], joined[p.To] = true, true
		if from && to && p.From == p.To && !p.Way.Exhausts() {
			r.at(key+".to", "leads back to where it comes from", p.To, "two different ends")
		}
		if p.To == "barrel" && from && p.From != "atmosphere" { // in what states it is open may be a fault of its own
			states := r.values[key+".open_in"]
			fed = fed || p.Feeds() || states == nil || states.Kind != toml.IsArray
		}
		if p.Kind == pneumatics.Relief && to && p.To != "atmosphere" {
			r.at(key+".to", "a relief valve must blow into the atmosphere", p.To, `"atmosphere"`)
		}
	}
	for _, v := range l.Volumes {
		if !joined[v.Name] {
			r.at("volumes."+v.Name, "no path begins or ends here", v.Name, "a path from or to it")
		}
	}
	if _, stands := r.positions["barrel"]; stands && !fed && len(l.Paths) > 0 {
		r.at("barrel", "no path feeds the barrel", "", `a path with to = "barrel" that lets air through while firing`)
	}
}

// checkExhaust finds what is wrong with the third port of a valve.
func (r *reader) checkExhaust(l *launcher.Launcher, i int, names []string) {
	p := &l.Paths[i]
	valve := &l.Paths[l.OtherWay(i)]
	outlet, key := "paths."+valve.Name+".to", "paths."+p.Name+".to"
	switch {
	case valve.To == "atmosphere":
		r.at(outlet, "the outlet of a valve with an exhaust is the atmosphere", valve.To, keys.Quoted(names[:len(names)-1]),
			`a valve that only lets air out is a "valve"`)
	case p.Way == launcher.QuickOutlet && slices.Contains(volumeNames(l), p.To):
		r.at(key, "a quick exhaust empties into the open or into the barrel", p.To, `"atmosphere", "barrel"`)
	case p.Way == launcher.QuickOutlet && !slices.Contains(volumeNames(l), valve.From):
		r.at("paths."+valve.Name+".from", "the inlet that holds a quick exhaust shut is no volume", valve.From, keys.Quoted(volumeNames(l)),
			"give the line before it a volume of its own, as small as it is")
	case p.To == valve.From:
		r.at(key, "leads back to the inlet", p.To, "another end than the inlet's")
	case p.To == valve.To:
		r.at(key, "leads back to the outlet", p.To, "another end than the outlet's")
	}
}

func (r *reader) checkSupplyAndSwitch(l *launcher.Launcher) {
	names := volumeNames(l)
	if s := l.Supply; s != nil {
		r.exists("supply.feeds", s.Feeds, names)
	}
	for i, g := range l.Gauges {
		key := "gauge.on"
		if _, single := r.positions[key]; !single {
			key = fmt.Sprintf("gauge[%d].on", i+1)
		}
		r.exists(key, g.On, names)
	}
	s := l.Switch
	if s == nil {
		r.checkFilling(l)
		return
	}
	r.exists("pressure_switch.senses", s.Senses, names)
	if l.Supply != nil {
		r.reaches("supply.dead_head", &l.Supply.DeadHead, "pressure_switch.cut_out", &s.CutOut,
			"the switch would never stop it: it runs on until it is hot; or is the cut-out of another unit or another switch?")
		if l.Supply.Kind == launcher.HandPump { // or it would count as stopped at the cut-out, with no limit but a person's force beyond it
			r.value("pressure_switch.cut_out", "no switch stops a person's arm", "no [pressure_switch]", "a relief valve, or supply.pumped_to")
		}
	}
	if s.CutOut.Set && s.CutIn.Set && s.CutIn.Nominal >= s.CutOut.Nominal {
		r.value("pressure_switch.cut_in", "is not below cut_out", r.below(quantity.Gauge, s.CutOut.Nominal))
	}
	if s.CutOut.Set && s.CutOut.High > mostWorking*(1+1e-12) {
		r.tooHigh("pressure_switch.cut_out", checkedUpTo(r.units))
	}
	if s.AdjustableTo.Set && s.CutOut.Set && s.AdjustableTo.High < s.CutOut.Nominal {
		r.value("pressure_switch.adjustable_to", "the end of the range is below cut_out", r.atLeast(quantity.Gauge, s.CutOut.Nominal))
	}
}

// tooHigh refuses a pressure that is above what the gas model covers.
func (r *reader) tooHigh(key string, hint ...string) {
	r.value(key, "reaches above "+highest(r.units), "at most "+highest(r.units)+", tolerance included", hint...)
}

// highest is the highest working pressure that the gas model covers.
func highest(u quantity.System) string {
	return u.Text(finding.Say("%s gauge", finding.Bars.Of(mostWorking, 2)))
}

// checkedUpTo says why nothing is higher.
func checkedUpTo(u quantity.System) string {
	return "the gas model was checked up to " + highest(u) + " only"
}

// checkedBetween is the range of temperatures that the gas model covers.
func checkedBetween(u quantity.System) string {
	return u.Words(quantity.Temperature, keys.ColdestGas, quantity.Up) + " to " + u.Words(quantity.Temperature, keys.HottestGas, quantity.Down)
}

func (r *reader) checkRelief(l *launcher.Launcher) {
	for _, p := range l.Paths {
		if p.Kind != pneumatics.Relief || !p.SetPressure.Set {
			continue
		}
		set, full, reseat := p.SetPressure, p.FullFlowPressure, p.ReseatPressure
		if full.Low <= set.Low || full.Nominal <= set.Nominal || full.High <= set.High {
			r.value("paths."+p.Name+".full_flow_pressure", "is not above the set pressure at both ends of the tolerance",
				r.above(quantity.Gauge, set.Nominal)+", "+r.above(quantity.Gauge, set.High)+" at its top")
		}
		if reseat.Low >= set.Low || reseat.Nominal >= set.Nominal || reseat.High >= set.High {
			r.value("paths."+p.Name+".reseat_pressure", "is not below the set pressure at both ends of the tolerance",
				r.below(quantity.Gauge, set.Nominal))
		} else if reseat.Low <= 0 {
			r.value("paths."+p.Name+".reseat_pressure", "reaches zero at the low end of the set pressure", "a reseat above zero at both ends")
		}
	}
}

func (r *reader) checkFit(l *launcher.Launcher) {
	b, p := l.Barrel, l.Projectile
	if c, d := p.ContactDiameter, p.Diameter; c.Set && d.Set && c.Nominal > d.Nominal {
		r.value("projectile.contact_diameter", "is larger than the projectile", r.atMost(quantity.Length, d.Nominal),
			"the print of the tip is much smaller than the ball")
	}
	if l.Squeezed() {
		r.checkSqueezed(l)
		for _, hold := range doubt.HeldByNothing(l) {
			r.value(hold.Key, "a projectile wider than its bore is held by it", "a force above zero, or no key where it is not known")
		}
	}
	doubt.Figures(l)
	if r.Sound() { // a path that leads nowhere has no bore
		doubt.Flow(l)
		for _, v := range doubt.Unfed(l) {
			r.at("volumes."+v.Name, "feeds the barrel when it is fired, and nothing ever fills it", v.Name,
				"a path to it, from what the supply feeds or what comes filled, that is open in some state", v.Why)
		}
	}
	if in, out := p.InsideDiameter, b.TubeOuterDiameter; in.Set && out.Set && in.High < out.Low {
		r.value("projectile.inside_diameter", "is smaller than the launch tube", r.atLeast(quantity.Length, out.Low))
	}
	if in, out := b.TubeInnerDiameter, b.TubeOuterDiameter; in.Set && out.Set && in.Nominal >= out.Nominal {
		r.value("barrel.tube_inner_diameter", "is not smaller than the tube's outside", r.below(quantity.Length, out.Nominal))
	}
	if in, out := p.InsideDiameter, p.Diameter; in.Set && out.Set && in.Nominal >= out.Nominal {
		r.value("projectile.inside_diameter", "is not smaller than the projectile's outside", r.below(quantity.Length, out.Nominal))
	}
	if a, w := b.MuzzleAdmits, b.Bore; a.Set && w.Set && a.Nominal > w.High {
		r.value("barrel.muzzle_admits", "is larger than the bore", r.atMost(quantity.Length, w.Nominal))
	}
	r.checkWayOut(l)
}

// checkWayOut refuses what keeps things out of a bore that its projectile has to pass: nothing smaller than itself lets it out.
func (r *reader) checkWayOut(l *launcher.Launcher) {
	b, d := l.Barrel, l.Projectile.Diameter
	if b.Fit != pneumatics.InBore || !d.Set || !b.Bore.Set {
		return
	}
	const help = "what lets the projectile out lets in what is as large: let barrel.object_control keep it out, such as \"supervised " +
		"loading by the adult in charge\" or \"loading from the breech with the muzzle covered\""
	out := min(d.Low, b.Bore.Low)
	if a := b.MuzzleAdmits; a.Set && a.High < out {
		r.value("barrel.muzzle_admits", "is smaller than the projectile, which leaves there", r.atLeast(quantity.Length, out), help)
	}
	for _, control := range b.ObjectControl {
		if mesh, ok := launcher.GridMesh(control); ok && mesh < out {
			r.value("barrel.object_control", "names a grid that the projectile, which leaves there, does not pass",
				r.atLeast(quantity.Length, out), help)
		}
	}
}

// checkSqueezed refuses a projectile wider than its bore that cannot be squeezed in.
func (r *reader) checkSqueezed(l *launcher.Launcher) {
	b, p := l.Barrel, l.Projectile
	switch {
	case p.TipStated && !p.Resilient:
		r.value("projectile.diameter", "is larger than the bore at every tolerance, and rigid", r.atMost(quantity.Length, b.Bore.High),
			"only soft foam can be squeezed in: tip = \"resilient\", once that is proved")
	case p.Clearance.Set && p.Clearance.Low > 0:
		r.value("projectile.clearance", "a projectile wider than its bore leaves none",
			"no clearance, or a diameter that meets the bore, "+r.atMost(quantity.Length, b.Bore.High))
	case p.Diameter.Low > doubt.WidestSqueeze*b.Bore.High:
		r.value("projectile.diameter", "is far larger than the bore",
			r.atMost(quantity.Length, doubt.WidestSqueeze*b.Bore.High)+", one and a half times the bore", "soft foam is squeezed no further")
	}
}

func (r *reader) checkMount(l *launcher.Launcher) {
	if low, high := l.Mount.ElevationMin, l.Mount.ElevationMax; low.Set && high.Set && low.Nominal > high.Nominal {
		r.value("mount.elevation_min", "is above elevation_max", r.atMost(quantity.Angle, high.Nominal))
	}
	const longest = 10 // [m] of a ride-on, from its muzzle to its rider and its wheels (own rule of this project)
	if e := l.Event; e != nil && l.Mount.RideOn {
		far := func(key string, b launcher.Band) {
			if b.Set && b.Nominal > longest {
				r.value(key, "is farther away than a ride-on is long: its rider and its wheels are part of it", r.atMost(quantity.Length, longest))
			}
		}
		far("event.ear_to_muzzle", e.EarToMuzzle)
		far("event.eye_to_muzzle", e.EyeToMuzzle)
		far("event.wheels", e.Wheels)
	}
	if a := l.Ambient; a.Hottest.Nominal < a.Temperature.Nominal || a.Coldest.Nominal > a.Temperature.Nominal {
		key := "ambient.hottest"
		if a.Coldest.Nominal > a.Temperature.Nominal {
			key = "ambient.coldest"
		}
		if _, stands := r.positions[key]; !stands {
			key = "ambient.temperature"
		}
		r.value(key, "the air's temperature lies outside coldest and hottest", "coldest <= temperature <= hottest")
	}
	if t := l.Ambient.Temperature; t.Set && (t.Low < keys.ColdestGas || t.High > keys.HottestGas) {
		r.value("ambient.temperature", "its tolerance leaves the range of the gas model", checkedBetween(r.units))
	}
	for _, e := range l.Checklist {
		if e.ValidUntil != "" && e.Date > e.ValidUntil {
			r.at("checklist."+e.Item+".valid_until", "is before its date", e.ValidUntil, "a day after "+e.Date)
		}
	}
}
