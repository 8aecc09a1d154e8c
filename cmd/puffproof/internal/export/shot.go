package export

import (
	"encoding/json"

	"puffproof/cmd/puffproof/internal/selfcheck"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/budget"
	"puffproof/limits/measure"
	"puffproof/limits/setpoint"
)

// Shot is the document of shot. Muzzle and final figures are null unless the
// projectile left, the figures of a rest are null if it did.
func Shot(v show.ShotView) (json.RawMessage, error) {
	left, rests, stalled := onlyWhere(v.Outcome == show.OutcomeLeft), onlyWhere(v.Outcome != show.OutcomeLeft),
		onlyWhere(v.Outcome == show.OutcomeStalled)
	shot := show.Fields("outcome", v.Outcome, "muzzle_speed_m_s", left(v.MuzzleSpeed),
		"muzzle_energy_J", left(v.MuzzleEnergy), "final_speed_m_s", left(v.FinalSpeed), "final_energy_J", left(v.FinalEnergy),
		"energy_per_contact_area_J_m2", onlyWhere(v.Outcome == show.OutcomeLeft && v.ContactArea > 0)(v.AreaEnergy),
		"exit_time_s", left(v.ExitTime), "barrel_peak_gauge_Pa", v.PeakGauge, "barrel_exit_gauge_Pa", left(v.ExitGauge),
		"gauge_after_Pa", show.GaugeMap(v.After), "ceiling_energy_J", v.Ceiling, "mass_residual", v.MassResidual,
		"energy_residual", v.EnergyResidual,
		"rest_travel_m", rests(v.RestTravel), "rest_gauge_Pa", rests(v.RestGauge), "freed_energy_J", stalled(v.Freed),
		"energy_account", show.List(v.Account, func(a budget.Entry) show.Object { return show.Fields("name", a.Name, "energy_J", a.Energy) }),
		"highest_over_seats", show.Maybe(v.Highest, figureFields), "series", seriesFields(v.Series))
	return show.Document(show.Fields("design", v.Design, "start", show.Fields("gauge_Pa", show.GaugeMap(v.Start)), "shot", shot,
		"why", v.Why, "notes", v.Notes, "wave_model", show.Maybe(v.Wave, waveFields)))
}

func seriesFields(s show.Series) show.Object {
	n := s.Length()
	return show.Fields("time_s", s.Time[:n], "travel_m", s.Travel[:n], "speed_m_s", s.Speed[:n], "barrel_gauge_Pa", s.Gauge[:n])
}

// Flight is the document of flight.
func Flight(id show.DesignID, r *measure.FlightReport) (json.RawMessage, error) {
	flight := show.Fields(
		"cases", show.List(r.Cases, func(c measure.FlightCase) show.Object {
			return show.Fields("name", c.Name, "speed_m_s", c.Speed, "elevation_rad", c.Elevation, "wind_m_s", c.Wind, "moving_m_s", c.Moving,
				"apex_m", c.Apex, "distance_m", c.Distance, "from_vehicle_m", c.FromVehicle, "time_s", c.Time,
				"impact_speed_m_s", c.Impact, "impact_energy_J", c.ImpactEnergy)
		}), "fastest_speed_m_s", r.Fast, "muzzle_height_m", r.Height, "muzzle_height_assumed", r.HeightGuess, "elevation_low_rad", r.ElevationLow,
		"elevation_high_rad", r.ElevationTop, "wind_m_s", r.Wind, "farthest_ahead_m", r.Ahead, "farthest_behind_m", r.Behind,
		"bounce_m", r.Bounce, "clear_radius_m", r.ClearRadius, "level_shot", show.List(r.Levels, func(l measure.AtDistance) show.Object {
			return show.Fields("name", l.Name, "distance_m", l.Distance, "speed_m_s", l.Speed, "energy_J", l.Energy,
				"energy_per_contact_area_J_m2", l.AreaEnergy)
		}),
		"standing", show.List(r.Standing, func(s measure.Standing) show.Object {
			return show.Fields("name", s.Name, "distance_m", s.Distance, "inside", s.Inside)
		}))
	return show.Document(show.Fields("design", id, "flight", flight, "notes", r.Notes))
}

// Size is the document of size.
func Size(z setpoint.Size) (json.RawMessage, error) {
	return show.Document(show.Fields("size", show.Fields(
		"limit_J", z.Question.Limit, "bore_m", z.Question.Bore, "travel_factor", z.Factor, "speed_at_limit_m_s", z.Speed,
		"travels_m", z.Travels, "looked_up_to_m3", z.Most,
		"rows", show.List(z.Rows, func(r setpoint.SizeRow) show.Object {
			return show.Fields("gauge_Pa", r.Gauge, "ceiling_volume_m3", r.Ceiling, "volume_by_travel_m3", r.ByTravel, "source", r.Source)
		}),
		"notes", z.Notes)))
}

// SelfCheck is the document of self-check. Found and difference are null
// where nothing was found.
func SelfCheck(rows []selfcheck.Row) (json.RawMessage, error) {
	failures := selfcheck.Failures(rows)
	return show.Document(show.Fields("agrees", failures == 0, "failures", failures,
		"checks", show.List(rows, func(r selfcheck.Row) show.Object {
			return show.Fields("subject", r.Subject, "what", r.What, "source", r.Source, "unit", r.Unit, "expected", r.Expected,
				"found", show.Known(r.Found), "difference", show.Known(r.Difference), "tolerance", r.Tolerance, "reason", r.Reason, "status", r.Status)
		})))
}
