package advise

import (
	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/verdict"
)

// wiringForbids says what of the wiring fails or is not known: no figure that a way may change mends that; nil: nothing, or none is
// stated.
func wiringForbids(l *launcher.Launcher) finding.Text {
	if l.Control == nil {
		return nil
	}
	var all []finding.Text
	for _, id := range []string{finding.ControlStop, finding.ControlRestart, finding.ControlFuses} {
		v := verdict.Of(&assessment.Assessment{Launcher: l}, id)
		if v.Status == finding.Fail || v.Status == finding.Unknown {
			all = append(all, finding.Say("%s (%s): %s", v.Title, v.ID, v.Why))
		}
	}
	if len(all) == 0 {
		return nil
	}
	return finding.Words("no figure mends the wiring, so mend [control] first: ").And(finding.Join(all, "; "))
}
