package curve

import (
	"math"

	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits/launcher"
)

// LadderFigure is a ladder of pressures as the data of its figure, the same wherever it is drawn.
type LadderFigure struct {
	Rows   figure.Rows
	Words  []string // each rung with its pressure
	Beyond []string // rungs that must not be reached and lie so far away that they would squeeze the rest; they are not drawn
	Top    float64  // the highest of the others [Pa gauge]
}

// Ladder turns a ladder into the data of its figure, in the units shown.
func Ladder(rungs []launcher.Rung, u quantity.System) LadderFigure {
	var out LadderFigure
	for _, r := range rungs {
		if r.Limit != launcher.Yes {
			out.Top = math.Max(out.Top, r.High)
		}
	}
	axis := u.Axis(quantity.Gauge, out.Top)
	out.Rows.Axis = "Pressure, " + axis.Name
	for _, r := range rungs {
		t := u.Near(quantity.Pressure, r.Gauge)
		out.Words = append(out.Words, r.Name+" "+t)
		if r.Limit == launcher.Yes && r.Gauge > 2*out.Top {
			out.Beyond = append(out.Beyond, r.Name+" "+t)
			continue
		}
		kind := figure.Stated
		switch {
		case r.Limit == launcher.Yes:
			kind = figure.Boundary
		case r.Name == "left in the heat" || r.Name == "highest at a fault" || r.Name == "highest in normal running":
			kind = figure.Computed
		}
		out.Rows.Rows = append(out.Rows.Rows, figure.Row{Name: r.Name, Low: math.Max(0, axis.Of(r.Low)), Mark: axis.Of(r.Gauge),
			Top: axis.Of(r.High), Value: t, Kind: kind})
	}
	return out
}
