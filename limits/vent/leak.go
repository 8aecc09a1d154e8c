package vent

import (
	"math"
	"strings"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// LeakStatus is what a leak-down log says about a sealed, charged launcher.
type LeakStatus string

// The answers to a leak-down log. Only the first is good.
const (
	LeakTight        LeakStatus = finding.Tight // no leak beyond what the gauge could have shown
	LeakLeaks        LeakStatus = "leaks"
	LeakCannotTell   LeakStatus = "cannot tell"
	LeakInconsistent LeakStatus = "inconsistent"
)

// LeakAnswer is the judgement of a leak-down log.
type LeakAnswer struct {
	Name   string
	Status LeakStatus
	Volume string
	Says   finding.Text // in a sentence
	Runs   int
	Count  int // readings used
	Hidden int // readings left out because the gauge's stop pin hides them

	Start    float64 // highest first reading [Pa gauge]
	End      float64 // lowest last reading [Pa gauge]
	Length   float64 // of the shortest run [s]
	Resolves float64 // error of a reading [Pa]: half a division
	Drift    float64 // what a change of the room's temperature by RoomDrift does to the reading [Pa]
	Settled  float64 // the cooling after the fill is over by then, seen by this gauge [s]
	Cooling  float64 // the most that a reading may fall by cooling alone [Pa]
	Needed   float64 // how long to read so that tight can be told from leaking [s]; +Inf: this gauge never can

	Least, Bore, Most LeakSize // least leak that agrees with the readings, the likeliest, the most that could hide; Area NaN: not fitted
	RMS               float64  // of the readings about the fitted course [Pa]; NaN: not fitted
	Restart           float64  // time from the cut-out to the cut-in with that leak [s]; +Inf: more than a day; NaN: no switch on the volume
	Past              []LeakPast
}

// LeakSize is one leak as an ideal nozzle to the atmosphere.
type LeakSize struct {
	Area   float64 // effective area, discharge coefficient 1 [m2]
	Minute float64 // fall of the reading in the first minute, cold gas [Pa]
	Air    float64 // free air it lets out at the start [m3/s]
}

// Bore is the diameter of a leak [m].
func (s LeakSize) Bore() float64 { return launcher.Across(s.Area) }

// LeakPast is where a leak may go, and what it does there.
type LeakPast struct {
	Path string
	To   string
	// Fills is the time in which the likeliest leak, or the most that could hide,
	// fills what lies behind to Hold [s]; NaN: not the barrel.
	Fills float64
	Hold  float64 // the least pressure that moves a projectile which is held as stated [Pa gauge]
}

// Bounds of the judgement of a leak-down log, own rules of this project.
const (
	RoomDrift   = 1.0  // [K] a room may change while a log is read
	tightLoss   = 0.01 // of the reading in a minute: no greater leak may hide in a log that is called tight
	leastLate   = 4    // readings after the cooling
	leastLeaks  = 5    // readings of a run
	divisions   = 50   // of a gauge whose graduation is not stated (common practice, no source)
	slowestHeat = 0.5  // share of the natural convection at the walls that counts as possible
	leakMisfit  = 0.05 // RMS over the span above which no leak fits
	longestRead = 3600 // [s] nobody reads a gauge for longer
	longestLog  = 7200 // [s] a room keeps within RoomDrift for so long at most
)

// unseen names the volumes that are not joined to the one that is read.
func (m *LeakModel) unseen() string {
	var names []string
	for i, on := range m.joined {
		if !on {
			names = append(names, m.c.Volumes[i].Name)
		}
	}
	return strings.Join(names, ", ")
}

// LogVolume is the volume that a log is of: as it says, else the first gauge's.
func LogVolume(l *launcher.Launcher, log Log) string {
	switch {
	case log.Volume != "":
		return log.Volume
	case len(l.Gauges) > 0:
		return l.Gauges[0].On
	}
	return l.Sensed()
}

// readingError is what a reading of the gauge on a volume may be off beside the
// gauge's zero [Pa], half a division, and what a stop pin hides [Pa gauge]; not ok:
// no gauge is stated on it.
func readingError(l *launcher.Launcher, volume string) (size, hides float64, ok bool) {
	hides = math.Inf(-1)
	for i := range l.Gauges {
		g := &l.Gauges[i]
		if g.On != volume || !g.Range.Set {
			continue
		}
		size = g.Range.High / divisions / 2
		if g.Graduation.Set {
			size = g.Graduation.Nominal / 2
		}
		if g.StopPin != launcher.No {
			hides = launcher.StopPinShare * g.Range.High
		}
		return size, hides, true
	}
	return 0, hides, false
}

// boreOf is a leak as a figure of a text: the bore of an ideal nozzle.
func boreOf(s LeakSize) finding.Shown { return finding.Millimetre(s.Bore()).With(2) }

// Minutes is a time to wait or to read for [s], rounded up to whole minutes, or to
// whole seconds below two minutes.
func Minutes(t float64) finding.Shown {
	whole := finding.Shown{Value: math.Ceil(t), Unit: finding.Seconds, Rounding: finding.Decimals}
	if t < 120 {
		return whole
	}
	whole.Value, whole.Unit = 60*math.Ceil(t/60), finding.Minutes
	return whole
}

// leakNeeded is how long a log must be before tight can be told from leaking [s],
// in whole minutes; +Inf: longer than anybody reads. After the cooling, a leak that
// loses tightLoss of the start pressure [Pa gauge] a minute must have taken the
// reading further than errors of a reading and the room's drift can hide [Pa]; a
// fifth more for readings that are missing.
func leakNeeded(settled, resolves, drift, start float64) float64 {
	t := settled + 1.2*mayFall(resolves, drift)/(tightLoss*start)*60
	if t = 60 * math.Ceil(t/60); t > longestRead {
		return math.Inf(1)
	}
	return t
}

// mayFall is how far a reading may fall that does not tell a leak [Pa], by errors of a reading and the room's drift [Pa].
func mayFall(resolves, drift float64) float64 { return hidingFall*resolves + drift }

// hidingFall is the fall that readings cannot tell from none, in errors of one
// reading: a straight fall by D leaves an RMS of D/sqrt(12) about its mean, an error
// evenly spread up to e one of e/sqrt(3); 1.3 for noise, as in agrees.
const hidingFall = 1.3 * 2
