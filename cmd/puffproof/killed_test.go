package main

import (
	"bufio"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/record"
)

// kills is how often the real program is killed here: each run has to compute first. Package app kills the writer of the two
// files fifty times.
const kills = 5

// wroteOne is what the program says once a reading is in both files.
var wroteOne = regexp.MustCompile(`Wrote (\S+) into`)

// The whole program, killed at random moments while it writes one reading after the other, loses none that it said it had:
// each stands in the record, which nobody altered, and in the design, which can be read.
func TestKilledAtAnyMoment(t *testing.T) {
	folder := t.TempDir()
	program := filepath.Join(folder, "puffproof") // this test's binary is the program under that name: TestMain
	self, err := os.Executable()
	require.NoError(t, err)
	require.NoError(t, os.Symlink(self, program))
	start, err := os.ReadFile("testdata/least.toml")
	require.NoError(t, err)
	file := filepath.Join(folder, "least.toml")
	require.NoError(t, os.WriteFile(file, start, 0o644))
	random := rand.New(rand.NewPCG(2026, 5))

	said := map[string]bool{} // every value that the program said it has written
	for kill := range kills {
		before := loaded(t, file)
		for step, value := range killedRun(t, program, file, kill, random) {
			said[step+" "+value] = true
		}
		log := loaded(t, file)
		require.Empty(t, log.Altered, "kill %d", kill)
		require.GreaterOrEqual(t, len(log.Readings()), len(before.Readings()), "kill %d", kill)
		for one := range said {
			step, value, _ := strings.Cut(one, " ")
			found := false
			for _, e := range log.Readings() {
				found = found || e.Step == step && e.Reading == value
			}
			require.True(t, found, "kill %d: %q is lost", kill, one)
		}
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		d, problems := design.Reader{}.Open(file, text)
		require.Empty(t, problems, "kill %d", kill)
		assert.True(t, strings.HasPrefix(string(text), strings.TrimSpace(string(start))), "kill %d: all else stays as it was", kill)
		written := map[int]bool{}
		for _, e := range log.Entries {
			for _, n := range e.Of {
				written[n] = true
			}
		}
		for _, c := range d.Launcher().Checklist {
			if e := log.Newest(c.Item); written[e.N] {
				require.Equal(t, e.Value, c.Value, "kill %d: %s", kill, c.Item)
			}
		}
	}
	require.GreaterOrEqual(t, len(said), kills-1, "readings were written")
}

// loaded is the record beside a design.
func loaded(t *testing.T, file string) *record.Log {
	t.Helper()
	log, err := record.Load(file + ".record")
	require.NoError(t, err)
	return log
}

// killedRun gives the program readings of its first step, again and again, kills it at a random moment after the first, and
// tells which readings it said it had written.
func killedRun(t *testing.T, program, file string, kill int, random *rand.Rand) map[string]string {
	t.Helper()
	run := exec.Command(program, "commission", file, "--ask")
	run.Env = append(os.Environ(), "STRENGTH=0.00005")
	in, err := run.StdinPipe()
	require.NoError(t, err)
	out, err := run.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, run.Start())
	value := func(n int) string { return fmt.Sprintf("failed: kill %d, reading %d", kill, n) } // so that the step stays the same
	go func() {
		for n := 0; ; n++ {
			if _, err := io.WriteString(in, value(n)+"\nAB, CD\n"); err != nil {
				return
			}
		}
	}()
	said, n := map[string]string{}, 0
	for lines := bufio.NewScanner(out); lines.Scan(); {
		if m := wroteOne.FindStringSubmatch(lines.Text()); m != nil {
			said[fmt.Sprint(m[1])] = value(n)
			if n++; n == 1 { // it writes now: at any moment from here on it may be killed
				time.AfterFunc(time.Duration(random.IntN(30_000))*time.Microsecond, func() { _ = run.Process.Kill() })
			}
		}
	}
	_ = run.Wait()
	return said
}
