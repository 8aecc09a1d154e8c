package design

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
	"puffproof/testdata/compare/random"
)

// The assault: launchers drawn from the stated bands, filled and fired by the simulator,
// against what is judged of the design. It shares nothing with the search but the
// simulator: bands are found by reflection, not in the catalogue; pressures before the
// shot come from a simulation of charging and waiting, not from the rules of
// launcher.StartPressures; a supply that nothing stops is let run.
//
//	PUFFPROOF_LONG=1 go test ./cmd/puffproof/internal/design -run Assault -v -timeout 0
//
// PUFFPROOF_DESIGNS (300) random designs from PUFFPROOF_SEED (0) on, PUFFPROOF_DRAWS (1000) launchers of each.
func TestAssault(t *testing.T) {
	first, designs, draws, strength := uint64(11), 3, 150, 0.1
	if os.Getenv("PUFFPROOF_LONG") != "" {
		first, strength = uint64(numberFrom("PUFFPROOF_SEED", 0)), 1
		designs, draws = numberFrom("PUFFPROOF_DESIGNS", 300), numberFrom("PUFFPROOF_DRAWS", 1000)
	}
	var sum tally
	for seed := first; sum.designs < designs; seed++ {
		l, problems := Read("random.toml", random.Design(seed))
		if len(problems) > 0 {
			continue
		}
		vary(l, rand.New(rand.NewPCG(seed, 5)))
		a, err := assessment.Make(context.Background(), l,
			assessment.Options{Strength: strength, Want: assessment.EnergyStage, Day: "2026-01-01"})
		if _, withheld := err.(*worst.WithheldError); withheld { //nolint:errorlint // never wrapped
			sum.designs++
			sum.withheld++
			t.Logf("seed %d: withheld: %v", seed, err)
			continue
		}
		require.NoError(t, err)
		sum.designs++
		if len(a.EnergyUnknown()) > 0 {
			sum.unknown++
			t.Logf("seed %d: not judged: %s", seed, a.EnergyUnknown())
			continue
		}
		siege := besieger{l: l, r: rand.New(rand.NewPCG(seed, 7)), measure: worst.JudgedEnergy(worst.MovingAt(l))}
		siege.run(draws)
		sum.launchers += siege.shots
		// Both with what the model's range asks for at the shot in hand: so the search compares them.
		bare, judged := a.Normal.Value, a.Energy.Judged
		if a.Energy.Basis == finding.OnCeiling {
			bare = judged
		}
		sum.reach = append(sum.reach, siege.most/bare)
		switch over := siege.most/bare - 1; {
		case siege.most > judged*(1+1e-9)+1e-9:
			sum.exceeded++
			t.Errorf("seed %d: a launcher within the bands shoots %.6g J, judged is %.6g J (worst found %.6g J, ceiling %.6g J), from %v Pa",
				seed, siege.most, judged, bare, a.Energy.Ceiling, siege.from)
		case over > 0.02 && siege.most > 1e-3:
			sum.beaten++
			t.Logf("seed %d: the unfactored worst case of %.5g J is beaten by %.1f %%, from %v Pa:%s", seed, bare, 100*over, siege.from,
				siege.differs(a.Energy.WorstPoint))
		}
		if siege.bare > a.Energy.Ceiling*(1+1e-6)+1e-9 && a.Energy.Ceiling > 0 {
			sum.overCeiling++
			t.Errorf("seed %d: %.6g J is above the ceiling of %.6g J", seed, siege.bare, a.Energy.Ceiling)
		}
	}
	t.Logf("seeds from %d: %s", first, sum)
	assert.Zero(t, sum.exceeded)
}

// tally counts what an assault found.
type tally struct {
	designs, launchers, withheld, unknown, beaten, exceeded, overCeiling int
	reach                                                                []float64 // hardest shot over the worst case found, of each design
}

