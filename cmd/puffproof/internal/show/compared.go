package show

import (
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits"
)

// Compared writes one side of a figure of two designs, rounded to where it does no harm; a dash where there is none.
func Compared(u quantity.System, f *limits.Compared, v *float64) string {
	if v == nil {
		return "-"
	}
	kind, rounding := quantity.OfVerdict(f.Unit), quantity.Nearest
	switch f.Writing {
	case limits.NotLess:
		rounding = quantity.Up
	case limits.SettingBy:
		kind, rounding = quantity.Setting, quantity.Down
	}
	return u.Words(kind, *v, rounding)
}
