package show

import (
	"puffproof/limits/budget"
	"puffproof/limits/explain"
	"puffproof/limits/finding"
)

// Explained is one verdict or one item of the checklist, and what a design makes of it.
type Explained struct {
	ID      string
	Verdict *explain.Explanation // nil: it is an item
	Design  *DesignID            // nil: no design is asked
	Answer  *finding.Verdict     // of the design; nil: the question does not arise there
	Budget  *budget.Report       // of the energy, where the verdict is on that; nil: not asked
	Items   []finding.Item       // of the checklist that the answer rests on, or the item itself; none: the design does not have it
}

// KeyDifference is a key that two design files do not write alike; nil: it does not stand there.
type KeyDifference struct {
	Key  string
	A, B *string
}

// Declarations says whether the file that is written has them.
type Declarations uint8

// With and without.
const (
	WithoutDeclarations Declarations = iota
	WithDeclarations
)

// GaugeMap are the pressures of volumes by name [Pa gauge].
func GaugeMap(list []NodeGauge) map[string]float64 {
	m := make(map[string]float64, len(list))
	for _, g := range list {
		m[g.Name] = g.Gauge
	}
	return m
}
