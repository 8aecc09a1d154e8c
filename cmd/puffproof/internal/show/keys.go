package show

import "puffproof/cmd/puffproof/internal/quantity"

import "puffproof/cmd/puffproof/internal/unit"

// Keys writes values of keys of the design file.
type Keys struct {
	Units quantity.System
	// DimensionOf tells what a key measures; nil, or false, where that is not known.
	DimensionOf func(key string) (unit.Dimension, bool)
}

// Value writes the value of a key [SI]; false where it is not known what the key
// measures. A pressure may be a gauge, an absolute or a difference: it does not say.
func (k Keys) Value(key string, si float64) (string, bool) {
	if k.DimensionOf == nil {
		return "", false
	}
	d, ok := k.DimensionOf(key)
	if !ok {
		return "", false
	}
	return k.Units.Near(quantity.Of(d), si), true
}

// ValueOrNumber is Value, or a plain number where it is not known what the key
// measures.
func (k Keys) ValueOrNumber(key string, si float64) string {
	if t, ok := k.Value(key, si); ok {
		return t
	}
	return quantity.Number(si, 3)
}
