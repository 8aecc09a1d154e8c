package pneumatics

import (
	"flag"
	"os"
	"testing"
)

// TestMain keeps rapid from writing files beside the source, asks for fewer random
// circuits under the race detector, and starts from one seed so that a run can be
// repeated. Explore with: go test -rapid.seed=0 -rapid.checks=5000.
func TestMain(m *testing.M) {
	if err := flag.Set("rapid.seed", "20261125"); err != nil {
		panic(err)
	}
	if raceChecks != "" {
		if err := flag.Set("rapid.checks", raceChecks); err != nil {
			panic(err)
		}
	}
	flag.Parse()
	if err := flag.Set("rapid.nofailfile", "true"); err != nil {
		panic(err)
	}
	os.Exit(m.Run())
}
