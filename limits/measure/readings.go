package measure

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
	Mass        float64 // of that projectile, as it was weighed [kg]; 0: not said on this line
	Temperature float64 // of the air [K]; 0: not said
	Date        string  // of the day, an ISO date; "" not said
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
	Date     string  // of the day, an ISO date; "" not said
	Gauge    float64 // ClickToPop: start pressure; Emptying: at first [Pa gauge]
	GaugeEnd float64 // Emptying: at last [Pa gauge]
	Time     float64 // ClickToPop, Sink, Emptying [s]
	Height   float64 // UTube: difference of the water levels [m]
	Mass     float64 // Coins: rod and coins [kg]
	Angle    float64 // Slope [rad]
	Distance float64 // Sink [m]
	Path     string  // Emptying: the open path
	// TimeError is how far off an Emptying's time may be [s]; 0: it was stopped by hand.
	TimeError float64
}

// ShotLog is what a builder wrote down.
type ShotLog struct {
	Name  string // of the file
	Shots []Shot
	Bench []BenchReading
}
