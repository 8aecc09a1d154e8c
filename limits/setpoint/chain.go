package setpoint

import (
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/halving"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/graph"
)

// pressureCaps are the pressures that nothing may exceed [Pa gauge]; +Inf where
// there is no such limit.
type pressureCaps struct {
	energy   float64  // every shot from up to here stays within the energy limits
	rating   float64  // the lowest rating of what the supply fills, or of the barrel
	blocked  float64  // a plugged barrel stays within its rating
	normal   askedFor // what normal running, left in the heat, stays at or below because a verdict asks for it
	faults   askedFor // what a fault stays at or below because a verdict asks for it
	measured float64  // what normal running stays at or below because measured shots ask for it; 0: no such limit
	step     float64  // figures to set by are rounded down to it [Pa]; 0: not rounded
}

// askedFor is a pressure that a verdict asks for [Pa gauge]; 0: none does.
type askedFor struct {
	at float64
	by string // identifier of the verdict
}

// below tells that it asks for less than a pressure.
func (a askedFor) below(p float64) bool { return a.at > 0 && a.at < p }

// lowest gives the cap of the pressure at a fault and the verdict it belongs to.
func (p pressureCaps) lowest() (cap float64, id string) {
	cap, id = p.energy, "energy.fault"
	if p.rating < cap {
		cap, id = p.rating, "vessel.rating"
	}
	if p.blocked < cap {
		cap, id = p.blocked, "barrel.blocked"
	}
	if p.faults.below(cap) {
		cap, id = p.faults.at, p.faults.by
	}
	return cap, id
}

// chain is the ladder solved from the top: largest fault pressure, relief set
// pressure, cut-out, cut-in. Set and cut pressures are nominal values [Pa gauge].
type chain struct {
	fault    float64 // largest permitted fault pressure
	faultID  string
	source   bool // the supply cannot exceed the fault pressure even when left in the heat, and there is no relief valve
	step     float64
	lowered  bool // a verdict, not a rung, asks for these settings
	byShots  bool // the measured shots do
	deadHead bool // no cut-out is too high: the supply's dead head ends them
	limited  bool // the supply cannot reach the fault pressure: no relief valve is needed
	relief   reliefChange
	bore     float64 // of a relief valve that is to be added [m]
	set      float64 // the relief valve's set pressure the rest rests on; NaN: none
	setMax   float64 // highest set pressure; NaN: none is possible
	setMin   float64 // lowest that never opens in normal running; NaN: none
	cutOut   float64 // NaN: none works
	cutIn    float64
	byShot   bool // what one shot leaves keeps the cut-in down, else the switch's bands
	binding  string
	launcher *launcher.Launcher // with these settings
}

// reliefChange is what the answer asks of the relief valve.
type reliefChange uint8

const (
	reliefKept    reliefChange = iota // as the design has it
	reliefLowered                     // it must be set lower than the design has it
	reliefAdded                       // the design has none on the supplied volume and needs one
	reliefNone                        // none, and none needed
	reliefRaised                      // as the design has it it leaves no room: it must be set higher
)

// solveChain solves the ladder below the caps. It makes no shots.
func solveChain(l *launcher.Launcher, caps pressureCaps) chain {
	c := chain{set: math.NaN(), setMax: math.NaN(), setMin: math.NaN(), cutOut: math.NaN(), cutIn: math.NaN(), launcher: withSwitch(l)}
	c.step = caps.step
	c.fault, c.faultID = caps.lowest()
	c.lowered = caps.faults.at > 0 && caps.faults.at == c.fault
	c.fault = min(c.fault, flow.MaxGauge) // the gas model goes no further
	c.binding = c.faultID
	over := overchargeWithoutRelief(l)
	c.limited = over <= c.fault
	has := l.ReliefOnSupply() >= 0
	switch {
	case c.limited && !has:
		c.relief = reliefNone
		dead := c.launcher.Supply.DeadHead.High
		c.source = l.Soak(dead) <= c.fault
		if c.source && l.Switch == nil {
			c.cutOut, c.cutIn = dead, 0 // nothing to set
			return c
		}
		c.solveSwitch(c.fault, caps)
		return c
	case !has:
		c.relief = reliefAdded
		c.bore = addRelief(c.launcher)
	}
	c.solveRelief()
	if !math.IsNaN(c.set) {
		stated := *c.launcher.Switch
		c.solveBelowRelief(caps)
		if math.IsNaN(c.cutOut) && c.relief == reliefKept && c.setMax > c.set*(1+strictly) {
			c.tryHigher(&stated, caps)
		}
	}
	if !math.IsNaN(c.cutOut) {
		soaked, _ := c.launcher.ReadyHigh()
		c.setMin = setFor(c.launcher, soaked/(1-strictly))
		if c.step > 0 {
			c.setMin = c.step * math.Ceil((c.setMin+0.1*c.step)/c.step)
			if c.relief != reliefAdded { // the design's own is known to hold
				c.setMin = min(c.setMin, c.set)
			}
		}
	}
	return c
}

