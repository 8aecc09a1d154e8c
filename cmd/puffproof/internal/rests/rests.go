package rests

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2"

	"puffproof/limits/finding"
)

// Flatten gives every value of a TOML text under its dotted key: comments, order and blanks do not count. The error says
// that it is none.
func Flatten(text string) (map[string]string, error) {
	var tree map[string]any
	if err := toml.Unmarshal([]byte(strings.TrimPrefix(text, "\ufeff")), &tree); err != nil {
		return nil, err
	}
	out := map[string]string{}
	var walk func(prefix string, v any)
	walk = func(prefix string, v any) {
		switch v := v.(type) {
		case map[string]any:
			for k, one := range v {
				walk(strings.TrimPrefix(prefix+"."+k, "."), one)
			}
		case []any:
			if len(v) == 0 {
				out[prefix] = "[]"
			}
			for i, one := range v {
				walk(fmt.Sprintf("%s[%d]", prefix, i+1), one)
			}
		default:
			out[prefix] = fmt.Sprint(v)
		}
	}
	walk("", tree)
	return out, nil
}

// Differing are the keys whose values differ between two flattened designs, in alphabetical order.
func Differing(a, b map[string]string) (out []string) {
	all := maps.Clone(a)
	maps.Copy(all, b)
	for _, k := range slices.Sorted(maps.Keys(all)) {
		if a[k] != b[k] {
			out = append(out, k)
		}
	}
	return out
}

// describing keys are words about the launcher, and what was read off it: no test rests on them.
func describing(key string) bool {
	return slices.Contains([]string{"name", "revision", "serial", "description", "owner", "adult_in_charge"}, key) ||
		strings.HasPrefix(key, "checklist.") || strings.HasPrefix(key, "bench.")
}

// Bears tells whether a key of the design bears on an item of the checklist. An item that is not listed here rests on
// everything that is not mere description.
func Bears(key, item string) bool {
	if item == finding.ItemSecondLook && slices.Contains([]string{"name", "revision", "serial"}, key) {
		return true // at this launcher, not at its like
	}
	if describing(key) {
		return false
	}
	rests := []struct{ item, keys string }{
		{"tip.", "projectile. ambient."},
		{"contact.", "projectile."},
		{"label.", "volumes. barrel."},
		{"proof.", "volumes. barrel."},
		{"seal-guard", "barrel."},
		{"muzzle-admits", "barrel."},
		{"seat-stop", "barrel. projectile."},
		{"object-control.", "barrel. projectile. objects"},
		{"one-projectile", "barrel. projectile."},
		{"vent.", "volumes. paths. barrel. gauge venting. pressure_switch. supply. ambient. gas."},
		{"faults.", "volumes. paths. barrel. gauge venting. pressure_switch. supply. ambient. gas. control."},
		{"leak-down", "volumes. paths. gauge pressure_switch. supply. ambient. gas."},
		{"relief.", "volumes. paths. supply. gauge"},
		{"gauge.", "gauge"},
		{"mount.", "mount. event."},
		{"projectile.", "projectile."},
		{"age.", "volumes. barrel. projectile."},
		{"restrictor.", "paths."},
		{"valve.", "paths. barrel. control."},
		{"dead-volume", "barrel. paths. projectile."},
		{"electric.", "paths. supply. control."},
		{"control.", "paths. supply. pressure_switch. venting. control."},
		{"switch.", "pressure_switch. gauge supply. volumes."},
		{"end-caps", "volumes. barrel. supply."},
		{"hose.", "paths."},
		{"exhaust.", "paths."},
		{"open.", "paths. volumes."},
		{"unasked.", "paths. barrel. supply. control."},
		{"barrel.one", "paths. barrel."},
		{"barrel.no-pressure", "paths. barrel. projectile. pressure_switch. supply."},
		{"muzzle.", "barrel. projectile."},
		{"cold.", "volumes. paths. ambient."},
		{"drill.", "volumes. paths. barrel. projectile. venting."},
		{"loading.", "volumes. paths. barrel. projectile. venting. pressure_switch. supply."},
		{"pump.", "supply. gauge volumes."},
		{"timer.", "supply. gauge volumes. paths."},
		{"prefill.", "gauge volumes."},
		{"supply.", "supply. pressure_switch. volumes. paths. venting. control."},
		{"shots.", "volumes. paths. barrel. projectile. supply. pressure_switch. gauge ambient. gas."},
		{"confirm.", "volumes. paths. barrel. projectile. supply. pressure_switch. gauge ambient. gas."},
	}
	for _, r := range rests {
		if !strings.HasPrefix(item, r.item) {
			continue
		}
		return slices.ContainsFunc(strings.Fields(r.keys), func(prefix string) bool { return strings.HasPrefix(key, prefix) })
	}
	return true
}

// BuildOf is the fingerprint of what an item rests on in a flattened design: of keys and values, as they are written.
func BuildOf(flat map[string]string, item string) string {
	h := sha256.New()
	for _, k := range slices.Sorted(maps.Keys(flat)) {
		if Bears(k, item) {
			fmt.Fprintf(h, "%q=%q\n", k, flat[k])
		}
	}
	return hex.EncodeToString(h.Sum(nil))[:buildLength]
}

// buildLength is how many letters of a fingerprint are written: enough that no two builds of a launcher have the same.
const buildLength = 16

// NewerPart is the newest part of a flattened design that an answer to an item rests on and that was made after the day of the answer, as
// of finding.NewestAfter. Such an answer was given for another part.
func NewerPart(flat map[string]string, item, date string) finding.NewerPart {
	var parts []finding.NewerPart
	for _, k := range slices.Sorted(maps.Keys(flat)) {
		if strings.HasSuffix(k, ".made_on") && Bears(k, item) {
			parts = append(parts, finding.NewerPart{Key: k, Made: flat[k]})
		}
	}
	return finding.NewestAfter(date, parts)
}
