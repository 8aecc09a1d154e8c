package render

import (
	"bytes"
	"encoding/csv"
	"puffproof/limits/vent"
	"strconv"
	"strings"
)

type ventDoc struct {
	Design   DesignID      `json:"design"`
	Target   float64       `json:"target_gauge_Pa"`
	Within   *float64      `json:"within_s"`
	Start    float64       `json:"start_gauge_Pa"`
	Left     float64       `json:"energy_left_J"`
	LeftShot float64       `json:"worst_shot_left_J"`
	Vent     []ventCaseDoc `json:"vent"`
	Tests    []ventTestDoc `json:"stopwatch"`
	Leaks    []leakTestDoc `json:"leak_down"`
	Pushes   []pushDoc     `json:"pushes"`
	Aimed    []pushDoc     `json:"aimed_outlets"`
	Hoses    []hoseDoc     `json:"hoses"`
	Sizes    []ventSizeDoc `json:"sizes"`
	Log      *logDoc       `json:"log"`
	Leak     *leakDoc      `json:"leak"`
	Verdicts []verdictDoc  `json:"verdicts"`
	Items    []itemDoc     `json:"items"`
}

type ventCaseDoc struct {
	Scenario   string       `json:"scenario"`
	Kind       string       `json:"kind"`
	From       string       `json:"from"`
	Volume     string       `json:"volume"`
	Start      float64      `json:"start_gauge_Pa"`
	Status     string       `json:"status"`
	Time       *float64     `json:"time_to_target_s"`
	Expected   *float64     `json:"expected_time_s"`
	Fastest    *float64     `json:"fastest_time_s"`
	Isothermal *float64     `json:"isothermal_time_s"`
	Adiabatic  *float64     `json:"adiabatic_time_s"`
	Trapped    bool         `json:"trapped"`
	Keeps      *float64     `json:"keeps_gauge_Pa"`
	Missing    string       `json:"missing"`
	After      *float64     `json:"gauge_after_within_Pa"`
	Rebound    float64      `json:"rebound_gauge_Pa"`
	Sheet      []readingDoc `json:"expected"`
}

type ventTestDoc struct {
	Volume   string       `json:"volume"`
	Scenario string       `json:"scenario"`
	Low      float64      `json:"start_low_Pa"`
	Start    float64      `json:"start_gauge_Pa"`
	High     float64      `json:"start_high_Pa"`
	Trapped  bool         `json:"trapped"`
	Time     *float64     `json:"time_to_target_s"`
	Rebound  float64      `json:"rebound_gauge_Pa"`
	Sheet    []readingDoc `json:"expected"`
}

type readingDoc struct {
	Time  float64 `json:"t_s"`
	Low   float64 `json:"low_Pa"`
	Gauge float64 `json:"gauge_Pa"`
	High  float64 `json:"high_Pa"`
}

func readingDocs(sheet []vent.Reading) []readingDoc {
	out := []readingDoc{}
	for _, one := range sheet {
		out = append(out, readingDoc(one))
	}
	return out
}

type pushDoc struct {
	Scenario string  `json:"scenario"`
	Path     string  `json:"path"`
	Outcome  string  `json:"outcome"`
	Speed    float64 `json:"final_speed_m_s"`
	Energy   float64 `json:"final_energy_J"`
	Judged   float64 `json:"judged_energy_J"`
	Bound    bool    `json:"is_a_bound"`
	Points   *string `json:"points"`
}

type hoseDoc struct {
	Path   string  `json:"path"`
	Volume float64 `json:"volume_m3"`
	With   string  `json:"empties_with"`
}

type ventSizeDoc struct {
	Volume   string   `json:"volume"`
	Path     string   `json:"path"`
	Now      *float64 `json:"bore_now_m"`
	Least    *float64 `json:"least_bore_m"`
	Drill    *float64 `json:"drill_m"`
	Time     *float64 `json:"time_to_target_s"`
	Loss     *float64 `json:"loss_m3_s"`
	Delivery *float64 `json:"delivery_m3_s"`
	Balance  *float64 `json:"balance_gauge_Pa"`
}

type logDoc struct {
	Status   string   `json:"status"`
	Says     string   `json:"says"`
	Volume   string   `json:"volume"`
	Runs     int      `json:"runs"`
	Readings int      `json:"readings"`
	Hidden   int      `json:"hidden"`
	Opening  *float64 `json:"opening_share"`
	Low      float64  `json:"opening_low"`
	High     float64  `json:"opening_high"`
	Path     string   `json:"path"`
	Bore     *float64 `json:"effective_bore_m"`
	Cd       *float64 `json:"discharge_coefficient"`
	Zero     float64  `json:"gauge_zero_Pa"`
	RMS      float64  `json:"rms_Pa"`
	Resolves float64  `json:"resolution_Pa"`
	FreeZero *float64 `json:"fitted_zero_Pa"`
	End      float64  `json:"end_gauge_Pa"`
	Duration *float64 `json:"time_to_target_s"`
}

