package flow

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/pneumatics/internal/reference"
)

const (
	roomTemperature   = 293.15 // [K], ISO 6358-1
	litrePerMinute    = 1e-3 / 60
	litrePerSecondBar = 1e-8 // [m3/(s Pa)]
)

// freeAir turns a mass flow into litres per minute of free air (ANR, rho0).
func freeAir(g Gas, q float64) float64 { return q / g.ReferenceDensity / litrePerMinute }

// TestWorkedFlows: the ellipse of ISO 6358-1 worked at 20 degC, choked and not: 2
// L/(s bar) times 7.013 bar times phi(r), in L/min (ANR). Closed form, evaluated
// outside Go (testdata/reference/restriction.csv, ellipse flow). The tolerance is
// half the last digit written here.
func TestWorkedFlows(t *testing.T) {
	air := Air()
	r := SonicConductance(2*litrePerSecondBar, 0.3)
	for _, c := range []struct{ from, to, exact, digit float64 }{
		{7.013e5, 1.013e5, 841.56, 0.005},
		{7.013e5, 5.013e5, 677.878, 0.0005},
	} {
		got := freeAir(air, r.MassFlow(air, c.from, roomTemperature, c.to, roomTemperature))
		assert.InDelta(t, c.exact, got, c.digit)
		back := freeAir(air, r.MassFlow(air, c.to, roomTemperature, c.from, roomTemperature))
		assert.Equal(t, -got, back, "the same law serves both directions")
	}
}

// TestPressureForAFlow: the ellipse solved for the outlet: C 3 L/(s bar), b 0.35,
// 7.013 bar absolute, 600 L/min give 6.465164 bar (closed form, restriction.csv,
// outlet pressure).
func TestPressureForAFlow(t *testing.T) {
	air := Air()
	r := SonicConductance(3*litrePerSecondBar, 0.35)
	low, high := 1e5, 7.013e5
	for range 60 {
		mid := (low + high) / 2
		if freeAir(air, r.MassFlow(air, 7.013e5, roomTemperature, mid, roomTemperature)) > 600 {
			low = mid
		} else {
			high = mid
		}
	}
	assert.InDelta(t, 6.465164e5, low, 0.05) // last digit printed: 0.1 Pa
}

// TestTwoTestPoints: 600 L/min choked and 360 L/min at 6.013 bar, both from 7.013
// bar, are those of C = 600/(60 7.013) L/(s bar) and, since phi = 0.6 lies at (r -
// b)/(1 - b) = 0.8, of b = (6.013/7.013 - 0.8)/0.2 (closed form, restriction.csv, two
// test points). 13 digits are written there.
func TestTwoTestPoints(t *testing.T) {
	air := Air()
	r := SonicConductance(1.425923285327*litrePerSecondBar, 0.2870383573364)
	assert.InEpsilon(t, 600, freeAir(air, r.MassFlow(air, 7.013e5, roomTemperature, 1e5, roomTemperature)), 1e-12)
	assert.InEpsilon(t, 360, freeAir(air, r.MassFlow(air, 7.013e5, roomTemperature, 6.013e5, roomTemperature)), 1e-12)
}

// TestFlowAtOtherTemperatures: q falls as 1/sqrt(T1), ISO 6358-1. Rounding only.
func TestFlowAtOtherTemperatures(t *testing.T) {
	air := Air()
	for _, r := range []Restriction{SonicConductance(1e-8, 0.3), Nozzle(1e-5, 0.7)} {
		cold := r.MassFlow(air, 3e5, 273.15, 1e5, 400)
		hot := r.MassFlow(air, 3e5, 320, 1e5, 250)
		assert.InEpsilon(t, math.Sqrt(320/273.15), cold/hot, 1e-13)
	}
}

