package verdict

import (
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// gapsOf lists the distances between rungs that must not touch, lowest first in the
// order of the ladder, and what is missing to know them. It needs a switch.
func gapsOf(l *launcher.Launcher) (out []gap, missing []finding.Text) {
	s := l.Switch
	out = []gap{{"cut-in and cut-out", s.CutIn.High, s.CutOut.Low}}
	soaked, _ := l.ReadyHigh()
	rating := l.LowestRating()
	if math.IsInf(rating, 1) {
		missing = append(missing, finding.Words("rated_pressure of what is filled"))
		rating = math.NaN()
	}
	if i := l.ReliefOnSupply(); i >= 0 {
		p := &l.Paths[i]
		out = append(out,
			gap{"the filled launcher left in the heat and the relief valve", soaked, p.SetPressure.Low},
			gap{"relief set pressure and lowest rating", p.SetPressure.High, rating})
	} else {
		out = append(out, gap{"the filled launcher left in the heat and the lowest rating", soaked, rating})
	}
	over := l.Overcharge()
	if !over.Known {
		missing = append(missing, over.Why)
		return out, missing
	}
	return append(out, gap{"highest pressure at a fault and lowest rating", over.Pressure, rating}), missing
}

// gap is the room between the top of one rung and the bottom of the next [Pa].
type gap struct {
	what       string
	below, top float64
}
