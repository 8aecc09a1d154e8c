package screen

import (
	"fmt"
	"io"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"

	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/setpoint"
)

// SizeScreen shows a plan on a terminal or in a pipe.
type SizeScreen struct {
	Style  Style
	Size   setpoint.Size
	Detail Detail
}

// Write prints the screen.
func (sc *SizeScreen) Write(w io.Writer) error {
	var b strings.Builder
	s, q := sc.Style, sc.Size.Question
	head := fmt.Sprintf("Air for at most %s out of a bore of %s", s.Units.Near(show.Energy, q.Limit), s.Units.Near(show.Length, q.Bore))
	if sc.Size.Speed != nil {
		head += fmt.Sprintf("; %s then flies at %s", s.Units.Near(show.Mass, q.Mass), s.Units.Near(show.Speed, *sc.Size.Speed))
	}
	fmt.Fprintln(&b, s.paint(bold, Wrap(head+".", s.Width, "", "")))
	sc.writeTable(&b)
	if sc.Detail == Everything {
		last := ""
		for _, r := range sc.Size.Rows {
			if source := s.text(r.Source); source != last {
				s.sayf(&b, "", "  ", "From %s: %s.", s.Units.Near(show.Gauge, r.Gauge), source)
				last = source
			}
		}
		fmt.Fprintln(&b)
		for _, n := range sc.Size.Notes {
			s.say(&b, "", "  ", sentence(s.text(n)))
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func (sc *SizeScreen) writeTable(b *strings.Builder) {
	s := sc.Style
	t := plainTable()
	right := []table.ColumnConfig{}
	head := table.Row{"charge", "ceiling"}
	for i, x := range sc.Size.Travels {
		head = append(head, s.Units.Near(show.Length, x))
		right = append(right, table.ColumnConfig{Number: i + 3, Align: text.AlignRight})
	}
	right = append(right, table.ColumnConfig{Number: 1, Align: text.AlignRight}, table.ColumnConfig{Number: 2, Align: text.AlignRight})
	t.SetColumnConfigs(right)
	t.AppendRow(head)
	for _, r := range sc.Size.Rows {
		row := table.Row{s.Units.Near(show.Pressure, r.Gauge), s.Units.Words(show.Volume, r.Ceiling, show.Down)}
		for _, v := range r.ByTravel {
			row = append(row, s.Units.Words(show.Volume, v, show.Down))
		}
		t.AppendRow(row)
	}
	printTable(b, t)
	fmt.Fprintln(b)
}

// SizeFigure turns a plan into the data of its figure: allowed volume over charge
// pressure, by the ceiling and for each travel.
func SizeFigure(z setpoint.Size, u show.System) figure.Allowed {
	pu := u.Axis(show.Gauge, 1e5)
	vu := u.Axis(show.Volume, 1e-4) // mL or in3
	f := figure.Allowed{Title: fmt.Sprintf("Air for at most %s out of a bore of %s", u.Near(show.Energy, z.Question.Limit),
		u.Near(show.Length, z.Question.Bore)),
		Pressure: pu.Name, Volume: vu.Name}
	line := func(name string, at func(setpoint.SizeRow) float64) {
		l := figure.AllowedLine{Name: name}
		for i := range z.Rows {
			if v := at(z.Rows[i]); v < z.Most { // beyond it the line would only say where the search ends
				l.Pressure = append(l.Pressure, pu.Of(z.Rows[i].Gauge))
				l.Volume = append(l.Volume, vu.Of(v))
			}
		}
		if len(l.Pressure) > 1 {
			f.Lines = append(f.Lines, l)
		}
	}
	line("ceiling", func(r setpoint.SizeRow) float64 { return r.Ceiling })
	for i, x := range z.Travels {
		line(u.Near(show.Length, x)+" travel", func(r setpoint.SizeRow) float64 { return r.ByTravel[i] })
	}
	return f
}
