package worst

import (
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/search"
)

// ToNarrow says which quantity to state more narrowly so that the figure at a point, which
// could not be computed, is known: those that settle it alone at their nominal value, or
// that none does. at nil: no point.
func (b *Box) ToNarrow(at []float64, figure search.Objective) finding.Text {
	if at == nil {
		return nil
	}
	var keys []string
	try := func(k int, to float64, key string) {
		u := append([]float64(nil), at...)
		if u[k] = to; to != at[k] && !math.IsNaN(figure.Value(u)) {
			keys = append(keys, key)
		}
	}
	for k := range b.Quantities {
		q := &b.Quantities[k]
		try(k, q.Fraction(q.Nominal), q.Key)
	}
	if b.Seat >= 0 {
		try(b.Seat, 0, "barrel.seating")
	}
	const most = 3
	switch {
	case len(keys) == 0:
		return finding.Say("no tolerance alone decides it: state what slows the projectile (%s), or let the supply stand still while firing (%s)",
			finding.Key("projectile.sliding_force"), finding.Key("supply.runs_in"))
	case len(keys) > most:
		keys = keys[:most]
	}
	var named []finding.Text
	for _, key := range keys {
		named = append(named, finding.Key(key))
	}
	return finding.Say("state more narrowly: %s", finding.Join(named, " or "))
}
