package launcher_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// strength sets delivery [L/min] and dead head.
func strength(freeAir float64, deadHead launcher.Band) func(*launcher.Launcher) {
	return func(l *launcher.Launcher) {
		l.Supply.FreeAir, l.Supply.DeadHead = launcher.Exact("", freeAir*sample.LitreMinute), deadHead
	}
}

func TestOverchargeWithoutARelief(t *testing.T) {
	o := sample.Plain(strength(12, sample.Between("", 3.2*sample.Bars, 4.8*sample.Bars))).Overcharge()
	assert.True(t, o.Known)
	assert.Equal(t, 4.8*sample.Bars, o.Pressure, "the dead head at the top of its band")
	assert.Zero(t, o.FullFlow)
	assert.False(t, sample.Plain(strength(12, launcher.Band{})).Overcharge().Known, "no dead head")
	o = sample.Plain(func(l *launcher.Launcher) { l.Supply = nil }).Overcharge()
	assert.False(t, o.Known, "what fills it, and how far, is not stated")
}

// A valve that carries the supply with ease: full flow at the top of the
// tolerance, its own or shifted with the set pressure, whichever is higher: 0.95 + 0.85
// - 0.75 = 1.05 bar (own rule of this project, by hand).
func TestOverchargeAtFullFlow(t *testing.T) {
	for name, c := range map[string]struct {
		set, full launcher.Band
		want      float64
	}{
		"own band": {launcher.Exact("", 0.75*sample.Bars), sample.Between("", 0.9*sample.Bars, 1.1*sample.Bars), 1.1 * sample.Bars},
		"shifts with set": {sample.Between("", 0.65*sample.Bars, 0.85*sample.Bars), launcher.Exact("", 0.95*sample.Bars),
			1.05 * sample.Bars},
		"the higher of the two": {sample.Between("", 0.74*sample.Bars, 0.76*sample.Bars), sample.Between("", 0.9*sample.Bars, 1.2*sample.Bars),
			1.2 * sample.Bars},
		"supply weaker than set": {launcher.Exact("", 5*sample.Bars), launcher.Exact("", 6*sample.Bars), 4 * sample.Bars},
	} {
		t.Run(name, func(t *testing.T) {
			o := sample.Plain(sample.WithRelief(c.set, c.full, 5*sample.Millimetres, 0.62)).Overcharge()
			assert.InEpsilon(t, c.want, o.Pressure, sample.Rounding)
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
	const dead, pa, temperature = 8 * sample.Bars, 101325, 293.15
	l := sample.Plain(strength(100, launcher.Exact("", dead)), sample.WithRelief(launcher.Exact("", 1*sample.Bars),
		launcher.Exact("", 1.2*sample.Bars), 2*sample.Millimetres, 0.62))
	q := 100 * sample.LitreMinute * pa / (287.05 * temperature)
	k := 0.0404184 * 0.62 * math.Pi / 4 * 4e-6 / math.Sqrt(temperature)
	want := (q - k*pa) / (k + q/dead)
	require.Greater(t, want, 1.2*sample.Bars, "the case is one of a valve too small")
	o := l.Overcharge()
	assert.InEpsilon(t, want, o.Balance, 1e-3, "the two tables' gas constants differ in the fifth digit")
	assert.Equal(t, o.Balance, o.Pressure)
	assert.Contains(t, o.Why.String(), "does not carry the supply")
}

// Between set and full flow the lift rises linearly: with K (p + pa)(p - set)/
// (full - set) = Q rho (1 - p/dead head), a quadratic.
func TestOverchargeBalanceAtPartLift(t *testing.T) {
	const dead, pa, temperature, set, full = 8 * sample.Bars, 101325, 293.15, 2 * sample.Bars, 3 * sample.Bars
	l := sample.Plain(strength(60, launcher.Exact("", dead)), sample.WithRelief(launcher.Exact("", set), launcher.Exact("", full),
		3*sample.Millimetres, 0.62))
	q := 60 * sample.LitreMinute * pa / (287.05 * temperature)
	k := 0.0404184 * 0.62 * math.Pi / 4 * 9e-6 / math.Sqrt(temperature) / (full - set)
	// k p2 + (k pa - k set + q/dead) p - k pa set - q = 0
	a, b, c := k, k*(pa-set)+q/dead, -k*pa*set-q
	want := (-b + math.Sqrt(b*b-4*a*c)) / (2 * a)
	require.Less(t, want, full)
	o := l.Overcharge()
	assert.InEpsilon(t, want, o.Balance, 1e-3, "the two tables' gas constants differ in the fifth digit")
	assert.InEpsilon(t, full, o.Pressure, sample.Rounding, "the full-flow pressure counts though it balances earlier")
}

// Everything takes the bad end: strong supply, weak valve, cold air.
func TestOverchargeTakesTheBadEnds(t *testing.T) {
	small := sample.WithRelief(launcher.Exact("", 1*sample.Bars), launcher.Exact("", 1.2*sample.Bars), 2*sample.Millimetres, 0.62)
	base := sample.Plain(strength(100, launcher.Exact("", 8*sample.Bars)), small).Overcharge().Balance
	for name, change := range map[string]func(*launcher.Launcher){
		"more free air":    func(l *launcher.Launcher) { l.Supply.FreeAir.High *= 1.15 },
		"higher dead head": func(l *launcher.Launcher) { l.Supply.DeadHead.High *= 1.2 },
		"smaller orifice":  func(l *launcher.Launcher) { l.Paths[1].Flow.Value.Low *= 0.95 },
		"poorer discharge": func(l *launcher.Launcher) { l.Paths[1].Flow.DischargeCoefficient.Low *= 0.9 },
		"colder air":       func(l *launcher.Launcher) { l.Ambient.Coldest = launcher.Exact("", 263.15) },
		"a hose before it": func(l *launcher.Launcher) {
			l.Paths[1].Hose = &launcher.HoseSpec{Bore: launcher.Exact("", 3*sample.Millimetres), Length: launcher.Exact("", 1),
				Conductance: launcher.Exact("", 1)}
		},
	} {
		t.Run(name, func(t *testing.T) {
			assert.Greater(t, sample.Plain(strength(100, launcher.Exact("", 8*sample.Bars)), small, change).Overcharge().Balance, base*1.005)
		})
	}
}

func TestOverchargeByACurve(t *testing.T) {
	small := sample.WithRelief(launcher.Exact("", 1*sample.Bars), launcher.Exact("", 1.2*sample.Bars), 2*sample.Millimetres, 0.62)
	curve := func(l *launcher.Launcher) {
		l.Supply.Curve = []launcher.CurvePoint{{0, 100 * sample.LitreMinute}, {4 * sample.Bars, 50 * sample.LitreMinute}}
	}
	// The curve is the straight line of the other case: the same balance where its
	// band is that of an exact free air.
	line := sample.Plain(strength(100, launcher.Exact("", 8*sample.Bars)), small).Overcharge()
	assert.InEpsilon(t, line.Balance, sample.Plain(strength(100, launcher.Exact("", 8*sample.Bars)), small, curve).Overcharge().Balance, 1e-9,
		"bisection to 1e-18 of the dead head")
	// Alone it may be 30 % better than stated.
	alone := sample.Plain(strength(100, launcher.Exact("", 8*sample.Bars)), small, curve,
		func(l *launcher.Launcher) { l.Supply.FreeAir = launcher.Band{} }).Overcharge()
	more := sample.Plain(strength(130, launcher.Exact("", 8*sample.Bars)), small).Overcharge()
	assert.InEpsilon(t, more.Balance, alone.Balance, 1e-9)
}

// What the relief valve must carry is not known: the dead head counts, not the
// valve.
func TestOverchargeWithoutADelivery(t *testing.T) {
	o := sample.Plain(sample.WithRelief(launcher.Exact("", 0.75*sample.Bars), launcher.Exact("", 0.95*sample.Bars), 5*sample.Millimetres,
		0.62), func(l *launcher.Launcher) { l.Supply.FreeAir = launcher.Band{} }).Overcharge()
	assert.True(t, o.Known)
	assert.Equal(t, 4*sample.Bars, o.Pressure)
	assert.Contains(t, o.Why.String(), "free_air")
}

// A relief valve behind a feed valve does not protect the tank: shut the feed
// and the tank goes to the dead head. Source: no shut-off between vessel and
// relief valve, ASME VIII-1 UG-135(d).
func TestOverchargeIgnoresAReliefBehindAValve(t *testing.T) {
	l := sample.TwoTanks(sample.ValveIn(pneumatics.Charging))
	sample.WithRelief(launcher.Exact("", 0.5*sample.Bars), launcher.Exact("", 0.6*sample.Bars), 5*sample.Millimetres, 0.62)(l)
	assert.InEpsilon(t, 0.6*sample.Bars, l.Overcharge().Pressure, 0.7, "on the tank it counts")
	assert.Less(t, l.Overcharge().Pressure, 1*sample.Bars)
	l.Paths[len(l.Paths)-1].From = "dose"
	assert.Equal(t, 4*sample.Bars, l.Overcharge().Pressure)
}

func TestOverchargeLeavesOutTheStuckValve(t *testing.T) {
	l := sample.Plain(sample.WithRelief(launcher.Exact("", 0.75*sample.Bars), launcher.Exact("", 0.95*sample.Bars), 5*sample.Millimetres,
		0.62))
	assert.InEpsilon(t, 0.95*sample.Bars, l.Overcharge().Pressure, sample.Rounding)
	assert.Equal(t, 4*sample.Bars, l.OverchargeWith("relief").Pressure)
}

// The regulator of a cylinder is one part: where it fails a full cylinder stands behind it (200 bar, common practice,
// from memory); a relief valve holds that.
func TestOverchargeOfACylinder(t *testing.T) {
	cylinder := func(l *launcher.Launcher) { l.Supply.Kind = launcher.RegulatedCylinder }
	assert.Equal(t, 200*sample.Bars, sample.Plain(cylinder).Overcharge().Pressure)
	held := sample.Plain(cylinder, sample.WithRelief(launcher.Exact("", 0.75*sample.Bars), launcher.Exact("", 0.95*sample.Bars),
		5*sample.Millimetres, 0.62))
	assert.InEpsilon(t, 0.95*sample.Bars, held.Overcharge().Pressure, sample.Rounding)
	assert.Equal(t, 4*sample.Bars, held.Supply.DeadHead.High, "the design stays as it is")
}

// Sealed at the dead head at 5 degC and left at 55 degC: (p + pa) T/T0 - pa, as far as a relief valve lets it (ideal gas).
func TestOverchargeInTheHeat(t *testing.T) {
	hot := func(l *launcher.Launcher) {
		l.Ambient.Temperature, l.Ambient.Hottest = launcher.Exact("", 278.15), launcher.Exact("", 328.15)
	}
	l := sample.Plain(hot)
	pa := l.Ambient.Pressure.High
	want := (4*sample.Bars+pa)*328.15/278.15 - pa
	assert.InDelta(t, want, l.Overcharge().Pressure, 1e-6)
	assert.Equal(t, 4*sample.Bars, l.Overcharge().Balance, "the pump pushes no further")
	assert.Contains(t, l.Overcharge().Why.String(), "heat")
	high := sample.WithRelief(launcher.Exact("", 4.2*sample.Bars), launcher.Exact("", 4.4*sample.Bars), 5*sample.Millimetres, 0.62)
	assert.InEpsilon(t, 4.4*sample.Bars, sample.Plain(hot, high).Overcharge().Pressure, sample.Rounding, "the relief valve opens")
}

// A relief valve on the volume behind a regulator holds what a failed one passes: the simulator, the tank kept at its
// pressure by its size, comes to rest there too.
func TestAReliefBehindARegulatorCounts(t *testing.T) {
	l := sample.TwoTanks(sample.Regulator(0.3*sample.Bars, 0))
	alone := l.VesselPressures()[1].Fault
	assert.GreaterOrEqual(t, alone, 0.95*sample.Bars, "all of the tank's")
	l.Volumes[0].Volume = launcher.Exact("", 1e3)
	l.Paths = append(l.Paths, launcher.PathSpec{Name: "relief", From: "dose", To: "atmosphere", Kind: pneumatics.Relief,
		Flow: sample.Orifice(1.0*sample.Millimetres, 0.75), SetPressure: launcher.Exact("", 0.4*sample.Bars),
		FullFlowPressure: launcher.Exact("", 0.42*sample.Bars), ReseatPressure: launcher.Exact("", 0.35*sample.Bars)})
	got := l.VesselPressures()[1]
	assert.Contains(t, got.Why.String(), "relief")
	assert.Greater(t, got.Fault, 0.42*sample.Bars)
	assert.Less(t, got.Fault, 0.9*alone)

	w := l.Clone()
	w.Paths[1].Kind = pneumatics.Orifice
	c := circuitOf(w)
	c.Supply = nil
	at := func(gauge float64) pneumatics.Condition {
		return pneumatics.Condition{Pressure: c.Ambient.Pressure + gauge, Temperature: c.Ambient.Temperature}
	}
	var sim pneumatics.Sim
	r := sim.Run(c, &pneumatics.Scenario{From: pneumatics.Armed, To: pneumatics.Armed, NoProjectile: true, Until: 60,
		Heat:    pneumatics.Isothermal,
		Volumes: []pneumatics.Condition{at(l.VesselPressures()[0].Normal), at(0.4 * sample.Bars)}}, pneumatics.Options{})
	require.Empty(t, r.Reason)
	rest := r.Volumes[1].Pressure - c.Ambient.Pressure
	assert.InEpsilon(t, rest, got.Fault, 2e-3, "the tank loses a little in a minute")

	// One that is too small does nothing beyond what its size lets it.
	l.Paths[2].Flow = sample.Orifice(0.1*sample.Millimetres, 0.75)
	assert.InEpsilon(t, alone, l.VesselPressures()[1].Fault, 0.05)
	// Turned round, towards the volume, it is none.
	l.Paths[2].From, l.Paths[2].To = "atmosphere", "dose"
	assert.Equal(t, alone, l.VesselPressures()[1].Fault)
}

// A path that only a shot opens joins two volumes too.
func TestVesselPressuresOfAShot(t *testing.T) {
	p := sample.TwoTanks(sample.ValveIn(pneumatics.Firing)).VesselPressures()
	assert.Equal(t, 4*sample.Bars, p[1].Fault, "fired with the switch welded")
}

// Every volume that shares the supplied one's pressure sees the fault; one
// behind a regulator sees what the regulator lets through when it fails.
func TestVesselPressures(t *testing.T) {
	l := sample.TwoTanks(sample.ValveIn(pneumatics.Charging))
	p := l.VesselPressures()
	assert.Equal(t, []float64{0.95 * sample.Bars, 0.95 * sample.Bars}, []float64{p[0].Normal, p[1].Normal})
	assert.Equal(t, []float64{4 * sample.Bars, 4 * sample.Bars}, []float64{p[0].Fault, p[1].Fault})

	l = sample.TwoTanks(launcher.PathSpec{Kind: pneumatics.Regulator, SetPressure: sample.Between("", 0.25*sample.Bars, 0.35*sample.Bars),
		Creep: sample.Between("", 0, 0.1*sample.Bars)})
	p = l.VesselPressures()
	assert.InEpsilon(t, 0.45*sample.Bars, p[1].Normal, sample.Rounding, "set and creep at the top of their bands")
	assert.GreaterOrEqual(t, p[1].Fault, 0.95*sample.Bars, "the regulator fails open")

	l.Supply.DeadHead = launcher.Band{}
	p = l.VesselPressures()
	assert.True(t, math.IsNaN(p[0].Fault))
	l.Switch = nil
	l.Paths = append(l.Paths, launcher.PathSpec{Name: "relief", From: "dose", To: "atmosphere", Kind: pneumatics.Relief,
		Flow: sample.Orifice(1.0*sample.Millimetres, 0.75), SetPressure: launcher.Exact("", 0.4*sample.Bars),
		FullFlowPressure: launcher.Exact("", 0.42*sample.Bars), ReseatPressure: launcher.Exact("", 0.35*sample.Bars)})
	p = l.VesselPressures()
	assert.True(t, math.IsNaN(p[1].Fault), "nor is it behind a regulator with a relief valve of its own: what stands before it is not known")
	assert.NotEmpty(t, p[1].Why.String())
	l = sample.Plain(func(l *launcher.Launcher) { l.Switch, l.Supply.DeadHead = nil, launcher.Band{} })
	assert.True(t, math.IsNaN(l.VesselPressures()[0].Normal))
	_, ok := l.FaultHigh()
	assert.False(t, ok)
}
