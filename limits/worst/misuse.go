package worst

import (
	"context"
	"math"

	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"puffproof/pneumatics"
)

// MisuseCase is one thing a child may put into the barrel, and what a shot does with
// it.
type MisuseCase struct {
	Name         finding.Text
	Energy       float64 // worst over the tolerances [J]
	Undetermined bool    // some of its shots could not be computed
}

// misuseQuestion asks for the hardest shot of such a thing.
type misuseQuestion struct {
	name   finding.Text
	q      Question
	budget int // shots of its search
}

// Misuse looks for the hardest shot of each object alone and lying on the loaded
// projectile, of a snug plug and of two projectiles where anything gets in, of what goes over a launch tube, and of a soaked and
// a frozen one, from start pressures up to high [Pa gauge]: a sketch of each, and a search of those that may be
// the hardest. The error is the context's.
func Misuse(ctx context.Context, l *launcher.Launcher, normal *Case, high float64) ([]MisuseCase, error) {
	questions := misuseQuestions(l, high)
	cases := make([]*Case, len(questions))
	top := math.Inf(-1)
	for i, c := range questions {
		o := c.search(SeedsFor(l, normal, c.q)...)
		o.Sketch = normal.Tame()
		w, err := Maximise(ctx, l, c.q, o)
		if err != nil {
			return nil, err
		}
		cases[i] = w
		if w.Value > top {
			top = w.Value
		}
	}
	var out []MisuseCase
	for i, c := range questions {
		if w := cases[i]; w.Result.Sketched && MayBeMost(w.Value, top) {
			if err := w.SearchOn(ctx, c.search(SeedsFor(l, normal, c.q)...)); err != nil {
				return nil, err
			}
		}
		out = append(out, MisuseCase{Name: c.name, Energy: cases[i].Value, Undetermined: cases[i].Undetermined()})
	}
	return out, nil
}

// search gives the options of the question's search.
func (c *misuseQuestion) search(seeds ...[]float64) search.Options {
	o := search.Light(seeds...)
	o.Budget, o.Starts, o.Settle = c.budget, 2, 15
	return o
}

// MisuseNames are what WorstMisuse shoots for a launcher, in words; nil: nothing.
func MisuseNames(l *launcher.Launcher) (names []finding.Text) {
	for _, q := range misuseQuestions(l, 0) {
		names = append(names, q.name)
	}
	return names
}

func misuseQuestions(l *launcher.Launcher, high float64) []misuseQuestion {
	m := misuseMaker{l, high}
	var out []misuseQuestion
	if l.AnythingEnters() {
		out = m.enters()
	}
	if l.Barrel.Fit == pneumatics.OverTube {
		out = append(out, m.over()...)
	}
	if l.MayFreeze() {
		out = append(out, m.frozen())
	}
	if l.MaySoak() {
		out = append(out, m.soaked())
	}
	return out
}

// enters are the questions about what else gets in.
func (m misuseMaker) enters() (out []misuseQuestion) {
	admits, inBore := m.l.Admits(), m.l.Barrel.Fit == pneumatics.InBore
	for _, o := range m.l.AllObjects() {
		if o.Diameter > admits {
			continue
		}
		out = append(out, m.alone(o))
		if inBore {
			out = append(out, m.onTop(o))
		}
	}
	if admits >= m.l.Mouth() {
		out = append(out, m.plug())
	}
	return append(out, m.twoProjectiles())
}

// over are the questions about what a child puts over the launch tube in the rocket's place: a cap that fits it exactly and weighs
// anything from 1 to 60 g, and the builder's own objects that are wider than the tube. Each is pushed as far on as the rocket.
func (m misuseMaker) over() []misuseQuestion {
	capped := func(name finding.Text, extra []string, mass func(u []float64) float64) misuseQuestion {
		return m.question(name, extra, func(c *pneumatics.Circuit, u []float64) {
			b := &c.Barrel
			b.LeakArea, b.Mass = 0, mass(u)
			b.Breakaway, b.Restart, b.Sliding, b.JetFactor = 0, 0, 0, 2
		}, nil)
	}
	out := []misuseQuestion{capped(finding.Say("a rigid cap over the tube of %s", plugs()), []string{"mass of the cap"}, plugMass)}
	for _, o := range m.l.OverTube() {
		out = append(out, capped(finding.Words(o.Name+" over the tube"), nil, func([]float64) float64 { return o.Mass }))
	}
	return out
}

