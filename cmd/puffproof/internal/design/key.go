package design

import (
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
)

// keyType is what a key holds.
type keyType uint8

const (
	number   keyType = iota // text with a number, a unit, a tolerance, an origin
	word                    // one of a few words
	text                    // free text
	date                    // 2026-05-31
	answer                  // true, false or "unknown"
	states                  // a list of states
	controls                // a list of declared object controls
	curve                   // a list of [gauge pressure, flow] pairs
	readings                // a list of raw readings
	subtable                // a table of its own
)

// pressureType says how a pressure is counted.
type pressureType uint8

const (
	asGauge      pressureType = iota // above ambient; an absolute unit is converted
	asAbsolute                       // above vacuum
	asDifference                     // between two readings; an absolute unit is refused
)

// sign says which values a quantity may have, tolerance included.
type sign uint8

const (
	positive sign = iota // above zero
	orZero               // zero or above
	anySign
)

// key is one row of the table of design-file keys.
type key struct {
	table     string   // name of the table's row
	name      string   // as it is written
	aliases   []string // other spellings that are accepted
	synonyms  []string // what builders say instead; refused with a hint
	kind      keyType
	dimension unit.Dimension
	pressure  pressureType
	sign      sign
	min, max  float64   // possible nominal values, SI
	past      float64   // how far a tolerance may reach beyond both, SI
	words     []string  // allowed, for kind word
	in        []string  // values of the table's selector where the key belongs; nil: all
	required  []string  // values of the selector where it must stand; {"*"}: all
	unless    [2]string // another key of the table and its word with which it need not stand
	least     int       // for kind readings: fewest readings
	bands     bands     // for a quantity without a tolerance
	missing   string    // what is assumed, or unknown, without it
	example   string    // TOML value for the template
	byProgram bool      // the program writes it: the template does not
	exampleUS string    // the same in US units where its text is no quantity alone
	teach     string    // what it is, and how to find it at home

	missingOf, teachOf []finding.Shown // the figures of both, in place of their verbs
}

// tableRow is one table of the design file.
type tableRow struct {
	name     string // "volumes.*": one table for each name
	selector string // the key whose word says which keys belong: kind, fit
	list     bool   // may be written [[name]] several times
	required bool
	synonyms []string
	teach    string
}

// nested tells whether the table stands inside another one.
func (row *tableRow) nested() bool { return strings.HasPrefix(row.name, "paths.*.") }

// keyTable is the whole table of keys, with an index.
type keyTable struct {
	tables []tableRow
	keys   []key
	index  map[string]map[string]*key // table, name or alias
}

// of lists the keys of one table in order.
func (k *keyTable) of(table string) []*key {
	var list []*key
	for i := range k.keys {
		if k.keys[i].table == table {
			list = append(list, &k.keys[i])
		}
	}
	return list
}

func (k *keyTable) row(table string) *tableRow {
	for i := range k.tables {
		if k.tables[i].name == table {
			return &k.tables[i]
		}
	}
	return nil
}

// belongs tells whether the key has a place where the selector has this value.
func (k *key) belongs(selected string) bool {
	if k.in == nil || selected == "" {
		return true
	}
	return slices.Contains(k.in, selected)
}

// needed tells whether the key must stand where the selector has this value.
func (k *key) needed(selected string) bool {
	return slices.Contains(k.required, "*") || selected != "" && slices.Contains(k.required, selected)
}
