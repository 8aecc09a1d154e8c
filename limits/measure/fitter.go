package measure

import (
	"context"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize"

	"puffproof/limits/catalogue"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
)

// knob is one quantity that a fit can move, in units of its stated spread.
type knob struct {
	key    string
	stated launcher.Band
	band   *launcher.Band // of the fitter's own launcher
	below  float64        // standard deviation on the low side [SI]
	above  float64        // on the high side
	loose  float64        // standard deviation when it is set free [SI]
}

// at gives the value at z; never below zero.
func (k *knob) at(z float64) float64 {
	sd := k.above
	if z < 0 {
		sd = k.below
	}
	return math.Max(0, k.stated.Nominal+z*sd)
}

// free is the knob without what was stated of it.
func (k knob) free() knob {
	k.below, k.above = k.loose, k.loose
	return k
}

// fitGroup is what the fitter needs of a group of shots.
type fitGroup struct {
	gauge, mean float64
	temperature float64
	n           int
}

// fitter holds one fit.
type fitter struct {
	l          *launcher.Launcher
	model      *shotModel
	parameters []knob // those with a spread
	candidates []knob // all of them
	groups     []fitGroup
	shots      int
	scatter    float64
	freedom    int
	own        []float64  // variance of each group's mean, relative [-]
	inverse    *mat.Dense // of the covariance of the residuals
}

// newFitter lays out the fit on a copy of the launcher.
func newFitter(l *launcher.Launcher, shots []ShotSpeed, groups []SpeedGroup) *fitter {
	f := &fitter{l: l.Clone()}
	f.model = NewShotModel(f.l)
	f.candidates = f.knobs()
	for _, k := range f.candidates {
		if k.below > 0 || k.above > 0 {
			f.parameters = append(f.parameters, k)
		}
	}
	var squares, share float64
	for _, i := range fittedGroups(groups) {
		g := &groups[i]
		one := fitGroup{mean: g.Mean, n: g.Shots}
		for j := range shots {
			if s := &shots[j]; s.Group == i && !math.IsNaN(s.Speed) {
				one.gauge += s.Shot.Gauge / float64(g.Shots)
				if s.Shot.Temperature > 0 {
					one.temperature = s.Shot.Temperature
				}
			}
		}
		f.groups = append(f.groups, one)
		f.shots += g.Shots
		f.freedom += g.Shots - 1
		squares += float64(g.Shots-1) * g.SD * g.SD / (g.Mean * g.Mean)
		share = math.Max(share, g.Systematic/g.Mean)
	}
	if len(f.groups) == 0 {
		return f
	}
	f.scatter = math.Sqrt(squares / float64(f.freedom))
	f.covariance(share)
	return f
}

// mostFitted is the most pressures of one fit: a handful tells friction, flow,
// opening time and leak apart as well as fifty do, and each costs seconds.
const mostFitted = 6

// fittedGroups picks the groups of two shots or more that a fit uses: all, or where
// there are many some spread evenly from the lowest pressure to the highest.
func fittedGroups(groups []SpeedGroup) []int {
	var all []int
	for i := range groups {
		if groups[i].Shots >= 2 {
			all = append(all, i)
		}
	}
	if len(all) <= mostFitted {
		return all
	}
	out := make([]int, mostFitted)
	for i := range out {
		out[i] = all[i*(len(all)-1)/(mostFitted-1)]
	}
	return out
}

// knobs lists what is really unknown about a launcher.
func (f *fitter) knobs() []knob {
	l, p := f.l, &f.l.Projectile
	out := []knob{newKnob(&p.Sliding, KeySliding, math.Max(0.5, p.Sliding.Nominal))}
	if i := fireValve(l); i >= 0 {
		if flow, _ := flowKnob(&l.Paths[i].Flow); flow != nil && flow.Set {
			out = append(out, newKnob(flow, flow.Key, 0.5*flow.Nominal))
		}
		out = append(out, newKnob(&l.Paths[i].OpeningTime, l.Paths[i].OpeningTime.Key, math.Max(0.02, l.Paths[i].OpeningTime.Nominal)))
	}
	if !p.Clearance.Set {
		p.Clearance = gap(l)
	}
	return append(out, newKnob(&p.Clearance, keyClearance, 1e-3))
}

func newKnob(b *launcher.Band, key string, loose float64) knob {
	return knob{key: key, stated: *b, band: b, below: (b.Nominal - b.Low) / 2, above: (b.High - b.Nominal) / 2, loose: loose}
}

// covariance computes the covariance of the residuals and its inverse.
func (f *fitter) covariance(shared float64) {
	n := len(f.groups)
	v := mat.NewDense(n, n, nil)
	f.own = make([]float64, n)
	for i, g := range f.groups {
		f.own[i] = f.scatter*f.scatter/float64(g.n) + shared*shared/4
		v.Set(i, i, f.scatter*f.scatter/float64(g.n)+modelScatter*modelScatter)
	}
	add := func(column []float64) {
		for i := range n {
			for j := range n {
				v.Set(i, j, v.At(i, j)+column[i]*column[j])
			}
		}
	}
	common := make([]float64, n)
	for i := range common {
		common[i] = shared / 2
	}
	add(common)
	for _, column := range f.nuisances() {
		add(column)
	}
	f.inverse = new(mat.Dense)
	if err := f.inverse.Inverse(v); err != nil {
		panic("limits: covariance of the shots: " + err.Error()) // its diagonal is above zero
	}
}

