package paper

import (
	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/record"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits"
	"puffproof/limits/fault"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/limits/setpoint"
	"puffproof/limits/stopwatch"
	"puffproof/limits/vent"
)

// Input is everything a paper is made from.
type Input struct {
	Design   show.DesignID
	Text     string // the design file as it was read
	Launcher *launcher.Launcher
	Report   limits.Report
	Setpoint *setpoint.Answer // nil: not computed
	Vent     *vent.Report
	Faults   *fault.Report
	Shot     *show.ShotView
	Flights  *measure.FlightReport
	NoFlight string              // why there is none
	Attached []document.Attached // measurements, as read
	Found    *measure.Findings   // what the shots say; nil: none were given
	VentLog  *stopwatch.Answer   // what the log of emptying says; nil: none was given
	LeakLog  *vent.LeakAnswer    // what the leak-down says; nil: none was given
	Record   *record.Log         // of the commissioning; nil: there is none
	Date     string              // ISO date of the paper
	Version  string              // of the program
	Units    quantity.System
	// DimensionOf tells what a key of the design measures.
	DimensionOf func(key string) (unit.Dimension, bool)
}

const (
	ShotsRole   = "shots"
	VentLogRole = "vent-log"
	LeakLogRole = "leak-log"
	RecordRole  = "record" // of a commissioning
)
