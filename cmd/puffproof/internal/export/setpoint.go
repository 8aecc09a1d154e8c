package export

import (
	"encoding/json"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/launcher"
	"puffproof/limits/setpoint"
)

// Setpoint is the document of setpoint. Of the texts in "setpoint", unknown
// says why the figures are no answer yet, as_it_is what the answer rests on that
// the design has otherwise, unmet what fails at these settings and at lower ones;
// each is empty where there is nothing to say.
func Setpoint(id show.DesignID, s setpoint.Answer) (json.RawMessage, error) {
	return show.Document(show.Fields(
		"design", id, "setpoint", settingFields(s), "ladder", show.List(s.Ladder, rungFields),
		"sensitivity", show.List(s.Sensitivity, func(g setpoint.Gain) show.Object {
			return show.Fields("key", g.Key, "cut_out_gain_Pa", g.CutOut, "assumed", g.Assumed)
		}),
		"bases", show.List(s.Bases, func(b setpoint.OnBasis) show.Object {
			return show.Fields("basis", b.Basis, "highest_start_Pa", b.Pressure, "cut_out_Pa", b.CutOut,
				"any_the_supply_reaches", b.Any == launcher.Yes, "what", b.What)
		}),
		"changes", show.List(s.Changes, func(c setpoint.Change) show.Object {
			return show.Fields("key", c.Key, "what", c.What, "from", c.From, "to", c.To, "cut_out_Pa", c.CutOut)
		}),
		"source", show.Fields("limited", s.Source.Limited, "dead_head_high_Pa", onlyWhere(s.Source.DeadHead > 0)(s.Source.DeadHead),
			"what", s.Source.What,
			"turned_up", show.List(s.Source.Turned, func(t setpoint.Turned) show.Object {
				return show.Fields("what", t.What, "gauge_Pa", t.Pressure, "holds", t.Holds)
			})),
		"parts", show.List(s.Parts, func(p setpoint.PartNote) show.Object {
			return show.Fields("part", p.Part, "gauge_Pa", p.Gauge, "text", p.Text)
		}),
		"procedure", s.Procedure, "supply", show.Maybe(s.Supply, supplyFields), "bench", show.List(s.Bench, replacementFields),
		"bench_moved_cut_out_Pa", s.BenchMoved, "notes", s.Notes,
	))
}

// settingFields are the answer itself.
func settingFields(s setpoint.Answer) show.Object {
	return show.Fields("works", s.Works, "why", s.Why, "unknown", s.Unknown, "holds", s.Holds(), "beyond_shots", s.BeyondShots,
		"as_it_is", s.AsItIs, "unmet", s.Unmet, "cut_out_Pa", s.CutOut, "cut_in_Pa", s.CutIn, "relief_set_Pa", s.ReliefSet,
		"relief_set_min_Pa", s.ReliefSetMin, "relief_set_max_Pa", s.ReliefSetMax,
		"relief_set_max_needs", s.ReliefMaxNeeds, "cut_in_why", s.CutInWhy, "relief_full_flow_max_Pa", s.ReliefFullFlowMax,
		"relief", s.Relief, "binding", s.Binding, "basis", s.Basis, "next", show.Maybe(s.Next, func(n setpoint.NextVerdict) show.Object {
			return show.Fields("id", n.ID, "cut_out_Pa", n.CutOut, "what", n.What)
		}), "stated_cut_out_Pa", s.Stated, "allowed_energy_J", s.Allowed, "allowed_by", s.AllowedWhy, "highest_start_Pa", s.Pressure,
		"offending_start_Pa", s.Witness, "offending_point", show.List(s.WitnessAt, coordinateFields), "looked_up_to_Pa", s.Top, "runs", s.Runs)
}

func rungFields(r launcher.Rung) show.Object {
	return show.Fields("name", r.Name, "gauge_Pa", r.Gauge, "low_Pa", r.Low, "high_Pa", r.High, "what", r.What)
}

func replacementFields(b launcher.Replacement) show.Object {
	var before show.Object
	if b.Before.Set {
		before = bandFields(b.Before)
	}
	return show.Fields("key", b.Key, "test", b.Test, "before", before, "after", bandFields(b.After))
}

func supplyFields(a setpoint.SupplyAnswer) show.Object {
	spread := func(s setpoint.Spread) show.Object {
		return show.Fields("fast_s", show.Finite(s.Fast), "nominal_s", show.Finite(s.Nominal), "slow_s", show.Finite(s.Slow))
	}
	relief := func(r setpoint.ReliefAnswer) show.Object {
		sized := onlyWhere(r.Coefficient > 0)
		return show.Fields("balance_Pa", r.Balance, "balance_by_simulation_Pa", r.Simulated, "full_flow_high_Pa", r.FullFlow,
			"supply_at_full_flow_kg_s", r.MassFlow, "orifice_area_low_m2", onlyWhere(r.Area > 0)(r.Area), "area_by_api_520_m2", sized(r.Needed),
			"choked", r.Critical, "discharge_coefficient", sized(r.Coefficient))
	}
	return show.Fields("fill_from_zero", spread(a.FillFromZero), "fill_from_cut_in", spread(a.FillFromCutIn),
		"between_shots", spread(a.BetweenShots),
		"free_air_per_shot_m3", a.AirPerShot, "pressure_drop_per_shot_Pa", a.PressureDrop, "shots_per_fill", a.ShotsPerFill,
		"duty_at_one_shot_a_minute", show.Finite(a.DutyAtOneAMin), "firing_held_s", a.Firing, "relief", show.Maybe(a.Relief, relief))
}
