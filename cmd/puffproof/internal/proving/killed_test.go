package proving

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/atomicfile"
	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/record"
	"puffproof/limits/finding"
)

// writerEnv names the design whose readings a run of this test's own binary writes until it is killed.
const writerEnv = "PUFFPROOF_TEST_WRITER"

// kills is how often a writer is killed: fifty times with PUFFPROOF_MORE=1.
var kills = func() int {
	if os.Getenv("PUFFPROOF_MORE") != "" {
		return 50
	}
	return 15
}()

// A run that is killed at fifty random moments while it writes one reading after the other loses none that it said it had:
// each stands in the record, which nobody altered, and the newest in the design, which can be read and is otherwise as it
// was. What a kill left between the two is taken over by the next run. The real program is killed in package main.
func TestKilledAtAnyMoment(t *testing.T) {
	if file := os.Getenv(writerEnv); file != "" {
		writeReadings(file)
	}
	start, err := os.ReadFile("../../testdata/least.toml")
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "least.toml")
	require.NoError(t, os.WriteFile(file, start, 0o644))
	random := rand.New(rand.NewPCG(2026, 5))
	var said []string
	torn, between := 0, 0
	for kill := range kills {
		before, err := record.Load(RecordName(file))
		require.NoError(t, err)
		said = append(said, killedWriter(t, file, time.Duration(random.IntN(60_000))*time.Microsecond)...)
		log, err := record.Load(RecordName(file))
		require.NoError(t, err)
		require.Empty(t, log.Altered, "kill %d", kill)
		require.GreaterOrEqual(t, len(log.Readings()), len(before.Readings()), "kill %d", kill)
		if log.Torn > 0 {
			torn++
		}
		if len(log.Pending()) > 0 {
			between++
		}
		kept := map[string]bool{}
		for _, e := range log.Readings() {
			kept[e.Reading] = true
		}
		for _, one := range said {
			require.True(t, kept[one], "kill %d: %q is lost", kill, one)
		}
		holdsNewest(t, file, string(start), log)
		next, err := bookOf(file)
		require.NoError(t, err)
		answer := next.Design().Launcher().Checklist[0]
		require.Equal(t, log.Newest(finding.ItemLabels).Value, answer.Value, "the next run takes over what is pending")
		require.True(t, answer.Recorded, "and the record bears it out")
	}
	require.GreaterOrEqual(t, len(said), kills, "readings were written")
	t.Logf("%d readings said, %d kills within a line, %d between the two files", len(said), torn, between)
}

// holdsNewest tells that the design can be read, is otherwise as it was, and has the newest answer that was written into it,
// or the one that was about to be.
func holdsNewest(t *testing.T, file, start string, log *record.Log) {
	t.Helper()
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	d, problems := design.Reader{}.Open(file, text)
	require.Empty(t, problems)
	require.True(t, strings.HasPrefix(string(text), strings.TrimSpace(start)), "all else stays as it was")
	pending := map[int]bool{}
	for _, e := range log.Pending() {
		pending[e.N] = true
	}
	written, values := "", map[string]bool{}
	for _, e := range log.Readings() {
		if !pending[e.N] {
			written = e.Value
		} else {
			values[e.Value] = true
		}
	}
	values[written] = true
	for _, c := range d.Launcher().Checklist {
		assert.True(t, values[c.Value], "%q stands in the design, %q was written last", c.Value, written)
	}
	if written != "" {
		require.Len(t, d.Launcher().Checklist, 1)
	}
}

// killedWriter runs a writer, kills it so long after its first reading, and tells which readings it said it had written.
func killedWriter(t *testing.T, file string, after time.Duration) (said []string) {
	t.Helper()
	run := exec.Command(os.Args[0], "-test.run", "^TestKilledAtAnyMoment$")
	run.Env = append(os.Environ(), writerEnv+"="+file)
	out, err := run.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, run.Start())
	for lines := bufio.NewScanner(out); lines.Scan(); {
		if said = append(said, lines.Text()); len(said) == 1 {
			time.AfterFunc(after, func() { _ = run.Process.Kill() })
		}
	}
	_ = run.Wait()
	return said
}

// bookOf opens a design with its record as the program does.
func bookOf(file string) (*Book, error) {
	data, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	host := Host{Program: "test", Today: "2026-05-31", Now: time.Now, Wrote: func(string) {},
		Rewrite: func(ctx context.Context, name string, _, now []byte) error {
			return atomicfile.Write(ctx, name, now, atomicfile.Replace)
		}}
	return Open(host, file, data, func(beside *design.Proof) (*design.Editable, error) {
		d, problems := design.Reader{Proof: beside}.Open(file, data)
		if len(problems) > 0 {
			return nil, errors.New(problems[0].String())
		}
		return d, nil
	})
}

// writeReadings writes readings as commission does, and says each once it is written.
func writeReadings(file string) {
	for n := 0; ; n++ {
		e := record.Entry{Kind: record.Reading, Step: finding.ItemLabels, Who: "AB, CD", Date: "2026-05-31", Result: record.Passed,
			Reading: fmt.Sprintf("run %d, reading %d", os.Getpid(), n)}
		e.Value = e.Reading
		b, err := bookOf(file)
		if err == nil {
			b, err = b.with(e)
		}
		if err == nil {
			err = b.write(context.Background())
		}
		if err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		fmt.Println(e.Reading)
	}
}
