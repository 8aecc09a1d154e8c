package finding

import "math"

// Status is the answer of a verdict.
type Status string

// The five answers. Unknown is not passed, and conditional is what would fail if people
// did not keep what the design declares.
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
	InNewton         Quantity = "N"
	InRadian         Quantity = "rad"
	InAmpere         Quantity = "A"
	InSquareMetre    Quantity = "m2"
	OnScale          Quantity = "mass"  // as a kitchen scale shows it [kg]
	InDecibel        Quantity = "dB(C)" // peak, re 20 uPa
	InOtherDecibel   Quantity = "dB(A)" // weighted otherwise than a peak is: nothing is compared with it
	InKelvin         Quantity = "K"
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
	// Margin is (Limit - Value)/Limit, or its negative for lower limits [-]. Negative is a
	// failure, or what a condition holds back.
	Margin  *float64
	AtLeast bool // the limit is one to stay above

	Basis  Basis
	Source string // document, clause and status of the limit
	Caveat Text   // what the source does not say
	Why    Text   // one sentence: the case that decides, or the missing input, or why not applicable
	Advice Text   // what to change or to measure
	Brief  Text   // the first of the advice in a few words, where it has several; "" it has not

	// Of a conditional verdict: what people must keep, and the ids of the items of the
	// checklist that it rests on.
	Condition Text
	Items     []string
}

// NewVerdict starts a verdict. Judge, JudgeLower, Unknown or NotApplicable ends it.
func NewVerdict(id, title string, unit Quantity) Verdict {
	return Verdict{ID: id, Title: title, Unit: unit, Status: Unknown, Basis: OnCircuit}
}

// Judge compares value with an upper limit.
func (v *Verdict) Judge(value, limit float64) {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		v.Unknown(Words("the value could not be computed"))
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
	v.AtLeast = true
	if v.Margin == nil {
		return
	}
	*v.Margin = 0 - *v.Margin // never the zero with a minus
	v.Status = Pass
	if value < limit {
		v.Status = Fail
	}
}

// HoldsWhile makes a judged verdict conditional on what people must keep; value, limit
// and margin stay. The items of the checklist are those that it rests on.
func (v *Verdict) HoldsWhile(condition Text, items ...string) {
	v.Status, v.Basis = Conditional, OnProcedure
	v.Condition, v.Items = condition, items
}

// Holds tells that it passes, or does while its conditions are kept.
func (v *Verdict) Holds() bool { return v.Status == Pass || v.Status == Conditional }

// Unknown ends a verdict that cannot be given, and says why.
func (v *Verdict) Unknown(why Text) { v.without(Unknown, why) }

// UnknownFor is Unknown where there is a reason, and tells whether there is.
func (v *Verdict) UnknownFor(why Text) bool {
	if len(why) == 0 {
		return false
	}
	v.Unknown(why)
	return true
}

// Mend says what to change where the verdict fails.
func (v *Verdict) Mend(advice string) {
	if v.Status == Fail {
		v.Advice = Words(advice)
	}
}

// NotApplicable ends a verdict whose question does not arise, and says why.
func (v *Verdict) NotApplicable(why Text) { v.without(NotApplicable, why) }

// without gives an answer that has no figures and no condition.
func (v *Verdict) without(st Status, why Text) {
	v.Status, v.Why = st, why
	v.Value, v.Limit, v.Margin, v.Condition, v.Items = nil, nil, nil, nil, nil
}

// Contradicted fails a verdict on a measured figure that the model cannot make.
// Where that figure is within the verdict's own limit, what it is above is shown
// as the limit: no failure stands beside a figure that would pass. What fails by a larger
// figure keeps it.
func (v *Verdict) Contradicted(value, allowed float64, text Text) {
	limit, fails := allowed, v.Value != nil && v.Limit != nil && *v.Value > *v.Limit
	if v.Limit != nil && value > *v.Limit {
		limit = *v.Limit
	} else if value > 0 && !fails {
		v.Caveat = Words("the limit shown is not the rule's: it is the most that the model with its factor, or the air, can do there")
	}
	if value > 0 && !(fails && *v.Value >= value) {
		v.Judge(value, limit)
	}
	v.Status, v.Basis, v.Why = Fail, OnMeasured, Say("The model or an input is wrong: %s.", text)
}
