package advise

import (
	"context"
	"slices"
	"strings"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
)

// whyNot says what forbids every way that was looked at: of the attempt that came nearest the
// verdicts that failed to the end, or what screening found.
func whyNot(bad, good []*attempt) finding.Text {
	all := append(slices.Clone(bad), good...)
	all = slices.DeleteFunc(all, func(a *attempt) bool { return a.name == asItIs || a.last.l == nil })
	if len(all) == 0 {
		return finding.Words("nothing of what may be changed is there to be changed")
	}
	nearest := all[0]
	for _, a := range all {
		if a.last.loss < nearest.last.loss {
			nearest = a
		}
	}
	f := nearest.last.figures
	stands := troubleWords(nearest)
	for i := 0; len(stands) == 0 && i < len(all); i++ {
		stands = all[i].held
	}
	switch {
	case len(stands) > 0:
		return finding.Say("of %d ways the nearest is still held back by: %s", len(all), stands)
	case !(f.speed > 0):
		return finding.Words("nothing leaves this barrel within the limits")
	case f.weakest < worst.Creep:
		return finding.Say("the nominal launcher shoots at %s, but the weakest of the tolerances does not leave within the limits: narrow "+
			"what is only assumed, or measure it", finding.Speed(f.speed))
	case f.hardest > 1:
		return finding.Say("with so much air that the weakest launcher of the tolerances leaves, the hardest has %.2g times the energy allowed",
			f.hardest)
	}
	return finding.Words("no way held when it was judged in full")
}

// troubleWords are the verdicts that an attempt was judged to fail.
func troubleWords(a *attempt) finding.Text {
	if a.design == nil {
		return nil
	}
	var stands []finding.Text
	for _, v := range a.judged.troubles() {
		stands = append(stands, finding.Say("%s (%s): %s", v.Title, v.ID, v.Why))
	}
	return finding.Join(stands, "; ")
}

// instead tries what giving way would buy: a proved tip, and what is kept.
func instead(ctx context.Context, in Input) (finding.Text, error) {
	l := in.Design.Launcher()
	var said []finding.Text
	probe := func(what string, in Input) error {
		a, err := newAttempt(in, probeLayout(in.Design.Launcher()), "all")
		if a == nil || err != nil {
			return err
		}
		ok, err := a.run(ctx)
		if ok {
			said = append(said, finding.Say("%s: then it shoots at about %s", what, finding.Speed(a.last.figures.speed)))
		}
		return err
	}
	if l.Projectile.TipStated && !l.Projectile.Resilient {
		d, err := in.Design.With([]Change{{Key: "projectile.tip", To: word("resilient")}, {Key: "projectile.tip_proof", To: word("declared")}})
		if err == nil {
			soft := in
			soft.Design = d
			if err := probe("a tip that a press test shows to be resilient may have 0.5 J instead of 0.08 J", soft); err != nil {
				return nil, err
			}
		}
	}
	if len(in.Keep) > 0 {
		free := in
		free.Keep = nil
		if err := probe("without keeping "+strings.Join(in.Keep, ", "), free); err != nil {
			return nil, err
		}
	}
	return finding.Join(said, "; "), nil
}

// probeLayout is the layout that giving way is tried with.
func probeLayout(l *launcher.Launcher) layout {
	if wholeTank(l) && electric(l) {
		return withDose
	}
	return asBuilt
}
