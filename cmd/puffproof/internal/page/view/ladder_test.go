package view

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/cmd/puffproof/internal/page/answer"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/setpoint"
)

// What the page says of the set pressures says first what speaks against them, as `setpoint` does, and shades nothing as permitted
// where a verdict fails at every setting (the meaning of each member stands at setpoint.Answer).
func TestTheAnswerOfTheLadder(t *testing.T) {
	pa := func(bar float64) *float64 { p := bar * 1e5; return &p }
	why, fails := finding.Words("the relief valve must stay shut"), finding.Words("barrel.jammed fails")
	for name, c := range map[string]struct {
		answer   setpoint.Answer
		says, to string
	}{
		"holds": {setpoint.Answer{Works: true, CutOut: pa(0.378), CutIn: pa(0.2), Why: why},
			"The highest cut-out is 0.378 bar gauge, with the cut-in at 0.200 bar gauge. What binds: the relief valve must stay shut.", "0.3780"},
		"too high": {setpoint.Answer{Works: true, CutOut: pa(0.378), Stated: pa(0.5)},
			"The highest cut-out is 0.378 bar gauge. The design has 0.500 bar gauge: too high.", "0.3780"},
		"something fails at every setting": {setpoint.Answer{Works: true, CutOut: pa(0.378), Unmet: fails},
			"Does not hold: barrel.jammed fails. But for that: the highest cut-out is 0.378 bar gauge.", "0"},
		"not as it is": {setpoint.Answer{Works: true, CutOut: pa(0.378), AsItIs: finding.Words("no relief valve")},
			"Does not hold as it is: no relief valve. With that mended: the highest cut-out is 0.378 bar gauge.", "0.3780"},
		"the source is limited": {setpoint.Answer{Works: true}, "No switch is needed: the supply cannot exceed the limit.", "1"},
		"limited, and something fails": {setpoint.Answer{Works: true, Unmet: fails},
			"Does not hold: barrel.jammed fails. The supply alone keeps normal running within the limit; that is not enough.", "0"},
		"none works": {setpoint.Answer{Why: fails}, "No cut-out works: barrel.jammed fails.", "1"},
		"not known":  {setpoint.Answer{Unknown: finding.Words("no mass")}, "The highest cut-out is not known yet: no mass.", "1"},
	} {
		st := &State{Settings: &answer.Settings{Answer: c.answer}}
		assert.Equal(t, c.says, answerText(st), name)
		f := RungField{}
		f.forbid(st, Rung{Name: "cut-out", Band: launcher.Exact("", 0.3e5)}, 1e5)
		assert.Equal(t, c.to, f.To, name)
	}
}
