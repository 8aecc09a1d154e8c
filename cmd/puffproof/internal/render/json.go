package render

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"puffproof/limits"
	"puffproof/limits/finding"
	"puffproof/limits/worst"
	"unicode"
)

// WriteJSON writes v as one indented document, or nothing and an error. A
// number that is not finite is an error. Characters that could steer a
// terminal are written as \u codes.
func WriteJSON(w io.Writer, v any) error {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(v); err != nil {
		return err
	}
	var out bytes.Buffer
	for _, r := range b.String() {
		switch {
		case r < 0x7f || unicode.IsPrint(r):
			out.WriteRune(r)
		case r > 0xffff:
			// JSON writes such a rune as a surrogate pair.
			hi, lo := 0xd800+(r-0x10000)>>10, 0xdc00+(r-0x10000)&0x3ff
			fmt.Fprintf(&out, `\u%04x\u%04x`, hi, lo)
		default:
			fmt.Fprintf(&out, `\u%04x`, r)
		}
	}
	_, err := w.Write(out.Bytes())
	return err
}

// DesignID says which design a result is of.
type DesignID struct {
	Name     string `json:"name"`
	Revision string `json:"revision"`
	SHA256   string `json:"sha256"` // of the design file's bytes, hexadecimal
}

type checkDoc struct {
	Design    DesignID     `json:"design"`
	Holds     bool         `json:"holds"`
	Confirmed bool         `json:"confirmed"`
	OpenItems int          `json:"open_items"`
	Verdicts  []verdictDoc `json:"verdicts"`
	Energy    *energyDoc   `json:"energy"`
	Wave      *waveDoc     `json:"wave_model"`
	Measured  *measuredDoc `json:"measured"`
	Eye       []eyeDoc     `json:"eye"`
	Items     []itemDoc    `json:"items"`
	Assumed   []bandDoc    `json:"assumed"`
	Notes     []string     `json:"notes"`
}

type verdictDoc struct {
	ID     string   `json:"id"`
	Title  string   `json:"title"`
	Status string   `json:"status"`
	Value  *float64 `json:"value"`
	Limit  *float64 `json:"limit"`
	Unit   string   `json:"unit"`
	Margin *float64 `json:"margin"`
	Basis  string   `json:"basis"`
	Source string   `json:"source"`
	Caveat string   `json:"caveat"`
	Why    string   `json:"why"`
	Advice string   `json:"advice"`
}

type energyDoc struct {
	NominalShot   *figuresDoc     `json:"nominal_shot"`
	NominalMax    *figuresDoc     `json:"nominal_max"`
	Worst         *figuresDoc     `json:"worst"`
	WorstPoint    []coordinateDoc `json:"worst_point"`
	Factor        float64         `json:"model_factor"`
	FactorSource  string          `json:"model_factor_source"`
	Model         *float64        `json:"model_J"`
	Ceiling       *float64        `json:"ceiling_J"`
	Measured      *float64        `json:"measured_J"`
	Judged        *float64        `json:"judged_J"`
	Basis         string          `json:"basis"`
	Limit         float64         `json:"limit_J"`
	ContactArea   *float64        `json:"contact_area_m2"`
	ProjectedArea float64         `json:"projected_area_m2"`
	AreaJudged    *float64        `json:"area_judged_J_m2"`
	AreaLimit     float64         `json:"area_limit_J_m2"`
	StartHigh     *float64        `json:"start_high_gauge_Pa"`
	CeilingDose   *float64        `json:"ceiling_dose_m3"`
	Runs          int             `json:"runs"`
	Maxima        int             `json:"maxima"`
	Gap           *float64        `json:"gap_J"`
}

type figuresDoc struct {
	Outcome      string   `json:"outcome"`
	MuzzleSpeed  *float64 `json:"muzzle_speed_m_s"`
	MuzzleEnergy *float64 `json:"muzzle_energy_J"`
	FinalSpeed   *float64 `json:"final_speed_m_s"`
	FinalEnergy  *float64 `json:"final_energy_J"`
	ExitTime     *float64 `json:"exit_time_s"`
	StartGauge   float64  `json:"start_gauge_Pa"`
	Seat         float64  `json:"seat_m"`
}

type coordinateDoc struct {
	Key   string  `json:"key"`
	Value float64 `json:"value"`
	Side  string  `json:"side"`
}

type eyeDoc struct {
	Injury string  `json:"injury"`
	Half   float64 `json:"half_risk_J_m2"`
	Ratio  float64 `json:"ratio"`
}

