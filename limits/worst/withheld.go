package worst

import (
	"fmt"

	"puffproof/pneumatics"
)

// withhold is the error of a run that must not be used. It names the key of the place
// that made the run too fine to finish, where one did.
func withhold(what, why string, c *pneumatics.Circuit, r *pneumatics.Result) error {
	if f := r.Fastest; f.Time > 0 {
		key := "barrel.dead_volume"
		if f.Volume >= 0 {
			key = "volumes." + c.Volumes[f.Volume].Name + ".volume"
		}
		why += fmt.Sprintf("; the smallest against what flows through it is %s, all of whose gas is exchanged within %.2g us", key, f.Time*1e6)
	}
	return &WithheldError{what, why}
}
