package export

import (
	"encoding/json"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/stopwatch"
	"puffproof/limits/vent"
)

// Logs is what logs of real tests say; nil where none was given.
type Logs struct {
	Vent *stopwatch.Answer
	Leak *vent.LeakAnswer
}

// Vent is the document of vent. Times are null where the target is never
// reached.
func Vent(id show.DesignID, r *vent.Report, sizes []vent.Size, logs Logs) (json.RawMessage, error) {
	return show.Document(show.Fields(
		"design", id, "target_gauge_Pa", r.Target, "within_s", show.Finite(r.Within), "start_gauge_Pa", r.Start,
		"energy_left_J", r.Left, "worst_shot_left_J", r.LeftShot,
		"vent", show.List(r.Cases, ventCaseFields), "stopwatch", show.List(r.Tests, stopwatchFields),
		"leak_down", show.List(r.Leaks, leakTestFields),
		"pushes", show.List(r.Pushes, pushFields), "aimed_outlets", show.List(r.Aimed, pushFields),
		"hoses", show.List(r.Hoses, func(h vent.HoseAir) show.Object {
			return show.Fields("path", h.Path, "volume_m3", h.Volume, "empties_with", h.With)
		}),
		"supply_runs_on", show.Maybe(r.RunsOn, runsOnFields),
		"sizes", show.List(sizes, ventSizeFields), "log", show.Maybe(logs.Vent, ventLogFields),
		"leak", show.Maybe(logs.Leak, leakFields),
		"verdicts", show.List(r.Verdicts, verdictFields), "items", show.List(r.Items, itemFields)))
}

func ventCaseFields(c vent.Case) show.Object {
	return show.Fields("scenario", c.Scenario, "kind", c.Kind,
		"from", c.From.String(), "volume", c.Volume, "start_gauge_Pa", c.Start, "status", c.Status, "time_to_target_s", show.Finite(c.Slowest),
		"expected_time_s", show.Finite(c.Expected), "fastest_time_s", show.Finite(c.Fastest), "isothermal_time_s", show.Finite(c.Isothermal),
		"adiabatic_time_s", show.Finite(c.Adiabatic), "trapped", c.Trapped, "keeps_gauge_Pa", show.Finite(c.Keeps), "missing", c.Missing,
		"gauge_after_within_Pa", show.Finite(c.AfterWithin), "rebound_gauge_Pa", c.Rebound, "expected", show.List(c.Sheet, readingFields))
}

// runsOnFields have null for pressures that are not known.
func runsOnFields(r vent.RunsOn) show.Object {
	return show.Fields("rest_gauge_Pa", show.Finite(r.Most), "volume", r.Volume, "empty", r.Empty)
}

func readingFields(r vent.Reading) show.Object {
	return show.Fields("t_s", r.Time, "low_Pa", r.Low, "gauge_Pa", r.Gauge, "high_Pa", r.High)
}

func stopwatchFields(t vent.StopwatchTest) show.Object {
	return show.Fields("volume", t.Volume, "scenario", t.Scenario, "start_low_Pa", t.Low, "start_gauge_Pa", t.Start, "start_high_Pa", t.High,
		"trapped", t.Trapped, "time_to_target_s", show.Finite(t.Slowest), "rebound_gauge_Pa", t.Rebound,
		"expected", show.List(t.Sheet, readingFields))
}

func pushFields(p vent.BarrelPush) show.Object {
	return show.Fields("scenario", p.Scenario, "path", p.Path, "outcome", p.Outcome, "final_speed_m_s", p.Speed, "final_energy_J", p.Energy,
		"judged_energy_J", p.Judged, "is_a_bound", p.Bound, "points", show.Said(p.Points))
}

func ventSizeFields(z vent.Size) show.Object {
	return show.Fields("volume", z.Volume, "path", z.Path, "bore_now_m", show.Finite(z.Now),
		"least_bore_m", show.Finite(z.Least), "drill_m", show.Finite(z.Drill), "time_to_target_s", show.Finite(z.Time),
		"loss_m3_s", show.Finite(z.Loss), "delivery_m3_s", show.Finite(z.Delivery), "balance_gauge_Pa", show.Finite(z.Balance))
}

func ventLogFields(a stopwatch.Answer) show.Object {
	return show.Fields("status", a.Status, "says", a.Says,
		"volume", a.Volume, "runs", a.Runs, "readings", a.Count, "hidden", a.Hidden, "opening_share", show.Finite(a.Opening),
		"opening_low", a.Low, "opening_high", a.High, "path", a.Path, "effective_bore_m", show.Finite(a.Bore),
		"discharge_coefficient", show.Finite(a.Cd), "gauge_zero_Pa", a.Zero, "rms_Pa", a.RMS, "resolution_Pa", a.Resolves,
		"fitted_zero_Pa", show.Finite(a.FreeZero), "end_gauge_Pa", a.End, "time_to_target_s", show.Finite(a.Duration))
}

func leakTestFields(t vent.LeakTest) show.Object {
	return show.Fields("volume", t.Volume, "open_while_armed", show.Said(t.Opens), "start_low_Pa", t.Low, "start_gauge_Pa", t.Start,
		"start_high_Pa", t.High,
		"fill_time_s", show.Finite(t.Fill), "cooling_over_s", t.Settled, "cooling_expected_Pa", t.Falls, "cooling_most_Pa", t.FallsMost,
		"read_for_s", show.Finite(t.Needed), "hidden_loss_a_minute_Pa", t.Loses, "expected", show.List(t.Sheet, readingFields))
}

// leakFields are the answer to a leak-down log; null figures are not known, or have
// no bound.
func leakFields(a vent.LeakAnswer) show.Object {
	size := func(s vent.LeakSize) show.Object {
		return show.Fields("effective_bore_m", show.Finite(s.Bore()), "first_minute_Pa", show.Finite(s.Minute),
			"free_air_m3_s", show.Finite(s.Air))
	}
	return show.Fields("status", a.Status,
		"says", a.Says, "volume", a.Volume, "runs", a.Runs, "readings", a.Count, "hidden", a.Hidden, "resolution_Pa", a.Resolves,
		"room_drift_Pa", a.Drift, "cooling_over_s", show.Finite(a.Settled), "cooling_most_Pa", show.Finite(a.Cooling),
		"read_for_s", show.Finite(a.Needed), "rms_Pa", show.Finite(a.RMS), "least", size(a.Least), "likeliest", size(a.Bore),
		"most", size(a.Most), "restart_after_s", show.Finite(a.Restart), "may_go", show.List(a.Past, func(p vent.LeakPast) show.Object {
			return show.Fields("path", p.Path, "to", p.To, "moves_projectile_at_Pa", p.Hold, "moves_projectile_after_s", show.Finite(p.Fills))
		}))
}
