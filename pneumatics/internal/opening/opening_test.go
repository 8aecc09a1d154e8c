package opening

import (
	"testing"

	"pgregory.net/rapid"
)

// Whatever the times, the knots of a schedule are in order, so that it has one opening at every time.
func TestKnotsAreInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		span := rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(1e-4, 0.1))
		m := Motion{Opening: span.Draw(t, "opening"), Closing: span.Draw(t, "closing"), Pulse: span.Draw(t, "pulse"), Reopens: span.Draw(t,
			"reopens")}
		end := rapid.SampledFrom([]float64{0, 0.3, 1})
		s := m.Ramp(end.Draw(t, "from"), end.Draw(t, "to"))
		for i := 1; i < s.n; i++ {
			if !(s.knots[i].t > s.knots[i-1].t) {
				t.Fatalf("knots out of order: %+v", s.knots[:s.n])
			}
		}
	})
}
