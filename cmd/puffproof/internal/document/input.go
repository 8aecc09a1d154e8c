package document

import (
	"puffproof/cmd/puffproof/internal/render"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits"
)

// Input is everything a paper is made from.
type Input struct {
	Design   render.DesignID
	Text     string // the design file as it was read
	Launcher *limits.Launcher
	Report   limits.Report
	Setpoint *limits.Setpoint // nil: not computed
	Vent     *limits.VentReport
	Faults   *limits.FaultReport
	Shot     *render.ShotView
	Flights  *limits.FlightReport
	NoFlight string             // why there is none
	Attached []Attached         // measurements, as read
	Found    *limits.Findings   // what the shots say; nil: none were given
	VentLog  *limits.LogAnswer  // what the log of emptying says; nil: none was given
	LeakLog  *limits.LeakAnswer // what the leak-down says; nil: none was given
	Date     string             // ISO date of the paper
	Version  string             // of the program
	Units    unit.System
	// DimensionOf tells what a key of the design measures.
	DimensionOf func(key string) (unit.Dimension, bool)
}

// Attached is a file that was read beside the design.
type Attached struct {
	Role   string `json:"role"` // ShotsRole, VentLogRole or LeakLogRole
	Name   string `json:"name"` // of the file, without its folder
	SHA256 string `json:"sha256"`
	Text   string `json:"text"`
}

// The roles of attached files.
const (
	ShotsRole   = "shots"
	VentLogRole = "vent-log"
	LeakLogRole = "leak-log"
)
