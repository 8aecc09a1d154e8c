package advise

import (
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/material"
	"puffproof/limits/vent"
	"puffproof/pneumatics"
)

// layout is what is built otherwise before any dial is turned.
type layout uint8

const (
	asBuilt  layout = iota // the same volumes
	withDose               // a dose between the tank and the barrel
	weakly                 // the same, and nothing limits the pressure but the pump
)

// lay makes the changes of the circuit that no figure can stand for.
func lay(b *draft, how layout) {
	if how == withDose {
		b.dose()
	}
	b.goodParts()
	b.waysOut()
	b.outlets()
	if how != weakly {
		b.relief()
		b.stop()
	}
	b.gauge()
	b.venting()
}

// wholeTank tells that the volume which the supply feeds is the one that the firing valve
// opens: nothing measures the air of a shot.
func wholeTank(l *launcher.Launcher) bool {
	return l.WholeTank() != ""
}

// dose puts a chamber between tank and firing valve, filled through a valve that is shut while
// it shoots.
func (b *draft) dose() {
	fire := fires(b.l)
	tank, dose, feed := fire.From, free(b.l, "dose"), free(b.l, "feed")
	const why = "the air of one shot: the whole tank is open to the barrel without it"
	b.vessel("volumes."+dose, number(0.3e-3, finding.Litres, 0.009e-3), why, "dose chamber")
	at := "paths." + feed + "."
	const feeding = "fills the dose, and is shut during a shot"
	b.list = append(b.list,
		Change{Key: at + "from", To: word(tank), Why: feeding, Sort: Bought, Part: "feed valve, closed without current"},
		Change{Key: at + "to", To: word(dose), Why: feeding, Sort: Bought},
		Change{Key: at + "kind", To: word("valve"), Why: feeding, Sort: Bought},
		Change{Key: at + "orifice", To: number(1.2e-3, finding.Millimetres, drill), Why: "small, so that it adds little while a shot lasts"},
		Change{Key: at + "orifice_removable", To: yes(false), Why: "the valve's own seat, which nobody leaves out", Sort: Bought},
		Change{Key: at + "open_in", To: list("charging"), Why: feeding},
		Change{Key: at + "unpowered", To: word("closed"), Why: feeding},
		Change{Key: at + "drive", To: word("direct"), Why: feeding})
	b.set(Change{Key: "paths." + fire.Name + ".from", To: word(dose), Why: "only the dose is behind the projectile"})
}

// vessel adds a vessel made for gas.
func (b *draft) vessel(table string, volume Value, why, part string) {
	b.list = append(b.list, Change{Key: table + ".volume", To: volume, Why: why, Sort: Bought, Part: part})
	b.madeForGas(table, why)
}

// madeForGas makes a part one that is bought with a rating for gas.
func (b *draft) madeForGas(table, why string) {
	b.set(Change{Key: table + ".rated_pressure", To: stated(10e5, finding.Bars), Why: why, Sort: Bought})
	b.set(Change{Key: table + ".rated_for_gas", To: yes(true), Why: "bought with the maker's document", Sort: Bought})
	b.set(Change{Key: table + ".material", To: word("aluminium"), Why: why, Sort: Bought})
}

// goodParts changes parts that no word makes fit for gas.
func (b *draft) goodParts() {
	bad := func(table, made string, forGas launcher.Answer, part string) {
		if !material.Of(made).ForGas() && made != "" || forGas == launcher.No {
			b.madeForGas(table, "what is there is not made for gas")
			b.list = append(b.list, Change{Key: table + ".rated_for_gas", To: yes(true), Sort: Bought, Part: part,
				Why: "bought with the maker's document"})
		}
	}
	for i := range b.l.Volumes {
		v := &b.l.Volumes[i]
		bad("volumes."+v.Name, v.Material, v.RatedForGas, "vessel made for gas in the place of "+v.Name)
	}
	bad("barrel", b.l.Barrel.Material, b.l.Barrel.RatedForGas, "barrel made for gas")
}

