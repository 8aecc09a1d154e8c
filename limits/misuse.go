package limits

import (
	"context"
	"strconv"
	"strings"

	"puffproof/limits/search"
	"puffproof/pneumatics"
)

// MisuseCase is one thing a child may put into the barrel, and what a shot does with
// it.
type MisuseCase struct {
	Name         string
	Energy       float64 // worst over the tolerances [J]
	Undetermined bool    // some of its shots could not be computed
}

// misuseQuestion is such a thing made ready as a question.
type misuseQuestion struct {
	name   string
	q      question
	budget int // shots of its search
}

// misuse looks for the hardest shot of each object alone and lying on the loaded
// projectile, of a snug plug, two projectiles, a soaked and a frozen one, from start
// pressures up to high [Pa gauge]. The error is the context's.
func (l *Launcher) misuse(ctx context.Context, normal *worst, high float64) (out []MisuseCase, err error) {
	for _, c := range l.misuseQuestions(high) {
		o := search.Light(seedsFor(l, normal, c.q)...)
		o.Budget, o.Starts, o.Settle = c.budget, 2, 15
		w, err := l.maximise(ctx, c.q, o)
		if err != nil {
			return nil, err
		}
		out = append(out, MisuseCase{Name: c.name, Energy: w.value, Undetermined: w.undetermined()})
	}
	return out, nil
}

// opening is the largest thing that gets in, in words.
func (l *Launcher) opening() string {
	return "the opening takes things up to " + millimetre(l.admits())
}

// admits is the diameter of the largest object that gets in [m]: bore or tube,
// or what a declared guard or grid lets in.
func (l *Launcher) admits() float64 {
	b := &l.Barrel
	d := l.mouth()
	if b.MuzzleAdmits.Set {
		d = min(d, b.MuzzleAdmits.High)
	}
	for _, c := range b.ObjectControl {
		if mesh, ok := gridMesh(c); ok {
			d = min(d, mesh)
		}
	}
	return d
}

// mouth is the diameter of bore or tube [m].
func (l *Launcher) mouth() float64 {
	if l.Barrel.Fit == pneumatics.OverTube {
		return l.Barrel.TubeInnerDiameter.High
	}
	return l.Barrel.Bore.High
}

// gridMesh reads the mesh [m] of the control "grid of N mm".
func gridMesh(control string) (mesh float64, ok bool) {
	text, ok := strings.CutPrefix(control, "grid of ")
	if !ok {
		return 0, false
	}
	text, ok = strings.CutSuffix(text, " mm")
	if !ok {
		return 0, false
	}
	mm, err := strconv.ParseFloat(text, 64)
	return mm / 1e3, err == nil
}

// anythingEnters tells whether at least one object gets in.
func (l *Launcher) anythingEnters() bool {
	for _, o := range l.allObjects() {
		if o.Diameter <= l.admits() {
			return true
		}
	}
	return l.admits() >= l.mouth() // a plug that fits exactly
}

// freezing is where water on and in the projectile turns to ice [K].
const freezing = 273.15

func (l *Launcher) misuseQuestions(high float64) []misuseQuestion {
	m := misuseMaker{l, high}
	var out []misuseQuestion
	admits := l.admits()
	inBore := l.Barrel.Fit == pneumatics.InBore
	for _, o := range l.allObjects() {
		if o.Diameter > admits {
			continue
		}
		out = append(out, m.alone(o))
		if inBore {
			out = append(out, m.onTop(o))
		}
	}
	if admits >= l.mouth() {
		out = append(out, m.plug())
	}
	out = append(out, m.twoProjectiles())
	if l.coldest() <= freezing {
		out = append(out, m.frozen())
	}
	if l.Projectile.OpenCell != No {
		out = append(out, m.soaked())
	}
	return out
}

