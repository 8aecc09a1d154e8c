package wave

import "puffproof/pneumatics"

// Options are how a wave run is computed. The zero value is right for a shot
// that is shown.
type Options struct {
	// Cells is how many cells the gas behind the projectile is meant to have when
	// it reaches the muzzle; 0: DefaultCells. The error falls with its square.
	Cells int
	// Courant is the step over the stability limit [-], at most 1; 0: 0.6.
	Courant float64

	Ahead        Ahead
	BackPressure float64 // AheadPressure: [Pa absolute]

	// ChamberBore is the diameter of the dead volume [m], joined to the bore by a
	// 45 degree taper and a neck of half a bore; 0: the dead volume is a tube of
	// the bore.
	ChamberBore float64
	// Darcy is the Darcy friction factor of the gas in the barrel [-]; 0: none,
	// as in the lumped model.
	Darcy float64
	// Hose is the hose before the valve that feeds the barrel, as a tube of its
	// own: short for a Before of one piece. The zero value is none.
	Hose Hose
	// Before and After are the pieces of hose on the two sides of the valve that
	// feeds the barrel, in the order in which the air passes them. They stand in
	// place of the path's own hose. The circuit has the air of Before in the vessel
	// that feeds the barrel and that of After in the barrel's dead volume; it is
	// taken out there. A path of kind pneumatics.Hose has no valve: all pieces
	// follow each other. Where the circuit's path has lines of its own, with their own
	// air, they are taken from there and none may be given here.
	Before, After []Hose
	// LineCells is the most cells that a line, all pieces on one side of the valve,
	// is cut into; 0: no limit, then its cells are as long as those of the barrel.
	LineCells int

	MaxSteps int // 0: 4 million
	// Samples is the number of equally spaced times of the trace; 0: no trace.
	Samples  int
	TraceEnd float64 // time of the last sample [s]; 0: Scenario.Until
}

// DefaultCells gives muzzle speeds to 1e-3 or better (TestShotConverges).
const DefaultCells = 64

// endCorrection is how far an open end reaches beyond the muzzle, in radii: the
// low-frequency value of an unflanged pipe. Source: Levine and Schwinger, Phys.
// Rev. 73 (1948) 383.
const endCorrection = 0.6133

// Result is one wave run as plain data. Pressures are absolute.
type Result struct {
	Outcome pneumatics.Outcome

	MuzzleSpeed  float64 // [m/s]; NaN unless it left
	MuzzleEnergy float64 // [J]; NaN unless it left
	ExitTime     float64 // [s]; NaN unless it left
	MoveTime     float64 // when it first moved [s]; NaN: never
	BaseExit     float64 // pressure on the base at the muzzle [Pa]
	PeakSpeed    float64 // highest speed in the bore [m/s]
	BasePeak     float64 // highest pressure on the base [Pa]
	BreechPeak   float64 // highest pressure at the breech [Pa]
	FrontPeak    float64 // highest pressure on the front [Pa]
	Rests        int     // times the projectile came to rest

	Position float64 // travel at the end [m]
	Speed    float64 // at the end [m/s]
	Time     float64 // at the end [s]
	// Volumes are the vessels at the end, in the circuit's order.
	Volumes []pneumatics.Condition

	GasMass   float64 // behind the projectile at the end [kg]
	SoundTime float64 // length behind the projectile at the end over the sound speed at ambient temperature [s]

	MassResidual   float64 // imbalance over the mass that changed place [-]
	EnergyResidual float64 // imbalance over the energy in the system at the start [-]

	Steps     int
	CellSteps int // cells times steps, the measure of the work
	Reason    string
	Trace     Trace
}

// Trace is a run at the first step's end after equally spaced times; empty
// unless Options asked for it.
type Trace struct {
	Time, Position, Speed []float64 // [s], [m], [m/s]
	Breech, Base, Front   []float64 // pressures [Pa]
	Volumes               [][]float64
}
