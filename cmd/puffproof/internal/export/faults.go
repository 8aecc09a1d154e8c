package export

import (
	"encoding/json"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/fault"
)

// Faults is the document of faults. Energies and pressures are null where
// they are not known.
func Faults(id show.DesignID, r *fault.Report) (json.RawMessage, error) {
	return show.Document(show.Fields(
		"design", id, "limit_J", r.Limit, "faults", show.List(r.Faults, faultFields), "pairs", show.List(r.Pairs, faultFields),
		"all_pairs", r.AllPairs, "searched", r.Searched, "cannot_change_the_shot", r.Unsearched, "shots", r.Shots,
		"verdicts", show.List(r.Verdicts, verdictFields), "items", show.List(r.Items, itemFields)))
}

func faultFields(f fault.Result) show.Object {
	return show.Fields("id", f.ID,
		"path", f.Part, "mode", f.Mode, "state", f.State, "worst_gauge_Pa", show.Finite(f.WorstGauge), "where", f.Where,
		"final_energy_J", show.Finite(f.Energy), "judged_energy_J", show.Finite(f.Judged), "freed_energy_J", show.Finite(f.Freed),
		"status", f.Status, "basis", f.Basis, "effect", f.Effect, "same_as", show.Said(f.SameAs), "reason", f.Reason,
		"consequence", f.Consequence, "detected_by", f.DetectedBy, "prevented_by", f.PreventedBy,
		"latent", f.Latent, "revealed_by", show.Said(f.RevealedBy), "held_by", show.Said(f.HeldBy),
		"with", show.Said(f.With), "shots", f.Shots)
}
