package keys

import (
	"slices"
	"strings"
)

// NotKnown is what a builder writes for a value that is not known yet.
const NotKnown = "?"

// claims are, by table, the keys that say what only who built the launcher, or keeps it, can say: ratings, proofs,
// guards, who is near. A file to start from leaves them blank. What is left blank is read the strict way.
func claims() map[string][]string {
	part := []string{"rated_pressure", "rated_for_gas", "material", "proof_test", "made_on", "retire_by"}
	return map[string][]string{
		"volumes.*":       part,
		"paths.*":         {"drive", "points", "orifice_removable"},
		"paths.*.exhaust": {"points", "orifice_removable"},
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

// Declarable tells that the word of the key may be one that is promised and not shown yet: "declared closed".
func (k *Key) Declarable() bool { return k.Kind == Word && (k.Claim() || k.Name == "unpowered") }

// AllWords are the words that the key may hold, as they are and as they are promised.
func (k *Key) AllWords() []string {
	if !k.Declarable() {
		return k.Words
	}
	all := slices.Clone(k.Words)
	for _, w := range k.Words {
		all = append(all, declaredMark+" "+w)
	}
	return all
}

// declaredMark begins what is promised and not shown yet.
const declaredMark = "declared"

// Promised is what is said without the mark before it that it is not shown yet, and whether it has that: "declared closed",
// "declared: closed".
func Promised(text string) (said string, marked bool) {
	after, marked := strings.CutPrefix(strings.TrimSpace(text), declaredMark)
	rest := strings.TrimLeft(after, ": ")
	if !marked || rest == after || rest == "" {
		return text, false
	}
	return rest, true
}
