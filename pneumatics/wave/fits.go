package wave

import (
	"errors"
	"fmt"

	"puffproof/pneumatics"
)

// fits finds the path to the barrel and says why a circuit does not fit.
func (r *runner) fits() (path int, err error) {
	c, sc, o := r.c, r.sc, r.o
	var bad []error
	add := func(no bool, format string, a ...any) {
		if no {
			bad = append(bad, fmt.Errorf("wave: "+format, a...))
		}
	}
	add(!c.Barrel.Present, "the circuit has no barrel")
	add(c.Barrel.Fit == pneumatics.OverTube && o.ChamberBore > 0, "a launch tube has no chamber of another bore")
	add(sc.NoProjectile, "no projectile is loaded")
	add(sc.MuzzleClosed, "the wave model takes an open muzzle")
	add(sc.Heat != pneumatics.Adiabatic, "the wave model is adiabatic; a shot is too short for wall heat")
	add(len(sc.Volumes) != len(c.Volumes), "scenario with %d start conditions for %d volumes", len(sc.Volumes), len(c.Volumes))
	add(o.Cells < 8, "%d cells are too few, at least 8", o.Cells)
	add(!(o.Courant > 0 && o.Courant <= 1), "a Courant number of %g is outside 0 to 1", o.Courant)
	bad = append(bad, checkLine("before", o.Before)...)
	bad = append(bad, checkLine("after", o.After)...)
	path, why := r.feeder()
	if path >= 0 {
		p := &c.Paths[path]
		add(len(p.Before)+len(p.After) > 0 && len(o.Before)+len(o.After) > 0,
			"path %q has lines of its own, so the options' hoses have no place", p.Name)
	}
	return path, errors.Join(append(bad, why...)...)
}

// feeder finds the one path that feeds the barrel: from a vessel, or from the
// atmosphere where none comes from a vessel. What else joins the barrel and the
// atmosphere is a vent or a bleed hole.
func (r *runner) feeder() (path int, bad []error) {
	var vessels, outer []int
	g := newGas(r.c.Gas)
	for i := range r.c.Paths {
		p := &r.c.Paths[i]
		if p.From != pneumatics.BarrelNode && p.To != pneumatics.BarrelNode || p.Flow.IsZero() {
			continue
		}
		v := newValve(&g, p, r.sc, i)
		switch fromVessel := p.From >= 0 || p.To >= 0; {
		case v.peak() == 0:
		case fromVessel && v.spring:
			bad = append(bad, fmt.Errorf("wave: path %q: a %s to the barrel is not resolved by the wave model", p.Name, p.Kind))
		case fromVessel:
			vessels = append(vessels, i)
		case !v.spring:
			outer = append(outer, i)
		}
	}
	if len(vessels) == 0 {
		vessels = outer
	}
	if len(vessels) == 0 {
		return -1, append(bad, errors.New("wave: no path opens to the barrel in this scenario"))
	}
	for _, i := range vessels[1:] {
		bad = append(bad, fmt.Errorf("wave: path %q: the wave model takes one path that feeds the barrel", r.c.Paths[i].Name))
	}
	return vessels[0], bad
}
