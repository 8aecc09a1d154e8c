package limits

import (
	"fmt"
	"puffproof/pneumatics"
	"puffproof/pneumatics/wave"
)

// modelRange says whether the worst shot is inside the range of the fast model; ""
// where there is none to speak of.
func modelRange(a *Assessment) string {
	w := a.Normal
	if w == nil || w.shot == nil || w.shot.Outcome != pneumatics.Left {
		return ""
	}
	tube := ""
	if a.Launcher.Barrel.Fit == pneumatics.OverTube {
		tube = " The range was found for projectiles in a bore; one over a tube is taken to be alike."
	}
	if rangeExcess(&w.c, w.shot) == 0 {
		return "The fast model is inside its range at the worst shot: " + ruleText(wave.RuleOf(&w.c, w.shot)) + "." + tube
	}
	note := fmt.Sprintf("The fast model is outside its range here, so energies count %.3g instead of %.3g times: %s.",
		a.Energy.Factor, ModelFactor, excessWhy(&w.c, w.shot))
	if a.Wave == nil {
		note += " check --thorough runs the wave model at the worst shot."
	}
	return note + tube
}
