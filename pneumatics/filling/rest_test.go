package filling

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
)

const (
	pa, ta = 101325.0, 293.15 // [Pa], [K]
	bars   = 1e5              // [Pa]
)

// bled is a supply into a tank from which one path leads into the open.
func bled(volume float64, s *pneumatics.Supply, out flow.Restriction) *pneumatics.Circuit {
	return &pneumatics.Circuit{Gas: flow.Air(), Ambient: pneumatics.Ambient{Pressure: pa, Temperature: ta},
		Volumes: []pneumatics.Volume{{Name: "tank", Volume: volume}}, Supply: s,
		Paths: []pneumatics.Path{{Name: "bleed", From: 0, To: pneumatics.Atmosphere, Kind: pneumatics.Orifice, Flow: out}}}
}

func rest(t *testing.T, c *pneumatics.Circuit) []float64 {
	t.Helper()
	gauge, ok := Rest(c, pneumatics.Charging)
	require.True(t, ok)
	return gauge
}

// ISO 6358-1:2013, equations 1 and 2, solved by hand: a part of conductance C and critical ratio b passes m = C rho0 p sqrt(T0/T) choked,
// and sqrt(1 - ((r-b)/(1-b))^2) times that below, r = pa/p. A supply that delivers Q of free air at every pressure stands at
//
//	p = Q pa/(R T) / (C rho0 sqrt(T0/T))                        choked
//	p sqrt(1 - ((pa/p - b)/(1 - b))^2) = the same                below
//
// rho0 = 1.185 kg/m3, T0 = 293.15 K. 2e-4: what counts as still.
func TestRestAgainstAConductance(t *testing.T) {
	const free, b = 6e-3 / 60, 0.3
	supply := &pneumatics.Supply{FreeAir: free, DeadHead: 50 * bars,
		Curve: []pneumatics.SupplyPoint{{Gauge: 0, FreeAir: free}, {Gauge: 49 * bars, FreeAir: free}}}
	inflow := free * pa / (flow.Air().R * ta)
	choked := func(conductance float64) float64 { return inflow / (conductance * 1.185 * math.Sqrt(293.15/ta)) }
	small := choked(2e-10)
	require.Less(t, pa/small, b, "it is choked")
	assert.InEpsilon(t, small-pa, rest(t, bled(2e-3, supply, flow.SonicConductance(2e-10, b)))[0], 2e-4)
	p := rest(t, bled(2e-3, supply, flow.SonicConductance(2e-9, b)))[0] + pa
	require.Greater(t, pa/p, b, "it is not")
	assert.InEpsilon(t, choked(2e-9), p*math.Sqrt(1-math.Pow((pa/p-b)/(1-b), 2)), 2e-4)
}

// The size of the vessel has no part in where it stands, only in how long that takes: a thousandth and a million times the volume, the last
// for days.
func TestRestKnowsNoVolume(t *testing.T) {
	supply := &pneumatics.Supply{FreeAir: 3e-3 / 60, DeadHead: 0.22 * bars}
	hole := flow.Nozzle(math.Pi/4*0.4e-3*0.4e-3, 0.65)
	of := func(volume float64) float64 { return rest(t, bled(volume, supply, hole))[0] }
	assert.InEpsilon(t, of(2e-4), of(2e-7), 1e-3)
	assert.InEpsilon(t, of(2e-4), of(200), 1e-3)
	assert.Less(t, of(2e-4), 0.22*bars)
}

// A supply that hardly delivers any more once there is some pressure takes hours, which its delivery from empty does not tell: it is waited
// for. Choked as in TestRestAgainstAConductance, 1e-6 m3/s at 5 bar absolute. 1e-3: it creeps up to it, and what counts as still.
func TestRestIsWaitedFor(t *testing.T) {
	const free, p = 1e-6, 5 * bars
	supply := &pneumatics.Supply{FreeAir: 1e-3, DeadHead: 50 * bars,
		Curve: []pneumatics.SupplyPoint{{Gauge: 0, FreeAir: 1e-3}, {Gauge: 1000, FreeAir: free}, {Gauge: 49 * bars, FreeAir: free}}}
	conductance := free * pa / (flow.Air().R * ta) / (1.185 * p)
	assert.InEpsilon(t, p-pa, rest(t, bled(1e-3, supply, flow.SonicConductance(conductance, 0.3)))[0], 1e-3)
}

