// Package answer asks limits what a launcher is worth, in the order in which somebody who turns a knob wants to know: the nominal
// shot at once, then a first look, then what check says. It renders nothing and knows no file. Start reading at Nominal.
package answer

import (
	"context"
	"reflect"
	"slices"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits"
	"puffproof/limits/advise"
	"puffproof/limits/assessment"
	"puffproof/limits/budget"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/remedy"
	"puffproof/limits/search"
	"puffproof/limits/setpoint"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
)

// Quick is what can be said at once: shots with nominal values. It judges nothing.
type Quick struct {
	Shot     *show.ShotView // nil: none could be computed
	NoShot   string         // why not
	Volumes  []Course       // pressures in the volumes during the shot
	Over     []worst.StartEnergy
	Start    float64 // of the nominal shot [Pa gauge]
	Launcher *launcher.Launcher
}

// Course is the pressure of one volume during a shot.
type Course struct {
	Name  string
	Gauge []float64 // [Pa], at the times of the shot's series
}

// First is a first look: searches at a hundredth of their effort. What fails here fails, for a longer search finds no less;
// what does not fail is not judged yet.
type First struct {
	Fails   []finding.Verdict
	Unknown []finding.Verdict
	Energy  *worst.EnergyReport
	Worst   []worst.StartEnergy
	// Whole tells that every question was looked at, not the energies alone.
	Whole bool
}

// Full is what check says.
type Full struct {
	Report     limits.Report
	Assessment *assessment.Assessment
	Way        *limits.Commissioning // from the built launcher to one that may be used
	Budget     *budget.Report        // what each tolerance costs; nil: no worst case is known
	Worst      []worst.StartEnergy   // of the worst launcher found
	Proofs     []remedy.Proof        // of what was tried for verdicts that fail
	Tried      bool                  // advice was tried: that of the report may be shown
}

// Settings are the highest set pressures.
type Settings struct{ Answer setpoint.Answer }

// lookShare is the share of a check's effort of a first look: it takes about as long as a hand rests.
const lookShare = 0.01

// points are the start pressures of a curve of energies.
const points = 25

// Nominal computes what can be said at once. The error is the context's.
func Nominal(ctx context.Context, l *launcher.Launcher) (*Quick, error) {
	q := &Quick{Launcher: l, Start: worst.NominalStart(l)}
	shot, err := worst.NominalShot(ctx, l, nil, show.TraceLength/2)
	switch {
	case ctx.Err() != nil:
		return nil, ctx.Err()
	case err != nil:
		q.NoShot = err.Error()
	default:
		view := show.ShotOf(shot)
		q.Shot = &view
		for i, v := range shot.Circuit.Volumes {
			c := Course{Name: v.Name}
			if i < len(shot.Result.Trace.Volumes) {
				for _, p := range shot.Result.Trace.Volumes[i] {
					c.Gauge = append(c.Gauge, p-shot.Circuit.Ambient.Pressure)
				}
			}
			q.Volumes = append(q.Volumes, c)
		}
	}
	high, known := l.SoakedHigh()
	if !known {
		high = q.Start
	}
	if high > 0 {
		q.Over, err = worst.NominalOverStart(ctx, l, high, points)
	}
	return q, err
}

// Look takes a first look, at the energies alone or at every question. The error is the context's, or says why nothing can be
// computed.
func Look(ctx context.Context, l *launcher.Launcher, day string, want assessment.Stages) (*First, error) {
	ctx = search.WithStrength(ctx, lookShare)
	a, err := assessment.Make(ctx, l, assessment.Options{Day: day, Want: want, Sheets: vent.SlowEndOnly})
	if err != nil {
		return nil, err
	}
	f := &First{Energy: a.Energy, Whole: want == 0}
	if f.Worst, err = a.Normal.OverStart(ctx, points); err != nil {
		return nil, err
	}
	if want == 0 {
		r := limits.ReportOf(a)
		f.Fails = show.WithStatus(r.Verdicts, finding.Fail)
		f.Unknown = show.WithStatus(r.Verdicts, finding.Unknown)
	}
	return f, nil
}

