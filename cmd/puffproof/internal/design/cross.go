package design

import (
	"fmt"
	"strings"

	"puffproof/cmd/puffproof/internal/show"
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
	r.checkRelief(l)
	r.checkFit(l)
	r.checkMount(l)
}

// at reports a problem at a key, wherever it stands.
func (r *reader) at(key string, p Problem) {
	p.Key = key
	r.fault(r.positions[key], p)
}

func (r *reader) checkNames(l *launcher.Launcher) {
	for i, v := range l.Volumes {
		for _, other := range l.Volumes[:i] {
			if strings.EqualFold(v.Name, other.Name) {
				r.at("volumes."+v.Name, Problem{Message: "differs from " + other.Name + " in capitals only", Found: v.Name,
					Want: "names that cannot be mixed up"})
			}
		}
	}
	for i, p := range l.Paths {
		for _, other := range l.Paths[:i] {
			if strings.EqualFold(p.Name, other.Name) {
				r.at("paths."+p.Name, Problem{Message: "differs from " + other.Name + " in capitals only", Found: p.Name,
					Want: "names that cannot be mixed up"})
			}
		}
	}
}

// volumeNames lists the names that exist, with the further ones given.
func volumeNames(l *launcher.Launcher, further ...string) []string {
	var names []string
	for _, v := range l.Volumes {
		names = append(names, v.Name)
	}
	return append(names, further...)
}

// known reports a name that is none of those that exist.
func (r *reader) known(key, name string, names []string) bool {
	if name == "" || contains(names, name) {
		return name != ""
	}
	want := quoted(names)
	if len(names) == 0 {
		want = "a volume of this file: [volumes.NAME]"
	}
	r.at(key, Problem{Message: "names an unknown volume", Found: name, Want: want, Hint: nodeHint(name, names)})
	return false
}

// nodeHint explains builders' names of volumes.
func nodeHint(found string, names []string) string {
	means := map[string]string{"bottle": "tank", "reservoir": "tank", "accumulator": "tank", "receiver": "tank", "air_can": "tank",
		"can":         "tank",
		"pop_chamber": "dose", "burst_tank": "dose", "plenum": "dose", "chamber": "dose",
		"air": "atmosphere", "outside": "atmosphere", "ambient": "atmosphere", "room": "atmosphere", "vent": "atmosphere",
		"exhaust": "atmosphere",
		"muzzle":  "barrel", "bore": "barrel", "tube": "barrel", "launch_tube": "barrel", "breech": "barrel"}
	if w := means[fold(found)]; w != "" && contains(names, w) {
		return meant(`"` + w + `"`)
	}
	if n := nearest(found, names); n != "" {
		return meant(`"` + n + `"`)
	}
	return ""
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
		from, to := p.Way.Exhausts() || r.known(key+".from", p.From, names), r.known(key+".to", p.To, names)
		joined[p.From], joined[p.To] = true, true
		if from && to && p.From == p.To && !p.Way.Exhausts() {
			r.at(key+".to", Problem{Message: "leads back to where it comes from", Found: p.To, Want: "two different ends"})
		}
		if p.To == "barrel" && from && p.From != "atmosphere" {
			fed = true
		}
		if p.Kind == pneumatics.Relief && to && p.To != "atmosphere" {
			r.at(key+".to", Problem{Message: "a relief valve must blow into the atmosphere", Found: p.To, Want: `"atmosphere"`})
		}
	}
	for _, v := range l.Volumes {
		if !joined[v.Name] {
			r.at("volumes."+v.Name, Problem{Message: "no path begins or ends here", Found: v.Name, Want: "a path from or to it"})
		}
	}
	if _, stands := r.positions["barrel"]; stands && !fed && len(l.Paths) > 0 {
		r.at("barrel", Problem{Message: "no path feeds the barrel", Want: `a path with to = "barrel"`})
	}
}

// checkExhaust finds what is wrong with the third port of a valve.
func (r *reader) checkExhaust(l *launcher.Launcher, i int, names []string) {
	p := &l.Paths[i]
	valve := &l.Paths[l.OtherWay(i)]
	outlet, key := "paths."+valve.Name+".to", "paths."+p.Name+".to"
	switch {
	case valve.To == "atmosphere":
		r.at(outlet, Problem{Message: "the outlet of a valve with an exhaust is the atmosphere", Found: valve.To, Want: quoted(names[:len(names)-1]),
			Hint: `a valve that only lets air out is a "valve"`})
	case p.To == valve.From:
		r.at(key, Problem{Message: "leads back to the inlet", Found: p.To, Want: "another end than the inlet's"})
	case p.To == valve.To:
		r.at(key, Problem{Message: "leads back to the outlet", Found: p.To, Want: "another end than the outlet's"})
	}
}

