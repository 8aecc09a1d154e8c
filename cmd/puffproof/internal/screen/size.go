package screen

import (
	"fmt"
	"io"

	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits/setpoint"
)

// SizeScreen shows a plan on a terminal or in a pipe.
type SizeScreen struct {
	Frame
	Size setpoint.Size
}

// Write prints the screen.
func (sc *SizeScreen) Write(w io.Writer) error {
	q := sc.Size.Question
	head := fmt.Sprintf("Air for at most %s out of a bore of %s", sc.Units.Near(quantity.Energy, q.Limit),
		sc.Units.Near(quantity.Length, q.Bore))
	if sc.Size.Speed != nil {
		head += fmt.Sprintf("; %s then flies at %s", sc.Units.Near(quantity.Mass, q.Mass), sc.Units.Near(quantity.Speed, *sc.Size.Speed))
	}
	sc.println(sc.lines(bold, "", "", head+"."))
	sc.writeTable()
	if sc.Detail == Everything {
		last := ""
		for _, r := range sc.Size.Rows {
			if source := sc.text(r.Source); source != last {
				sc.sayf("", "  ", "From %s: %s.", sc.Units.Near(quantity.Gauge, r.Gauge), source)
				last = source
			}
		}
		sc.gap()
		for _, n := range sc.Size.Notes {
			sc.say("", "  ", sentence(sc.text(n)))
		}
	}
	return sc.flush(w)
}

func (sc *SizeScreen) writeTable() {
	t := sc.grid()
	head, right := []any{"charge", "ceiling"}, []int{1, 2}
	for i, x := range sc.Size.Travels {
		head, right = append(head, sc.Units.Near(quantity.Length, x)), append(right, i+3)
	}
	t.right(right...)
	t.add(head...)
	for _, r := range sc.Size.Rows {
		row := []any{sc.Units.Near(quantity.Pressure, r.Gauge), sc.Units.Words(quantity.Volume, r.Ceiling, quantity.Down)}
		for _, v := range r.ByTravel {
			row = append(row, sc.Units.Words(quantity.Volume, v, quantity.Down))
		}
		t.add(row...)
	}
	sc.printTable(t)
	sc.gap()
}

// SizeFigure turns a plan into the data of its figure: allowed volume over charge
// pressure, by the ceiling and for each travel.
func SizeFigure(z setpoint.Size, u quantity.System) figure.Allowed {
	pu := u.Axis(quantity.Gauge, 1e5)
	vu := u.Axis(quantity.Volume, 1e-4) // mL or in3
	f := figure.Allowed{Title: fmt.Sprintf("Air for at most %s out of a bore of %s", u.Near(quantity.Energy, z.Question.Limit),
		u.Near(quantity.Length, z.Question.Bore)),
		Pressure: pu.Name, Volume: vu.Name}
	line := func(name string, at func(setpoint.SizeRow) float64) {
		l := figure.Line{Name: name}
		for i := range z.Rows {
			if v := at(z.Rows[i]); v < z.Most { // beyond it the line would only say where the search ends
				l.X = append(l.X, pu.Of(z.Rows[i].Gauge))
				l.Y = append(l.Y, vu.Of(v))
			}
		}
		if len(l.X) > 1 {
			f.Lines = append(f.Lines, l)
		}
	}
	line("ceiling", func(r setpoint.SizeRow) float64 { return r.Ceiling })
	for i, x := range z.Travels {
		line(u.Near(quantity.Length, x)+" travel", func(r setpoint.SizeRow) float64 { return r.ByTravel[i] })
	}
	return f
}