type itemDoc struct {
	ID      string `json:"id"`
	Title   string `json:"title"`
	Why     string `json:"why"`
	How     string `json:"how"`
	Expect  string `json:"expect"`
	Verdict string `json:"verdict"`
	Source  string `json:"source"`
	Open    bool   `json:"open"`
	OpenWhy string `json:"open_why"`
}

type bandDoc struct {
	Key     string  `json:"key"`
	Low     float64 `json:"low"`
	Nominal float64 `json:"nominal"`
	High    float64 `json:"high"`
	Origin  string  `json:"origin"`
	Reason  string  `json:"reason"`
}

// CheckJSON is the document of check: SI units, gauge pressures above the
// design's ambient pressure. Value, limit and margin are null where a verdict is
// unknown or not applicable.
func CheckJSON(id DesignID, r limits.Report) (any, error) {
	doc := checkDoc{
		Design: id, Holds: r.Holds, Confirmed: r.Confirmed, OpenItems: r.OpenItems,
		Verdicts: []verdictDoc{}, Eye: []eyeDoc{}, Items: []itemDoc{}, Assumed: []bandDoc{},
		Notes:  append([]string{}, r.Notes...),
		Energy: energyOf(r.Energy), Measured: measuredOf(r.Measured),
		Wave: waveOf(r.Wave),
	}
	for _, v := range r.Verdicts {
		d := verdictDoc{ID: v.ID, Title: v.Title, Status: string(v.Status), Unit: string(v.Unit), Basis: string(v.Basis),
			Source: v.Source, Caveat: v.Caveat, Why: v.Why, Advice: v.Advice}
		if v.Status == finding.Pass || v.Status == finding.Fail {
			d.Value, d.Limit, d.Margin = v.Value, v.Limit, v.Margin
		}
		doc.Verdicts = append(doc.Verdicts, d)
	}
	for _, e := range r.Eye {
		doc.Eye = append(doc.Eye, eyeDoc(e))
	}
	for _, it := range r.Items {
		doc.Items = append(doc.Items, itemDoc{it.ID, it.Title, it.Why, it.How, it.Expect, it.Verdict, it.Source, it.Done == nil, it.OpenWhy})
	}
	for _, b := range r.Assumed {
		doc.Assumed = append(doc.Assumed, bandDoc{b.Key, b.Low, b.Nominal, b.High, b.Origin.String(), b.Reason})
	}
	return doc, finite(doc)
}

// finite is an error where the document holds a figure that JSON cannot carry.
func finite(doc any) error {
	if _, err := json.Marshal(doc); err != nil {
		return fmt.Errorf("a figure is no number: %w", err)
	}
	return nil
}

func energyOf(e *worst.EnergyReport) *energyDoc {
	if e == nil {
		return nil
	}
	d := &energyDoc{
		NominalShot: figuresOf(e.NominalShot), NominalMax: figuresOf(e.NominalMax), Worst: figuresOf(e.Worst),
		WorstPoint: []coordinateDoc{}, Factor: e.Factor, FactorSource: e.FactorSource,
		Measured: e.Measured, Basis: string(e.Basis), Limit: e.Limit,
		ProjectedArea: e.ProjectedArea, AreaLimit: e.AreaLimit, Runs: e.Runs, Maxima: e.Maxima,
	}
	if e.ContactArea > 0 {
		d.ContactArea = &e.ContactArea
	}
	if e.Basis != "" { // else nothing was judged, and 0 means not known
		d.Model, d.Ceiling, d.Judged = &e.Model, &e.Ceiling, &e.Judged
		d.StartHigh, d.CeilingDose, d.Gap = &e.StartHigh, &e.CeilingDose, &e.Gap
		if e.ContactArea > 0 {
			d.AreaJudged = &e.AreaJudged
		}
	}
	for _, c := range e.WorstPoint {
		d.WorstPoint = append(d.WorstPoint, coordinateDoc(c))
	}
	return d
}

// figuresOf leaves what only a shot that left the muzzle has null for others; a
// shot that was not computed is null as a whole.
func figuresOf(f worst.ShotFigures) *figuresDoc {
	if f.Outcome == "" {
		return nil
	}
	d := &figuresDoc{Outcome: f.Outcome, StartGauge: f.StartGauge, Seat: f.Seat}
	if f.Outcome == outcomeLeft {
		d.MuzzleSpeed, d.MuzzleEnergy = &f.MuzzleSpeed, &f.MuzzleEnergy
		d.FinalSpeed, d.FinalEnergy, d.ExitTime = &f.FinalSpeed, &f.FinalEnergy, &f.ExitTime
	}
	return d
}
