package wave

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
)

// A line of 1.2 m and 8 mm with air in which sound runs at 343 m/s, the right end
// closed by a wall or by a volume, the left end at a vessel that does not notice.
const (
	lineLength = 1.2
	lineBore   = 0.008
	lineSound  = 343.0
	linePa     = 101325.0
)

// acousticLine is that line with a volume [m3] at its right end; 0: a wall. vessel is
// the vessel's excess pressure, excess that of the line at a place, over linePa [-].
func acousticLine(cells int, volume, vessel float64, excess func(x float64) float64) *system {
	g := flow.Air()
	temp := lineSound * lineSound / (g.Gamma * g.R)
	// Isentropic disturbances: rho and T follow p.
	at := func(e float64) pneumatics.Condition {
		return pneumatics.Condition{Pressure: linePa * (1 + e), Temperature: temp * math.Pow(1+e, (g.Gamma-1)/g.Gamma)}
	}
	s := &system{g: newGas(g), pa: linePa, ta: temp, courant: 0.6}
	s.nodes = []node{s.nodeAt(at(vessel), 1e9)}
	h := Hose{Bore: lineBore, Length: lineLength}
	t := h.tube(cells)
	t.fill(&s.g, func(x float64) State {
		c := at(excess(x))
		return State{g.Density(c.Pressure, c.Temperature), 0, c.Pressure}
	})
	s.tubes = []*tube{t}
	s.joints = []joint{{tube: t, node: 0, path: -1, port: port{g: &s.g, area: h.area(), open: true}}}
	if volume > 0 {
		s.nodes = append(s.nodes, s.nodeAt(at(excess(lineLength)), volume))
		s.joints = append(s.joints, joint{tube: t, right: true, node: 1, path: -1, port: port{g: &s.g, area: h.area(), open: true}})
	}
	return s
}

// A line with a volume at its end rings at k tan(k L) = A/V, frequency k c/(2 pi),
// where its left end keeps its pressure: closed form of small waves (any acoustics
// text; Helmholtz's resonator with the length of its neck taken in full). 1.2 m of 8 mm,
// 90 mL: 33.5537 Hz, the root computed outside this project. The error falls with
// the square of the cell.
func TestLineAndVolumeResonance(t *testing.T) {
	const want, volume, amplitude, periods = 33.5537, 90e-6, 1e-5, 3
	k := 2 * math.Pi * want / lineSound
	area := math.Pi / 4 * lineBore * lineBore
	assert.InEpsilon(t, area/volume, k*math.Tan(k*lineLength), 1e-5, "six digits of the root")
	frequency := func(cells int) float64 {
		s := acousticLine(cells, volume, 0, func(x float64) float64 { return amplitude * math.Sin(k*x) / math.Sin(k*lineLength) })
		require.True(t, s.conditions())
		// It starts at its crest: the crossings come at 1/4, 3/4, ... of a period.
		var last float64
		for crossings := 0; crossings < 2*periods; {
			before, at := s.nodes[1].p-linePa, s.time
			require.True(t, s.step(s.limitStep()))
			if after := s.nodes[1].p - linePa; before*after < 0 {
				crossings++
				last = at + (s.time-at)*before/(before-after)
			}
		}
		return (periods - 0.25) / last
	}
	coarse, middle, fine := frequency(5), frequency(10), frequency(20)
	t.Logf("5 cells %+.1e, 10 cells %+.1e, 20 cells %+.1e of %.4f Hz", coarse/want-1, middle/want-1, fine/want-1, want)
	assert.InEpsilon(t, want, fine, 2e-4, "second order, found by running")
	assert.Less(t, math.Abs(fine-want), 0.5*math.Abs(middle-want))
	assert.Less(t, math.Abs(middle-want), 0.5*math.Abs(coarse-want))
}

