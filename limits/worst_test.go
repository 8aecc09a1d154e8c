package limits

import (
	"context"
	"math"
	"math/rand/v2"
	"os"
	"runtime"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/search"
	"puffproof/pneumatics"
)

// whale is the float of testdata/designs in SI units, as far as a shot needs it.
func whale() *Launcher {
	x, b := Exact, between
	drilled := func(d, tol float64) FlowSpec {
		f := orifice(d*millimetres, 0.75)
		f.Value = b("orifice", (d-tol)*millimetres, (d+tol)*millimetres)
		f.DischargeCoefficient = b("discharge_coefficient", 0.6, 0.9)
		return f
	}
	fire := FlowSpec{Form: FlowCv, Value: b("paths.fire.Cv", 1.8, 2.2), PressureDropRatio: b("xT", 0.5, 0.8), CriticalRatio: b("b", 0.2, 0.5)}
	direct := func(low, high float64) Band { return b("opening_time", low*1e-3, high*1e-3) }
	return &Launcher{Name: "whale", Gas: "air",
		Ambient: AmbientSpec{Pressure: b("ambient.pressure", 98300, 104300), Temperature: b("ambient.temperature", 283.15, 299.15),
			Hottest: x("ambient.hottest", 313.15), Coldest: x("ambient.coldest", 278.15)},
		Volumes: []VolumeSpec{
			{Name: "tank", Volume: b("volumes.tank.volume", 1.96e-3, 2.04e-3), RatedPressure: x("", 10*bars), RatedForGas: Yes, Material: "steel"},
			{Name: "dose", Volume: b("volumes.dose.volume", 0.97e-3, 1.03e-3), RatedPressure: x("", 10*bars), RatedForGas: Yes, Material: "steel"}},
		Paths: []PathSpec{
			{Name: "fire", From: "dose", To: "barrel", Kind: pneumatics.Valve, Flow: fire, OpenIn: pneumatics.SetOf(pneumatics.Firing),
				OpeningTime: direct(20, 40), ClosingTime: direct(20, 40)},
			{Name: "feed", From: "tank", To: "dose", Kind: pneumatics.Valve, Flow: drilled(1.2, 0.1), OpenIn: pneumatics.SetOf(pneumatics.Charging),
				OpeningTime: direct(0, 40), ClosingTime: direct(0, 40)},
			{Name: "relief", From: "tank", To: "atmosphere", Kind: pneumatics.Relief, Flow: drilled(5, 0.2), SetPressure: b("set", 0.65*bars, 0.85*bars),
				FullFlowPressure: b("full", 0.85*bars, 1.05*bars), ReseatPressure: b("reseat", 0.55*bars, 0.72*bars)}},
		Supply: &SupplySpec{Feeds: "tank", FreeAir: b("supply.free_air", 10.2*litreMinute, 13.8*litreMinute), DeadHead: b("", 3.2*bars, 4.8*bars)},
		Switch: &SwitchSpec{Senses: "tank", CutOut: b("", 0.38*bars, 0.46*bars), CutIn: b("", 0.25*bars, 0.35*bars), GaugeError: b("", -1600, 1600)},
		Barrel: BarrelSpec{Bore: b("barrel.bore", 40.8*millimetres, 41.2*millimetres), Travel: b("barrel.travel", 67*millimetres, 73*millimetres),
			DeadVolume: b("barrel.dead_volume", 35*millilitres, 45*millilitres), RatedPressure: x("", 6*bars), RatedForGas: Yes, Material: "polycarbonate",
			ObjectControl: []string{"supervised loading by the adult in charge"}, SealGuard: "four slots"},
		Projectile: ProjectileSpec{Mass: b("projectile.mass", 3.6*grams, 4.4*grams), Diameter: b("projectile.diameter", 40.5*millimetres, 41.5*millimetres),
			ContactDiameter: b("", 20*millimetres, 24*millimetres), Resilient: true, TipStated: true, TipProof: "record", OpenCell: No,
			Breakaway: b("projectile.breakaway_force", 0, 1.5), Sliding: b("projectile.sliding_force", 0, 0.4)},
		Event: &EventSpec{Youngest: x("", 4*365.25*86400)},
	}
}

