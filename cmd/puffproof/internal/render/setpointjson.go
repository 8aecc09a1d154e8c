package render

import (
	"math"
	"puffproof/limits/launcher"
	"puffproof/limits/setpoint"
)

type setpointDoc struct {
	Design      DesignID     `json:"design"`
	Setpoint    setpointMain `json:"setpoint"`
	Ladder      []rungDoc    `json:"ladder"`
	Sensitivity []gainDoc    `json:"sensitivity"`
	Bases       []basisDoc   `json:"bases"`
	Changes     []changeDoc  `json:"changes"`
	Source      sourceDoc    `json:"source"`
	Parts       []partDoc    `json:"parts"`
	Procedure   []string     `json:"procedure"`
	Supply      *supplyDoc   `json:"supply"`
	Bench       []benchDoc   `json:"bench"`
	BenchMoved  *float64     `json:"bench_moved_cut_out_Pa"`
	Notes       []string     `json:"notes"`
}

type setpointMain struct {
	Works        bool            `json:"works"`
	Why          string          `json:"why"`
	Unknown      string          `json:"unknown"`      // why the figures are no answer yet; empty: they are
	Holds        bool            `json:"holds"`        // known, works, and the design as it is keeps to it
	BeyondShots  bool            `json:"beyond_shots"` // shots were measured and do not bear this answer
	AsItIs       string          `json:"as_it_is"`     // what the answer rests on that the design has otherwise; empty: nothing
	Unmet        string          `json:"unmet"`        // what fails at these settings and at lower ones; empty: nothing found
	CutOut       *float64        `json:"cut_out_Pa"`
	CutIn        *float64        `json:"cut_in_Pa"`
	ReliefSet    *float64        `json:"relief_set_Pa"`
	ReliefSetMin *float64        `json:"relief_set_min_Pa"`
	ReliefSetMax *float64        `json:"relief_set_max_Pa"`
	FullFlowMax  *float64        `json:"relief_full_flow_max_Pa"`
	Relief       string          `json:"relief"`
	Binding      string          `json:"binding"`
	Basis        string          `json:"basis"`
	Next         *nextDoc        `json:"next"`
	Stated       *float64        `json:"stated_cut_out_Pa"`
	Allowed      float64         `json:"allowed_energy_J"`
	AllowedBy    string          `json:"allowed_by"`
	Pressure     *float64        `json:"highest_start_Pa"`
	Witness      *float64        `json:"offending_start_Pa"`
	WitnessAt    []coordinateDoc `json:"offending_point"`
	Top          float64         `json:"looked_up_to_Pa"`
	Runs         int             `json:"runs"`
}

type nextDoc struct {
	ID     string  `json:"id"`
	CutOut float64 `json:"cut_out_Pa"`
	What   string  `json:"what"`
}

type rungDoc struct {
	Name  string  `json:"name"`
	Gauge float64 `json:"gauge_Pa"`
	Low   float64 `json:"low_Pa"`
	High  float64 `json:"high_Pa"`
	What  string  `json:"what"`
}

type gainDoc struct {
	Key     string  `json:"key"`
	CutOut  float64 `json:"cut_out_gain_Pa"`
	Assumed bool    `json:"assumed"`
}

type basisDoc struct {
	Basis    string   `json:"basis"`
	Pressure *float64 `json:"highest_start_Pa"`
	CutOut   *float64 `json:"cut_out_Pa"`
	Any      bool     `json:"any_the_supply_reaches"`
	What     string   `json:"what"`
}

type changeDoc struct {
	Key    string   `json:"key"`
	What   string   `json:"what"`
	From   *float64 `json:"from"`
	To     *float64 `json:"to"`
	CutOut float64  `json:"cut_out_Pa"`
}

type sourceDoc struct {
	Limited  bool        `json:"limited"`
	DeadHead *float64    `json:"dead_head_high_Pa"`
	What     string      `json:"what"`
	Turned   []turnedDoc `json:"turned_up"`
}

type turnedDoc struct {
	What     string  `json:"what"`
	Pressure float64 `json:"gauge_Pa"`
	Holds    bool    `json:"holds"`
}

type partDoc struct {
	Part  string  `json:"part"`
	Gauge float64 `json:"gauge_Pa"`
	Text  string  `json:"text"`
}

type spreadDoc struct {
	Fast    *float64 `json:"fast_s"`
	Nominal *float64 `json:"nominal_s"`
	Slow    *float64 `json:"slow_s"`
}

type supplyDoc struct {
	FillFromZero  spreadDoc  `json:"fill_from_zero"`
	FillFromCutIn spreadDoc  `json:"fill_from_cut_in"`
	BetweenShots  spreadDoc  `json:"between_shots"`
	AirPerShot    float64    `json:"free_air_per_shot_m3"`
	PressureDrop  float64    `json:"pressure_drop_per_shot_Pa"`
	ShotsPerFill  int        `json:"shots_per_fill"`
	Duty          *float64   `json:"duty_at_one_shot_a_minute"`
	Firing        float64    `json:"firing_held_s"`
	Relief        *reliefDoc `json:"relief"`
}

