package export

import (
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/budget"
	"puffproof/limits/worst"
)

// budgetFields are what the judged energy is made of.
func budgetFields(r budget.Report) show.Object {
	return show.Fields("steps", show.List(r.Steps, func(s budget.Step) show.Object {
		return show.Fields("what", s.What, "energy_J", s.Energy, "leaves", s.Leaves)
	}), "tolerances", show.List(r.Shares, func(s budget.Share) show.Object {
		return show.Fields("key", s.Key, "nominal", s.Nominal, "at", s.At, "assumed", s.Assumed, "energy_J", s.Energy)
	}), "weakest", weakestFields(r.Weakest), "weakest_tolerances", show.List(r.Slow, func(s budget.Share) show.Object {
		return show.Fields("key", s.Key, "nominal", s.Nominal, "at", s.At, "assumed", s.Assumed, "speed_m_s", s.Speed)
	}))
}

// weakestFields are null where no working pressure is known.
func weakestFields(w worst.Weakest) show.Object {
	if !w.Known {
		return nil
	}
	outcome := show.OutcomeStalled
	if w.Leaves {
		outcome = show.OutcomeLeft
	}
	return show.Fields("outcome", outcome, "final_speed_m_s", onlyWhere(w.Leaves)(w.Speed), "start_gauge_Pa", w.Start)
}
