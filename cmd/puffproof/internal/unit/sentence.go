package unit

import (
	"reflect"
	"regexp"
	"strconv"
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
	return figureInSentence.ReplaceAllStringFunc(s, func(m string) string {
		part := figureInSentence.FindStringSubmatch(m)
		u, ok := Lookup(part[3])
		if !ok {
			return m
		}
		written := func(number string) string {
			v, err := strconv.ParseFloat(number, 64)
			if err != nil {
				return number + " " + part[3]
			}
			return Format(u.ToSI(v), u.Dimension, sys)
		}
		if part[1] == "" {
			return written(part[2])
		}
		joint := m[len(part[1]) : len(m)-len(part[2])-1-len(part[3])]
		return written(part[1]) + joint + written(part[2])
	})
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
	"Says": true, "Missing": true, "StartWhy": true, "TargetWhy": true, "Trouble": true, "DetectedBy": true, "PreventedBy": true, "Procedure": true, "Relief": true, "Unmet": true,
	"Unknown": true}

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
