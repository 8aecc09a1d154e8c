package design

import (
	"math"
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// Assumed bands of flow figures. ISO 6358 and IEC 60534 name the quantities;
// the bands bracket what valves and drilled holes were seen to have (from
// memory): choked discharge of drilled holes 0.56 to 0.86.
const (
	ratioWords   = "b 0.35, 0.2 to 0.5 (" + keys.Practice + ")"
	nominalWords = "b 0.3, 0.2 to 0.528 (" + keys.Practice + ")"
	dropWords    = "xT 0.7, 0.5 to 0.8 (" + keys.Practice + ")"
	holeWords    = "Cd 0.75, 0.60 to 0.90 for a drilled hole (from memory)"
	seatWords    = "Cd 0.5, 0.25 to 1 for a valve known by its seat only (" + keys.Practice + ")"
	reliefWords  = "Cd 0.62, 0.50 to 0.75 for a relief valve (from memory)"
)

// flow reads the one flow figure of a path and what belongs to it.
func (s *section) flow(f *launcher.FlowSpec) {
	if s.selected == "" || s.selected == "hose" {
		return
	}
	found := s.flowFigures()
	switch {
	case len(found) == 0 && !s.r.Partial && s.flowAsked():
	case len(found) == 0 && !s.r.Partial:
		s.fault("", Problem{Key: s.path, Message: "has no flow figure", Want: "exactly one of " + strings.Join(keys.FlowWords(), ", "),
			Hint: "with no data at all, measure the bore of the seat: seat_bore"})
	case len(found) > 1:
		s.fault(found[1], Problem{Message: "is a second flow figure", Found: found[0] + " and " + found[1],
			Want: "exactly one of " + strings.Join(keys.FlowWords(), ", ")})
	}
	if len(found) == 0 {
		return
	}
	f.Form, f.Value, f.Removable = flowForm(found[0]), s.band(found[0]), s.answers["orifice_removable"]
	s.flowShape(f)
	s.flowExtras(found[0])
}

// flowFigures are the flow figures that stand in the section.
func (s *section) flowFigures() (found []string) {
	if s.tab == nil {
		return nil
	}
	for _, e := range s.tab.Entries {
		if slices.Contains(keys.FlowWords(), e.Name) && s.asked[e.Name] == nil {
			found = append(found, e.Name)
		}
	}
	return found
}

// flowAsked reports a flow figure that is not known where no other stands; false where none was asked.
func (s *section) flowAsked() bool {
	for _, name := range keys.FlowWords() {
		if e := s.asked[name]; e != nil {
			k := s.r.keys.Index[s.row.Name][name]
			s.wrong(k, e.Value.Offset, Problem{Message: "has to be known", Found: keys.NotKnown,
				Want: "exactly one of " + strings.Join(keys.FlowWords(), ", "),
				Hint: "with no data at all, measure the bore of the seat and write seat_bore; " + k.TeachIn(s.r.units)})
			return true
		}
	}
	return false
}

func flowForm(name string) launcher.FlowForm {
	return map[string]launcher.FlowForm{"sonic_conductance": launcher.SonicConductance, "Cv": launcher.FlowCv, "Kv": launcher.FlowKv,
		"nominal_flow": launcher.NominalFlow, "orifice": launcher.OrificeBore, "seat_bore": launcher.SeatBore}[name]
}

// flowShape fills the figures beside the flow figure, stated or assumed.
func (s *section) flowShape(f *launcher.FlowSpec) {
	switch f.Form {
	case launcher.SonicConductance:
		f.CriticalRatio = s.or("critical_ratio", 0.35, 0.2, 0.5, finding.Words(ratioWords))
	case launcher.FlowCv, launcher.FlowKv:
		f.CriticalRatio = s.or("critical_ratio", 0.35, 0.2, 0.5, finding.Words(ratioWords))
		f.PressureDropRatio = s.or("pressure_drop_ratio", 0.7, 0.5, 0.8, finding.Words(dropWords))
	case launcher.NominalFlow:
		f.CriticalRatio = s.or("critical_ratio", 0.3, 0.2, 0.528, finding.Words(nominalWords))
	case launcher.SeatBore:
		f.DischargeCoefficient = s.discharge(0.5, 0.25, 1, seatWords)
	case launcher.OrificeBore:
		if s.selected == "relief" {
			f.DischargeCoefficient = s.discharge(0.62, 0.50, 0.75, reliefWords)
		} else {
			f.DischargeCoefficient = s.discharge(0.75, 0.60, 0.90, holeWords)
		}
	}
}

// discharge gives the discharge coefficient. One that is stated without a tolerance gets ± 0.10 and, unless it was measured, the whole band
// of its kind of hole as well: a textbook figure is no better known than none.
func (s *section) discharge(nominal, low, high float64, words string) launcher.Band {
	const name = "discharge_coefficient"
	if !s.has(name) {
		return assumed(s.dotted(name), nominal, low, high, finding.Words(words))
	}
	b := s.band(name)
	if s.stated[name] {
		return b
	}
	b.Low, b.High = math.Max(b.Nominal-0.10, 0.05), math.Min(b.Nominal+0.10, 1)
	b.Assumed, b.Reason = true, usual("no tolerance stated; default ± 0.10")
	if b.Origin != launcher.Measured {
		b.Low, b.High = math.Min(b.Low, low), math.Max(b.High, high)
		b.Reason = finding.Words("no tolerance stated; default ± 0.10, widened to " + words)
	}
	return b
}

// flowExtras refuses figures that have no part in the flow figure.
func (s *section) flowExtras(form string) {
	goes := map[string][]string{
		"critical_ratio":        {"sonic_conductance", "Cv", "Kv", "nominal_flow"},
		"pressure_drop_ratio":   {"Cv", "Kv"},
		"discharge_coefficient": {"orifice", "seat_bore"},
		"orifice_removable":     {"orifice"},
	}
	for _, extra := range []string{"critical_ratio", "pressure_drop_ratio", "discharge_coefficient", "orifice_removable"} {
		if s.has(extra) && !slices.Contains(goes[extra], form) {
			s.fault(extra, Problem{Message: "does not belong to " + form, Found: extra, Want: extra + " beside " + strings.Join(goes[extra], ", ")})
		}
	}
}
