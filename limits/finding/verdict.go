package finding

import "math"

// Status is the answer of a verdict.
type Status string

// The five answers. Unknown is not passed; conditional holds only while people do
// what the design declares.
const (
	Pass          Status = "pass"
	Conditional   Status = "conditional"
	Fail          Status = "fail"
	NotApplicable Status = "not applicable"
	Unknown       Status = "unknown"
)

// OpenItem is the answer of a fault that holds only once an item of the checklist
// is confirmed, and is not. No verdict has it.
const OpenItem Status = "open"

// Basis is what a verdict rests on.
type Basis string

// The bases of a verdict: three for energies, four for everything else.
const (
	OnCeiling   Basis = "ceiling"   // the thermodynamic bound
	OnModel     Basis = "model"     // the worst case of the model times its factor
	OnMeasured  Basis = "measured"  // a tolerance bound from measured shots
	OnCircuit   Basis = "circuit"   // computed on the circuit
	OnData      Basis = "data"      // compared with a stated figure
	OnRule      Basis = "rule"      // a rule of a standard or of this project
	OnProcedure Basis = "procedure" // holds only while people do what was declared
)

// Quantity is what a verdict's figures measure; the renderers choose the unit
// shown from it.
type Quantity string

// The quantities of verdicts. The string is the SI unit of Value and Limit.
const (
	InJoule          Quantity = "J"
	InJoulePerArea   Quantity = "J/m2"
	InPascalGauge    Quantity = "Pa" // gauge
	InSecond         Quantity = "s"
	InMetre          Quantity = "m"
	InMetrePerSecond Quantity = "m/s"
	InCount          Quantity = "count"
	NoQuantity       Quantity = ""
)

// Verdict is one judged question. It is plain data: everything a renderer shows
// is in it.
type Verdict struct {
	ID     string // stable identifier, such as "energy.total"
	Title  string // what is asked, in a builder's words
	Status Status

	Value, Limit *float64 // SI, gauge pressures above ambient; nil where there is none
	Unit         Quantity
	Margin       *float64 // (Limit - Value)/Limit, or its negative for lower limits; negative fails [-]

	Basis  Basis
	Source string // document, clause and status of the limit
	Caveat Text   // what the source does not say
	Why    Text   // one sentence: the case that decides, or the missing input, or why not applicable
	Advice Text   // what to change or to measure

	Condition Text     // what people have to do; only of a conditional verdict
	Items     []string // the items of the checklist that stand for it
}

// NewVerdict starts a verdict; judge, unknown or notApplicable ends it.
func NewVerdict(id, title string, unit Quantity) Verdict {
	return Verdict{ID: id, Title: title, Unit: unit, Status: Unknown, Basis: OnCircuit}
}

// Judge compares value with an upper limit.
func (v *Verdict) Judge(value, limit float64) {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		v.Unknown("the value could not be computed")
		return
	}
	margin := 0.0
	if limit != 0 {
		margin = (limit - value) / math.Abs(limit)
	} else if value > 0 {
		margin = -1
	}
	v.Value, v.Limit, v.Margin = &value, &limit, &margin
	v.Status = Pass
	if value > limit {
		v.Status = Fail
	}
}

// JudgeLower compares value with a lower limit.
func (v *Verdict) JudgeLower(value, limit float64) {
	v.Judge(value, limit)
	if v.Margin == nil {
		return
	}
	*v.Margin = 0 - *v.Margin // never the zero with a minus
	v.Status = Pass
	if value < limit {
		v.Status = Fail
	}
}

func (v *Verdict) Unknown(why string) {
	v.Status, v.Why = Unknown, Words(why)
	v.Value, v.Limit, v.Margin = nil, nil, nil
}

func (v *Verdict) NotApplicable(why string) {
	v.Status, v.Why = NotApplicable, Words(why)
	v.Value, v.Limit, v.Margin = nil, nil, nil
}

// Contradicted fails a verdict on a measured figure that the model cannot make.
// Where that figure is within the verdict's own limit, what it is above is shown
// as the limit: no failure stands beside a figure that would pass.
func (v *Verdict) Contradicted(value, allowed float64, text string) {
	limit := allowed
	if v.Limit != nil && value > *v.Limit {
		limit = *v.Limit
	} else if value > 0 {
		v.Caveat = Words("the limit shown is not the rule's: it is the most that the model with its factor, or the air, can do there")
	}
	if value > 0 {
		v.Judge(value, limit)
	}
	v.Status, v.Basis, v.Why = Fail, OnMeasured, Words("The model or an input is wrong: "+text+".")
}
