package setpoint

import (
	"slices"

	"puffproof/limits/assessment"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/progress"
	"puffproof/limits/vent"
	"puffproof/limits/verdict"
	"puffproof/limits/worst"
)

// judgement is what check says of a launcher, in the verdicts that hang on the pressures
// that are set.
type judgement struct {
	verdicts []finding.Verdict
	faults   *fault.Report // nil: not computed
}

// near is the share of its limit from which on an energy is judged by the very searches of
// check, and not only by short ones around the hardest shots known: those were up to 4 % low
// (found by trying).
const near = 0.9

// ofShots are the verdicts whose searches start from the hardest shots known.
func ofShots() []string {
	return []string{finding.EnergyTotal, finding.EnergyArea, finding.EnergyFault, finding.ShotUnasked}
}

// judge judges a launcher as check does. A setting that passes passes check as well: where
// a figure comes near its limit, check's own searches decide too. A setting that was closed in
// on from the hardest shots known is near it, and is left to them.
func (s *solver) judge(w *launcher.Launcher) (judgement, error) {
	if len(s.loweredBy) != 0 {
		return s.judgeStages(w, stagesFor(w), nil)
	}
	known, err := s.judgeStages(w, stagesFor(w), s.energy.hardest)
	if err != nil || len(s.failing(known)) > 0 || known.share(ofShots()...) < near || len(s.energy.hardest) == 0 {
		return known, err
	}
	own, err := s.judgeStages(w, stagesFor(w), nil)
	return known.andAlso(own), err
}

// failing are the verdicts that fail, and that lower settings may make pass.
func (s *solver) failing(j judgement) []finding.Verdict {
	return slices.DeleteFunc(j.failed(), func(v finding.Verdict) bool { return slices.Contains(s.left, v.ID) })
}

// judgeStages judges stages of a launcher, from seeds of the hardest shots of normal
// running; without any as check does.
func (s *solver) judgeStages(w *launcher.Launcher, want assessment.Stages, seeds []worst.StartSeed) (judgement, error) {
	return s.judgeFaults(w, want, seeds, nil)
}

// judgeFaults is judgeStages with the faults that only picks; nil: all of them.
func (s *solver) judgeFaults(w *launcher.Launcher, want assessment.Stages, seeds []worst.StartSeed, only picks) (judgement, error) {
	a, err := s.assess(w, want, seeds, only)
	if err != nil {
		return judgement{}, err
	}
	s.out.Runs += a.Energy.Runs
	if a.Faults != nil {
		s.out.Runs += a.Faults.Shots
	}
	return judgement{verdict.OfPressures(a, want), a.Faults}, nil
}

// assess makes an assessment, or takes the one that was given where it is the very same:
// of this launcher, on this day, from no seeds, with nothing measured or run in waves.
func (s *solver) assess(w *launcher.Launcher, want assessment.Stages, seeds []worst.StartSeed, only picks) (*assessment.Assessment, error) {
	a := s.o.Assessed
	same := a != nil && a.Launcher == w && a.Day == s.o.Day && a.Measured == nil && a.Wave == nil && want&^a.Computed == 0
	if same && only == nil && len(seeds) == 0 {
		return a, nil
	}
	ctx := progress.Looking(s.ctx, finding.Words("judging the settings"))
	sheets := vent.SlowEndOnly
	if want&assessment.EmptyingStage == 0 {
		sheets = vent.ForFaults
	}
	return assessment.Make(ctx, w, assessment.Options{Day: s.o.Day, Seeds: seeds, Want: want, Sheets: sheets,
		Tame: len(seeds) > 0 && s.energy.tame, Roughly: len(seeds) > 0, OnlyFaults: only})
}

// stagesFor are the stages whose verdicts hang on the pressures of a launcher. Where the
// design declares how other objects are kept out, that holds whatever their energy.
func stagesFor(w *launcher.Launcher) assessment.Stages {
	want := assessment.EnergyStage | assessment.StuckStage | assessment.EmptyingStage | assessment.FaultStage
	if len(w.Barrel.ObjectControl) == 0 {
		want |= assessment.ObjectStage
	}
	if e := w.Event; e != nil && e.EarToMuzzle.Set { // else how loud it is is unknown at every pressure
		want |= assessment.SoundStage
	}
	return want
}

// andAlso takes of each verdict the worse one.
func (j judgement) andAlso(o judgement) judgement {
	out := judgement{slices.Clone(j.verdicts), o.faults}
	for i, v := range o.verdicts {
		if shareOf(&v) > shareOf(&out.verdicts[i]) || failsByPressure(&v) {
			out.verdicts[i] = v
		}
	}
	return out
}

