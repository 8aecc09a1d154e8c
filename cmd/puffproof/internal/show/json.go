package show

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"puffproof/limits/finding"
	"unicode"
)

// Object is a JSON object whose keys keep their order. A nil Object is null.
type Object []field

type field struct {
	key   string
	value any
}

// Fields makes an object of keys and values in turn:
//
//	Fields("limit_J", r.Limit, "faults", List(r.Faults, faultFields))
//
// A value is an Object, a list of them, a Text, a list of them, or what encoding/json
// writes as text, number, boolean, list or null. It panics where a key has no value or is no text.
func Fields(pairs ...any) Object {
	if len(pairs)%2 != 0 {
		panic("show: the last key has no value")
	}
	o := make(Object, 0, len(pairs)/2)
	for i := 0; i < len(pairs); i += 2 {
		o = append(o, field{pairs[i].(string), pairs[i+1]})
	}
	return o
}

// List makes an object of each item. Without items it is an empty list, not null.
func List[T any](items []T, fields func(T) Object) []Object {
	out := make([]Object, 0, len(items))
	for _, one := range items {
		out = append(out, fields(one))
	}
	return out
}

// Maybe makes an object of what is there; null where nothing is.
func Maybe[T any](p *T, fields func(T) Object) Object {
	if p == nil {
		return nil
	}
	return fields(*p)
}

// Finite is null for a figure that is not finite: never, not stated, not computed.
func Finite(v float64) *float64 {
	if math.IsInf(v, 0) {
		return nil
	}
	return Known(v)
}

// Known is null for a figure that does not exist, NaN.
func Known(v float64) *float64 {
	if math.IsNaN(v) {
		return nil
	}
	return &v
}

// Said is null for a text that says nothing.
func Said(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}

// Document encodes an object. The error names a figure that is not finite and is
// not null either: the result it stands in is to be withheld.
func Document(o Object) (json.RawMessage, error) {
	var b bytes.Buffer
	if err := encode(&b, o); err != nil {
		return nil, fmt.Errorf("a figure is no number: %w", err)
	}
	return b.Bytes(), nil
}

// encode writes a value on one line.
func encode(b *bytes.Buffer, v any) error {
	switch v := v.(type) {
	case Object:
		if v == nil {
			b.WriteString("null")
			return nil
		}
		return between(b, '{', '}', len(v), func(i int) error {
			if err := encode(b, v[i].key); err != nil {
				return err
			}
			b.WriteByte(':')
			return encode(b, v[i].value)
		})
	case []Object:
		return between(b, '[', ']', len(v), func(i int) error { return encode(b, v[i]) })
	case finding.Text:
		return encode(b, v.String())
	case []finding.Text:
		return between(b, '[', ']', len(v), func(i int) error { return encode(b, v[i]) })
	case []string:
		return between(b, '[', ']', len(v), func(i int) error { return encode(b, v[i]) })
	case []float64:
		return between(b, '[', ']', len(v), func(i int) error { return encode(b, v[i]) })
	}
	enc := json.NewEncoder(b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v); err != nil {
		return err
	}
	b.Truncate(b.Len() - 1) // the end of the line
	return nil
}

// between writes n parts with commas between them, in brackets.
func between(b *bytes.Buffer, open, end byte, n int, part func(i int) error) error {
	b.WriteByte(open)
	for i := range n {
		if i > 0 {
			b.WriteByte(',')
		}
		if err := part(i); err != nil {
			return err
		}
	}
	b.WriteByte(end)
	return nil
}

// WriteJSON writes v as one indented document, or nothing and an error. A
// number that is not finite is an error. Characters that could steer a
// terminal are written as \u codes.
func WriteJSON(w io.Writer, v any) error {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(v); err != nil {
		return err
	}
	var out bytes.Buffer
	for _, r := range b.String() {
		switch {
		case r < 0x7f || unicode.IsPrint(r):
			out.WriteRune(r)
		case r > 0xffff:
			// JSON writes such a rune as a surrogate pair.
			hi, lo := 0xd800+(r-0x10000)>>10, 0xdc00+(r-0x10000)&0x3ff
			fmt.Fprintf(&out, `\u%04x\u%04x`, hi, lo)
		default:
			fmt.Fprintf(&out, `\u%04x`, r)
		}
	}
	_, err := w.Write(out.Bytes())
	return err
}
