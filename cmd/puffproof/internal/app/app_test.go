package app

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"puffproof/cmd/puffproof/internal/render"
)

// run runs the frame once.
func run(t *testing.T, args ...string) (st status, stdout, stderr string) {
	t.Helper()
	var out, errOut bytes.Buffer
	st = runWith(t.Context(), framed(), append([]string{"puffproof"}, args...), strings.NewReader("holds"), &out, &errOut, nil)
	return st, out.String(), errOut.String()
}

func designFile(t *testing.T, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "d.toml")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	return path
}

// Main itself, with the real services, knows its help and its mistakes.
func TestMainRuns(t *testing.T) {
	var out, errOut bytes.Buffer
	assert.Equal(t, 0, Main(t.Context(), []string{"puffproof", "--version"}, strings.NewReader(""), &out, &errOut, nil))
	assert.True(t, strings.HasPrefix(out.String(), "puffproof "))
	assert.Equal(t, 2, Main(t.Context(), []string{"puffproof", "nonsense"}, strings.NewReader(""), &out, &errOut, nil))
	assert.Equal(t, 2, Main(t.Context(), nil, strings.NewReader(""), &out, &errOut, nil))
}

// Two flags and two words in every order mean the same.
func TestFlagsStandAnywhere(t *testing.T) {
	path := designFile(t, "holds")
	want := ""
	for _, args := range [][]string{
		{"--json", "--units", "us", "check", path},
		{"--json", "check", "--units", "us", path},
		{"--units=us", "check", path, "--json"},
		{"check", "--units=us", "--json", path},
		{"check", path, "--json", "--units", "us"},
		{"check", "-json", "-units=us", "--", path},
	} {
		st, out, errOut := run(t, args...)
		assert.Equal(t, statusOK, st, "%q: %s", args, errOut)
		if want == "" {
			want = out
		}
		assert.Equal(t, want, out, "%q", args)
	}
	assert.Contains(t, want, `"holds": true`)
}

func TestWrongLinesGiveOneLine(t *testing.T) {
	path := designFile(t, "holds")
	for _, c := range []struct {
		args string // words separated by |
		want string
	}{
		{"chekc|" + path, `unknown command "chekc"; did you mean check?`},
		{"fire|" + path, `did you mean shot?`},
		{"whale.toml", `is a file, not a command; to judge it: puffproof check whale.toml`},
		{"zzzzzzzzzz", `puffproof help lists the commands`},
		{"help|chekc", `did you mean check?`},
		{"check|--sorces|" + path, `unknown flag "--sorces"; did you mean --sources?`},
		{"check|" + path + "|--zzzzzzzz", `puffproof help lists the flags`},
		{"check|--at=1 bar|" + path, `--at is no flag of check; it belongs to shot`},
		{"check", `check needs one file: puffproof check DESIGN`},
		{"check|" + path + "|" + path, `check takes one file, found 2`},
		{"check|--units=imperial|" + path, `--units is metric or us, not "imperial"`},
		{"check|--units|us|--units|us|" + path, `--units is given twice`},
		{"check|--json=perhaps|" + path, `--json takes no value`},
		{"check|" + path + "|--units", `--units needs a value: --units=SYSTEM`},
		{"shot|" + path + "|--at|--json", `--at needs a value, found "--json"`},
		{"shot|" + path + "|--at=-5 bar", `is below the pressure of the air around`},
		{"shot|" + path + "|--at|-5 bar", `is below the pressure of the air around`},
		{"shot|" + path + "|-5 bar", `unknown flag "-5 bar"; a value that begins with a minus is given with =`},
		{"shot|" + path + "|--at=", `--at: no pressure`},
		{"shot|" + path + "|--plot=a.png", `give a name that ends in .svg`},
		{"check|—json|" + path, `begins with a long dash`},
		{"check|" + filepath.Join(filepath.Dir(path), "none.toml"), `no such file`},
		{"check|" + filepath.Dir(path), `is a folder`},
		{"check|", `the file name is empty`},
		{"check|a\x00b", `invalid argument`},
		{"check|" + path + "/x", `not a directory`},
		{"completion|bsh", `unknown shell "bsh"; did you mean bash?`},
		{"init|a|b", `init takes one file, found 2`},
		{"\x1b[2Jevil\u202e", `unknown command "\x1b[2Jevil\u202e"`},
	} {
		st, out, errOut := run(t, strings.Split(c.args, "|")...)
		assert.Equal(t, statusInput, st, "%q", c.args)
		assert.Empty(t, out, "%q", c.args)
		assert.Contains(t, errOut, c.want, "%q", c.args)
		assert.Equal(t, 1, strings.Count(errOut, "\n"), "%q gives one line, not %q", c.args, errOut)
		assert.NotContains(t, errOut, "\x1b")
	}
}

