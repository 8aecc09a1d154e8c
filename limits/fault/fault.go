package fault

import (
	"strings"

	"puffproof/limits/control"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// Mode is what a part does wrong, in words.
type Mode string

// PluggedID is the id of the fault that a loaded projectile is driven against a closed muzzle; it reads Input.Plugged.
const PluggedID = "muzzle.plugged"

// The modes of failure. Nothing is tabled per design: which of them a part can
// have follows from its kind.
const (
	StuckOpen       Mode = "stuck open"
	StuckShut       Mode = "stuck shut"
	LeakingValve    Mode = "leaking"
	Energised       Mode = "energised unasked" // a short, a spike, a radio, a finger
	OpensFaster     Mode = "opens faster"
	PulseRunsOn     Mode = "timer does not end its pulse"
	ReliefStuckShut Mode = "relief stuck shut"
	ReseatsLate     Mode = "reseats late"
	SetTooHigh      Mode = "set too high or opens late"
	PassesBack      Mode = "passes backwards"
	FailedOpen      Mode = "failed open"
	Creeps          Mode = "creeps to its inlet pressure"
	BoreMissing     Mode = "restrictor missing or drilled out"
	BoreDrilled     Mode = "restrictor drilled out" // of one that cannot be missing
	Blocked         Mode = "blocked"
	NotOpened       Mode = "not opened"
	StuckBetween    Mode = "stuck between its positions"
	InletLost       Mode = "loses its inlet pressure"
	PilotOpen       Mode = "pilot stuck open or leaking"
	PilotBlocked    Mode = "pilot blocked"
	BleedBlocked    Mode = "filling hole of its chamber blocked"
	DiaphragmTorn   Mode = "diaphragm torn"
	HoseOff         Mode = "hose off"
	HoseWider       Mode = "hose missing or wider"
	HoseKinked      Mode = "hose kinked"
	SwitchWelded    Mode = "welded: never stops the supply"
	SwitchDead      Mode = "never closes"
	SwitchEndStop   Mode = "turned up to its end stop"
	RunsOn          Mode = "runs on"
	OverPumped      Mode = "pumped past the mark"
	PumpedHarder    Mode = "pumped harder than stated"
	TimerFails      Mode = "never stops or starts again"
	OverFilled      Mode = "filled too high"
	ReadsLow        Mode = "reads low"
	StuckAtZero     Mode = "stuck at zero"
	LineBlocked     Mode = "line blocked"
	HalfBlocked     Mode = "half blocked or iced"
	TipHardened     Mode = "tip hardened"
	Missing         Mode = "missing"
	StopGone        Mode = "stop gone"
	NoPower         Mode = "power lost"
	Jammed          Mode = "jammed"
	StickyBall      Mode = "sticky"
	LooseBall       Mode = "looser than stated"
	FrozenIn        Mode = "frozen in its seat, then let go"
	HeavyBall       Mode = "heavier"
	Soaked          Mode = "soaked with water"
	TwoLoaded       Mode = "two loaded"
	MuzzlePlugged   Mode = "muzzle plugged"

	ContactWelded   Mode = "welded"
	StuckIn         Mode = "stuck pulled in"
	StuckOn         Mode = "stuck on"
	StuckPressed    Mode = "stuck pressed"
	StuckTurned     Mode = "stuck turned on"
	StuckClosed     Mode = "stuck closed"
	ContactDead     Mode = "does not close"
	FuseBlown       Mode = "blown"
	AtPlus          Mode = "wire behind it shorted to plus"
	NoCurrent       Mode = "gets no current"
	PastStop        Mode = "wired around the stop"
	WrongOutput     Mode = "wrong in one state"
	StopMisses      Mode = "has a stop that does not cut everything"
	StartsOnRelease Mode = "starts again when the stop is released"
	StartsOnPower   Mode = "starts again when the power returns"
	FuseMissing     Mode = "without a fuse"
	FuseTooLarge    Mode = "above the wire's rating"
	FuseReplaced    Mode = "replaced by a larger one"
)

// Effect tells how a fault bears on the shot.
type Effect string

const (
	NoEffect     Effect = "cannot change the shot" // by the circuit: shown without a search
	ChangesShot  Effect = "changes the shot"
	FiresUnasked Effect = "fires unasked"
	NotComputed  Effect = "not computed" // of a pair that was not asked for: it has no figures
)

// Result is one single fault, or a pair, and what comes of it.
type Result struct {
	ID    string
	Part  string // the path, "pressure switch", "projectile"
	Mode  Mode
	State string // the state in which it happens; "any"
	With  string // the id of the second fault of a pair; "" single

	Wiring bool // what fails is a contact, a wire or an output of [control]

	Effect     Effect
	SameAs     string  // id of the fault whose shot this one shares
	WorstGauge float64 // highest pressure anywhere [Pa gauge]; NaN: not known
	Where      string
	Energy     float64 // worst final energy over the tolerances [J]; NaN: not known
	Judged     float64 // Energy times the model factor [J]; NaN: not known
	Freed      float64 // what a jammed projectile could gain when a hand frees it [J]; NaN: not a question of this fault
	Status     finding.Status
	Basis      finding.Basis
	Reason     finding.Text // why it fails or is unknown

	Consequence finding.Text
	DetectedBy  finding.Text
	PreventedBy finding.Text
	HeldBy      string // the item of the checklist that alone holds it; "" none
	Latent      bool   // neither the normal cycle nor the check before use shows it
	RevealedBy  string // the periodic test that shows it; "" none
	Shots       int    // computed for it

	Place int // among the single faults, in the order of the parts
}

// Name is part and mode in words; a mode that names its part does it alone.
func (f *Result) Name() string {
	switch mode := string(f.Mode); {
	case f.Mode == ReliefStuckShut:
		return f.Part + " " + string(StuckShut)
	case strings.HasPrefix(mode, f.Part+" "):
		return mode
	default:
		return f.Part + " " + mode
	}
}

// Report is the answer of faults.
type Report struct {
	Faults   []Result // worst first
	Pairs    []Result // worst first
	AllPairs bool     // every pair was asked for, not only those with a latent fault
	Limit    float64  // of the total energy [J]
	Searched int      // faults whose shot was searched
	Unsearched,
	Shots int
	// Unasked are the shots that nobody asks for of a projectile that is wet, or that ice holds, where such a one keeps the limits when
	// somebody fires it; With is the fault that it is so.
	Unasked  []Result
	Jam      *Jam // what a projectile that never moved has behind it; nil: not computed
	Verdicts []finding.Verdict
	Items    []finding.Item
	Asked    []string // identifiers of the items whose answers bear on the statuses
}

// Most is the largest energy that a single fault gives the shot, of those that no item has to keep from being shot [J]; 0: none is known.
func (r *Report) Most() float64 {
	if f := r.Hardest(); f != nil {
		return f.Judged
	}
	return 0
}

// Hardest is the single fault of the largest known energy, of those that no item has to keep from being shot; the first of a launcher's
// parts where several have it. nil: none that can change the shot is known.
func (r *Report) Hardest() (worst *Result) {
	for _, f := range r.ByPart() {
		if f.Effect != NoEffect && f.Status != finding.Unknown && !f.Kept() && (worst == nil || f.Judged > worst.Judged) {
			worst = f
		}
	}
	return worst
}

// PairChoice says which pairs of faults are computed.
type PairChoice uint8

const (
	LatentPairs PairChoice = iota
	EveryPair
)

// fault is one way a part can fail, made ready: what it does to the design, and
// where it begins.
type fault struct {
	id, part string
	mode     Mode
	state    pneumatics.State
	anyState bool

	// apply turns a copy of the design into the failed one; nil changes nothing.
	apply func(w *launcher.Launcher)
	// overcharges: the supply runs on, so shots start at up to the fault pressure.
	overcharges bool
	// endsAt goes on with consequence: its %s is where the pressure ends with the fault, or with the two of a pair.
	endsAt string
	// noRelief: nothing but the switch limits the pressure.
	noRelief bool
	// raises lifts the highest normal pressure by so much [Pa].
	raises float64
	// extra are coordinates of the search, from 0 to 1, with what they do.
	extra  []string
	adjust func(c *pneumatics.Circuit, u []float64)
	share  func(mass float64) float64 // of the energy that one projectile has; nil: all
	// letsGo: what held the projectile gives way at a pressure behind it, with the valve open and all full (worst.LettingGo).
	letsGo bool
	// changes is whether the energy of the shot can change at all; whyNot is the
	// reason where it cannot.
	changes bool
	whyNot  finding.Text
	// asks is the part whose opening the question is about; "" the fault's own.
	asks string
	// unasked: it opens a way from a charged volume into the barrel in state.
	unasked bool

	consequence, detected, prevented finding.Text
	latent                           bool
	revealed                         string // id of the item that reveals it

	// stands is of a supply that runs on; nil: any other fault.
	stands *standing

	// Of the wiring: what is wrong in it; nil: a fault of another part.
	electric []control.Failure
	// failing says why it fails whatever its shot does; heldBy is the item of the checklist that alone holds it.
	failing finding.Text
	heldBy  string
	// keptBy is the item of the checklist that keeps it from being shot at all; its ID is empty where none does. A shot above a limit is
	// then held by that item, and fails no more.
	keptBy finding.Item

	// Of a jammed projectile: what it could gain when a hand frees it [J], and the
	// pressure behind it [Pa gauge].
	freed, behind float64

	pairOf string    // of a pair, or of several parts that the wiring moves: what is asked
	parts  [2]*fault // of a pair: its two faults
	asked  string    // what its search asked; "" there was none
}

// standing is where the volumes stand while a supply runs on.
type standing struct {
	rest   []float64 // of each volume [Pa gauge]
	most   float64   // the highest of what should be empty [Pa gauge]; +Inf: not known
	volume string    // that has it
	empty  bool      // what should be empty is
	shut   string    // the vents that the same fault of the wiring holds shut; "" none
	unseen bool      // no gauge shows that volume then
}
