package limits

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/pneumatics"
)

// strength sets delivery [L/min] and dead head.
func strength(freeAir float64, deadHead Band) func(*Launcher) {
	return func(l *Launcher) { l.Supply.FreeAir, l.Supply.DeadHead = Exact("", freeAir*litreMinute), deadHead }
}

func TestOverchargeWithoutARelief(t *testing.T) {
	o := plain(strength(12, between("", 3.2*bars, 4.8*bars))).Overcharge()
	assert.True(t, o.Known)
	assert.Equal(t, 4.8*bars, o.Pressure, "the dead head at the top of its band")
	assert.Zero(t, o.FullFlow)
	assert.False(t, plain(strength(12, Band{})).Overcharge().Known, "no dead head")
	o = plain(func(l *Launcher) { l.Supply = nil }).Overcharge()
	assert.False(t, o.Known, "what fills it, and how far, is not stated")
}

// A valve that carries the supply with ease: full flow at the top of the
// tolerance, its own or shifted with the set pressure, whichever is higher: 0.95 + 0.85
// - 0.75 = 1.05 bar (own rule of this project, by hand).
func TestOverchargeAtFullFlow(t *testing.T) {
	for name, c := range map[string]struct {
		set, full Band
		want      float64
	}{
		"own band":               {Exact("", 0.75*bars), between("", 0.9*bars, 1.1*bars), 1.1 * bars},
		"shifts with set":        {between("", 0.65*bars, 0.85*bars), Exact("", 0.95*bars), 1.05 * bars},
		"the higher of the two":  {between("", 0.74*bars, 0.76*bars), between("", 0.9*bars, 1.2*bars), 1.2 * bars},
		"supply weaker than set": {Exact("", 5*bars), Exact("", 6*bars), 4 * bars},
	} {
		t.Run(name, func(t *testing.T) {
			o := plain(withRelief(c.set, c.full, 5*millimetres, 0.62)).Overcharge()
			assert.InEpsilon(t, c.want, o.Pressure, rounding)
			assert.Less(t, o.Balance, c.want+1)
		})
	}
}

// A valve too small: supply and relief balance. Fully open and choked the flow
// is K (p + pa), the supply's (1 - p/dead head) Q rho, so
//
//	p = (Q rho - K pa)/(K + Q rho/dead head)
//
// K = 0.0404184 Cd A/sqrt(T) (NACA Report 1135).
func TestOverchargeBalanceChoked(t *testing.T) {
	const dead, pa, temperature = 8 * bars, 101325, 293.15
	l := plain(strength(100, Exact("", dead)), withRelief(Exact("", 1*bars), Exact("", 1.2*bars), 2*millimetres, 0.62))
	q := 100 * litreMinute * pa / (287.05 * temperature)
	k := 0.0404184 * 0.62 * math.Pi / 4 * 4e-6 / math.Sqrt(temperature)
	want := (q - k*pa) / (k + q/dead)
	require.Greater(t, want, 1.2*bars, "the case is one of a valve too small")
	o := l.Overcharge()
	assert.InEpsilon(t, want, o.Balance, 1e-3, "the two tables' gas constants differ in the fifth digit")
	assert.Equal(t, o.Balance, o.Pressure)
	assert.Contains(t, o.Why, "does not carry the supply")
}

// Between set and full flow the lift rises linearly: with K (p + pa)(p - set)/
// (full - set) = Q rho (1 - p/dead head), a quadratic.
func TestOverchargeBalanceAtPartLift(t *testing.T) {
	const dead, pa, temperature, set, full = 8 * bars, 101325, 293.15, 2 * bars, 3 * bars
	l := plain(strength(60, Exact("", dead)), withRelief(Exact("", set), Exact("", full), 3*millimetres, 0.62))
	q := 60 * litreMinute * pa / (287.05 * temperature)
	k := 0.0404184 * 0.62 * math.Pi / 4 * 9e-6 / math.Sqrt(temperature) / (full - set)
	// k p2 + (k pa - k set + q/dead) p - k pa set - q = 0
	a, b, c := k, k*(pa-set)+q/dead, -k*pa*set-q
	want := (-b + math.Sqrt(b*b-4*a*c)) / (2 * a)
	require.Less(t, want, full)
	o := l.Overcharge()
	assert.InEpsilon(t, want, o.Balance, 1e-3, "the two tables' gas constants differ in the fifth digit")
	assert.InEpsilon(t, full, o.Pressure, rounding, "the full-flow pressure counts though it balances earlier")
}

