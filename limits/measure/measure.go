package measure

import (
	"context"
	"math"
	"slices"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// Method is a way to measure a speed.
type Method uint8

// The ways to measure a speed with what a builder has.
const (
	NoMethod       Method = iota
	Chronograph           // a speed, read at a distance from the muzzle
	Video                 // frames between two marks
	HorizontalShot        // the distance at which a level shot first hits the ground
	UpwardTime            // the time from a shot straight up until it is down again
	UpwardHeight          // the height of a shot straight up, against a marked pole
	SoundToBoard          // the time between the sounds of muzzle and board
)

// String names the method as the screens do.
func (m Method) String() string {
	return [...]string{"none", "chronograph", "video", "horizontal shot", "straight up, timed", "straight up, height", "sound to a board"}[m]
}

// Microphone is where the sound was recorded.
type Microphone uint8

const (
	AtMuzzle Microphone = iota
	AtBoard
)

// Shot is one line of a shots file in SI units. Readings that its method does
// not use are zero.
type Shot struct {
	Line        int     // of the file
	Gauge       float64 // of the sensed volume [Pa gauge]
	Projectile  string  // which of the projectiles; "" not said
	Temperature float64 // of the air [K]; 0: not said
	Method      Method

	Speed      float64    // read off a chronograph [m/s]
	SpeedError float64    // its stated relative error [-]; 0: DefaultSpeedError
	Distance   float64    // from the muzzle to the chronograph or the board, or to the first impact [m]
	Frames     float64    // intervals between two pictures [-]
	FrameError float64    // error of the first picture's time [frames]; 0: half a frame
	FrameRate  float64    // at which the pictures were taken [1/s]
	Start      float64    // from the muzzle to where the frames begin to count [m]
	Span       float64    // travelled in those frames [m]
	Height     float64    // of the muzzle above the ground, or reached above the muzzle [m]
	Interval   float64    // return time, or between two sounds [s]
	Microphone Microphone // where the sounds were recorded

	Misfire bool
	Note    string
}

// BenchKind is a test that measures one quantity of the launcher.
type BenchKind uint8

const (
	ClickToPop BenchKind = iota // a shot's sound: opening time
	UTube                       // water column that moves the projectile: breakaway force
	Coins                       // weight that moves it, tube upright: breakaway force
	Slope                       // tilt at which it slides on: sliding force
	Sink                        // breech corked, tube upright: time to sink, the leak
	Emptying                    // a vessel through an open path: its flow
)

// String names the test as the screens do.
func (k BenchKind) String() string {
	return [...]string{"click to pop", "U-tube", "coins", "slope", "sink", "emptying tank"}[k]
}

// BenchReading is one reading of a bench test in SI units.
type BenchReading struct {
	Line     int
	Kind     BenchKind
	Gauge    float64 // ClickToPop: start pressure; Emptying: at first [Pa gauge]
	GaugeEnd float64 // Emptying: at last [Pa gauge]
	Time     float64 // ClickToPop, Sink, Emptying [s]
	Height   float64 // UTube: difference of the water levels [m]
	Mass     float64 // Coins: rod and coins [kg]
	Angle    float64 // Slope [rad]
	Distance float64 // Sink [m]
	Path     string  // Emptying: the open path
}

// ShotLog is what a builder wrote down.
type ShotLog struct {
	Name  string // of the file
	Shots []Shot
	Bench []BenchReading
}

// Remark is something about a line of the log that a person should look at.
// Nothing is ever left out because of it.
type Remark struct {
	Line   int // 0: the whole file
	Text   finding.Text
	Severe bool // the figure cannot be what it says: the file is refused
}

// in words a remark with its place in a file.
func (r Remark) in(file string) finding.Text {
	if r.Line == 0 {
		return finding.Say("%s: %s", file, r.Text)
	}
	return finding.Say("%s, line %d: %s", file, r.Line, r.Text)
}

// Findings is what the measurements say, as plain data.
type Findings struct {
	Log      string
	Shots    []ShotSpeed
	Groups   []SpeedGroup // by rising pressure
	Bench    []BenchValue
	Fit      *Fit // nil: no shot to fit to
	Narrowed []Narrowing
	Remarks  []Remark
	Wrong    *Contradiction   // shots that the model cannot make; nil: none
	Clashes  []launcher.Clash // bench tests that contradict the design
}

// Agrees tells whether the model holds against everything in the log: the shots
// count, the fit is credible, nothing contradicts it.
func (e *Findings) Agrees() bool {
	return e.Best() != nil && e.Fit != nil && e.Fit.Credible && e.Wrong == nil && len(e.Clashes) == 0
}

// Narrowing is one band that a measurement replaced.
type Narrowing struct {
	Was, Now launcher.Band
	How      finding.Text
	Widened  bool // Now is the union of what was stated and what was read
}

// Severe lists the remarks that refuse the file.
func (e *Findings) Severe() []Remark {
	var out []Remark
	for _, r := range e.Remarks {
		if r.Severe {
			out = append(out, r)
		}
	}
	return out
}

// Best is the group of shots that the energy verdicts use: of the admissible
// ones that at the highest pressure; nil: none.
func (e *Findings) Best() *SpeedGroup {
	for i := len(e.Groups) - 1; i >= 0; i-- {
		if e.Groups[i].Admissible() {
			return &e.Groups[i]
		}
	}
	return nil
}

// Narrow gives a copy of the launcher with the measured bands in place of the
// stated or assumed ones.
func (e *Findings) Narrow(l *launcher.Launcher) *launcher.Launcher {
	c := l.Clone()
	for _, n := range e.Narrowed {
		replaceBand(c, n)
	}
	return c
}

// Evaluate draws everything from a log: speeds, bounds, bench values, the fit. A
// fit narrows bands only where the model is credible, a group of shots counts and
// no reading is in doubt.
// The error is the context's.
func Evaluate(ctx context.Context, l *launcher.Launcher, log *ShotLog) (*Findings, error) {
	e, err := measure(ctx, l, log)
	if err != nil || len(e.Severe()) > 0 {
		return e, err
	}
	e.Wrong, err = contradiction(ctx, l, e.Groups)
	return e, err
}

// measure is Evaluate without the search for contradictions.
func measure(ctx context.Context, l *launcher.Launcher, log *ShotLog) (*Findings, error) {
	e := &Findings{Log: log.Name}
	for i := range log.Shots {
		e.Shots = append(e.Shots, SpeedOf(l, &log.Shots[i]))
	}
	e.Groups = speedGroups(l, e.Shots)
	e.Bench = BenchValues(l, log.Bench)
	for i := range e.Bench {
		if len(e.Bench[i].Trouble) == 0 {
			e.UseBench(l, &e.Bench[i])
		}
	}
	e.Remarks = plausible(l, e, log)
	if len(e.Severe()) > 0 {
		return e, nil
	}
	var err error
	if e.Fit, err = fit(ctx, e.Narrow(l), e.Shots, e.Groups); err != nil {
		return nil, err
	}
	doubted := slices.ContainsFunc(e.Groups, func(g SpeedGroup) bool { return g.Doubted })
	if e.Fit != nil && e.Fit.Credible && e.Best() != nil && !doubted && len(e.Clashes) == 0 {
		for i := range e.Fit.Parameters {
			if p := &e.Fit.Parameters[i]; p.Learned {
				e.useFit(l, p)
			}
		}
	}
	return e, nil
}

// narrow enters a band that replaces the launcher's, once per key: a fit, which has used
// the bench value, goes before it.
func (e *Findings) narrow(l *launcher.Launcher, now launcher.Band, how finding.Text, m launcher.Meeting) {
	n := Narrowing{Was: standing(l, now.Key), Now: now, How: how, Widened: m == launcher.Clashes}
	for i := range e.Narrowed {
		if e.Narrowed[i].Now.Key == now.Key {
			e.Narrowed[i] = n
			return
		}
	}
	e.Narrowed = append(e.Narrowed, n)
}

// The keys that measurements can replace, beside the flow of a path.
const (
	KeyBreakaway = "projectile.breakaway_force"
	KeySliding   = "projectile.sliding_force"
	keyClearance = "projectile.clearance"
)

// bandOf gives the band of a key that measurements can replace; nil: none.
func bandOf(l *launcher.Launcher, key string) *launcher.Band {
	switch key {
	case KeyBreakaway:
		return &l.Projectile.Breakaway
	case KeySliding:
		return &l.Projectile.Sliding
	case keyClearance:
		return &l.Projectile.Clearance
	}
	for i := range l.Paths {
		p := &l.Paths[i]
		if p.OpeningTime.Key == key {
			return &p.OpeningTime
		}
		if knob, _ := flowKnob(&p.Flow); knob != nil && knob.Key == key {
			return knob
		}
	}
	return nil
}

// flowKnob is the band that stands for how much a path really lets through, and the
// band that shares the product with it: where the flow was measured the second
// keeps its nominal value, for it is inside the measured one.
func flowKnob(f *launcher.FlowSpec) (knob, companion *launcher.Band) {
	switch f.Form {
	case launcher.OrificeBore, launcher.SeatBore:
		return &f.DischargeCoefficient, &f.Value
	case launcher.FlowCv, launcher.FlowKv:
		return &f.Value, &f.PressureDropRatio
	case launcher.SonicConductance, launcher.NominalFlow:
		return &f.Value, nil
	}
	return nil, nil
}

// replaceBand puts a measured band into the launcher.
func replaceBand(l *launcher.Launcher, n Narrowing) {
	now := n.Now
	b := bandOf(l, now.Key)
	if b == nil {
		panic("limits: no band " + now.Key)
	}
	*b = now
	for i := range l.Paths {
		// Only a measured flow holds its companion inside; a union with the design does not.
		if knob, companion := flowKnob(&l.Paths[i].Flow); knob == b && companion != nil && !n.Widened {
			companion.Low, companion.High = companion.Nominal, companion.Nominal
		}
	}
	if now.Key == KeyBreakaway {
		// Without a restart force of its own the projectile restarts at the breakaway.
		if r := &l.Projectile.Restart; r.Set && r.Assumed {
			r.Low, r.Nominal, r.High = now.Low, now.Nominal, now.High
		}
	}
}

// MeasuredBand makes a band of a measurement, cut to what a quantity can be.
func MeasuredBand(key string, low, nominal, high float64, how finding.Text) launcher.Band {
	low, nominal, high = math.Max(0, low), math.Max(0, nominal), math.Max(0, high)
	return launcher.Band{Set: true, Key: key, Low: low, Nominal: nominal, High: high, Origin: launcher.Measured, Reason: how}
}
