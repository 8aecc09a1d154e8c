package finding

import (
	"math"
	"slices"
	"strconv"
)

// Side is the side of a figure to which its digits may be rounded.
type Side int8

// The sides.
const (
	EitherSide Side = 0
	NotBelow   Side = 1  // an end that is accepted from there on
	NotAbove   Side = -1 // an end that is accepted up to there
)

// Inward is a text that tells what is expected, each end of it among its figures rounded to the side that is accepted: whoever reads
// off what is printed has not failed. An end keeps as many digits as leave four fifths of its band.
func (t Text) Inward(all ...*Expected) Text {
	out := slices.Clone(t)
	for i := range out {
		if out[i].Figure == nil {
			continue
		}
		for _, e := range all {
			for ; e != nil; e = e.Also {
				for _, band := range []*Expected{e, e.With, FigureBetween(e.Unit, e.Reach, math.Inf(1)),
					FigureBetween(e.Unit, e.Nearer, math.Inf(1))} {
					if f, is := out[i].Figure.inward(band); is {
						out[i].Figure = &f
					}
				}
			}
		}
	}
	return out
}

// inward is the figure rounded to the side that is accepted; false where it is no end of what is expected, or both ends of it.
func (s Shown) inward(e *Expected) (Shown, bool) {
	if e == nil || s.Unit.quantity() != e.Unit || s.Value == 0 || e.Low == e.High || s.Side != EitherSide {
		return s, false
	}
	switch s.Value {
	case e.Low:
		s.Side = NotBelow
	case e.High:
		s.Side = NotAbove
	default:
		return s, false
	}
	const most, loses = 3, 0.2
	_, size := s.Unit.metric()
	for range most {
		shown, err := strconv.ParseFloat(s.Number(size), 64)
		if width := e.High - e.Low; err != nil || math.IsInf(width, 0) || math.Abs(shown*size-s.Value) <= loses*width {
			break
		}
		s.Digits++
	}
	return s, true
}

// onSide is a number as it is written, or the next one of as many digits on the side that is asked.
func (s Shown) onSide(text string, v float64) string {
	const hair = 1e-9 // of rounding in a conversion of units
	shown, err := strconv.ParseFloat(text, 64)
	if err != nil || s.Side == EitherSide || float64(s.Side)*(shown-v) >= -hair*math.Abs(v) {
		return text
	}
	decimals := s.Digits
	if s.Rounding != Decimals {
		decimals -= 1 + int(math.Floor(math.Log10(math.Abs(v))))
	}
	return strconv.FormatFloat(shown+float64(s.Side)*math.Pow10(-decimals), 'f', max(decimals, 0), 64)
}

// Inward is the item's Expect with the ends of its figures rounded inwards.
func (it *Item) Inward() Text {
	all := []*Expected{it.Figure, it.May}
	for i := range it.Parts {
		all = append(all, &it.Parts[i].Expected)
	}
	for i := range it.Asks {
		all = append(all, &it.Asks[i].Expected)
	}
	return it.Expect.Inward(all...)
}