// waysOut gives every volume a way into the open: by a valve that opens when switched off and
// without current, where there is current; else by a hole that is always open.
func (b *draft) waysOut() {
	names := []string{}
	for i := range b.l.Volumes {
		names = append(names, b.l.Volumes[i].Name)
	}
	fire := fires(b.l)
	for _, c := range b.list { // a volume that this draft adds
		if table, ok := cutSuffix(c.Key, ".volume"); ok && volumeNamed(b.l, table) == nil {
			names = append(names, table)
		}
	}
	for _, name := range names {
		loading := fire != nil && name == b.firesFrom(fire)
		if p := b.openWay(name); p != nil {
			if loading && p.Kind == pneumatics.Valve && !p.OpenIn.Has(pneumatics.Loading) {
				b.set(Change{Key: "paths." + p.Name + ".open_in", To: list("off", "loading"),
					Why: "nothing stands behind the barrel while hands are at it"})
			}
			continue
		}
		b.wayOut(name, loading)
	}
}

// outlets turns away those of which nobody says where they blow.
func (b *draft) outlets() {
	for i := range b.l.Paths {
		if p := &b.l.Paths[i]; p.To == "atmosphere" && vent.PointsOf(p) == "unknown" {
			b.set(Change{Key: "paths." + p.Name + ".points", To: word("away"), Why: "its outlet turned away from people and barrel"})
		}
	}
}

// firesFrom is the volume behind the firing valve once the draft is made.
func (b *draft) firesFrom(fire *launcher.PathSpec) string {
	for _, c := range b.list {
		if c.Key == "paths."+fire.Name+".from" {
			return c.To.Text()
		}
	}
	return fire.From
}

// openWay is a path from a volume into the open that stands open when switched off and without
// current; nil: none.
func (b *draft) openWay(name string) *launcher.PathSpec {
	for i := range b.l.Paths {
		p := &b.l.Paths[i]
		out := p.From == name && p.To == "atmosphere"
		switch {
		case out && p.Kind == pneumatics.Orifice:
			return p
		case out && p.MinDifferential.Set && p.MinDifferential.High > 0:
		case out && p.Kind == pneumatics.Valve && p.OpenIn.Has(pneumatics.Off) && p.Unpowered == pneumatics.Open:
			return p
		}
	}
	return nil
}

// wayOut adds one.
func (b *draft) wayOut(name string, loading bool) {
	if !electric(b.l) {
		at := "paths." + free(b.l, "bleed_"+name) + "."
		const why = "always open: whatever happens, it empties"
		b.list = append(b.list, Change{Key: at + "from", To: word(name), Why: why}, Change{Key: at + "to", To: word("atmosphere"), Why: why},
			Change{Key: at + "kind", To: word("orifice"), Why: why},
			Change{Key: at + "orifice", To: number(0.8e-3, finding.Millimetres, drill), Why: "drilled: the least hole that does not clog"},
			Change{Key: at + "points", To: word("away"), Why: "away from people and barrel"})
		return
	}
	at := "paths." + free(b.l, "dump_"+name) + "."
	why, open := "lets it empty when switched off and when the current fails", list("off")
	if loading {
		why, open = "lets it empty when switched off, without current, and while hands are at the muzzle", list("off", "loading")
	}
	b.list = append(b.list, Change{Key: at + "from", To: word(name), Why: why, Sort: Bought,
		Part: "dump valve, open without current, for " + name},
		Change{Key: at + "to", To: word("atmosphere"), Why: why, Sort: Bought},
		Change{Key: at + "kind", To: word("valve"), Why: why, Sort: Bought},
		Change{Key: at + "orifice", To: number(1.5e-3, finding.Millimetres, drill), Why: "the least drill that empties it in time"},
		Change{Key: at + "open_in", To: open, Why: why}, Change{Key: at + "unpowered", To: word("open"), Why: why},
		Change{Key: at + "drive", To: word("direct"), Why: why}, Change{Key: at + "points", To: word("away"), Why: "away from people and barrel"})
}

