package mixing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/pneumatics/flow"
)

const pa = 101325.0 // [Pa], ISO 2533

// TestOneVolume: gas that is in one place expands isentropically, or at constant temperature beside walls of its own temperature. Closed
// forms of the perfect gas: W = p V/(gamma-1) (1 - (V/V')^(gamma-1)) - pa dV, and m R T ln(V'/V) - pa dV.
func TestOneVolume(t *testing.T) {
	air := flow.Air()
	const p, temp, v, grown = 3e5, 300.0, 2e-3, 3e-3
	mass := p * v / (air.R * temp)
	g := Of(&air)
	g.Add(mass, p, temp)
	k := air.Gamma - 1
	// 1e-12: a dozen roundings of figures a thousand times as large.
	assert.InEpsilon(t, p*v/k*(1-math.Pow(v/(v+grown), k))-pa*grown, g.MostWork(pa, grown), 1e-12)
	assert.InEpsilon(t, mass*air.R*temp*math.Log((v+grown)/v)-pa*grown, g.Available(temp, pa, grown), 1e-12)
	assert.InEpsilon(t, v*(p/pa-1), g.Grown(temp, pa), 1e-12, "Boyle")
	assert.Equal(t, mass, g.Mass())

	// Where it has grown further than to ambient pressure it does what it does to there, and is held back from then on.
	full := v * (math.Pow(p/pa, 1/air.Gamma) - 1)
	assert.InEpsilon(t, p*v/k*(1-math.Pow(pa/p, k/air.Gamma))-pa*full, g.MostWork(pa, 0), 1e-12, "the gas still pushes beyond")
	assert.Less(t, g.MostWork(pa, 3*full), g.MostWork(pa, full))
}

// TestTwoVolumes: two halves of one state are the whole; two of different pressure give the work of an ideal machine between them too:
// at one temperature p1 V ln(p1/pm) + p2 V ln(p2/pm), pm their mean.
func TestTwoVolumes(t *testing.T) {
	air := flow.Air()
	const temp, v = 300.0, 1e-3
	add := func(g *Gas, p float64) { g.Add(p*v/(air.R*temp), p, temp) }
	halves, whole, apart := Of(&air), Of(&air), Of(&air)
	add(&halves, 3e5)
	add(&halves, 3e5)
	whole.Add(2*3e5*v/(air.R*temp), 3e5, temp)
	assert.InEpsilon(t, whole.MostWork(pa, 2*v), halves.MostWork(pa, 2*v), 1e-12)
	add(&apart, 4e5)
	add(&apart, 2e5)
	assert.InEpsilon(t, 4e5*v*math.Log(4.0/3)+2e5*v*math.Log(2.0/3), apart.Available(temp, pa, 0), 1e-11)
	assert.Zero(t, (&Gas{r: air.R, mass: 1e-3, volume: 1}).Grown(temp, pa), "thinner than ambient")
}
