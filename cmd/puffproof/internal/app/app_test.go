package app

import (
	"bytes"
	"context"
	"errors"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"puffproof/cmd/puffproof/internal/problem"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/cmd/puffproof/internal/trial"
	"puffproof/cmd/puffproof/internal/usage"
	"puffproof/limits"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
)

// play runs commands once on a host of its own, on 31 May 2026, with light
// searches: these tests ask what becomes of a result, not how large it is.
func play(t *testing.T, reg registry, stdin string, args ...string) (st status, stdout, stderr string) {
	t.Helper()
	return playIn(t, nil, reg, stdin, args...)
}

// playIn is play with an environment.
func playIn(t *testing.T, environ []string, reg registry, stdin string, args ...string) (st status, stdout, stderr string) {
	t.Helper()
	var out, errOut bytes.Buffer
	host := Host{Stdin: strings.NewReader(stdin), Stdout: &out, Stderr: &errOut, Environ: environ,
		Now: func() time.Time { return time.Date(2026, 5, 31, 12, 0, 0, 0, time.UTC) }}
	st = run(trial.Lightly(t.Context(), 0.00005), reg, host, append([]string{"puffproof"}, args...))
	return st, out.String(), errOut.String()
}

// puffproof runs the program's own commands.
func puffproof(t *testing.T, args ...string) (st status, stdout, stderr string) {
	t.Helper()
	return play(t, newRegistry(), "", args...)
}

// least is the text of the least design that holds; each pair is a text in it and
// what stands there instead.
func least(t *testing.T, pairs ...string) string {
	t.Helper()
	data, err := os.ReadFile("../../testdata/least.toml")
	require.NoError(t, err)
	text := strings.NewReplacer(pairs...).Replace(string(data))
	require.Equal(t, len(pairs) > 0, text != string(data), "%q", pairs)
	return text
}

func designFile(t *testing.T, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "d.toml")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	return path
}

// Main itself knows its help and its mistakes.
func TestMainRuns(t *testing.T) {
	var out, errOut bytes.Buffer
	host := Host{Stdin: strings.NewReader(""), Stdout: &out, Stderr: &errOut, Now: time.Now}
	assert.Equal(t, 0, Main(t.Context(), host, []string{"puffproof", "--version"}))
	assert.True(t, strings.HasPrefix(out.String(), "puffproof "))
	assert.Equal(t, 2, Main(t.Context(), host, []string{"puffproof", "nonsense"}))
	assert.Equal(t, 2, Main(t.Context(), host, nil))
}

// Two flags and two words in every order mean the same.
func TestFlagsStandAnywhere(t *testing.T) {
	path := designFile(t, least(t))
	want := ""
	for _, args := range [][]string{
		{"--json", "--units", "us", "shot", path},
		{"--json", "shot", "--units", "us", path},
		{"--units=us", "shot", path, "--json"},
		{"shot", "--units=us", "--json", path},
		{"shot", path, "--json", "--units", "us"},
		{"shot", "-json", "-units=us", "--", path},
	} {
		st, out, errOut := puffproof(t, args...)
		assert.Equal(t, statusOK, st, "%q: %s", args, errOut)
		if want == "" {
			want = out
		}
		assert.Equal(t, want, out, "%q", args)
	}
	assert.Contains(t, want, `"outcome": "left"`)
}

func TestWrongLinesGiveOneLine(t *testing.T) {
	path := designFile(t, least(t))
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
		{"shot|" + path + "|--at=", `--at: `},
		{"shot|" + path + "|--at=99 bar", `99 bar gauge is above the model's range, at most 10 bar gauge`},
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
		st, out, errOut := puffproof(t, strings.Split(c.args, "|")...)
		assert.Equal(t, statusInput, st, "%q", c.args)
		assert.Empty(t, out, "%q", c.args)
		assert.Contains(t, errOut, c.want, "%q", c.args)
		assert.Equal(t, 1, strings.Count(errOut, "\n"), "%q gives one line, not %q", c.args, errOut)
		assert.NotContains(t, errOut, "\x1b")
	}
}

// only is a registry of one invented command, "try", which prints a line and
// then does what is given.
func only(then func(ctx context.Context, call *Call) (status, error)) registry {
	return registry{Commands: []*Command{{Name: "try", Max: 9, Run: func(ctx context.Context, call *Call) (status, error) {
		call.Out.WriteString("a line\n")
		return then(ctx, call)
	}}}}
}

