package export

import (
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/sound"
)

// soundFields are how loud a shot is: peak levels in dB re 20 uPa, C-weighted; null where a source is silent or not
// known.
func soundFields(r sound.Report) show.Object {
	return show.Fields("ears", show.List(r.Ears, earFields), "at_0_5_m", earFields(r.Near),
		"sources", show.List(r.Sources, func(s sound.Source) show.Object {
			return show.Fields("id", s.ID, "name", s.Name, "expected_at_1_m_dB", show.Finite(s.Expected), "upper_at_1_m_dB", show.Finite(s.Upper))
		}),
		"left_behind_Pa", show.Finite(r.Excess), "left_behind_most_Pa", show.Finite(r.Most),
		"recorded", show.Maybe(r.Recorded, func(rec sound.Recording) show.Object {
			return show.Fields("origin", rec.Origin.String(), "level_dB", rec.Level, "high_dB", rec.High, "tolerances_dB", rec.Spread, "upper_dB",
				rec.Upper,
				"model_expected_dB", show.Finite(rec.Model.Expected), "model_upper_dB", show.Finite(rec.Model.Upper))
		}),
		"changes", show.List(r.Changes, func(c sound.Change) show.Object {
			return show.Fields("change", c.What, "upper_dB", show.Finite(c.Upper))
		}),
		"notes", r.Notes, "runs", r.Runs)
}

func earFields(e sound.Ear) show.Object {
	return show.Fields("who", e.Who, "distance_m", e.Distance, "nearest_m", e.Nearest, "expected_dB", show.Finite(e.Expected),
		"upper_dB", show.Finite(e.Upper), "by", e.By)
}
