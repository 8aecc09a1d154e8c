package paper

import (
	"strconv"
	"strings"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// Part is a thing to buy or to make: what it is, its figures and rating, and what the design says of its papers.
type Part struct{ Name, What, Figures, Document, Lot, Dates string }

// parts are all parts of a launcher; those between volumes have the numbers of the circuit diagram.
func (in *Input) parts(l *launcher.Launcher) (out []Part) {
	row := func(name, what, figures, paperOf, lot, dates string) {
		out = append(out, Part{name, what, figures, paperOf, lot, dates})
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
		row("gauge", "on "+g.On, "range "+in.asStated(quantity.Gauge, g.Range.Nominal)+", "+class, "", "", "")
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
	return out
}
