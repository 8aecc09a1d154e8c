package limits

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/verdict"
)

// Cause is what several verdicts that fail or are unknown have in common, told once.
type Cause struct {
	What     finding.Text // the cause, in one sentence without its full stop
	Do       finding.Text // the step that takes it away
	Step     finding.Text // the same in a few words, without its full stop
	Verdicts []string     // identifiers of those that it blocks, in the report's order
	Lies     Lies         // where it lies
}

// Lies is where a cause lies.
type Lies uint8

const (
	Elsewhere  Lies = iota // in a key that is missing, in figures that are not the builder's, in what contradicts
	OfVerdict              // in what one verdict is about, whose advice it repeats
	NoDose                 // in a whole tank behind the firing valve
	TipUnknown             // in a tip that is not shown to be soft
	NoWayOut               // in air that has no open way out
)

// Missing tells that the cause is a key that is not stated.
func (c *Cause) Missing() bool { return strings.HasPrefix(c.Do.String(), missingDo) }

// missingDo begins what to do about one.
const missingDo = "State "

// Readvise takes over what the verdicts advise by now.
func (r *Report) Readvise() {
	for i := range r.Causes {
		if c := &r.Causes[i]; c.Lies == OfVerdict {
			v, _ := r.Verdict(c.Verdicts[0])
			c.Do, c.Step = v.Advice, stepOf(v)
		}
	}
}

// MostSteps is how many causes are told as what to do first.
const MostSteps = 3

// DoFirst are at most three causes, that which blocks most first; where they were tried in turn, those that are needed and spoil nothing.
func (r *Report) DoFirst() []Cause {
	if r.InTurn != nil {
		return r.InTurn
	}
	return r.Causes[:min(MostSteps, len(r.Causes))]
}

// causesOf groups the verdicts that fail or are unknown by what they have in common. Each
// counts for the first cause that has it; a key that is missing for every one that names it.
func causesOf(a *assessment.Assessment, verdicts []finding.Verdict) []Cause {
	var open []finding.Verdict
	for _, v := range verdicts {
		if v.Status == finding.Fail || v.Status == finding.Unknown {
			open = append(open, v)
		}
	}
	causes := missingKeys(open)
	taken := map[string]bool{}
	if m := a.Measured; m != nil && m.Contradicted != nil {
		causes = append(causes, disprovedCause(open, taken, m.Contradicted.Text))
	}
	for _, c := range built(a) {
		for _, v := range open {
			if v.Status == finding.Fail && !taken[v.ID] && slices.Contains(c.Verdicts, v.ID) && !slow(v) {
				taken[v.ID] = true
			} else {
				c.Verdicts = slices.DeleteFunc(c.Verdicts, func(id string) bool { return id == v.ID })
			}
		}
		c.Verdicts = slices.DeleteFunc(c.Verdicts, func(id string) bool { return !taken[id] })
		if len(c.Verdicts) > 0 {
			causes = append(causes, c)
		}
	}
	for _, v := range open {
		if v.ID == finding.DesignTemplate {
			causes = append(causes, templateCause(len(a.Stated.Template)))
		}
		if v.Status == finding.Fail && !taken[v.ID] {
			causes = append(causes, Cause{What: finding.Words(v.Title), Do: v.Advice, Step: stepOf(v), Verdicts: []string{v.ID}, Lies: OfVerdict})
		}
	}
	slices.SortStableFunc(causes, func(a, b Cause) int { return weight(b) - weight(a) })
	return causes
}

// disprovedCause is that measured shots are harder than the model can make them.
func disprovedCause(open []finding.Verdict, taken map[string]bool, says finding.Text) Cause {
	c := Cause{What: finding.Say("The model or an input is wrong: %s", says), Step: finding.Words("Find out why a measured shot is harder " +
		"than the model allows: puffproof calibrate"),
		Do: finding.Words("Weigh the projectile, check gauge and distances, measure the valve; puffproof calibrate shows what does not fit.")}
	for _, v := range open {
		if verdict.RestsOnShots(v.ID) {
			taken[v.ID] = true
			c.Verdicts = append(c.Verdicts, v.ID)
		}
	}
	return c
}

// weight is how much a cause blocks: figures of another launcher make every answer one about that.
func weight(c Cause) int {
	if slices.Contains(c.Verdicts, finding.DesignTemplate) {
		return math.MaxInt
	}
	return len(c.Verdicts)
}

// templateCause is that figures are still the template's.
func templateCause(n int) Cause {
	few := fmt.Sprintf("%d figures that are", n)
	if n == 1 {
		few = "the figure that is"
	}
	return Cause{Verdicts: []string{finding.DesignTemplate}, What: finding.Words("Figures of the template are in the design: " +
		"not your launcher"),
		Do:   finding.Words("Replace each of them by your own, or write \"?\" where you do not know it."),
		Step: finding.Words("Replace " + few + " still the template's by your own")}
}

// slow tells that it empties, but not in time: it does not lack a way out.
func slow(v finding.Verdict) bool {
	return v.Value != nil && (v.ID == finding.VentShutdown || v.ID == finding.VentPowerLoss)
}

