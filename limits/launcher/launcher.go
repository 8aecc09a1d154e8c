package launcher

import (
	"puffproof/limits/control"
	"puffproof/limits/finding"
	"puffproof/pneumatics"
)

// Answer is a declaration that may be missing.
type Answer uint8

// The three answers. No answer counts as no.
const (
	Unanswered Answer = iota
	Yes
	No
)

// Launcher is a design in SI units: what the builder wrote, with tolerances, before one point of the tolerance box is chosen. Gauge
// pressures are Pa above the ambient pressure; ambient pressure is absolute. The reader of design files makes it; At turns a point of its
// box into a pneumatics.Circuit.
type Launcher struct {
	Name        string
	Revision    string
	Serial      string // marked on the launcher itself
	Description string
	Owner       string
	InCharge    string // the adult in charge

	Ambient    AmbientSpec
	Gas        string // "air" or "nitrogen"
	Volumes    []VolumeSpec
	Paths      []PathSpec
	Supply     *SupplySpec
	Switch     *SwitchSpec
	Gauges     []GaugeSpec
	Barrel     BarrelSpec
	Projectile ProjectileSpec
	Venting    *VentingSpec
	Event      *EventSpec
	Mount      MountSpec
	Limits     LimitsSpec
	Model      ModelSpec
	Control    *control.Wiring // nil: not stated
	Objects    []ObjectSpec    // the builder's own additions to the listed objects
	Checklist  []finding.Confirmation
	// Altered says, in words, what in the record of the commissioning beside the design is not as it was written; nil: nothing.
	Altered []string
	// RecordTrouble says why that record cannot be read, as "is a link, not the file itself"; "" it can, or there is none.
	RecordTrouble string
	// Declared are the dotted keys, in order, whose values are declared and not shown yet: what rests on one is
	// conditional.
	Declared []string
	// Narrow are the quantities whose tolerance is stated narrower than anything of their origin gives: it counts, and what rests on one is
	// conditional.
	Narrow []Narrow
	// TooGood are the figures that are better than any such part's: they count as not stated.
	TooGood []TooGood
	// Template are the dotted keys, in order, whose figures are still those of the file to start from: what is
	// computed with one says nothing of this launcher.
	Template []string
	// ToFind are the dotted keys, in order, that have "?": nobody knows them yet, and they are as if left out.
	ToFind []string
	Bench  *Bench // what bench tests have replaced; nil: none

	elevation Band // of a shot [rad]; the lowest where not Set
}

// AmbientSpec is the air around the launcher and its extremes.
type AmbientSpec struct {
	Pressure    Band // [Pa absolute]
	Temperature Band // [K]
	Hottest     Band // a filled launcher left in the heat [K]
	Coldest     Band // [K]
}

// VolumeSpec is one [volumes.NAME].
type VolumeSpec struct {
	Name          string
	Volume        Band   // [m3], hoses not included
	RatedPressure Band   // [Pa gauge]
	RatedForGas   Answer // is the rating one for gas
	Material      string
	InnerDiameter Band // [m]; assumed where not stated
	// Of a vessel that comes filled and closed [Pa gauge], Set only there: what it is filled to, and what
	// fills it can push to.
	FilledTo      Band
	FillerReaches Band
	ProofTest     string
	MadeOn        string // ISO date
	RetireBy      string // ISO date
}

// FlowForm is the way in which a path's flow is stated.
type FlowForm uint8

// The ways to state a flow; a path uses exactly one.
const (
	NoFlow FlowForm = iota
	SonicConductance
	FlowCv
	FlowKv
	NominalFlow
	OrificeBore
	SeatBore // a valve known only by the bore of its seat
)

// FlowSpec is how much a path lets through.
type FlowSpec struct {
	Form                 FlowForm
	Value                Band   // C [m3/(s Pa)], Cv [-], Kv [-], Qn [m3/s free air], or a bore [m]
	CriticalRatio        Band   // b [-]; for SonicConductance, FlowCv, FlowKv, NominalFlow
	PressureDropRatio    Band   // xT [-] of IEC 60534; for FlowCv and FlowKv
	DischargeCoefficient Band   // Cd [-]; for OrificeBore and SeatBore
	Removable            Answer // whether the hole of OrificeBore is in an insert that can be left out
}

// Way tells what a path is of its part.
type Way uint8

