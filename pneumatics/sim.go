package pneumatics

import (
	"cmp"

	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/internal/hops"
	"puffproof/pneumatics/ode"
)

// Options are how a run is computed. The zero value is right for every figure
// that is shown.
type Options struct {
	// Tolerance is the relative error aimed at per step [-]; 0: DefaultTolerance.
	Tolerance float64
	// LaminarRatio is the pressure ratio above which a restriction's flow is
	// linear in the pressure difference [-]; 0: DefaultLaminarRatio, 1: none.
	LaminarRatio float64
	MaxSteps     int  // 0: 200000
	Onward       int  // a projectile that hops has MaxSteps from each rest on, so many in all
	Leap         bool // and many hops are foretold at once, for searches: it leaves thousandths earlier or later (TestLeapsOverHops)
	// Stop is asked now and then, from the goroutine of the run, whether the result is
	// still wanted; nil: it is. A run that was stopped is withheld.
	Stop   func() bool
	NoPeak bool // do not locate the pressure's maximum
	// Later [s] is how long a projectile that may still gain more than Worth [J] at Scenario.Until is followed further; 0: no longer.
	Later, Worth float64
	// Settle runs to Scenario.Until whatever the projectile does.
	Settle bool
	// OnlyLeaving ends the run where the projectile can leave no more, or with next to
	// nothing: for who asks only how hard it leaves. Volumes that nothing joins to the barrel
	// stay as they are at the start.
	OnlyLeaving bool
	// FirstTurn ends the run where a projectile that nothing but the gas slows first stops: it bounces on, and never stays.
	FirstTurn bool
	// Coarse divides runs of line beside a part more coarsely, and follows the push after the muzzle less closely, for searches
	// (TestCoarseLines); a projectile that is jammed has what it needs.
	Coarse bool
	Watch  []Watch
	// Samples is the number of equally spaced times of the trace; 0: no trace.
	Samples  int
	TraceEnd float64 // time of the last sample [s]; 0: Scenario.Until
}

// Watch asks for the first time a volume falls to a pressure.
type Watch struct {
	Volume   int     // index in Circuit.Volumes
	Pressure float64 // [Pa absolute]
}

// DefaultTolerance gives speeds and times of a shot to about 1e-8
// (TestReferenceShots).
const DefaultTolerance = 1e-7

func (o *Options) laminar() float64 { return cmp.Or(o.LaminarRatio, flow.DefaultLaminarRatio) }

// Sim runs scenarios. It owns the work space, so use one per goroutine; the
// zero value is ready.
type Sim struct {
	e      engine
	solver *ode.Solver
	r      Result

	rubFrom, rubbed float64 // sliding under friction [m]
	rubbing         bool
	sampled         int
	peaked          float64 // time of the last peak event [s]
	hops            hops.Series
	top             float64 // highest place at which it has turned back since the last hop [m]
}
