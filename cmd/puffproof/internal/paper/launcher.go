package paper

import (
	"strconv"
	"strings"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// launcher shows the circuit and the parts list.
func (b *builder) launcher() {
	b.chapter(6, "The launcher and its parts")
	b.say("Both the diagram and the list are made from the design file; the thing itself must agree with them.")
	b.circuit()
	b.partsList()
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
		n := figure.CircuitNode{Name: v.Name, Note: in.Units.Near(quantity.Volume, v.Volume.Nominal)}
		if l.Supply != nil && l.Supply.Feeds == v.Name {
			n.Instruments = append(n.Instruments, supplyOf(l.Supply))
		}
		if l.Switch != nil && l.Switch.Senses == v.Name {
			n.Instruments = append(n.Instruments, figure.Instrument{Kind: figure.SwitchSymbol, Name: "pressure switch",
				Note: in.Units.Near(quantity.Gauge, l.Switch.CutOut.Nominal)})
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
	c.Nodes = append(c.Nodes, figure.CircuitNode{Name: "barrel", Note: l.Barrel.Fit.String(), Barrel: true})
	words := []string{"Pneumatic circuit."}
	for i, part := range partsOf(l) {
		p := part.path
		drawn := figure.CircuitPart{Number: i + 1, Name: p.Name, Note: in.flowText(p), Kind: partKind(p), From: index[p.From], To: index[p.To],
			Hose: p.Hose != nil}
		drawn.Piloted = p.Piloted
		if part.exhaust != nil && part.exhaust.To != "atmosphere" {
			drawn.Exhaust = document.AsGiven(part.exhaust.To).String()
		}
		c.Parts = append(c.Parts, drawn)
		words = append(words, document.AsGiven(p.Name).String()+": "+part.what()+" from "+document.AsGiven(p.From).String()+" to "+
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

// flowText says how much a path lets through, as the design states it.
func (in *Input) flowText(p *launcher.PathSpec) string {
	f := &p.Flow
	switch f.Form {
	case launcher.SonicConductance:
		return "C " + in.Units.Near(quantity.Conductance, f.Value.Nominal)
	case launcher.FlowCv:
		return "Cv " + quantity.Significant(f.Value.Nominal, 2, quantity.Nearest)
	case launcher.FlowKv:
		return "Kv " + quantity.Significant(f.Value.Nominal, 2, quantity.Nearest)
	case launcher.NominalFlow:
		return in.Units.Near(quantity.VolumeFlow, f.Value.Nominal) + " nominal"
	case launcher.OrificeBore:
		return in.Units.Near(quantity.Length, f.Value.Nominal) + " bore"
	case launcher.SeatBore:
		return in.Units.Near(quantity.Length, f.Value.Nominal) + " seat"
	}
	if p.Hose != nil {
		return "hose " + in.Units.Near(quantity.Length, p.Hose.Bore.Nominal) + " x " + in.Units.Near(quantity.Length, p.Hose.Length.Nominal)
	}
	return ""
}

// partsList is a row for each part, with room for what only the builder has.
func (b *builder) partsList() {
	in, l := b.in, b.in.Launcher
	t := document.Table{Caption: "Parts " +
		"list. Empty cells are to be filled in from nameplates and documents: a rating counts with the document that says so.",
		Head:   []string{"Part", "What it is", "Figures and rating", "Document", "Serial or lot", "Made, retire by"},
		Widths: []int{14, 26, 26, 13, 10, 11}}
	row := func(name, what, figures, paperOf, lot, dates string) {
		cell := func(s string) any {
			if s == "" {
				return nil
			}
			return document.AsGiven(s)
		}
		t.Add(document.AsGiven(name), what, document.AsGiven(figures), cell(paperOf), cell(lot), cell(dates))
	}
	for i := range l.Volumes {
		v := &l.Volumes[i]
		row(v.Name, "vessel, "+word(v.Material, "material not stated"), in.band(v.Volume, quantity.Volume)+"; rated "+
			in.band(v.RatedPressure, quantity.Gauge)+", "+forGas(v.RatedForGas)+in.stated("; comes filled to ", v.FilledTo, quantity.Gauge),
			show.Lead("proof test: ", v.ProofTest), "", dates(v.MadeOn, v.RetireBy))
	}
	for i, part := range partsOf(l) {
		p := part.path
		figures := in.flowText(p)
		if part.exhaust != nil {
			figures += "; exhaust " + in.flowText(part.exhaust)
		}
		if p.Kind == pneumatics.Relief {
			figures += "; set " + in.band(p.SetPressure, quantity.Gauge) + ", full flow " + in.band(p.FullFlowPressure, quantity.Gauge)
		}
		if p.Kind == pneumatics.Regulator {
			figures += "; set " + in.band(p.SetPressure, quantity.Gauge)
		}
		if h := p.Hose; h != nil {
			figures += "; hose rating not stated"
			if h.RatedPressure.Set {
				figures = strings.TrimSuffix(figures, " not stated") + " " + in.band(h.RatedPressure, quantity.Gauge) + show.Lead(" ", h.Material)
			}
		}
		row(strconv.Itoa(i+1)+" "+p.Name, part.what()+"; "+p.From+" to "+p.To, figures, "", "", "")
	}
	if s := l.Supply; s != nil {
		row("supply", supplyOf(s).Name+" on "+s.Feeds, in.supplyFigures(s), "", "", "")
	}
	if s := l.Switch; s != nil {
		row("pressure switch", "senses "+s.Senses+"; "+answered(s.Adjustable, "adjustable: seal the screw", "not adjustable",
			"adjustable or not: not answered"), "cut-out "+in.band(s.CutOut, quantity.Gauge)+"; cut-in "+in.band(s.CutIn,
			quantity.Gauge), "", "", "")
	}
	for _, g := range l.Gauges {
		class := "class not stated"
		if g.Class > 0 {
			class = "class " + quantity.Significant(g.Class, 2, quantity.Nearest)
		}
		row("gauge", "on "+g.On, "range "+in.Units.Near(quantity.Gauge, g.Range.Nominal)+", "+class, "", "", "")
	}
	br, pr := &l.Barrel, &l.Projectile
	size := "bore " + in.band(br.Bore, quantity.Length) + ", travel " + in.band(br.Travel, quantity.Length)
	if br.Fit == pneumatics.OverTube {
		size = "tube " + in.band(br.TubeOuterDiameter, quantity.Length) + " outside, engagement " + in.band(br.Engagement, quantity.Length)
	}
	row("barrel", br.Fit.String()+", "+word(br.Material, "material not stated"), size+"; rated "+in.band(br.RatedPressure,
		quantity.Gauge)+", "+forGas(br.RatedForGas)+"; "+word(show.Lead("muzzle guard: ", br.SealGuard), "no guard on the muzzle stated"),
		show.Lead("proof test: ", br.ProofTest), "", dates(br.MadeOn, br.RetireBy))
	tip := "rigid"
	if pr.Resilient {
		tip = "declared resilient"
	}
	row("projectile", "tip "+tip, in.band(pr.Mass, quantity.Mass)+"; diameter "+in.band(pr.Diameter, quantity.Length)+"; contact print "+
		in.band(pr.ContactDiameter, quantity.Length),
		pr.TipProof, pr.Lot, dates(pr.MadeOn, pr.RetireBy))
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
