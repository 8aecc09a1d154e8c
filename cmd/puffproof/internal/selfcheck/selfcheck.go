// Package selfcheck runs published check values through the program on the
// machine it is used on: tables of handbooks, exact solutions, experiments.
//
// A check is a figure that was made outside this program, with its source, the
// same figure from this program, and a tolerance with its reason. The checks of a
// subject are in the file of that name. Start reading at Run.
package selfcheck

import (
	"context"
	"math"
)

// Row is one check and how it came out. Expected, Found, Difference and Tolerance
// have the unit of Unit.
type Row struct {
	Subject    string
	What       string // the figure, in words
	Source     string // where the expected figure is from
	Unit       string // "" for a number without one
	Expected   float64
	Found      float64 // NaN: it could not be computed
	Difference float64 // Found less Expected
	Tolerance  float64 // on the size of Difference
	Reason     string  // for the tolerance
	Status     Status
}

// Status is how a check came out.
type Status string

const (
	Agrees  Status = "pass"
	Differs Status = "fail"
)

// check is one figure and how it is found.
type check struct {
	what, source, unit  string
	expected, tolerance float64
	reason              string
	found               func() float64
}

// subject is a list of checks under one heading.
type subject struct {
	name   string
	checks []check
}

// subjects are all checks in the order shown.
func subjects() []subject {
	return []subject{
		{"Gas and restrictions", flowChecks()},
		{"Blow-down and fill", vesselChecks()},
		{"The shot, fast model", shotChecks()},
		{"Gas dynamics, wave model", waveChecks()},
		{"Flight", flightChecks()},
		{"Experiments", experimentChecks()},
		{"Limits and statistics", limitChecks()},
	}
}

// Run computes every check. The error is the context's.
func Run(ctx context.Context) ([]Row, error) {
	var rows []Row
	for _, s := range subjects() {
		for _, c := range s.checks {
			if err := ctx.Err(); err != nil {
				return nil, err
			}
			rows = append(rows, c.row(s.name))
		}
	}
	return rows, nil
}

// Failures counts the rows that differ.
func Failures(rows []Row) (n int) {
	for _, r := range rows {
		if r.Status != Agrees {
			n++
		}
	}
	return n
}

// row computes one check. A check that panics has found nothing, and differs.
func (c check) row(subject string) (r Row) {
	r = Row{Subject: subject, What: c.what, Source: c.source, Unit: c.unit, Expected: c.expected, Found: math.NaN(),
		Difference: math.NaN(), Tolerance: c.tolerance, Reason: c.reason, Status: Differs}
	defer func() { _ = recover() }()
	r.Found = c.found()
	r.Difference = r.Found - r.Expected
	if math.Abs(r.Difference) <= r.Tolerance {
		r.Status = Agrees
	}
	return r
}
