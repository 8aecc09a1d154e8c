package limits

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"puffproof/limits/search"
	"puffproof/pneumatics"
)

// misuseCase is one thing a child may put into the barrel, made ready as a
// question.
type misuseCase struct {
	name   string
	q      question
	budget int // shots of its search
}

// objects judges misuse.objects: each object alone and lying on the loaded
// projectile, a snug plug, two projectiles, a soaked and a frozen one, all
// judged as rigid.
func (j *judge) objects() error {
	v := j.newVerdict("misuse.objects", "Other objects in the barrel, as rigid", InJoule)
	limit := BenchmarkOf(TotalRigid)
	v.Source, v.Caveat, v.Basis = limit.Source(), limit.Caveat, OnModel
	defer func() { j.add(v) }()
	if why := j.energyUnknown(); why != "" {
		v.unknown(why)
		return nil
	}
	cases := j.misuseCases()
	if !j.anythingEnters() {
		v.notApplicable("nothing listed enters: " + j.opening() + "; a second, wet or frozen projectile is an item of the checklist")
		return nil
	}
	var worst, second, open string
	most, next := math.Inf(-1), math.Inf(-1)
	for _, c := range cases {
		o := search.Light(j.seeds(c.q)...)
		o.Budget, o.Starts, o.Settle = c.budget, 2, 15
		w, err := j.Launcher.maximise(j.ctx, c.q, o)
		if err != nil {
			return err
		}
		if w.undetermined() {
			open = c.name
		}
		switch e := w.value * ModelFactor; {
		case e > most:
			next, second = most, worst
			most, worst = e, c.name
		case e > next:
			next, second = e, c.name
		}
	}
	if open != "" && !(most > limit.Value) {
		v.unknown("the shot of " + open + " could not be computed over the whole tolerance box")
		return nil
	}
	v.judge(most, limit.Value)
	v.Why = fmt.Sprintf("worst of %d: %s", len(cases), worst)
	if second != "" {
		v.Why += fmt.Sprintf(" (then %s, %s)", second, joule(next))
	}
	j.objectControl(v)
	return nil
}

// objectControl turns a failure into a pass on procedure where the design
// declares how other objects are kept out.
func (j *judge) objectControl(v *Verdict) {
	if v.Status != Fail {
		return
	}
	if len(j.Launcher.Barrel.ObjectControl) > 0 {
		v.Status, v.Basis = Pass, OnProcedure
		v.Advice = "Holds only while people do this: " + strings.Join(j.Launcher.Barrel.ObjectControl, "; ") + "."
		return
	}
	v.Advice = "Declare and keep object_control (supervised loading by the adult in charge; loading from the breech with the muzzle " +
		"covered; a grid), or a muzzle that takes nothing else, or less pressure."
}

// opening is the largest thing that gets in, in words.
func (j *judge) opening() string {
	return "the opening takes things up to " + millimetre(j.admits())
}

