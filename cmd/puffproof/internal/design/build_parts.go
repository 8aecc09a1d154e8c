package design

import (
	"math"
	"slices"

	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/toml"
	"puffproof/limits/doubt"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

func (r *reader) ambientSpec(root *toml.Table) launcher.AmbientSpec {
	s := r.orEmpty(root, "ambient")
	return launcher.AmbientSpec{
		Pressure: s.or("pressure", 101325, 97325, 105325, usual("%s ± %s, the weather's usual range at sea level",
			finding.Hectopascals.Of(101325, 6), finding.Hectopascals.Of(4000, 2))),
		Temperature: s.or("temperature", 288.15, 268.15, 313.15, usual("%s -%s/+%s", keys.Celsius(15), finding.Kelvins.Of(20, 2).Beside(),
			finding.Kelvins.Of(25, 2))),
		Hottest: s.or("hottest", 323.15, 323.15, 323.15, usual("%s, a dark float in the sun; a closed car reaches %s", keys.Celsius(50),
			keys.Celsius(60).Beside())),
		Coldest: s.or("coldest", 268.15, 268.15, 268.15, usual("%s, a winter parade", keys.Celsius(-5))),
	}
}

// orEmpty reads a table, or gives a section without keys.
func (r *reader) orEmpty(root *toml.Table, name string) *section {
	if s := r.single(root, name, ""); s != nil {
		return s
	}
	return &section{r: r, row: r.keys.Row(name), path: name, bands: map[string]launcher.Band{}}
}

// gas reads [gas]; nitrogen needs a supply that can hold it.
func (r *reader) gas(root *toml.Table) string {
	s := r.orEmpty(root, "gas")
	name := s.texts["name"]
	if name == "" {
		return "air"
	}
	supply := root.Get("supply")
	if name == "nitrogen" && !r.Partial && (supply == nil || supply.Value.Kind != toml.IsTable || textOf(supply.Value.Table,
		"kind") != "regulated cylinder") {
		s.fault("name", Problem{Message: "needs a supply that holds it", Found: name, Want: `"air", or a [supply] of kind "regulated cylinder"`})
	}
	return name
}

func textOf(t *toml.Table, key string) string {
	if e := t.Get(key); e != nil && e.Value.Kind == toml.IsString {
		return e.Value.Text
	}
	return ""
}

func (r *reader) volumes(root *toml.Table) []launcher.VolumeSpec {
	var list []launcher.VolumeSpec
	for _, s := range r.named(root, "volumes", mostVolumes) {
		v := launcher.VolumeSpec{Name: s.path[len("volumes."):], Volume: s.band("volume"), RatedPressure: s.band("rated_pressure"),
			RatedForGas: s.answers["rated_for_gas"], Material: s.texts["material"], ProofTest: s.texts["proof_test"],
			FilledTo: s.band("filled_to"), FillerReaches: s.band("filler_reaches"), MadeOn: s.texts["made_on"], RetireBy: s.texts["retire_by"]}
		// A cylinder of length 3 D holds 3 pi D^3/4.
		cylinder := func(volume float64) float64 { return math.Cbrt(4 * volume / (3 * math.Pi)) }
		v.InnerDiameter = s.or("inner_diameter", cylinder(v.Volume.Nominal), cylinder(v.Volume.Low), cylinder(v.Volume.High),
			usual("a lying cylinder three diameters long"))
		list = append(list, v)
	}
	return list
}

func (r *reader) paths(root *toml.Table) []launcher.PathSpec {
	var list []launcher.PathSpec
	for _, s := range r.named(root, "paths", mostPaths) {
		p := launcher.PathSpec{Name: s.path[len("paths."):], From: s.texts["from"], To: s.texts["to"], Kind: pathKind(s.selected),
			OpenIn: s.states["open_in"], Unpowered: position(s.texts["unpowered"]), Points: s.texts["points"]}
		if p.Points == "" {
			p.Points = "unknown"
		}
		s.flow(&p.Flow)
		s.hose(&p)
		s.moving(&p)
		s.minding(&p)
		others := s.otherWays(&p)
		list = append(append(list, p), others...)
	}
	return list
}

func pathKind(word string) pneumatics.PathKind {
	for k := pneumatics.Orifice; k <= pneumatics.Regulator; k++ {
		if k.String() == word {
			return k
		}
	}
	switch word {
	case keys.ThreeWay, keys.Diaphragm:
		return pneumatics.Valve
	case keys.QuickExhaust:
		return pneumatics.Check // its inlet; its exhaust is a way of its own
	}
	return pneumatics.Orifice
}

func position(word string) pneumatics.Position {
	switch word {
	case "open":
		return pneumatics.Open
	case "stays":
		return pneumatics.Stays
	}
	return pneumatics.Closed
}

// hose reads the hose of a path.
func (s *section) hose(p *launcher.PathSpec) {
	e := s.tab.Get("hose")
	if e == nil || e.Value.Kind != toml.IsTable {
		return
	}
	h := s.r.section("paths.*.hose", s.path+".hose", e.Value.Table, e.Value.Offset, "")
	p.Hose = &launcher.HoseSpec{Bore: h.band("bore"), Length: h.band("length"), RatedPressure: h.band("rated_pressure"),
		Material:    h.texts["material"],
		Conductance: assumed(h.dotted("conductance"), 1, 0.9, 1.1, finding.Words("the hose formula holds to ± 10 % (from memory)"))}
	if h.texts["side"] == "after" {
		p.Hose.Side = launcher.HoseAfter
	}
}

// moving reads what valves need that are moved by current or by hand.
func (s *section) moving(p *launcher.PathSpec) {
	p.Piloted = s.texts["drive"] == "piloted" || s.selected == keys.Diaphragm
	p.OwnBore = s.selected == "hand valve" && s.texts["drive"] != "" && !p.Piloted
	if !slices.Contains([]string{"valve", "hand valve", keys.Diaphragm, keys.ThreeWay}, s.selected) {
		return
	}
	if s.texts["drive"] == "hand" {
		s.byHand(p)
	}
	longest, what := 0.15, "0 to 150 ms, a piloted valve or one that is not said to be direct"
	switch {
	case p.Kind == pneumatics.HandValve:
		p.Unpowered = pneumatics.Stays
		longest, what = 0.30, "0 to 300 ms, a hand lever"
	case s.texts["drive"] == "direct":
		longest, what = 0.04, "0 to 40 ms, a direct valve"
	}
	p.OpeningTime = s.or("opening_time", longest/2, 0, longest, usual("%s", what))
	if p.Kind != pneumatics.HandValve {
		p.Usual = longest
		doubt.Opening(p)
	}
	o := p.OpeningTime
	p.ClosingTime = s.or("closing_time", o.Nominal, o.Low, o.High, usual("the same as the opening time"))
	p.Pulse = s.band("pulse")
	doubt.Pulse(p)
	p.MinDifferential = s.band("min_differential")
	if p.Piloted && !p.MinDifferential.Set {
		p.MinDifferential = assumed(s.dotted("min_differential"), 5e4, 5e4, 5e4, usual("%s, a piloted valve", finding.Bars.Of(5e4, 1)))
	}
	if s.selected == keys.Diaphragm {
		s.diaphragm(p)
	}
}

// byHand makes a path one that a person moves.
func (s *section) byHand(p *launcher.PathSpec) {
	switch {
	case s.selected == "valve":
		s.fault("drive", Problem{Message: "does not belong to " + s.kindWords(), Found: "hand", Want: keys.Quoted([]string{"direct", "piloted"}),
			Hint: `what a person moves is a "hand valve"`})
	case s.texts["unpowered"] != "" && p.Unpowered != pneumatics.Stays:
		s.fault("unpowered", Problem{Message: "a valve that a person moves needs no power", Found: s.texts["unpowered"], Want: `"stays"`})
	}
	p.Kind = pneumatics.HandValve
}

// minding reads what check valves, regulators and relief valves need.
func (s *section) minding(p *launcher.PathSpec) {
	switch s.selected {
	case "check", keys.QuickExhaust:
		p.CrackingPressure = s.or("cracking_pressure", 5e3, 0, 2e4, usual("%s, %s", finding.Bars.Of(5e3, 1), finding.Bars.Of(0,
			1).To(finding.Bars.Of(2e4, 1))))
	case "regulator":
		p.SetPressure = s.band("set_pressure")
		set := p.SetPressure.Nominal
		p.Droop = s.or("droop", 0.1*set, 0.02*set, 0.3*set, usual("0.1 times the set pressure, 0.02 to 0.3"))
		p.Creep = s.orReal("creep", leastCreep*set, finding.Bars,
			assumed(s.dotted("creep"), 0.1*set, 0, 0.3*set, usual("0.1 times the set pressure, 0 to 0.3")))
		p.Relieving = s.answers["relieving"] == launcher.Yes
	case "relief":
		s.relief(p)
	}
}

// relief fills set, full flow and reseat. What is not stated, value or tolerance, shifts with the set pressure.
func (s *section) relief(p *launcher.PathSpec) {
	p.SetPressure = s.band("set_pressure")
	set := p.SetPressure
	full := func(v float64) float64 { return math.Max(1.1*v, v+1e4) }
	// The upper end is the builder's rule for hobby valves without a bench test.
	p.FullFlowPressure = s.shifted("full_flow_pressure", set, full(set.Nominal), full(set.Low), 1.5*set.High+1e4,
		usual("the larger of 1.1 times set and set + %s, at most 1.5 times the highest set + %s", finding.Bars.Of(1e4, 1), finding.Bars.Of(1e4,
			1)))
	p.ReseatPressure = s.shifted("reseat_pressure", set, 0.85*set.Nominal, 0.85*set.Low, 0.85*set.High,
		usual("0.85 times the set pressure"))
}

// shifted gives a pressure of a relief valve: as stated, as stated and shifted with the set pressure, or assumed.
func (s *section) shifted(name string, set launcher.Band, nominal, low, high float64, what finding.Text) launcher.Band {
	instead := assumed(s.dotted(name), nominal, low, high, what)
	b := s.band(name)
	switch {
	case !s.has(name):
		return instead
	case name == "full_flow_pressure" && b.Nominal >= set.Nominal && b.Nominal <= (1+leastLift)*set.Nominal*(1+1e-9):
		return s.tooGood(b, finding.Bars, instead)
	}
	if !s.stated[name] {
		b.Low, b.High = b.Nominal-(set.Nominal-set.Low), b.Nominal+(set.High-set.Nominal)
		b.Assumed, b.Reason = true, finding.Words("no tolerance stated; shifts with the set pressure")
	}
	return b
}
