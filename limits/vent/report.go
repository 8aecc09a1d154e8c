package vent

import (
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/halving"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// Kind is why a launcher empties.
type Kind string

// The two reasons.
const (
	Shutdown  Kind = "shutdown"   // switched off, with power
	PowerLost Kind = "power lost" // every valve goes where it goes without power
)

// Status is what became of the air in one volume.
type Status string

// The ways it can end. Only the first is good.
const (
	Vented     Status = "vented"
	Slow       Status = "slow"         // at the target, but later than asked
	Trapped    Status = "trapped"      // no open way out
	TimeRanOut Status = "time ran out" // a way out, but not at the target when the run ended
)

// DefaultTarget is the gauge pressure that counts as empty where the design
// states none [Pa]. Own rule of this project: no published figure for a safe
// residual pressure was found.
const DefaultTarget = 5000.0

// Reading is what a gauge should show at a time of the stopwatch.
type Reading struct {
	Time             float64 // [s]
	Low, Gauge, High float64 // [Pa gauge]: the lowest, the expected, the highest
}

// Case is one volume in one scenario of emptying.
type Case struct {
	Scenario string // such as "shutdown from armed"
	Kind     Kind
	From     pneumatics.State
	Volume   string // "barrel": the air behind a loaded projectile
	Start    float64
	Status   Status
	Trapped  bool
	Missing  finding.Text // the path that should be there; "" where none is missing
	Keeps    float64      // what stays for good by the graph [Pa gauge]; +Inf: all of it

	// Times to the target [s]; +Inf: not within the run.
	Slowest, Expected, Fastest float64
	Isothermal, Adiabatic      float64 // of the nominal values, without heat taken from measurements
	AfterWithin                float64 // highest gauge pressure when the time is up [Pa]; NaN: no time asked
	Rebound                    float64 // gauge pressure after the vent is shut at the target and the gas has warmed up [Pa]
	Sheet                      []Reading
	Course                     []Reading // the same, close enough for a curve; nil: not computed
}

// Curve is the course to draw: the sheet where there is nothing finer.
func (c *Case) Curve() []Reading {
	if len(c.Course) > 0 {
		return c.Course
	}
	return c.Sheet
}

// BarrelPush tells what venting through the barrel does to a loaded projectile.
type BarrelPush struct {
	Scenario string
	Kind     Kind
	Path     string // the path that opens into the barrel
	Outcome  string
	From     pneumatics.State
	Speed    float64 // [m/s]; 0 unless it is pushed out
	Energy   float64 // [J]
	Judged   float64 // Energy times the model factor [J]
	// Bound: the projectile neither left nor rested for good in time; Energy is what
	// the air could still do, Speed what goes with it.
	Bound bool
	// Points is where the design says that the path's outlet blows, of an outlet to
	// the atmosphere that is taken to blow into the barrel; "" the path leads there.
	Points string
	RunsOn bool // such an outlet is a relief valve that lifts while the supply runs on: nobody switched anything off
}

// HoseAir is the air in one hose.
type HoseAir struct {
	Path   string
	Volume float64 // [m3]
	With   string  // the volume it empties with; "" where it is open to the atmosphere
}

// Report is the answer to: does it really empty.
type Report struct {
	Target    float64 // [Pa gauge]
	TargetWhy finding.Text
	TooHigh   finding.Text // why the stated target is no empty launcher; "" it is, or none is stated
	Within    float64      // [s]; NaN: the design asks for none
	Start     float64      // gauge pressure of the sensed volume at the start [Pa]
	StartWhy  finding.Text
	Cases     []Case
	Tests     []StopwatchTest
	LowTests  []StopwatchTest  // from a low pressure, the first of all; without readings
	Rest      launcher.Resting // where the supply comes to rest against what is open while it fills
	Filled    string           // how it is filled for them, in words
	FromEmpty string           // likewise, from empty
	Leaks     []LeakTest
	Pushes    []BarrelPush
	Aimed     []BarrelPush // by outlets to the atmosphere that do not surely point away from the barrel
	Hoses     []HoseAir
	ByHand    []string // hand valves that somebody has to open once it is switched off; nil: none
	RunsOn    *RunsOn  // where it stands with its supply going on; nil: none goes on by itself
	// Left is the bound on the energy of a shot from the target pressure, and
	// LeftShot the worst shot of the model from there, times the model factor [J].
	Left, LeftShot float64
	LeftLimit      float64
	Verdicts       []finding.Verdict
	Items          []finding.Item
	Trouble        finding.Text // why nothing could be computed; "" normally
}

// WorstOf gives the case that decides a kind: trapped first, then the slowest.
func (e *Report) WorstOf(kind Kind) *Case {
	var worst *Case
	for i := range e.Cases {
		c := &e.Cases[i]
		if c.Kind != kind {
			continue
		}
		if worst == nil || (c.Trapped && !worst.Trapped) || (c.Trapped == worst.Trapped && c.Slowest > worst.Slowest) {
			worst = c
		}
	}
	return worst
}

// Trapped counts the volumes that are trapped in any case, by name.
func (e *Report) Trapped() (names []string) {
	seen := map[string]bool{}
	for _, c := range e.Cases {
		if c.Trapped && !seen[c.Volume] {
			seen[c.Volume] = true
			names = append(names, c.Volume)
		}
	}
	return names
}

// Drawn are the volumes of the way of emptying that figures show: of the first that has readings, those that start above what counts
// as empty. Empty where none has.
func (e *Report) Drawn() []Case {
	for _, kind := range []Kind{PowerLost, Shutdown} {
		var out []Case
		for _, c := range e.Cases {
			if c.Kind == kind && len(c.Sheet) > 1 && c.Start > e.Target && (len(out) == 0 || out[0].Scenario == c.Scenario) {
				out = append(out, c)
			}
		}
		if len(out) > 0 {
			return out
		}
	}
	return nil
}

// SheetDetail is how much of the readings is computed.
type SheetDetail uint8

// How much.
const (
	ForItems    SheetDetail = iota // what verdicts and checklist need
	FullSheets                     // and the readings to expect, with their band
	SlowEndOnly                    // of all that only what the verdicts need
	ForFaults                      // of that only what single faults need: no shot from what is left
)

// Brief tells that no readings are asked for.
func (d SheetDetail) Brief() bool { return d == SlowEndOnly || d == ForFaults }

// Target is the pressure that counts as empty: as stated, at the low end of its
// tolerance, but never more than DefaultTarget; where none is stated, the smaller of
// DefaultTarget and the pressure whose ceiling equals the limit. A shot from a
// stated target is judged with the vent verdicts.
func Target(l *launcher.Launcher, limit float64) (target float64, why finding.Text) {
	if stated, ok := StatedTarget(l); ok {
		if stated <= DefaultTarget {
			return stated, finding.Words("as stated in the design")
		}
		return DefaultTarget, finding.Words("own rule of this project: the most that counts as empty")
	}
	volume := l.Barrel.DeadVolume.High
	reach := launcher.ReachOf(l)
	for i, on := range reach.Volumes {
		if on {
			volume += l.Volumes[i].Volume.High
		}
	}
	for i, on := range reach.Paths {
		if on {
			volume += l.Paths[i].MostHoseAir()
		}
	}
	tooMuch := func(gauge float64) bool {
		return !(pneumatics.CeilingDose(limit, gauge, l.Ambient.Pressure.Low) >= volume)
	}
	if !tooMuch(DefaultTarget) {
		return DefaultTarget, finding.Say("own rule of this project: %s where the design states none", finding.Bar(DefaultTarget))
	}
	low, _ := halving.Between(0, DefaultTarget, 60, tooMuch)
	return low, finding.Words("the pressure at which all the air left could do no more than the limit of the total energy")
}

// StatedTarget is the low end of the design's own target [Pa gauge].
func StatedTarget(l *launcher.Launcher) (float64, bool) {
	if v := l.Venting; v != nil && v.Target.Set && !v.Target.Assumed {
		return v.Target.Low, true
	}
	return 0, false
}

// targetTooHigh says that the stated target is more than counts as empty.
func targetTooHigh(l *launcher.Launcher, target float64) finding.Text {
	stated, ok := StatedTarget(l)
	if !ok || stated <= target {
		return nil
	}
	return finding.Say("the stated target of %s does not count as empty: at most %s does", finding.Bar(stated), finding.Bar(target))
}

// HighestStart is the sensed pressure from which emptying is judged [Pa gauge]: the
// highest of the ladder, single faults of switch, supply and bleeds included.
func HighestStart(l *launcher.Launcher) (gauge float64, why finding.Text, ok bool) {
	over := l.FaultOvercharge()
	high, normal := l.NormalHigh()
	sealed := l.SealedSoak(high)
	switch {
	case over.Known && (!normal || over.Pressure >= sealed):
		return over.Pressure, over.Why, true
	case normal && sealed > l.Soak(high):
		return sealed, finding.Words("the highest normal pressure, left in the heat with its bleeds blocked"), true
	case normal:
		return sealed, finding.Words("the highest normal pressure, left in the heat"), true
	}
	return 0, launcher.NoHighest(), false
}

// TimeAllowed is the time allowed, at the low end of its tolerance [s]; NaN where the design asks for none.
func TimeAllowed(l *launcher.Launcher) float64 {
	if l.Venting == nil || !l.Venting.Within.Set {
		return math.NaN()
	}
	return l.Venting.Within.Low
}

// Hoses lists the air in the hoses that are longer than 20 of their bores;
// shorter ones are fittings (own rule of this project).
func Hoses(l *launcher.Launcher) []HoseAir {
	var out []HoseAir
	for i := range l.Paths {
		p := &l.Paths[i]
		if p.Hose == nil || p.Hose.Shared || p.Hose.Length.High <= 20*p.Hose.Bore.Low {
			continue
		}
		with := p.From
		if p.Hose.Side == launcher.HoseAfter {
			with = p.To
		}
		if with == "atmosphere" {
			with = ""
		}
		out = append(out, HoseAir{Path: p.Name, Volume: p.MostHoseAir(), With: with})
	}
	return out
}

// StartPressures are the highest pressures of the volumes [Pa gauge].
func StartPressures(l *launcher.Launcher) ([]float64, bool) {
	start, _, ok := HighestStart(l)
	if !ok {
		return nil, false
	}
	return l.HighStart(start), true
}

// LeakTest is the leak-down of one volume as a builder can read it: charged from
// empty until the supply stops by itself, armed, supply off, left alone.
type LeakTest struct {
	Volume           string
	Opens            string  // the path by which it empties in state armed; "": it is sealed
	Low, Start, High float64 // reading at which the supply stops [Pa]: lowest, nominal, highest
	Fill             float64 // time of the fill, expected [s]; NaN: the supply's delivery is not known
	Settled          float64 // by then the cooling is over [s]
	Falls, FallsMost float64 // by cooling alone: expected, after a fill that gave no heat to the walls [Pa]
	Needed           float64 // how long to read to tell tight from leaking [s]; +Inf: its gauge never can; NaN: no gauge on it
	Loses            float64 // the leak that may hide loses so much a minute [Pa]
	// May is how far the reading may fall from Settled to Needed by what this gauge cannot tell and the room does [Pa]: one
	// that loses more than Loses falls further. NaN: no gauge on it.
	May   float64
	Sheet []Reading
}

// RunsOn is where the volumes of a launcher stand that is switched off while its supply
// goes on: a relay is welded, or the stop cuts the valves only. What comes in and what goes
// out by the vents are in balance then.
type RunsOn struct {
	Known bool      // the highest pressures are known
	Rest  []float64 // highest pressure of each volume [Pa gauge]
	// Most is the highest of them [Pa gauge], +Inf where it is not known, Volume the volume
	// that has it.
	Most   float64
	Volume string
	Empty  bool // so little counts as empty
}

// StopwatchTest is the emptying of one volume as a builder can time it: charged
// until the supply stops by itself, armed, then the power is cut. The times of
// Case begin at the pressure of a fault, which nobody should set up.
type StopwatchTest struct {
	Volume           string
	Scenario         string
	Low, Start, High float64 // gauge pressure at the start [Pa]: of the lowest cut-out, the nominal one, the highest
	Trapped          bool
	Slowest          float64 // to the target, at the slow end [s]; +Inf: not within the run
	Rebound          float64 // as in Case [Pa gauge]
	Sheet            []Reading
	Unseen           bool // no gauge shows the volume as it empties (package dial)
}