// admits is the diameter of the largest object that gets in [m]: bore or tube,
// or what a declared guard or grid lets in.
func (j *judge) admits() float64 {
	b := &j.Launcher.Barrel
	d := j.mouth()
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
func (j *judge) mouth() float64 {
	if j.Launcher.Barrel.Fit == pneumatics.OverTube {
		return j.Launcher.Barrel.TubeInnerDiameter.High
	}
	return j.Launcher.Barrel.Bore.High
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
func (j *judge) anythingEnters() bool {
	for _, o := range j.allObjects() {
		if o.Diameter <= j.admits() {
			return true
		}
	}
	return j.admits() >= j.mouth() // a plug that fits exactly
}

// freezing is where water on and in the projectile turns to ice [K].
const freezing = 273.15

func (j *judge) misuseCases() []misuseCase {
	var out []misuseCase
	admits := j.admits()
	inBore := j.Launcher.Barrel.Fit == pneumatics.InBore
	for _, o := range j.allObjects() {
		if o.Diameter > admits {
			continue
		}
		out = append(out, j.alone(o))
		if inBore {
			out = append(out, j.onTop(o))
		}
	}
	if admits >= j.mouth() {
		out = append(out, j.plug())
	}
	out = append(out, j.twoProjectiles())
	if j.Launcher.coldest() <= freezing {
		out = append(out, j.frozen())
	}
	if j.Launcher.Projectile.OpenCell != No {
		out = append(out, j.soaked())
	}
	return out
}

// allObjects are the listed objects and the builder's own.
func (j *judge) allObjects() []MisuseObject {
	out := MisuseObjects()
	for _, o := range j.Launcher.Objects {
		out = append(out, MisuseObject{Name: o.Name, Diameter: o.Diameter.Low, Length: o.Length.Nominal, Mass: o.Mass.High, Document: "the design"})
	}
	return out
}

func (j *judge) misuse(name string, extra []string, adjust func(*pneumatics.Circuit, []float64), measure func(*pneumatics.Circuit, *pneumatics.Result) float64) misuseCase {
	q := j.Launcher.energyQuestion(j.Energy.StartHigh)
	q.name, q.extra = name, extra
	q.adjust = func(c *pneumatics.Circuit, _ *pneumatics.Scenario, u []float64) { adjust(c, u) }
	if measure != nil {
		q.measure = measure
	}
	return misuseCase{name, q, 350}
}

// alone is the object by itself: its own section, the gap around it, no
// friction.
func (j *judge) alone(o MisuseObject) misuseCase {
	m := j.misuse(o.Name+" alone", nil, func(c *pneumatics.Circuit, _ []float64) {
		b := &c.Barrel
		section := b.ExitArea
		b.Area = circle(o.Diameter)
		b.LeakArea = max(0, section-b.Area)
		b.Mass = o.Mass
		b.Breakaway, b.Restart, b.Sliding, b.JetFactor = 0, 0, 0, 1
	}, nil)
	m.budget = 120 // most air passes it: fewer things matter, each shot takes longer
	return m
}

// onTop is the object lying on the loaded projectile and pushed by it; its
// share of the energy counts.
func (j *judge) onTop(o MisuseObject) misuseCase {
	return j.misuse(o.Name+" on the projectile", nil, func(c *pneumatics.Circuit, _ []float64) {
		c.Barrel.Mass += o.Mass
	}, j.share(func(total float64) float64 { return o.Mass / total }))
}

// plug fits bore or tube exactly and weighs anything from 1 to 60 g.
func (j *judge) plug() misuseCase {
	return j.misuse("a snug plug of 1 to 60 g", []string{"mass of the plug"}, func(c *pneumatics.Circuit, u []float64) {
		b := &c.Barrel
		b.Area = b.ExitArea
		b.LeakArea = 0
		b.Mass = LightestPlug + u[0]*(HeaviestPlug-LightestPlug)
		b.Breakaway, b.Restart, b.Sliding, b.JetFactor = 0, 0, 0, 1
	}, nil)
}

func (j *judge) twoProjectiles() misuseCase {
	return j.misuse("two projectiles", nil, func(c *pneumatics.Circuit, _ []float64) { c.Barrel.Mass *= 2 },
		j.share(func(float64) float64 { return 0.5 }))
}

// frozen is the projectile itself gone hard.
func (j *judge) frozen() misuseCase {
	return j.misuse("the projectile, wet and frozen hard", nil, func(*pneumatics.Circuit, []float64) {}, nil)
}

// soaked is an open-cell projectile that has taken up water, up to ten times
// its mass.
func (j *judge) soaked() misuseCase {
	return j.misuse("the projectile soaked with water", []string{"water taken up"}, func(c *pneumatics.Circuit, u []float64) {
		c.Barrel.Mass *= 1 + u[0]*SoakedMass
	}, nil)
}

// share measures the part of the final energy that a share of the mass has.
func (j *judge) share(of func(total float64) float64) func(*pneumatics.Circuit, *pneumatics.Result) float64 {
	whole := judgedEnergy(j.Launcher.movingAt())
	return func(c *pneumatics.Circuit, r *pneumatics.Result) float64 {
		return of(c.Barrel.Mass) * whole(c, r)
	}
}
