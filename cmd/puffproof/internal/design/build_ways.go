package design

import (
	"math"
	"strings"

	"puffproof/cmd/puffproof/internal/toml"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// A part with two ways is written in one table and becomes two paths, of which each
// names the other: the circuit, and all that is asked of it, knows paths only.

// isThreeWay tells whether a word is the kind of a three-way valve.
func isThreeWay(kind string) bool { return kind == threeWay }

// otherWays gives the further paths of a part.
func (s *section) otherWays(p *launcher.PathSpec) []launcher.PathSpec {
	if isThreeWay(s.selected) {
		return []launcher.PathSpec{s.threeWayExhaust(p)}
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
	e.exhaustFlow(&out.Flow, &p.Flow)
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

// The flow of an exhaust port that nobody states, over that of its valve.
const (
	exhaustLeast, exhaustUsual = 0.25, 0.7
	exhaustWords               = "a quarter of the valve's own flow to all of it (" + practice + ")"
)

// exhaustFlow reads the flow of an exhaust port, or takes it as a share of the valve's.
func (s *section) exhaustFlow(f, valve *launcher.FlowSpec) {
	if len(s.flowFigures()) > 0 {
		s.flow(f)
		return
	}
	*f = *valve
	own := func(b *launcher.Band) { b.Key = s.dotted(b.Key[strings.LastIndexByte(b.Key, '.')+1:]) }
	share := func(v float64) float64 { return v }
	if f.Form == launcher.OrificeBore || f.Form == launcher.SeatBore {
		share = func(v float64) float64 { return math.Sqrt(v) } // of areas
	}
	if f.Value.Set {
		own(&f.Value)
		f.Value = assumed(f.Value.Key, share(exhaustUsual)*f.Value.Nominal, share(exhaustLeast)*f.Value.Low, f.Value.High,
			finding.Words(exhaustWords))
	}
	for _, b := range []*launcher.Band{&f.CriticalRatio, &f.PressureDropRatio, &f.DischargeCoefficient} {
		if b.Set {
			own(b)
			b.Assumed, b.Reason = true, finding.Words("not stated; assumed: as the valve's own")
		}
	}
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
