package design

import (
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"puffproof/limits/launcher"
)

// noLines takes off a launcher where in the file its bands stand.
func noLines(v reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			noLines(v.Elem())
		}
	case reflect.Slice:
		for i := range v.Len() {
			noLines(v.Index(i))
		}
	case reflect.Struct:
		if b, ok := v.Addr().Interface().(*launcher.Band); ok {
			b.Line = 0
			return
		}
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				noLines(v.Field(i))
			}
		}
	}
}

// The order of the tables in a file is no part of the design: not a bit of the launcher
// depends on it.
func TestTheOrderOfTablesDoesNotMatter(t *testing.T) {
	header := regexp.MustCompile(`(?m)^\[`)
	for _, name := range []string{"whale.toml", "soapbox.toml", "careless.toml"} {
		text := string(demo(t, name))
		var tables []string
		at := header.FindAllStringIndex(text, -1)
		for i, a := range at {
			end := len(text)
			if i+1 < len(at) {
				end = at[i+1][0]
			}
			tables = append(tables, text[a[0]:end]+"\n")
		}
		slices.Reverse(tables)
		one, other := read(t, []byte(text)), read(t, []byte(text[:at[0][0]]+strings.Join(tables, "")))
		noLines(reflect.ValueOf(one))
		noLines(reflect.ValueOf(other))
		require.Equal(t, one, other, name)
	}
}

// Nor does the unit: figures that are the same are the same to the last bit.
func TestTheUnitDoesNotMatter(t *testing.T) {
	text := string(demo(t, "whale.toml"))
	other := text
	for from, to := range map[string]string{`"2.0 L ± 2 %`: `"2000 mL ± 40 mL`, `"0.36 bar ± 0.03 bar`: `"36 kPa ± 0.003 MPa`,
		"1.2 mm ± 0.1 mm": "0.12 cm ± 0.01 cm", "41.0 mm ± 0.2 mm": "4.10 cm ± 0.02 cm", "60 mm ± 3 mm": "0.060 m ± 0.3 cm"} {
		require.Contains(t, other, from)
		other = strings.ReplaceAll(other, from, to)
	}
	a, b := read(t, []byte(text)), read(t, []byte(other))
	require.Equal(t, a, b)
}
