package advise

import (
	"context"
	"math"

	"puffproof/limits/launcher"
	"puffproof/limits/search"
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
	wanted float64 // nominal speed [m/s]; 0: as lively as holds
	hard   []corner
	weak   []corner
	factor float64 // from the hardest shot to the hardest energy that is judged [-]
	keep   []string
	day    string  // ISO date
	more   float64 // above what the relief valve seems to need [Pa]
}

// figures are what a screening finds.
type figures struct {
	speed   float64 // nominal [m/s]; 0: it does not leave
	hardest float64 // over what is allowed [-]
	weakest float64 // [m/s]; where it does not leave the share of its way that it comes, less 1
}

// sharpen looks for corners of a launcher, lightly.
func (s *sieve) sharpen(ctx context.Context, l *launcher.Launcher) error {
	if high, ok := hardStart(l); ok {
		b := worst.NewBox(l, worst.EnergyQuestion(l, high))
		res, err := search.Maximise(ctx, b.Dim, func() search.Objective { return b.Evaluator() }, search.Quick())
		if err != nil {
			return err
		}
		if res.Found {
			s.hard = append(s.hard, corner{b.Labels, res.Best.Point})
		}
	}
	if !(l.Working().Low > 0) {
		return nil
	}
	b := worst.NewBox(l, worst.WeakestQuestion(l))
	res, err := search.Maximise(ctx, b.Dim, func() search.Objective { return b.Evaluator() }, search.Quick())
	if err == nil && res.Found {
		s.weak = append(s.weak, corner{b.Labels, res.Best.Point})
	}
	return err
}

// hardStart is the highest start that a single fault can bring about [Pa gauge].
func hardStart(l *launcher.Launcher) (float64, bool) {
	if high, ok := l.FaultHigh(); ok {
		return high, true
	}
	return l.SoakedHigh()
}

// figures screens a launcher.
func (s *sieve) figures(l *launcher.Launcher) (f figures) {
	c, sc := worst.NominalScenario(l, worst.NominalStart(l))
	var sim pneumatics.Sim
	if r := sim.Run(c, sc, pneumatics.Options{Tolerance: 1e-5, NoPeak: true, MaxSteps: 2000}); r.Outcome == pneumatics.Left {
		f.speed = r.FinalSpeed
	}
	limits, err := l.EnergyLimits(s.day)
	if err != nil {
		return figures{hardest: math.Inf(1)}
	}
	allowed, _ := limits.Allowed(l.Projectile.ContactDiameter)
	if high, ok := hardStart(l); ok {
		b := worst.NewBox(l, worst.EnergyQuestion(l, high))
		e := b.Evaluator()
		for _, k := range s.hard {
			if v := e.Value(b.Carry(k.labels, k.at, 1)); v > f.hardest {
				f.hardest = v
			}
		}
		f.hardest *= s.factor / allowed
	}
	f.weakest = math.Inf(1)
	if l.Working().Low > 0 {
		b := worst.NewBox(l, worst.WeakestQuestion(l))
		e := b.Evaluator()
		e.Options.OnlyLeaving = false
		for _, k := range s.weak {
			r := e.Run(b.Carry(k.labels, k.at, 0.5))
			v := r.FinalSpeed
			if r.Outcome != pneumatics.Left {
				v = r.Position/e.Circuit.Barrel.Travel - 1
			}
			f.weakest = math.Min(f.weakest, v)
		}
	} else {
		f.weakest = -1
	}
	return f
}

// The shares of what is allowed that screening aims at: what a full search finds beyond a light
// one; and the speed of the weakest [m/s].
const (
	aimed    = 0.85
	leastOut = 1.6
)

// loss is what is to be least: far above all what breaks a limit, then what does not leave, then
// the goal.
func (s *sieve) loss(f figures) float64 {
	loss := 0.0
	if f.hardest > aimed {
		loss += 1 + 10*math.Log(f.hardest/aimed)
	}
	if f.weakest < leastOut {
		loss += 1 + 4*(leastOut-f.weakest)
	}
	if !(f.speed > 0) {
		return loss + 10
	}
	return loss + s.goal.missed(f.speed, s.wanted)
}

// good tells that screening lets it through.
func (f figures) good() bool { return f.hardest <= 1 && f.weakest >= worst.Creep && f.speed > 0 }
