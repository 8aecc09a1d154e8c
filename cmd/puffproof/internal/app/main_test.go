package app

import (
	"os"
	"runtime/debug"
	"testing"
)

// TestMain lets the many short runs of these tests leave their garbage longer: a tenth of the processor time.
func TestMain(m *testing.M) {
	debug.SetGCPercent(400)
	os.Exit(m.Run())
}
