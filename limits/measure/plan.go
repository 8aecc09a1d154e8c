package measure

import (
	"context"
	"fmt"
	"math"
	"sort"

	"puffproof/limits/benchmark"
	"puffproof/limits/drill"
	"puffproof/limits/finding"
	"puffproof/limits/halving"
	"puffproof/limits/launcher"
	"puffproof/limits/progress"
	"puffproof/limits/recall"
	"puffproof/limits/search"
	"puffproof/limits/worst"
	"puffproof/pneumatics/flight"
)

// PlanReading is what one way to measure should show.
type PlanReading struct {
	Method Method
	Setup  finding.Text // how it is set up, with its distances
	// Reading at the weakest, nominal and strongest shot that the tolerances allow,
	// in the SI unit of Quantity.
	Low, Nominal, High float64
	Quantity           finding.Quantity
}

// PlanPressure is one pressure to shoot at.
type PlanPressure struct {
	Gauge              float64 // [Pa gauge]
	Shots              int
	Why                finding.Text
	Low, Nominal, High float64 // speeds to expect [m/s]; Low 0: a shot may stall
	Stop               float64 // a faster shot ends the session [m/s]
	Readings           []PlanReading
}

// PlanShots is how many shots a bound needs at a scatter.
type PlanShots struct {
	Scatter float64 // relative standard deviation of the speeds [-]
	Shots   int     // 0: no number up to 100 is enough
	K       float64 // factor of that number [-]
	Bound   float64 // bound on the energy that would come out [J]
}

// PlanTest is one bench test.
type PlanTest struct {
	Kind   BenchKind
	How    finding.Text
	Expect finding.Text
	Column string // of the shots file
}

// ShotPlan is a plan for measuring a launcher.
type ShotPlan struct {
	Pressures []PlanPressure
	Count     []PlanShots
	Limit     float64 // on the energy [J]
	Carry     float64 // energy at Top and the worst seat over that at the last pressure, nominal [-]
	Top       float64 // the start pressure that the bound of shots from the last pressure is carried to [Pa gauge]
	StartHigh float64 // highest start pressure of normal operation [Pa gauge]
	FiredHigh float64 // highest that shots can be fired from while everything works [Pa gauge]
	Bench     []PlanTest
	Stop      []finding.Text
	Stand     []finding.Text
	Refused   finding.Text // why nobody should shoot this build at all; ""
	Notes     []finding.Text
}

// mostPlanned is the most shots that a plan asks for at one pressure.
const mostPlanned = 100

// Plan makes a test plan from the design; day is that of the question, an ISO date.
func Plan(ctx context.Context, l *launcher.Launcher, day string) (*ShotPlan, error) {
	lim, err := l.EnergyLimits(day)
	if err != nil {
		return nil, err
	}
	return recall.Once(ctx, func() recall.Key { return recall.Key{"plan", search.Strength(ctx), l, day} },
		func() (*ShotPlan, error) { return planWithin(ctx, l, lim) })
}

// planWithin makes it for the limits that hold on its day.
func planWithin(ctx context.Context, l *launcher.Launcher, lim launcher.EnergyLimits) (*ShotPlan, error) {
	p := &ShotPlan{Limit: lim.Total.Value}
	high, ok := l.SoakedHigh()
	if !ok {
		p.Notes = append(p.Notes, finding.Words("The highest working pressure is not known: state [supply] dead_head or a "+
			"[pressure_switch]. Without it no plan can say where to measure."))
		return p, nil
	}
	p.StartHigh = high
	p.FiredHigh, _ = l.FiredHigh()
	main := planPressure(l, p.FiredHigh)
	gauges := PlanGauges(l)
	for i, gauge := range gauges {
		one, err := planAt(ctx, l, gauge)
		if err != nil {
			return nil, err
		}
		one.Shots, one.Why = LeastShots, finding.Words("gentle first, to see how the shots behave")
		switch half := mark(l, 0.5*main); {
		case i == 1:
			one.Why = finding.Words("a second pressure tells friction from flow")
		case i == 0 && gauge > half && gauge < main:
			one.Why = one.Why.Say("; no gentler, as at %s the nominal shot does not get out of the barrel, or creeps out", finding.Bar(half))
		}
		p.Pressures = append(p.Pressures, one)
	}
	if n := len(gauges); n < planSteps {
		p.Notes = append(p.Notes, finding.Say("There is no room for %s before the last: at %s the nominal shot does not get out of the barrel, "+
			"or creeps out, and no mark of the gauge lies between that is well apart. Stand as far off as for the last from the first shot on.",
			[...]string{"", "gentler shots", "a second step"}[n], finding.Bar(mark(l, 0.5*main))))
	}
	last := &p.Pressures[len(gauges)-1]
	if err := planCount(ctx, l, p, last); err != nil {
		return nil, err
	}
	last.Shots = 10
	if n := p.Count[1].Shots; n > 0 {
		last.Shots = max(LeastShots, n)
	}
	last.Why = finding.Say("the bound counts up to %.3g times this pressure, so up to the highest start pressure of %s", CarryUp,
		finding.Bars.Of(high, 3))
	if p.Top < high {
		last.Why = finding.Say("it comes to rest at %s at the most, and the bound counts up to %.3g times this pressure; beyond, with what is "+
			"open while it fills blocked, the model counts", finding.WorstBar(p.FiredHigh), CarryUp)
	}
	if last.Nominal == 0 {
		p.Count, p.Pressures = nil, p.Pressures[len(gauges)-1:]
		p.Refused = finding.Say("the nominal shot at %s does not leave the barrel: find out why, or change the design, before anyone loads "+
			"it", finding.Bars.Of(main, 3))
	}
	if e := 0.5 * l.Projectile.Mass.Nominal * last.Nominal * last.Nominal; e > p.Limit {
		p.Refused = finding.Say("the nominal shot at %s already has %s against a limit of %s: change the design before anyone shoots it",
			finding.Bars.Of(main, 3), finding.Joule(e), finding.Joule(p.Limit))
	}
	p.Bench = planBench(l)
	p.stand(l)
	return p, nil
}

