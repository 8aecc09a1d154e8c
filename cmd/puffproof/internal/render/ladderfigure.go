package render

import (
	"fmt"
	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/launcher"
)

// LadderFigure turns a ladder into the data of its figure, in the units shown.
func LadderFigure(id DesignID, rungs []launcher.Rung, u Units) figure.Ladder {
	s := Style{Units: u}
	un, name := s.axisUnit(unit.Pressure, 1e5) // bar or psi
	out := figure.Ladder{Title: Shorten(Clean(titleOf(id)), 70), Unit: name}
	for _, r := range rungs {
		one := figure.LadderRung{Name: r.Name, Value: un.FromSI(r.Gauge), Low: un.FromSI(r.Low), High: un.FromSI(r.High), Limit: r.Limit == launcher.Yes}
		d := settingDecimals(name)
		one.Label = fixed(one.Value, d, unit.Nearest)
		if r.High > r.Low {
			one.Label += fmt.Sprintf("  (%s to %s)", fixed(one.Low, d, unit.Down), fixed(one.High, d, unit.Up))
		}
		out.Rungs = append(out.Rungs, one)
	}
	return out
}
