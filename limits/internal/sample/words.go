package sample

import (
	"reflect"
	"regexp"

	"puffproof/limits/finding"
)

// figure is a number before a metric unit, without what both systems of units share (J,
// J/m2, s, ms, min, %).
var figure = regexp.MustCompile(`\d (bar|mm2?|m|m/s|mL|L|L/min|N|kg|g|°C|K|per m)\b`)

// FiguresInWords are the words of all texts in a value, however deep, that hold a figure
// with a metric unit: a reader in other units would meet it.
func FiguresInWords(v any) (out []string) {
	var walk func(v reflect.Value)
	walk = func(v reflect.Value) {
		switch v.Kind() {
		case reflect.Pointer, reflect.Interface:
			if !v.IsNil() {
				walk(v.Elem())
			}
		case reflect.Slice, reflect.Array:
			for i := range v.Len() {
				walk(v.Index(i))
			}
		case reflect.Struct:
			if part, ok := v.Interface().(finding.Part); ok && figure.MatchString(part.Words) {
				out = append(out, part.Words)
			}
			for i := range v.NumField() {
				if v.Type().Field(i).IsExported() {
					walk(v.Field(i))
				}
			}
		}
	}
	walk(reflect.ValueOf(v))
	return out
}