// planSteps is how many pressures a plan has where there is room for them.
const planSteps = 3

// PlanGauges are the pressures at which a plan measures shots, the lowest first [Pa gauge]; nil: the highest start is not known. They are
// three: half of the last, three quarters, and that. Where the nominal shot does not get out of the barrel at half of it, or creeps out,
// the first is the lowest mark of the gauge at which it does, the second lies half way; fewer where no marks lie between.
func PlanGauges(l *launcher.Launcher) []float64 {
	high, ok := l.FiredHigh()
	if !ok {
		return nil
	}
	main, m := planPressure(l, high), NewShotModel(l.Clone())
	weak, middle := mark(l, 0.5*main), mark(l, 0.75*main)
	leaves := func(gauge float64) bool {
		speed, _ := m.Shot(gauge, 0)
		return speed >= worst.Creep
	}
	if !leaves(weak) {
		if !leaves(main) { // nobody shoots it (Plan)
			return []float64{weak, middle, main}
		}
		_, least := halving.Between(weak, main, 12, leaves)
		weak = markUp(l, least)
		middle = mark(l, 0.5*(weak+main))
	}
	steps := []float64{main}
	for _, gauge := range []float64{middle, weak} {
		if gauge <= (1-leastApart)*steps[0] && leaves(gauge) {
			steps = append([]float64{gauge}, steps...)
		}
	}
	return steps
}

// leastApart is how far two pressures of a plan lie apart at the least, times the higher one: shots at one are not taken for those at the
// other (own rule of this project, no source).
const leastApart = 0.1

// PlanStep is which of so many pressures of a plan a step is shot at: 0 the weak one, 1 the middle, 2 the last; not ok: it has no room.
func PlanStep(n, of int) (at int, ok bool) {
	if n == planSteps-1 {
		return of - 1, of > 0
	}
	return n, n < of-1
}

// planPressure is the pressure the bound is measured at: where the switch cuts out, or what else ends the filling, or higher if a bound
// from there would not reach the highest that it can be fired from.
func planPressure(l *launcher.Launcher, high float64) float64 {
	least := markUp(l, high/CarryUp)
	return math.Max(least, worst.NominalStart(l))
}

// mark rounds to a mark of the gauge, markUp to the next one above.
func mark(l *launcher.Launcher, p float64) float64 {
	return math.Max(1, math.Round(p/l.Resolution())) * l.Resolution()
}
func markUp(l *launcher.Launcher, p float64) float64 {
	return math.Ceil(p/l.Resolution()-1e-9) * l.Resolution()
}