func (s tally) String() string {
	slices.Sort(s.reach)
	at := func(share float64) float64 {
		if len(s.reach) == 0 {
			return math.NaN()
		}
		return s.reach[int(share*float64(len(s.reach)-1))]
	}
	return fmt.Sprintf("%d designs, %d launchers; withheld %d, not judged %d; unfactored worst case beaten by more than 2 %% in %d, "+
		"judged figure exceeded in %d, ceiling in %d; the hardest shot reached %.2f (median), %.2f, %.2f (most) of the worst case found",
		s.designs, s.launchers, s.withheld, s.unknown, s.beaten, s.exceeded, s.overCeiling, at(0.5), at(0.9), at(1))
}

func numberFrom(name string, otherwise int) int {
	if n, err := strconv.Atoi(os.Getenv(name)); err == nil {
		return n
	}
	return otherwise
}

// besieger draws launchers of one design and keeps the hardest shot.
type besieger struct {
	l       *launcher.Launcher
	r       *rand.Rand
	measure func(*pneumatics.Circuit, *pneumatics.Result) float64
	sim     pneumatics.Sim
	shots   int
	most    float64 // by measure
	bare    float64 // the most energy of all [J]
	best    []float64
	from    []float64
}

// run draws launchers at corners, anywhere and near the hardest so far.
func (s *besieger) run(draws int) {
	dims := len(bandsOf(s.l)) + drawnBeside
	s.best = make([]float64, dims)
	for i := range draws {
		u := make([]float64, dims)
		switch {
		case i < draws/3:
			for k := range u {
				u[k] = float64(s.r.IntN(2))
			}
		case i < draws/2 || s.most == 0:
			for k := range u {
				u[k] = s.r.Float64()
			}
		default: // a climb: a few coordinates of the hardest are moved, to an end or a little
			copy(u, s.best)
			for range 1 + s.r.IntN(4) {
				k := s.r.IntN(dims)
				switch s.r.IntN(3) {
				case 0:
					u[k] = float64(s.r.IntN(2))
				case 1:
					u[k] = s.r.Float64()
				default:
					u[k] = min(max(u[k]+0.1*s.r.NormFloat64(), 0), 1)
				}
			}
		}
		if e, from := s.shoot(u); e > s.most {
			s.most, s.best, s.from = e, u, from
		}
	}
}

// differs tells where the hardest launcher lies, beside the worst point that the search found.
func (s *besieger) differs(found worst.Point) string {
	at := map[string]float64{}
	for _, c := range found {
		at[c.Key] = c.Value
	}
	var out strings.Builder
	for k, b := range bandsOf(s.l) {
		v, ok := at[b.Key]
		if drawn := b.Lerp(s.best[k]); b.Width() > 0 && (!ok || math.Abs(v-drawn) > 0.1*b.Width()) {
			fmt.Fprintf(&out, "\n  %s: %g, in %g to %g; found %v, %g", b.Key, drawn, b.Low, b.High, ok, v)
		}
	}
	fmt.Fprintf(&out, "\n  beside: %.3v", s.best[len(s.best)-drawnBeside:])
	for _, c := range found {
		fmt.Fprintf(&out, "\n  found %s %g %s", c.Key, c.Value, c.Side)
	}
	return out.String()
}

// drawnBeside are the coordinates that are no band: how full it is, how long it waited, the heat, the seat, the state
// before, and whether it was charged by simulation or simply stands at a pressure.
const drawnBeside = 6

// shoot fills and fires one launcher; 0 where it cannot be filled or computed.
func (s *besieger) shoot(u []float64) (energy float64, gauge []float64) {
	w := s.l.Clone()
	bands := bandsOf(w)
	for k, b := range bands {
		v := b.Low + u[k]*(b.High-b.Low)
		b.Low, b.Nominal, b.High = v, v, v
	}
	lineUp(s.l, w)
	beside := u[len(bands):]
	c := new(pneumatics.Circuit)
	w.Fill(c)
	charged := s.charge
	if beside[5] > 0.3 {
		charged = s.stands
	}
	rest, ok := charged(w, c, beside)
	if !ok {
		return 0, nil
	}
	sc := pneumatics.Scenario{From: pneumatics.Armed, To: pneumatics.Firing, Volumes: rest, Parts: w.Model.Parts, SupplyRuns: w.SupplyFires(),
		Until: 120}
	if !s.l.Barrel.FixedSeat {
		sc.Seat = beside[3] * c.Barrel.Travel
	}
	if states := w.StatesBefore(); len(states) > 1 && beside[4] > 0.5 {
		sc.From = states[1]
	}
	w.FillShot(c) // with hoses as lines: filling and waiting took them as resistances
	s.shots++
	r := s.sim.Run(c, &sc, pneumatics.Options{})
	if r.Reason != "" || r.Outcome != pneumatics.Left {
		return 0, nil
	}
	for _, v := range rest {
		gauge = append(gauge, math.Round(v.Pressure-c.Ambient.Pressure))
	}
	s.bare = max(s.bare, worst.FinalEnergy(worst.MovingAt(s.l))(c, r))
	return s.measure(c, r), gauge
}