// rocket is the stand of testdata/designs in SI units.
func rocket() *Launcher {
	x, b := Exact, between
	return plain(overTube, func(l *Launcher) {
		l.Switch = nil
		l.Ambient.Temperature = b("ambient.temperature", 289.15, 299.15)
		l.Ambient.Hottest = x("", 303.15)
		l.Volumes[0].Volume = b("volumes.tank.volume", 0.198e-3, 0.202e-3)
		l.Paths[0].Flow = FlowSpec{Form: FlowKv, Value: b("Kv", 1.54, 2.86), PressureDropRatio: b("xT", 0.5, 0.8), CriticalRatio: b("b", 0.2, 0.5)}
		l.Paths[0].OpeningTime = b("opening_time", 5e-3, 50e-3)
		l.Paths = append(l.Paths, PathSpec{Name: "bleed", From: "tank", To: "atmosphere", Kind: pneumatics.Orifice, Flow: orifice(0.4*millimetres, 0.65)})
		l.Supply = &SupplySpec{Feeds: "tank", FreeAir: b("free_air", 2.7*litreMinute, 3.3*litreMinute), DeadHead: b("", 0.18*bars, 0.22*bars)}
		l.Barrel.FixedSeat = false
		l.Barrel.DeadVolume = b("dead_volume", 20*millilitres, 24*millilitres)
		l.Barrel.Engagement = b("engagement", 55*millimetres, 65*millimetres)
		l.Projectile.Mass = b("mass", 7.2*grams, 8.8*grams)
		l.Projectile.Clearance = b("clearance", 0.1*millimetres, 0.5*millimetres)
		l.Projectile.Breakaway, l.Projectile.Sliding = b("breakaway", 0, 0.8), b("sliding", 0, 0.4)
	})
}

// randomLauncher is an invented launcher with wide tolerances: some stick and
// hop, some are snug, some leak.
func randomLauncher(r *rand.Rand) *Launcher {
	wide := func(key string, low, high float64) Band {
		a, b := low*math.Pow(high/low, r.Float64()), 1+0.5*r.Float64()
		return between(key, a/b, a*b)
	}
	return plain(func(l *Launcher) {
		l.Ambient.Temperature = between("ambient.temperature", 275, 305)
		l.Volumes[0].Volume = wide("volume", 0.1e-3, 3e-3)
		l.Paths[0].Flow = FlowSpec{Form: FlowCv, Value: wide("Cv", 0.2, 5), PressureDropRatio: between("xT", 0.5, 0.8), CriticalRatio: between("b", 0.2, 0.5)}
		l.Paths[0].OpeningTime = between("opening_time", 0, 0.08*r.Float64())
		l.Switch.CutOut = wide("cut_out", 0.1*bars, 1*bars)
		l.Barrel.Travel = wide("travel", 0.03, 0.5)
		l.Barrel.DeadVolume = wide("dead_volume", 20e-6, 150e-6)
		l.Barrel.FixedSeat = r.IntN(2) == 0
		l.Projectile.Mass = wide("mass", 2e-3, 30e-3)
		l.Projectile.Diameter = between("diameter", 40*millimetres, 41*millimetres+r.Float64()*millimetres)
		l.Projectile.Breakaway = between("breakaway", 0, 40*r.Float64())
		l.Projectile.Sliding = between("sliding", 0, 2*r.Float64())
	})
}

func worstOf(t testing.TB, l *Launcher, o search.Options) *worst {
	t.Helper()
	high, ok := l.SoakedHigh()
	require.True(t, ok)
	w, err := l.maximise(context.Background(), l.energyQuestion(high), o)
	require.NoError(t, err)
	require.False(t, w.undetermined())
	return w
}

// bestOfRandom is the best of n random points of the worst case's box.
func bestOfRandom(w *worst, n int, r *rand.Rand) (best float64, at []float64) {
	e := w.box.evaluator()
	u := make([]float64, w.box.dim)
	for range n {
		for i := range u {
			u[i] = r.Float64()
		}
		if v := e.Value(u); v > best {
			best, at = v, append([]float64(nil), u...)
		}
	}
	return best, at
}