// plugs is what snug plugs and caps weigh, in words; plugMass the mass of one, from a coordinate of [0, 1] [kg].
func plugs() finding.Text {
	return finding.Grams.Of(benchmark.LightestPlug, 3).To(finding.Grams.Of(benchmark.HeaviestPlug, 3))
}

func plugMass(u []float64) float64 {
	return benchmark.LightestPlug + u[0]*(benchmark.HeaviestPlug-benchmark.LightestPlug)
}

// misuseMaker makes the questions about a launcher, for start pressures up to high
// [Pa gauge].
type misuseMaker struct {
	l    *launcher.Launcher
	high float64
}

// question is one about the final energy with the circuit adjusted; measure nil: of
// the whole energy.
func (m misuseMaker) question(name finding.Text, extra []string, adjust func(*pneumatics.Circuit, []float64),
	measure func(*pneumatics.Circuit, *pneumatics.Result) float64) misuseQuestion {
	q := EnergyQuestion(m.l, m.high)
	q.Name, q.Extra = name.String(), extra
	q.Adjust = func(c *pneumatics.Circuit, _ *pneumatics.Scenario, u []float64) { adjust(c, u) }
	if measure != nil {
		q.Measure = measure
	}
	return misuseQuestion{name, q, 350}
}

// alone is the object by itself: its own section, the gap around it, no
// friction.
func (m misuseMaker) alone(o benchmark.MisuseObject) misuseQuestion {
	one := m.question(finding.Words(o.Name+" alone"), nil, func(c *pneumatics.Circuit, _ []float64) {
		b := &c.Barrel
		section := b.ExitArea
		b.Area = launcher.Circle(o.Diameter)
		b.LeakArea = max(0, section-b.Area)
		b.Mass = o.Mass
		b.Breakaway, b.Restart, b.Sliding, b.JetFactor = 0, 0, 0, 1
	}, nil)
	one.budget = 120 // most air passes it: fewer things matter, each shot takes longer
	return one
}

// onTop is the object lying on the loaded projectile and pushed by it; its
// share of the energy counts.
func (m misuseMaker) onTop(o benchmark.MisuseObject) misuseQuestion {
	return m.question(finding.Words(o.Name+" on the projectile"), nil, func(c *pneumatics.Circuit, _ []float64) {
		c.Barrel.Mass += o.Mass
	}, ShareOfEnergy(m.l, func(total float64) float64 { return o.Mass / total }))
}

// plug fits bore or tube exactly and weighs anything from 1 to 60 g.
func (m misuseMaker) plug() misuseQuestion {
	return m.question(finding.Say("a snug plug of %s", plugs()), []string{"mass of the plug"}, func(c *pneumatics.Circuit, u []float64) {
		b := &c.Barrel
		b.Area = b.ExitArea
		b.LeakArea = 0
		b.Mass = plugMass(u)
		b.Breakaway, b.Restart, b.Sliding, b.JetFactor = 0, 0, 0, 1
	}, nil)
}

func (m misuseMaker) twoProjectiles() misuseQuestion {
	return m.question(finding.Words("two projectiles"), nil, func(c *pneumatics.Circuit, _ []float64) { c.Barrel.Mass *= 2 },
		ShareOfEnergy(m.l, func(float64) float64 { return 0.5 }))
}

// frozen is the projectile itself gone hard.
func (m misuseMaker) frozen() misuseQuestion {
	return m.question(finding.Words("the projectile, wet and frozen hard"), nil, func(*pneumatics.Circuit, []float64) {}, nil)
}

// Soak lets a projectile of open cells take up water: from none to ten times its mass, by a coordinate of [0, 1].
func Soak(b *pneumatics.Barrel, u float64) { b.Mass *= 1 + u*benchmark.SoakedMass }

// soaked is an open-cell projectile that has taken up water.
func (m misuseMaker) soaked() misuseQuestion {
	return m.question(finding.Words("the projectile soaked with water"), []string{"water taken up"}, func(c *pneumatics.Circuit, u []float64) {
		Soak(&c.Barrel, u[0])
	}, nil)
}

// ShareOfEnergy measures the part of the final energy that a share of the mass has.
func ShareOfEnergy(l *launcher.Launcher, of func(total float64) float64) func(*pneumatics.Circuit, *pneumatics.Result) float64 {
	whole := JudgedEnergy(MovingAt(l))
	return func(c *pneumatics.Circuit, r *pneumatics.Result) float64 {
		return of(c.Barrel.Mass) * whole(c, r)
	}
}
