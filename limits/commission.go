package limits

import (
	"context"
	"reflect"
	"slices"

	"puffproof/limits/assessment"
	"puffproof/limits/commission"
	"puffproof/limits/doubt"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
)

// Commissioning is the way from a built launcher to one that may be used, with what it was made of.
type Commissioning struct {
	Assessment *assessment.Assessment
	Report     Report
	Run        commission.Run

	plan *measure.ShotPlan
}

// Commission makes the steps of a launcher. They are refused where a plan of shots is: what it would be filled for is not
// known to hold its air, or to let it out. The error is as of assessment.Make.
func Commission(ctx context.Context, l *launcher.Launcher, o assessment.Options) (*Commissioning, error) {
	a, err := assessment.Make(ctx, l, o)
	if err != nil {
		return nil, err
	}
	var plan *measure.ShotPlan
	if notFilled(a) == nil {
		if plan, err = measure.Plan(ctx, a.Launcher, o.Day); err != nil {
			return nil, err
		}
	}
	return commissioningOf(a, plan), nil
}

// notFilled is notReady without the tests that are past their date: they are what the steps do again.
func notFilled(a *assessment.Assessment) finding.Text {
	fresh, stated := *a, *a.Stated
	stated.Checklist, fresh.Stated = nil, &stated
	return notReady(&fresh)
}

// noAir says what has to be mended before anybody fills a launcher; nil: nothing. What is past its date is in notFilled.
func noAir(r *Report) finding.Text {
	var bad []finding.Text
	for _, v := range r.BeforeCharging() {
		says := "%s fails (%s)"
		if v.Status == finding.Unknown {
			says = "%s is not known (%s)"
		}
		bad = append(bad, finding.Say(says, v.Title, v.ID))
	}
	if len(bad) == 0 {
		return nil
	}
	return finding.Say("no air goes in before this is mended: %s; puffproof check says how", finding.Join(bad, "; "))
}

// commissioningOf judges what was assessed.
func commissioningOf(a *assessment.Assessment, plan *measure.ShotPlan) *Commissioning {
	c := &Commissioning{Assessment: a, Report: ReportOf(a), plan: plan}
	in := commission.Input{Launcher: a.Launcher, Day: a.Day, Items: c.Report.Items, Emptying: a.Emptying, Parts: a.Parts(), Plan: plan,
		Refused: notFilled(a), NoAir: noAir(&c.Report)}
	if plan != nil && len(in.Refused) == 0 {
		in.Refused = plan.Refused
	}
	c.Run = commission.Of(in)
	return c
}

// readByStages are those answers of a checklist that the stages of an assessment read: of doubts that they settle, and of items that
// alone hold a fault. With other ones an assessment is another one.
func readByStages(a *assessment.Assessment, answers []finding.Confirmation) (out []finding.Confirmation) {
	var asked []string
	for _, it := range doubt.Items(a.Stated) {
		asked = append(asked, it.ID)
	}
	if a.Faults != nil {
		asked = append(asked, a.Faults.Asked...)
	}
	for _, c := range answers {
		if slices.Contains(asked, c.Item) {
			out = append(out, c)
		}
	}
	return out
}

// Answered is the same launcher with the answers of its checklist, and what its record says of them, that another reading of it has,
// where those change none of the limits that it was assessed by, and nothing that its stages read; false: it has to be assessed again.
func (c *Commissioning) Answered(by *launcher.Launcher) (*Commissioning, bool) {
	a := *c.Assessment
	if !reflect.DeepEqual(readByStages(&a, a.Stated.Checklist), readByStages(&a, by.Checklist)) {
		return nil, false
	}
	stated, used := *a.Stated, *a.Launcher
	for _, l := range []*launcher.Launcher{&stated, &used} {
		l.Checklist, l.Altered, l.RecordTrouble = by.Checklist, by.Altered, by.RecordTrouble
	}
	a.Stated, a.Launcher = &stated, &used
	limits, err := stated.EnergyLimits(a.Day)
	if err != nil || limits.Total.Value != a.Limits.Total.Value || limits.Area.Value != a.Limits.Area.Value || limits.Tip != a.Limits.Tip {
		return nil, false
	}
	return commissioningOf(&a, c.plan), true
}
