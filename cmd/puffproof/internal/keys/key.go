package keys

import (
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
)

// Kind is what a key holds.
type Kind uint8

// The kinds.
const (
	Number   Kind = iota // text with a number, a unit, a tolerance, an origin
	Word                 // one of a few words
	Text                 // free text
	Date                 // 2026-05-31
	Answer               // true, false or "unknown"
	States               // a list of states
	Controls             // a list of declared object controls
	Curve                // a list of [gauge pressure, flow] pairs
	Readings             // a list of raw readings
	Names                // a list of names
	Subtable             // a table of its own
)

// Answers that are promised and not shown yet.
const (
	DeclaredYes = "declared yes"
	DeclaredNo  = "declared no"
)

// Counted says how a pressure is counted.
type Counted uint8

// The ways to count it.
const (
	AsGauge      Counted = iota // above ambient; an absolute unit is converted
	AsAbsolute                  // above vacuum
	AsDifference                // between two readings; an absolute unit is refused
)

// Sign says which values a quantity may have, tolerance included.
type Sign uint8

// The signs.
const (
	Positive Sign = iota // above zero
	OrZero               // zero or above
	AnySign
)

// Key is one row of the table of design-file keys.
type Key struct {
	Table     string   // name of the table's row
	Name      string   // as it is written
	Aliases   []string // other spellings that are accepted
	Synonyms  []string // what builders say instead; refused with a hint
	Kind      Kind
	Dimension unit.Dimension
	Pressure  Counted
	PeakSound bool // a peak of sound, which is C-weighted or not weighted: an A-weighted one is refused
	Sign      Sign
	Min, Max  float64   // possible nominal values, SI
	Past      float64   // how far a tolerance may reach beyond both, SI
	Words     []string  // allowed, for kind word
	In        []string  // values of the table's selector where the key belongs; nil: all
	Required  []string  // values of the selector where it must stand; {"*"}: all
	Unless    [2]string // another key of the table and its word with which it need not stand
	Least     int       // for kind readings: fewest readings
	Bands     bands     // for a quantity without a tolerance
	OutIsNone bool      // left out it says that there is none, or not: "?" is then no answer
	Missing   string    // what is assumed, or unknown, without it
	Example   string    // TOML value for the template
	ByProgram bool      // the program writes it: the template does not
	exampleUS string    // the same in US units where its text is no quantity alone
	Teach     string    // what it is, and how to find it at home

	Refuses func(text string) string // what is wrong with a text, in words; "" nothing; nil: any text will do

	missingOf, teachOf []finding.Shown // the figures of both, in place of their verbs
}

// Row is one table of the design file.
type Row struct {
	Name     string // "volumes.*": one table for each name
	Selector string // the key whose word says which keys belong: kind, fit
	List     bool   // may be written [[name]] several times
	Required bool
	Synonyms []string
	Teach    string
}

// Nested tells whether the table stands inside another one.
func (row *Row) Nested() bool { return strings.HasPrefix(row.Name, "paths.*.") }

// TopName is the name of the table, or of the family that it is one of.
func (row *Row) TopName() string { return strings.TrimSuffix(row.Name, ".*") }

// SelectorName is the key whose word says which keys belong, as it is told to a reader.
func (row *Row) SelectorName() string {
	switch {
	case row.Name == "projectile":
		return "barrel.fit"
	case row.Nested():
		return "kind"
	}
	return row.Selector
}

// Table is the whole table of keys, with an index.
type Table struct {
	Tables []Row
	Keys   []Key
	Index  map[string]map[string]*Key // table, name or alias
}

// Of lists the keys of one table in order.
func (k *Table) Of(table string) []*Key {
	var list []*Key
	for i := range k.Keys {
		if k.Keys[i].Table == table {
			list = append(list, &k.Keys[i])
		}
	}
	return list
}

// Row is the table of a name; nil: there is none.
func (k *Table) Row(table string) *Row {
	for i := range k.Tables {
		if k.Tables[i].Name == table {
			return &k.Tables[i]
		}
	}
	return nil
}

// Belongs tells whether the key has a place where the selector has this value.
func (k *Key) Belongs(selected string) bool {
	if k.In == nil || selected == "" {
		return true
	}
	return slices.Contains(k.In, selected)
}

// Needed tells whether the key must stand where the selector has this value.
func (k *Key) Needed(selected string) bool {
	return slices.Contains(k.Required, "*") || selected != "" && slices.Contains(k.Required, selected)
}