func (r *reader) checkSupplyAndSwitch(l *launcher.Launcher) {
	names := volumeNames(l)
	regulated := false
	for _, p := range l.Paths {
		regulated = regulated || p.Kind == pneumatics.Regulator
	}
	if s := l.Supply; s != nil {
		r.known("supply.feeds", s.Feeds, names)
		if l.Switch == nil && !regulated && s.DeadHead.Set && s.DeadHead.High > mostWorking {
			r.at("supply.dead_head", Problem{Message: "without a pressure switch it is the working pressure", Found: bar(s.DeadHead.High),
				Want: "at most 10 bar gauge",
				Hint: "the gas model was checked up to 10 bar gauge only"})
		}
	}
	for i, g := range l.Gauges {
		key := "gauge.on"
		if _, single := r.positions[key]; !single {
			key = fmt.Sprintf("gauge[%d].on", i+1)
		}
		r.known(key, g.On, names)
	}
	s := l.Switch
	if s == nil {
		return
	}
	r.known("pressure_switch.senses", s.Senses, names)
	if s.CutOut.Set && s.CutIn.Set && s.CutIn.Nominal >= s.CutOut.Nominal {
		r.at("pressure_switch.cut_in", Problem{Message: "is not below cut_out", Found: bar(s.CutIn.Nominal),
			Want: "less than " + bar(s.CutOut.Nominal)})
	}
	if s.CutOut.Set && s.CutOut.High > mostWorking*(1+1e-12) {
		r.at("pressure_switch.cut_out", Problem{Message: "reaches above 10 bar gauge", Found: bar(s.CutOut.High),
			Want: "at most 10 bar gauge, tolerance included",
			Hint: "the gas model was checked up to 10 bar gauge only"})
	}
	if s.AdjustableTo.Set && s.CutOut.Set && s.AdjustableTo.High < s.CutOut.Nominal {
		r.at("pressure_switch.adjustable_to", Problem{Message: "the end of the range is below cut_out", Found: bar(s.AdjustableTo.Nominal),
			Want: "at least " + bar(s.CutOut.Nominal)})
	}
}

func bar(pa float64) string { return show.Metric.Near(show.Gauge, pa) }

func (r *reader) checkRelief(l *launcher.Launcher) {
	for _, p := range l.Paths {
		if p.Kind != pneumatics.Relief || !p.SetPressure.Set {
			continue
		}
		set, full, reseat := p.SetPressure, p.FullFlowPressure, p.ReseatPressure
		if full.Low <= set.Low || full.Nominal <= set.Nominal || full.High <= set.High {
			r.at("paths."+p.Name+".full_flow_pressure", Problem{Message: "is not above the set pressure at both ends of the tolerance",
				Found: bar(full.Nominal),
				Want:  fmt.Sprintf("more than %s, more than %s at its top", bar(set.Nominal), bar(set.High))})
		}
		if reseat.Low >= set.Low || reseat.Nominal >= set.Nominal || reseat.High >= set.High {
			r.at("paths."+p.Name+".reseat_pressure", Problem{Message: "is not below the set pressure at both ends of the tolerance",
				Found: bar(reseat.Nominal), Want: "less than " + bar(set.Nominal)})
		} else if reseat.Low <= 0 {
			r.at("paths."+p.Name+".reseat_pressure", Problem{Message: "reaches zero at the low end of the set pressure",
				Found: bar(reseat.Nominal), Want: "a reseat above zero at both ends"})
		}
	}
}

func mm(metres float64) string { return show.Metric.Near(show.Length, metres) }

