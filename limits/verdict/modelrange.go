package verdict

import (
	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
	"puffproof/pneumatics/wave"
)

// ModelRange says whether the worst shot is inside the range of the fast model; nil
// where there is none to speak of.
func ModelRange(a *assessment.Assessment) finding.Text {
	w := a.Normal
	if w == nil || w.Shot == nil || w.Shot.Outcome != pneumatics.Left {
		return nil
	}
	if worst.RangeExcess(&w.Circuit, w.Shot) == 0 {
		return finding.Say("The fast model is inside its range at the worst shot: %s.", worst.RuleText(wave.RuleOf(&w.Circuit, w.Shot)))
	}
	hose := ""
	if wave.RuleOf(&w.Circuit, w.Shot).HoseRatio > 0 {
		hose = ", a shorter or thinner hose"
	}
	where := "outside"
	if worst.InRange(&w.Circuit, w.Shot) {
		where = "near the end of"
	}
	note := finding.Say("The fast model is %s its range here, so energies count %.3g instead of %.3g times: %s. A heavier projectile, a "+
		"slower valve%s bring it well inside.",
		where, a.Energy.Factor, worst.ModelFactor, worst.ExcessWhy(&w.Circuit, w.Shot), hose)
	if a.Wave == nil {
		note = note.Say(" check --thorough runs the wave model at the worst shot.")
	}
	return note
}
