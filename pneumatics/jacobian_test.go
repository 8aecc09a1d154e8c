package pneumatics

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestJacobian: the Jacobian is that of central difference quotients of the right-hand side,
// over random circuits, states and modes of the projectile. 1e-4 of the largest entry of a
// row, each scaled by the sizes of its components: what a difference over 1e-6 of a component leaves where the
// flow is curved most, near its chord. A state beside a bend of the right-hand side, where the quotients to both
// sides differ, is left out.
func TestJacobian(t *testing.T) {
	compared := 0
	rapid.Check(t, func(t *rapid.T) {
		d := rapidDice{t}
		c, sc := randomCircuit(d)
		for i := range c.Paths {
			c.Paths[i].Before, c.Paths[i].After = nil, nil
		}
		if sc.Heat == Isothermal || sc.Heat == Stirring {
			sc.Heat = Convection
		}
		var e engine
		e.compile(c, sc, Options{Tolerance: DefaultTolerance})
		y := e.state
		for i := range y[:2*e.volumes] {
			y[i] *= d.between(0.8, 1.2)
		}
		if e.bar >= 0 {
			y[e.iBar], y[e.iBar+1] = y[e.iBar]*d.between(0.8, 1.5), y[e.iBar+1]*d.between(0.8, 1.5)
			y[e.iX], y[e.iX+1] = d.between(0.01, 1)*e.b.Travel, d.between(0.1, 40)
			e.mode = []mode{held, moving, moving, afterMuzzle}[d.pick(4)]
			if e.mode == afterMuzzle && (e.ahead >= 0 || e.iJet < 0 || e.iAtm < 0) {
				e.mode = moving
			}
			if e.mode == afterMuzzle {
				y[e.iX] = e.b.Travel * d.between(1.01, 2)
			}
			e.phase(0)
		}
		now := d.between(1e-4, 1e-3)
		e.settleBalances(now, y)
		compared += compareJacobian(t, &e, now, y)
	})
	if compared < 1000 {
		t.Errorf("only %d entries compared", compared)
	}
}

// compareJacobian compares one Jacobian and tells how many of its entries are not zero.
func compareJacobian(t *rapid.T, e *engine, now float64, y []float64) (compared int) {
	n, columns := len(y), len(e.scales)
	f := make([]float64, n)
	e.Derivatives(now, y, f)
	jac, ft := make([]float64, n*columns), make([]float64, n)
	if !e.Jacobian(now, y, f, jac, ft) {
		t.Fatal("no Jacobian")
	}
	size := func(i int) float64 {
		if i < columns {
			return e.scales[i] + math.Abs(y[i])
		}
		return 1
	}
	largest := make([]float64, n)
	for i := range n {
		for j := range columns {
			largest[i] = max(largest[i], math.Abs(jac[i*columns+j])*size(j))
		}
	}
	high, low := make([]float64, n), make([]float64, n)
	for j := range columns {
		step := 1e-6 * size(j)
		was := y[j]
		y[j] = was + step
		e.Derivatives(now, y, high)
		y[j] = was - step
		e.Derivatives(now, y, low)
		y[j] = was
		for i := range n {
			right, left := (high[i]-f[i])/step, (f[i]-low[i])/step
			room := 1e-4*(largest[i]/size(j)) + 1e-9*math.Abs(f[i])/step
			if math.Abs(right-left) > room {
				continue
			}
			got := jac[i*columns+j]
			if math.Abs(got-0.5*(right+left)) > room {
				t.Fatalf("mode %d: row %d column %d: %g, by differences %g and %g; place %d, book %d", e.mode, i, j, got, left, right, e.iX, e.iAtm)
			}
			if got != 0 {
				compared++
			}
		}
	}
	return compared
}
