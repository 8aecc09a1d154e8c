package advise

import (
	"context"
	"math"

	"puffproof/limits/benchmark"
	"puffproof/limits/fault"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"puffproof/limits/sound"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// Screening: a nominal shot and one each at the hardest and the weakest launcher of the box
// that a light search found. It costs a few shots; what it lets through is judged in full.

// corner is a point of a box by its labels: it can be looked up in the box of another
// launcher of the same layout.
type corner struct {
	labels []string
	at     []float64
}

// sieve screens launchers of one layout.
type sieve struct {
	goal   Goal
	wanted map[int]float64 // nominal speed [m/s] by the projectile's mass in half grams
	hard   []corner
	weak   []corner
	stuck  []corner // where a stuck projectile has most air behind it; none while that is not what stands in the way
	jams   bool     // it is
	freed  float64  // what one gained over what is allowed when it was judged last [-]
	frees  float64  // from what is screened to that [-]; 0: as screened
	fast   []corner // the hardest where the firing valve opens faster than stated; none while that is not what stands in the way
	snaps  bool     // it is
	factor float64  // from the hardest shot to the hardest energy that is judged [-]
	keep   []string
	day    string  // ISO date
	more   float64 // above what the relief valve seems to need [Pa]
	fine   bool    // the relief valve is one that is set on a bench
	louder float64 // by what the loudest shot is louder than the one that is screened [dB]
	turns  int     // how many launchers were screened
}

// figures are what a screening finds.
type figures struct {
	speed   float64 // nominal [m/s]; 0: it does not leave
	hardest float64 // over what is allowed [-]
	weakest float64 // [m/s]; where it does not leave the share of its way that it comes, less 1
	loud    float64 // above what is allowed at the worse ear [dB]
	freed   float64 // what a stuck projectile gains over what is allowed [-]
}

// mostCorners is how many corners of either kind are screened: those that were found last.
const mostCorners = 4

// added is a list of corners with one more, the oldest left out where they are too many.
func added(list []corner, c corner) []corner {
	list = append(list, c)
	return list[max(0, len(list)-mostCorners):]
}

// sharpen looks for corners of a launcher, lightly.
func (s *sieve) sharpen(ctx context.Context, l *launcher.Launcher) error {
	soaked, known := l.SoakedHigh()
	if high, ok := hardStart(l, soaked, known); ok {
		if err := sharpened(ctx, l, worst.EnergyQuestion(l, high), &s.hard); err != nil {
			return err
		}
	}
	if err := s.sharpenAsked(ctx, l); err != nil || !(l.Working().Low > 0) {
		return err
	}
	return sharpened(ctx, l, worst.WeakestQuestion(l), &s.weak)
}

// sharpened adds the corner of a question that a light search finds.
func sharpened(ctx context.Context, l *launcher.Launcher, q worst.Question, list *[]corner) error {
	b := worst.NewBox(l, q)
	res, err := search.Maximise(ctx, b.Dim, func() search.Objective { return b.Evaluator() }, search.Quick())
	if err == nil && res.Found {
		*list = added(*list, corner{b.Labels, res.Best.Point})
	}
	return err
}

// sharpenAsked looks for the corners of what stands in the way: of the valve that opens faster, and of the stuck projectile.
func (s *sieve) sharpenAsked(ctx context.Context, l *launcher.Launcher) error {
	high, known := l.SoakedHigh()
	if !known {
		return nil
	}
	if s.snaps {
		w := snapped(l)
		if err := sharpened(ctx, w, worst.EnergyQuestion(w, high), &s.fast); err != nil {
			return err
		}
	}
	if !s.jams {
		return nil
	}
	b := worst.NewBox(l, worst.EnergyQuestion(l, high))
	at, found, err := b.StuckCorner(ctx)
	if found {
		s.stuck = added(s.stuck, corner{b.Labels, at})
	}
	return err
}

// free holds what is screened of a launcher's stuck projectile to what came of judging that launcher.
func (s *sieve) free(screened float64) {
	const most = 4 // beyond that another corner counts: it is looked for anew
	if s.freed > screened && screened > 0 {
		s.frees = math.Max(s.frees, 1) * math.Min(most, 1.05*s.freed/screened)
	}
	s.freed = 0
}

// hardStart is the highest start that a single fault can bring about [Pa gauge], where that of normal operation is known or not.
func hardStart(l *launcher.Launcher, soaked float64, known bool) (float64, bool) {
	over := l.FaultOvercharge()
	switch {
	case !over.Known:
		return soaked, known
	case !known:
		return over.Pressure, true
	}
	return math.Max(soaked, over.Pressure), true
}

// screening is one launcher while it is screened: what is asked of it more than once, and what is not to be exceeded.
type screening struct {
	s      *sieve
	l      *launcher.Launcher
	works  launcher.Working
	soaked float64 // the highest start of normal operation [Pa gauge]
	known  bool    // it is
	spent  float64 // of the loss beside the figures
	bound  float64 // from which loss on nothing more is asked; +Inf: all is
	f      figures
}

// figures screens a launcher. What it loses beside is spent; where it comes to lose bound or more, what is left is not asked.
func (s *sieve) figures(l *launcher.Launcher, spent, bound float64) figures {
	g := screening{s: s, l: l, works: l.Working(), spent: spent, bound: bound, f: figures{weakest: math.Inf(1), loud: math.Inf(-1)}}
	g.soaked, g.known = l.SoakedHigh()
	limits, err := l.EnergyLimits(s.day)
	if err != nil {
		return figures{hardest: math.Inf(1)}
	}
	allowed, _ := limits.Allowed(l.Projectile.ContactDiameter)
	g.nominal()
	for _, ask := range [...]func(){g.weakest, func() { g.hardest(allowed) }, g.loudness, func() { g.freed(limits.Total.Value) }} {
		if g.over() {
			break
		}
		ask()
	}
	return g.f
}

// over tells that what is asked already loses too much.
func (g *screening) over() bool { return g.spent+g.s.loss(g.l, g.f) >= g.bound }

// nominal shoots the nominal launcher.
func (g *screening) nominal() {
	c, sc := worst.NominalScenario(g.l, g.works.Nominal)
	var sim pneumatics.Sim
	if r := sim.Run(c, sc, pneumatics.Options{Tolerance: 1e-5, NoPeak: true, MaxSteps: 2000}); r.Outcome == pneumatics.Left {
		g.f.speed = r.FinalSpeed
	}
}

// hardest shoots the hardest corners.
func (g *screening) hardest(allowed float64) {
	high, ok := hardStart(g.l, g.soaked, g.known)
	if !ok {
		return
	}
	g.corners(g.l, high, g.s.hard, allowed)
	if len(g.s.fast) > 0 && g.known && !g.over() {
		g.corners(snapped(g.l), g.soaked, g.s.fast, allowed)
	}
}

// corners shoots corners of a launcher, which may be a failed one, from a start pressure [Pa gauge].
func (g *screening) corners(l *launcher.Launcher, high float64, list []corner, allowed float64) {
	b := worst.NewBox(l, worst.EnergyQuestion(l, high))
	e := b.Evaluator()
	for _, k := range list {
		g.f.hardest = math.Max(g.f.hardest, e.Value(b.Carry(k.labels, k.at, 1))*g.s.factor/allowed)
		if g.over() {
			return
		}
	}
}

// snapped is a launcher whose firing valve opens as fast as that fault has it.
func snapped(l *launcher.Launcher) *launcher.Launcher {
	w := l.Clone()
	if p := fires(w); p != nil {
		p.OpeningTime.Low *= fault.Fastest(p)
	}
	return w
}

// freed asks what a hand frees that frees a stuck projectile.
func (g *screening) freed(allowed float64) {
	if len(g.s.stuck) == 0 || !g.known {
		return
	}
	b := worst.NewBox(g.l, worst.EnergyQuestion(g.l, g.soaked))
	e := b.StuckProbe()
	for _, k := range g.s.stuck {
		g.f.freed = math.Max(g.f.freed, e.Freed(b.Carry(k.labels, k.at, 1))*math.Max(g.s.frees, 1)/allowed)
		if g.over() {
			return
		}
	}
}

// weakest shoots the weakest corners.
func (g *screening) weakest() {
	if !(g.works.Low > 0) {
		g.f.weakest = -1
		return
	}
	b := worst.NewBox(g.l, worst.WeakestFrom(g.l, g.works.Low))
	e := b.Evaluator()
	e.Options.OnlyLeaving = false
	for _, k := range g.s.weak {
		r := e.Run(b.Carry(k.labels, k.at, 0.5))
		v := r.FinalSpeed
		if r.Outcome != pneumatics.Left {
			v = r.Position/e.Circuit.Barrel.Travel - 1
		}
		g.f.weakest = math.Min(g.f.weakest, v)
		if g.over() {
			return
		}
	}
}

// loudness is how much louder than allowed the burst of the hardest shot of normal operation is at the worse ear [dB], from where
// the projectile may sit furthest out too: what is left behind it is most where it leaves early. -Inf: no ear is stated, or a
// recording stands for the model.
func (g *screening) loudness() {
	s, l := g.s, g.l
	if !g.known || len(s.hard) == 0 || l.Event == nil || !l.Event.EarToMuzzle.Set {
		return
	}
	b := worst.NewBox(l, worst.EnergyQuestion(l, g.soaked))
	e := b.Evaluator()
	k, loud := s.hard[len(s.hard)-1], math.Inf(-1)
	for _, seat := range [...]float64{0, 0.9} {
		u := b.Carry(k.labels, k.at, 1)
		if b.Seat >= 0 {
			u[b.Seat] = seat
		} else if seat > 0 {
			break
		}
		r := e.Run(u)
		loud = math.Max(loud, sound.Burst(l, &e.Circuit, r))
	}
	g.f.loud = loud + s.louder - benchmark.BenchmarkOf(benchmark.SoundWork).Value
}

// The shares of what is allowed that screening aims at: what a full search finds beyond a light
// one; and the speed of the weakest [m/s].
const (
	aimed    = 0.85
	leastOut = 1.3
)

// loss is what is to be least: far above all what breaks a limit, then what does not leave, then
// the goal.
func (s *sieve) loss(l *launcher.Launcher, f figures) float64 {
	loss := 0.0
	if f.hardest > aimed {
		loss += 1 + 10*math.Log(f.hardest/aimed)
	}
	if f.weakest < leastOut {
		loss += 1 + 4*(leastOut-f.weakest)
	}
	if f.loud > 0 {
		loss += 1 + f.loud
	}
	if f.freed > aimed {
		loss += 1 + math.Log(f.freed/aimed)
	}
	if !(f.speed > 0) {
		return loss + 10
	}
	return loss + s.goal.missed(f.speed, s.wantedOf(l))
}

// wantedOf is the nominal speed [m/s] at which a launcher reaches the goal: a lighter projectile is slowed down more.
func (s *sieve) wantedOf(l *launcher.Launcher) float64 {
	if s.goal.Aim == Lively {
		return 0
	}
	const step = 0.5e-3 // [kg]
	at := int(math.Round(l.Projectile.Mass.Nominal / step))
	v, known := s.wanted[at]
	if !known {
		v = s.goal.speedFor(l)
		if s.wanted == nil {
			s.wanted = map[int]float64{}
		}
		s.wanted[at] = v
	}
	return v
}

// good tells that screening lets it through.
func (f figures) good() bool {
	return f.hardest <= 1 && f.weakest >= worst.Creep && f.speed > 0 && f.loud <= nearlyQuiet && f.freed <= 1
}

// nearlyQuiet is how much louder than allowed [dB] a screened shot may be: the judged one has other corners.
const nearlyQuiet = 0.5

// eased tells that it has the room that is aimed at.
func (f figures) eased() bool {
	return f.good() && f.hardest <= aimed && f.weakest >= leastOut && f.freed <= aimed
}
