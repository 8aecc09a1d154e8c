//go:build unix

package app

import (
	"bytes"
	"context"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/trial"
)

// roads are what two builders answer who know what they have in mind, and little else; "?" is don't know. Invented launchers.
var roads = map[string]string{
	// Two litres straight into 60 cm of pipe through a solenoid valve, a small compressor with a switch.
	"dragon": "ball\n40 mm\n40 mm\n60 cm\n?\ncompressor\n?\n?\n2 L\nno\ncurrent\n?\nno\nno\nvalve\n1 bar\n?\n3 years\n3 m\nno\n",
	// A hollow foam rocket over a tube, a hand pump, a bottle, a tap.
	"tricycle": "rocket\ntube\n20 mm\n21 mm\n40 mm\n15 cm\n10 g\nhand pump\n?\n?\n2 L\nno\nhand\n?\nno\nno\nhand\n?\n3 years\n3 m\nno\n",
}

// follow types a command line as a screen has it; it gives the next one.
func follow(ctx context.Context, t *testing.T, stdin, line string) (st status, screen, next string) {
	t.Helper()
	var out, errOut bytes.Buffer
	host := Host{Stdin: strings.NewReader(stdin), Stdout: &out, Stderr: &errOut,
		Now: func() time.Time { return time.Date(2026, 11, 29, 12, 0, 0, 0, time.UTC) }}
	st = run(ctx, newRegistry(), host, strings.Fields(line))
	require.Empty(t, errOut.String(), line)
	_, next, found := strings.Cut(out.String(), "next: ")
	if !found {
		_, next, found = strings.Cut(out.String(), "Next: ")
	}
	require.True(t, found, "%s leads nowhere: %s", line, out.String())
	return st, out.String(), strings.Join(strings.Fields(next), " ")
}

// Answers lead from the first check to what lets the launcher fly and hold, whatever is not known: written at once, and with what it
// rests on.
func TestARoadLeadsToAdvice(t *testing.T) {
	ctx := trial.Lightly(t.Context(), 0.00005)
	for name, answers := range roads {
		t.Run(name, func(t *testing.T) {
			t.Chdir(t.TempDir())
			_, _, next := follow(ctx, t, answers, "puffproof init --ask "+name+".toml")
			require.Equal(t, "puffproof check "+name+".toml", next)
			st, screen, next := follow(ctx, t, "", next)
			assert.Equal(t, statusNotHeld, st)
			assert.Equal(t, "puffproof advise "+name+".toml --declare -o better.toml", next, "%s", screen)
		})
	}
}

// Who types what comes next, and nothing else, has after two versions of the file a launcher that holds on the model and of which
// nominal and weakest leave the barrel:
//
//	PUFFPROOF_LONG=1 go test ./cmd/puffproof/internal/app -run RoadEnds -v -timeout 0
func TestARoadEndsAtALauncherThatHolds(t *testing.T) {
	if os.Getenv("PUFFPROOF_LONG") == "" {
		t.Skip("takes minutes; PUFFPROOF_LONG=1 runs it")
	}
	for name, answers := range roads {
		t.Run(name, func(t *testing.T) {
			t.Chdir(t.TempDir())
			began := processorTime()
			st, screen, next := follow(t.Context(), t, answers, "puffproof init --ask "+name+".toml")
			for steps := 0; !strings.HasPrefix(next, "puffproof commission "); steps++ {
				require.Less(t, steps, 4, "%s", screen)
				st, screen, next = follow(t.Context(), t, "", next)
			}
			t.Logf("%.0f s\n%s", (processorTime() - began).Seconds(), screen)
			assert.Equal(t, statusOK, st)
			assert.Contains(t, screen, "Holds on the model.")
			assert.NotContains(t, screen, "does not leave")
			assert.NotContains(t, screen, "stalled")
			files, err := os.ReadDir(".")
			require.NoError(t, err)
			assert.Len(t, files, 2, "versions of the file")
		})
	}
}
