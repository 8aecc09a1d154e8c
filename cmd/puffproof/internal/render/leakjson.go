package render

import "puffproof/limits/vent"

type leakTestDoc struct {
	Volume  string       `json:"volume"`
	Opens   *string      `json:"open_while_armed"`
	Low     float64      `json:"start_low_Pa"`
	Start   float64      `json:"start_gauge_Pa"`
	High    float64      `json:"start_high_Pa"`
	Fill    *float64     `json:"fill_time_s"`
	Settled float64      `json:"cooling_over_s"`
	Falls   float64      `json:"cooling_expected_Pa"`
	Most    float64      `json:"cooling_most_Pa"`
	Needed  *float64     `json:"read_for_s"`
	Loses   float64      `json:"hidden_loss_a_minute_Pa"`
	Sheet   []readingDoc `json:"expected"`
}

type leakSizeDoc struct {
	Bore   *float64 `json:"effective_bore_m"`
	Minute *float64 `json:"first_minute_Pa"`
	Air    *float64 `json:"free_air_m3_s"`
}

type leakDoc struct {
	Status   string        `json:"status"`
	Says     string        `json:"says"`
	Volume   string        `json:"volume"`
	Runs     int           `json:"runs"`
	Readings int           `json:"readings"`
	Hidden   int           `json:"hidden"`
	Resolves float64       `json:"resolution_Pa"`
	Drift    float64       `json:"room_drift_Pa"`
	Settled  *float64      `json:"cooling_over_s"`
	Cooling  *float64      `json:"cooling_most_Pa"`
	Needed   *float64      `json:"read_for_s"`
	RMS      *float64      `json:"rms_Pa"`
	Least    leakSizeDoc   `json:"least"`
	Bore     leakSizeDoc   `json:"likeliest"`
	Most     leakSizeDoc   `json:"most"`
	Restart  *float64      `json:"restart_after_s"`
	Past     []leakPastDoc `json:"may_go"`
}

type leakPastDoc struct {
	Path  string   `json:"path"`
	To    string   `json:"to"`
	Hold  float64  `json:"moves_projectile_at_Pa"`
	Fills *float64 `json:"moves_projectile_after_s"`
}

func leakTestDocs(all []vent.LeakTest) []leakTestDoc {
	out := []leakTestDoc{}
	for _, t := range all {
		d := leakTestDoc{Volume: t.Volume, Opens: textOrNull(t.Opens), Low: t.Low, Start: t.Start, High: t.High, Fill: orNull(t.Fill), Settled: t.Settled,
			Falls: t.Falls, Most: t.FallsMost, Needed: orNull(t.Needed), Loses: t.Loses, Sheet: readingDocs(t.Sheet)}
		out = append(out, d)
	}
	return out
}

// leakDocOf is the answer to a leak-down log; null figures are not known, or have
// no bound.
func leakDocOf(a *vent.LeakAnswer) *leakDoc {
	if a == nil {
		return nil
	}
	size := func(s vent.LeakSize) leakSizeDoc {
		return leakSizeDoc{orNull(s.Bore()), orNull(s.Minute), orNull(s.Air)}
	}
	d := &leakDoc{Status: string(a.Status), Says: a.Says, Volume: a.Volume, Runs: a.Runs, Readings: a.Count, Hidden: a.Hidden, Resolves: a.Resolves,
		Drift: a.Drift, Settled: orNull(a.Settled), Cooling: orNull(a.Cooling), Needed: orNull(a.Needed), RMS: orNull(a.RMS),
		Least: size(a.Least), Bore: size(a.Bore), Most: size(a.Most), Restart: orNull(a.Restart), Past: []leakPastDoc{}}
	for _, p := range a.Past {
		d.Past = append(d.Past, leakPastDoc{p.Path, p.To, p.Hold, orNull(p.Fills)})
	}
	return d
}
