package doubt

import (
	"slices"

	"puffproof/limits/launcher"
)

// A delivery curve runs near the straight line from free_air to dead_head, of diaphragm pumps below it; below a third of it none does
// until nearly the dead head, where little is told apart (both common practice, no source).
const (
	leastOfStraight = 1.0 / 3
	nearTheEnd      = 0.8 // of the dead head
)

// OtherCurve gives the delivery curve that the design states and tells whether it falls far below the straight line from free_air at no
// pressure to nothing at dead_head, at the pressure given [Pa gauge]: then one of the three is a slip. Without free_air the curve's own
// beginning is the line's.
func OtherCurve(l *launcher.Launcher) (stated []launcher.CurvePoint, at float64, other bool) {
	s := l.Supply
	if s == nil || !s.DeadHead.Set || s.DeadHead.Nominal <= 0 {
		return nil, 0, false
	}
	stated = s.Curve
	if s.CurveSaid != nil {
		stated = s.CurveSaid
	}
	for _, p := range stated {
		if p.Gauge <= nearTheEnd*s.DeadHead.Nominal && p.FreeAir < leastOfStraight*straight(s, stated, p.Gauge) {
			return stated, p.Gauge, true
		}
	}
	return stated, 0, false
}

// straight is what a supply delivers at a pressure [Pa gauge] on the straight line from its free air to its dead head [m3/s].
func straight(s *launcher.SupplySpec, curve []launcher.CurvePoint, at float64) float64 {
	free := curve[0].FreeAir
	if s.FreeAir.Set {
		free = s.FreeAir.Nominal
	}
	return max(free*(1-at/s.DeadHead.Nominal), 0)
}

// Curve lets a supply whose delivery curve is doubted deliver at each pressure the more of that and of the straight line: the more comes,
// the fuller it gets and the harder the shot.
func Curve(l *launcher.Launcher) {
	stated, _, other := OtherCurve(l)
	if !other || l.Supply.CurveSaid != nil {
		return
	}
	s := l.Supply
	s.CurveSaid, s.Curve = stated, slices.Clone(stated)
	for i, p := range s.Curve {
		s.Curve[i].FreeAir = max(p.FreeAir, straight(s, stated, p.Gauge))
	}
	if s.Curve[0].Gauge > 0 {
		s.Curve = slices.Insert(s.Curve, 0, launcher.CurvePoint{FreeAir: max(stated[0].FreeAir, straight(s, stated, 0))})
	}
	if last := s.Curve[len(s.Curve)-1]; last.Gauge < s.DeadHead.Nominal {
		s.Curve = append(s.Curve, launcher.CurvePoint{Gauge: s.DeadHead.Nominal})
	}
}