// The ways. A part with two ways is two paths, of which each names the other.
const (
	OnlyWay         Way = iota
	ThreeWay            // inlet to outlet of a three-way valve
	ThreeWayExhaust     // outlet to exhaust of it: open where the other way is shut
	QuickInlet          // inlet to outlet of a quick-exhaust valve
	QuickOutlet         // outlet to exhaust of it: open where the inlet no longer holds it
)

// Exhausts tells that the way leads from a part's outlet to its exhaust port.
func (w Way) Exhausts() bool { return w == ThreeWayExhaust || w == QuickOutlet }

// HoseSide is the side of its path on which a hose lies.
type HoseSide uint8

// The two sides of a path.
const (
	HoseBefore HoseSide = iota // the charged side
	HoseAfter
)

// HoseSpec is a hose in series with a path, or the path itself.
type HoseSpec struct {
	Bore          Band // [m]
	Length        Band // [m]
	Conductance   Band // relative band on the hose's conductance, nominal 1 [-]
	Side          HoseSide
	RatedPressure Band // [Pa gauge]
	Material      string
	// Shared: another way of the same body passes this hose too and counts its air.
	Shared bool
}

// PathSpec is one [paths.NAME], or one way of a part that has two.
type PathSpec struct {
	Name     string
	Way      Way    // which way of which part it is
	Other    string // name of the same body's other way; "" it has none
	From, To string // names of volumes, "barrel" or "atmosphere"
	Kind     pneumatics.PathKind
	Flow     FlowSpec
	Hose     *HoseSpec

	OpenIn      pneumatics.StateSet
	Unpowered   pneumatics.Position
	OpeningTime Band // [s]
	// Usual is the longest that a valve of its drive, moved by current, takes to open as a rule [s], 0 not known; OpeningSaid the opening
	// time as stated where that is far longer [s].
	Usual           float64
	OpeningSaid     Said
	FlowSaid        Said // the flow figure as stated, where what it feeds is far too wide for it [of Flow.Value]
	ClosingTime     Band // [s]
	Pulse           Band // [s]
	PulseSaid       Said // the pulse as stated, where the valve opens no further in it than by an unknown part [s]
	MinDifferential Band // [Pa]; Set only where stated or the valve is piloted
	Piloted         bool // a piloted valve (drive = "piloted")
	OwnBore         bool // a valve that a hand turns itself: its bore is its own, however small
	OpensFirst      bool // it counts as open before a shot, which the design does not say (InTurn)

	// Of a diaphragm or shuttle, Set where there is one: the seat's area over its own
	// [-], the pressure difference at which it lifts, and at which it is fully up [Pa].
	// Data sheets promise that it opens above MinDifferential, not that it stays shut
	// below: OpensAt reaches down to zero.
	SeatShare   Band
	OpensAt     Band
	FullAt      Band
	PilotInside bool // the pilot vents into the outlet, not into the open

	// The three pressures of a relief valve move together: one coordinate u of
	// the tolerance box drives SetPressure.Lerp(u), FullFlowPressure.Lerp(u) and
	// ReseatPressure.Lerp(u). At every u reseat < set < full flow.
	SetPressure      Band // Relief, Regulator [Pa gauge]
	FullFlowPressure Band // Relief [Pa gauge]
	ReseatPressure   Band // Relief [Pa gauge]
	SteadyPressure   Band // Relief: measured, it holds the whole supply here [Pa gauge]
	CrackingPressure Band // Check [Pa]
	Droop            Band // Regulator [Pa]
	Creep            Band // Regulator: rise above set at no flow [Pa]
	Relieving        bool // Regulator: vents an outlet that is too high
	Points           string
}

// SupplyKind is the kind of source.
type SupplyKind uint8

// The kinds of source.
const (
	Compressor SupplyKind = iota
	HandPump
	RegulatedCylinder
	ShopAir // a compressed-air main behind a regulator
)