// The proof that the issue asks for: the search never loses to the best of 2000
// random points. PUFFPROOF_LAUNCHERS sets how many random launchers are tried.
func TestWorstCaseNeverLosesToRandomPoints(t *testing.T) {
	n := 3
	if s := os.Getenv("PUFFPROOF_LAUNCHERS"); s != "" {
		var err error
		n, err = strconv.Atoi(s)
		require.NoError(t, err)
	}
	launchers := map[string]*Launcher{"whale": whale(), "rocket": rocket()}
	for i := range n {
		launchers["random "+strconv.Itoa(i)] = randomLauncher(rand.New(rand.NewPCG(uint64(i), 2)))
	}
	for name, l := range launchers {
		t.Run(name, func(t *testing.T) {
			w := worstOf(t, l, search.Options{})
			best, at := bestOfRandom(w, 2000, rand.New(rand.NewPCG(1, 3)))
			// 1e-9 J: where nothing moves, all values are the bound at which a run ends idle.
			assert.GreaterOrEqual(t, w.value, best-1e-9, "random point %v", at)
			require.NotNil(t, w.shot)
			assert.Empty(t, w.shot.Withheld())
		})
	}
}

// energyAt is the final energy of an exact launcher fired at a gauge pressure.
func energyAt(t *testing.T, l *Launcher, at float64) float64 {
	t.Helper()
	n, err := NominalShot(context.Background(), l, &at, 2)
	require.NoError(t, err)
	require.Equal(t, pneumatics.Left, n.Result.Outcome)
	return n.Result.FinalEnergy
}

// More pressure can shoot less hard. Source: rows Q and P of testdata/reference/shots.csv,
// SciPy on the same equations with the parts of the model off: pressures in bar and
// energies in joules, three digits.
func TestASingleShotCanFallWithPressure(t *testing.T) {
	l := plain(partsOff, fireCv(1.1), friction(20, 0.6))
	want := map[float64]float64{0.75: 0.0479, 0.80: 0.0503, 0.85: 0.0368, 0.90: 0.0294}
	for p, e := range want {
		assert.InDelta(t, e, energyAt(t, l, p*bars), 6e-5, "at %g bar; four decimals printed", p)
	}
	// Stuck six times, then harder than the limit: not "stalled" (row P).
	n, err := NominalShot(context.Background(), plain(partsOff, fireCv(0.4), friction(30, 0.6), cutOut(0.9*bars)), nil, 2)
	require.NoError(t, err)
	assert.Equal(t, 6, n.Result.Rests)
	assert.InDelta(t, 11.67e-3, n.Result.FirstRestTime, 0.01e-3, "two decimals of a millisecond printed")
	assert.InDelta(t, 13.8e-3, n.Result.FirstRestAt, 0.05e-3)
	assert.InDelta(t, 0.1638, n.Result.ExitTime, 1e-4)
	assert.InDelta(t, 0.630, n.Result.FinalEnergy, 1e-3)
}

// The worst case over all start pressures never falls as the cut-out rises,
// though the single shot does.
func TestTheEnvelopeNeverFalls(t *testing.T) {
	for name, make := range map[string]func(p float64) *Launcher{
		"steps": func(p float64) *Launcher { return plain(partsOff, fireCv(1.1), friction(20, 0.6), cutOut(p)) },
		"hops":  func(p float64) *Launcher { return plain(partsOff, fireCv(0.4), friction(30, 0.6), cutOut(p)) },
		"tolerances": func(p float64) *Launcher {
			return plain(fireCv(1.1), cutOut(p), func(l *Launcher) {
				l.Projectile.Breakaway = between("breakaway", 5, 20)
				l.Barrel.FixedSeat = false
			})
		},
	} {
		t.Run(name, func(t *testing.T) {
			last := 0.0
			for _, p := range []float64{0.5, 0.7, 0.8, 0.85, 0.9} {
				w := worstOf(t, make(p*bars), search.Options{}).value
				// The search settles a maximum to 2^-24 of each band, so two searches
				// of one maximum agree to far better than 1e-6.
				assert.GreaterOrEqual(t, w, last*(1-1e-6), "cut-out %g bar", p)
				last = w
			}
		})
	}
}

