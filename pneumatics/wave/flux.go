package wave

import "math"

// limit is van Leer's limiter: the harmonic mean of two slopes of one sign, else
// zero. Source: van Leer, J. Comput. Phys. 14 (1974) 361.
func limit(a, b float64) float64 {
	if ab := a * b; ab > 0 {
		return 2 * ab / (a + b)
	}
	return 0
}

// oneSided is the slope of a cell at the tube's end from its neighbour, inner,
// and the next difference; zero at an extremum.
func oneSided(near, next float64) float64 {
	if near*next <= 0 {
		return 0
	}
	if math.Abs(near) > 2*math.Abs(next) {
		return 2 * next
	}
	return near
}

// sweep computes the fluxes of all inner faces from the primitives and gives the
// states at the two ends, which the boundaries need.
func (t *tube) sweep(g *gas, v float64) (left, right State) {
	n := t.n
	rho, u, p, sound := t.rho[:n], t.u[:n], t.p[:n], t.sound[:n]
	area, share := t.area[:n+1], t.share[:n+1]
	fm, fq, fe := t.fm[:n+1], t.fq[:n+1], t.fe[:n+1]
	dr, du, dp := rho[1]-rho[0], u[1]-u[0], p[1]-p[0]
	sr, su, sp := t.endSlope(0, 1)
	left = State{rho[0] - sr, u[0] - su, p[0] - sp}
	l := State{rho[0] + sr, u[0] + su, p[0] + sp}
	for i := 1; i < n; i++ {
		if i < n-1 {
			er, eu, ep := rho[i+1]-rho[i], u[i+1]-u[i], p[i+1]-p[i]
			sr, su, sp = 0.5*limit(dr, er), 0.5*limit(du, eu), 0.5*limit(dp, ep)
			dr, du, dp = er, eu, ep
		} else {
			sr, su, sp = t.endSlope(n-1, -1)
			sr, su, sp = -sr, -su, -sp
		}
		w := share[i] * v
		m, q, e := hllc(g.gm1, l, State{rho[i] - sr, u[i] - su, p[i] - sp}, sound[i-1], sound[i], w)
		fm[i], fq[i], fe[i] = area[i]*m, area[i]*q, area[i]*e
		l = State{rho[i] + sr, u[i] + su, p[i] + sp}
	}
	return left, l
}

// endSlope gives half the differences across the end cell i towards its
// neighbour in direction dir. Where it would take more than half of density or
// pressure away the cell stays flat.
func (t *tube) endSlope(i, dir int) (sr, su, sp float64) {
	j, k := i+dir, i+2*dir
	half := func(s []float64) float64 { return 0.5 * oneSided(s[j]-s[i], s[k]-s[j]) }
	sr, su, sp = half(t.rho), half(t.u), half(t.p)
	if math.Abs(sr) > 0.5*t.rho[i] || math.Abs(sp) > 0.5*t.p[i] {
		return 0, 0, 0
	}
	return sr, su, sp
}

// hllc gives the fluxes of mass, momentum and energy per area through a face
// that moves at w between two states: the HLLC flux in the face's frame, carried
// back to the tube's frame. al and ar are the sound speeds of the cells beside
// the face; they serve as those of the states, which they bound closely enough
// for the two outer waves, and save half of the square roots.
// Source: Toro (2009), section 10.4; wave speeds after Davis (10.38).
func hllc(gm1 float64, l, r State, al, ar, w float64) (m, q, e float64) {
	ul, ur := l.Velocity-w, r.Velocity-w
	pl, pr := l.Pressure, r.Pressure
	sl, sr := min(ul-al, ur-ar), max(ul+al, ur+ar)
	dl, dr := l.Density*(sl-ul), r.Density*(sr-ur)
	sm := (pr - pl + dl*ul - dr*ur) / (dl - dr)
	if sm >= 0 {
		m, q, e = throughStar(pl/gm1, l.Density, ul, pl, sl, dl, sm)
	} else {
		// The same seen from the other side.
		m, q, e = throughStar(pr/gm1, r.Density, -ur, pr, -sr, -dr, -sm)
		m, e = -m, -e
	}
	return m, q + w*m, e + w*(q+0.5*w*m)
}

// throughStar gives the flux from a state on the left whose wave runs at s, the
// contact at sm >= 0, all in the face's frame; d is rho (s - u), ei the internal
// energy per volume.
func throughStar(ei, rho, u, p, s, d, sm float64) (m, q, e float64) {
	el := ei + 0.5*rho*u*u
	if s >= 0 {
		m = rho * u
		return m, m*u + p, u * (el + p)
	}
	ps := p + d*(sm-u)
	k := sm / (s - sm)
	m = d * k
	return m, m*sm + ps, ((s-u)*el-p*u+ps*sm)*k + ps*sm
}