// TestConversions: nominal flow 420 phi(6/7) L/min per L/(s bar); S = 5.02 mm2
// per L/(s bar) (makers print 5.0); C per Cv 3.29 to 4.16 for xT 0.5 to 0.8,
// 3.890 at 0.7, from IEC 60534-2-1 with N7 = 4.17; Cv = 1.156 Kv. Each to the
// digits printed.
func TestConversions(t *testing.T) {
	for _, c := range []struct{ b, qn float64 }{{0.3, 254.27}, {0.528, 301.03}} {
		got, b := FromNominalFlow(c.qn*litrePerMinute, c.b).Conductance(Air())
		assert.InEpsilon(t, litrePerSecondBar, got, 0.005/c.qn)
		assert.Equal(t, c.b, b)
	}
	c, b := Nozzle(5.02e-6, 1).Conductance(Air())
	assert.InEpsilon(t, litrePerSecondBar, c, 0.005/5.02)
	assert.InDelta(t, 0.528282, b, 5e-7)
	for _, x := range []struct{ xt, c, digit float64 }{{0.5, 3.29, 0.005}, {0.8, 4.16, 0.005}, {0.7, 3.890, 0.0005}} {
		got, _ := FromCv(1, x.xt, 0.35).Conductance(Air())
		assert.InDelta(t, x.c, got/litrePerSecondBar, x.digit)
	}
	kv, _ := FromKv(2, 0.7, 0.35).Conductance(Air())
	cv, _ := FromCv(2*1.156, 0.7, 0.35).Conductance(Air())
	assert.InEpsilon(t, cv, kv, 1e-14)
}

// TestEllipseAgainstNozzle: the ellipse with the nozzle's own critical ratio
// differs from the ideal nozzle by up to 0.15 % of the choked flow; with b
// rounded to 0.528 by 0.17 % (both closed forms, restriction.csv, largest gap).
func TestEllipseAgainstNozzle(t *testing.T) {
	air := Air()
	nozzle := NewLaw(Nozzle(1, 1), &air, 1)
	for _, c := range []struct{ b, deviation float64 }{{air.CriticalRatio(), 0.0015}, {0.528, 0.0017}} {
		ellipse := NewLaw(SonicConductance(1, c.b), &air, 1)
		worst := 0.0
		for i := range 10001 {
			r := float64(i) / 10000
			worst = max(worst, math.Abs(ellipse.Phi(r)-nozzle.Phi(r)))
		}
		assert.InDelta(t, c.deviation, worst, 5e-5, "b %g", c.b)
	}
}

// TestHose: the hose formula against Fanno flow through a smooth hose with a
// sharp-edged entry, choked at its end, at 1.5, 2 and 4 bar absolute (Shapiro 1953;
// Haaland's friction; restriction.csv, smooth hose). The formula knows no Reynolds
// number, the flow does: 10 %, the band that is assumed for a hose.
func TestHose(t *testing.T) {
	rows := 0
	for _, row := range reference.Table(t, "../../testdata/reference/restriction.csv") {
		if row["quantity"] != "smooth hose C [L/(s bar)]: bore mm, length m, inlet bar abs" {
			continue
		}
		rows++
		c, b := HoseFlow(row.F("x1")*1e-3, row.F("x2")).Conductance(Air())
		assert.InEpsilon(t, row.F("value"), c/litrePerSecondBar, 0.10, "bore %s mm, length %s m, %s bar", row["x1"], row["x2"], row["x3"])
		assert.Greater(t, b, 0.0)
		assert.Less(t, b, 0.6)
	}
	assert.Equal(t, 24, rows)
}

// TestHoseFormula: C and b of the formula as worked outside Go (restriction.csv, hose C
// and hose b: the same form, from memory). 1e-12: 13 digits are written there.
func TestHoseFormula(t *testing.T) {
	rows := 0
	for _, row := range reference.Table(t, "../../testdata/reference/restriction.csv") {
		c, b := HoseFlow(row.F("x1")*1e-3, row.F("x2")).Conductance(Air())
		switch row["quantity"] {
		case "hose C [L/(s bar)]: bore mm, length m":
			assert.InEpsilon(t, row.F("value"), c/litrePerSecondBar, 1e-12)
		case "hose b: bore mm, length m":
			assert.InEpsilon(t, row.F("value"), b, 1e-12)
		default:
			continue
		}
		rows++
	}
	assert.Equal(t, 16, rows)
}

