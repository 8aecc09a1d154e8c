package launcher

import (
	"slices"
	"strings"

	"puffproof/limits/finding"
)

// BenchSpec is the [bench] table: raw readings of tests on the real launcher.
type BenchSpec struct {
	GaugeError Band // of the gauge used for all of them [Pa]
	// ReliefSteady are gauge readings of the supplied volume with the switch
	// bridged, once they no longer rise [Pa gauge].
	ReliefSteady []float64
	CutOuts      []float64 // readings at which the switch stopped the supply [Pa gauge]
	CutIns       []float64 // readings at which it started it [Pa gauge]
	FillVolume   Band      // a known volume [m3], filled
	FillFrom     Band      // from this reading [Pa gauge]
	FillTo       Band      // to this reading [Pa gauge]
	FillTimes    []float64 // in so many seconds [s]
}

// The least numbers of readings (common practice, no source).
const (
	LeastCycles   = 10
	LeastSteady   = 3
	LeastFillings = 3
)

// Replacement is one band that a bench test has replaced.
type Replacement struct {
	Key           string
	Test          string // which test
	Before, After Band
}

// Bench is what the bench tests of a launcher have replaced.
type Bench struct {
	Replaced []Replacement
	Clashes  []Clash        // tests that contradict the design
	Silent   []finding.Text // tests that moved nothing, each in a sentence with its reason
	Before   *Launcher      // without the tests
}

// Clash is a bench test that contradicts the design.
type Clash struct {
	Key          string
	Line         int
	Test         string
	Stated, Read Band
}

// Says tells that one of the two is wrong.
func (c Clash) Says() finding.Text {
	of := func(v float64) finding.Text { return finding.ValueOf(c.Key, v) }
	whose := "the design states"
	if c.Stated.Line == 0 {
		whose = "such parts have"
	}
	return finding.Say("%s: the test (%s) reads %s to %s where %s %s to %s; %s, and until that is "+
		"settled the widest of both is used", finding.Key(c.Key), c.Test, of(c.Read.Low), of(c.Read.High), whose, of(c.Stated.Low),
		of(c.Stated.High), finding.OneIsWrong())
}

// String is what Says tells, in metric units.
func (c Clash) String() string { return c.Says().String() }

// BenchClash is the first test of a launcher's bench that contradicts a key with
// one of the prefixes, and says so; nil: none does.
func (l *Launcher) BenchClash(prefixes ...string) finding.Text {
	if l.Bench == nil {
		return nil
	}
	for _, c := range l.Bench.Clashes {
		if slices.ContainsFunc(prefixes, func(p string) bool { return strings.HasPrefix(c.Key, p) }) {
			return c.Says()
		}
	}
	return nil
}
