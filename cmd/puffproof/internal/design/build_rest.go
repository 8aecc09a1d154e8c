package design

import (
	"fmt"
	"strings"

	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/toml"
	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/pneumatics"
)

func (r *reader) supply(root *toml.Table) *launcher.SupplySpec {
	e := root.Get("supply")
	if e == nil || e.Value.Kind != toml.IsTable {
		return nil
	}
	s := r.section("supply", "supply", e.Value.Table, e.Value.Table.Offset, "")
	sp := &launcher.SupplySpec{Feeds: s.texts["feeds"], FreeAir: s.band("free_air"), DeadHead: s.band("dead_head"), Curve: s.points,
		RunsIn: pneumatics.SetOf(pneumatics.Charging, pneumatics.Armed, pneumatics.Firing)}
	sp.PumpedTo, sp.RunTime, sp.NoiseLevel = s.band("pumped_to"), s.band("fill_time"), s.band("noise_level")
	if s.texts["fills_from"] == "empty" {
		sp.FromEmpty = launcher.Yes
	}
	s.supplyKind(sp)
	if sp.Kind == launcher.Compressor {
		sp.NoiseLevel = s.or("noise_level", usualPump, quietPump, loudPump, finding.Words("that of small compressors, from a quiet one without "+
			"oil to an inflator that shouts (labels, from memory)"))
	}
	if set, ok := s.states["runs_in"]; ok {
		sp.RunsIn, sp.RunsInStated = set, true
		if set == 0 {
			s.fault("runs_in", Problem{Message: "names no state", Found: "[]", Want: "some of charging, armed, loading, firing",
				Hint: "a supply that never runs fills nothing: leave runs_in out where it runs as usual, or [supply] where the vessel comes filled"})
		}
		if set.Has(pneumatics.Off) {
			s.fault("runs_in", Problem{Message: "a supply never runs in state off", Found: "off", Want: "charging, armed, loading, firing"})
		}
	}
	return sp
}

// supplyKind fills what only some kinds of supply have.
func (s *section) supplyKind(sp *launcher.SupplySpec) {
	behind := func(least, nominal, low, high float64, what string) {
		sp.SourcePressure = s.orReal("source_pressure", least, finding.Bars, assumed(s.dotted("source_pressure"), nominal, low, high,
			usual("%s, %s", what, finding.Bars.Of(low, 3).To(finding.Bars.Of(high, 3)))))
		s.sourceTooWeak(sp)
		sp.RegulatorBore = s.orReal("regulator_bore", leastSeat, finding.Millimetres, assumed(s.dotted("regulator_bore"), 4e-3, 1e-3, 8e-3,
			usual("%s, %s", finding.Millimetres.Of(4e-3, 1), finding.Millimetres.Of(1e-3, 1).To(finding.Millimetres.Of(8e-3, 1)))))
	}
	switch s.selected {
	case "hand pump":
		sp.Kind = launcher.HandPump
		sp.PeakFlow = s.band("peak_flow")
		if !sp.FreeAir.Set && sp.PeakFlow.Set && len(sp.Curve) == 0 {
			p := sp.PeakFlow
			sp.FreeAir = assumed(s.dotted("free_air"),
				p.Nominal/measure.StrokePeak, p.Low/measure.HardStroke, p.High, finding.Words("from peak_flow"))
		}
		f := sp.FreeAir
		if !f.Set && len(sp.Curve) > 0 {
			mean := sp.Curve[0].FreeAir
			f = launcher.Band{Set: true, Low: mean / launcher.UnstatedCurve, Nominal: mean, High: mean * launcher.UnstatedCurve}
		}
		if f.Set {
			peak := assumed(s.dotted("peak_flow"), measure.StrokePeak*f.Nominal, f.Low, measure.HardStroke*f.High,
				usual("%.2g times free_air, 1 to %g times", measure.StrokePeak, measure.HardStroke))
			sp.PeakFlow = s.orReal("peak_flow", leastPeak*f.Nominal, finding.LitresPerMinute, peak)
		}
	case "regulated cylinder":
		sp.Kind = launcher.RegulatedCylinder
		behind(leastCylinder, 200e5, 150e5, 300e5, "a full cylinder")
		s.filledLow(sp)
	case "shop air":
		sp.Kind = launcher.ShopAir
		behind(leastMain, 8e5, 5e5, 16e5, "a main")
	}
}