// At a dead end a small step doubles: the end jumps to twice the step at L/c, falls
// back to zero at 3 L/c, and so on with the period 4 L/c. Closed form of small waves
// (Joukowsky's water hammer in a gas). Without friction; at 1e-4 of the pressure
// steepening counts for 1e-4.
func TestDeadEndDoubles(t *testing.T) {
	const step, crossing = 1e-4, lineLength / lineSound
	run := func(cells int) (rises, falls, high, low, mean float64) {
		s := acousticLine(cells, 0, step, func(float64) float64 { return 0 })
		tb := s.tubes[0]
		require.True(t, s.conditions())
		end := func() float64 { return (tb.fq[tb.n]/tb.area[tb.n]/linePa - 1) / step } // on the wall
		s.rates(0, 0)
		for s.time < 4*crossing {
			before, at := end(), s.time
			dt := min(s.limitStep(), 4*crossing-s.time)
			require.True(t, s.step(dt))
			after := end()
			if (before-1)*(after-1) < 0 {
				cross := at + dt*(1-before)/(after-before)
				if after > before {
					rises = cross
				} else {
					falls = cross
				}
			}
			if at < 2*crossing && s.time >= 2*crossing {
				high = after
			}
			want := 0.0
			if s.time > crossing && s.time < 3*crossing {
				want = 2
			}
			mean += math.Abs(after-want) * dt / (4 * crossing)
		}
		return rises / crossing, falls / crossing, high, end(), mean
	}
	early1, early3, high, low, coarse := run(20)
	t.Logf("20 cells: jumps at %.4f L/c to %.5f steps, falls at %.4f L/c to %+.5f; mean error %.3f", early1, high, early3, low, coarse)
	rises, falls, high, low, fine := run(80)
	t.Logf("80 cells: jumps at %.4f L/c to %.5f steps, falls at %.4f L/c to %+.5f; mean error %.3f", rises, high, falls, low, fine)
	assert.InDelta(t, 2, high, 1e-3)
	assert.InDelta(t, 0, low, 2e-3)
	// A captured jump is some cells wide, and its foot comes early: half a cell or so at
	// its middle, found by running, and less the finer the mesh.
	assert.InDelta(t, 1, rises, 0.015)
	assert.InDelta(t, 3, falls, 0.015)
	assert.Less(t, math.Abs(rises-1), 0.6*math.Abs(early1-1))
	assert.Less(t, math.Abs(falls-3), 0.6*math.Abs(early3-3))
	// A captured jump: order 2/3 as at a contact (TestRiemannProblemsConverge).
	assert.Greater(t, math.Log2(coarse/fine)/2, 0.6)
}

// Choked ducts of the table's lengths: the flow and the Mach number at the inlet.
// Source: Fanno's relation, f L*/D 14.533266 at M 0.2, 5.2992531 at 0.3, 1.0690603 at
// 0.5 (Shapiro 1953, table B.4, exact digits computed outside this project). The
// profile is infinitely steep at the sonic end, so the order is between 1 and 2.
func TestFannoTable(t *testing.T) {
	g := flow.Air()
	const p0, t0, bore, darcy = 5e5, 293.15, 0.01, 0.02
	for mach, fl := range map[float64]float64{0.2: 14.533266, 0.3: 5.2992531, 0.5: 1.0690603} {
		// NACA Report 1135, equations 43 and 45: the isentropic inlet.
		flux := p0 * mach * math.Sqrt(g.Gamma/(g.R*t0)) * math.Pow(1+0.2*mach*mach, -3)
		run := func(cells int) blowDownResult {
			r := blowDown{Gas: g, Ambient: pneumatics.Ambient{Pressure: 5e4, Temperature: t0}, Volume: 1e6,
				Start: pneumatics.Condition{Pressure: p0, Temperature: t0},
				Hose:  Hose{Bore: bore, Length: fl * bore / darcy, Darcy: darcy}, Cells: cells, Until: 0.02 * fl}.run()
			require.Empty(t, r.Reason)
			return r
		}
		off := func(r blowDownResult) float64 { return r.Inflow[len(r.Inflow)-1]/(flux*math.Pi/4*bore*bore) - 1 }
		coarse, fine := run(10), run(40)
		order := math.Log2(off(coarse)/off(fine)) / 2
		t.Logf("M %.1f: flow %+.1e at 10 cells, %+.1e at 40, order %.2f; inlet Mach %.4f", mach, off(coarse), off(fine), order, fine.InletMach)
		assert.InDelta(t, 0, off(fine), 5e-4, "found by running")
		assert.Greater(t, order, 1.0)
		// The first cell's centre lies half a cell past the inlet.
		assert.InDelta(t, fannoMach(1.4, fl*(1-0.5/40)), fine.InletMach, 2e-3*mach)
	}
}