// Judge judges as check does, before advice is tried. Where nothing but answers of the checklist differs from a launcher that was judged
// already (before; nil: none was) nothing is computed again. The error is as of assessment.Make.
func Judge(ctx context.Context, d advise.Design, day string, before *Full) (*Full, error) {
	l := d.Launcher()
	if before != nil && before.Tried && AnswersAlone(before, l) {
		if way, same := before.Way.Answered(l); same {
			f := *before
			f.take(way)
			remedy.Proven(f.Report.Verdicts, f.Proofs)
			f.Report.Readvise()
			f.Report.InTurn = stillOpen(before.Report.InTurn, &f.Report)
			return &f, nil
		}
	}
	way, err := limits.Commission(ctx, l, assessment.Options{Day: day, Sheets: vent.FullSheets})
	if err != nil {
		return nil, err
	}
	f := &Full{}
	f.take(way)
	a := f.Assessment
	if f.Worst, err = a.Normal.OverStart(ctx, points); err != nil {
		return nil, err
	}
	return f, nil
}

// Try tries the advice of verdicts that fail, as check does. The error is the context's.
func Try(ctx context.Context, d advise.Design, day string, judged *Full) (*Full, error) {
	proofs, err := remedy.Prove(ctx, d, nil, day, judged.Report.Verdicts)
	if err != nil {
		return nil, err
	}
	f := *judged
	f.Report.Verdicts, f.Report.Causes = slices.Clone(f.Report.Verdicts), slices.Clone(f.Report.Causes)
	f.Proofs, f.Tried = proofs, true
	remedy.Proven(f.Report.Verdicts, f.Proofs)
	f.Report.Readvise()
	f.Report.InTurn, err = remedy.InTurn(ctx, d, nil, day, &f.Report)
	return &f, err
}

// stillOpen are the steps of what to do first whose verdicts an answer has not closed meanwhile; nil: none were tried.
func stillOpen(steps []limits.Cause, r *limits.Report) (out []limits.Cause) {
	for _, c := range steps {
		if v, is := r.Verdict(c.Verdicts[0]); is && (v.Status == finding.Fail || v.Status == finding.Unknown) {
			out = append(out, c)
		}
	}
	return out
}

// take takes over what was judged.
func (f *Full) take(way *limits.Commissioning) {
	f.Way, f.Assessment, f.Report = way, way.Assessment, way.Report
}

// AnswersAlone tells that a launcher differs from one that was judged in the answers of its checklist at most.
func AnswersAlone(before *Full, l *launcher.Launcher) bool {
	x, y := *before.Assessment.Stated, *l
	for _, one := range []*launcher.Launcher{&x, &y} {
		one.Checklist, one.Altered, one.RecordTrouble = nil, nil, ""
	}
	return reflect.DeepEqual(&x, &y)
}

// Weigh takes the judged energy apart, of a launcher that was judged. The error is the context's.
func Weigh(ctx context.Context, f *Full) (*Full, error) {
	if f.Report.Energy == nil || f.Assessment.Normal == nil || !f.Assessment.Normal.Result.Found {
		return f, nil
	}
	b, err := budget.Compute(ctx, budget.Input{Launcher: f.Assessment.Launcher, Energy: f.Report.Energy, Normal: f.Assessment.Normal})
	if err != nil {
		return nil, err
	}
	weighed := *f
	weighed.Budget = b
	return &weighed, nil
}

// Set finds the highest set pressures of a launcher that was judged. The error is as of setpoint.Find.
func Set(ctx context.Context, l *launcher.Launcher, day string, f *Full) (*Settings, error) {
	found, err := setpoint.Find(ctx, l, setpoint.Options{Day: day, Assessed: f.Assessment})
	if err != nil {
		return nil, err
	}
	return &Settings{found}, nil
}