// The A-weighted level of a compressor of which none is stated, 1 m from it [dB(A)]: from memory of labels, some 50 to 60 on silent ones
// without oil, 75 to 85 on workshop ones, 90 and more on inflators for tyres; wide on purpose, no document.
const (
	quietPump = 50
	usualPump = 80
	loudPump  = 100
)

func (r *reader) gauges(root *toml.Table) []launcher.GaugeSpec {
	var list []launcher.GaugeSpec
	for _, s := range r.tables(root, "gauge", mostGauges) {
		g := launcher.GaugeSpec{On: s.texts["on"], Range: s.band("range"), Class: s.band("class").Nominal, Error: s.band("error"),
			Graduation: s.band("graduation"), StopPin: s.answers["stop_pin"]}
		if s.has("class") && s.has("error") {
			s.fault("error", Problem{Message: "says the same as class", Found: "error", Want: "class or error, not both"})
		}
		if g.Error.High < benchmark.FinestDial*g.Range.Nominal {
			g.Error = launcher.Band{Key: g.Error.Key}
		}
		if mark := g.Range.Nominal / 50; g.Range.Set && !g.Graduation.Set {
			g.Graduation = assumed(s.dotted("graduation"), mark, mark, mark, usual("a fiftieth of the range"))
		}
		list = append(list, g)
	}
	return list
}

// unknownClass is the class of a gauge without one [percent of range].
const unknownClass = 4

func (r *reader) pressureSwitch(root *toml.Table, gauges []launcher.GaugeSpec) *launcher.SwitchSpec {
	s := r.single(root, "pressure_switch", "")
	if s == nil {
		return nil
	}
	sw := &launcher.SwitchSpec{Senses: s.texts["senses"], CutOut: s.band("cut_out"), CutIn: s.band("cut_in"),
		Differential: s.band("differential"),
		ReactionTime: s.orReal("reaction_time", leastReaction, finding.Milliseconds,
			assumed(s.dotted("reaction_time"), 0.1, 0, 0.5, usual("0.1 s, 0 to 0.5 s"))),
		GaugeError: s.band("gauge_error"), Adjustable: s.answers["adjustable"], AdjustableTo: s.band("adjustable_to")}
	if sw.CutIn.Set && !s.stated["cut_in"] && s.stated["cut_out"] {
		sw.CutIn.Low = max(sw.CutIn.Nominal-(sw.CutOut.Nominal-sw.CutOut.Low), 0.1*sw.CutIn.Nominal)
		sw.CutIn.High = sw.CutIn.Nominal + (sw.CutOut.High - sw.CutOut.Nominal)
		sw.CutIn.Assumed, sw.CutIn.Reason = true, usual("no tolerance stated; as wide as cut_out, the same switch")
	}
	if e := sw.GaugeError; e.Set && e.High >= benchmark.FinestDial*sw.CutOut.Nominal {
		e.Low, e.Nominal, e.High = -max(e.Nominal, e.High), 0, max(e.Nominal, e.High)
		sw.GaugeError = e
		return sw
	}
	for _, g := range gauges {
		if g.On == sw.Senses && g.Range.Set {
			size, why := gaugeError(g)
			sw.GaugeError = assumed(s.dotted("gauge_error"), 0, -size, size, finding.Words(why))
			return sw
		}
	}
	if sw.CutOut.Set {
		size := launcher.AssumedGaugeError(sw.CutOut.Nominal)
		sw.GaugeError = assumed(s.dotted("gauge_error"), 0, -size, size, launcher.AssumedGaugeReason())
	}
	return sw
}

// gaugeError gives the largest error of a gauge [Pa] and where it comes from.
func gaugeError(g launcher.GaugeSpec) (float64, string) {
	if g.Error.Set {
		return g.Error.High, "the stated error of the gauge on " + g.On
	}
	if g.Class > 0 {
		return g.Class / 100 * g.Range.Nominal, fmt.Sprintf("class %g of the gauge on %s", g.Class, g.On)
	}
	return unknownClass / 100.0 * g.Range.Nominal, "a gauge of unknown class counts as class 4 (" + keys.Practice + ")"
}

