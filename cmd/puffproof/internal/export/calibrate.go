package export

import (
	"encoding/json"
	"math"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/measure"
)

// Calibrate is the document of calibrate. The group of shots at its top is the
// one that counts, or the largest where none does.
func Calibrate(id show.DesignID, f *measure.Findings) (json.RawMessage, error) {
	shots := boundFields(measure.SpeedGroup{Faults: finding.AllWords([]string{"the file has no shots"}), K: math.NaN(), UpperSpeed: math.NaN(),
		UpperEnergy: math.NaN(), Gauge: math.NaN()})
	if g := f.Main(); g != nil {
		shots = boundFields(*g)
	}
	return show.Document(show.Fields("design", id, "shots_file", f.Log, "shots", shots, "groups", show.List(f.Groups, boundFields),
		"speeds", show.List(f.Shots, speedFields), "bench", show.List(f.Bench, func(b measure.BenchValue) show.Object {
			return show.Fields("test", b.Kind.String(), "lines", b.Lines, "band", bandFields(b.Band))
		}), "fit", show.Maybe(f.Fit, fitFields), "narrowed", show.List(f.Narrowed, narrowedFields),
		"remarks", show.List(f.Remarks, func(r measure.Remark) show.Object { return show.Fields("line", r.Line, "text", r.Text) }),
		"contradiction", f.Contradiction(), "agrees", f.Agrees()))
}

// boundFields are a group of shots with its bound.
func boundFields(g measure.SpeedGroup) show.Object {
	mean, scatter := knownWhere(g.Shots > 0), knownWhere(g.Shots > 1)
	var normal show.Object
	if n := g.Normal; n.Tested {
		normal = show.Fields("shapiro_wilk_w", n.W, "p", n.P, "order_statistic_confidence", n.OrderConfidence)
	}
	return show.Fields("n", g.Shots,
		"mean_energy_J", mean(g.MeanEnergy), "sd_energy_J", scatter(g.SDEnergy), "k", show.Known(g.K), "upper_bound_J", show.Known(g.UpperEnergy),
		"confidence", benchmark.BoundConfidence, "coverage", benchmark.BoundCoverage, "mean_speed_m_s", mean(g.Mean),
		"sd_speed_m_s", scatter(g.SD), "systematic_m_s", mean(g.Systematic), "upper_speed_m_s", show.Known(g.UpperSpeed),
		"at_gauge_Pa", show.Known(g.Gauge), "admissible", g.Admissible(), "faults", g.Faults, "misfires", g.Misfires,
		"projectiles", g.Projectiles, "normality", normal, "suspected_outliers", show.List(g.Outliers, func(o measure.Outlier) show.Object {
			return show.Fields("line", o.Line, "speed_m_s", o.Speed, "grubbs_g", o.G)
		}))
}

// knownWhere keeps figures that are known where they mean something.
func knownWhere(meant bool) func(float64) *float64 {
	if !meant {
		return onlyWhere(false)
	}
	return show.Known
}

func speedFields(s measure.ShotSpeed) show.Object {
	known := knownWhere(!math.IsNaN(s.Speed))
	return show.Fields("line", s.Shot.Line, "method", s.Shot.Method.String(), "gauge_Pa", s.Shot.Gauge, "projectile", s.Shot.Projectile,
		"speed_m_s", known(s.Speed), "random_m_s", known(s.Random), "systematic_m_s", known(s.Systematic), "conversion", s.Conversion,
		"errors", show.List(s.Parts, func(p measure.ErrorPart) show.Object {
			return show.Fields("name", p.Name, "effect_m_s", p.Effect, "systematic", p.Systematic)
		}),
		"misfire", s.Shot.Misfire, "note", s.Shot.Note)
}

func narrowedFields(n measure.Narrowing) show.Object {
	return show.Fields("key", n.Now.Key, "was", bandFields(n.Was), "now", bandFields(n.Now))
}

func fitFields(f measure.Fit) show.Object {
	return show.Fields("credible", f.Credible, "statistic", f.Statistic, "p", f.P, "level", measure.FitLevel,
		"scatter", f.Scatter, "degrees_of_freedom", f.Freedom, "parameters", show.List(f.Parameters, func(p measure.Parameter) show.Object {
			return show.Fields("key", p.Key, "value", p.Value, "low", p.Low, "high", p.High, "share_of_stated_spread", p.Share,
				"learned", p.Learned, "how", p.How)
		}),
		"residuals", show.List(f.Residuals, func(r measure.Residual) show.Object {
			return show.Fields("gauge_Pa", r.Gauge, "measured_m_s", r.Measured, "model_m_s", r.Model, "model_before_m_s", r.Before,
				"error_m_s", r.Error)
		}),
		"suspects", show.List(f.Suspects, func(s measure.Suspect) show.Object { return show.Fields("key", s.Key, "value", s.Value, "p", s.P) }))
}

// Plan is the document of plan.
func Plan(id show.DesignID, p *measure.ShotPlan) (json.RawMessage, error) {
	planned := onlyWhere(len(p.Pressures) > 0)
	return show.Document(show.Fields(
		"design", id, "pressures", show.List(p.Pressures, planPressureFields),
		"shots_needed", show.List(p.Count, func(c measure.PlanShots) show.Object {
			return show.Fields("scatter", c.Scatter, "shots", c.Shots, "k", c.K, "bound_J", c.Bound)
		}),
		"limit_J", p.Limit, "carry_ratio", planned(p.Carry), "start_high_gauge_Pa", planned(p.StartHigh),
		"fired_high_gauge_Pa", planned(p.FiredHigh), "carried_to_gauge_Pa", planned(p.Top),
		"bench", show.List(p.Bench, func(t measure.PlanTest) show.Object {
			return show.Fields("test", t.Kind.String(), "how", t.How, "expect", t.Expect, "column", t.Column)
		}), "stop", p.Stop, "stand", p.Stand, "refused", p.Refused, "notes", p.Notes))
}

func planPressureFields(x measure.PlanPressure) show.Object {
	return show.Fields("gauge_Pa", x.Gauge, "shots", x.Shots, "why", x.Why, "low_m_s", x.Low, "nominal_m_s", x.Nominal,
		"high_m_s", x.High, "stop_above_m_s", x.Stop, "readings", show.List(x.Readings, func(r measure.PlanReading) show.Object {
			return show.Fields("method", r.Method.String(), "setup", r.Setup, "unit", r.Quantity, "at_low", r.Low, "at_nominal", r.Nominal,
				"at_high", r.High)
		}))
}
