package show

import (
	"fmt"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits"
	"puffproof/limits/finding"
	"puffproof/limits/worst"
)

// JudgedMark marks the line of the basis on which the energy is judged with its limit and margin; "" it is another's, or a change of
// state shoots harder.
func JudgedMark(u quantity.System, r limits.Report, basis finding.Basis) string {
	if r.Energy.Basis != basis || r.Energy.DecidingEntered() != nil {
		return ""
	}
	if v, _ := r.Verdict(finding.EnergyTotal); v.Status == finding.Unknown {
		return "not judged: energy.total is unknown"
	}
	return JudgedLimit(u, r.Energy)
}

// JudgedLimit is the limit and the margin of the energy judged.
func JudgedLimit(u quantity.System, e *worst.EnergyReport) string {
	return fmt.Sprintf("judged: limit %s, %s", u.Near(quantity.Energy, e.Limit), quantity.Margin(1-e.Judged/e.Limit))
}
