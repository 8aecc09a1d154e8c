package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"puffproof": main})
}

// The scripts run the whole program and read like pages of a manual. $DEMOS is
// the folder of the demo designs.
func TestScripts(t *testing.T) {
	demos, err := filepath.Abs("../../testdata")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:           "testdata/script",
		UpdateScripts: os.Getenv("PUFFPROOF_UPDATE") != "",
		Setup: func(e *testscript.Env) error {
			e.Setenv("DEMOS", demos)
			e.Setenv("TERM", "xterm-256color")
			return nil
		},
	})
}
