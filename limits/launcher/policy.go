package launcher

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
)

// Policy is a set of published energy limits that a design is judged by.
type Policy struct {
	Name           string
	Floor          benchmark.Benchmark // at or below it no energy per area is judged
	TotalResilient benchmark.Benchmark
	TotalRigid     benchmark.Benchmark
	Area           benchmark.Benchmark
	What           string // in one sentence
}

// The names of the policies, as the design file spells them.
const (
	Conservative = "conservative" // the default
	Published    = "published"
)

// Policies lists the policies, the default first.
func Policies() []Policy {
	of := func(name string, area benchmark.BenchmarkID, what string) Policy {
		return Policy{
			Name: name, What: what,
			Floor:          benchmark.BenchmarkOf(benchmark.EnergyFloor),
			TotalResilient: benchmark.BenchmarkOf(benchmark.TotalResilient),
			TotalRigid:     benchmark.BenchmarkOf(benchmark.TotalRigid),
			Area:           benchmark.BenchmarkOf(area),
		}
	}
	return []Policy{
		of(Conservative, benchmark.AreaConservative, "the stricter of the published figures"),
		of(Published, benchmark.AreaPublished, "the energy per area of the current toy standards; the total stays that of the conservative "+
			"policy"),
	}
}

// policyNamed gives the policy of a name; an empty name is the default's. An
// unknown name is an error that lists the known ones.
func policyNamed(name string) (Policy, error) {
	var known []string
	for _, p := range Policies() {
		if p.Name == name || name == "" {
			return p, nil
		}
		known = append(known, fmt.Sprintf("%q", p.Name))
	}
	return Policy{}, fmt.Errorf("no policy is named %q; there are %s", name, strings.Join(known, " and "))
}

// Tip is how a projectile's tip is judged.
type Tip uint8

// The ways to judge a tip. A rigid tip is anything not shown to be resilient.
const (
	RigidTip     Tip = iota // declared rigid, or not declared
	ResilientTip            // declared resilient, with a press test on record
	UnprovedTip             // declared resilient, the press test still to be recorded
)

// String gives the tip's words.
func (t Tip) String() string {
	names := [...]string{"rigid", "resilient", "resilient as declared, press test open"}
	if int(t) < len(names) {
		return names[t]
	}
	return "unknown tip"
}

// TipOf judges the declaration of a tip.
func TipOf(p ProjectileSpec) Tip {
	switch {
	case !p.TipStated || !p.Resilient:
		return RigidTip
	case finding.Proves(finding.ItemTip, p.TipProof) == "":
		return UnprovedTip
	}
	return ResilientTip
}

// EnergyLimit is one limit that a verdict compares with.
type EnergyLimit struct {
	Value  float64 // [J] or [J/m2]
	Unit   finding.Quantity
	Source string
	Caveat finding.Text
	Own    Answer // Yes: the builder's own stricter limit
}

// EnergyLimits are the limits of one design.
type EnergyLimits struct {
	Policy string
	Tip    Tip
	Floor  EnergyLimit // [J]
	Total  EnergyLimit // [J]
	Area   EnergyLimit // [J/m2]
}

// AreaApplies tells whether an energy [J] is judged per contact area: above the
// floor only. An energy that is not a number is judged.
func (l EnergyLimits) AreaApplies(energy float64) bool { return !(energy <= l.Floor.Value) }

// LimitsOf gives the energy limits of a design: its policy's for its tip, or the
// builder's own where they are stricter (the low end of their band counts). An
// own limit looser than the policy's is a *LooseLimit, one not above zero an error, as is an
// unknown policy; all of them are reported at once. Of a tip that a press test may still prove, the
// own total may be up to what it would have then; until then the policy's stays.
func LimitsOf(spec LimitsSpec, p ProjectileSpec) (EnergyLimits, error) {
	policy, err := policyNamed(spec.Policy)
	if err != nil {
		return EnergyLimits{}, err
	}
	tip := TipOf(p)
	total := policy.TotalRigid
	if tip == ResilientTip {
		total = policy.TotalResilient
	}
	limits := EnergyLimits{
		Policy: policy.Name,
		Tip:    tip,
		Floor:  limitFrom(policy.Floor, finding.InJoule),
		Total:  limitFrom(total, finding.InJoule),
		Area:   limitFrom(policy.Area, finding.InJoulePerArea),
	}
	switch {
	case tip == UnprovedTip:
		limits.Total.Caveat = limits.Total.Caveat.Say("; the tip is declared resilient but not proved, so it counts as rigid: with a press "+
			"test on record (projectile.tip_proof, or the checklist) %g J applies", policy.TotalResilient.Value)
	case tip == RigidTip && !p.TipStated:
		limits.Total.Caveat = limits.Total.Caveat.And(finding.Words("; no tip is declared, so it counts as rigid"))
	}
	most := limits.Total.Value
	if tip == UnprovedTip {
		most = policy.TotalResilient.Value
	}
	err = errors.Join(
		limits.Total.stricter(spec.TotalEnergy, most, policy.Name),
		limits.Area.stricter(spec.AreaEnergy, limits.Area.Value, policy.Name),
	)
	if err != nil {
		return EnergyLimits{}, err
	}
	return limits, nil
}

func limitFrom(b benchmark.Benchmark, unit finding.Quantity) EnergyLimit {
	return EnergyLimit{Value: b.Value, Unit: unit, Source: b.Source(), Caveat: finding.Words(b.Caveat), Own: No}
}