// charge fills the launcher until its switch stops the supply, or to the supply's end,
// waits, and leaves it in the heat.
func (s *besieger) charge(w *launcher.Launcher, c *pneumatics.Circuit, beside []float64) ([]pneumatics.Condition, bool) {
	if w.Supply == nil {
		return nil, false
	}
	pa, ta := c.Ambient.Pressure, c.Ambient.Temperature
	at := make([]pneumatics.Condition, len(c.Volumes))
	for i := range at {
		at[i] = pneumatics.Condition{Pressure: pa, Temperature: ta}
	}
	level := 1.0 // of the cut-out: a shot may come before it is full
	if beside[0] < 0.5 {
		level = 0.1 + 1.8*beside[0]
	}
	fill := pneumatics.Scenario{From: pneumatics.Charging, To: pneumatics.Charging, NoProjectile: true, SupplyRuns: true, Volumes: at,
		Heat: pneumatics.Isothermal, Until: 600}
	if k := w.Switch; k != nil {
		e := 0.0
		if k.GaugeError.Set {
			e = k.GaugeError.Nominal
		}
		fill.Switch = &pneumatics.SwitchLogic{Senses: w.Node(k.Senses), CutOut: level * (k.CutOut.Nominal + e)}
		fill.Switch.CutIn = 0.98 * fill.Switch.CutOut // held there against what leaks
	} else {
		s.unswitched(w, &fill, level)
	}
	full, ok := s.settle(c, &fill)
	if !ok {
		return nil, false
	}
	hours := beside[1] > 0.8
	if wait := beside[1]; wait > 0.5 { // the switch has stopped the supply: what is joined balances
		idle := pneumatics.Scenario{From: pneumatics.Charging, To: pneumatics.Armed, NoProjectile: true, Volumes: full,
			Heat: pneumatics.Isothermal, Until: math.Pow(10, 10*(wait-0.6))}
		if hours {
			idle.Until = 3600
		}
		if full, ok = s.settle(c, &idle); !ok {
			return nil, false
		}
	}
	for i := range full {
		if hours && !bleeds(c, pneumatics.Node(i)) { // filled cold, sealed, left in the sun
			g := full[i].Pressure - pa
			full[i].Pressure += (s.l.Soak(g) - g) * beside[2]
		}
	}
	for i := range full {
		full[i].Temperature = ta
	}
	return full, true
}

// unswitched lets a person stop at the mark, off by the gauge's error, or a timer, whose fill gives its heat to the walls or
// keeps it. Where neither is, the fill goes on to what relief valves and the supply allow.
func (s *besieger) unswitched(w *launcher.Launcher, fill *pneumatics.Scenario, level float64) {
	switch p := w.Supply; {
	case p.PumpedTo.Set:
		size := 0.0
		if g := w.GaugeOn(p.Feeds); g != nil {
			size, _ = g.ErrorSize()
		}
		mark := level * (p.PumpedTo.Nominal + size)
		fill.Switch = &pneumatics.SwitchLogic{Senses: w.Node(p.Feeds), CutOut: mark, CutIn: 0.98 * mark}
	case p.RunTime.Set && p.FromEmpty == launcher.Yes:
		fill.Until = level * p.RunTime.Nominal
		if s.r.IntN(2) == 0 {
			fill.Heat = pneumatics.Adiabatic
		}
	}
}