// SupplySpec is the [supply] table.
type SupplySpec struct {
	Kind      SupplyKind
	Feeds     string
	FreeAir   Band   // [m3/s of ambient air], the mean of a pump's strokes
	PeakFlow  Band   // [m3/s of ambient air], in the middle of a stroke; Set for a hand pump
	DeadHead  Band   // [Pa gauge]
	PumpedTo  Band   // mark on the gauge at which a person stops [Pa gauge]
	RunTime   Band   // of a timer [s]
	FromEmpty Answer // Yes: the timer starts only what is empty
	// Of what stands behind a regulator: the pressure before it [Pa gauge], and the bore that it opens when it
	// fails [m].
	SourcePressure Band
	RegulatorBore  Band
	Curve          []CurvePoint
	CurveSaid      []CurvePoint // Curve as it was stated, where more counts (package doubt); nil: it counts as stated
	NoiseLevel     Band         // A-weighted, 1 m from it [dB]
	RunsIn         pneumatics.StateSet
	RunsInStated   bool

	// Where a shot's supply lies against its curve [-], 1 where not Set: delivery and
	// pressures over those of the curve.
	share, stretch Band
}

// AgainstCurve are two bands that no key states: the delivery of a shot's supply over that of its
// curve, and its pressures over those of the curve [-]; both are 1 where not Set.
func (s *SupplySpec) AgainstCurve() (share, stretch *Band) { return &s.share, &s.stretch }

// CurvePoint is one point of a supply's delivery curve.
type CurvePoint struct {
	Gauge   float64 // [Pa gauge]
	FreeAir float64 // [m3/s]
}

// SwitchSpec is the [pressure_switch] table.
type SwitchSpec struct {
	Senses       string
	CutOut       Band // [Pa gauge]
	CutIn        Band // [Pa gauge]
	Differential Band // smallest differential of the switch [Pa]
	ReactionTime Band // [s]
	// GaugeError is the error of the gauge it is set by [Pa], symmetric: Low =
	// -High. Not Set where neither it nor a gauge on the sensed volume is stated.
	GaugeError   Band
	Adjustable   Answer
	AdjustableTo Band // gauge pressure at the end stop of its screw [Pa]
}

// GaugeSpec is a [gauge] or one [[gauge]].
type GaugeSpec struct {
	On         string
	Range      Band    // [Pa]
	Class      float64 // percent of range; 0: not stated
	Error      Band    // [Pa]; stated instead of a class
	Graduation Band    // [Pa]
	StopPin    Answer
}

// BarrelSpec is the [barrel] table.
type BarrelSpec struct {
	Fit               pneumatics.Fit
	Bore              Band // in bore [m]
	Travel            Band // in bore [m]
	TubeOuterDiameter Band // over tube [m]
	TubeInnerDiameter Band // over tube [m]
	Engagement        Band // over tube [m]
	DeadVolume        Band // [m3]
	DeadVolumeSaid    Said // the dead volume as stated, where the barrel leaves another [m3]
	FixedSeat         bool // seating = "fixed": a stop, to be inspected
	RatedPressure     Band // [Pa gauge]
	RatedForGas       Answer
	Material          string
	MuzzleAdmits      Band // largest object the muzzle lets in [m]
	ObjectControl     []string
	SealGuard         string // a guard that keeps lips and ears from sealing on the muzzle
	ProofTest         string
	MadeOn            string
	RetireBy          string
}

// TooGood is a figure that is stated better than any such part's, what counts in its place, and what to do.
type TooGood struct {
	Key            string // dotted
	Stated, Counts finding.Text
	Do             string
}

// Narrow is a quantity whose stated tolerance is narrower than anything of its origin gives.
type Narrow struct {
	Key    string // dotted
	Origin Origin
	Usual  finding.Text // what such an origin gives as a rule: "± 2 %, at least ± 0.5 g"
}

// Said are the ends of a figure as stated, where another one contradicts it and more than it counts [of the figure]; both 0: nothing
// does.
type Said struct{ Low, High float64 }

// Doubted tells that something contradicts the figure.
func (s Said) Doubted() bool { return s != Said{} }

// Of gives a band as it was stated.
func (s Said) Of(b Band) Band {
	if s.Doubted() {
		b.Low, b.High = s.Low, s.High
	}
	return b
}

// Keep holds on to the ends of a band as they were stated; what was kept before stays.
func (s *Said) Keep(b Band) {
	if !s.Doubted() {
		*s = Said{Low: b.Low, High: b.High}
	}
}