// What a command returns becomes the exit status; its output reaches stdout only
// where there is no error.
func TestExitStatuses(t *testing.T) {
	notANumber := map[string]float64{"value": math.NaN()}
	for name, c := range map[string]struct {
		st   status
		err  error
		want status
		says string
	}{
		"holds":         {statusOK, nil, 0, ""},
		"does not hold": {statusNotHeld, nil, 1, ""},
		"wrong line":    {0, inputErrorf("no such thing"), 2, "puffproof: no such thing\n"},
		"wrong file": {0, &fileError{[]problem.Problem{{File: "d.toml", Line: 1, Column: 1, Message: "key one is wrong"},
			{File: "d.toml", Line: 2, Column: 5, Message: "key \x1b[31mtwo is wrong", Hint: "it is three"}}}, 2,
			"d.toml:1:1: key one is wrong\nd.toml:2:5: key <U+001B>[31mtwo is wrong\n    it is three\n"},
		"balance":      {0, errors.New("the balance is off"), 3, "puffproof: the result is withheld: the balance is off\n"},
		"withheld":     {0, &worst.WithheldError{What: "the shot", Reason: "no step"}, 3, "puffproof: the shot is withheld: no step\n"},
		"not a number": {0, new(Call).show(notANumber, errors.New("no number"), nil), 3, "no number"},
	} {
		st, out, errOut := play(t, only(func(context.Context, *Call) (status, error) { return c.st, c.err }), "", "try")
		assert.Equal(t, c.want, st, name)
		assert.Equal(t, c.err == nil, out == "a line\n", "%s: %q", name, out)
		if c.err != nil {
			assert.Contains(t, errOut, c.says, name)
		} else {
			assert.Empty(t, errOut, name)
		}
	}
	bad := only(func(_ context.Context, call *Call) (status, error) { return 0, call.show(notANumber, nil, nil) })
	st, out, _ := play(t, bad, "", "try", "--json")
	assert.Equal(t, statusWithheld, st, "a figure that is no number")
	assert.Empty(t, out)
}

func TestCheckStatus(t *testing.T) {
	holds, confirmed := limits.Report{Holds: true}, limits.Report{Holds: true, Confirmed: true}
	assert.Equal(t, statusOK, checkStatus(holds, false))
	assert.Equal(t, statusNotHeld, checkStatus(holds, true))
	assert.Equal(t, statusOK, checkStatus(confirmed, true))
	assert.Equal(t, statusNotHeld, checkStatus(limits.Report{Confirmed: true}, false))
}

// Days by the calendar; the day itself still counts.
func TestDueNotes(t *testing.T) {
	l := &launcher.Launcher{Volumes: []launcher.VolumeSpec{{Name: "tank", RetireBy: "2026-05-30"}},
		Projectile: launcher.ProjectileSpec{RetireBy: "2026-05-31"}, Barrel: launcher.BarrelSpec{RetireBy: "2030-01-01"}}
	assert.Equal(t, []string{"EXPIRED on 2026-05-30: volumes.tank: retire by. Not to be used until that is done.",
		"Next date: 2026-05-31, projectile: retire by."}, dueNotes(l, "2026-05-31"))
	assert.Empty(t, dueNotes(&launcher.Launcher{}, "2026-05-31"), "a design without dates has no note")
}

func TestPanicIsOneLineWithItsPlace(t *testing.T) {
	var none []int
	for says, fault := range map[string]func(){
		"internal error, please report: a bug of two lines (app_test.go:": func() { panic("a bug\nof two lines") },
		"internal error, please report: runtime error: index out of":      func() { none[len(os.Args)] = 1 },
	} {
		st, out, errOut := play(t, only(func(context.Context, *Call) (status, error) { fault(); return 0, nil }), "", "try", "--json")
		assert.Equal(t, statusWithheld, st)
		assert.Empty(t, out)
		assert.Contains(t, errOut, says)
		assert.Contains(t, errOut, "(app_test.go:")
		assert.Equal(t, 1, strings.Count(errOut, "\n"))
	}
}

func TestInterruptWritesNothing(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	name, path := filepath.Join(t.TempDir(), "new.toml"), designFile(t, least(t))
	for _, args := range [][]string{{"p", "init", name}, {"p", "check", path}, {"p", "dossier", path, "-o", name + ".html"}} {
		var out, errOut bytes.Buffer
		host := Host{Stdin: strings.NewReader(""), Stdout: &out, Stderr: &errOut, Now: time.Now}
		assert.Equal(t, statusInterrupted, run(ctx, newRegistry(), host, args))
		assert.Empty(t, out.String())
		assert.Equal(t, "puffproof: interrupted, nothing was written\n", errOut.String())
	}
	entries, err := os.ReadDir(filepath.Dir(name))
	require.NoError(t, err)
	assert.Empty(t, entries)
}

