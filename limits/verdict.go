package limits

// Status is the answer of a verdict.
type Status string

// The four answers. Unknown is not passed.
const (
	Pass          Status = "pass"
	Fail          Status = "fail"
	NotApplicable Status = "not applicable"
	Unknown       Status = "unknown"
)

// OpenItem is the answer of a fault that holds only once an item of the checklist
// is confirmed, and is not. No verdict has it.
const OpenItem Status = "open"

// Basis is what a verdict rests on.
type Basis string

// The bases of a verdict: three for energies, four for everything else.
const (
	OnCeiling   Basis = "ceiling"   // the thermodynamic bound
	OnModel     Basis = "model"     // the worst case of the model times its factor
	OnMeasured  Basis = "measured"  // a tolerance bound from measured shots
	OnCircuit   Basis = "circuit"   // computed on the circuit
	OnData      Basis = "data"      // compared with a stated figure
	OnRule      Basis = "rule"      // a rule of a standard or of this project
	OnProcedure Basis = "procedure" // holds only while people do what was declared
)

// Quantity is what a verdict's figures measure; the renderers choose the unit
// shown from it.
type Quantity string

// The quantities of verdicts. The string is the SI unit of Value and Limit.
const (
	InJoule          Quantity = "J"
	InJoulePerArea   Quantity = "J/m2"
	InPascalGauge    Quantity = "Pa" // gauge
	InSecond         Quantity = "s"
	InMetre          Quantity = "m"
	InMetrePerSecond Quantity = "m/s"
	InCount          Quantity = "count"
	NoQuantity       Quantity = ""
)

// Verdict is one judged question. It is plain data: everything a renderer shows
// is in it.
type Verdict struct {
	ID     string // stable identifier, such as "energy.total"
	Title  string // what is asked, in a builder's words
	Status Status

	Value, Limit *float64 // SI, gauge pressures above ambient; nil where there is none
	Unit         Quantity
	Margin       *float64 // (Limit - Value)/Limit, or its negative for lower limits; negative fails [-]

	Basis  Basis
	Source string // document, clause and status of the limit
	Caveat string // what the source does not say
	Why    string // one sentence: the case that decides, or the missing input, or why not applicable
	Advice string // what to change or to measure
}

// Item is one entry of the checklist: what only a person can confirm.
type Item struct {
	ID      string // stable, such as "confirm.shots"
	Title   string // what to do
	Why     string // why it matters
	How     string // how to check it
	Expect  string // the figure to expect, in SI wording with its unit
	Verdict string // the verdict that rests on it; "" where none does
	Source  string
	Figure  *Expected     // what the answer has to bring; nil: no figure
	Done    *Confirmation // nil: open
	OpenWhy string        // why the answer that there is does not close it; "" there is none, or it does
}

// EyeFigure stands beside the energies as information.
type EyeFigure struct {
	Injury string
	Half   float64 // energy per projected area with a 50 % chance of the injury [J/m2]
	Ratio  float64 // this launcher's worst energy per projected area over Half [-]
}

// Point is one labelled point of the tolerance box: the coordinates that
// matter, by key.
type Point []Coordinate

// Coordinate is one quantity at one point of the box.
type Coordinate struct {
	Key   string
	Value float64 // SI
	Side  string  // "low", "high", "inside" or "nominal"
}

// EnergyReport puts the bases of the energy verdicts side by side.
type EnergyReport struct {
	NominalShot   ShotFigures // nominal values, stated travel, nominal cut-out
	NominalMax    ShotFigures // nominal values, the worst seating
	Worst         ShotFigures // worst case over the box, every seating and start pressure
	WorstEnergy   float64     // the worst final energy, relative to a person standing still [J]
	WorstPoint    Point       // where the worst case lies
	Factor        float64     // the model factor on energy [-]
	FactorSource  string
	Model         float64  // WorstEnergy times Factor [J]
	Ceiling       float64  // thermodynamic bound over the box [J]
	Measured      *float64 // bound from measured shots [J]; nil: none
	Judged        float64  // the energy that is judged [J]
	Basis         Basis
	Limit         float64 // the policy's total energy [J]
	ContactArea   float64 // smallest contact area in the box [m2]; 0: not stated
	ProjectedArea float64 // frontal area of the projectile at its smallest [m2]
	AreaJudged    float64 // Judged / ContactArea [J/m2]
	AreaLimit     float64 // [J/m2]
	StartHigh     float64 // highest start pressure of normal operation [Pa gauge]
	CeilingDose   float64 // volume of air at StartHigh that the ceiling would pass [m3]
	Runs          int     // shots computed by the search
	Maxima        int     // local maxima found
	Gap           float64 // best minus second-best local maximum [J]
}

// ShotFigures are the figures of one shot.
type ShotFigures struct {
	Outcome      string // "left", "stalled" or "time ran out"
	MuzzleSpeed  float64
	MuzzleEnergy float64
	FinalSpeed   float64
	FinalEnergy  float64
	ExitTime     float64
	StartGauge   float64 // of the sensed volume [Pa gauge]
	Seat         float64 // travel left to the muzzle is Travel - Seat [m]
}

// Report is the answer of a whole check.
type Report struct {
	Verdicts  []Verdict // worst first
	Holds     bool      // no verdict fails or is unknown
	Confirmed bool      // on measured energies, with no item open
	Items     []Item    // the whole checklist
	OpenItems int
	Energy    *EnergyReport
	Wave      *WaveComparison // the worst shot in both models; nil: not asked for
	Measured  *MeasuredReport // nil: no measurements
	Eye       []EyeFigure
	Assumed   []Band // every band that the design did not state
	Notes     []string
}
