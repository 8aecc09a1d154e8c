package measure

import (
	"math"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"puffproof/limits/catalogue"
	"puffproof/limits/finding"
	"puffproof/limits/halving"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
	"puffproof/pneumatics/flight"
)

// The errors of bench readings that a log does not state, as half-widths
// (common practice, no source).
const (
	levelReading  = 3e-3 // of a water level, random [m]
	waterDensity  = 998. // at 20 degC [kg/m3] (from memory)
	coinError     = 2e-4 // of a weight, random [kg]
	angleReading  = math.Pi / 90
	markError     = 2e-3 // of a length between two marks, systematic [m]
	handTime      = 0.1  // of a hand-stopped time, random [s]
	handDelay     = 0.2  // how much later a hand stops than it starts, systematic [s]
	gapFlowError  = 0.15 // of the gap's discharge coefficient, relative, systematic [-]
	oneReading    = 0.3  // added where a test was made once, relative [-] (own rule)
	benchCoverage = 0.95 // of the band of a repeated test [-]
)

// BenchValue is what the readings of one bench test say about one quantity.
type BenchValue struct {
	Kind    BenchKind
	Lines   []int
	Band    launcher.Band
	How     finding.Text // the formula and the readings
	Trouble finding.Text // why there is no value; "" there is
	Bounds  bounds       // what it says of the quantity, where that is not both
}

// BenchValues turns the readings into values, one for each test and path.
func BenchValues(l *launcher.Launcher, log []BenchReading) []BenchValue {
	type group struct {
		kind BenchKind
		path string
	}
	var order []group
	readings := map[group][]BenchReading{}
	for _, b := range log {
		g := group{b.Kind, b.Path}
		if readings[g] == nil {
			order = append(order, g)
		}
		readings[g] = append(readings[g], b)
	}
	var out []BenchValue
	for _, g := range order {
		out = append(out, benchValue(l, g.kind, readings[g]))
	}
	return out
}

// benchValue draws one value from the readings of one test. A repeated test
// gives the band in which the next reading lies with 95 %, plus the systematic
// errors:
//
//	x = mean ± t(0.975; n-1) s sqrt(1 + 1/n) ± u_sys
//
// Source: prediction interval of a normal sample (for instance Montgomery and
// Runger, Applied Statistics and Probability for Engineers, 8-7).
func benchValue(l *launcher.Launcher, kind BenchKind, log []BenchReading) BenchValue {
	out := BenchValue{Kind: kind}
	var values []float64
	var worst uncertain
	key := ""
	for i := range log {
		out.Lines = append(out.Lines, log[i].Line)
		out.Bounds |= emptiedBounds(l, &log[i])
		if part := newerPart(l, log[i].Date, kind.restsOn); part.Key != "" {
			out.Trouble = finding.Say("line %d is of %s, and %s is %s: it was measured on another part", log[i].Line, log[i].Date, part.Key,
				part.Made)
			return out
		}
		f, in, k, trouble := benchTest(l, &log[i])
		if trouble != "" {
			out.Trouble = finding.Words(trouble)
			return out
		}
		u := propagate(f, in)
		if math.IsNaN(u.value) || math.IsInf(u.value, 0) || u.value < 0 {
			out.Trouble = finding.Say("line %d: no value gives this reading", log[i].Line)
			return out
		}
		key = k
		values = append(values, u.value)
		worst.random, worst.systematic = math.Max(worst.random, u.random), math.Max(worst.systematic, u.systematic)
	}
	n := len(values)
	mean := stat.Mean(values, nil)
	half := 2*worst.random + oneReading*mean
	if n > 1 {
		t := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(n - 1)}.Quantile((1 + benchCoverage) / 2)
		half = t * math.Max(stat.StdDev(values, nil), worst.random) * math.Sqrt(1+1/float64(n))
	}
	half += worst.systematic
	out.How = finding.Say("%s, %s", kind, counted(n, "reading"))
	if n == 1 {
		out.How = finding.Say("%s, one reading, widened by 30 %%", kind)
	}
	out.Band = MeasuredBand(key, mean-half, mean, mean+half, out.How)
	return out
}