// nuisances gives, for every band that bears on the shot and is not fitted, what
// one standard deviation of it (half of its half-width) does to the logarithm of
// the speeds.
func (f *fitter) nuisances() [][]float64 {
	fitted := map[*launcher.Band]bool{}
	for _, k := range f.candidates {
		fitted[k.band] = true
	}
	zero := make([]float64, len(f.parameters))
	var out [][]float64
	for _, q := range catalogue.ShotCoordinates(f.l) {
		low, high := q.Stated()
		if low == high || fitted[q.Band] {
			continue
		}
		q.Put(q.Nominal + (high-q.Nominal)/2)
		above := f.logs(zero)
		q.Put(q.Nominal - (q.Nominal-low)/2)
		below := f.logs(zero)
		q.Restore()
		column := make([]float64, len(above))
		for i := range column {
			column[i] = (above[i] - below[i]) / 2
		}
		out = append(out, column)
	}
	return out
}

// speeds computes the groups' speeds at z.
func (f *fitter) speeds(z []float64) []float64 {
	for i := range f.parameters {
		f.parameters[i].band.Nominal = f.parameters[i].at(z[i])
	}
	out := make([]float64, len(f.groups))
	for i, g := range f.groups {
		out[i], _ = f.model.Shot(g.gauge, g.temperature)
	}
	for i := range f.parameters {
		f.parameters[i].band.Nominal = f.parameters[i].stated.Nominal
	}
	return out
}

func (f *fitter) logs(z []float64) []float64 {
	v := f.speeds(z)
	for i := range v {
		if v[i] > 0 {
			v[i] = math.Log(v[i])
		} else {
			v[i] = lostShot
		}
	}
	return v
}

// objective is r' V^-1 r + z' z.
func (f *fitter) objective(z []float64) float64 {
	logs := f.logs(z)
	r := make([]float64, len(logs))
	for i, g := range f.groups {
		r[i] = math.Log(g.mean) - logs[i]
	}
	sum := 0.0
	for i := range r {
		for j := range r {
			sum += r[i] * f.inverse.At(i, j) * r[j]
		}
	}
	for _, v := range z {
		sum += v * v
	}
	return sum
}

// minimise looks for the minimum from a start, by the simplex method: the speeds
// may step where a projectile rests and hops.
func (f *fitter) minimise(ctx context.Context, start []float64) ([]float64, float64, error) {
	if len(start) == 0 {
		return nil, f.objective(nil), ctx.Err()
	}
	problem := optimize.Problem{Func: func(z []float64) float64 {
		if ctx.Err() != nil {
			return math.Inf(1)
		}
		return f.objective(z)
	}}
	settings := &optimize.Settings{FuncEvaluations: 250 * len(start) * 3 / max(3, len(f.groups)), // each costs a shot for every group
		Converger: &optimize.FunctionConverge{Absolute: 1e-4, Iterations: 25 * len(start)}}
	// A first simplex of half a spread reaches over a step of the speeds.
	res, err := optimize.Minimize(problem, start, settings, &optimize.NelderMead{SimplexSize: 0.5})
	if ctx.Err() != nil {
		return nil, 0, ctx.Err()
	}
	if res == nil {
		return nil, 0, &worst.WithheldError{What: "the fit", Reason: err.Error()}
	}
	return res.X, res.F, nil
}

// jacobian is the derivative of the logarithms of the speeds, central with a
// tenth of a spread: wide enough to see past small steps of the speeds.
func (f *fitter) jacobian(z []float64) *mat.Dense {
	const step = 0.1
	j := mat.NewDense(len(f.groups), len(z), nil)
	at := append([]float64(nil), z...)
	for k := range z {
		at[k] = z[k] + step
		above := f.logs(at)
		at[k] = z[k] - step
		below := f.logs(at)
		at[k] = z[k]
		for i := range above {
			j.Set(i, k, (above[i]-below[i])/(2*step))
		}
	}
	return j
}

// find is the place of a key among the parameters.
func (f *fitter) find(key string) int {
	for i := range f.parameters {
		if f.parameters[i].key == key {
			return i
		}
	}
	panic("limits: no parameter " + key)
}

// lostShot stands for a model shot that does not leave: the logarithm of a speed
// so far off that no fit stays there.
const lostShot = -5.0

// modelScatter is the model's own error in speed from one pressure to the next,
// as a standard deviation [-]: the lumped model is within 1.4 % of the
// one-dimensional solution, which counts as twice this (own rule).
const modelScatter = 0.007