// In series each part passes what the supply delivers: the supplied volume stands above the other by what the part between needs. By hand
// from the far end, with the nozzle m = Cd A p sqrt(2 k/((k-1) R T) (r^(2/k) - r^((k+1)/k))). 1e-3: gas constants to three digits.
func TestRestInSeries(t *testing.T) {
	const area, cd, k = math.Pi / 4 * 0.5e-3 * 0.5e-3, 0.7, 1.4
	supply := &pneumatics.Supply{FreeAir: 4e-3 / 60, DeadHead: 0.5 * bars}
	c := bled(1e-3, supply, flow.Nozzle(area, cd))
	c.Volumes = append(c.Volumes, pneumatics.Volume{Name: "far", Volume: 3e-3})
	c.Paths[0].From = 1
	c.Paths = append(c.Paths, pneumatics.Path{Name: "between", From: 0, To: 1, Kind: pneumatics.Orifice, Flow: flow.Nozzle(2*area, cd)})
	at := rest(t, c)
	passes := func(a, p1, p2 float64) float64 {
		r := p2 / p1
		return cd * a * p1 * math.Sqrt(2*k/((k-1)*287*ta)*(math.Pow(r, 2/k)-math.Pow(r, (k+1)/k)))
	}
	delivered := 4e-3 / 60 * (1 - at[0]/(0.5*bars)) * pa / (287 * ta)
	assert.InEpsilon(t, delivered, passes(area, pa+at[1], pa), 1e-3)
	assert.InEpsilon(t, delivered, passes(2*area, pa+at[0], pa+at[1]), 1e-3)
}

// Open asks of the supplied volume alone, and of what lets air out at every pressure: neither a relief valve nor a tight projectile does, a
// gap around one does, and what leaks there counts at the rest too.
func TestOpen(t *testing.T) {
	supply := &pneumatics.Supply{FreeAir: 4e-3 / 60, DeadHead: 0.5 * bars}
	hole := flow.Nozzle(1e-7, 0.7)
	open := func(change func(*pneumatics.Circuit)) bool {
		c := bled(1e-3, supply, hole)
		change(c)
		return Open(c, pneumatics.Charging)
	}
	assert.True(t, open(func(*pneumatics.Circuit) {}))
	assert.False(t, open(func(c *pneumatics.Circuit) { c.Supply = nil }))
	assert.False(t, open(func(c *pneumatics.Circuit) { c.Paths[0].Kind = pneumatics.Relief }))
	assert.False(t, open(func(c *pneumatics.Circuit) { c.Paths[0].Kind = pneumatics.Valve }))
	assert.True(t, open(func(c *pneumatics.Circuit) {
		c.Paths[0].Kind, c.Paths[0].OpenIn = pneumatics.Valve, pneumatics.SetOf(pneumatics.Charging)
	}))
	barrel := func(gap float64) func(*pneumatics.Circuit) {
		return func(c *pneumatics.Circuit) {
			c.Paths[0].To = pneumatics.BarrelNode
			c.Barrel = pneumatics.Barrel{Present: true, Area: 1e-3, DeadVolume: 1e-5, Travel: 0.1, Mass: 0.01, LeakArea: gap, LeakCd: 0.6,
				ExitArea: 1e-3}
		}
	}
	assert.False(t, open(barrel(0)))
	assert.True(t, open(barrel(1e-6)))
	wide, narrow := bled(1e-3, supply, hole), bled(1e-3, supply, hole)
	barrel(1e-5)(wide)
	barrel(1e-8)(narrow)
	assert.InEpsilon(t, rest(t, bled(1e-3, supply, hole))[0], rest(t, wide)[0], 0.01, "the gap is a hundred times the hole")
	assert.Greater(t, rest(t, narrow)[0], 1.3*rest(t, wide)[0])
}
