package pneumatics

import "puffproof/pneumatics/internal/mixing"

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

// atMuzzle bounds the work of the joined air once the projectile is at the muzzle, way [m] from where it is [J].
func (e *engine) atMuzzle(y []float64, way float64) float64 {
	air := e.reaching(y)
	return air.MostWork(e.pa, e.b.Area*way)
}

// reaching is the air that can reach the barrel; conditions must be those of y.
func (e *engine) reaching(y []float64) mixing.Gas {
	air := mixing.Of(&e.gas)
	for i := range e.nodes {
		if e.connected[i] {
			air.Add(y[2*i], e.p[i], e.temp[i])
		}
	}
	return air
}
