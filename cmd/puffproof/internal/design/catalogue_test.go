package design

import (
	"math"
	"math/rand/v2"
	"os"
	"reflect"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/catalogue"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
	"puffproof/testdata/compare/random"
)

// No band is forgotten: whatever band of a design is moved to one of its ends, what a
// shot is computed from stays the same, unless the band is a coordinate of the question,
// moves along with one, or counts at one end anyway, for the reason that the catalogue
// gives. By construction, over random designs and over what those lack; PUFFPROOF_LONG=1 asks many more.
func TestNoBandIsForgotten(t *testing.T) {
	designs := 20 // they have every kind of path
	switch {
	case os.Getenv("PUFFPROOF_LONG") != "":
		designs = 1000
	case os.Getenv("PUFFPROOF_MORE") != "":
		designs = 40
	}
	moved, seen := 0, map[pneumatics.PathKind]bool{}
	for seed := range uint64(designs) {
		l, problems := Read("random.toml", random.Design(seed))
		if len(problems) > 0 {
			continue
		}
		vary(l, rand.New(rand.NewPCG(seed, 5)))
		high, ok := l.SoakedHigh()
		if !ok {
			high = 1e5
		}
		for _, p := range l.Paths {
			seen[p.Kind] = true
		}
		stated := shotReads(l, high)
		statedAtEnd := atEnd(slices.Clone(stated))
		for i, q := range catalogue.Of(l, high) {
			if !q.Band.Set || q.Use != 0 || q.Follows {
				continue
			}
			require.NotEmpty(t, q.Why, "%d: %s", seed, q.Key)
			for _, end := range [2]float64{q.Band.Low, q.Band.High} {
				moved++
				w := l.Clone()
				b := catalogue.Of(w, high)[i].Band
				b.Low, b.Nominal, b.High = end, end, end
				was, now := stated, shotReads(w, high)
				if q.AtEnd != "" {
					was, now = statedAtEnd, atEnd(now)
				}
				assert.True(t, reflect.DeepEqual(was, now), "seed %d: %s at %g changes the shot; the catalogue says: %s", seed, q.Key, end, q.Why)
			}
		}
	}
	assert.Greater(t, moved, 20*designs)
	assert.Len(t, seen, 8, "every kind of path")
}

// vary adds to a design what random ones seldom or never have.
func vary(l *launcher.Launcher, r *rand.Rand) {
	chance := func(p float64) bool { return r.Float64() < p }
	band := func(key string, nominal, share float64) launcher.Band {
		return launcher.Band{Set: true, Key: key, Nominal: nominal, Low: nominal * (1 - share), High: nominal * (1 + share)}
	}
	nodes := []string{"barrel"}
	for i := range l.Volumes {
		nodes = append(nodes, l.Volumes[i].Name)
	}
	top, ok := l.NormalHigh()
	if !ok {
		top = 1e5
	}
	for _, at := range nodes {
		if !chance(0.3) {
			continue
		}
		set := top * (0.3 + 1.4*r.Float64())
		p := launcher.PathSpec{Name: "relief_" + at + "_too", From: at, To: "atmosphere", Kind: pneumatics.Relief,
			Flow:        launcher.FlowSpec{Form: launcher.OrificeBore, Value: band("bore", 3e-3, 0.1), DischargeCoefficient: band("cd", 0.6, 0.2)},
			SetPressure: band("set", set, 0.1), FullFlowPressure: band("full", 1.3*set, 0.1), ReseatPressure: band("reseat", 0.8*set, 0.1)}
		if chance(0.3) {
			p.Hose = &launcher.HoseSpec{Bore: band("relief bore", 6e-3, 0.1), Length: band("relief length", 0.4, 0.1),
				Conductance: band("relief conductance", 1, 0.1), Side: launcher.HoseSide(r.IntN(2))}
		}
		l.Paths = append(l.Paths, p)
	}
	for i := range l.Paths {
		p := &l.Paths[i]
		if p.Kind == pneumatics.Valve && chance(0.2) {
			p.Pulse = band("pulse", 0.1, 0.2)
		}
		if p.Hose == nil && p.Kind != pneumatics.Relief && chance(0.2) {
			p.Hose = &launcher.HoseSpec{Bore: band("bore", 6e-3, 0.1), Length: band("length", 0.4, 0.1),
				Conductance: band("conductance", 1, 0.1), Side: launcher.HoseSide(r.IntN(2))}
		}
		if p.From != "atmosphere" && p.To != "barrel" && p.To != "atmosphere" && chance(0.2) {
			*p = launcher.PathSpec{Name: p.Name, From: p.From, To: p.To, Kind: pneumatics.Regulator, Flow: p.Flow, Hose: p.Hose,
				SetPressure: band("regulator", 0.6*top, 0.2), Droop: band("droop", 0.05*top, 0.5), Creep: band("creep", 0.05*top, 1)}
		}
	}
	if s := l.Supply; s != nil && chance(0.3) {
		s.Curve = []launcher.CurvePoint{{Gauge: 0, FreeAir: 2e-4}, {Gauge: 0.5 * s.DeadHead.Nominal, FreeAir: 1e-4}}
		if chance(0.5) {
			s.FreeAir = launcher.Band{}
		}
	}
	if s := l.Supply; s != nil && chance(0.3) {
		s.Feeds = l.Volumes[r.IntN(len(l.Volumes))].Name
	}
	if chance(0.5) {
		l.Mount.ElevationMin, l.Mount.ElevationMax = band("mount.elevation_min", -0.3, -0.2), band("mount.elevation_max", 0.9, 0.1)
	}
}

