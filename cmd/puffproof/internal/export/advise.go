package export

import (
	"encoding/json"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/advise"
	"puffproof/limits/finding"
)

// Advise is the document of advise.
func Advise(id show.DesignID, a advise.Answer, declare show.Declarations) (json.RawMessage, error) {
	return show.Document(show.Fields("design", id, "advice", show.Fields("found", len(a.Ways) > 0, "reaches_goal", a.Reaches,
		"short_of_goal", show.Said(a.Short.String()), "stopped", show.Said(a.Stopped.String()),
		"worth_measuring", worthMeasuring(a.Worth),
		"why_not", show.Said(a.WhyNot.String()), "instead", show.Said(a.Instead.String()),
		"ways", show.List(a.Ways, func(w advise.Way) show.Object { return wayFields(w, declare) }))))
}

func worthMeasuring(list []finding.Text) []string {
	out := []string{}
	for _, t := range list {
		out = append(out, t.String())
	}
	return out
}

func wayFields(w advise.Way, declare show.Declarations) show.Object {
	holds := w.Written.Holds
	if declare == show.WithDeclarations {
		holds = w.Report.Holds
	}
	shot := func(s advise.Shot) show.Object {
		outcome, left := "stalled", onlyWhere(s.Leaves)
		if s.Leaves {
			outcome = show.OutcomeLeft
		}
		return show.Fields("outcome", outcome, "final_speed_m_s", left(s.Speed), "apex_m", left(s.Apex), "range_m", left(s.Range))
	}
	return show.Fields("changes", show.List(w.Steps, stepFields), "declarations", show.List(w.Declarations, stepFields), "holds", holds,
		"holds_if_declared", w.Report.Holds, "nominal", shot(w.Nominal), "weakest", shot(w.Weakest), "judged_energy_J", w.Judged,
		"limit_J", w.Limit, "least_margin", w.Margin, "parts", w.Parts, "template_figures", asIs(w.Template))
}

func stepFields(s advise.Step) show.Object {
	return show.Fields("key", s.Key, "old", show.Said(s.Old), "new", s.To.Text(), "why", s.Why, "without_it", show.Said(s.Buys.String()))
}