// stands is a launcher that some supply has filled to a share of the highest pressure in normal use, relief valves or not.
func (s *besieger) stands(w *launcher.Launcher, c *pneumatics.Circuit, beside []float64) (out []pneumatics.Condition, ok bool) {
	high, ok := s.l.SoakedHigh()
	for _, g := range w.ReadyPressures(c, min(1, 2*beside[0])*high, nil) {
		out = append(out, pneumatics.Condition{Pressure: c.Ambient.Pressure + g, Temperature: c.Ambient.Temperature})
	}
	return out, ok
}

// bleeds tells that a volume has a way to the atmosphere that is always open: heat does not raise it.
func bleeds(c *pneumatics.Circuit, n pneumatics.Node) bool {
	for i := range c.Paths {
		p := &c.Paths[i]
		open := p.Kind == pneumatics.Orifice || p.Kind == pneumatics.Hose || p.OpenIn.Has(pneumatics.Armed)
		if open && (p.From == n && p.To == pneumatics.Atmosphere || p.To == n && p.From == pneumatics.Atmosphere) {
			return true
		}
	}
	return false
}

// settle runs a scenario without a projectile and gives where the volumes end.
func (s *besieger) settle(c *pneumatics.Circuit, sc *pneumatics.Scenario) ([]pneumatics.Condition, bool) {
	r := s.sim.Run(c, sc, pneumatics.Options{})
	if r.Reason != "" {
		return nil, false
	}
	return append([]pneumatics.Condition(nil), r.Volumes...), true
}

// bandsOf finds every band of a launcher that has a width, by reflection, in the order of its fields.
func bandsOf(l *launcher.Launcher) (out []*launcher.Band) {
	var walk func(v reflect.Value)
	walk = func(v reflect.Value) {
		switch v.Kind() {
		case reflect.Pointer:
			if !v.IsNil() {
				walk(v.Elem())
			}
		case reflect.Slice:
			for i := range v.Len() {
				walk(v.Index(i))
			}
		case reflect.Struct:
			if b, ok := v.Addr().Interface().(*launcher.Band); ok {
				if b.Set {
					out = append(out, b)
				}
				return
			}
			for i := range v.NumField() {
				if v.Type().Field(i).IsExported() {
					walk(v.Field(i))
				}
			}
		}
	}
	walk(reflect.ValueOf(l).Elem())
	return out
}

// lineUp makes one launcher of bands that were drawn apart: the three pressures of a relief valve move together, a
// stated curve with the free air, and no projectile restarts harder than it breaks away.
func lineUp(l, w *launcher.Launcher) {
	exact := func(b *launcher.Band, v float64) { b.Low, b.Nominal, b.High = v, v, v }
	w.Projectile.Restart.Nominal = min(w.Projectile.Restart.Nominal, w.Projectile.Breakaway.Nominal)
	for i := range w.Paths {
		p, of := &w.Paths[i], &l.Paths[i]
		if p.Kind != pneumatics.Relief {
			continue
		}
		share := 0.5
		if width := of.SetPressure.High - of.SetPressure.Low; width > 0 {
			share = (p.SetPressure.Nominal - of.SetPressure.Low) / width
		}
		exact(&p.FullFlowPressure, of.FullFlowPressure.Low+share*(of.FullFlowPressure.High-of.FullFlowPressure.Low))
		exact(&p.ReseatPressure, of.ReseatPressure.Low+share*(of.ReseatPressure.High-of.ReseatPressure.Low))
	}
	if s := w.Supply; s != nil && s.FreeAir.Set && s.PeakFlow.Set { // in the middle of a stroke
		exact(&s.FreeAir, s.PeakFlow.Nominal)
	}
	if s := w.Supply; s != nil && s.FreeAir.Set && l.Supply.FreeAir.Nominal > 0 {
		for i := range s.Curve {
			s.Curve[i].FreeAir *= s.FreeAir.Nominal / l.Supply.FreeAir.Nominal
		}
	}
}