// A command that nothing can stop is left behind: the first interrupt ends the program
// all the same.
func TestInterruptEndsWhatCannotBeStopped(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	started, never := make(chan struct{}), make(chan struct{})
	go func() { <-started; cancel() }()
	var errOut bytes.Buffer
	reg := only(func(context.Context, *Call) (status, error) { close(started); <-never; return 0, nil })
	st := run(ctx, reg, Host{Stdin: strings.NewReader(""), Stdout: io.Discard, Stderr: &errOut, Now: time.Now}, []string{"p", "try"})
	close(never)
	assert.Equal(t, statusInterrupted, st)
	assert.Equal(t, "puffproof: interrupted, nothing was written\n", errOut.String())
}

// fullDisk fails as a full disk behind a redirected stdout does.
type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, errors.New("no space left on device") }

func TestOutputThatCannotBeWrittenIsNoSuccess(t *testing.T) {
	var errOut bytes.Buffer
	host := Host{Stdin: strings.NewReader(""), Stdout: fullDisk{}, Stderr: &errOut, Now: time.Now}
	assert.Equal(t, statusInput, run(t.Context(), newRegistry(), host, []string{"p", "shot", designFile(t, least(t))}))
	assert.Contains(t, errOut.String(), "no space left")
}

func TestTooLargeFileIsRefused(t *testing.T) {
	_, _, errOut := puffproof(t, "check", designFile(t, strings.Repeat("x", mostDesign+1)))
	assert.Contains(t, errOut, "larger than 1 MiB")
}

// The manual page says what help says: read back as roff (groff(7): \e, \-, \(dq, \& and \[uXXXX]), it has every summary, paragraph,
// flag and example, and no line is a request but the macros of man(7).
func TestTheManualPageSaysWhatHelpSays(t *testing.T) {
	_, page, _ := puffproof(t, "help", "--man")
	var b strings.Builder
	for line := range strings.Lines(page) {
		if strings.HasPrefix(line, ".") || strings.HasPrefix(line, "'") {
			assert.Regexp(t, `^\.(TH|SH|SS|PP|TP|B|I)( |\n)`, line)
		}
		b.WriteString(line)
	}
	text := strings.NewReplacer(`\-`, "-", `\(dq`, `"`, `\&`, "", `\fB`, "", `\fI`, "", `\fR`, "").Replace(b.String())
	text = regexp.MustCompile(`\\\[u([0-9A-F]{4})\]`).ReplaceAllStringFunc(text, func(code string) string {
		r, err := strconv.ParseUint(code[3:7], 16, 32)
		require.NoError(t, err)
		return string(rune(r))
	})
	text = strings.ReplaceAll(text, `\e`, `\`)
	for _, c := range newRegistry().Commands {
		assert.Contains(t, text, "\n.SS \""+strings.TrimSpace(c.Name+" "+c.Operands)+"\"\n")
		for _, p := range c.Help {
			assert.Contains(t, text, "\n"+p+"\n", c.Name)
		}
		for _, o := range append(c.Options, usage.GlobalOptions()...) {
			assert.Contains(t, text, "--"+o.Name, c.Name)
			assert.Contains(t, text, "\n"+o.Help+"\n", c.Name)
		}
		for _, e := range c.Examples {
			assert.Contains(t, text, "\n"+e[0]+"\n"+e[1]+"\n", c.Name)
		}
	}
}

// No help line is wider than 80 columns, every flag is explained, every example
// is a line that the program itself understands.
func TestHelpOfEveryCommand(t *testing.T) {
	reg := newRegistry()
	_, overview, _ := puffproof(t, "help")
	for line := range strings.Lines(overview) {
		assert.LessOrEqual(t, show.Columns(strings.TrimRight(line, "\n")), 80, "%q", line)
	}
	for _, c := range reg.Commands {
		assert.Contains(t, overview, "  "+c.Name+" ")
		assert.LessOrEqual(t, len(c.Summary), 63, c.Name)
		_, help, _ := puffproof(t, "help", c.Name)
		_, same, _ := puffproof(t, c.Name, "--help")
		assert.Equal(t, help, same)
		for line := range strings.Lines(help) {
			assert.LessOrEqual(t, show.Columns(strings.TrimRight(line, "\n")), 80, "%q", line)
		}
		for _, o := range c.Options {
			assert.Contains(t, help, "  "+strings.Repeat("-", min(2, len(o.Name)))+o.Name, "a letter takes one hyphen, a word two")
			assert.NotEmpty(t, o.Help)
		}
		for _, e := range c.Examples {
			assert.Contains(t, help, e[0])
			words := shellWords(e[0])
			_, err := usage.Parse(reg, words)
			assert.NoError(t, err, e[0])
		}
	}
}

// shellWords parts an example as a shell would, up to a pipe or a file for the
// output; a text in double quotes is one word.
func shellWords(line string) []string {
	line, _, _ = strings.Cut(line, " | ")
	line, _, _ = strings.Cut(line, " > ")
	line = strings.TrimSuffix(strings.TrimPrefix(line, "source <("), ")")
	var words []string
	for i, part := range strings.Split(line, `"`) {
		if i%2 == 1 {
			words = append(words, part)
		} else {
			words = append(words, strings.Fields(part)...)
		}
	}
	return words
}