// strictly keeps pressures apart that must not touch [-].
const strictly = 1e-6

// overchargeWithoutRelief is the pressure when switch and relief valve both do
// nothing, left in the heat: the dead head, of a full cylinder where its regulator may fail; +Inf
// where it is not stated [Pa gauge].
func overchargeWithoutRelief(l *launcher.Launcher) float64 {
	switch {
	case l.Supply == nil:
		return 0 // nothing pumps: filled by hand to the stated pressure
	case !l.Supply.DeadHead.Set:
		return math.Inf(1)
	}
	return l.Soak(l.FailedSource().Supply.DeadHead.High)
}

// solveRelief finds the highest set pressure whose fault pressure is permitted;
// the design's own stays where it is not above it.
func (c *chain) solveRelief() {
	w := c.launcher
	i := w.ReliefOnSupply()
	stated := w.Paths[i]
	faultAt := func(set float64) float64 {
		w.Paths[i] = stated
		MoveRelief(&w.Paths[i], set)
		if !w.Supply.DeadHead.Set || c.limited { // the dead head must not lift the valve beyond what is rated
			return w.Paths[i].FullFlowHigh()
		}
		return w.Overcharge().Pressure
	}
	const least = 100 // [Pa]: no relief valve works below 1 mbar
	if faultAt(least) > c.fault {
		if c.fault > least {
			c.binding = "relief.capacity"
		}
		w.Paths[i] = stated
		return
	}
	// faultAt rises with the set pressure: bisection between least and the cap. A
	// bench test tells of the setting that it was made at and of no other one.
	c.setMax = downTo(bisect(least, max(c.fault, least), func(set float64) bool { return faultAt(set) <= c.fault }), c.step)
	c.set = c.setMax
	switch as := stated.SetPressure.Nominal; {
	case c.relief == reliefAdded:
	case as <= c.setMax || faultAt(as) <= c.fault:
		c.set, c.setMax = as, max(c.setMax, as)
		c.binding, c.lowered = "ladder.order", false
	default:
		c.relief = reliefLowered
	}
	w.Paths[i] = stated
	MoveRelief(&w.Paths[i], c.set)
}

// solveBelowRelief finds cut-out and cut-in below the low end of the relief valve as it is set in the chain's launcher.
func (c *chain) solveBelowRelief(caps pressureCaps) {
	low := c.launcher.Paths[c.launcher.ReliefOnSupply()].SetPressure.Low
	c.solveSwitch(min(c.fault, low*(1-strictly)-c.step), caps)
}

// tryHigher sets the relief valve of a launcher, which leaves no room for its switch as stated, as high as the fault pressure allows.
// Where there is none either all stays as it was.
func (c *chain) tryHigher(stated *launcher.SwitchSpec, caps pressureCaps) {
	up := *c
	up.launcher = c.launcher.Clone()
	*up.launcher.Switch = *stated
	up.relief, up.set = reliefRaised, c.setMax
	up.binding, up.lowered = c.faultID, caps.faults.at > 0 && caps.faults.at == c.fault
	MoveRelief(&up.launcher.Paths[up.launcher.ReliefOnSupply()], up.set)
	if up.solveBelowRelief(caps); !math.IsNaN(up.cutOut) {
		*c = up
	}
}

// setFor is the set pressure whose low end lies at low [Pa gauge].
func setFor(l *launcher.Launcher, low float64) float64 {
	i := l.ReliefOnSupply()
	if i < 0 {
		return math.NaN()
	}
	stated := l.Paths[i]
	_, set := halving.Between(low, 10*low+1e5, 60, func(set float64) bool {
		p := stated
		MoveRelief(&p, set)
		return p.SetPressure.Low >= low
	})
	return set
}