// benchTest gives formula, inputs and key of one reading.
func benchTest(l *launcher.Launcher, b *BenchReading) (f func([]float64) float64, in []errorSource, key, trouble string) {
	p := &l.Projectile
	area := l.BarrelAt().Area
	const g = flight.Gravity
	mass := errorSource{"projectile's mass", p.Mass.Nominal, p.Mass.Width() / 2, systematic}
	switch b.Kind {
	case UTube: // F = rho g h A
		return func(x []float64) float64 { return waterDensity * g * x[0] * area },
			[]errorSource{{"water levels", b.Height, levelReading, random}}, KeyBreakaway, ""
	case Coins: // F = (M + m) g: the projectile's own weight pulls as well
		return func(x []float64) float64 { return (x[0] + x[1]) * g },
			[]errorSource{{"coins", b.Mass, coinError, random}, mass}, KeyBreakaway, ""
	case Slope: // F = m g sin(angle)
		return func(x []float64) float64 { return x[1] * g * math.Sin(x[0]) },
			[]errorSource{{"angle", b.Angle, angleReading, random}, mass}, KeySliding, ""
	case Sink:
		return sinkTest(l, b, mass, area)
	case ClickToPop:
		return popTest(l, b)
	case Emptying:
		return emptyTest(l, b)
	}
	return nil, nil, "", "unknown test"
}

// sinkTest: the projectile sinks in the corked tube as fast as air gets past it.
//
//	q = A v = Cd a sqrt(2 dp/rho),  dp = m g/A
//
// a is the gap's area, given back as the clearance on the diameter. Friction is
// left out: with it the gap is larger than this, so its share of the weight is
// taken as an error on that side; a projectile that does not sink at all says
// that friction carries it or that there is no gap.
func sinkTest(l *launcher.Launcher, b *BenchReading, mass errorSource, area float64) (func([]float64) float64, []errorSource, string,
	string) {
	inner, _ := l.FitDiameters()
	rho := airDensity(l, 0)
	friction := math.Min(l.Projectile.Sliding.Nominal/(mass.Value*flight.Gravity), 0.9)
	in := []errorSource{{"distance", b.Distance, markError, systematic}, {"time", b.Time, handTime, random}, mass,
		{"flow of the gap", launcher.LeakCd, gapFlowError * launcher.LeakCd, systematic}, {"share of friction", 0, friction, systematic}}
	return func(x []float64) float64 {
		if x[1] <= 0 || x[4] >= 1 {
			return math.NaN()
		}
		dp := x[2] * flight.Gravity * math.Max(0.1, 1-x[4]) / area
		gap := area * x[0] / x[1] / (x[3] * math.Sqrt(2*dp/rho))
		return inner - math.Sqrt(math.Max(0, inner*inner-4*gap/math.Pi))
	}, in, keyClearance, ""
}

// fireValve is the index of the path through which the barrel is fired: the
// first valve to the barrel that is open while firing; -1: none.
func fireValve(l *launcher.Launcher) int {
	for i := range l.Paths {
		p := &l.Paths[i]
		valve := p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve
		if valve && p.OpenIn.Has(pneumatics.Firing) && (p.To == "barrel" || p.From == "barrel") {
			return i
		}
	}
	return -1
}

// popTest: the opening time with which the model's shot leaves when it was heard
// to leave. Every stated band that shifts the moment counts as an error; they
// have nothing to do with each other.
func popTest(l *launcher.Launcher, b *BenchReading) (func([]float64) float64, []errorSource, string, string) {
	fire := fireValve(l)
	if fire < 0 {
		return nil, nil, "", "no valve to the barrel opens while firing"
	}
	c := l.Clone()
	m := NewShotModel(c)
	opening := &c.Paths[fire].OpeningTime
	in := []errorSource{{"click to pop", b.Time, soundError, random}}
	var quantities []catalogue.Quantity
	for _, q := range catalogue.ShotCoordinates(c) {
		if low, high := q.Stated(); high > low && q.Band != opening {
			quantities = append(quantities, q)
			in = append(in, errorSource{q.Key, q.Nominal, (high - low) / 2, independent})
		}
	}
	return func(x []float64) float64 {
		for i := range quantities {
			quantities[i].Put(math.Max(0, x[i+1]))
		}
		leave := func(t float64) float64 {
			opening.Nominal = t
			_, exit := m.Shot(b.Gauge, 0)
			return exit
		}
		if leave(0) >= x[0] {
			return 0 // out sooner than with a valve that opens at once
		}
		low, high := 0.0, x[0]
		for i := 0; leave(high) < x[0]; i++ {
			if low, high = high, 2*high; i > 8 {
				return math.NaN()
			}
		}
		low, high = halving.Between(low, high, 40, func(v float64) bool { return !(leave(v) < x[0]) })
		return (low + high) / 2
	}, in, l.Paths[fire].OpeningTime.Key, ""
}