// relief adds a relief valve on the supplied volume; two where nothing else ends the filling.
func (b *draft) relief() {
	s := b.l.Supply
	if s == nil {
		return
	}
	have := 0
	for i := range b.l.Paths {
		if p := &b.l.Paths[i]; p.Kind == pneumatics.Relief && p.From == s.Feeds {
			have++
		}
	}
	want := 1
	if b.l.Switch == nil && s.Kind == launcher.HandPump {
		want = 2
	}
	for ; have < want; have++ {
		why, part := "whatever pumps on, the pressure ends here", "relief valve"
		if have > 0 {
			why, part = "a second one, for the day the first sticks shut", "second relief valve"
		}
		name := "relief"
		if have > 0 {
			name = "relief_second"
		}
		at := "paths." + free(b.l, name) + "."
		b.list = append(b.list, Change{Key: at + "from", To: word(s.Feeds), Why: why, Sort: Bought, Part: part},
			Change{Key: at + "to", To: word("atmosphere"), Why: why, Sort: Bought},
			Change{Key: at + "kind", To: word("relief"), Why: why, Sort: Bought},
			Change{Key: at + "orifice", To: number(6e-3, finding.Millimetres, 0.2e-3), Why: "wide enough for the supply", Sort: Bought},
			Change{Key: at + "set_pressure", To: number(0.8e5, finding.Bars, 0.1e5), Why: why, Sort: Bought},
			Change{Key: at + "full_flow_pressure", To: number(1e5, finding.Bars, 0.1e5), Why: why, Sort: Bought},
			Change{Key: at + "points", To: word("away"), Why: "away from people and barrel"})
	}
}

// stop makes sure that something ends the filling below the dead head.
func (b *draft) stop() {
	s := b.l.Supply
	switch {
	case s == nil || s.Kind == launcher.HandPump:
		return
	case b.l.Switch == nil:
		const why = "stops the supply"
		b.list = append(b.list, Change{Key: "pressure_switch.senses", To: word(s.Feeds), Why: why, Sort: Bought, Part: "low-pressure switch"},
			Change{Key: "pressure_switch.cut_out", To: number(0.4e5, finding.Bars, 0.02e5), Why: why, Sort: Bought},
			Change{Key: "pressure_switch.cut_in", To: number(0.25e5, finding.Bars, 0.02e5), Why: why, Sort: Bought})
	}
	if b.l.Switch == nil || !b.l.Switch.Differential.Set {
		b.list = append(b.list, Change{Key: "pressure_switch.differential", To: number(0.06e5, finding.Bars, 0.01e5), Sort: Bought,
			Why: "a switch that can be set so close", Part: "low-pressure switch"})
	}
}

// gauge makes the gauge one that tells the target from zero.
func (b *draft) gauge() {
	target, end := 0.05e5, 1.6e5
	if high, _ := b.l.NormalHigh(); high > end && !math.IsInf(high, 1) {
		end = atLeast(gaugeRanges, high) // until the pressure is turned down, it has to be on the scale
	}
	if v := b.l.Venting; v != nil && v.Target.Set {
		target = v.Target.Low
	}
	if len(b.l.Gauges) == 0 && b.l.Source() != "" {
		b.list = append(b.list, Change{Key: "gauge.on", To: word(b.l.Source()), Why: "shows whether it is empty", Sort: Bought, Part: "gauge"},
			Change{Key: "gauge.range", To: stated(end, finding.Bars), Why: "room above what a fault reaches", Sort: Bought},
			Change{Key: "gauge.class", To: bare(1.6), Why: "tells the target from zero", Sort: Bought},
			Change{Key: "gauge.stop_pin", To: yes(false), Why: "its needle comes to zero", Sort: Bought})
		return
	}
	for i := range b.l.Gauges {
		g := &b.l.Gauges[i]
		least, _ := g.LeastReading()
		if least <= target {
			continue
		}
		at := "gauge."
		if len(b.l.Gauges) > 1 {
			at = gaugeTable(i)
		}
		const why = "tells the target from zero, and shows what a fault reaches"
		b.set(Change{Key: at + "range", To: stated(math.Min(g.Range.Nominal, end), finding.Bars), Why: why, Sort: Bought, Part: "gauge"})
		if !g.Error.Set {
			b.set(Change{Key: at + "class", To: bare(1.6), Why: why, Sort: Bought, Part: "gauge"})
		}
		b.set(Change{Key: at + "stop_pin", To: yes(false), Why: "its needle comes to zero", Sort: Bought})
	}
}

// venting states how long emptying may take.
func (b *draft) venting() {
	if b.l.Venting == nil || !b.l.Venting.Within.Set {
		b.add(Change{Key: "venting.within", To: stated(60, finding.Seconds), Why: "how long you are ready to wait until it is empty", Sort: Wish})
	}
}
