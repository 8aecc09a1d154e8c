package keys

import "slices"

// NotKnown is what a builder writes for a value that is not known yet.
const NotKnown = "?"

// claims are, by table, the keys that say what only who built the launcher, or keeps it, can say: ratings, proofs,
// guards, who is near. A file to start from leaves them blank. What is left blank is read the strict way.
func claims() map[string][]string {
	part := []string{"rated_pressure", "rated_for_gas", "material", "proof_test", "made_on", "retire_by"}
	return map[string][]string{
		"volumes.*":       part,
		"paths.*":         {"drive", "points"},
		"paths.*.exhaust": {"points"},
		"paths.*.hose":    part,
		"pressure_switch": {"differential", "adjustable", "adjustable_to"},
		"gauge":           {"stop_pin"},
		"barrel":          append([]string{"muzzle_admits", "object_control", "seal_guard"}, part...),
		"projectile":      {"contact_diameter", "tip", "tip_proof", "open_cell", "lot", "made_on", "retire_by"},
		"event":           {"youngest", "ear_to_muzzle", "eye_to_muzzle", "nearest_person", "kerb", "wheels"},
	}
}

// Claim tells that the key says what only the builder can say.
func (k *Key) Claim() bool { return slices.Contains(claims()[k.Table], k.Name) }
