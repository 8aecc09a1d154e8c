package design

import (
	"math"
	"strings"

	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/toml"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// A part with two ways is written in one table and becomes two paths, of which each
// names the other: the circuit, and all that is asked of it, knows paths only.

// otherWays gives the further paths of a part.
func (s *section) otherWays(p *launcher.PathSpec) []launcher.PathSpec {
	switch s.selected {
	case keys.ThreeWay:
		return []launcher.PathSpec{s.threeWayExhaust(p)}
	case keys.QuickExhaust:
		return []launcher.PathSpec{s.quickExhaustWay(p)}
	}
	return nil
}

// exhaustName is the name of the exhaust way of a part: the table that describes it.
func exhaustName(part string) string { return part + ".exhaust" }

// threeWayExhaust is the way from the outlet of a three-way valve to its exhaust: open
// where the inlet is shut, and without power where that shuts.
func (s *section) threeWayExhaust(p *launcher.PathSpec) launcher.PathSpec {
	p.Way, p.Other = launcher.ThreeWay, exhaustName(p.Name)
	e := s.exhaustSection()
	out := launcher.PathSpec{Name: p.Other, Way: launcher.ThreeWayExhaust, Other: p.Name, From: p.To, To: orWord(e.texts["to"], "atmosphere"),
		Kind: p.Kind, OpenIn: pneumatics.SetOf(pneumatics.States()...) &^ p.OpenIn, Unpowered: opposite(p.Unpowered),
		Piloted: p.Piloted, Pulse: p.Pulse, Points: orWord(e.texts["points"], p.Points)}
	e.exhaustFlow(&out.Flow, &p.Flow, exhaustShares{0.25, 0.7, 1, "a quarter of the valve's own flow to all of it (" + keys.Practice + ")"})
	// One body moves both ways; where in its stroke a port opens or shuts is not known.
	out.OpeningTime = e.or("opening_time", p.ClosingTime.Nominal/2, 0, p.ClosingTime.High, usual("some time within the valve's closing time"))
	out.ClosingTime = e.or("closing_time", p.OpeningTime.Nominal/2, 0, p.OpeningTime.High, usual("some time within the valve's opening time"))
	if h := p.Hose; h != nil && h.Side == launcher.HoseAfter { // the outlet's hose carries the exhaust too
		shared := *h
		shared.Side, shared.Shared = launcher.HoseBefore, true
		out.Hose = &shared
	}
	// The least differential belongs to the way that the pilot opens; a spring moves it
	// back.
	switch p.Unpowered {
	case pneumatics.Open:
		out.MinDifferential, p.MinDifferential = p.MinDifferential, launcher.Band{Key: p.MinDifferential.Key}
	case pneumatics.Stays:
		out.MinDifferential = p.MinDifferential
	}
	return out
}

// exhaustSection reads the table of an exhaust port, or gives one without keys.
func (s *section) exhaustSection() *section {
	path := s.path + ".exhaust"
	if e := s.tab.Get("exhaust"); e != nil && e.Value.Kind == toml.IsTable {
		return s.r.section("paths.*.exhaust", path, e.Value.Table, e.Value.Offset, s.selected)
	}
	return s.r.section("paths.*.exhaust", path, nil, s.offset, s.selected)
}

// exhaustShares are the flow of an exhaust port that nobody states, over that of its valve: of low end, nominal value and high end.
type exhaustShares struct {
	least, usual, most float64
	words              string
}

// exhaustFlow reads the flow of an exhaust port, or takes it as a share of the valve's. Where it leads into anything but the open it is
// part of a shot, and must be stated.
func (s *section) exhaustFlow(f, valve *launcher.FlowSpec, share exhaustShares) {
	if len(s.flowFigures()) > 0 || orWord(s.texts["to"], "atmosphere") != "atmosphere" {
		s.flow(f)
		return
	}
	*f = *valve
	own := func(b *launcher.Band) { b.Key = s.dotted(b.Key[strings.LastIndexByte(b.Key, '.')+1:]) }
	of := func(v float64) float64 { return v }
	if f.Form == launcher.OrificeBore || f.Form == launcher.SeatBore {
		of = math.Sqrt // of areas
	}
	if v := f.Value; v.Set {
		own(&f.Value)
		f.Value = assumed(f.Value.Key, of(share.usual)*v.Nominal, of(share.least)*v.Low, of(share.most)*v.High, finding.Words(share.words))
	}
	for _, b := range []*launcher.Band{&f.CriticalRatio, &f.PressureDropRatio, &f.DischargeCoefficient} {
		if b.Set {
			own(b)
			b.Assumed, b.Reason = true, finding.Words("not stated; assumed: as the valve's own")
		}
	}
}

// quickExhaustWay is the way from the outlet of a quick-exhaust valve to its exhaust.
func (s *section) quickExhaustWay(p *launcher.PathSpec) launcher.PathSpec {
	p.Way, p.Other = launcher.QuickInlet, exhaustName(p.Name)
	e := s.exhaustSection()
	out := launcher.PathSpec{Name: p.Other, Way: launcher.QuickOutlet, Other: p.Name, From: p.To, To: orWord(e.texts["to"], "atmosphere"),
		Kind: pneumatics.QuickExhaust, Points: orWord(e.texts["points"], p.Points)}
	e.exhaustFlow(&out.Flow, &p.Flow, exhaustShares{0.5, 1.5, 3, "half of the valve's own flow to three times (" + keys.Practice + ")"})
	out.SeatShare = s.or("seat_share", 0.4, 0.1, 0.8, seatShareWords())
	out.OpensAt = s.or("min_differential", 1e4, 0, 3e4, usual("%s, 0 to %s, a quick-exhaust valve",
		finding.Bars.Of(1e4, 1), finding.Bars.Of(3e4, 1)))
	out.MinDifferential = out.OpensAt
	return out
}

// seatShareWords say what is taken for the seat of a diaphragm of which nobody has looked.
func seatShareWords() finding.Text {
	return usual("the seat has 0.4 of the diaphragm's area, 0.1 to 0.8")
}

// diaphragm reads what a diaphragm valve minds: where it lifts, and where it is fully up. A data sheet promises that it opens above its
// least differential, not that it stays shut below.
func (s *section) diaphragm(p *launcher.PathSpec) {
	if s.texts["drive"] == "direct" {
		s.fault("drive", Problem{Message: "does not belong to " + s.kindWords(), Found: "direct", Want: keys.Quoted([]string{"piloted", "hand"}),
			Hint: `a coil that lifts the seal itself is in a "valve"`})
	}
	least := p.MinDifferential
	p.SeatShare = s.or("seat_share", 0.4, 0.1, 0.8, seatShareWords())
	p.OpensAt = launcher.Band{Set: true, Nominal: least.Nominal / 2, Low: 0, High: least.High, Key: least.Key,
		Origin: least.Origin, Assumed: true,
		Reason: finding.Words("min_differential is what it surely opens at; it may lift at any pressure below")}
	p.FullAt = s.or("full_differential", 2*least.Nominal, 0, 4*least.High, usual("0 to 4 times the least differential"))
	p.PilotInside = s.texts["pilot_vents"] == "outlet"
}

// orWord is a word, or another where it is not said.
func orWord(said, otherwise string) string {
	if said == "" {
		return otherwise
	}
	return said
}

// opposite is where the exhaust goes without power where the inlet goes to p.
func opposite(p pneumatics.Position) pneumatics.Position {
	switch p {
	case pneumatics.Closed:
		return pneumatics.Open
	case pneumatics.Open:
		return pneumatics.Closed
	}
	return pneumatics.Stays
}
