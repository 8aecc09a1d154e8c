package wave

import (
	"fmt"
	"math"

	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
)

// barrel makes the projectile and the tubes behind and ahead of it.
func (r *runner) barrel() error {
	b := &r.c.Barrel
	s := &r.shot
	*s = projectile{present: true, mass: b.Mass, area: b.Area, weight: b.Mass * 9.80665 * b.SinPitch,
		breakaway: max(b.Breakaway, b.Sliding), restart: max(b.Breakaway, b.Sliding), sliding: b.Sliding,
		x: min(max(r.sc.Seat, 0), b.Travel), held: true, front: r.o.Ahead, back: r.o.BackPressure}
	if b.Restart > 0 {
		s.restart = max(b.Restart, b.Sliding)
	}
	if b.LeakArea > 0 {
		s.leak = flow.Nozzle(b.LeakArea, b.LeakCd)
	}
	// No bore holds the air ahead of a projectile over a tube.
	s.overTube = b.Fit == pneumatics.OverTube
	if (r.sc.Parts.NoAirAhead || s.overTube) && s.front == AheadTube {
		s.front, s.back = AheadPressure, r.pa
	}
	s.still = State{r.g.Density(r.pa, r.ta), 0, r.pa}
	r.dead = b.DeadVolume
	if !r.feed.own {
		r.dead -= volumeOf(r.feed.after)
	}
	if !(r.dead > 0) && len(r.o.After) > 0 {
		return fmt.Errorf("wave: a dead volume of %.4g mL holds less than the hose after the valve, %.4g mL",
			1e6*b.DeadVolume, 1e6*volumeOf(r.o.After))
	}
	lay := r.layBehind
	if s.overTube {
		lay = r.layOverTube
	}
	if err := lay(); err != nil {
		return err
	}
	cond := r.barrelCondition()
	inside := State{r.g.Density(cond.Pressure, cond.Temperature), 0, cond.Pressure}
	s.behind.place(s.x)
	s.behind.fill(&r.g, func(float64) State { return inside })
	r.tubes = append(r.tubes, s.behind)
	if s.overTube {
		r.breech.place(0)
		r.breech.fill(&r.g, func(float64) State { return inside })
		r.tubes = append(r.tubes, r.breech)
	}
	if s.front == AheadTube {
		r.layAhead()
	}
	return nil
}

// barrelCondition is that of the gas between valve and projectile at the start.
func (r *runner) barrelCondition() pneumatics.Condition {
	if c := r.sc.Barrel; c.Pressure > 0 {
		return c
	}
	return pneumatics.Condition{Pressure: r.pa, Temperature: r.ta}
}

// nosePart is the length of the chamber between the tube's end and the inside of
// the nose at the rearmost seat, in diameters of the chamber, and noseShare the
// most of the dead volume that it may be: designs do not state it. From 0.1 to 1
// the muzzle speed changes by less than 0.2 % (TestNoseGapHardlyMatters). The
// chamber begins with minChamberCells: shorter cells would only cost steps.
const (
	nosePart        = 0.5
	noseShare       = 0.25
	minChamberCells = 3
)

// layOverTube makes the launch tube, whose volume is the dead volume but for the
// gap at the nose, and the chamber that grows from the tube's end to the nose.
func (r *runner) layOverTube() error {
	b := &r.c.Barrel
	if !(b.ExitArea > 0 && r.dead > 0) {
		return fmt.Errorf("wave: a launch tube of %.3g mm2 inside with %.3g mL of dead volume holds no gas", 1e6*b.ExitArea, 1e6*r.dead)
	}
	seat := r.shot.x
	gap := min(r.nose*2*math.Sqrt(b.Area/math.Pi), noseShare*r.dead/b.Area)
	length := (r.dead - gap*b.Area) / b.ExitArea
	r.target = (length + gap + b.Travel) / float64(r.o.Cells)
	count := func(length float64, least int) int { return max(least, int(math.Round(length/r.target))) }
	chamber := newTube(4*r.o.Cells + 64)
	chamber.lay(0, count(gap+seat, minChamberCells), -gap, 0, 0, 1, func(float64) float64 { return b.Area }, r.o.Darcy)
	cells := count(length, minPieceCells)
	launch := newTube(cells)
	launch.lay(0, cells, -gap-length, -gap, 0, 0, func(float64) float64 { return b.ExitArea }, r.o.Darcy)
	r.shot.behind, r.breech = chamber, launch
	r.steps = append(r.steps, newStep(&r.g, launch, chamber, 0, 0))
	return nil
}

// layBehind makes the tube from the breech to the base: the dead volume and
// the way travelled.
func (r *runner) layBehind() error {
	b := &r.c.Barrel
	bore := 2 * math.Sqrt(b.Area/math.Pi)
	plain := r.dead / b.Area
	seat := r.shot.x
	if plain+seat < 1e-3*bore {
		return fmt.Errorf("wave: no gas behind the projectile: dead volume and seat leave %.3g mm of bore, at least %.3g mm",
			1e3*(plain+seat), bore)
	}
	neck, taper, chamber, wide := plain, 0.0, 0.0, bore
	if d := r.o.ChamberBore; d > 0 && d != bore {
		wide = d
		neck = 0.5 * bore
		taper = 0.5 * math.Abs(d-bore)
		frustum := math.Pi / 12 * taper * (d*d + d*bore + bore*bore)
		chamber = (r.dead - neck*b.Area - frustum) / (math.Pi / 4 * d * d)
		if chamber < 0 {
			return fmt.Errorf("wave: a dead volume of %.3g mL is too small for a chamber of %.3g mm with its taper and neck",
				1e6*r.dead, 1e3*d)
		}
	}
	r.target = (neck + taper + chamber + b.Travel) / float64(r.o.Cells)
	count := func(length float64, least int) int { return max(least, int(math.Round(length/r.target))) }
	t := newTube(4*r.o.Cells + 64)
	section := func(x float64) float64 {
		f := 0.0
		if taper > 0 {
			f = min(max((-neck-x)/taper, 0), 1)
		}
		d := bore + f*(wide-bore)
		return math.Pi / 4 * d * d
	}
	if chamber > 0 {
		n := count(chamber, 4)
		t.lay(0, n, -neck-taper-chamber, -neck-taper, 0, 0, section, r.o.Darcy)
		m := count(taper, 4)
		t.lay(n, m, -neck-taper, -neck, 0, 0, section, r.o.Darcy)
		r.fixed = n + m
	}
	// Cells are equal at the seat: the shares make them so at any travel.
	t.lay(r.fixed, count(neck+seat, 8), -neck, 0, 0, 1, func(float64) float64 { return b.Area }, r.o.Darcy)
	r.shot.behind, r.breech = t, t
	return nil
}

// layAhead makes the tube from the front to the open end.
func (r *runner) layAhead() {
	b := &r.c.Barrel
	s := &r.shot
	end := b.Travel + endCorrection*math.Sqrt(b.Area/math.Pi)
	n := 8
	for float64(n)*2*r.target < end-s.x {
		n *= 2
	}
	t := newTube(n + 8)
	t.lay(0, n, 0, end, 1, 0, func(float64) float64 { return b.Area }, r.o.Darcy)
	t.place(s.x)
	t.fill(&r.g, func(float64) State { return s.still })
	s.ahead = t
	r.tubes = append(r.tubes, t)
	r.joints = append(r.joints, joint{tube: t, right: true, node: outside, path: -1,
		port: port{g: &r.g, area: b.Area, open: true}})
}
