package measure

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// FitLevel is the probability with which the test of the model rejects a model
// that is right [-], and 1 - FitLevel the probability with which a fitted
// interval holds the true value (common practice, no source).
const FitLevel = 0.05

// learned is the share of its stated spread below which a fitted value counts as
// told by the shots [-] (own rule).
const learned = 0.5

// Parameter is one fitted quantity.
type Parameter struct {
	Key       string
	Value     float64 // fitted [SI]
	Low, High float64 // 95 % interval [SI]
	Share     float64 // spread after the fit over the spread before [-]
	Learned   bool    // the shots tell it
	How       string  // the reason, either way
	outside   bool    // the interval lies outside the stated band
}

// Band is the fitted interval as a band of the design.
func (p *Parameter) Band() launcher.Band {
	return MeasuredBand(p.Key, p.Low, p.Value, p.High, finding.Words(p.How))
}

// Residual is the model against the mean of one group.
type Residual struct {
	Gauge    float64 // [Pa gauge]
	Measured float64 // mean speed [m/s]
	Model    float64 // fitted [m/s]; 0: the model's shot does not leave
	Before   float64 // with the design's nominal values [m/s]
	Error    float64 // standard error of the mean, systematic errors included [m/s]
}

// Suspect is one quantity that, set free, would make the model agree.
type Suspect struct {
	Key   string
	Value float64 // [SI]
	P     float64 // probability of the test then [-]
}

// Fit is the model held against the shots.
type Fit struct {
	Parameters []Parameter
	Residuals  []Residual
	Scatter    float64 // relative standard deviation of a shot at one pressure [-]
	Freedom    int     // degrees of freedom of the scatter
	Statistic  float64 // mean square of the residuals over their expected [-]
	P          float64 // probability of so large a statistic where the model is right [-]
	Credible   bool
	Suspects   []Suspect // what would explain a model that is not credible, best first
}

// fit fits what is really unknown (friction, flow of the firing valve, opening
// time, leak) to the mean speeds of the groups, the stated bands being taken as
// what is known beforehand: twice a standard deviation to each side. It
// minimises
//
//	r' V^-1 r + z' z
//
// r: logarithm of measured over computed mean speed [-]; V: its covariance from
// the scatter of the shots, the systematic error they share, the bands that are
// not fitted, and the model's own scatter; z: the quantities in units of their
// stated spread. Where the model is right the minimum is chi-squared with as many
// degrees of freedom as there are groups, whatever is fitted; the scatter being
// estimated, the test uses F. Nil: no group of two shots.
func fit(ctx context.Context, l *launcher.Launcher, shots []ShotSpeed, groups []SpeedGroup) (*Fit, error) {
	f := newFitter(l, shots, groups)
	if len(f.groups) == 0 {
		return nil, nil
	}
	z, j, err := f.minimise(ctx, make([]float64, len(f.parameters)))
	if err != nil {
		return nil, err
	}
	out := &Fit{Scatter: f.scatter, Freedom: f.freedom, Statistic: j / float64(len(f.groups))}
	out.P = f.probability(j)
	out.Credible = out.P >= FitLevel
	out.Parameters = f.intervals(z)
	out.Residuals = f.residuals(z)
	if !out.Credible {
		if out.Suspects, err = f.suspects(ctx); err != nil {
			return nil, err
		}
	}
	for i := range out.Parameters {
		if p := &out.Parameters[i]; p.outside && p.Learned {
			out.Credible = false
		}
	}
	return out, nil
}

// probability of a minimum so large or larger.
func (f *fitter) probability(j float64) float64 {
	n := float64(len(f.groups))
	return 1 - distuv.F{D1: n, D2: float64(f.freedom)}.CDF(j/n)
}

// intervals gives each parameter with its interval from the curvature at the
// minimum: covariance (J' V^-1 J + 1)^-1 in units of the stated spreads.
func (f *fitter) intervals(z []float64) []Parameter {
	n := len(f.parameters)
	if n == 0 {
		return nil
	}
	jac := f.jacobian(z)
	var vj, h mat.Dense
	vj.Mul(f.inverse, jac)
	h.Mul(jac.T(), &vj)
	for i := range n {
		h.Set(i, i, h.At(i, i)+1)
	}
	var cov mat.Dense
	if err := cov.Inverse(&h); err != nil {
		cov.CloneFrom(&h) // 1 on the diagonal at least: nothing is learned
		for i := range n {
			cov.Set(i, i, 1)
		}
	}
	t := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(f.freedom + len(f.groups))}.Quantile(1 - FitLevel/2)
	out := make([]Parameter, n)
	for i := range out {
		k := &f.parameters[i]
		sd := math.Sqrt(cov.At(i, i))
		p := Parameter{Key: k.key, Share: sd, Value: k.at(z[i]),
			Low: k.at(z[i] - t*sd), High: k.at(z[i] + t*sd)}
		p.Learned = sd <= learned
		p.outside = z[i]-t*sd > 2 || z[i]+t*sd < -2
		p.How = "fitted to " + counted(f.shots, "shot") + " at " + counted(len(f.groups), "pressure")
		if !p.Learned {
			p.How = fmt.Sprintf("the shots cannot tell it: %.0f %% of the stated spread is left", 100*sd)
			if len(f.groups) < 2 {
				p.How += "; shots at more than one pressure would say more"
			}
		}
		out[i] = p
	}
	return out
}

// residuals lists measured against computed speeds.
func (f *fitter) residuals(z []float64) []Residual {
	before := f.speeds(make([]float64, len(z)))
	after := f.speeds(z)
	out := make([]Residual, len(f.groups))
	for i, g := range f.groups {
		out[i] = Residual{Gauge: g.gauge, Measured: g.mean, Model: after[i], Before: before[i],
			Error: g.mean * math.Sqrt(f.own[i])}
	}
	return out
}

// suspects frees one quantity after the other from what was stated of it and
// lists those that alone make the model agree.
func (f *fitter) suspects(ctx context.Context) ([]Suspect, error) {
	var out []Suspect
	for _, k := range f.candidates {
		g := *f
		g.parameters = append(append([]knob(nil), f.parameters...), k.free())
		for n := range f.parameters {
			if f.parameters[n].key == k.key {
				g.parameters = append([]knob(nil), f.parameters...)
				g.parameters[n] = k.free()
			}
		}
		best, at := math.Inf(1), []float64(nil)
		for _, start := range []float64{0.1, 0.5, -0.5} {
			z := make([]float64, len(g.parameters))
			z[g.find(k.key)] = start
			z, j, err := g.minimise(ctx, z)
			if err != nil {
				return nil, err
			}
			if j < best {
				best, at = j, z
			}
		}
		if p := f.probability(best); p >= FitLevel {
			n := g.find(k.key)
			out = append(out, Suspect{Key: k.key, Value: g.parameters[n].at(at[n]), P: p})
		}
	}
	slices.SortStableFunc(out, func(a, b Suspect) int { return cmp.Compare(b.P, a.P) })
	return out, nil
}
