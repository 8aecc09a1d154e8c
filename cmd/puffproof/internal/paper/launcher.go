package paper

import (
	"strings"

	"puffproof/cmd/puffproof/internal/curve"
	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// launcher shows the circuit and the parts list.
func (b *builder) launcher() {
	b.chapter(6, "The launcher")
	b.say("The diagram, and the parts list in the appendix, are made from the design file; the thing itself must agree with them. Ratings " +
		"stand in part 7.")
	b.circuit()
	b.wiring()
}

// wiring draws the wiring that the design states.
func (b *builder) wiring() {
	if f, stated := curve.Wiring(b.in.Launcher.Control); stated {
		b.draw(f.Caption, f.Words, f.Draw)
	}
}

// circuit draws the circuit of the design.
func (b *builder) circuit() {
	c, alt := Circuit(b.in.Launcher, b.in.Units)
	b.draw("Circuit diagram, valves drawn without power. Numbers are those of the parts list. Symbols after ISO 1219-1 (from memory); "+
		"barrel and projectile are drawn as they look.", alt, c.Draw)
}

// Circuit turns a launcher into a circuit to draw and into words, its parts numbered as in the parts list.
func Circuit(l *launcher.Launcher, units quantity.System) (figure.Circuit, string) {
	in := &Input{Units: units}
	var c figure.Circuit
	index := map[string]int{"atmosphere": figure.Outside}
	for i := range l.Volumes {
		v := &l.Volumes[i]
		index[v.Name] = len(c.Nodes)
		n := figure.CircuitNode{Name: v.Name, Note: in.asStated(quantity.Volume, v.Volume.Nominal)}
		if l.Supply != nil && l.Supply.Feeds == v.Name {
			n.Instruments = append(n.Instruments, supplyOf(l.Supply))
		}
		if l.Switch != nil && l.Switch.Senses == v.Name {
			n.Instruments = append(n.Instruments, figure.Instrument{Kind: figure.SwitchSymbol, Name: "pressure switch",
				Note: in.asStated(quantity.Gauge, l.Switch.CutOut.Nominal)})
		}
		for _, g := range l.Gauges {
			if g.On == v.Name {
				n.Instruments = append(n.Instruments,
					figure.Instrument{Kind: figure.GaugeSymbol, Name: "gauge", Note: in.band(launcher.Exact("", g.Range.Nominal), quantity.Gauge)})
			}
		}
		c.Nodes = append(c.Nodes, n)
	}
	index["barrel"] = len(c.Nodes)
	c.Nodes = append(c.Nodes, figure.CircuitNode{Name: "barrel", Note: in.barrelSize(&l.Barrel), Barrel: true,
		OverTube: l.Barrel.Fit == pneumatics.OverTube})
	words := []string{"Pneumatic circuit."}
	for i, part := range partsOf(l) {
		p := part.path
		drawn := figure.CircuitPart{Number: i + 1, Name: p.Name, Note: in.flowText(p), Kind: partKind(p), From: index[p.From], To: index[p.To],
			Hose: p.Hose != nil}
		drawn.Piloted = p.Piloted
		if h := p.Hose; h != nil && p.Kind != pneumatics.Hose {
			drawn.HoseNote = in.hoseSize(h)
		}
		if part.exhaust != nil && part.exhaust.To != "atmosphere" {
			drawn.Exhaust = document.AsGiven(part.exhaust.To).String()
		}
		c.Parts = append(c.Parts, drawn)
		words = append(words, document.AsGiven(p.Name).String()+": "+part.what()+"; from "+document.AsGiven(p.From).String()+" to "+
			document.AsGiven(p.To).String()+".")
	}
	for i := range c.Nodes {
		c.Nodes[i].Name, c.Nodes[i].Note = document.AsGiven(c.Nodes[i].Name).String(), document.AsGiven(c.Nodes[i].Note).String()
	}
	for i := range c.Parts {
		c.Parts[i].Name = document.AsGiven(c.Parts[i].Name).String()
	}
	return c, strings.Join(words, " ")
}

func supplyOf(s *launcher.SupplySpec) figure.Instrument {
	switch s.Kind {
	case launcher.HandPump:
		return figure.Instrument{Kind: figure.HandPumpSymbol, Name: "hand pump"}
	case launcher.RegulatedCylinder:
		return figure.Instrument{Kind: figure.CylinderSymbol, Name: "cylinder"}
	case launcher.ShopAir:
		return figure.Instrument{Kind: figure.CompressorSymbol, Name: "shop air"}
	}
	return figure.Instrument{Kind: figure.CompressorSymbol, Name: "compressor"}
}

// supplyFigures are what the design states of a supply.
func (in *Input) supplyFigures(s *launcher.SupplySpec) string {
	t := "free air " + in.band(s.FreeAir, quantity.VolumeFlow) + "; dead head " + in.band(s.DeadHead, quantity.Gauge)
	t += in.stated("; at the peak of a stroke ", s.PeakFlow, quantity.VolumeFlow) +
		in.stated("; pumped to the mark of ", s.PumpedTo, quantity.Gauge)
	if t += in.stated("; a timer runs it for ", s.RunTime, quantity.Time); s.FromEmpty == launcher.Yes {
		t += ", from empty only"
	}
	return t + in.stated("; before its regulator ", s.SourcePressure, quantity.Gauge) +
		in.stated(", regulator bore ", s.RegulatorBore, quantity.Length)
}

// stated is a figure with what leads to it, or nothing where there is none.
func (in *Input) stated(lead string, b launcher.Band, q quantity.Kind) string {
	if !b.Set {
		return ""
	}
	return lead + in.band(b, q)
}

// barrelSize is the bore of a barrel that a projectile goes into; over a tube, that it does.
func (in *Input) barrelSize(b *launcher.BarrelSpec) string {
	if b.Fit == pneumatics.OverTube || !b.Bore.Set {
		return b.Fit.String()
	}
	return in.asStated(quantity.Length, b.Bore.Nominal) + " bore"
}

// flowText says how much a path lets through, as the design states it.
func (in *Input) flowText(p *launcher.PathSpec) string {
	f := &p.Flow
	switch f.Form {
	case launcher.SonicConductance:
		return "C " + in.asStated(quantity.Conductance, f.Value.Nominal)
	case launcher.FlowCv:
		return "Cv " + quantity.Significant(f.Value.Nominal, 2, quantity.Nearest)
	case launcher.FlowKv:
		return "Kv " + quantity.Significant(f.Value.Nominal, 2, quantity.Nearest)
	case launcher.NominalFlow:
		return in.asStated(quantity.VolumeFlow, f.Value.Nominal) + " nominal"
	case launcher.OrificeBore:
		return in.asStated(quantity.Length, f.Value.Nominal) + " bore"
	case launcher.SeatBore:
		return in.asStated(quantity.Length, f.Value.Nominal) + " seat"
	}
	if p.Hose != nil {
		return "hose " + in.hoseSize(p.Hose)
	}
	return ""
}

// hoseSize is a hose's bore and length.
func (in *Input) hoseSize(h *launcher.HoseSpec) string {
	return in.asStated(quantity.Length, h.Bore.Nominal) + " x " + in.asStated(quantity.Length, h.Length.Nominal)
}

// partsList is a row for each part, with room for what only the builder has.
func (b *builder) partsList() {
	b.section("Parts list")
	t := document.Table{Caption: "Parts " +
		"list. Empty cells are to be filled in from nameplates and documents: a rating counts with the document that says so.",
		Head:   []string{"Part", "What it is", "Figures and rating", "Document", "Serial or lot", "Made, retire by"},
		Widths: []int{14, 26, 26, 13, 10, 11}}
	cell := func(s string) any {
		if s == "" {
			return nil
		}
		return document.AsGiven(s)
	}
	for _, p := range b.in.parts(b.in.Launcher) {
		t.Add(document.AsGiven(p.Name), p.What, document.AsGiven(p.Figures), cell(p.Document), cell(p.Lot), cell(p.Dates))
	}
	b.add(t)
}

func forGas(a launcher.Answer) string {
	return answered(a, "for gas as declared", "not for gas", "for gas: not answered, counts as no")
}

// answered gives the word for an answer.
func answered(a launcher.Answer, yes, no, unanswered string) string {
	switch a {
	case launcher.Yes:
		return yes
	case launcher.No:
		return no
	}
	return unanswered
}

func dates(made, retire string) string {
	return show.Joined(", ", show.Lead("made ", made), show.Lead("retire by ", retire))
}