// TestLaminarChord: the chord above the laminar ratio meets the law there and
// reaches zero at 1; below it nothing changes. Exact by construction.
func TestLaminarChord(t *testing.T) {
	air := Air()
	for _, r := range []Restriction{SonicConductance(1, 0.3), SonicConductance(1, 0.2).WithIndex(0.55), Nozzle(1, 1)} {
		bare := NewLaw(r, &air, 1)
		for _, lam := range []float64{0.995, 0.999, 0.9999} {
			f := NewLaw(r, &air, lam)
			assert.Equal(t, bare.Phi(lam), f.Phi(lam))
			assert.Equal(t, bare.Phi(0.9), f.Phi(0.9))
			assert.Zero(t, f.Phi(1))
			assert.InEpsilon(t, bare.Phi(lam)/2, f.Phi((1+lam)/2), 1e-9)
		}
	}
}

// TestFlowFunctionFalls: between 1 at b and 0 at 1 the flow never rises with the
// back pressure.
func TestFlowFunctionFalls(t *testing.T) {
	air := Air()
	for _, r := range []Restriction{SonicConductance(1, 0), SonicConductance(1, 0.5), SonicConductance(1, 0.3).WithIndex(0.6),
		Nozzle(1, 1)} {
		f := NewLaw(r, &air, DefaultLaminarRatio)
		last := f.Phi(0)
		assert.Equal(t, 1.0, last)
		for i := 1; i <= 2000; i++ {
			phi := f.Phi(float64(i) / 2000)
			assert.LessOrEqual(t, phi, last+1e-15)
			assert.GreaterOrEqual(t, phi, 0.0)
			last = phi
		}
		assert.InDelta(t, 0, last, 1e-15)
	}
}

// TestNothingPasses: the zero restriction and a scale of zero.
func TestNothingPasses(t *testing.T) {
	assert.True(t, Restriction{}.IsZero())
	assert.True(t, Nozzle(1e-6, 0.6).Scaled(0).IsZero())
	assert.Zero(t, Restriction{}.MassFlow(Air(), 2e5, 300, 1e5, 300))
	assert.Zero(t, SonicConductance(1e-8, 0.3).MassFlow(Air(), 2e5, 300, 2e5, 280))
}

// TestReferenceRestrictions compares mass flows with an independent evaluation
// in Python (testdata/reference/restriction.csv names tool and command). Both
// are closed forms in double precision: 1e-9 of the choked flow covers the
// cancellation at ratios near 1.
func TestReferenceRestrictions(t *testing.T) {
	flows := 0
	for _, row := range reference.Table(t, "../../testdata/reference/restriction.csv") {
		if row["set"] != "flow" {
			continue
		}
		flows++
		air := Air()
		r := SonicConductance(row.F("C_m3_sPa"), row.F("b"))
		if row["law"] == "nozzle" {
			air.R, air.Gamma = row.F("R_J_kgK"), row.F("gamma")
			r = Nozzle(row.F("cda_m2"), 1)
		}
		laminar := 1.0
		if row["laminar"] != "none" {
			laminar = row.F("laminar")
		}
		f := NewLaw(r, &air, laminar)
		choked := f.K * row.F("p1_Pa") / math.Sqrt(row.F("T1_K"))
		assert.InDelta(t, row.F("q_kg_s")/choked, f.Phi(row.F("ratio")), 1e-9, "%s b %s ratio %s", row["law"], row["b"], row["ratio"])
	}
	assert.GreaterOrEqual(t, flows, 100)
}
