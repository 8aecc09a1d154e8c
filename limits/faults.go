package limits

import (
	"strings"

	"puffproof/pneumatics"
)

// FaultMode is what a part does wrong, in words.
type FaultMode string

// The modes of failure. Nothing is tabled per design: which of them a part can
// have follows from its kind.
const (
	StuckOpen       FaultMode = "stuck open"
	StuckShut       FaultMode = "stuck shut"
	LeakingValve    FaultMode = "leaking"
	Energised       FaultMode = "energised unasked" // a short, a spike, a radio, a finger
	OpensFaster     FaultMode = "opens faster"
	ReliefStuckShut FaultMode = "relief stuck shut"
	ReseatsLate     FaultMode = "reseats late"
	SetTooHigh      FaultMode = "set too high or opens late"
	PassesBack      FaultMode = "passes backwards"
	FailedOpen      FaultMode = "failed open"
	Creeps          FaultMode = "creeps to its inlet pressure"
	BoreMissing     FaultMode = "restrictor missing or drilled out"
	Blocked         FaultMode = "blocked"
	HoseOff         FaultMode = "hose off"
	HoseWider       FaultMode = "hose missing or wider"
	SwitchWelded    FaultMode = "welded: never stops the supply"
	SwitchDead      FaultMode = "never closes"
	SwitchEndStop   FaultMode = "turned up to its end stop"
	ReadsLow        FaultMode = "reads low"
	NoPower         FaultMode = "power lost"
	Jammed          FaultMode = "jammed"
	StickyBall      FaultMode = "sticky"
	HeavyBall       FaultMode = "heavier"
	TwoLoaded       FaultMode = "two loaded"
	MuzzlePlugged   FaultMode = "muzzle plugged"
)

// FaultEffect tells how a fault bears on the shot.
type FaultEffect string

// The effects.
const (
	NoEffect     FaultEffect = "cannot change the shot" // by the circuit: shown without a search
	ChangesShot  FaultEffect = "changes the shot"
	FiresUnasked FaultEffect = "fires unasked"
	NotComputed  FaultEffect = "not computed" // of a pair that was not asked for: it has no figures
)

// FaultResult is one single fault, or a pair, and what comes of it.
type FaultResult struct {
	ID    string
	Part  string // the path, "pressure switch", "projectile"
	Mode  FaultMode
	State string // the state in which it happens; "any"
	With  string // the id of the second fault of a pair; "" single

	Effect     FaultEffect
	SameAs     string  // id of the fault whose shot this one shares
	WorstGauge float64 // highest pressure anywhere [Pa gauge]; NaN: not known
	Where      string
	Energy     float64 // worst final energy over the tolerances [J]; NaN: not known
	Judged     float64 // Energy times the model factor [J]; NaN: not known
	Freed      float64 // what a jammed projectile could gain when a hand frees it [J]; NaN: not a question of this fault
	Status     Status
	Basis      Basis
	Reason     string // why it fails or is unknown

	Consequence string
	DetectedBy  string
	PreventedBy string
	Latent      bool   // neither the normal cycle nor the check before use shows it
	RevealedBy  string // the periodic test that shows it; "" none
	Shots       int    // computed for it

	place int // among the single faults, in the order of the parts
}

// Name is part and mode in words; a mode that names its part does it alone.
func (f *FaultResult) Name() string {
	switch mode := string(f.Mode); {
	case f.Mode == ReliefStuckShut:
		return f.Part + " " + string(StuckShut)
	case strings.HasPrefix(mode, f.Part+" "):
		return mode
	default:
		return f.Part + " " + mode
	}
}

// FaultReport is the answer of faults.
type FaultReport struct {
	Faults   []FaultResult // worst first
	Pairs    []FaultResult // worst first
	AllPairs bool          // every pair was asked for, not only those with a latent fault
	Limit    float64       // of the total energy [J]
	Searched int           // faults whose shot was searched
	Unsearched,
	Shots int
	Verdicts []Verdict
	Items    []Item
}

// PairChoice says which pairs of faults are computed.
type PairChoice uint8

// The choices.
const (
	LatentPairs PairChoice = iota
	EveryPair
)

// fault is one way a part can fail, made ready: what it does to the design, and
// where it begins.
type fault struct {
	id, part string
	mode     FaultMode
	state    pneumatics.State
	anyState bool

	// apply turns a copy of the design into the failed one; nil changes nothing.
	apply func(w *Launcher)
	// overcharges: the supply runs on, so shots start at up to the fault pressure.
	overcharges bool
	// noRelief: nothing but the switch limits the pressure.
	noRelief bool
	// raises lifts the highest normal pressure by so much [Pa].
	raises float64
	// extra are coordinates of the search, from 0 to 1, with what they do.
	extra  []string
	adjust func(c *pneumatics.Circuit, u []float64)
	share  func(mass float64) float64 // of the energy that one projectile has; nil: all
	// changes is whether the energy of the shot can change at all; whyNot is the
	// reason where it cannot.
	changes bool
	whyNot  string
	// unasked: it opens a way from a charged volume into the barrel in state.
	unasked bool

	consequence, detected, prevented string
	latent                           bool
	revealed                         string // id of the item that reveals it

	// Of a jammed projectile: what it could gain when a hand frees it [J], and the
	// pressure behind it [Pa gauge].
	freed, behind float64

	pairOf string // of a pair: what its two questions are
}