func (r *reader) barrelAndProjectile(root *toml.Table, l *launcher.Launcher) {
	selected := ""
	if s := r.single(root, "barrel", ""); s != nil {
		selected = s.selected
		l.Barrel = barrelSpec(s)
	}
	if s := r.single(root, "projectile", selected); s != nil {
		l.Projectile = projectileSpec(s, l.Barrel.Fit)
	}
}

func barrelSpec(s *section) launcher.BarrelSpec {
	b := launcher.BarrelSpec{Bore: s.band("bore"), Travel: s.band("travel"), TubeOuterDiameter: s.band("tube_outer_diameter"),
		TubeInnerDiameter: s.band("tube_inner_diameter"), Engagement: s.band("engagement"), DeadVolume: s.band("dead_volume"),
		FixedSeat: s.texts["seating"] == "fixed", RatedPressure: s.band("rated_pressure"), RatedForGas: s.answers["rated_for_gas"],
		Material: s.texts["material"], MuzzleAdmits: s.band("muzzle_admits"), ObjectControl: s.lists["object_control"],
		SealGuard: s.texts["seal_guard"], ProofTest: s.texts["proof_test"], MadeOn: s.texts["made_on"], RetireBy: s.texts["retire_by"]}
	if s.selected == "over tube" {
		b.Fit = pneumatics.OverTube
	}
	return b
}

func projectileSpec(s *section, fit pneumatics.Fit) launcher.ProjectileSpec {
	p := launcher.ProjectileSpec{Mass: s.band("mass"), Diameter: s.band("diameter"), InsideDiameter: s.band("inside_diameter"),
		ContactDiameter: s.band("contact_diameter"), Resilient: s.texts["tip"] == "resilient", TipStated: s.texts["tip"] != "",
		TipProof: s.texts["tip_proof"], OpenCell: s.answers["open_cell"], Breakaway: s.band("breakaway_force"), Restart: s.band("restart_force"),
		Clearance: s.band("clearance"), Cup: s.answers["cup"], Drag: s.drag(), Lot: s.texts["lot"],
		MadeOn: s.texts["made_on"], RetireBy: s.texts["retire_by"]}
	p.Sliding = s.band("sliding_force")
	if !p.Sliding.Set && p.Breakaway.Set {
		b := p.Breakaway
		p.Sliding = assumed(s.dotted("sliding_force"), b.Nominal/2, 0, b.High, usual("0 to the breakaway force"))
	}
	if _, said := s.answers["cup"]; !said {
		p.Cup = launcher.No
		if fit == pneumatics.OverTube {
			p.Cup = launcher.Yes
		}
	}
	return p
}

func (r *reader) eventAndMount(root *toml.Table, l *launcher.Launcher) {
	if s := r.single(root, "event", ""); s != nil {
		l.Event = &launcher.EventSpec{Youngest: s.band("youngest"), EarToMuzzle: s.band("ear_to_muzzle"), EyeToMuzzle: s.band("eye_to_muzzle"),
			NearestPerson: s.band("nearest_person"), Kerb: s.band("kerb"), Wheels: s.band("wheels"), MuzzleHeight: s.band("muzzle_height"),
			Elevation: s.band("elevation"), VehicleSpeed: s.band("vehicle_speed"), Wind: s.band("wind"), PeakLevel: s.band("peak_level")}
	}
	r.mount(root, l)
	moving := &l.Mount.MovingAt
	if l.Event != nil && l.Event.VehicleSpeed.Set && (!moving.Set || l.Event.VehicleSpeed.High > moving.High) {
		*moving = l.Event.VehicleSpeed
	}
	if !moving.Set {
		*moving = assumed("mount.moving_at", 0, 0, 0, finding.Words("it stands still"))
	}
}

