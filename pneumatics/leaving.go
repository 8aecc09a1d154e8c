package pneumatics

import "math"

// motion is the kinetic energy of the projectile, of the gas that moves with it and of
// the lines' gas that can reach it [J].
func (e *engine) motion(y []float64) float64 {
	return 0.5*e.movingMass(y)*y[e.iX+1]*y[e.iX+1] + e.joinedMotion()
}

// fall is what a barrel that points down still gives a projectile, the way of the jet
// included [J]; 0 where it points up.
func (e *engine) fall(y []float64) float64 {
	return max(0, -e.weight()) * (max(0, e.b.Travel-y[e.iX]) + maxJetTravel*e.jetD)
}

// left bounds what a projectile that no supply feeds can still come to [J]; only on
// leaving, where that alone is asked. Below zero it can leave no more. conditions must be
// those of y.
func (e *engine) left(y []float64) float64 {
	if !e.o.OnlyLeaving {
		return e.remaining(y)
	}
	way := max(0, e.b.Travel-y[e.iX])
	most := e.remaining(y)
	if e.sealed && e.heat == Adiabatic {
		most = min(most, e.atMuzzle(y, way)+e.motion(y)+e.fall(y))
	}
	return most - way*(e.b.Sliding+max(0, e.weight()))
}

// atMuzzle bounds the work of the joined air once the projectile is at the muzzle, way [m]
// from where it is, or beyond it as far as the air still pushes [J]. Nothing flows in: on
// the last part of a long way the air is thinner than ambient and holds back. The most
// work without heat is that of reversible mixing and expansion, at constant entropy:
//
//	W = sum U_i - m cv T - pa A x,  m [cv ln T + R ln(V/m)] = sum m_i [cv ln T_i + R ln(V_i/m_i)]
//
// with V = sum V_i + A x. Source: maximum work of an isolated system (for instance Callen,
// Thermodynamics, chapter 4, from memory).
func (e *engine) atMuzzle(y []float64, way float64) float64 {
	r := e.gas.R
	var mass, volume, energy, entropy float64
	for i := range e.nodes {
		if !e.connected[i] {
			continue
		}
		m, t := y[2*i], e.temp[i]
		v := m * r * t / e.p[i]
		mass, volume, energy = mass+m, volume+v, energy+m*e.cv*t
		entropy += m * (e.cv*math.Log(t) + r*math.Log(v/m))
	}
	at := func(v float64) float64 { // uniform, of the same entropy, in a volume v
		t := math.Exp((entropy/mass - r*math.Log(v/mass)) / e.cv)
		return energy - mass*e.cv*t - e.pa*(v-volume)
	}
	muzzle := volume + e.b.Area*way
	t := math.Exp((entropy/mass - r*math.Log(muzzle/mass)) / e.cv)
	// Isentropic from there to ambient pressure, where that is further on.
	return at(muzzle * max(1, math.Pow(mass*r*t/(muzzle*e.pa), 1/e.gas.Gamma)))
}