// LooseLimit is an own limit above the most that its policy allows the tip [J] or [J/m2].
type LooseLimit struct {
	Key       string
	Own, Most float64
	Unit      finding.Quantity
	Policy    string
}

// Error says what is allowed.
func (e *LooseLimit) Error() string {
	return fmt.Sprintf("%s is %g %s, looser than the %g %s of the policy %q for this tip; state at most that, or leave it out",
		e.Key, e.Own, e.Unit, e.Most, e.Unit, e.Policy)
}

// LooseLimits are the own limits that LimitsOf refuses as too loose.
func LooseLimits(spec LimitsSpec, p ProjectileSpec) (all []*LooseLimit) {
	_, err := LimitsOf(spec, p)
	if several, is := err.(interface{ Unwrap() []error }); is {
		for _, one := range several.Unwrap() {
			if loose := (*LooseLimit)(nil); errors.As(one, &loose) {
				all = append(all, loose)
			}
		}
	}
	return all
}

// stricter takes the builder's own limit, at most most, in place of the policy's.
func (l *EnergyLimit) stricter(own Band, most float64, policy string) error {
	switch {
	case !own.Set:
		return nil
	case !(own.Low > 0):
		return fmt.Errorf("%s is %g %s; a limit must be above zero", own.Key, own.Low, l.Unit)
	case own.Nominal > most:
		return &LooseLimit{own.Key, own.Nominal, most, l.Unit, policy}
	case own.Low > l.Value:
		return nil
	}
	l.Caveat = finding.Say("stricter than the %g %s of the policy %q; %s", l.Value, l.Unit, policy, l.Caveat)
	l.Source = "the builder's own limit, " + own.Key + "; the policy's: " + l.Source
	l.Value = own.Low
	l.Own = Yes
	return nil
}

// A press test was one where the tip was pressed [N] and gave way [m] at all: the least that a kitchen scale and a ruler tell (common
// practice, no source).
const (
	pressed   = 0.1
	flattened = 0.5e-3
)

// TipItem is the checklist item of a tip that is declared resilient; false for a
// tip that counts as rigid. It comes without a confirmation.
func TipItem(p ProjectileSpec, ambient AmbientSpec) (finding.Item, bool) {
	if TipOf(p) == RigidTip {
		return finding.Item{}, false
	}
	whole := math.Inf(1) // a tip does not flatten by more than the projectile is across
	if p.Diameter.Set {
		whole = p.Diameter.High
	}
	it := finding.Item{
		ID:    finding.ItemTip,
		Title: finding.Words("Press test of the tip"),
		Why: finding.Words("The word resilient raises the energy limit from 0.08 J to 0.5 J. Whatever is taped, painted, hard-skinned or " +
			"frozen is rigid."),
		How: finding.Words("Press the tip flat on a kitchen scale, dry, wet and at the coldest temperature of the event; write down force and " +
			"flattening, and keep a photograph. A thumb alone is no evidence."),
		Expect: finding.Words("The tip flattens over its whole contact print, nothing hard is felt under it, and it takes its shape again; " +
			"in all three states."),
		Figure: &finding.Expected{Unit: finding.InNewton, Low: pressed, High: math.Inf(1), Least: 3, States: []string{"dry", "wet", "cold"},
			With: finding.FigureBetween(finding.InMetre, flattened, whole)},
		Verdict: finding.EnergyTotal,
		Source:  "own rule of this project; no published figure is used",
	}
	if c := ambient.Coldest; c.Set && !c.Assumed {
		it.Expect = it.Expect.Say(" Cold is %s or less.", finding.Celsius.Of(c.High, 3))
		it.Asks = []finding.Asked{finding.ColdState(c.High)}
	}
	return it, true
}

// EnergyLimits are the limits of the design; a press test on its checklist proves
// the tip. day is as of Answered.
func (l *Launcher) EnergyLimits(day string) (EnergyLimits, error) {
	p := l.Projectile
	if finding.Ahead(p.TipProof, day) != "" {
		p.TipProof = "" // a press test that is still to come proves nothing
	}
	if l.pressed(p, day) && strings.TrimSpace(p.TipProof) == "" {
		p.TipProof = "checklist"
	}
	return LimitsOf(l.Limits, p)
}

// pressed tells whether the press test of the checklist proves a tip: it took up at least the energy that a rigid one may have, before
// anything hard was felt. One that did less raises no limit above that.
func (l *Launcher) pressed(p ProjectileSpec, day string) bool {
	test, is := TipItem(p, l.Ambient)
	if !is {
		return false
	}
	if policy, err := policyNamed(l.Limits.Policy); err == nil {
		test.Figure.Work = policy.TotalRigid.Value
	}
	return l.AnswerOf(test, day).Done != nil
}

// Allowed is the largest energy [J] that passes both energy limits: the total,
// and per contact area where the energy is above the floor.
func (l EnergyLimits) Allowed(contact Band) (energy float64, why string) {
	byArea := 0.0
	if contact.Set {
		byArea = l.Area.Value * Circle(contact.Low)
	}
	switch area := max(l.Floor.Value, byArea); {
	case area >= l.Total.Value:
		return l.Total.Value, finding.EnergyTotal
	case !contact.Set:
		return area, "the floor below which no energy per area is judged: projectile.contact_diameter is not stated"
	default:
		return area, finding.EnergyArea
	}
}