func (r *reader) checkFit(l *launcher.Launcher) {
	b, p := l.Barrel, l.Projectile
	if c, d := p.ContactDiameter, p.Diameter; c.Set && d.Set && c.Nominal > d.Nominal {
		r.at("projectile.contact_diameter", Problem{Message: "is larger than the projectile", Found: mm(c.Nominal),
			Want: "at most " + mm(d.Nominal),
			Hint: "the print of the tip is much smaller than the ball"})
	}
	if l.Squeezed() {
		r.checkSqueezed(l)
	}
	if in, out := p.InsideDiameter, b.TubeOuterDiameter; in.Set && out.Set && in.High < out.Low {
		r.at("projectile.inside_diameter", Problem{Message: "is smaller than the launch tube", Found: mm(in.Nominal),
			Want: "at least " + mm(out.Low)})
	}
	if in, out := b.TubeInnerDiameter, b.TubeOuterDiameter; in.Set && out.Set && in.Nominal >= out.Nominal {
		r.at("barrel.tube_inner_diameter", Problem{Message: "is not smaller than the tube's outside", Found: mm(in.Nominal),
			Want: "less than " + mm(out.Nominal)})
	}
	if in, out := p.InsideDiameter, p.Diameter; in.Set && out.Set && in.Nominal >= out.Nominal {
		r.at("projectile.inside_diameter", Problem{Message: "is not smaller than the projectile's outside", Found: mm(in.Nominal),
			Want: "less than " + mm(out.Nominal)})
	}
	if a, w := b.MuzzleAdmits, b.Bore; a.Set && w.Set && a.Nominal > w.High {
		r.at("barrel.muzzle_admits", Problem{Message: "is larger than the bore", Found: mm(a.Nominal), Want: "at most " + mm(w.Nominal)})
	}
}

// widestSqueeze is how much wider than its bore a foam projectile may be that is still
// pressed in (own rule of this project): beyond it one of the two figures is a slip.
const widestSqueeze = 1.5

// checkSqueezed refuses a projectile wider than its bore that cannot be squeezed in.
func (r *reader) checkSqueezed(l *launcher.Launcher) {
	b, p := l.Barrel, l.Projectile
	switch {
	case p.TipStated && !p.Resilient:
		r.at("projectile.diameter", Problem{Message: "is larger than the bore at every tolerance, and rigid", Found: mm(p.Diameter.Nominal),
			Want: "at most " + mm(b.Bore.High), Hint: "only soft foam can be squeezed in: tip = \"resilient\", once that is proved"})
	case p.Clearance.Set && p.Clearance.Low > 0:
		r.at("projectile.clearance", Problem{Message: "a projectile wider than its bore leaves none", Found: mm(p.Clearance.Nominal),
			Want: "no clearance, or a diameter that meets the bore, up to " + mm(b.Bore.High)})
	case p.Diameter.Low > widestSqueeze*b.Bore.High:
		r.at("projectile.diameter", Problem{Message: "is far larger than the bore", Found: mm(p.Diameter.Nominal),
			Want: "at most " + mm(widestSqueeze*b.Bore.High) + ", one and a half times the bore", Hint: "soft foam is not squeezed further than that"})
	}
}

func (r *reader) checkMount(l *launcher.Launcher) {
	if low, high := l.Mount.ElevationMin, l.Mount.ElevationMax; low.Set && high.Set && low.Nominal > high.Nominal {
		r.at("mount.elevation_min", Problem{Message: "is above elevation_max", Found: show.Metric.Near(show.Angle, low.Nominal),
			Want: "at most " + show.Metric.Near(show.Angle, high.Nominal)})
	}
	if a := l.Ambient; a.Hottest.Nominal < a.Temperature.Nominal || a.Coldest.Nominal > a.Temperature.Nominal {
		key := "ambient.hottest"
		if a.Coldest.Nominal > a.Temperature.Nominal {
			key = "ambient.coldest"
		}
		if _, stands := r.positions[key]; !stands {
			key = "ambient.temperature"
		}
		r.at(key, Problem{Message: "the air's temperature lies outside coldest and hottest", Want: "coldest <= temperature <= hottest"})
	}
	if t := l.Ambient.Temperature; t.Set && (t.Low < 250 || t.High > 340) {
		r.at("ambient.temperature", Problem{Message: "its tolerance leaves the range of the gas model", Want: "250 K to 340 K (-23 to 67 degC)"})
	}
	for _, e := range l.Checklist {
		if e.ValidUntil != "" && e.Date > e.ValidUntil {
			r.at("checklist."+e.Item+".valid_until", Problem{Message: "is before its date", Found: e.ValidUntil, Want: "a day after " + e.Date})
		}
	}
}