// allObjects are the listed objects and the builder's own.
func (l *Launcher) allObjects() []MisuseObject {
	out := MisuseObjects()
	for _, o := range l.Objects {
		out = append(out, MisuseObject{Name: o.Name, Diameter: o.Diameter.Low, Length: o.Length.Nominal, Mass: o.Mass.High, Document: "the design"})
	}
	return out
}

// misuseMaker makes the questions about a launcher, for start pressures up to high
// [Pa gauge].
type misuseMaker struct {
	l    *Launcher
	high float64
}

// question is one about the final energy with the circuit adjusted; measure nil: of
// the whole energy.
func (m misuseMaker) question(name string, extra []string, adjust func(*pneumatics.Circuit, []float64),
	measure func(*pneumatics.Circuit, *pneumatics.Result) float64) misuseQuestion {
	q := m.l.energyQuestion(m.high)
	q.name, q.extra = name, extra
	q.adjust = func(c *pneumatics.Circuit, _ *pneumatics.Scenario, u []float64) { adjust(c, u) }
	if measure != nil {
		q.measure = measure
	}
	return misuseQuestion{name, q, 350}
}

// alone is the object by itself: its own section, the gap around it, no
// friction.
func (m misuseMaker) alone(o MisuseObject) misuseQuestion {
	one := m.question(o.Name+" alone", nil, func(c *pneumatics.Circuit, _ []float64) {
		b := &c.Barrel
		section := b.ExitArea
		b.Area = circle(o.Diameter)
		b.LeakArea = max(0, section-b.Area)
		b.Mass = o.Mass
		b.Breakaway, b.Restart, b.Sliding, b.JetFactor = 0, 0, 0, 1
	}, nil)
	one.budget = 120 // most air passes it: fewer things matter, each shot takes longer
	return one
}

// onTop is the object lying on the loaded projectile and pushed by it; its
// share of the energy counts.
func (m misuseMaker) onTop(o MisuseObject) misuseQuestion {
	return m.question(o.Name+" on the projectile", nil, func(c *pneumatics.Circuit, _ []float64) {
		c.Barrel.Mass += o.Mass
	}, shareOfEnergy(m.l, func(total float64) float64 { return o.Mass / total }))
}

// plug fits bore or tube exactly and weighs anything from 1 to 60 g.
func (m misuseMaker) plug() misuseQuestion {
	return m.question("a snug plug of 1 to 60 g", []string{"mass of the plug"}, func(c *pneumatics.Circuit, u []float64) {
		b := &c.Barrel
		b.Area = b.ExitArea
		b.LeakArea = 0
		b.Mass = LightestPlug + u[0]*(HeaviestPlug-LightestPlug)
		b.Breakaway, b.Restart, b.Sliding, b.JetFactor = 0, 0, 0, 1
	}, nil)
}

func (m misuseMaker) twoProjectiles() misuseQuestion {
	return m.question("two projectiles", nil, func(c *pneumatics.Circuit, _ []float64) { c.Barrel.Mass *= 2 },
		shareOfEnergy(m.l, func(float64) float64 { return 0.5 }))
}

// frozen is the projectile itself gone hard.
func (m misuseMaker) frozen() misuseQuestion {
	return m.question("the projectile, wet and frozen hard", nil, func(*pneumatics.Circuit, []float64) {}, nil)
}

// soaked is an open-cell projectile that has taken up water, up to ten times
// its mass.
func (m misuseMaker) soaked() misuseQuestion {
	return m.question("the projectile soaked with water", []string{"water taken up"}, func(c *pneumatics.Circuit, u []float64) {
		c.Barrel.Mass *= 1 + u[0]*SoakedMass
	}, nil)
}

// shareOfEnergy measures the part of the final energy that a share of the mass has.
func shareOfEnergy(l *Launcher, of func(total float64) float64) func(*pneumatics.Circuit, *pneumatics.Result) float64 {
	whole := judgedEnergy(l.movingAt())
	return func(c *pneumatics.Circuit, r *pneumatics.Result) float64 {
		return of(c.Barrel.Mass) * whole(c, r)
	}
}