// The worst is not always at the intuitive end: a higher breakaway force shoots
// harder where the valve is slow, and the search finds it.
func TestHigherBreakawayCanShootHarder(t *testing.T) {
	slow := func(l *Launcher) { l.Paths[0].OpeningTime = Exact("", 60e-3) }
	free, sticky := plain(slow, friction(0, 0)), plain(slow, friction(15, 0))
	low, high := energyAt(t, free, 0.5*bars), energyAt(t, sticky, 0.5*bars)
	require.Greater(t, high, 1.05*low)
	l := plain(slow, friction(0, 0), cutOut(0.5*bars), func(l *Launcher) { l.Projectile.Breakaway = between("breakaway", 0, 15) })
	w := worstOf(t, l, search.Options{})
	assert.GreaterOrEqual(t, w.value, high*(1-1e-6), "the two runs differ in tolerance")
	for _, c := range w.point {
		if c.Key == "breakaway" {
			assert.Greater(t, c.Value, 7.5)
		}
	}
}

// A slower valve too, where a tight ball stops and hops in front of a fast one.
func TestASlowerValveCanShootHarder(t *testing.T) {
	opening := func(s float64) func(*Launcher) {
		return func(l *Launcher) { l.Paths[0].OpeningTime = Exact("opening_time", s) }
	}
	base := []func(*Launcher){partsOff, fireCv(1.1), friction(20, 0.6)}
	const at = 0.9 * bars
	fast := energyAt(t, plain(append(base, opening(1e-3))...), at)
	best, bestAt := fast, 1e-3
	for _, s := range []float64{5e-3, 10e-3, 15e-3, 20e-3, 30e-3, 40e-3} {
		if e := energyAt(t, plain(append(base, opening(s))...), at); e > best {
			best, bestAt = e, s
		}
	}
	require.Greater(t, bestAt, 1e-3, "a slower valve shoots harder here")
	l := plain(append(base, cutOut(at), func(l *Launcher) { l.Paths[0].OpeningTime = between("opening_time", 1e-3, 40e-3) })...)
	assert.GreaterOrEqual(t, worstOf(t, l, search.Options{}).value, best*(1-1e-6))
}

// The whole check is the same, figure by figure, on one core and on three.
func TestCheckIsDeterministic(t *testing.T) {
	before := runtime.GOMAXPROCS(1)
	defer runtime.GOMAXPROCS(before)
	one := check(t, rocket())
	runtime.GOMAXPROCS(3)
	three := check(t, rocket())
	assert.Equal(t, one, three)
}

// A launcher that moves adds its speed: 4 g at 15.8 m/s have 0.5 J, from a
// vehicle at 2 m/s they meet a bystander with 0.004 kg (17.8 m/s)^2/2 = 0.63 J (by
// hand, two digits).
func TestAMovingVehicleAdds(t *testing.T) {
	measure := finalEnergy(2)
	c := &pneumatics.Circuit{Barrel: pneumatics.Barrel{Mass: 4e-3}}
	assert.InDelta(t, 0.63, measure(c, &pneumatics.Result{Outcome: pneumatics.Left, FinalSpeed: 15.8}), 0.005)
	assert.Zero(t, measure(c, &pneumatics.Result{Outcome: pneumatics.Stalled}))
	assert.True(t, math.IsNaN(measure(c, &pneumatics.Result{Outcome: pneumatics.Left, FinalSpeed: 1, Reason: "broken"})))
	assert.InDelta(t, 0.63, measure(c, &pneumatics.Result{Outcome: pneumatics.TimeRanOut, Freed: 0.5 * 4e-3 * 15.8 * 15.8}), 0.005,
		"a shot that does not end counts with its bound")

	still := worstOf(t, plain(), search.Options{}).value
	v := math.Sqrt(2 * still / (4 * grams))
	for name, move := range map[string]func(*Launcher){
		"mount": func(l *Launcher) { l.Mount.MovingAt = between("", 0, 2) },
		"event": func(l *Launcher) { l.Event = &EventSpec{VehicleSpeed: between("", 0, 2)} },
	} {
		want := 0.5 * 4 * grams * (v + 2) * (v + 2)
		assert.InEpsilon(t, want, worstOf(t, plain(move), search.Options{}).value, 1e-6, name)
	}
}

