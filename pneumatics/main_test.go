package pneumatics

import (
	"flag"
	"os"
	"testing"
)

// TestMain keeps rapid from writing files beside the source, asks for 40 random circuits, for rapid's hundred with
// PUFFPROOF_MORE=1 and fewer under the race detector, and starts from one seed so that a run can be
// repeated. Explore with: go test -rapid.seed=0 -rapid.checks=5000.
func TestMain(m *testing.M) {
	if err := flag.Set("rapid.seed", "20261125"); err != nil {
		panic(err)
	}
	checks := "40"
	switch {
	case raceChecks != "":
		checks = raceChecks
	case os.Getenv("PUFFPROOF_MORE") != "":
		checks = "100"
	}
	if err := flag.Set("rapid.checks", checks); err != nil {
		panic(err)
	}
	flag.Parse()
	if err := flag.Set("rapid.nofailfile", "true"); err != nil {
		panic(err)
	}
	os.Exit(m.Run())
}
