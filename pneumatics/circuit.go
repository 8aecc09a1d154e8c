package pneumatics

import (
	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/graph"
	"puffproof/pneumatics/line"
)

// Node names one end of a path: a rigid volume (its index in
// Circuit.Volumes, from 0), the barrel or the atmosphere.
type Node = graph.Node

// The two nodes that are not rigid volumes.
const (
	Atmosphere = graph.Atmosphere // ambient air, at Ambient.Pressure and Ambient.Temperature
	BarrelNode = graph.Barrel     // the gas behind the projectile
)

// State is what the launcher's controls ask for.
type State uint8

// The states of a launcher. Loading means that a person's hands are at the
// muzzle.
const (
	Off State = iota
	Charging
	Armed
	Loading
	Firing
	numStates
)

var stateNames = [numStates]string{"off", "charging", "armed", "loading", "firing"}

// String gives the state's word as the design file spells it.
func (s State) String() string {
	if s < numStates {
		return stateNames[s]
	}
	return "unknown state"
}

// States lists every state in the order of use.
func States() []State { return []State{Off, Charging, Armed, Loading, Firing} }

// StateSet is a set of states.
type StateSet uint8

// SetOf makes the set of the given states.
func SetOf(states ...State) StateSet {
	var s StateSet
	for _, st := range states {
		s |= 1 << st
	}
	return s
}

// Has tells whether the set contains the state.
func (s StateSet) Has(st State) bool { return s&(1<<st) != 0 }

// Position is where a valve goes when its power is lost.
type Position uint8

// The positions of a valve without power.
const (
	Closed Position = iota
	Open
	Stays // keeps the position it has
)

// String gives the position's word as the design file spells it.
func (p Position) String() string { return [...]string{"closed", "open", "stays"}[p] }

// PathKind is the kind of part that a flow path is.
type PathKind uint8

// The kinds of path.
const (
	Orifice   PathKind = iota // a fixed opening, always open
	Hose                      // a hose alone, always open
	Valve                     // a solenoid valve, moved by the states
	HandValve                 // a valve moved by a person, keeps its position without power
	Check                     // passes From → To only, above its cracking pressure
	Relief                    // opens with the gauge pressure of From
	Regulator                 // passes From → To while To is below its set pressure
	// QuickExhaust is the exhaust way of a shuttle valve: shut while its inlet, the
	// Pilot of its Balance, holds it, open when that has fallen below From.
	QuickExhaust
)

var kindNames = [...]string{"orifice", "hose", "valve", "hand valve", "check", "relief", "regulator", "quick exhaust"}

// String gives the kind's word as the design file spells it.
func (k PathKind) String() string {
	if int(k) < len(kindNames) {
		return kindNames[k]
	}
	return "unknown kind"
}

// OneWay tells that such a part passes From → To only: its disc shuts against
// flow back.
func (k PathKind) OneWay() bool { return k == Check || k == Relief || k == Regulator }

// Ambient is the air around the launcher.
type Ambient struct {
	Pressure    float64 // barometric pressure [Pa absolute]
	Temperature float64 // [K]
}

// Volume is a rigid vessel.
type Volume struct {
	Name   string
	Volume float64 // [m3], hoses charged to its side included
	// InnerDiameter [m] sets the size for natural convection. Zero: that of a
	// cylinder three diameters long that holds Volume.
	InnerDiameter float64
}

// Path is a flow path between two nodes. Pressures in it are gauge values
// [Pa above Ambient.Pressure] since springs see the atmosphere.
type Path struct {
	Name     string
	From, To Node
	Kind     PathKind
	Flow     flow.Restriction // the part itself, fully open
	Hose     flow.Restriction // a hose in series with it; the zero value is none
	// HoseFirst: the hose lies on the From side of the part.
	HoseFirst bool
	// Before and After are the lines between From and the part, and between the part
	// and To, piece after piece in the direction From → To. They hold air of their own,
	// so their volume is in no other; at the start it has the condition of the node on
	// its side. A path of kind Hose with pieces has no part: they join From and To, and
	// Flow says only whether it passes anything.
	Before, After []line.Piece

	OpenIn      StateSet // states in which a powered Valve or HandValve is open
	Unpowered   Position // where a Valve goes when its power is lost
	OpeningTime float64  // [s] from the command to fully open, linear
	ClosingTime float64  // [s] from the command to shut, linear
	Pulse       float64  // [s] after the command to open, the command to close follows; 0: none
	Reopens     float64  // [s] after the command to close, the command to open follows; 0: it does not

	SetPressure      float64 // Relief: starts to open; Regulator: outlet pressure [Pa gauge]
	FullFlowPressure float64 // Relief: fully open [Pa gauge], above SetPressure
	ReseatPressure   float64 // Relief: shut again [Pa gauge], below SetPressure
	CrackingPressure float64 // Check: least pressure difference that opens it [Pa]
	Droop            float64 // Regulator: fall below SetPressure at which it is fully open [Pa]
	Balance          Balance // QuickExhaust, and a Valve or HandValve with a diaphragm
}

// Supply is the source of air. Its delivery of free air falls along Curve.
type Supply struct {
	Feeds    Node
	DeadHead float64 // gauge pressure at which it delivers nothing [Pa]
	Inlet    float64 // bore through which it blows into the volume it feeds [m], for Stirring; 0: without a jet
	// FreeAir is the volume of ambient air per second [m3/s] delivered at zero
	// gauge; without a Curve it falls linearly to zero at DeadHead.
	FreeAir float64
	Curve   []SupplyPoint // optional, in order of rising Gauge; linear between points
}

