package budget

import (
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
)

// slowing moves each quantity of the weakest launcher alone back to its nominal value: the speed that comes of it.
func slowing(l *launcher.Launcher, w worst.Weakest) []Share {
	b := worst.NewBox(l, worst.WeakestQuestion(l))
	at, assumed := b.Evaluator(), assumedKeys(l)
	var all []Share
	for k := range b.Quantities {
		q := &b.Quantities[k]
		u := append([]float64(nil), w.At...)
		s := Share{Key: q.Key, Nominal: q.Nominal, At: q.Value(u[k]), Assumed: assumed[q.Key]}
		u[k] = q.Fraction(q.Nominal)
		s.Speed = -known(at.Value(u)) - w.Speed
		all = append(all, s)
	}
	kept, _ := dearest(all, func(s Share) float64 { return s.Speed }, max(w.Speed, worst.Creep))
	return kept
}