// solveSwitch finds the highest cut-out whose pressure, filled cold and left in
// the heat, stays at or below top and below what faults and measured shots allow, and the
// cut-in below it.
func (c *chain) solveSwitch(top float64, caps pressureCaps) {
	w := c.launcher
	if caps.measured > 0 && caps.measured < top {
		top, c.binding, c.byShots = caps.measured, "energy.total", true
	}
	if caps.normal.below(top) {
		top, c.binding, c.lowered, c.byShots = caps.normal.at, caps.normal.by, true, false
	}
	stated := *w.Switch
	high := func(cutOut float64) float64 {
		w.Switch.CutOut = MovedBand(stated.CutOut, cutOut)
		w.Switch.GaugeError = w.GaugeErrorFor(stated.GaugeError, cutOut)
		p, _ := w.ReadyHigh()
		return p
	}
	const least = 1.0 // [Pa]
	if high(least) > top {
		w.Switch.CutOut, w.Switch.GaugeError = stated.CutOut, stated.GaugeError
		return
	}
	most := max(top, least)
	holds := func(p float64) bool { return high(p) <= top }
	if d := w.Supply; d != nil && d.DeadHead.Set && d.DeadHead.Nominal < most { // a switch set higher hardly ever stops it
		most, c.deadHead = max(d.DeadHead.Nominal, least), holds(max(d.DeadHead.High, most))
	}
	cut := downTo(bisect(least, most, holds), c.step)
	high(cut)
	w.Switch.CutOut = MovedBand(stated.CutOut, cut)
	if in := c.cutInBelow(stated.CutIn, cut); !math.IsNaN(in) {
		c.cutOut, c.cutIn = cut, in
		w.Switch.CutIn = MovedBand(stated.CutIn, in)
	}
}

// cutInBelow is the highest cut-in that the switch follows with its tolerances, and that
// one shot from the cut-out does not pass; NaN where the tolerances leave no room above zero.
func (c *chain) cutInBelow(stated launcher.Band, cut float64) float64 {
	w := c.launcher
	band := w.Switch.CutOut
	gap := max(band.High-band.Nominal, stated.High-stated.Nominal) // of cut-in, above its nominal value
	top := band.Low - w.Switch.Differential.High
	room := bisect(0, max(top, 0), func(in float64) bool { return max(in+gap, MovedBand(stated, in).High) <= top })
	below := stated.Nominal - stated.Low // its band must not reach zero: it would never start
	if stated.Assumed && stated.Line == 0 {
		below = 1000 // a switch still to be chosen may have a narrower one
	}
	in := min(room, cut-shotDrop(w, cut))
	if !(in > below) {
		in = room // one shot takes more than the switch can follow
	}
	c.byShot = in < room
	if in = downTo(min(in, band.Low*(1-strictly))-c.step, c.step); band.Low > 0 && in > below {
		return in
	}
	return math.NaN()
}

// shotDrop is how far the sensed volume's pressure falls when one nominal shot
// from at [Pa gauge] has been fired and the paths of charging have levelled the
// rest, without the supply: the air of the volumes that empty through the barrel
// is made up by the others.
func shotDrop(l *launcher.Launcher, at float64) float64 {
	emptied := emptiedByShot(l)
	c := new(pneumatics.Circuit)
	l.Fill(c)
	sensed := l.Node(l.Sensed())
	group := l.JoinedTo(sensed)
	var lost, all float64
	for i, v := range c.Volumes {
		if !group[i] {
			continue
		}
		all += v.Volume
		if emptied[i] {
			lost += v.Volume
		}
	}
	if all == 0 {
		return 0
	}
	return at * lost / all
}

// emptiedByShot tells which volumes a shot empties: those with a way to the
// barrel through paths that are open while firing.
func emptiedByShot(l *launcher.Launcher) []bool {
	c := new(pneumatics.Circuit)
	l.Fill(c)
	return graph.Reached(c.Links(), len(c.Volumes), pneumatics.BarrelNode, func(i int, _ graph.Way) bool {
		p := &c.Paths[i]
		valve := p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve
		return p.Kind != pneumatics.Relief && (!valve || p.OpenIn.Has(pneumatics.Firing))
	}).Volumes()
}

// MovedBand is a band with another nominal value and a tolerance that is not
// narrower than before, neither in pascals nor in share of the value. Its low end
// does not go below zero.
func MovedBand(b launcher.Band, nominal float64) launcher.Band {
	share := 1.0
	if b.Nominal > 0 {
		share = max(1, nominal/b.Nominal)
	}
	out := b
	out.Nominal = nominal
	out.Low = max(0, nominal-(b.Nominal-b.Low)*share)
	out.High = nominal + (b.High-b.Nominal)*share
	return out
}

