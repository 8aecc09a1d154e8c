package launcher

import (
	"math"
	"slices"

	"puffproof/pneumatics"
	"puffproof/pneumatics/filling"
)

// Resting is where the volumes stand while the supply goes on filling them against something that is open meanwhile, as a bleed that is
// never shut is: in each volume [Pa gauge], as stated, and over the tolerances. It is what a gauge shows, and what a shot starts from.
type Resting struct {
	Open               bool      // something but a relief valve is; else the other fields are empty
	Known              bool      // what the supply delivers is, and it comes to rest
	Ends               bool      // that is what the filling ends at: no person, switch or relief valve ends it before
	Low, Nominal, High []float64 // weak supply and wide ways out in hot thin air; as stated; strong and narrow in cold heavy air
}

// Shown is what a gauge on the sensed volume comes to [Pa gauge]; not set where something else ends the filling.
func (r Resting) Shown(l *Launcher) Band {
	if !r.Ends {
		return Band{}
	}
	n := l.Node(l.Sensed())
	return Band{Set: true, Low: r.Low[n], Nominal: r.Nominal[n], High: r.High[n]}
}

// FiredHigh is the highest gauge pressure of the sensed volume that a shot can be fired from while everything works [Pa]: SoakedHigh, or
// from where the supply comes to rest at the most. Not ok where the design does not tell.
func (l *Launcher) FiredHigh() (gauge float64, ok bool) {
	high, ok := l.SoakedHigh()
	if at := l.Resting().Shown(l); at.Set {
		high = min(high, l.Soak(at.High))
	}
	return high, ok
}

// Resting finds where a supply comes to rest, in the states charging and armed as far as it runs in them: the lower of the two, but for
// High. Ways between volumes are tried all wide and all narrow. Where a timer stops it, it may have got less far, but for High: a fill's
// heat hurries it there and not beyond, as hot air gets out more easily. High is no bound to judge by: holes get blocked (Working).
func (l *Launcher) Resting() (r Resting) {
	if l.Supply == nil || !l.Supply.DeadHead.Set {
		return r
	}
	c := new(pneumatics.Circuit)
	l.Fill(c)
	states := l.fillsIn()
	r.Open = slices.ContainsFunc(states, func(in pneumatics.State) bool { return filling.Open(c, in) })
	if r.Known = r.Open && l.Supply.DeliveryKnown(); !r.Known {
		return r
	}
	weak := restEnd{(*SupplySpec).Weakest, (*Launcher).widened, lowest, (*Launcher).Hottest}
	strong := restEnd{(*SupplySpec).Strongest, (*Launcher).narrowed, highest, (*Launcher).Coldest}
	w, runs := l.stops(), Exact("", math.Inf(1))
	if w.By == StopTimer {
		runs = l.Supply.RunTime
	}
	between := []func(*Launcher, *PathSpec){(*Launcher).widened, (*Launcher).narrowed}[:min(2, len(l.Volumes))]
	for _, in := range states {
		r.take(&r.Nominal, c, in, runs.Nominal, math.Min)
		for _, ways := range between {
			r.take(&r.Low, weak.of(l, ways), in, runs.Low, math.Min)
			r.take(&r.High, strong.of(l, ways), in, math.Inf(1), math.Max)
		}
	}
	r.Ends = r.Known && r.Nominal[l.Node(l.Sensed())] < w.Nominal
	for i, high := range l.HighStart(w.High)[:len(r.High)] {
		r.High[i] = min(r.High[i], high)
	}
	return r
}

// fillsIn are the states before a shot in which the supply runs; one of them where the paths stand alike.
func (l *Launcher) fillsIn() (states []pneumatics.State) {
	runs := func(in pneumatics.State) bool { return !l.Supply.RunsInStated || l.Supply.RunsIn.Has(in) }
	if runs(pneumatics.Charging) {
		states = append(states, pneumatics.Charging)
	}
	moves := slices.ContainsFunc(l.Paths, func(p PathSpec) bool {
		return p.OpenIn.Has(pneumatics.Charging) != p.OpenIn.Has(pneumatics.Armed)
	})
	if runs(pneumatics.Armed) && (moves || len(states) == 0) {
		states = append(states, pneumatics.Armed)
	}
	return states
}

// take picks, volume by volume, between what was found so far and where a circuit comes to rest in a state, or gets within some seconds.
func (r *Resting) take(so *[]float64, c *pneumatics.Circuit, in pneumatics.State, within float64, pick func(a, b float64) float64) {
	rest, ok := filling.Within(c, in, within)
	if !ok {
		r.Known = false
		return
	}
	for i := range *so {
		rest[i] = pick(rest[i], (*so)[i])
	}
	*so = rest
}

// restEnd is one end of the tolerances of where a supply comes to rest. Hot air, and thin air, make it lower: less of it is delivered, and
// by volume as much or more gets out.
type restEnd struct {
	supply func(*SupplySpec)
	out    func(*Launcher, *PathSpec) // moves a way into the open
	air    func(*Band) float64        // of the ambient pressure
	warmth func(*Launcher) float64
}

// of is the circuit there, the ways between volumes moved as between does.
func (e *restEnd) of(l *Launcher, between func(*Launcher, *PathSpec)) *pneumatics.Circuit {
	w := l.withOwnPaths()
	e.supply(w.Supply)
	w.Ambient.Pressure.Nominal, w.Ambient.Temperature.Nominal = e.air(&l.Ambient.Pressure), e.warmth(l)
	for i, k := range l.Links() {
		if k.BetweenVolumes() {
			between(w, &w.Paths[i])
		} else {
			e.out(w, &w.Paths[i])
		}
	}
	c := new(pneumatics.Circuit)
	w.Fill(c)
	for i := range c.Volumes { // a timer fills a large one less far; a rest knows no volume
		c.Volumes[i].Volume = l.Volumes[i].Volume.High
	}
	return c
}

// widened moves a path to the end of its bands where it passes most.
func (l *Launcher) widened(p *PathSpec) {
	moveFlow(p, highest, lowest)
	p.moveSprings(lowest, highest)
}

// narrowed moves it to the other, a long hose to its laminar flow at next to no pressure.
func (l *Launcher) narrowed(p *PathSpec) {
	weakFlow(p)
	l.HoldBack(p, leastBalance)
	p.moveSprings(highest, lowest)
}

// moveSprings moves what a path opens at to one end of its bands, and what a regulator passes up to, to the other.
func (p *PathSpec) moveSprings(opens, upTo func(*Band) float64) {
	for _, b := range []*Band{&p.CrackingPressure, &p.SeatShare, &p.OpensAt, &p.FullAt} {
		b.Nominal = opens(b)
	}
	switch shift := opens(&p.SetPressure) - p.SetPressure.Nominal; p.Kind {
	case pneumatics.Regulator:
		p.SetPressure.Nominal, p.Creep.Nominal = upTo(&p.SetPressure), upTo(&p.Creep)
	case pneumatics.Relief:
		p.SetPressure.Nominal, p.FullFlowPressure.Nominal, p.ReseatPressure.Nominal = p.SetPressure.Nominal+shift,
			p.FullFlowPressure.Nominal+shift, p.ReseatPressure.Nominal+shift
	}
}
