package wish

import (
	"fmt"
	"strings"
	"time"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/unit"
)

// Within reads how long may be looked; 0: to the end.
func Within(text string, units quantity.System) (time.Duration, error) {
	if strings.TrimSpace(text) == "" {
		return 0, nil
	}
	const day = 86400
	switch q, wrong := unit.System(units).Parse(text, unit.Time); {
	case wrong != nil:
		return 0, wrong
	case q.Stated:
		return 0, fmt.Errorf("%q has a tolerance; accepted: one time, such as \"90 s\"", text)
	case !(q.Nominal > 0 && q.Nominal <= day):
		return 0, fmt.Errorf("%q; accepted: above 0 and up to a day, such as \"90 s\"", text)
	default:
		return time.Duration(q.Nominal * float64(time.Second)), nil
	}
}
