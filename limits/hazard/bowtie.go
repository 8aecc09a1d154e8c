package hazard

import (
	"slices"

	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// Tie is a bow-tie: what can bring a top event about, what stands before it, what stands behind it, and the harm. It is made of
// the single faults and of the hazard log, and judges nothing of its own.
type Tie struct {
	ID      string
	Event   string // the top event
	Threats []Threat
	Before  []Barrier // stand before the event, whatever brings it about
	Behind  []Barrier // stand between the event and the harm
	Harms   []Entry   // of the hazard log
}

// Threat is a single fault that can bring a top event about.
type Threat struct {
	Fault fault.Result
	// Item is that of the checklist which holds or reveals it, with its state; "" there is none of its own.
	Item string
	Done bool
}

// Barrier is a measure of a hazard that stands before an event or behind it.
type Barrier struct {
	Hazard string // its identifier
	Held
}

// event is a row of the table of top events. A measure stands before the event or behind it by its hazard and its step.
type event struct {
	id, what       string
	by             func(r *fault.Result) bool
	before, behind []part
	harms          []string
}

// part are the measures of a hazard at some steps.
type part struct {
	hazard string
	steps  []Step
}

// events is the table of top events.
func events() []event {
	all := []Step{Design, Guard, Information}
	people := part{"eye", []Step{Guard, Information}}
	return []event{{
		id: "harder", what: "A shot with more energy than in normal use",
		by:     func(r *fault.Result) bool { return r.Effect == fault.ChangesShot },
		before: []part{{"overpressure", []Step{Guard}}, {"altitude", []Step{Design}}},
		behind: []part{{"eye", []Step{Design}}, people}, harms: []string{"eye"},
	}, {
		id: "unasked", what: "It fires although nobody gave the command",
		by:     func(r *fault.Result) bool { return r.Effect == fault.FiresUnasked },
		before: []part{{"unasked", all}, {"link", all}}, behind: []part{{"eye", []Step{Design, Information}}}, harms: []string{"unasked", "link"},
	}, {
		id: "pressure", what: "The pressure goes above what the launcher is set to",
		by: func(r *fault.Result) bool {
			return slices.Contains([]fault.Mode{fault.SwitchWelded, fault.SwitchEndStop, fault.ReadsLow, fault.RunsOn, fault.OverPumped,
				fault.TimerFails, fault.OverFilled, fault.FailedOpen, fault.Creeps, fault.ReliefStuckShut, fault.SetTooHigh}, r.Mode)
		},
		before: []part{{"overpressure", []Step{Guard}}}, behind: []part{{"overpressure", []Step{Design}}, {"burst", all}},
		harms: []string{"burst", "overpressure"},
	}, {
		id: "trapped", what: "Air stays in it after it is switched off",
		by: func(r *fault.Result) bool {
			return r.RevealedBy == finding.ItemVentTest || r.HeldBy == finding.ItemSupplyOff || r.Mode == fault.RunsOn ||
				r.HeldBy == finding.ItemLoadingWait || r.HeldBy == finding.ItemKeyAndStop || r.Mode == fault.NotOpened || r.Mode == fault.Blocked
		},
		before: []part{{"trapped", []Step{Design}}},
		behind: []part{{"trapped", []Step{Guard, Information}}, {"unattended", []Step{Information}}, {"transport", []Step{Information}}},
		harms:  []string{"trapped", "unattended", "transport"},
	}, {
		id: "stuck", what: "A projectile is stuck with air behind it",
		by: func(r *fault.Result) bool {
			return r.Mode == fault.Jammed || r.Mode == fault.StickyBall || r.Mode == fault.FrozenIn || r.Freed > 0
		},
		before: []part{{"jam", []Step{Design}}}, behind: []part{{"jam", []Step{Information}}, people}, harms: []string{"jam"},
	}, {
		id: "object", what: "Something else than one dry projectile is in the barrel",
		by: func(r *fault.Result) bool {
			return r.Mode == fault.HeavyBall || r.Mode == fault.Soaked || r.Mode == fault.TwoLoaded || r.Mode == fault.MuzzlePlugged ||
				r.RevealedBy == finding.ItemMuzzleAdmits
		},
		before: []part{{"other-object", all}}, behind: []part{people}, harms: []string{"other-object"},
	}}
}

// Ties are the bow-ties of a launcher, from its single faults and its hazard log. A top event that no single fault of this launcher
// brings about has none.
func Ties(l *launcher.Launcher, verdicts []finding.Verdict, items []finding.Item, faults *fault.Report) []Tie {
	if faults == nil {
		return nil
	}
	log := Log(l, verdicts, items)
	var out []Tie
	for _, e := range events() {
		t := Tie{ID: e.id, Event: e.what, Before: barriers(log, e.before), Behind: barriers(log, e.behind)}
		for i := range faults.Faults {
			if r := &faults.Faults[i]; e.by(r) {
				t.Threats = append(t.Threats, threatOf(r, items))
			}
		}
		for _, h := range log {
			if slices.Contains(e.harms, h.ID) {
				t.Harms = append(t.Harms, h)
			}
		}
		if len(t.Threats) > 0 {
			out = append(out, t)
		}
	}
	return out
}

// threatOf is a fault with the item that holds it, or reveals it.
func threatOf(r *fault.Result, items []finding.Item) Threat {
	t := Threat{Fault: *r}
	for _, id := range []string{r.HeldBy, r.RevealedBy} {
		if i := finding.IndexOfItem(items, id); id != "" && i >= 0 && t.Item == "" {
			t.Item, t.Done = id, items[i].Done != nil
		}
	}
	return t
}

// barriers are the measures of a log that parts name.
func barriers(log []Entry, parts []part) []Barrier {
	var out []Barrier
	for _, p := range parts {
		for i := range log {
			if log[i].ID != p.hazard {
				continue
			}
			for _, h := range log[i].Held {
				if slices.Contains(p.steps, h.Step) {
					out = append(out, Barrier{Hazard: p.hazard, Held: h})
				}
			}
		}
	}
	return out
}