type reliefDoc struct {
	Balance     float64  `json:"balance_Pa"`
	Simulated   float64  `json:"balance_by_simulation_Pa"`
	FullFlow    float64  `json:"full_flow_high_Pa"`
	MassFlow    float64  `json:"supply_at_full_flow_kg_s"`
	Area        *float64 `json:"orifice_area_low_m2"`
	Needed      *float64 `json:"area_by_api_520_m2"`
	Critical    bool     `json:"choked"`
	Coefficient *float64 `json:"discharge_coefficient"`
}

type benchDoc struct {
	Key    string   `json:"key"`
	Test   string   `json:"test"`
	Before *bandDoc `json:"before"`
	After  bandDoc  `json:"after"`
}

// SetpointJSON is the document of setpoint: SI units, gauge pressures above the
// design's ambient pressure.
func SetpointJSON(id DesignID, s setpoint.Answer) (any, error) {
	d := setpointDoc{
		Design: id,
		Setpoint: setpointMain{Works: s.Works, Why: s.Why, Unknown: s.Unknown, Holds: s.Holds(), BeyondShots: s.BeyondShots, AsItIs: s.AsItIs, Unmet: s.Unmet, CutOut: s.CutOut, CutIn: s.CutIn, ReliefSet: s.ReliefSet,
			ReliefSetMin: s.ReliefSetMin, ReliefSetMax: s.ReliefSetMax, FullFlowMax: s.ReliefFullFlowMax, Relief: s.Relief,
			Binding: s.Binding, Basis: string(s.Basis), Stated: s.Stated, Allowed: s.Allowed, AllowedBy: s.AllowedWhy,
			Pressure: &s.Pressure, Witness: s.Witness, WitnessAt: []coordinateDoc{}, Top: s.Top, Runs: s.Runs},
		Ladder: []rungDoc{}, Sensitivity: []gainDoc{}, Bases: []basisDoc{}, Changes: []changeDoc{}, Parts: []partDoc{},
		Procedure: append([]string{}, s.Procedure...), Bench: []benchDoc{}, BenchMoved: s.BenchMoved, Notes: append([]string{}, s.Notes...),
		Source: sourceDoc{Limited: s.Source.Limited, What: s.Source.What, Turned: []turnedDoc{}},
	}
	if n := s.Next; n != nil {
		d.Setpoint.Next = &nextDoc{n.ID, n.CutOut, n.What}
	}
	for _, c := range s.WitnessAt {
		d.Setpoint.WitnessAt = append(d.Setpoint.WitnessAt, coordinateDoc{c.Key, c.Value, c.Side})
	}
	for _, r := range s.Ladder {
		d.Ladder = append(d.Ladder, rungDoc{r.Name, r.Gauge, r.Low, r.High, r.What})
	}
	for _, g := range s.Sensitivity {
		d.Sensitivity = append(d.Sensitivity, gainDoc{g.Key, g.CutOut, g.Assumed})
	}
	for _, b := range s.Bases {
		d.Bases = append(d.Bases, basisDoc{string(b.Basis), b.Pressure, b.CutOut, b.Any == launcher.Yes, b.What})
	}
	for _, c := range s.Changes {
		d.Changes = append(d.Changes, changeDoc{c.Key, c.What, c.From, c.To, c.CutOut})
	}
	if s.Source.DeadHead > 0 {
		d.Source.DeadHead = &s.Source.DeadHead
	}
	for _, t := range s.Source.Turned {
		d.Source.Turned = append(d.Source.Turned, turnedDoc{t.What, t.Pressure, t.Holds})
	}
	for _, p := range s.Parts {
		d.Parts = append(d.Parts, partDoc{p.Part, p.Gauge, p.Text})
	}
	for _, b := range s.Bench {
		one := benchDoc{Key: b.Key, Test: b.Test, After: bandDocOf(b.After)}
		if b.Before.Set {
			before := bandDocOf(b.Before)
			one.Before = &before
		}
		d.Bench = append(d.Bench, one)
	}
	d.Supply = supplyDocOf(s.Supply)
	return d, finite(d)
}

func bandDocOf(b launcher.Band) bandDoc {
	return bandDoc{Key: b.Key, Low: b.Low, Nominal: b.Nominal, High: b.High, Origin: b.Origin.String(), Reason: b.Reason}
}

func supplyDocOf(a *setpoint.SupplyAnswer) *supplyDoc {
	if a == nil {
		return nil
	}
	spread := func(s setpoint.Spread) spreadDoc {
		return spreadDoc{orNull(s.Fast), orNull(s.Nominal), orNull(s.Slow)}
	}
	d := &supplyDoc{FillFromZero: spread(a.FillFromZero), FillFromCutIn: spread(a.FillFromCutIn), BetweenShots: spread(a.BetweenShots),
		AirPerShot: a.AirPerShot, PressureDrop: a.PressureDrop, ShotsPerFill: a.ShotsPerFill, Duty: orNull(a.DutyAtOneAMin), Firing: a.Firing}
	if r := a.Relief; r != nil {
		d.Relief = &reliefDoc{Balance: r.Balance, Simulated: r.Simulated, FullFlow: r.FullFlow, MassFlow: r.MassFlow, Critical: r.Critical}
		if r.Area > 0 {
			d.Relief.Area = &r.Area
		}
		if r.Coefficient > 0 {
			d.Relief.Needed, d.Relief.Coefficient = &r.Needed, &r.Coefficient
		}
	}
	return d
}

// orNull is null for what is not finite: never, not stated, not computed.
func orNull(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return &v
}
