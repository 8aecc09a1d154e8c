package setpoint

import (
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
)

// Answer is the answer to the builder's first question: at what pressure may
// the switch cut out? Pressures are gauge values [Pa]; nil where there is none.
type Answer struct {
	Works bool         // some cut-out works
	Why   finding.Text // what binds, or why none works
	// Unknown says why the figures are no answer yet; "" they are.
	Unknown finding.Text
	// AsItIs says in what the answer is not the design as it is: a relief valve set too
	// high, none, no switch. "" nothing.
	AsItIs finding.Text
	// Unmet is a verdict of check on an energy or a pressure that fails at these settings
	// and at the lowest ones too; nil: none was found.
	Unmet finding.Text

	CutOut, CutIn              *float64     // nominal values; the tolerances are in the ladder
	ReliefSet                  *float64     // the set pressure that the cut-out rests on
	ReliefSetMin, ReliefSetMax *float64     // the window of the set pressure at this cut-out
	ReliefMaxNeeds             finding.Text // what else has to change with the relief valve at the top of that window; "" nothing
	CutInWhy                   finding.Text // what keeps the cut-in at or below its figure
	ReliefFullFlowMax          *float64     // the highest pressure at a fault that holds
	Relief                     finding.Text // what the answer asks of the relief valve

	// BeyondShots tells that shots were measured and normal running goes beyond what
	// they bear, or does not agree with them.
	BeyondShots bool

	Binding string        // identifier of the verdict that binds
	Basis   finding.Basis // of the energy limit
	Next    *NextVerdict

	Allowed     float64         // energy that total and per-area limit both allow [J]
	AllowedWhy  string          // which of the two
	Pressure    float64         // no shot from up to here exceeds it [Pa gauge]
	Witness     *float64        // a computed shot from here does; nil: none up to Top
	WitnessAt   worst.Point     // where in the box
	Top         float64         // the highest start pressure looked at
	TopWhy      string          // what ends the pressures looked at
	Runs        int             // shots computed
	Stated      *float64        // the cut-out of the design
	Ladder      []launcher.Rung // from the lowest to the highest
	Sensitivity []Gain          // largest gain first
	Bases       []OnBasis       // what each basis would allow
	Changes     []Change        // what would make another cut-out work
	Source      SourceAnswer
	Parts       []PartNote
	Procedure   []finding.Text
	Notes       []finding.Text
	Supply      *SupplyAnswer          // nil: no supply
	Bench       []launcher.Replacement // what bench tests have replaced
	BenchSilent []finding.Text         // bench tests that moved nothing, and why
	BenchMoved  *float64               // how far they moved the cut-out; nil: no bench tests, or no cut-out without them

	AnyCutOut bool // none is too high: the supply's dead head, of which CutOut is the nominal value, ends them
}

// TooHigh tells that the design's own cut-out is above the answer: by more than two
// searches of the same strength may differ.
func (s *Answer) TooHigh() bool {
	const differ = 0.005
	return s.Stated != nil && s.CutOut != nil && !s.AnyCutOut && *s.Stated > *s.CutOut*(1+differ)
}

// Holds tells that the answer is known, works, and that the design as it is keeps to it.
func (s *Answer) Holds() bool {
	return s.Works && len(s.Unknown) == 0 && len(s.Unmet) == 0 && len(s.AsItIs) == 0 && !s.TooHigh()
}

// NextVerdict is what would bind if the binding verdict did not.
type NextVerdict struct {
	ID     string
	CutOut float64 // [Pa gauge]
	What   finding.Text
}

// OnBasis is the cut-out that one basis of the energy limit would allow.
type OnBasis struct {
	Basis    finding.Basis
	Pressure *float64        // up to which it allows a start [Pa gauge]; nil: not known
	CutOut   *float64        // [Pa gauge]; nil: none, not known, or any
	Any      launcher.Answer // Yes: nothing that the supply can do exceeds the limit
	What     finding.Text
}

// SourceAnswer tells what the supply can do.
type SourceAnswer struct {
	Limited  bool    // it cannot exceed the limit: no switch is needed
	DeadHead float64 // at the top of its tolerance, with a regulator failed open [Pa gauge]; 0: not stated or no supply
	What     finding.Text
	Turned   []Turned // what stronger settings and pumps would do
}

// Turned is one thing that may be turned up, and where the pressure then ends.
type Turned struct {
	What     finding.Text
	Pressure float64 // [Pa gauge]
	Holds    bool
}

// Change is one change of the design that would let a cut-out work, computed with
// the same model. Only one is needed.
type Change struct {
	Key      string       // dotted key of the design file
	What     finding.Text // in a builder's words
	From, To *float64     // SI nominal values; nil where there is no single value
	CutOut   float64      // that would then work [Pa gauge]
}

// Gain is what knowing one quantity exactly would add to the cut-out.
type Gain struct {
	Key     string  // dotted key of the design file
	CutOut  float64 // gain of the cut-out [Pa]
	Assumed bool    // its band is a default: measuring it is the first thing to do
}

// PartNote says what kind of part a pressure needs.
type PartNote struct {
	Part  string  // "pressure switch", "relief valve", "gauge"
	Gauge float64 // the pressure it works at [Pa]
	Text  finding.Text
}

// SupplyAnswer is what the supply does between shots. Times [s], nominal values
// with the ends of the band of its delivery; the gas stays at ambient temperature.
type SupplyAnswer struct {
	FillFromZero  Spread  // from zero to the cut-out
	FillFromCutIn Spread  // from the cut-in to the cut-out
	BetweenShots  Spread  // after one shot from the cut-out, back to the cut-out
	AirPerShot    float64 // ambient air used by one shot [m3]
	PressureDrop  float64 // of the sensed volume by one shot [Pa]
	ShotsPerFill  int     // from the cut-out until the switch starts the supply
	DutyAtOneAMin float64 // share of the time the supply runs with one shot a minute; above 1 it cannot keep up [-]
	Firing        float64 // how long the firing state was held [s]
	CutOut, CutIn float64 // the settings used [Pa gauge]

	Relief *ReliefAnswer // nil: no relief valve on the supplied volume, or no delivery stated
}

// Spread is a figure with its nominal value and the ends of its band; NaN: not
// reached.
type Spread struct{ Fast, Nominal, Slow float64 }

// ReliefAnswer compares relief valve and supply by the circuit and by sizing.
type ReliefAnswer struct {
	Balance     float64 // where supply and relief flow balance, a root [Pa gauge]
	Simulated   float64 // the same by simulation of the circuit [Pa gauge]
	FullFlow    float64 // at the top of its tolerance [Pa gauge]
	MassFlow    float64 // of the supply at the full-flow pressure [kg/s]
	Area        float64 // of the valve's orifice at the low end of its bands [m2]; 0: not stated as a bore
	Needed      float64 // area by API 520 [m2]
	Critical    bool    // the flow at full-flow pressure is choked
	Coefficient float64 // discharge coefficient used [-]
}
