package pneumatics

import (
	"flag"
	"os"
	"testing"
)

// TestMain keeps rapid from writing files beside the source.
func TestMain(m *testing.M) {
	flag.Parse()
	if err := flag.Set("rapid.nofailfile", "true"); err != nil {
		panic(err)
	}
	os.Exit(m.Run())
}
