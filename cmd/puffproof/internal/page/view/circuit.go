package view

import (
	"bytes"
	"fmt"
	"html/template"
	"strings"

	"puffproof/cmd/puffproof/internal/curve"
	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/paper"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// Circuit is the drawing of the launcher.
type Circuit struct {
	Drawing template.HTML
	Words   string
	States  []StateWords
	Wiring  *Wiring // nil: the design states none
}

// Wiring is the drawing of the wiring.
type Wiring struct {
	Drawing        template.HTML
	Words, Caption string
}

func wiringOf(st *State) *Wiring {
	f, stated := curve.Wiring(st.Launcher.Control)
	if !stated {
		return nil
	}
	out := &Wiring{Words: f.Words, Caption: f.Caption}
	if d, err := f.Draw(); err == nil {
		if svg, err := d.Inline(); err == nil {
			out.Drawing = template.HTML(svg) //nolint:gosec // drawn by package figure, every text escaped
		}
	}
	return out
}

// StateWords says what is open in a state.
type StateWords struct{ State, Open string }

func circuitOf(st *State) *Circuit {
	l := st.Launcher
	if l == nil {
		return nil
	}
	c, words := paper.Circuit(l, st.Units)
	d, err := c.Draw()
	if err != nil {
		return &Circuit{Words: words}
	}
	svg, err := d.Inline()
	if err != nil {
		return &Circuit{Words: words}
	}
	out := &Circuit{Words: words, Wiring: wiringOf(st)}
	for _, s := range pneumatics.States() {
		var open []string
		for i := range l.Paths {
			if p := &l.Paths[i]; opens(p) && p.OpenIn.Has(s) {
				open = append(open, show.Clean(p.Name))
			}
		}
		if len(open) == 0 {
			open = []string{"no valve"}
		}
		out.States = append(out.States, StateWords{s.String(), strings.Join(open, ", ")})
	}
	end := bytes.LastIndex(svg, []byte("</svg>"))
	out.Drawing = template.HTML(string(svg[:end]) + places(st, c) + "</svg>") //nolint:gosec // drawn by package figure, every text escaped
	return out
}

// opens tells whether the states move a path.
func opens(p *launcher.PathSpec) bool {
	return p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve
}

// places are the links over the drawing that open the figures of a part.
func places(st *State, c figure.Circuit) string {
	const perMillimetre = 72 / 25.4 // points, the unit of the drawing
	var b strings.Builder
	link := func(outline, table, name, what string, open string) {
		fmt.Fprintf(&b, `<a class="place" href="#%s" data-open="%s" aria-label="%s">%s</a>`,
			partID(table), open, template.HTMLEscapeString(show.Clean(name+", "+what)), outline)
	}
	place := func(p figure.Place, table, name, what string) {
		link(fmt.Sprintf(`<rect x="%.1f" y="%.1f" width="%.1f" height="%.1f" rx="4"/>`, p.Left*perMillimetre, p.Top*perMillimetre,
			p.Width*perMillimetre, p.Height*perMillimetre), table, name, what, "")
	}
	part := func(p figure.PartPlace, table, name, what string, open string) {
		s, l := p.Symbol, p.Label
		corners := ""
		for _, at := range [][2]float64{{s.Left, s.Top}, {s.Left + s.Width, s.Top}, {s.Left + s.Width, l.Top}, {l.Left + l.Width, l.Top},
			{l.Left + l.Width, l.Top + l.Height}, {l.Left, l.Top + l.Height}, {l.Left, l.Top}, {s.Left, l.Top}} {
			corners += fmt.Sprintf("%.1f,%.1f ", at[0]*perMillimetre, at[1]*perMillimetre)
		}
		link(`<polygon points="`+strings.TrimRight(corners, " ")+`"/>`, table, name, what, open)
	}
	l := st.Launcher
	nodes, parts, instruments := c.Places()
	for i, n := range c.Nodes {
		table, what := "barrel", "barrel and its figures"
		if !n.Barrel {
			table, what = "volumes."+quotedPart(l.Volumes[i].Name), "volume, "+st.Units.Near(quantity.Volume, l.Volumes[i].Volume.Nominal)
		}
		place(nodes[i], table, n.Name, what)
		for k, in := range n.Instruments {
			table := map[figure.InstrumentKind]string{figure.GaugeSymbol: "gauge", figure.SwitchSymbol: "pressure_switch"}[in.Kind]
			if table == "" {
				table = "supply"
			}
			if table == "gauge" && len(l.Gauges) > 1 {
				table = "gauge[1]"
			}
			place(instruments[i][k], table, in.Name, "on "+n.Name)
		}
	}
	for i, p := range c.Parts {
		path := pathOf(l, i)
		if path == nil {
			continue
		}
		var open []string
		for _, s := range pneumatics.States() {
			if opens(path) && path.OpenIn.Has(s) {
				open = append(open, "in-"+s.String())
			}
		}
		part(parts[i], "paths."+quotedPart(path.Name), fmt.Sprintf("%d %s", p.Number, p.Name), path.Kind.String(), strings.Join(open, " "))
	}
	return `<g class="places">` + b.String() + "</g>"
}

// pathOf is the path of the n-th part drawn: a part with two ways is drawn once.
func pathOf(l *launcher.Launcher, n int) *launcher.PathSpec {
	for i := range l.Paths {
		if l.Paths[i].Way.Exhausts() {
			continue
		}
		if n == 0 {
			return &l.Paths[i]
		}
		n--
	}
	return nil
}

// quotedPart is a name as a dotted key has it.
func quotedPart(name string) string {
	if strings.Contains(name, ".") {
		return `"` + name + `"`
	}
	return name
}