// planAt computes the speeds to expect from one pressure.
func planAt(ctx context.Context, l *launcher.Launcher, gauge float64) (PlanPressure, error) {
	out := PlanPressure{Gauge: gauge}
	ctx = progress.Looking(ctx, finding.Say("speeds to expect from %s", finding.Bar(gauge)))
	out.Nominal, _ = NewShotModel(l.Clone()).Shot(gauge, 0)
	q := worst.EnergyQuestion(l, gauge)
	q.FixedSeat = true
	energy := worst.FinalEnergy(0)
	b := worst.NewBox(l, q)
	for _, sign := range []float64{+1, -1} {
		res, err := search.Maximise(ctx, b.Dim, func() search.Objective {
			e := b.Evaluator()
			return &fixedStart{u: make([]float64, b.Dim), value: func(u []float64) float64 {
				if b.Start >= 0 {
					u[b.Start] = 1
				}
				r := e.Run(u)
				return sign * math.Sqrt(2*energy(&e.Circuit, r)/e.Circuit.Barrel.Mass)
			}}
		}, search.Quick())
		if err != nil {
			return out, err
		}
		if sign > 0 {
			out.High = res.Best.Value
		} else {
			out.Low = math.Max(0, -res.Best.Value)
		}
	}
	out.High, out.Low = math.Max(out.High, out.Nominal), math.Min(out.Low, out.Nominal)
	out.Stop = out.High * math.Sqrt(worst.ModelFactor)
	out.Readings = planReadings(l, out)
	return out, nil
}

// fixedStart evaluates a function on a copy of the point.
type fixedStart struct {
	u     []float64
	value func(u []float64) float64
}

// Value calls the function.
func (f *fixedStart) Value(u []float64) float64 {
	copy(f.u, u)
	return f.value(f.u)
}

// planReadings turns speeds into what the instruments show.
func planReadings(l *launcher.Launcher, p PlanPressure) []PlanReading {
	k := Decay(l, 0).Value
	vt := flight.Terminal(k, flight.Gravity)
	height := 1.0
	if l.Event != nil && l.Event.MuzzleHeight.Set {
		height = l.Event.MuzzleHeight.Nominal
	}
	body := flying(l, 1)
	const place, span, rate = 0.3, 0.5, 240.0
	above := finding.Metres.Of(height, 3)
	all := []struct {
		m     Method
		setup finding.Text
		q     finding.Quantity
		f     func(v float64) float64
	}{
		{Chronograph, finding.Say("sensors %s before the muzzle", finding.Metres.Of(place, 3)), finding.InMetrePerSecond,
			func(v float64) float64 { return flight.SpeedAt(v, k, place) }},
		{Video, finding.Say("%g frames a second, frames from a mark at the muzzle to one %s on", rate, finding.Metres.Of(span, 3)),
			finding.InCount,
			func(v float64) float64 { return rate * flight.TimeOver(v, k, span) }},
		{HorizontalShot, finding.Say("barrel level, muzzle %s above the floor, distance of the first impact", above), finding.InMetre,
			func(v float64) float64 {
				return flight.Fly(body, air(l, 0), flight.Throw{Speed: v, Height: height}, 0).Landing.X
			}},
		{UpwardTime, finding.Say("from %s above the ground, time until it is down", above), finding.InSecond,
			func(v float64) float64 { return flight.ReturnTime(v, vt, flight.Gravity, height) }},
	}
	var out []PlanReading
	for _, a := range all {
		r := PlanReading{Method: a.m, Setup: a.setup, Quantity: a.q}
		for _, x := range []struct {
			at *float64
			v  float64
		}{{&r.Low, p.Low}, {&r.Nominal, p.Nominal}, {&r.High, p.High}} {
			if x.v > 0 {
				*x.at = a.f(x.v)
			}
		}
		out = append(out, r)
	}
	return out
}

// planCount says how many shots keep the bound below the limit, for three
// scatters: the mean is taken as the nominal speed, the chronograph as 2 %.
func planCount(ctx context.Context, l *launcher.Launcher, p *ShotPlan, at *PlanPressure) error {
	p.Top = min(p.StartHigh, CarryUp*at.Gauge)
	nominal, err := worst.NominalWorstSeat(ctx, l, p.Top)
	if err != nil {
		return err
	}
	there := 0.5 * l.Projectile.Mass.Nominal * at.Nominal * at.Nominal
	p.Carry = 1
	if there > 0 && nominal.FinalEnergy > there {
		p.Carry = nominal.FinalEnergy / there
	}
	factors := map[int]float64{} // the three searches ask for many of the same
	factor := func(n int) float64 {
		if _, known := factors[n]; !known {
			factors[n] = benchmark.BoundFactor(n)
		}
		return factors[n]
	}
	for _, scatter := range []float64{0.03, 0.05, 0.10} {
		with := func(n int) PlanShots {
			k := factor(n)
			v := at.Nominal*(1+k*scatter+DefaultSpeedError)*math.Sqrt(p.Carry) + worst.MovingAt(l)
			return PlanShots{Scatter: scatter, Shots: n, K: k, Bound: 0.5 * l.Projectile.Mass.High * v * v}
		}
		// The factor falls with the number of shots, and the bound with it.
		n := LeastShots + sort.Search(mostPlanned-LeastShots, func(more int) bool { return with(LeastShots+more).Bound <= p.Limit })
		c := with(n)
		if c.Bound > p.Limit {
			c.Shots = 0
		}
		p.Count = append(p.Count, c)
	}
	return nil
}