func (r *reader) mount(root *toml.Table, l *launcher.Launcher) {
	if s := r.single(root, "mount", ""); s != nil {
		l.Mount = launcher.MountSpec{ElevationMin: s.band("elevation_min"), ElevationMax: s.band("elevation_max"), MovingAt: s.band("moving_at"),
			RideOn: s.answers["ride_on"] == launcher.Yes}
		if l.Mount.RideOn && s.tab.Get("moving_at") == nil && !r.Partial {
			s.fault("ride_on", Problem{Key: "mount.moving_at", Message: "missing on a ride-on", Want: "moving_at = " + r.units.Example(`"2 m/s"`),
				Hint: "the vehicle's speed adds to the projectile's"})
		}
	}
}

func (r *reader) rules(root *toml.Table, l *launcher.Launcher) {
	if s := r.single(root, "venting", ""); s != nil {
		l.Venting = &launcher.VentingSpec{Within: s.band("within"),
			Target: s.or("target", 5e3, 5e3, 5e3, finding.Say("%s, this project's own rule", finding.Bars.Of(5e3, 1)))}
	}
	l.Limits.Policy = "conservative"
	if s := r.single(root, "limits", ""); s != nil {
		if p := s.texts["policy"]; p != "" {
			l.Limits.Policy = p
		}
		l.Limits.TotalEnergy, l.Limits.AreaEnergy = s.band("total_energy"), s.band("energy_per_area")
	}
	if s := r.single(root, "model", ""); s != nil {
		off := func(name string) bool {
			none := s.texts[name] == "none"
			if none {
				l.Model.Off = append(l.Model.Off, s.dotted(name))
			}
			return none
		}
		l.Model.Parts = pneumatics.Parts{NoGasInertia: off("gas_inertia"), NoAirAhead: off("air_ahead"),
			NoAfterMuzzle: off("after_muzzle"), NoWallHeat: off("wall_heat")}
	}
}

func (r *reader) objects(root *toml.Table) []launcher.ObjectSpec {
	var list []launcher.ObjectSpec
	for _, s := range r.tables(root, "objects", mostObjects) {
		o := launcher.ObjectSpec{Name: s.texts["name"], Diameter: s.band("diameter"), Mass: s.band("mass"), Length: s.band("length")}
		if d := o.Diameter; !o.Length.Set && d.Set {
			o.Length = assumed(s.dotted("length"), d.Nominal, d.Low, d.High, finding.Words("as long as wide"))
		}
		for _, other := range list {
			if o.Name != "" && strings.EqualFold(other.Name, o.Name) {
				s.fault("name", Problem{Message: "stands twice", Found: o.Name, Want: "each object once"})
			}
		}
		list = append(list, o)
	}
	return list
}

// checklist reads [checklist.ITEM]; an item's name may have dots, quoted or not.
func (r *reader) checklist(root *toml.Table) []finding.Confirmation {
	e := root.Get("checklist")
	if e == nil || e.Value.Kind != toml.IsTable {
		return nil
	}
	var list []finding.Confirmation
	r.answersIn(e.Value.Table, "", &list)
	return list
}

func (r *reader) answersIn(t *toml.Table, prefix string, list *[]finding.Confirmation) {
	for _, e := range t.Entries {
		item := prefix + e.Name
		if e.Value.Kind != toml.IsTable {
			r.Fault(e.Offset, Problem{Key: "checklist." + item, Message: "is not a table", Found: e.Value.Show(),
				Want: "[checklist.ITEM] with who, date, value"})
			continue
		}
		child := e.Value.Table
		if group(child) {
			r.answersIn(child, item+".", list)
			continue
		}
		r.checkItem(item, child.Offset)
		s := r.section("checklist", "checklist."+item, child, child.Offset, "")
		*list = append(*list, finding.Confirmation{Item: item, Who: s.texts["who"], Date: s.texts["date"], Value: s.texts["value"],
			ValidUntil: s.texts["valid_until"],
			Figures:    FiguresIn(s.texts["value"]), Beside: BesideIn(s.texts["value"]), Odd: OddIn(s.texts["value"]),
			Build:  strings.TrimSpace(s.texts["build"]),
			Record: strings.TrimSpace(s.texts["record"])})
	}
}