func TestExitStatuses(t *testing.T) {
	for _, c := range []struct {
		design, flag string
		want         status
	}{
		{"holds", "--quiet", statusOK},
		{"holds", "--require-confirmed", statusNotHeld},
		{"confirmed", "--require-confirmed", statusOK},
		{"fails", "--quiet", statusNotHeld},
		{"unknown", "--quiet", statusNotHeld},
		{"unknown", "--json", statusNotHeld},
		{"broken", "--quiet", statusInput},
		{"withheld", "--quiet", statusWithheld},
		{"not a number", "--json", statusWithheld},
		{"not a number", "--quiet", statusWithheld},
		{"panics", "--json", statusWithheld},
	} {
		st, out, errOut := run(t, "check", c.flag, designFile(t, c.design))
		assert.Equal(t, c.want, st, "%+v: %s", c, errOut)
		if c.want >= statusInput {
			assert.Empty(t, out, "%+v", c)
			assert.NotEmpty(t, errOut, "%+v", c)
		}
	}
}

func TestPanicIsOneLineWithItsPlace(t *testing.T) {
	_, out, errOut := run(t, "check", designFile(t, "panics"))
	assert.Empty(t, out)
	assert.Contains(t, errOut, "internal error, please report: a bug of two lines (script_test.go:")
	assert.Equal(t, 1, strings.Count(errOut, "\n"))
	// A fault that the run time finds has its place too.
	s := framed()
	s.template = func() []byte { return []byte("short")[:len(os.Args[0])+1000] }
	var o, e bytes.Buffer
	assert.Equal(t, statusWithheld, runWith(t.Context(), s, []string{"p", "init", "-"}, nil, &o, &e, nil))
	assert.Contains(t, e.String(), "app_test.go:")
}

func TestEveryProblemOfAFileIsListed(t *testing.T) {
	_, _, errOut := run(t, "check", designFile(t, "broken"))
	assert.Equal(t, 2, strings.Count(errOut, "\n"))
	assert.Contains(t, errOut, "d.toml:2:5: key <U+001B>[31mtwo")
}

func TestInterruptWritesNothing(t *testing.T) {
	t.Chdir(t.TempDir()) // the slow design leaves a mark there
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	name := filepath.Join(t.TempDir(), "new.toml")
	for _, args := range [][]string{{"p", "init", name}, {"p", "check", designFile(t, "slow")}} {
		var out, errOut bytes.Buffer
		assert.Equal(t, statusInterrupted, runWith(ctx, framed(), args, nil, &out, &errOut, nil))
		assert.Empty(t, out.String())
		assert.Equal(t, "puffproof: interrupted, nothing was written\n", errOut.String())
	}
	entries, err := os.ReadDir(filepath.Dir(name))
	require.NoError(t, err)
	assert.Empty(t, entries)
}

// fullDisk fails as a full disk behind a redirected stdout does.
type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, errors.New("no space left on device") }

func TestOutputThatCannotBeWrittenIsNoSuccess(t *testing.T) {
	var errOut bytes.Buffer
	st := runWith(t.Context(), framed(), []string{"p", "check", designFile(t, "holds")}, nil, fullDisk{}, &errOut, nil)
	assert.Equal(t, statusInput, st)
	assert.Contains(t, errOut.String(), "no space left")
}

func TestTooLargeFileIsRefused(t *testing.T) {
	_, _, errOut := run(t, "check", designFile(t, strings.Repeat("x", maxDesignBytes+1)))
	assert.Contains(t, errOut, "larger than 1 MiB")
}

