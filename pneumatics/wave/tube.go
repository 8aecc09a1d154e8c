package wave

import (
	"fmt"
	"math"

	"puffproof/pneumatics/flow"
)

// gas holds the constants that the inner loops need.
type gas struct {
	flow.Gas
	g, gm1, cp, cv float64
}

func newGas(g flow.Gas) gas {
	return gas{Gas: g, g: g.Gamma, gm1: g.Gamma - 1, cp: g.Cp(), cv: g.Cv()}
}

// tube is a row of cells between faces. Each cell keeps its totals of mass,
// momentum and energy, so that what one cell gives its neighbour gets, whatever
// the faces do. Faces move in step with the projectile: x = base + share X.
// Where share differs from 0 the section must be constant, so that the volume
// swept by a face is exactly area times way (geometric conservation).
type tube struct {
	n int // cells

	mass, mom, energy    []float64 // totals per cell [kg], [kg m/s], [J]
	mass0, mom0, energy0 []float64 // the same at the start of the step
	rho, u, p            []float64 // [kg/m3], [m/s], [Pa]
	sound                []float64 // [m/s]
	section              []float64 // mean section of a cell [m2]
	drag                 []float64 // Darcy factor/(2 diameter) of a cell [1/m]

	x, w              []float64 // faces: place [m], speed [m/s]
	base, share, area []float64 // faces: place at X = 0 [m], share of X, section [m2]
	fm, fq, fe        []float64 // through a face, rightwards, per second

	left, right State // at the two ends, of the last sweep

	friction bool
	tapered  bool
	pipe     pipeWall
}

// newTube makes an empty tube with room for cells.
func newTube(room int) *tube {
	t := &tube{}
	for _, s := range []*[]float64{&t.mass, &t.mom, &t.energy, &t.mass0, &t.mom0, &t.energy0, &t.rho, &t.u, &t.p, &t.sound,
		&t.section, &t.drag, &t.x, &t.w, &t.base, &t.share, &t.area, &t.fm, &t.fq, &t.fe} {
		*s = make([]float64, room+1)
	}
	return t
}

// profile gives the section [m2] at a place [m].
type profile func(x float64) float64

// lay places n cells from face first on: equal cells between from and to at X =
// 0, shares rising or falling linearly from shareFrom to shareTo.
func (t *tube) lay(first, n int, from, to, shareFrom, shareTo float64, area profile, darcy float64) {
	if first+n >= len(t.x) {
		panic("wave: tube without room for its cells")
	}
	for i := 0; i <= n; i++ {
		f := float64(i) / float64(n)
		k := first + i
		t.base[k] = from + f*(to-from)
		t.share[k] = shareFrom + f*(shareTo-shareFrom)
		t.area[k] = area(t.base[k])
	}
	t.n = first + n
	for i := first; i < t.n; i++ {
		a, b := t.area[i], t.area[i+1]
		t.section[i] = (a + math.Sqrt(a*b) + b) / 3 // frustum: the profile's diameter is linear
		if a != b {
			t.tapered = true
			if t.share[i] != 0 || t.share[i+1] != 0 {
				panic(fmt.Sprintf("wave: cell %d moves where the section changes", i))
			}
		}
		t.drag[i] = darcy / (2 * math.Sqrt(4*t.section[i]/math.Pi))
		t.friction = t.friction || darcy != 0
	}
}

// place moves the faces to projectile travel x.
func (t *tube) place(x float64) {
	base, share, at := t.base[:t.n+1], t.share[:t.n+1], t.x[:t.n+1]
	for i, b := range base {
		at[i] = b + share[i]*x
	}
}

// fill sets every cell from a state at its centre.
func (t *tube) fill(g *gas, at func(x float64) State) {
	for i := range t.n {
		s := at(0.5 * (t.x[i] + t.x[i+1]))
		v := t.section[i] * (t.x[i+1] - t.x[i])
		t.mass[i] = s.Density * v
		t.mom[i] = s.Density * v * s.Velocity
		t.energy[i] = v * (s.Pressure/g.gm1 + 0.5*s.Density*s.Velocity*s.Velocity)
	}
}

// totals gives the tube's mass and energy.
func (t *tube) totals() (mass, energy float64) {
	for i := range t.n {
		mass += t.mass[i]
		energy += t.energy[i]
	}
	return mass, energy
}

// primitives computes density, velocity and pressure from the totals. It
// reports a cell that lost its positivity.
func (t *tube) primitives(g *gas) bool {
	n := t.n
	x, sec := t.x[:n+1], t.section[:n]
	mass, mom, energy := t.mass[:n], t.mom[:n], t.energy[:n]
	rho, u, p, sound := t.rho[:n], t.u[:n], t.p[:n], t.sound[:n]
	ok := true
	for i := range rho {
		v := sec[i] * (x[i+1] - x[i])
		inv := 1 / v
		m := mass[i]
		im := 1 / m
		ui := mom[i] * im
		rho[i] = m * inv
		u[i] = ui
		pi := g.gm1 * inv * (energy[i] - 0.5*mom[i]*ui)
		p[i] = pi
		sound[i] = math.Sqrt(g.g * pi * v * im)
		if !(m > 0 && pi > 0) {
			ok = false
		}
	}
	return ok
}

// quickest gives the shortest time in which a sound wave crosses a cell [s],
// with the faces moving at share times v.
func (t *tube) quickest(v float64) float64 {
	n := t.n
	x, share, u, sound := t.x[:n+1], t.share[:n+1], t.u[:n], t.sound[:n]
	best := 0.0
	for i, a := range sound {
		c := a + math.Abs(u[i]-0.5*(share[i]+share[i+1])*v)
		best = max(best, c/(x[i+1]-x[i]))
	}
	return 1 / best
}

// save keeps the totals of the step's start.
func (t *tube) save() {
	n := t.n
	copy(t.mass0[:n], t.mass[:n])
	copy(t.mom0[:n], t.mom[:n])
	copy(t.energy0[:n], t.energy[:n])
}

// advance adds dt times the balance of the faces' fluxes; half mixes the result
// half and half with the step's start (Heun's second stage).
func (t *tube) advance(g *gas, dt float64, half bool) {
	n := t.n
	fm, fq, fe := t.fm[:n+1], t.fq[:n+1], t.fe[:n+1]
	mass, mom, energy := t.mass[:n], t.mom[:n], t.energy[:n]
	if t.tapered || t.friction {
		t.sources(g, dt)
	}
	for i := range mass {
		mass[i] += dt * (fm[i] - fm[i+1])
		mom[i] += dt * (fq[i] - fq[i+1])
		energy[i] += dt * (fe[i] - fe[i+1])
	}
	if !half {
		return
	}
	mass0, mom0, energy0 := t.mass0[:n], t.mom0[:n], t.energy0[:n]
	for i := range mass {
		mass[i] = 0.5 * (mass0[i] + mass[i])
		mom[i] = 0.5 * (mom0[i] + mom[i])
		energy[i] = 0.5 * (energy0[i] + energy[i])
	}
}

// sources adds the force of the tapering wall, p dA, and of its friction,
// f/(2 D) m u |u|. Neither does work.
func (t *tube) sources(g *gas, dt float64) {
	if t.pipe.on {
		t.pipeDrag(g)
	}
	for i := range t.n {
		m := t.rho[i] * t.section[i] * (t.x[i+1] - t.x[i])
		t.mom[i] += dt * (t.p[i]*(t.area[i+1]-t.area[i]) - t.drag[i]*m*t.u[i]*math.Abs(t.u[i]))
	}
}