// Slow flow through a narrow line: dp = 128 mu L q/(pi rho d^4). Source:
// Hagen-Poiseuille. At Re 400 and M 0.004 the entry's dynamic pressure is 0.4 % of the
// drop; it is counted. The air expands by 0.6 %: the mean density.
func TestLaminarLine(t *testing.T) {
	g := flow.Air()
	const t0, bore, length, reynolds = 293.15, 0.004, 1.0, 400.0
	mu := g.Viscosity(t0)
	q := reynolds * mu * math.Pi / 4 * bore
	rho := g.Density(linePa, t0)
	drop := 128*mu*length*q/(math.Pi*rho*math.Pow(bore, 4)) + 0.5*math.Pow(q/(math.Pi/4*bore*bore), 2)/rho
	r := blowDown{Gas: g, Ambient: pneumatics.Ambient{Pressure: linePa - 0.5*drop, Temperature: t0}, Volume: 1e6,
		Start: pneumatics.Condition{Pressure: linePa + 0.5*drop, Temperature: t0},
		Hose:  Hose{Bore: bore, Length: length, Friction: PipeFriction}, Cells: 10, Until: 0.4}.run()
	require.Empty(t, r.Reason)
	// The line settles in rho d^2/(32 mu) = 40 ms. 1e-3: squares of what is counted.
	assert.InEpsilon(t, q, r.Outflow[len(r.Outflow)-1], 1e-3)
}

// The friction factor. Laminar: 64/Re. Smooth and turbulent: Prandtl's law 1/sqrt(f) =
// 2 log10(Re sqrt f) - 0.8; rough: Colebrook's, of which Haaland claims 2 %
// (Schlichting, Boundary-Layer Theory, chapter 20; from memory).
func TestPipeFactor(t *testing.T) {
	factor := func(re, rough float64) float64 { return pipeFactor(re, roughTerm(rough)) }
	assert.InEpsilon(t, 0.064, factor(1000, 0), 1e-12)
	assert.InEpsilon(t, 64.0/2300, factor(2300, 1e-3), 1e-12)
	colebrook := func(re, rough float64) float64 {
		x := 8.0 // 1/sqrt(f), a contraction
		for range 60 {
			x = -2 * math.Log10(rough/3.7+2.51*x/re)
		}
		return 1 / (x * x)
	}
	for _, k := range [][2]float64{{4e3, 0}, {1e4, 0}, {1e5, 0}, {1e6, 0}, {1e4, 1e-3}, {1e5, 1e-3}, {1e5, 0.01}, {1e6, 0.05}} {
		assert.InEpsilon(t, colebrook(k[0], k[1]), factor(k[0], k[1]), 0.025, "Re %g, roughness %g", k[0], k[1])
	}
	assert.InEpsilon(t, 0.0180, factor(1e5, 0), 0.01, "Moody's chart, smooth")
	// Between the two ranges it goes without a jump.
	assert.InEpsilon(t, factor(2300, 0), factor(2300.001, 0), 1e-5)
	assert.InEpsilon(t, factor(3999.999, 0), factor(4000, 0), 1e-5)
}

// Fittings take their factor times rho v^2/2, spread over the line: the same flow as
// friction of f = K d/L. Identity.
func TestFittingsAreFriction(t *testing.T) {
	g := flow.Air()
	run := func(h Hose) float64 {
		r := blowDown{Gas: g, Ambient: pneumatics.Ambient{Pressure: 1e5, Temperature: 293.15}, Volume: 1,
			Start: pneumatics.Condition{Pressure: 3e5, Temperature: 293.15}, Hose: h, Cells: 10, Until: 0.05}.run()
		return r.Outflow[len(r.Outflow)-1]
	}
	more := run(Hose{Bore: 0.01, Length: 0.5, Darcy: 0.03})
	assert.InEpsilon(t, more, run(Hose{Bore: 0.01, Length: 0.5, Darcy: 0.02, Fittings: 0.5}), 1e-12)
	pipe := run(Hose{Bore: 0.01, Length: 0.5, Friction: PipeFriction})
	assert.Less(t, run(Hose{Bore: 0.01, Length: 0.5, Friction: PipeFriction, Fittings: 2}), pipe)
	assert.Less(t, run(Hose{Bore: 0.01, Length: 0.5, Entry: 0.5}), run(Hose{Bore: 0.01, Length: 0.5}))
}