func TestCommandsWithoutServiceAreNotThere(t *testing.T) {
	var out, errOut bytes.Buffer
	assert.Equal(t, statusOK, runWith(t.Context(), services{}, []string{"p", "help"}, nil, &out, &errOut, nil))
	assert.NotContains(t, out.String(), "\n  check")
	assert.Equal(t, statusInput, runWith(t.Context(), services{}, []string{"p", "check", "x"}, nil, &out, &errOut, nil))
}

// No help line is wider than 80 columns, every flag is explained, every example
// is a line that the program itself understands.
func TestHelpOfEveryCommand(t *testing.T) {
	reg := newRegistry(framed())
	_, overview, _ := run(t, "help")
	for line := range strings.Lines(overview) {
		assert.LessOrEqual(t, render.Columns(strings.TrimRight(line, "\n")), 80, "%q", line)
	}
	for _, c := range reg.commands {
		assert.Contains(t, overview, "  "+c.Name+" ")
		assert.LessOrEqual(t, len(c.Summary), 63, c.Name)
		_, help, _ := run(t, "help", c.Name)
		_, same, _ := run(t, c.Name, "--help")
		assert.Equal(t, help, same)
		for line := range strings.Lines(help) {
			assert.LessOrEqual(t, render.Columns(strings.TrimRight(line, "\n")), 80, "%q", line)
		}
		for _, o := range c.Options {
			assert.Contains(t, help, "--"+o.Name)
			assert.NotEmpty(t, o.Help)
		}
		for _, e := range c.Examples {
			assert.Contains(t, help, e.Line)
			words := strings.Fields(strings.NewReplacer(`"0.3 bar"`, "0.3bar", "source <(", "", ")", "").Replace(e.Line))
			for i, w := range words {
				if w == "|" || w == ">" {
					words = words[:i]
					break
				}
			}
			_, err := parseLine(reg, words)
			assert.NoError(t, err, e.Line)
		}
	}
}

// An option's name means one thing: parseLine knows only one kind for it.
func TestOptionsOfOneNameAreAlike(t *testing.T) {
	kinds := map[string]string{}
	for _, o := range globalOptions() {
		kinds[o.Name] = o.Value
	}
	for _, c := range newRegistry(framed()).commands {
		for _, o := range c.Options {
			if known, ok := kinds[o.Name]; ok {
				assert.Equal(t, known, o.Value, o.Name)
			}
			kinds[o.Name] = o.Value
		}
	}
}

// Any line at all ends with a status and no panic, and errors stay off stdout.
func TestAnyLineIsAnswered(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	words := []string{"check", "shot", "init", "completion", "help", "--json", "--at", "--at=", "-", "--", "=", "--=", "-h", "--units=us", "--quiet=", "", "\x00", "x.toml", "—", "--version", "--plot"}
	rapid.Check(t, func(rt *rapid.T) {
		args := rapid.SliceOfN(rapid.OneOf(rapid.SampledFrom(words), rapid.String()), 0, 6).Draw(rt, "args")
		var out, errOut bytes.Buffer
		st := runWith(t.Context(), framed(), append([]string{"p"}, args...), strings.NewReader("holds"), &out, &errOut, nil)
		if strings.Contains(errOut.String(), "internal error") || st > statusWithheld || (st >= statusInput && out.Len() > 0) {
			rt.Fatalf("%d: %q %q", st, out.String(), errOut.String())
		}
	})
}

// Runs side by side do not disturb each other: there is no shared state.
func TestRunsSideBySide(t *testing.T) {
	path := designFile(t, "holds")
	_, metric, _ := run(t, "shot", path)
	_, us, _ := run(t, "shot", "--units=us", path)
	require.NotEqual(t, metric, us)
	var wg sync.WaitGroup
	for i := range 32 {
		wg.Go(func() {
			args, want := []string{"p", "shot", path}, metric
			if i%2 == 1 {
				args, want = append(args, "--units", "us"), us
			}
			var out, errOut bytes.Buffer
			runWith(t.Context(), framed(), args, nil, &out, &errOut, nil)
			assert.Equal(t, want, out.String())
		})
	}
	wg.Wait()
}