// Everything takes the bad end: strong supply, weak valve, cold air.
func TestOverchargeTakesTheBadEnds(t *testing.T) {
	small := withRelief(Exact("", 1*bars), Exact("", 1.2*bars), 2*millimetres, 0.62)
	base := plain(strength(100, Exact("", 8*bars)), small).Overcharge().Balance
	for name, change := range map[string]func(*Launcher){
		"more free air":    func(l *Launcher) { l.Supply.FreeAir.High *= 1.15 },
		"higher dead head": func(l *Launcher) { l.Supply.DeadHead.High *= 1.2 },
		"smaller orifice":  func(l *Launcher) { l.Paths[1].Flow.Value.Low *= 0.95 },
		"poorer discharge": func(l *Launcher) { l.Paths[1].Flow.DischargeCoefficient.Low *= 0.9 },
		"colder air":       func(l *Launcher) { l.Ambient.Coldest = Exact("", 263.15) },
		"a hose before it": func(l *Launcher) {
			l.Paths[1].Hose = &HoseSpec{Bore: Exact("", 3*millimetres), Length: Exact("", 1), Conductance: Exact("", 1)}
		},
	} {
		t.Run(name, func(t *testing.T) {
			assert.Greater(t, plain(strength(100, Exact("", 8*bars)), small, change).Overcharge().Balance, base*1.005)
		})
	}
}

func TestOverchargeByACurve(t *testing.T) {
	small := withRelief(Exact("", 1*bars), Exact("", 1.2*bars), 2*millimetres, 0.62)
	curve := func(l *Launcher) {
		l.Supply.Curve = []CurvePoint{{0, 100 * litreMinute}, {4 * bars, 50 * litreMinute}}
	}
	// The curve is the straight line of the other case: the same balance where its
	// band is that of an exact free air.
	line := plain(strength(100, Exact("", 8*bars)), small).Overcharge()
	assert.InEpsilon(t, line.Balance, plain(strength(100, Exact("", 8*bars)), small, curve).Overcharge().Balance, 1e-9, "bisection to 1e-18 of the dead head")
	// Alone it may be 30 % better than stated.
	alone := plain(strength(100, Exact("", 8*bars)), small, curve, func(l *Launcher) { l.Supply.FreeAir = Band{} }).Overcharge()
	more := plain(strength(130, Exact("", 8*bars)), small).Overcharge()
	assert.InEpsilon(t, more.Balance, alone.Balance, 1e-9)
}

// What the relief valve must carry is not known: the dead head counts, not the
// valve.
func TestOverchargeWithoutADelivery(t *testing.T) {
	o := plain(withRelief(Exact("", 0.75*bars), Exact("", 0.95*bars), 5*millimetres, 0.62), func(l *Launcher) { l.Supply.FreeAir = Band{} }).Overcharge()
	assert.True(t, o.Known)
	assert.Equal(t, 4*bars, o.Pressure)
	assert.Contains(t, o.Why, "free_air")
}

// A relief valve behind a feed valve does not protect the tank: shut the feed
// and the tank goes to the dead head. Source: no shut-off between vessel and
// relief valve, ASME VIII-1 UG-135(d).
func TestOverchargeIgnoresAReliefBehindAValve(t *testing.T) {
	l := twoTanks(valveIn(pneumatics.Charging))
	withRelief(Exact("", 0.5*bars), Exact("", 0.6*bars), 5*millimetres, 0.62)(l)
	assert.InEpsilon(t, 0.6*bars, l.Overcharge().Pressure, 0.7, "on the tank it counts")
	assert.Less(t, l.Overcharge().Pressure, 1*bars)
	l.Paths[len(l.Paths)-1].From = "dose"
	assert.Equal(t, 4*bars, l.Overcharge().Pressure)
}

func TestOverchargeLeavesOutTheStuckValve(t *testing.T) {
	l := plain(withRelief(Exact("", 0.75*bars), Exact("", 0.95*bars), 5*millimetres, 0.62))
	assert.InEpsilon(t, 0.95*bars, l.Overcharge().Pressure, rounding)
	assert.Equal(t, 4*bars, l.overcharge("relief").Pressure)
}

// Every volume that shares the supplied one's pressure sees the fault; one
// behind a regulator sees what the regulator lets through when it fails.
func TestVesselPressures(t *testing.T) {
	l := twoTanks(valveIn(pneumatics.Charging))
	p := l.vesselPressures()
	assert.Equal(t, []float64{0.95 * bars, 0.95 * bars}, []float64{p[0].normal, p[1].normal})
	assert.Equal(t, []float64{4 * bars, 4 * bars}, []float64{p[0].fault, p[1].fault})

	l = twoTanks(PathSpec{Kind: pneumatics.Regulator, SetPressure: between("", 0.25*bars, 0.35*bars), Creep: between("", 0, 0.1*bars)})
	p = l.vesselPressures()
	assert.InEpsilon(t, 0.45*bars, p[1].normal, rounding, "set and creep at the top of their bands")
	assert.GreaterOrEqual(t, p[1].fault, 0.95*bars, "the regulator fails open")

	l.Supply.DeadHead = Band{}
	p = l.vesselPressures()
	assert.True(t, math.IsNaN(p[0].fault))
	l = plain(func(l *Launcher) { l.Switch, l.Supply.DeadHead = nil, Band{} })
	assert.True(t, math.IsNaN(l.vesselPressures()[0].normal))
	_, ok := l.faultHigh()
	assert.False(t, ok)
}