// planBench lists the bench tests with the readings to expect.
func planBench(l *launcher.Launcher) []PlanTest {
	p := &l.Projectile
	area := l.BarrelAt().Area
	level := func(f float64) finding.Shown {
		return finding.Millimetre(f/(waterDensity*flight.Gravity*area)).In(finding.Decimals, 0)
	}
	out := []PlanTest{
		{UTube, finding.Words("blow through a water U-tube into the breech until the projectile moves; read the difference of the levels"),
			finding.Say("%s of water", level(p.Breakaway.Low).To(level(p.Breakaway.High))), "water_height [mm]"},
		{Slope, finding.Words("tilt the tube until the projectile, once started, slides on evenly"),
			finding.Words(slopeExpected(l)), "slope_angle [deg]"},
		{Sink, finding.Words("cork the breech, tube upright, time how long the projectile sinks over a marked distance"),
			finding.Say("a tight one does not sink; %s of gap all round sinks some centimetres a second", finding.Millimetres.Of(0.1e-3, 2)),
			"sink_distance [mm], sink_time [s]"},
	}
	if i := fireValve(l); i >= 0 {
		v := &l.Paths[i]
		at := worst.NominalStart(l)
		_, exit := NewShotModel(l.Clone()).Shot(at, 0)
		expect := finding.Words("not known: the nominal shot does not leave")
		if !math.IsInf(exit, 0) {
			time := finding.Shown{Value: exit, Unit: finding.Milliseconds, Rounding: finding.Decimals}
			expect = finding.Say("about %s at %s", time, finding.Bars.Of(at, 3))
		}
		out = append(out, PlanTest{ClickToPop, finding.Say("record at the muzzle, read the time from the click of the valve to the pop in "+
			"an audio editor (narrows %s)", v.OpeningTime.Key), expect, "click_to_pop [ms]"})
	}
	return out
}

func slopeExpected(l *launcher.Launcher) string {
	w := l.Projectile.Mass.Nominal * flight.Gravity
	angle := func(f float64) string {
		if f >= w {
			return "upright and it still holds"
		}
		return fmt.Sprintf("%.0f deg", math.Asin(f/w)*180/math.Pi)
	}
	low, high := angle(l.Projectile.Sliding.Low), angle(l.Projectile.Sliding.High)
	return low + " to " + high
}

// stand writes who stands where and what ends the session.
func (p *ShotPlan) stand(l *launcher.Launcher) {
	top := finding.Bars.Of(p.StartHigh, 3)
	if p.FiredHigh < p.StartHigh { // what is open while it fills is blocked
		top = finding.WorstBar(p.FiredHigh)
	}
	p.Stop = []finding.Text{
		finding.Words("a shot faster than the figure of its pressure"),
		finding.Say("a gauge above %s", top),
		finding.Words("a shot nobody asked for, a part that moves, a leak that can be heard"),
		finding.Say("a misfire: %s", drill.Jam(l)),
		finding.Words("anyone in front of the muzzle"),
	}
	p.Stand = finding.AllWords([]string{
		"nobody in front; the shots end in a hanging blanket or a box",
		"one adult fires from behind the muzzle, one reads and writes; both wear eye protection",
		"children are not there while it is tested",
	})
	p.Notes = append(p.Notes, finding.Words("Use at least 2 projectiles, weigh each once, write down which one flew, the temperature and "+
		"every shot, misfires too."),
		p.above(l))
	if l.Barrel.FixedSeat {
		return
	}
	p.Notes = append(p.Notes, finding.Words("Seat the projectile at the full travel each time: the model carries the bound to the worst "+
		"seating."))
}

// above says how it is filled for a pressure above where its filling ends by itself.
func (p *ShotPlan) above(l *launcher.Launcher) finding.Text {
	if rest := l.Resting(); rest.Ends {
		return finding.Say("With its supply it comes to rest at about %s. For a pressure above that a hand pump helps it, and whoever fires "+
			"reads the gauge at that moment; nothing that is open is blocked for it.", finding.Bar(worst.NominalStart(l)))
	}
	return finding.Words("Fill with a hand pump, or set the switch, for a pressure above the cut-out; never defeat the relief valve. Set " +
		"the switch back to the cut-out after it, record ten cycles and seal it again.")
}
