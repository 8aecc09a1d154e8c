package verdict

import (
	"strings"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
)

// ofTemplate is never a pass: a figure of the file that a builder started from says nothing of
// the launcher that was built, however well all the others hold.
func ofTemplate(a *assessment.Assessment, v *finding.Verdict) {
	keys := a.Stated.Template
	v.Basis, v.Source = finding.OnData, "own rule of this project"
	what := finding.Say("%d figures are still the template's", len(keys))
	if len(keys) == 1 {
		what = finding.Words("1 figure is still the template's")
	}
	v.Unknown(what.Say(": not your launcher: %s", strings.Join(keys, ", ")))
	v.Advice = finding.Words("Replace each by your own and say how you know it, or write \"?\" where you do not know it; puffproof keys " +
		"TABLE says how to measure.")
}

// anyTemplate tells whether there are figures of the template.
func anyTemplate(a *assessment.Assessment) bool { return len(a.Stated.Template) > 0 }
