package render

import "puffproof/limits/fault"

type faultsDoc struct {
	Design   DesignID     `json:"design"`
	Limit    float64      `json:"limit_J"`
	Faults   []faultDoc   `json:"faults"`
	Pairs    []faultDoc   `json:"pairs"`
	AllPairs bool         `json:"all_pairs"`
	Searched int          `json:"searched"`
	Skipped  int          `json:"cannot_change_the_shot"`
	Shots    int          `json:"shots"`
	Verdicts []verdictDoc `json:"verdicts"`
	Items    []itemDoc    `json:"items"`
}

type faultDoc struct {
	ID          string   `json:"id"`
	Path        string   `json:"path"`
	Mode        string   `json:"mode"`
	State       string   `json:"state"`
	WorstGauge  *float64 `json:"worst_gauge_Pa"`
	Where       string   `json:"where"`
	Energy      *float64 `json:"final_energy_J"`
	Judged      *float64 `json:"judged_energy_J"`
	Freed       *float64 `json:"freed_energy_J"`
	Status      string   `json:"status"`
	Basis       string   `json:"basis"`
	Effect      string   `json:"effect"`
	SameAs      *string  `json:"same_as"`
	Reason      string   `json:"reason"`
	Consequence string   `json:"consequence"`
	DetectedBy  string   `json:"detected_by"`
	PreventedBy string   `json:"prevented_by"`
	Latent      bool     `json:"latent"`
	RevealedBy  *string  `json:"revealed_by"`
	With        *string  `json:"with"`
	Shots       int      `json:"shots"`
}

// FaultsJSON is the document of faults. Energies and pressures are null where
// they are not known.
func FaultsJSON(id DesignID, r *fault.Report) (any, error) {
	doc := faultsDoc{Design: id, Limit: r.Limit, Faults: faultDocs(r.Faults), Pairs: faultDocs(r.Pairs), AllPairs: r.AllPairs,
		Searched: r.Searched, Skipped: r.Unsearched, Shots: r.Shots, Verdicts: verdictDocs(r.Verdicts), Items: itemDocs(r.Items)}
	return doc, finite(doc)
}

func faultDocs(all []fault.Result) []faultDoc {
	out := []faultDoc{}
	for _, f := range all {
		out = append(out, faultDoc{ID: f.ID, Path: f.Part, Mode: string(f.Mode), State: f.State, WorstGauge: orNull(f.WorstGauge), Where: f.Where,
			Energy: orNull(f.Energy), Judged: orNull(f.Judged), Freed: orNull(f.Freed), Status: string(f.Status), Basis: string(f.Basis), Effect: string(f.Effect), SameAs: textOrNull(f.SameAs),
			Reason: f.Reason, Consequence: f.Consequence, DetectedBy: f.DetectedBy, PreventedBy: f.PreventedBy, Latent: f.Latent,
			RevealedBy: textOrNull(f.RevealedBy), With: textOrNull(f.With), Shots: f.Shots})
	}
	return out
}

func textOrNull(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}
