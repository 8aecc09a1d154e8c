package show

import (
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"puffproof/cmd/puffproof/internal/unit"
)

// figureInSentence is a metric figure as the results write it inside a sentence.
// "bar L", the product that pressure law limits, is a unit of its own and stays.
var figureInSentence = regexp.MustCompile(`(?:(-?\d[\d.]*) (?:to|and) )?(-?\d[\d.]*) (bar L|bar|mm2|mm|mL|L/min|L|m/s|°C|N)\b`)

// Sentence rewrites the metric figures of a sentence in another family of units:
// "stuck after a shot from 0.42 bar" becomes "… from 6.1 psi". In metric it is
// the sentence itself.
func Sentence(s string, sys System) string {
	if sys != US {
		return s
	}
	var out strings.Builder
	last := 0
	for _, m := range figureInSentence.FindAllStringSubmatchIndex(s, -1) {
		u, ok := unit.Lookup(s[m[6]:m[7]])
		if !ok {
			continue
		}
		before, after := s[:m[0]], s[m[1]:]
		out.WriteString(s[last:m[0]])
		if m[2] >= 0 {
			out.WriteString(rewritten(s[m[2]:m[3]], u, Nearest))
			out.WriteString(s[m[3]:m[4]])
			before = ""
		}
		out.WriteString(rewritten(s[m[4]:m[5]], u, sense(before, after)))
		last = m[1]
	}
	return out.String() + s[last:]
}

// rewritten is a figure of unit u in US units, with two decimals of a psi where it
// was given to a millibar, as settings are.
func rewritten(number string, u unit.Unit, r Rounding) string {
	v, err := strconv.ParseFloat(number, 64)
	if err != nil {
		return number + " " + u.Name
	}
	if _, decimals, _ := strings.Cut(number, "."); u.Dimension == unit.Pressure && len(decimals) >= 3 {
		return US.Bare(Setting, u.ToSI(v), r) + " psi"
	}
	return US.Words(Of(u.Dimension), u.ToSI(v), r)
}

// sense is how a figure may be rounded by the words around it: what is at most
// allowed not upwards, what is at least needed not downwards.
func sense(before, after string) Rounding {
	ends := func(words ...string) bool {
		return slices.ContainsFunc(words, func(w string) bool { return strings.HasSuffix(before, w+" ") })
	}
	switch {
	case strings.HasPrefix(after, " or less"), ends("at most", "up to", "not above", "stay below", "no more than"):
		return Down
	case strings.HasPrefix(after, " or more"), ends("at least", "no less than"):
		return Up
	}
	return Nearest
}

// Sentences rewrites every sentence of a result in place: the fields of that
// kind in whatever v points to, however deep. v is a pointer to plain data.
func Sentences(v any, sys System) {
	if sys == US {
		rewrite(reflect.ValueOf(v))
	}
}

// sentenceFields are the names of fields that hold sentences with figures. Names,
// keys and the design's own words are none.
var sentenceFields = map[string]bool{"Why": true, "Advice": true, "Caveat": true, "How": true, "Expect": true, "Notes": true,
	"Consequence": true, "Detect": true, "Prevent": true, "Text": true, "Reason": true, "Note": true, "What": true, "Needs": true,
	"Says": true, "Missing": true, "StartWhy": true, "TargetWhy": true, "Trouble": true, "DetectedBy": true, "PreventedBy": true,
	"Relief": true, "Unknown": true, "Unmet": true, "AsItIs": true, "Procedure": true}

func rewrite(v reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			rewrite(v.Elem())
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			rewrite(v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if !v.Type().Field(i).IsExported() {
				continue
			}
			if f := v.Field(i); sentenceFields[v.Type().Field(i).Name] {
				rewriteStrings(f)
			} else {
				rewrite(f)
			}
		}
	}
}

func rewriteStrings(f reflect.Value) {
	switch {
	case f.Kind() == reflect.String && f.CanSet():
		f.SetString(Sentence(f.String(), US))
	case f.Kind() == reflect.Slice && f.Type().Elem().Kind() == reflect.String:
		for i := range f.Len() {
			f.Index(i).SetString(Sentence(f.Index(i).String(), US))
		}
	default:
		rewrite(f)
	}
}