// SupplyPoint is one point of a supply's delivery curve.
type SupplyPoint struct {
	Gauge   float64 // outlet pressure [Pa gauge]
	FreeAir float64 // delivery of ambient air [m3/s]
}

// Fit is how projectile and barrel go together.
type Fit uint8

// The two fits.
const (
	InBore   Fit = iota // the projectile sits in the bore
	OverTube            // a hollow projectile sits over a launch tube
)

// String gives the fit's words as the design file spells them.
func (f Fit) String() string { return [...]string{"in bore", "over tube"}[f] }

// Barrel is the moving-boundary volume and its projectile.
//
// In the bore the gas acts on the bore's section, over a tube on the
// projectile's inner section. The volume behind the projectile is DeadVolume +
// Area x, x the projectile's travel from its rearmost seat.
type Barrel struct {
	Present    bool
	Fit        Fit
	Area       float64 // section that the pressure acts on [m2]
	ExitArea   float64 // section of the jet after the muzzle [m2]: bore, or the tube's inside
	LeakArea   float64 // gap around the projectile [m2]
	LeakCd     float64 // discharge coefficient of the gap [-]
	DeadVolume float64 // from the firing valve's seat to the projectile at its rearmost seat [m3]
	Travel     float64 // from the rearmost seat to the muzzle, or the engagement on the tube [m]
	SinPitch   float64 // sine of the barrel's elevation above the horizon [-]

	Mass      float64 // of all that moves [kg]
	Breakaway float64 // force to start from rest [N]
	Restart   float64 // force to start again after a rest [N]; 0: Breakaway
	Sliding   float64 // friction while moving [N]
	JetFactor float64 // share of the jet's momentum the projectile turns [-]: 1 flat or ball, 2 cup
}

// Frictionless tells that nothing slows the projectile but the gas: one that does
// not leave bounces for ever.
func (b *Barrel) Frictionless() bool { return b.Breakaway == 0 && b.Sliding == 0 }

// Weight is the part of the projectile's weight along the barrel [N], above zero where it
// holds the projectile back.
func (b *Barrel) Weight() float64 { return b.Mass * flow.StandardGravity * b.SinPitch }

// Circuit is the launcher as the model sees it: volumes, the barrel, and the
// paths between them. Everything is in SI units; vessel pressures are absolute.
type Circuit struct {
	Gas     flow.Gas
	Ambient Ambient
	Volumes []Volume
	Barrel  Barrel
	Paths   []Path
	Supply  *Supply // nil: none
}

// Links gives the circuit as a graph: its paths in their order.
func (c *Circuit) Links() []graph.Link {
	out := make([]graph.Link, len(c.Paths))
	for i := range c.Paths {
		out[i] = graph.Link{From: c.Paths[i].From, To: c.Paths[i].To}
	}
	return out
}

// Condition is the state of the gas in one node.
type Condition struct {
	Pressure    float64 // [Pa absolute]
	Temperature float64 // [K]
}

// Stuck overrides one path in a scenario.
type Stuck struct {
	Path int // index in Circuit.Paths
	// Opening is where the path stays, as a fraction of fully open [0 … 1].
	Opening float64
}

// Heat is how the walls of the rigid volumes exchange heat with the gas.
type Heat uint8

// The treatments of wall heat. Adiabatic and isothermal bracket the heat that flows, and
// with it every temperature; the time to a pressure may lie outside theirs.
const (
	Adiabatic  Heat = iota
	Convection      // natural convection at walls of WallTemperature
	Isothermal      // the gas stays at WallTemperature
	Transfer        // at a heat transfer coefficient that stays as it is: Scenario.Coefficient
	Stirring        // convection stirred up by the jets of what flows in: for a filling
)

// Parts switches parts of the shot model off, for comparison with references.
type Parts struct {
	NoGasInertia  bool // the gas in the barrel has no mass to accelerate
	NoAirAhead    bool // the air ahead of the projectile has no mass
	NoAfterMuzzle bool // the push ends at the muzzle
	NoWallHeat    bool // every scenario is adiabatic
	// SteadyLines makes every line a resistance whose air is that of the node on its
	// side: for what is slow against the sound in it.
	SteadyLines bool
}

// SwitchLogic is a pressure switch that stops and starts the supply.
type SwitchLogic struct {
	Senses        Node
	CutOut, CutIn float64 // [Pa gauge]
	Stopped       bool    // the supply is stopped at time 0
}

// Scenario is one question put to a circuit. A new question is a new scenario,
// never a new simulator.
type Scenario struct {
	From      State // the state in which the valves have settled before time 0
	To        State // the state commanded at time 0
	PowerLost bool  // at time 0 power is lost: valves go to their unpowered positions

	Volumes []Condition // one per Circuit.Volumes, at time 0
	Barrel  Condition   // zero value: ambient

	Seat         float64 // the projectile's starting point from its rearmost seat [m]
	NoProjectile bool    // nothing is loaded: the barrel is open to the atmosphere
	MuzzleClosed bool    // the muzzle is plugged: the air ahead is trapped
	// Jammed: the projectile does not move whatever the pressure; the run ends where the
	// pressure behind it comes no higher.
	Jammed     bool
	SupplyRuns bool         // the supply delivers, whatever the switch says
	Switch     *SwitchLogic // nil: the supply never stops
	Stuck      []Stuck

	Heat            Heat
	WallTemperature float64 // [K]; 0: ambient
	Coefficient     float64 // of Transfer [W/(m2 K)]
	Parts           Parts

	Until float64 // the run ends here at the latest [s]; 0: 10 s
}