// shotReading is what a shot is computed from, as far as it can bear on it.
type shotReading struct {
	Ambient  pneumatics.Ambient
	Gas      flow.Gas
	Volumes  map[string]pneumatics.Volume
	Starts   map[string]pneumatics.Condition
	Paths    map[string]pneumatics.Path
	Barrel   pneumatics.Barrel
	Supply   pneumatics.Supply
	Scenario pneumatics.Scenario
	Top      float64
	Speed    float64
	Ceiling  float64
}

// atEnd leaves out what the upper end of a band counts in.
func atEnd(all []shotReading) []shotReading {
	for i := range all {
		all[i].Top, all[i].Speed, all[i].Starts, all[i].Ceiling = 0, 0, nil, 0
	}
	return all
}

// shotReads are those of shots from half and all of a start, from each state before,
// with every coordinate in its middle.
func shotReads(l *launcher.Launcher, high float64) (out []shotReading) {
	b := worst.NewBox(l, worst.EnergyQuestion(l, high))
	e := b.Evaluator()
	top, _ := l.SoakedHigh()
	for _, start := range []float64{0.5, 1} {
		for _, from := range []float64{0, 1} {
			u := make([]float64, b.Dim)
			for i := range u {
				u[i] = 0.5
			}
			u[b.Start] = start
			if b.From >= 0 {
				u[b.From] = from
			} else if from > 0 {
				continue // there is one state only
			}
			c, sc := e.Setup(u)
			one := bearing(l, c, sc)
			one.Speed, one.Top = worst.MovingAt(l), top
			// To nine digits: the air of a line is summed over its cells, of which a fast valve wants more.
			one.Ceiling, _ = strconv.ParseFloat(strconv.FormatFloat((&worst.CeilingAt{Evaluator: e}).Value(u), 'g', 9, 64), 64)
			out = append(out, one)
		}
	}
	return out
}

// bearing keeps of a circuit and a scenario what a shot can feel: a walk of its own from
// the barrel over all that is open while firing, or was before and takes time to shut.
func bearing(l *launcher.Launcher, c *pneumatics.Circuit, sc *pneumatics.Scenario) shotReading {
	near := map[pneumatics.Node]bool{pneumatics.BarrelNode: true}
	passes := func(p *pneumatics.Path) bool {
		valve := p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve
		before := p.OpenIn.Has(pneumatics.Armed) || p.OpenIn.Has(pneumatics.Charging)
		return !valve || p.OpenIn.Has(pneumatics.Firing) || before && p.ClosingTime > 0
	}
	for range c.Paths {
		for i := range c.Paths {
			p := &c.Paths[i]
			if p.Kind == pneumatics.Relief || !passes(p) || !near[p.From] && !near[p.To] {
				continue
			}
			for _, n := range [2]pneumatics.Node{p.From, p.To} {
				if n != pneumatics.Atmosphere {
					near[n] = true
				}
			}
		}
	}
	out := shotReading{Ambient: c.Ambient, Gas: c.Gas, Barrel: c.Barrel, Volumes: map[string]pneumatics.Volume{},
		Starts: map[string]pneumatics.Condition{}, Paths: map[string]pneumatics.Path{}, Scenario: *sc}
	out.Scenario.Volumes = nil
	most := 0.0
	for i, v := range c.Volumes {
		if near[pneumatics.Node(i)] {
			v.InnerDiameter = 0 // a shot is adiabatic
			out.Volumes[v.Name], out.Starts[v.Name] = v, sc.Volumes[i]
			most = math.Max(most, sc.Volumes[i].Pressure-c.Ambient.Pressure)
		}
	}
	if s := c.Supply; s != nil && sc.SupplyRuns && near[s.Feeds] {
		out.Supply = *s
		out.Supply.Curve = append([]pneumatics.SupplyPoint(nil), s.Curve...)
		most = math.Max(most, l.Supply.DeadHead.High)
	}
	for i := range c.Paths {
		p := c.Paths[i]
		if !passes(&p) || !near[p.From] && !near[p.To] {
			continue
		}
		if p.Kind == pneumatics.Relief && (!near[p.From] || p.From != pneumatics.BarrelNode && l.Paths[i].SetPressure.Low >= most) {
			continue // nothing lifts it
		}
		if !p.OpenIn.Has(pneumatics.Firing) {
			p.OpeningTime, p.Pulse = 0, 0
		} else if p.Pulse == 0 {
			p.ClosingTime = 0
		}
		out.Paths[p.Name] = p
	}
	return out
}