// stepOf is the advice of a verdict behind what the verdict is about, of several pieces the first.
func stepOf(v finding.Verdict) finding.Text {
	switch {
	case len(v.Advice) == 0:
		return finding.Words(v.Title)
	case len(v.Brief) > 0:
		return finding.Say("%s: %s", v.Title, v.Brief)
	}
	return finding.Say("%s: %s", v.Title, v.Advice)
}

// large is how many times the air that no valve can make too strong a volume holds that counts as
// a whole tank [-] (own rule of this project).
const large = 10

// built lists causes that lie in how the launcher is built, with the verdicts that each can
// fail.
func built(a *assessment.Assessment) (out []Cause) {
	l, limits := a.Launcher, a.Limits
	energies := []string{finding.EnergyTotal, finding.EnergyArea, finding.EnergyFault, finding.BarrelStalled, finding.BarrelJammed,
		finding.ShotUnasked, finding.MuzzleSealed}
	// Without current nothing would fill a dose and shut it off while it shoots: the vessel itself is the air of a shot.
	if tank := l.WholeTank(); tank != "" && l.Electric() && a.Energy != nil &&
		l.Volumes[l.Node(tank)].Volume.Nominal > large*a.Energy.CeilingDose {
		out = append(out, Cause{Verdicts: slices.Clone(energies), Lies: NoDose,
			What: finding.Say("The whole of %s is open to the barrel during a shot: nothing measures the air of one", tank),
			Do:   finding.Words("Put a dose between it and the firing valve, filled through a small valve that is shut while it shoots."),
			Step: finding.Say("Put a dose between %s and the firing valve", tank)})
	}
	if limits.Tip != launcher.ResilientTip {
		out = append(out, Cause{Verdicts: slices.Clone(energies), Lies: TipUnknown,
			What: finding.Say("No press test shows that the tip is soft, so %s is allowed", finding.Joule(limits.Total.Value)),
			Do:   finding.Words("Press the tip as item tip.press-test says, and state tip and tip_proof."),
			Step: finding.Words("Press the tip (item tip.press-test), state tip and tip_proof")})
	}
	return append(out, Cause{Lies: NoWayOut, Verdicts: []string{finding.VentTrapped, finding.LoadingEmpty, finding.VentShutdown,
		finding.VentPowerLoss},
		What: finding.Words("Air has no open way out when it is off, without current, or while hands are at the muzzle"),
		Do: finding.Words("Give every volume a vent that opens without current, that before the firing valve also in state loading " +
			"(open_in = [\"off\", \"loading\"])."),
		Step: finding.Words("Vent every volume: open without current and while loading")})
}

// missingKeys groups what is unknown by the keys that are missing. Keys that block the same
// answers stand together.
func missingKeys(open []finding.Verdict) (out []Cause) {
	var keys []string
	blocked := map[string][]string{}
	for _, v := range open {
		if v.Status != finding.Unknown || v.ID == finding.DesignTemplate { // that names what is stated
			continue
		}
		named := v.Why.Keys()
		if v.Why.Contradicts() { // what is named is stated, twice
			out = append(out, contradiction(v.ID, named))
			continue
		}
		for _, k := range named {
			if !slices.Contains(keys, k) {
				keys = append(keys, k)
			}
			if !slices.Contains(blocked[k], v.ID) {
				blocked[k] = append(blocked[k], v.ID)
			}
		}
	}
	for i, k := range keys {
		if slices.ContainsFunc(keys[:i], func(o string) bool { return slices.Equal(blocked[o], blocked[k]) }) {
			continue
		}
		same := []string{k}
		for _, o := range keys[i+1:] {
			if slices.Equal(blocked[o], blocked[k]) {
				same = append(same, o)
			}
		}
		out = append(out, missingCause(same, blocked[k]))
	}
	return out
}

// contradiction is the cause of a verdict that waits for which of two figures is right.
func contradiction(verdict string, named []string) Cause {
	of := ""
	if len(named) > 0 {
		of = ": " + named[0]
	}
	return Cause{Verdicts: []string{verdict}, What: finding.Words("A test and what the design states contradict each other" + of),
		Step: finding.Words("Settle which is right, the test or the design" + of),
		Do:   finding.Words("Repeat the test, or state what it reads; until then the widest of both counts.")}
}

// missingCause words one of them.
func missingCause(keys, verdicts []string) Cause {
	is, it, answers := "is", "it blocks", "1 answer"
	if len(keys) > 1 {
		is, it = "are", "they block"
	}
	if len(verdicts) > 1 {
		answers = fmt.Sprintf("%d answers", len(verdicts))
	}
	const named = 2
	few := strings.Join(keys[:min(named, len(keys))], ", ")
	if more := len(keys) - named; more > 0 {
		few += fmt.Sprintf(" and %d more", more)
	}
	return Cause{Verdicts: verdicts, Step: finding.Words(missingDo + few),
		What: finding.Words(strings.Join(keys, ", ") + " " + is + " not stated: " + it + " " + answers),
		Do:   finding.Words(missingDo + strings.Join(keys, ", ") + ": puffproof keys says how to find it.")}
}
