package launcher

import "puffproof/limits/finding"

// Origin is how a quantity is known.
type Origin uint8

// How a quantity can be known.
const (
	Unstated Origin = iota
	Measured
	Datasheet
	Label
	Estimated
	Declared // promised: nobody has shown it yet
	Template // of a file to start from: of nobody's launcher
)

var originNames = [...]string{"unstated", "measured", "datasheet", "label", "estimated", "declared", "template"}

// String gives the origin's word as the design file spells it.
func (o Origin) String() string {
	if int(o) < len(originNames) {
		return originNames[o]
	}
	return "unstated"
}

// Band is one uncertain quantity in SI units: its nominal value and the ends of its tolerance. Low <= Nominal <= High.
type Band struct {
	Set                bool // false: the design does not have this quantity
	Nominal, Low, High float64
	Key                string // dotted key of the design file, such as "barrel.bore"
	Origin             Origin
	// Assumed is true where the design stated no tolerance, or no value at all,
	// and the band is the default of its key. Reason then says which rule.
	Assumed bool
	Reason  finding.Text
	Line    int // line of the design file; 0 where the value itself is assumed
}

// Exact is a band without width.
func Exact(key string, v float64) Band { return Band{Set: true, Nominal: v, Low: v, High: v, Key: key} }

// Width is High - Low.
func (b Band) Width() float64 { return b.High - b.Low }

// or is the nominal value of a band, or another where it is not set.
func (b Band) or(v float64) float64 {
	if b.Set {
		return b.Nominal
	}
	return v
}

// Lerp gives the value at a fraction u of the band, 0 at Low and 1 at High.
func (b Band) Lerp(u float64) float64 { return b.Low + u*(b.High-b.Low) }
