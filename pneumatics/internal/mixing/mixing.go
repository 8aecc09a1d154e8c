// Package mixing bounds the work of volumes of gas that are joined to a space that grows [J].
package mixing

import (
	"math"

	"puffproof/pneumatics/flow"
)

// Gas is the contents of several volumes.
type Gas struct {
	r, cv                         float64
	mass, volume, energy, entropy float64
}

// Of starts with nothing of a gas.
func Of(g *flow.Gas) Gas { return Gas{r: g.R, cv: g.Cv()} }

// Add joins a mass [kg] at a pressure [Pa] and a temperature [K].
func (g *Gas) Add(mass, pressure, temperature float64) {
	v := mass * g.r * temperature / pressure
	g.mass, g.volume, g.energy = g.mass+mass, g.volume+v, g.energy+mass*g.cv*temperature
	g.entropy += mass * (g.cv*math.Log(temperature) + g.r*math.Log(v/mass))
}

// MostWork bounds the work against ambient pressure pa [Pa] once the space has grown by grown [m3], or beyond that as far as the gas
// still pushes [J]. Nothing flows in: on the last part of a long way the gas is thinner than ambient and holds back. The most work
// without heat is that of reversible mixing and expansion, at constant entropy:
//
//	W = sum U_i - m cv T - pa dV,  m [cv ln T + R ln(V/m)] = sum m_i [cv ln T_i + R ln(V_i/m_i)]
//
// with V = sum V_i + dV. Source: maximum work of an isolated system (for instance Callen, Thermodynamics, chapter 4, from memory).
func (g *Gas) MostWork(pa, grown float64) float64 {
	temperature := func(v float64) float64 { // uniform, of the same entropy, in a volume v
		return math.Exp((g.entropy/g.mass - g.r*math.Log(v/g.mass)) / g.cv)
	}
	v := g.volume + grown
	// Isentropic from there to ambient pressure, where that is further on.
	v *= max(1, math.Pow(g.mass*g.r*temperature(v)/(v*pa), g.cv/(g.cv+g.r)))
	return g.energy - g.mass*g.cv*temperature(v) - pa*(v-g.volume)
}

// Available is the availability between the gas as it is and, at the temperature tw [K] of walls that warm it, spread over a space
// that has grown [m3]: U - U' - tw (S - S') - pa dV. Source: the availability of a closed system (for instance Bejan, Advanced
// Engineering Thermodynamics, chapter 3, from memory).
func (g *Gas) Available(tw, pa, grown float64) float64 {
	then := g.mass * (g.cv*math.Log(tw) + g.r*math.Log((g.volume+grown)/g.mass))
	return g.energy - g.mass*g.cv*tw - tw*(g.entropy-then) - pa*grown
}

// Grown is by how much the space has to grow until the gas has the temperature tw [K] and ambient pressure [m3]; not below 0.
func (g *Gas) Grown(tw, pa float64) float64 { return max(0, g.mass*g.r*tw/pa-g.volume) }

// Mass is of all that was added [kg].
func (g *Gas) Mass() float64 { return g.mass }
