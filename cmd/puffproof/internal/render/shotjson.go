package render

type shotDoc struct {
	Design DesignID  `json:"design"`
	Start  startDoc  `json:"start"`
	Shot   resultDoc `json:"shot"`
	Notes  []string  `json:"notes"`
	Wave   *waveDoc  `json:"wave_model"`
}

type startDoc struct {
	Gauge map[string]float64 `json:"gauge_Pa"`
}

type resultDoc struct {
	Outcome        string             `json:"outcome"`
	MuzzleSpeed    *float64           `json:"muzzle_speed_m_s"`
	MuzzleEnergy   *float64           `json:"muzzle_energy_J"`
	FinalSpeed     *float64           `json:"final_speed_m_s"`
	FinalEnergy    *float64           `json:"final_energy_J"`
	AreaEnergy     *float64           `json:"energy_per_contact_area_J_m2"`
	ExitTime       *float64           `json:"exit_time_s"`
	PeakGauge      float64            `json:"barrel_peak_gauge_Pa"`
	ExitGauge      *float64           `json:"barrel_exit_gauge_Pa"`
	After          map[string]float64 `json:"gauge_after_Pa"`
	Ceiling        float64            `json:"ceiling_energy_J"`
	MassResidual   float64            `json:"mass_residual"`
	EnergyResidual float64            `json:"energy_residual"`
	RestTravel     *float64           `json:"rest_travel_m"`
	RestGauge      *float64           `json:"rest_gauge_Pa"`
	Freed          *float64           `json:"freed_energy_J"`
	Account        []accountDoc       `json:"energy_account"`
	Highest        *figuresDoc        `json:"highest_over_seats"`
	Series         seriesDoc          `json:"series"`
}

type accountDoc struct {
	Name   string  `json:"name"`
	Energy float64 `json:"energy_J"`
}

type seriesDoc struct {
	Time   []float64 `json:"time_s"`
	Travel []float64 `json:"travel_m"`
	Speed  []float64 `json:"speed_m_s"`
	Gauge  []float64 `json:"barrel_gauge_Pa"`
}

// ShotJSON is the document of shot. Muzzle and final figures are null unless the
// projectile left, the figures of a rest are null if it did.
func ShotJSON(v ShotView) (any, error) {
	n := v.Series.length()
	doc := shotDoc{
		Design: v.Design,
		Start:  startDoc{gaugeMap(v.Start)},
		Notes:  append([]string{}, v.Notes...),
		Wave:   waveOf(v.Wave),
		Shot: resultDoc{
			Outcome: v.Outcome, PeakGauge: v.PeakGauge, After: gaugeMap(v.After), Ceiling: v.Ceiling,
			MassResidual: v.MassResidual, EnergyResidual: v.EnergyResidual, Account: []accountDoc{},
			Series: seriesDoc{
				append([]float64{}, v.Series.Time[:n]...), append([]float64{}, v.Series.Travel[:n]...),
				append([]float64{}, v.Series.Speed[:n]...), append([]float64{}, v.Series.Gauge[:n]...),
			},
		},
	}
	s := &doc.Shot
	if v.Outcome == outcomeLeft {
		s.MuzzleSpeed, s.MuzzleEnergy = &v.MuzzleSpeed, &v.MuzzleEnergy
		s.FinalSpeed, s.FinalEnergy = &v.FinalSpeed, &v.FinalEnergy
		s.ExitTime, s.ExitGauge = &v.ExitTime, &v.ExitGauge
		if v.ContactArea > 0 {
			s.AreaEnergy = &v.AreaEnergy
		}
	} else {
		s.RestTravel, s.RestGauge = &v.RestTravel, &v.RestGauge
		if v.Outcome == outcomeStalled {
			s.Freed = &v.Freed
		}
	}
	for _, a := range v.Account {
		s.Account = append(s.Account, accountDoc(a))
	}
	if v.Highest != nil {
		s.Highest = figuresOf(*v.Highest)
	}
	return doc, finite(doc)
}

func gaugeMap(list []NodeGauge) map[string]float64 {
	m := make(map[string]float64, len(list))
	for _, g := range list {
		m[g.Name] = g.Gauge
	}
	return m
}