// VentLogs is what logs of real tests say; nil where none was given.
type VentLogs struct {
	Vent *vent.LogAnswer
	Leak *vent.LeakAnswer
}

// VentJSON is the document of vent. Times are null where the target is never
// reached.
func VentJSON(id DesignID, r *vent.Report, sizes []vent.VentSize, logs VentLogs) (any, error) {
	doc := ventDoc{Design: id, Target: r.Target, Within: orNull(r.Within), Start: r.Start, Left: r.Left, LeftShot: r.LeftShot,
		Vent: []ventCaseDoc{}, Tests: []ventTestDoc{}, Leaks: leakTestDocs(r.Leaks), Leak: leakDocOf(logs.Leak), Pushes: []pushDoc{}, Aimed: []pushDoc{}, Hoses: []hoseDoc{}, Sizes: []ventSizeDoc{},
		Verdicts: verdictDocs(r.Verdicts), Items: itemDocs(r.Items)}
	for _, c := range r.Cases {
		d := ventCaseDoc{Scenario: c.Scenario, Kind: string(c.Kind), From: c.From.String(), Volume: c.Volume, Start: c.Start, Status: string(c.Status),
			Time: orNull(c.Slowest), Expected: orNull(c.Expected), Fastest: orNull(c.Fastest), Isothermal: orNull(c.Isothermal), Adiabatic: orNull(c.Adiabatic),
			Trapped: c.Trapped, Keeps: orNull(c.Keeps), Missing: c.Missing, After: orNull(c.AfterWithin), Rebound: c.Rebound, Sheet: readingDocs(c.Sheet)}
		doc.Vent = append(doc.Vent, d)
	}
	for _, t := range r.Tests {
		d := ventTestDoc{Volume: t.Volume, Scenario: t.Scenario, Low: t.Low, Start: t.Start, High: t.High, Trapped: t.Trapped, Time: orNull(t.Slowest),
			Rebound: t.Rebound, Sheet: readingDocs(t.Sheet)}
		doc.Tests = append(doc.Tests, d)
	}
	for _, p := range r.Pushes {
		doc.Pushes = append(doc.Pushes, pushDocOf(p))
	}
	for _, p := range r.Aimed {
		doc.Aimed = append(doc.Aimed, pushDocOf(p))
	}
	for _, h := range r.Hoses {
		doc.Hoses = append(doc.Hoses, hoseDoc(h))
	}
	for _, z := range sizes {
		doc.Sizes = append(doc.Sizes, ventSizeDoc{z.Volume, z.Path, orNull(z.Now), orNull(z.Least), orNull(z.Drill), orNull(z.Time), orNull(z.Loss), orNull(z.Delivery), orNull(z.Balance)})
	}
	if log := logs.Vent; log != nil {
		doc.Log = &logDoc{Status: string(log.Status), Says: log.Says, Volume: log.Volume, Runs: log.Runs, Readings: log.Count, Hidden: log.Hidden,
			Opening: orNull(log.Opening), Low: log.Low, High: log.High, Path: log.Path, Bore: orNull(log.Bore), Cd: orNull(log.Cd), Zero: log.Zero,
			RMS: log.RMS, Resolves: log.Resolves, FreeZero: orNull(log.FreeZero), End: log.End, Duration: orNull(log.Duration)}
	}
	return doc, finite(doc)
}

func pushDocOf(p vent.BarrelPush) pushDoc {
	return pushDoc{p.Scenario, p.Path, p.Outcome, p.Speed, p.Energy, p.Judged, p.Bound, textOrNull(p.Points)}
}

// VentCSV is the sheet of the stopwatch test and of the leak-down: one line a reading, SI units named
// in the header, and an empty column for what is read.
func VentCSV(r *vent.Report) ([]byte, error) {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	rows := [][]string{{"volume", "scenario", "time [s]", "lowest [Pa gauge]", "expected [Pa gauge]", "highest [Pa gauge]", "read [Pa]"}}
	figure := func(v float64, decimals int) string {
		s := strconv.FormatFloat(v, 'f', decimals, 64)
		if strings.Trim(s, "-0.") == "" { // no zero with a minus
			s = strings.TrimPrefix(s, "-")
		}
		return s
	}
	add := func(volume, scenario string, sheet []vent.Reading) {
		for _, one := range sheet {
			rows = append(rows, []string{spreadsheetText(volume), scenario, figure(one.Time, 2), figure(one.Low, 0), figure(one.Gauge, 0), figure(one.High, 0), ""})
		}
	}
	for _, c := range r.Tests {
		add(c.Volume, c.Scenario, c.Sheet)
	}
	for _, c := range r.Leaks {
		add(c.Volume, "leak-down, armed", c.Sheet)
	}
	if err := w.WriteAll(rows); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// spreadsheetText keeps a name from being taken for a formula.
func spreadsheetText(s string) string {
	if s != "" && bytes.ContainsAny([]byte(s[:1]), "=+-@\t\r") {
		return "'" + s
	}
	return s
}
