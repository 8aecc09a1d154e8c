package main

import (
	"context"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"puffproof/cmd/puffproof/internal/app"
	"puffproof/limits/search"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"puffproof": puffproof})
}

// puffproof is the program of the scripts. Words, files and statuses do not
// depend on how hard the searches look, so they look lightly; a script that needs
// the figures that people get says "env STRENGTH=".
func puffproof() {
	share, err := strconv.ParseFloat(os.Getenv("STRENGTH"), 64)
	if err != nil {
		main()
	}
	os.Exit(app.Main(search.WithStrength(context.Background(), share), app.ThisMachine(), os.Args))
}

// The scripts run the whole program and read like pages of a manual. $DEMOS is
// the folder of the demo designs; least.toml is the least design that holds,
// vented.toml the least that can be sealed and measured.
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
			e.Setenv("STRENGTH", "0.00005")
			e.Setenv("GOGC", "400")     // a run of a tenth of a second had rather not tidy up
			e.Setenv("GOMAXPROCS", "1") // the scripts run side by side
			e.Setenv("TERM", "xterm-256color")
			for _, name := range []string{"least.toml", "vented.toml"} {
				text, err := os.ReadFile(filepath.Join("testdata", name))
				if err != nil {
					return err
				}
				if err := os.WriteFile(filepath.Join(e.WorkDir, name), text, 0o644); err != nil {
					return err
				}
			}
			return nil
		},
	})
}
