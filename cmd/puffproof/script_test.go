package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime/debug"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"

	"puffproof/cmd/puffproof/internal/app"
	"puffproof/cmd/puffproof/internal/trial"
	"puffproof/limits/search"
)

// TestMain makes this binary the program where it is called by its name.
func TestMain(m *testing.M) {
	if strings.TrimSuffix(filepath.Base(os.Args[0]), ".exe") == "puffproof" {
		puffproof()
	}
	debug.SetGCPercent(400) // many short runs in one process had rather not tidy up after each
	os.Exit(m.Run())
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

// The scripts run the whole program and read like pages of a manual. "exec puffproof" is a process of its own; "puffproof" is the
// same run within this one, which costs half as much: with PUFFPROOF_MORE=1, as .ci/run asks, that is a process too. A last word
// "<file" is what it reads at its standard input. $DEMOS is the folder of the demo designs; least.toml is the least design that holds,
// vented.toml the least that can be sealed and measured.
func TestScripts(t *testing.T) {
	demos, err := filepath.Abs("../../testdata")
	if err != nil {
		t.Fatal(err)
	}
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	bin := t.TempDir()
	if err := os.Symlink(self, filepath.Join(bin, "puffproof")); err != nil {
		t.Fatal(err)
	}
	processes := trial.More()
	testscript.RunT(inTurn{t, processes}, testscript.Params{
		Dir:           "testdata/script",
		UpdateScripts: os.Getenv("PUFFPROOF_UPDATE") != "",
		Condition: func(what string) (bool, error) { // "[more]": what other scripts and tests ask as well
			if what != "more" {
				return false, fmt.Errorf("unknown condition %q", what)
			}
			return processes, nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"puffproof": func(ts *testscript.TestScript, fails bool, args []string) {
				how := within
				if processes {
					how = apart
				}
				switch err := how(ts, args); {
				case err != nil && !fails:
					ts.Fatalf("%v", err)
				case err == nil && fails:
					ts.Fatalf("unexpected success")
				}
			},
		},
		Setup: func(e *testscript.Env) error {
			e.Setenv("PATH", bin+string(filepath.ListSeparator)+e.Getenv("PATH"))
			e.Setenv("DEMOS", demos)
			e.Setenv("STRENGTH", "0.00005")
			e.Setenv("GOMAXPROCS", "1") // a short run is quicker so
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

// reading takes the last word off that names what is read at the standard input; "": nothing is.
func reading(args []string) (rest []string, from string) {
	if n := len(args) - 1; n >= 0 && strings.HasPrefix(args[n], "<") {
		return args[:n], args[n][1:]
	}
	return args, ""
}

// within runs the program in this process, in the folder of the script, with its environment.
func within(ts *testscript.TestScript, args []string) error {
	args, from := reading(args)
	var typed string
	if from != "" {
		typed = ts.ReadFile(from)
	}
	before, err := os.Getwd()
	if err != nil {
		return err
	}
	defer func() { ts.Check(os.Chdir(before)) }()
	if err := os.Chdir(ts.MkAbs(".")); err != nil {
		return err
	}
	ctx := trial.Recalling(context.Background())
	if share, err := strconv.ParseFloat(ts.Getenv("STRENGTH"), 64); err == nil {
		ctx = search.WithStrength(ctx, share)
	}
	host := app.Host{Stdin: strings.NewReader(typed), Stdout: ts.Stdout(), Stderr: ts.Stderr(), Now: time.Now}
	// No home: nothing is kept of papers unless a script says where.
	for _, key := range []string{"TERM", "XDG_CACHE_HOME", "SOURCE_DATE_EPOCH"} {
		if v := ts.Getenv(key); v != "" {
			host.Environ = append(host.Environ, key+"="+v)
		}
	}
	if st := app.Main(ctx, host, append([]string{"puffproof"}, args...)); st != 0 {
		return fmt.Errorf("status %d", st)
	}
	return nil
}

// apart runs it as a process. A signal or a panic is no answer, whatever was expected.
func apart(ts *testscript.TestScript, args []string) error {
	args, from := reading(args)
	program := "puffproof"
	if from != "" {
		program, args = "sh", append([]string{"-c", `in=$1; shift; exec puffproof "$@" <"$in"`, "sh", from}, args...)
	}
	err := ts.Exec(program, args...)
	if err != nil && !strings.HasPrefix(err.Error(), "exit status ") {
		ts.Check(errors.Join(errors.New("puffproof did not end by itself"), err))
	}
	return err
}

// inTurn is a test whose scripts run one after the other, for within there is one current folder; as processes side by side.
type inTurn struct {
	*testing.T
	processes bool
}

func (t inTurn) Parallel() {
	if t.processes {
		t.T.Parallel()
	}
}

func (t inTurn) Run(name string, f func(testscript.T)) {
	t.T.Run(name, func(one *testing.T) { f(inTurn{one, t.processes}) })
}

func (inTurn) Verbose() bool { return testing.Verbose() }