// ProjectileSpec is the [projectile] table.
type ProjectileSpec struct {
	Mass            Band // [kg]
	Diameter        Band // [m]
	InsideDiameter  Band // over tube [m]
	ContactDiameter Band // [m]; assumed where only a diameter is given
	Resilient       bool
	TipStated       bool
	TipProof        string // reference of the press test that shows it resilient; "" none
	OpenCell        Answer // open-cell foam soaks water
	Breakaway       Band   // [N]
	Restart         Band   // [N]
	Sliding         Band   // [N]
	Clearance       Band   // diametral [m]; stated, or from the two diameters where not Set
	ClearanceSaid   Said   // the clearance as stated, where the diameters contradict it and leave less [m]
	MassSaid        Said   // the mass as stated, where no foam of its size has it [kg]
	ContactSaid     Said   // the contact diameter as stated, where no round tip touches with so much [m]
	// What was stated of what holds it at rest and what it slides with, where one excludes the other [N]; and that no shot lets it go as
	// stated (limits/doubt).
	BreakawaySaid, RestartSaid, SlidingSaid Said
	HeldFast                                bool
	Cup                                     Answer // an open tail that turns the jet
	Drag                                    Band   // drag coefficient [-]
	Lot                                     string
	MadeOn                                  string // ISO date
	RetireBy                                string // ISO date
}

// VentingSpec is the [venting] table.
type VentingSpec struct {
	Target Band // [Pa gauge]; Assumed where not stated: a verdict may then use less
	Within Band // [s]
}

// EventSpec is the [event] table.
type EventSpec struct {
	Youngest      Band // [s] of age
	EarToMuzzle   Band // [m]
	EyeToMuzzle   Band // [m]
	NearestPerson Band // [m]
	Kerb          Band // [m]
	Wheels        Band // from the muzzle to the vehicle's nearest wheel [m]
	MuzzleHeight  Band // [m]
	Elevation     Band // [rad]
	VehicleSpeed  Band // [m/s]
	Wind          Band // [m/s]
	PeakLevel     Band // recorded at a shot, 0.5 m from the muzzle [dB(C) peak]
}

// Nearest is how near to the muzzle the nearest person may stand [m]: the lower end of what is stated, of the kerb too, where spectators
// stand. Every verdict, rule and text that speaks of that person's distance takes this one; ok is false where no person is stated.
func (e *EventSpec) Nearest() (distance float64, ok bool) {
	if e == nil || !e.NearestPerson.Set {
		return 0, false
	}
	if e.Kerb.Set {
		return min(e.NearestPerson.Low, e.Kerb.Low), true
	}
	return e.NearestPerson.Low, true
}

// MountSpec is the [mount] table.
type MountSpec struct {
	ElevationMin Band // [rad]
	ElevationMax Band // [rad]
	MovingAt     Band // [m/s]; the faster of mount.moving_at and event.vehicle_speed, 0 assumed without both
	RideOn       bool
}

// LimitsSpec is the [limits] table.
type LimitsSpec struct {
	Policy      string // "conservative" or "published"
	TotalEnergy Band   // the builder's own stricter limit [J]
	AreaEnergy  Band   // the builder's own stricter limit [J/m2]
}

// ModelSpec is the [model] table.
type ModelSpec struct {
	Parts pneumatics.Parts
	Off   []string // the keys by which the design switches parts of the model off; nothing is judged by what is left
}

// ObjectSpec is one [[objects]].
type ObjectSpec struct {
	Name     string
	Diameter Band // [m]
	Length   Band // [m]
	Mass     Band // [kg]
}

// leastTap is the bore [m] from which on that of a hand valve is its own: ball valves are hardly made with less (from memory).
const leastTap = 4e-3

// PoweredIn are the states in which a solenoid valve has current: those in which it stands otherwise than without. One
// that stays where it is without current has it only while it moves: none.
func (p *PathSpec) PoweredIn() (in pneumatics.StateSet) {
	if p.Unpowered == pneumatics.Stays {
		return 0
	}
	for _, s := range pneumatics.States() {
		if p.OpenIn.Has(s) != (p.Unpowered == pneumatics.Open) {
			in |= pneumatics.SetOf(s)
		}
	}
	return in
}

// Restrictor tells that a path's flow is that of a drilled hole, which may be missing or drilled out. A relief valve's bore is its own, and
// so is that of a ball valve turned by hand.
func (p *PathSpec) Restrictor() bool {
	tap := p.Kind == pneumatics.HandValve && (p.OwnBore || p.Flow.Value.Nominal >= leastTap)
	return p.Flow.Form == OrificeBore && p.Kind != pneumatics.Relief && !tap
}