// MoveRelief sets the relief valve to another set pressure; full flow and reseat
// keep their distances, or their shares where the valve is set higher.
func MoveRelief(p *launcher.PathSpec, set float64) {
	old := p.SetPressure
	share := 1.0
	if old.Nominal > 0 {
		share = max(1, set/old.Nominal)
	}
	p.SetPressure = MovedBand(old, set)
	full := p.FullFlowPressure
	above := func(v float64) float64 { return set + (v-old.Nominal)*share }
	p.FullFlowPressure.Low, p.FullFlowPressure.Nominal, p.FullFlowPressure.High = above(full.Low), above(full.Nominal), above(full.High)
	if set != old.Nominal { // a reading at one setting tells nothing of another
		p.SteadyPressure = launcher.Band{Key: p.SteadyPressure.Key}
	}
	reseat := p.ReseatPressure
	below := func(v float64) float64 { return max(0.1*set, set-(old.Nominal-v)*share) }
	p.ReseatPressure.Low, p.ReseatPressure.Nominal, p.ReseatPressure.High = below(reseat.Low), below(reseat.Nominal), below(reseat.High)
}

// withSwitch is a copy of the launcher that has a pressure switch: its own, or
// one with the default tolerances on the supplied volume.
func withSwitch(l *launcher.Launcher) *launcher.Launcher {
	w := l.Clone()
	if w.Switch != nil {
		return w
	}
	band := func(key string, low, nominal, high float64) launcher.Band {
		return launcher.Band{Set: true, Key: "pressure_switch." + key, Low: low, Nominal: nominal, High: high, Assumed: true,
			Reason: assumedSwitch()}
	}
	w.Switch = &launcher.SwitchSpec{Senses: l.Sensed(), Differential: band("differential", 0.05e5, 0.1e5, 0.1e5),
		CutOut: band("cut_out", 0.5e5, 0.6e5, 0.7e5),
		CutIn:  band("cut_in", 0.2e5, 0.3e5, 0.4e5), ReactionTime: band("reaction_time", 0, 0.1, 0.5)}
	w.Switch.GaugeError = w.AssumedGaugeError(w.Switch.Senses, w.Switch.CutOut.Nominal)
	return w
}

// assumedSwitch says what is assumed of a pressure switch that the design lacks.
func assumedSwitch() finding.Text {
	bars := finding.Bars.Of(1e4, 1)
	return finding.Say("the design has no pressure switch; assumed ± %s, a differential of %s and %s (common practice, no source)", bars,
		bars, finding.Seconds.Of(0.5, 1))
}

// addRelief gives the supplied volume a relief valve with the bands that the design
// reader takes for one of which only set pressure and bore are stated; its set
// pressure is still to be chosen. Its bore is the smallest of a row that carries the
// supply [m].
func addRelief(l *launcher.Launcher) (bore float64) {
	const set, tolerance = 0.6e5, 1e4
	of := func(key string, low, nominal, high float64) launcher.Band {
		return launcher.Band{Set: true, Key: "paths.relief." + key, Low: low, Nominal: nominal, High: high, Assumed: true,
			Reason: finding.Words("the design has no relief valve on the supplied volume; the default for one of which only the set pressure is " +
				"stated (common practice, no source)")}
	}
	added := launcher.PathSpec{Name: "relief", From: l.Supply.Feeds, To: "atmosphere", Kind: pneumatics.Relief,
		SetPressure:      of("set_pressure", set-tolerance, set, set+tolerance),
		FullFlowPressure: of("full_flow_pressure", set, set+1e4, 1.5*(set+tolerance)+1e4),
		ReseatPressure:   of("reseat_pressure", 0.85*(set-tolerance), 0.85*set, 0.85*(set+tolerance))}
	l.Paths = append(l.Paths, added)
	at := &l.Paths[len(l.Paths)-1]
	for _, bore = range []float64{5e-3, 8e-3, 12e-3, 20e-3} {
		at.Flow = launcher.FlowSpec{Form: launcher.OrificeBore, Value: launcher.Exact("paths.relief.orifice", bore),
			DischargeCoefficient: launcher.Exact("paths.relief.discharge_coefficient", 0.62)}
		if over := l.Overcharge(); !over.Known || over.Balance <= over.FullFlow {
			break
		}
	}
	return bore
}

// bisect gives the highest value from low to high for which ok holds; ok holds
// at low and, once it fails, fails above.
func bisect(low, high float64, ok func(float64) bool) float64 {
	if ok(high) {
		return high
	}
	low, _ = halving.Between(low, high, 60, func(v float64) bool { return !ok(v) })
	return low
}

// downTo rounds a pressure down to a step, with a tenth of it to spare; step 0
// leaves it.
func downTo(p, step float64) float64 {
	if step == 0 {
		return p
	}
	return step * math.Floor((p-0.1*step)/step)
}

func (p pressureCaps) lowestCap() float64 { c, _ := p.lowest(); return c }
