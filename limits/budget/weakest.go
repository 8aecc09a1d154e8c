package budget

import (
	"slices"

	"puffproof/limits/catalogue"
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
	all = filledFurther(l, w, all, assumed)
	kept, _ := dearest(all, func(s Share) float64 { return s.Speed }, max(w.Speed, worst.Creep))
	return kept
}

// filledFurther adds what the weakest launcher gains where a band that its supply comes to rest by is known: it is filled further.
func filledFurther(l *launcher.Launcher, w worst.Weakest, all []Share, assumed map[string]bool) []Share {
	if rest := l.Resting(); !rest.Ends {
		return all
	}
	from := worst.NewBox(l, worst.WeakestFrom(l, w.Start))
	for i, q := range catalogue.Of(l, w.Start) {
		if !(q.High > q.Low) {
			continue
		}
		sure := l.Clone()
		hold(catalogue.Of(sure, w.Start)[i].Band)
		more := sure.Working().Low
		if more <= w.Start*(1+1e-6) {
			continue
		}
		b := worst.NewBox(l, worst.WeakestFrom(l, more))
		u := b.Carry(from.Labels, w.At, 0.5)
		s := Share{Key: q.Key, Nominal: q.Nominal, At: q.Low, Assumed: assumed[q.Key]}
		if k := slices.Index(b.Labels, q.Key); k >= 0 {
			s.At, u[k] = b.Quantities[k].Value(u[k]), b.Quantities[k].Fraction(q.Nominal)
		}
		s.Speed = -known(b.Evaluator().Value(u)) - w.Speed
		if j := slices.IndexFunc(all, func(have Share) bool { return have.Key == q.Key }); j >= 0 {
			all[j].Speed = max(all[j].Speed, s.Speed)
			continue
		}
		all = append(all, s)
	}
	return all
}
