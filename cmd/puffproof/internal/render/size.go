package render

import (
	"fmt"
	"io"
	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/setpoint"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"
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
	head := fmt.Sprintf("Air for at most %s out of a bore of %s", s.near(unit.Energy, q.Limit), s.near(unit.Length, q.Bore))
	if sc.Size.Speed != nil {
		head += fmt.Sprintf("; %s then flies at %s", s.near(unit.Mass, q.Mass), s.near(unit.Speed, *sc.Size.Speed))
	}
	fmt.Fprintln(&b, s.paint(bold, Wrap(head+".", s.Width, "", "")))
	sc.writeTable(&b)
	if sc.Detail == Everything {
		last := ""
		for _, r := range sc.Size.Rows {
			if r.Source != last {
				fmt.Fprintln(&b, Wrap(fmt.Sprintf("From %s: %s.", s.near(unit.Pressure, r.Gauge), r.Source), s.Width, "", "  "))
				last = r.Source
			}
		}
		fmt.Fprintln(&b)
		for _, n := range sc.Size.Notes {
			fmt.Fprintln(&b, Wrap(sentence(n), s.Width, "", "  "))
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
		head = append(head, s.near(unit.Length, x))
		right = append(right, table.ColumnConfig{Number: i + 3, Align: text.AlignRight})
	}
	right = append(right, table.ColumnConfig{Number: 1, Align: text.AlignRight}, table.ColumnConfig{Number: 2, Align: text.AlignRight})
	t.SetColumnConfigs(right)
	t.AppendRow(head)
	for _, r := range sc.Size.Rows {
		row := table.Row{unit.Format(r.Gauge, unit.Pressure, s.Units), s.quantity(unit.Volume, r.Ceiling, unit.Down)}
		for _, v := range r.ByTravel {
			row = append(row, s.quantity(unit.Volume, v, unit.Down))
		}
		t.AppendRow(row)
	}
	fmt.Fprintln(b)
	fmt.Fprintln(b, trimLines(t.Render()))
	fmt.Fprintln(b)
}

type sizeDoc struct {
	Limit   float64      `json:"limit_J"`
	Bore    float64      `json:"bore_m"`
	Factor  float64      `json:"travel_factor"`
	Speed   *float64     `json:"speed_at_limit_m_s"`
	Travels []float64    `json:"travels_m"`
	Most    float64      `json:"looked_up_to_m3"`
	Rows    []sizeRowDoc `json:"rows"`
	Notes   []string     `json:"notes"`
}

type sizeRowDoc struct {
	Gauge    float64   `json:"gauge_Pa"`
	Ceiling  float64   `json:"ceiling_volume_m3"`
	ByTravel []float64 `json:"volume_by_travel_m3"`
	Source   string    `json:"source"`
}

// SizeJSON is the document of size.
func SizeJSON(z setpoint.Size) (any, error) {
	d := struct {
		Size sizeDoc `json:"size"`
	}{sizeDoc{Limit: z.Question.Limit, Bore: z.Question.Bore, Factor: z.Factor, Speed: z.Speed, Travels: z.Travels, Most: z.Most, Rows: []sizeRowDoc{}, Notes: z.Notes}}
	for _, r := range z.Rows {
		d.Size.Rows = append(d.Size.Rows, sizeRowDoc(r))
	}
	return d, finite(d)
}

// SizeFigure turns a plan into the data of its figure: allowed volume over charge
// pressure, by the ceiling and for each travel.
func SizeFigure(z setpoint.Size, u Units) figure.Allowed {
	s := Style{Units: u}
	pu, pname := s.axisUnit(unit.Pressure, 1e5)
	vu, vname := s.axisUnit(unit.Volume, 1e-4) // mL or in3
	f := figure.Allowed{Title: fmt.Sprintf("Air for at most %s out of a bore of %s", s.near(unit.Energy, z.Question.Limit), s.near(unit.Length, z.Question.Bore)),
		Pressure: pname, Volume: vname}
	line := func(name string, at func(setpoint.SizeRow) float64) {
		l := figure.AllowedLine{Name: name}
		for i := range z.Rows {
			if v := at(z.Rows[i]); v < z.Most { // beyond it the line would only say where the search ends
				l.Pressure = append(l.Pressure, pu.FromSI(z.Rows[i].Gauge))
				l.Volume = append(l.Volume, vu.FromSI(v))
			}
		}
		if len(l.Pressure) > 1 {
			f.Lines = append(f.Lines, l)
		}
	}
	line("ceiling", func(r setpoint.SizeRow) float64 { return r.Ceiling })
	for i, x := range z.Travels {
		line(s.near(unit.Length, x)+" travel", func(r setpoint.SizeRow) float64 { return r.ByTravel[i] })
	}
	return f
}