// Free seating counts every seat, a stop only the stated travel.
func TestSeating(t *testing.T) {
	l := plain(fireCv(0.6), friction(0, 0))
	fixed := worstOf(t, l, search.Options{})
	assert.NotContains(t, fixed.box.labels, "seating")
	assert.Zero(t, fixed.seat)
	l.Barrel.FixedSeat = false
	free := worstOf(t, l, search.Options{})
	assert.Contains(t, free.box.labels, "seating")
	assert.GreaterOrEqual(t, free.value, fixed.value*(1-1e-6))
	// By hand over seats: the search is not below the best of a fine scan.
	best := 0.0
	e := free.box.evaluator()
	for i := range 1001 {
		u := make([]float64, free.box.dim)
		u[free.box.start], u[free.box.seat] = 1, float64(i)/1000
		best = max(best, e.Value(u))
	}
	assert.GreaterOrEqual(t, free.value, best)
}

// Which quantities are coordinates of the box.
func TestCoordinatesOfTheBox(t *testing.T) {
	labels := func(l *Launcher) []string { return newBox(l, l.energyQuestion(1e5)).labels }
	assert.Equal(t, []string{"start pressure"}, labels(plain()), "no tolerance, no coordinate")
	hot := plain(func(l *Launcher) { l.Ambient.Hottest = Exact("", 318.15) })
	assert.Contains(t, labels(hot), "ambient.temperature", "an exact temperature still rises to the hottest")
	l := twoTanks(PathSpec{Kind: pneumatics.Regulator, SetPressure: between("reg.set", 2e4, 3e4), Creep: between("reg.creep", 0, 1e4), Droop: between("reg.droop", 1e3, 2e3)})
	assert.Contains(t, labels(l), "reg.set")
	assert.Contains(t, labels(l), "reg.creep")
	assert.Contains(t, labels(l), "reg.droop")
	// What cannot reach the barrel during the shot is none.
	l = twoTanks(valveIn(pneumatics.Charging))
	l.Volumes[0].Volume = between("volumes.tank.volume", 1e-3, 2e-3)
	assert.NotContains(t, labels(l), "volumes.tank.volume", "the feed shuts at once")
	l.Paths[1].ClosingTime = Exact("", 20e-3)
	assert.Contains(t, labels(l), "volumes.tank.volume", "it takes time to shut")
}

// The tolerance of a regulator is part of the worst case: its top, set and
// creep, sets where the shot starts.
func TestARegulatorsBandCounts(t *testing.T) {
	l := twoTanks(PathSpec{Kind: pneumatics.Regulator, SetPressure: between("", 0.25*bars, 0.35*bars), Creep: between("", 0, 0.1*bars), Droop: Exact("", 0.03*bars)})
	l.Switch.CutOut = Exact("", 3*bars)
	top := twoTanks(PathSpec{Kind: pneumatics.Regulator, SetPressure: Exact("", 0.35*bars), Creep: Exact("", 0.1*bars), Droop: Exact("", 0.03*bars)})
	top.Switch.CutOut = Exact("", 3*bars)
	assert.GreaterOrEqual(t, worstOf(t, l, search.Options{}).value, worstOf(t, top, search.Options{}).value*(1-1e-6))
}

// A seed that does not fit the box is not used; one that fits is.
func TestPointNamesItsSides(t *testing.T) {
	l := whale()
	w := worstOf(t, l, search.Light())
	require.NotEmpty(t, w.point)
	for _, c := range w.point {
		assert.Contains(t, []string{"low", "high", "inside"}, c.Side)
		assert.NotEmpty(t, c.Key)
		assert.False(t, math.IsNaN(c.Value))
	}
}
