package pneumatics

import "math"

// Outcome is how a run ended.
type Outcome uint8

// The outcomes. A projectile at rest is not an outcome: Stalled means at rest
// for good.
const (
	// TimeRanOut: neither left nor stalled by the end of the run.
	TimeRanOut Outcome = iota
	// Left: the projectile passed the muzzle or the end of its tube.
	Left
	// Stalled: at rest, and the highest pressure that can still reach the barrel
	// cannot move it.
	Stalled
	// Blocked: driven against a closed muzzle until it came to rest, or the pressures would rise no more.
	Blocked
	// Ended: the time asked for is over; nothing was loaded or Settle was asked.
	Ended
)

// String gives the outcome as the results print it.
func (o Outcome) String() string {
	return [...]string{"time ran out", "left", "stalled", "blocked", "ended"}[o]
}

// Account is where the energy of a run went [J].
type Account struct {
	GasWork        float64 // done by the barrel's gas on the projectile's base
	Friction       float64
	Atmosphere     float64 // pushing the atmosphere away
	Gravity        float64
	GasMotion      float64 // kinetic energy of the barrel's gas when the push ended or changed
	ColumnMotion   float64 // kinetic energy given to the air ahead
	LineMotion     float64 // kinetic energy of the lines' gas at the end
	Impact         float64 // lost at the rear stop
	JetWork        float64 // work of the jet after the muzzle
	WallHeat       float64 // from the walls into the gas
	SupplyEnthalpy float64 // brought in by the supply
}

// Result is one run as plain data. Its slices belong to the Sim that made it
// and hold until its next run; Clone keeps them. Pressures are absolute.
type Result struct {
	Outcome Outcome

	MuzzleSpeed  float64 // when the projectile leaves [m/s]; NaN unless it left
	MuzzleEnergy float64 // [J]
	ExitTime     float64 // [s]
	BarrelExit   float64 // barrel pressure at that moment [Pa]
	FinalSpeed   float64 // after the push beyond the muzzle [m/s]
	FinalEnergy  float64 // [J]

	BarrelPeak     float64 // highest pressure behind the projectile [Pa]
	BarrelPeakTime float64 // [s]
	AheadPeak      float64 // highest pressure ahead, muzzle closed [Pa]
	Rests          int     // times the projectile came to rest and moved again
	FirstRestTime  float64 // [s]; NaN: never rested
	FirstRestAt    float64 // travel there [m]
	MoveTime       float64 // when it first moved [s]; NaN: never

	Position float64 // travel at the end [m]
	Speed    float64 // at the end [m/s]
	Time     float64 // at the end [s]
	Volumes  []Condition
	AtExit   []float64 // pressures of the volumes when the projectile left [Pa]; NaN unless it left
	Barrel   Condition // at the end
	// Freed bounds the energy the projectile can still gain from the end state,
	// kinetic energy included: for a stalled one what a hand that frees it would
	// let loose, heat from the walls included; for one that time ran out on, what
	// this scenario still has [J]. Zero when it left.
	Freed float64

	// Fed: at the end a running supply still had a path to the barrel; Freed then
	// counts one second of it, which is an estimate, no bound.
	Fed bool
	// Idle: the run ended early because nothing worth waiting for was left.
	Idle bool

	WatchTimes []float64 // when each watched volume first fell to its pressure [s]; NaN: not yet

	SupplyMass     float64 // delivered by the supply [kg]
	MassResidual   float64 // imbalance over the mass that changed place [-]
	EnergyResidual float64 // imbalance over max(final energy, or Freed where time ran out, 1 mJ) [-]
	// EnergyImbalance is the residual before it is divided [J].
	EnergyImbalance float64
	Account         Account

	Steps, Rejected, Evaluations int
	Reason                       string   // why the numbers ended early; "" normally
	Fastest                      Exchange // where the steps ran out, or one became too small

	Trace Trace
}

// Trace is a run at equally spaced times; empty unless Options asked for it.
type Trace struct {
	Time, Position, Speed, Barrel []float64   // [s], [m], [m/s], [Pa]
	Volumes                       [][]float64 // one row per volume [Pa]
	Temperatures                  [][]float64 // one row per volume [K]
}

// Clone copies the result with its slices.
func (r *Result) Clone() *Result {
	c := *r
	c.Volumes = append([]Condition(nil), r.Volumes...)
	c.AtExit = append([]float64(nil), r.AtExit...)
	c.WatchTimes = append([]float64(nil), r.WatchTimes...)
	return &c
}

// Withheld tells why a result must not be used: its balances do not close. The
// bounds are those of the project: 1e-4 of the final energy, of what bounds it where its way is not over, or of 1 mJ where
// that is less; 1e-9 of the mass that changed place.
func (r *Result) Withheld() string {
	switch {
	case r.Reason != "":
		return r.Reason
	case !(math.Abs(r.EnergyResidual) <= MaxEnergyResidual):
		return "the energy balance does not close"
	case !(math.Abs(r.MassResidual) <= MaxMassResidual):
		return "the mass balance does not close"
	}
	return ""
}

// Bounds on the residuals above which a run is withheld [-].
const (
	MaxEnergyResidual = 1e-4
	MaxMassResidual   = 1e-9
)