// failed are the verdicts that another pressure may make pass.
func (j judgement) failed() (out []finding.Verdict) {
	for i := range j.verdicts {
		if v := &j.verdicts[i]; failsByPressure(v) {
			out = append(out, *v)
		}
	}
	return out
}

// verdict is that of an identifier; nil: it was not given.
func (j judgement) verdict(id string) *finding.Verdict {
	if i := slices.IndexFunc(j.verdicts, func(v finding.Verdict) bool { return v.ID == id }); i >= 0 {
		return &j.verdicts[i]
	}
	return nil
}

// picks picks faults by their id; nil: all of them.
type picks func(id string) bool

// beyond picks the faults of a judgement that reach a share of the limit [-], or are not known, and where it is asked those that
// shoot unasked; nil: which those are is not known. At lower pressures no other one reaches more.
func (j judgement) beyond(share float64, unasked bool) picks {
	if j.faults == nil {
		return nil
	}
	some := map[string]bool{}
	for i := range j.faults.Faults {
		if f := &j.faults.Faults[i]; f.Effect != fault.NoEffect && (!(f.Judged < share*j.faults.Limit) || f.Status == finding.Unknown ||
			unasked && f.Effect == fault.FiresUnasked && f.Judged > 0) {
			some[f.ID] = true
		}
	}
	return func(id string) bool { return some[id] }
}

// hardest picks the faults that reach nearly as much as the hardest, or are not known; nil: which those are is not known.
func (j judgement) hardest() picks {
	const nearly = 0.9
	if j.faults == nil {
		return nil
	}
	return j.beyond(nearly*j.faults.Most()/j.faults.Limit, false)
}

// unknown is the first of the energy verdicts that is not known; nil where they all are.
func (j judgement) unknown() *finding.Verdict {
	for i := range j.verdicts {
		switch v := &j.verdicts[i]; v.ID {
		case finding.EnergyTotal, finding.EnergyArea, finding.EnergyFault:
			if v.Status == finding.Unknown {
				return v
			}
		}
	}
	return nil
}

// share is the largest share of its limit that one of the verdicts reaches, of those that
// pass or fail [-]. At a single fault what no item keeps from being shot counts, also where the rest is held by one.
func (j judgement) share(ids ...string) float64 {
	most := 0.0
	for i := range j.verdicts {
		v := &j.verdicts[i]
		if slices.Contains(ids, v.ID) && (v.Status == finding.Pass || v.Status == finding.Fail) {
			most = max(most, shareOf(v))
		}
		if slices.Contains(ids, v.ID) && v.ID == finding.EnergyFault && v.Status == finding.Conditional && j.faults != nil {
			most = max(most, j.faults.Most()/j.faults.Limit)
		}
	}
	return most
}

// holds tells that each of the verdicts was given and neither fails nor is unknown.
func (j judgement) holds(ids ...string) bool {
	for _, id := range ids {
		if v := j.verdict(id); v == nil || v.Status == finding.Fail || v.Status == finding.Unknown {
			return false
		}
	}
	return true
}

// shareOf is the share of its limit that a verdict reaches [-], above 1 where it fails; 0
// where it has none.
func shareOf(v *finding.Verdict) float64 {
	if v.Margin == nil {
		return 0
	}
	return 1 - *v.Margin
}

// failsByPressure tells that a verdict fails and that another pressure may help: no energy
// is small enough for a limit of zero.
func failsByPressure(v *finding.Verdict) bool {
	return v.Status == finding.Fail && !(v.Unit == finding.InJoule && v.Limit != nil && *v.Limit == 0)
}

// ofPressures tells that a verdict is about an energy or a pressure: one that fails at
// every cut-out speaks against the settings, not only against the launcher.
func ofPressures(v *finding.Verdict) bool {
	return v.Unit == finding.InJoule || v.Unit == finding.InJoulePerArea || v.Unit == finding.InPascalGauge
}

// failsWith says that a verdict fails, and with what.
func failsWith(v *finding.Verdict) finding.Text {
	if v.Value != nil && v.Limit != nil {
		switch v.Unit {
		case finding.InJoule:
			return finding.Say("%s fails with %s against %s: %s", v.ID, finding.WorstJoule(*v.Value), finding.Joule(*v.Limit), v.Why)
		case finding.InPascalGauge:
			return finding.Say("%s fails with %s against %s: %s", v.ID, finding.Bar3(*v.Value), finding.Bar3(*v.Limit), v.Why)
		}
	}
	return finding.Say("%s fails: %s", v.ID, v.Why)
}
