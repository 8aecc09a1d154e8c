package export

import (
	"encoding/json"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits"
	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/limits/worst"
)

// Check is the document of check. Value, limit and margin are null where a
// verdict is unknown or not applicable.
func Check(id show.DesignID, r limits.Report) (json.RawMessage, error) {
	return show.Document(show.Fields(
		"design", id, "holds", r.Holds, "confirmed", r.Confirmed, "open_items", r.OpenItems, "conditions", r.Conditions,
		"said_not_recorded", r.Said, "answers_without_their_record", r.Unproved, "record_altered", r.Altered,
		"verdicts", show.List(r.Verdicts, verdictFields),
		"energy", show.Maybe(r.Energy, energyFields), "budget", show.Maybe(r.Budget, budgetFields), "wave_model", show.Maybe(r.Wave, waveFields),
		"measured", show.Maybe(r.Measured, measuredFields),
		"eye", show.List(r.Eye, func(e benchmark.EyeFigure) show.Object {
			return show.Fields("injury", e.Injury, "half_risk_J_m2", e.Half, "ratio", e.Ratio)
		}),
		"sound", show.Maybe(r.Sound, soundFields),
		"items", show.List(r.Items, itemFields), "assumed", show.List(r.Assumed, bandFields), "notes", r.Notes,
		"template_figures", asIs(r.Template), "to_find_out", asIs(r.ToFind),
		"causes", show.List(r.Causes, causeFields), "do_first", show.List(r.DoFirst(), causeFields),
	))
}

// verdictFields are a verdict's: figures only where it was judged.
func verdictFields(v finding.Verdict) show.Object {
	var value, limit, margin *float64
	if show.Judged(v) {
		value, limit, margin = v.Value, v.Limit, v.Margin
	}
	return show.Fields("id", v.ID, "title", v.Title, "status", v.Status, "value", value, "limit", limit, "unit", v.Unit, "margin", margin,
		"basis", v.Basis, "source", v.Source, "caveat", v.Caveat, "why", v.Why, "advice", v.Advice,
		"condition", show.Said(v.Condition.String()), "items", v.Items)
}

// asIs is a list of names, empty where there is none.
func asIs(names []string) []string { return append([]string{}, names...) }

func causeFields(c limits.Cause) show.Object {
	return show.Fields("cause", c.What, "do", c.Do, "verdicts", c.Verdicts)
}

func itemFields(it finding.Item) show.Object {
	return show.Fields("id", it.ID, "title", it.Title, "why", it.Why, "how", it.How,
		"expect", it.Expect, "verdict", it.Verdict, "source", it.Source, "open", it.Done == nil, "open_why", it.OpenWhy,
		"recorded", it.Done != nil && it.Done.Recorded)
}

func bandFields(b launcher.Band) show.Object {
	return show.Fields("key", b.Key, "low", b.Low, "nominal", b.Nominal, "high", b.High, "origin", b.Origin.String(), "reason",
		b.Reason)
}

// restFields are null where something else than an open way out ends the filling.
func restFields(at launcher.Band) show.Object {
	if !at.Set {
		return nil
	}
	return show.Fields("low_Pa", at.Low, "gauge_Pa", at.Nominal, "high_Pa", at.High)
}

func coordinateFields(c worst.Coordinate) show.Object {
	return show.Fields("key", c.Key, "value", c.Value, "side", c.Side)
}