// An option's name means one thing: usage.Parse knows only one kind for it.
func TestOptionsOfOneNameAreAlike(t *testing.T) {
	kinds := map[string]Option{}
	all := usage.GlobalOptions()
	for _, c := range newRegistry().Commands {
		all = append(all, c.Options...)
	}
	for _, o := range all {
		if known, ok := kinds[o.Name]; ok {
			assert.Equal(t, known.Value == "", o.Value == "", "--%s is a switch in one command and takes a value in another", o.Name)
			assert.Equal(t, known.Choices, o.Choices, o.Name)
		}
		kinds[o.Name] = o
	}
}

// Any line at all ends with a status and no panic, and errors stay off stdout but
// for the problems of a file as JSON. Standard input is no design, so that nothing
// is computed.
func TestAnyLineIsAnswered(t *testing.T) {
	t.Chdir(t.TempDir())
	words := []string{"check", "shot", "init", "completion", "help", "--json", "--at", "--at=", "-", "--", "=", "--=", "-h", "--units=us",
		"--quiet=", "", "\x00", "x.toml", "—", "--version", "--plot"}
	rapid.Check(t, func(rt *rapid.T) {
		args := rapid.SliceOfN(rapid.OneOf(rapid.SampledFrom(words), rapid.String()), 0, 6).Draw(rt, "args")
		st, out, errOut := play(t, newRegistry(), "holds", args...)
		listed := st == statusInput && strings.HasPrefix(out, "{\n  \"problems\": [") && strings.Contains(errOut, "standard input:1:")
		if strings.Contains(errOut, "internal error") || st > statusWithheld || (st >= statusInput && out != "" && !listed) {
			rt.Fatalf("%d: %q %q", st, out, errOut)
		}
	})
}

// Runs side by side do not disturb each other: there is no shared state.
func TestRunsSideBySide(t *testing.T) {
	path := designFile(t, least(t))
	_, metric, _ := puffproof(t, "shot", path)
	_, us, _ := puffproof(t, "shot", "--units=us", path)
	require.NotEqual(t, metric, us)
	var wg sync.WaitGroup
	for i := range 32 {
		wg.Go(func() {
			args, want := []string{"shot", path}, metric
			if i%2 == 1 {
				args, want = append(args, "--units", "us"), us
			}
			_, out, _ := puffproof(t, args...)
			assert.Equal(t, want, out)
		})
	}
	wg.Wait()
}

// A pressure as the command line gives it. 1 psi is 6894.757 Pa, 1 atm 101325 Pa
// (NIST SP 811, 2008, Appendix B.8).
func TestReadGauge(t *testing.T) {
	for text, want := range map[string]float64{
		"0.8 bar": 0.8e5, "12 psi": 12 * 6894.757, "40 kPa gauge": 40e3, "1.5 bara": 1.5e5 - 101325, "0 bar": 0,
	} {
		got, err := new(Call).readGauge(text, 101325)
		require.NoError(t, err, text)
		assert.InDelta(t, want, got, 0.01, text) // 0.01 Pa: the printed digits of the psi
	}
	for _, text := range []string{"", "0.8", "0.8 mm", "0,8 bar", "0.8 bar ± 0.1 bar", "NaN bar", "abc"} {
		_, err := new(Call).readGauge(text, 101325)
		assert.Error(t, err, text)
	}
}

// run is Main with chosen commands and without signals.
func run(ctx context.Context, reg registry, host Host, args []string) status {
	return perform(ctx, reg, host, args).tell(host)
}
