package setpoint

import (
	"context"
	"math"

	"puffproof/limits/assessment"
	"puffproof/limits/doubt"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/pneumatics/flow"
)

// solver carries the parts of a setpoint search.
type solver struct {
	ctx     context.Context
	l       *launcher.Launcher
	o       Options
	limits  launcher.EnergyLimits
	allowed float64
	caps    pressureCaps
	energy  crossing
	ceiling crossing
	chain   chain
	// measured is what measured shots allow; nil: none were taken.
	measured    *measuredBasis
	byHand      bool // the design has no supply
	reliefHelps bool // a relief valve as it is set holds the energy of a shot down
	// loweredBy is the verdict that asks for lower settings; nil: none does.
	loweredBy finding.Text
	asks      string   // its identifier
	hard      picks    // the faults that reached most where the settings were judged last; nil: not known
	left      []string // identifiers of verdicts that no setting makes pass
	out       Answer
}

// newSolver lays out a search: on the launcher as measurements narrow it, filled by an
// unknown pump where the design has no supply. The error is an own limit that cannot be
// used.
func newSolver(ctx context.Context, l *launcher.Launcher, o Options) (*solver, error) {
	s := &solver{ctx: ctx, o: o, byHand: l.Supply == nil}
	if o.Measured != nil {
		l = o.Measured.Narrow(l)
	}
	l = doubt.Settled(l, o.Day)
	s.l = pumped(l)
	var err error
	if s.limits, err = s.l.EnergyLimits(o.Day); err != nil {
		return nil, err
	}
	s.out.Allowed, s.out.AllowedWhy = s.limits.Allowed(s.l.Projectile.ContactDiameter)
	s.allowed = s.out.Allowed
	s.out.Top, s.out.TopWhy = topPressure(s.l)
	return s, nil
}

// topPressure is the highest start pressure that need be looked at [Pa gauge].
func topPressure(l *launcher.Launcher) (gauge float64, why string) {
	if l.Supply != nil && l.Supply.DeadHead.Set {
		if top := l.Soak(l.Supply.DeadHead.High); top < flow.MaxGauge {
			return top, "the supply's dead head, left in the heat"
		}
	}
	return flow.MaxGauge, "the end of the gas model's range"
}

// Options steer Find. The zero value rests on ceiling and model.
type Options struct {
	// Measured is what measured shots and bench tests say; nil: none were taken. Its
	// bands narrow the launcher, and normal running must also stay within the
	// measured bound as far as that can be carried.
	Measured *measure.Findings
	// Day is that of the question, an ISO date: an answer of the checklist counts if it is
	// in force on it; without a day none does.
	Day string
	// Assessed is an assessment of the launcher at its own settings, which is not made again
	// where those are judged; nil: there is none.
	Assessed *assessment.Assessment
}

// measuredBasis is what measured shots allow.
type measuredBasis struct {
	group *measure.SpeedGroup // the shots that count; nil: none do
	reach float64             // up to here the bound can be carried [Pa gauge]
	holds float64             // up to here it stays within the limit [Pa gauge]; 0: nowhere
	bound float64             // carried to holds, or where it holds nowhere as measured [J]
	why   finding.Text        // why there is none
}

// limiting tells that the shots ask for less than they reach: a start pressure
// above holds is known to be too high.
func (m *measuredBasis) limiting() bool { return m != nil && m.group != nil && m.holds < m.reach }

// pumped is the launcher itself, or where it has no supply, one filled by a hand
// pump of which nothing is known: something fills it, and what fills it may be
// too strong.
func pumped(l *launcher.Launcher) *launcher.Launcher {
	if l.Supply != nil {
		return l
	}
	w := l.Clone()
	w.Supply = &launcher.SupplySpec{Kind: launcher.HandPump, Feeds: l.Sensed(), RunsIn: 0, RunsInStated: true}
	return w
}

// finite is a pointer to a figure; nil for NaN and infinity.
func finite(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return &v
}

// setting is a pressure [Pa] to a millibar, rounded down: a figure to set by must not be
// above the one computed.
func setting(p float64) finding.Shown {
	return finding.Bar3(settingStep * math.Floor(p/settingStep+1e-6))
}