// energyFields have null where nothing was judged: 0 means not known there.
func energyFields(e worst.EnergyReport) show.Object {
	judged := onlyWhere(e.Basis != "")
	return show.Fields("nominal_shot", figureFields(e.NominalShot), "nominal_max", figureFields(e.NominalMax),
		"worst", figureFields(e.Worst), "worst_point", show.List(e.WorstPoint, coordinateFields), "model_factor", e.Factor,
		"model_factor_source", e.FactorSource, "model_J", judged(e.Model), "ceiling_J", judged(e.Ceiling), "measured_J", e.Measured,
		"judged_J", judged(e.Judged), "basis", e.Basis, "limit_J", e.Limit, "contact_area_m2", onlyWhere(e.ContactArea > 0)(e.ContactArea),
		"projected_area_m2", e.ProjectedArea, "area_judged_J_m2", onlyWhere(e.Basis != "" && e.ContactArea > 0)(e.AreaJudged),
		"area_limit_J_m2", e.AreaLimit, "start_high_gauge_Pa", judged(e.StartHigh),
		"rest_gauge_Pa", restFields(e.Rest),
		"ceiling_dose_m3", judged(e.CeilingDose), "runs", e.Runs, "maxima", e.Maxima, "gap_J", judged(e.Gap),
		"entered", show.List(e.Entered, func(one worst.Entered) show.Object { return enteredFields(one, e.DecidingEntered()) }))
}

// enteredFields are a shot that a change of state lets off; decides tells that its energy is the one that is judged. Energies are null
// where what it shoots is not known and nothing is known to be shot.
func enteredFields(e worst.Entered, deciding *worst.Entered) show.Object {
	known := onlyWhere(e.Shoots() || len(e.Unknown) == 0)
	return show.Fields("state", e.State.String(), "does", e.Does(), "valves", asIs(e.Valves), "final_energy_J", known(e.Energy),
		"judged_J", known(e.Judged), "shoots", e.Shoots(), "decides", deciding != nil && deciding.State == e.State,
		"unknown", show.Said(e.Unknown.String()))
}

// figureFields have null for what only a shot that left the muzzle has; a shot that
// was not computed is null as a whole.
func figureFields(f worst.ShotFigures) show.Object {
	if f.Outcome == "" {
		return nil
	}
	left := onlyWhere(f.Outcome == show.OutcomeLeft)
	return show.Fields("outcome", f.Outcome, "muzzle_speed_m_s", left(f.MuzzleSpeed), "muzzle_energy_J", left(f.MuzzleEnergy),
		"final_speed_m_s", left(f.FinalSpeed), "final_energy_J", left(f.FinalEnergy), "exit_time_s", left(f.ExitTime),
		"start_gauge_Pa", f.StartGauge, "seat_m", f.Seat)
}

// onlyWhere keeps figures where they mean something, and makes them null elsewhere.
func onlyWhere(meant bool) func(float64) *float64 {
	return func(v float64) *float64 {
		if !meant {
			return nil
		}
		return &v
	}
}

func measuredFields(m measure.Report) show.Object {
	return show.Fields("shots_file", m.Log, "shots", show.Maybe(m.Group, boundFields),
		"bound_J", m.Bound, "carry_ratio", onlyWhere(m.Bound != nil)(m.Carry), "not_carried", m.NotCarried, "contradiction", m.Contradiction(),
		"narrowed", show.List(m.Narrowed, narrowedFields))
}

func waveFields(w worst.WaveComparison) show.Object {
	var wave show.Object
	if len(w.WhyNot) == 0 {
		wave = boreFields(w.Wave)
	}
	return show.Fields("which", w.Which, "not_run_because", show.Said(w.WhyNot.String()), "lumped", boreFields(w.Lumped), "wave", wave,
		"energy_excess", show.Known(w.Excess), "mesh_error", show.Known(w.Mesh), "cells", w.Cells, "gas_over_mass", show.Known(w.Rule.GasRatio),
		"sound_times", show.Known(w.Rule.SoundTimes), "range", show.Fields("gas_over_mass_max", w.MaxGasRatio,
			"sound_times_min", w.MinSoundTimes), "inside_range", w.Inside, "matters", w.Matters)
}

func boreFields(f worst.BoreFigures) show.Object {
	return show.Fields("outcome", f.Outcome, "muzzle_speed_m_s", show.Known(f.Speed), "muzzle_energy_J", show.Known(f.Energy),
		"exit_time_s", show.Known(f.Time), "peak_gauge_Pa", f.Peak, "exit_gauge_Pa", show.Known(f.Exit))
}
