package design

import (
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/unit"
)

// keyType is what a key holds.
type keyType uint8

const (
	quantity keyType = iota // text with a number, a unit, a tolerance, an origin
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
	min, max  float64  // possible nominal values, SI
	words     []string // allowed, for kind word
	in        []string // values of the table's selector where the key belongs; nil: all
	required  []string // values of the selector where it must stand; {"*"}: all
	least     int      // for kind readings: fewest readings
	bands     bands    // for a quantity without a tolerance
	missing   string   // what is assumed, or unknown, without it
	example   string   // TOML value for the template
	teach     string   // what it is, and how to find it at home
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

// newKeyTable puts the one table of keys together.
func newKeyTable() *keyTable {
	k := &keyTable{tables: tableRows(), index: map[string]map[string]*key{}}
	for _, part := range [][]key{topKeys(), ambientKeys(), vesselKeys(), pathKeys(), flowKeys(), reliefKeys(), supplyKeys(),
		barrelKeys(), projectileKeys(), eventKeys(), ruleKeys(), benchKeys()} {
		k.keys = append(k.keys, part...)
	}
	for i := range k.keys {
		row := &k.keys[i]
		if k.index[row.table] == nil {
			k.index[row.table] = map[string]*key{}
		}
		k.index[row.table][row.name] = row
		for _, a := range row.aliases {
			k.index[row.table][a] = row
		}
	}
	return k
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

func tableRows() []tableRow {
	return []tableRow{
		{name: "", required: true, teach: "The design as a whole."},
		{name: "ambient", synonyms: []string{"environment", "weather", "surroundings"},
			teach: "The air around the launcher, and the heat and cold that it may meet while filled."},
		{name: "gas", teach: "The gas that drives the projectile."},
		{name: "volumes.*", required: true, synonyms: []string{"tank", "bottle", "tanks", "volume", "reservoir", "receiver", "accumulator",
			"vessel", "vessels", "air_can", "chamber", "dose"},
			teach: "Each closed space that holds pressure, under a name of your own: tank, dose, manifold. Hoses and the barrel are not volumes."},
		{name: "paths.*", selector: "kind", required: true, synonyms: []string{"path", "valve", "valves", "line", "lines", "plumbing", "circuit",
			"relief", "vent", "vents", "pipes"}, teach: "Each way that air can take between two volumes, the barrel and the atmosphere: valves, " +
			"orifices, hoses, the relief valve. Its flow stands in exactly one of: sonic_conductance, Cv, Kv, nominal_flow, orifice, seat_bore."},
		{name: "paths.*.exhaust", teach: "The exhaust port of a three_way valve. Its flow stands in one of the same keys as a path's."},
		{name: "paths.*.hose", teach: "A hose in series with its path: it slows the flow, and its inside adds to the volume on its side."},
		{name: "supply", selector: "kind", synonyms: []string{"compressor", "pump", "source"}, teach: "Where the air comes from."},
		{name: "pressure_switch", synonyms: []string{"switch", "pressureswitch", "pressostat", "cutoff"},
			teach: "The switch that stops the supply."},
		{name: "gauge", list: true, synonyms: []string{"gauges", "manometer", "gage"}, teach: "A pressure gauge. Several are written [[gauge]]."},
		{name: "barrel", selector: "fit", required: true, synonyms: []string{"tube", "launch_tube", "bore", "muzzle"},
			teach: "What guides the projectile: a bore that it sits in, or a tube that it sits over."},
		{name: "projectile", required: true, synonyms: []string{"ball", "rocket", "foam", "ammo", "shot", "dart"}, teach: "What flies."},
		{name: "venting", synonyms: []string{"dump", "blow_down", "bleed", "exhaust"},
			teach: "How far and how fast the launcher must empty itself on shutdown."},
		{name: "event", synonyms: []string{"show", "place"}, teach: "Who is near, and where."},
		{name: "mount", synonyms: []string{"stand", "elevation"}, teach: "How the barrel is held, and whether it moves."},
		{name: "limits", synonyms: []string{"limit", "policy"}, teach: "Which limits are used; your own may be stricter, never looser."},
		{name: "model", teach: "Only for comparison with references: switches parts of the model off."},
		{name: "objects", list: true, synonyms: []string{"object", "misuse"},
			teach: "Objects of your own that a child may put into the barrel, written [[objects]]; they join the built-in list."},
		{name: "bench", synonyms: []string{"tests", "bench_tests", "readings"},
			teach: "Raw readings of bench tests. Each test replaces the bands that stood for it, and the reports say by how much the answer moved."},
		{name: "checklist", synonyms: []string{"confirmed"}, teach: "Answers to checklist items: [checklist.ITEM] with who, date, value."},
	}
}
