package app

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/trial"
)

// restOf are the pressures at which a launcher that nothing stops comes to rest [Pa gauge], as commands say them.
type restOf struct{ low, at, high float64 }

// One pressure at which a supply comes to rest against its open bleed, wherever it is said: the example rocket, and the same on a weaker
// pump with a wider bleed, so far below the dead head of 0.22 bar that nobody takes the one for the other; that with a switch that is set
// above it, and with a timer that stops it before. What the
// nominal shot starts from, the weakest one, a measured one, the stopwatch, the ladder, the card; and nowhere else than as the
// dead head does that one appear. The figure itself is held to a closed form in launcher and filling.
func TestOneRestEverywhere(t *testing.T) {
	rocket, err := os.ReadFile("../../../../testdata/designs/rocket.toml")
	require.NoError(t, err)
	wider := strings.NewReplacer("6.0 L/min", "3.0 L/min", "0.30 mm ± 0.02 mm", "0.40 mm ± 0.05 mm").Replace(string(rocket))
	require.NotEqual(t, string(rocket), wider)
	switched := wider +
		"\n[pressure_switch]\nsenses = \"dose\"\ncut_out = \"0.185 bar ± 0.005 bar\"\ncut_in = \"0.10 bar\"\ndifferential = \"0.03 bar\"\n"
	timed := strings.Replace(wider, "[supply]\n", "[supply]\nfill_time = \"9 s ± 0.5 s\"\nfills_from = \"empty\"\n", 1)
	for name, text := range map[string]string{"rocket": string(rocket), "wider bleed": wider, "a switch above": switched, "a timer": timed} {
		t.Run(name, func(t *testing.T) {
			ctx, path := trial.Lightly(t.Context(), 0.00005), designFile(t, text)
			say := func(args ...string) string {
				var stdout, stderr bytes.Buffer
				host := Host{Stdin: strings.NewReader(""), Stdout: &stdout, Stderr: &stderr,
					Now: func() time.Time { return time.Date(2026, 11, 29, 12, 0, 0, 0, time.UTC) }}
				run(ctx, newRegistry(), host, append([]string{"puffproof"}, args...))
				return stdout.String()
			}
			ask := func(args ...string) (of map[string]any) {
				require.NoError(t, json.Unmarshal([]byte(say(append([]string{"--json"}, append(args, path)...)...)), &of), args)
				noDeadHead(t, strings.Join(args, " "), of)
				return of
			}
			at := func(of any, keys ...string) any {
				for _, k := range keys {
					of = of.(map[string]any)[k]
				}
				return of
			}
			one := func(of any, low, mid, high string) restOf {
				return restOf{at(of, low).(float64), at(of, mid).(float64), at(of, high).(float64)}
			}
			check := ask("check")
			rest := one(at(check, "energy", "rest_gauge_Pa"), "low_Pa", "gauge_Pa", "high_Pa")
			assert.True(t, 5e3 < rest.low && rest.low < rest.at && rest.at < rest.high && rest.high < 24e3, rest)
			assert.Equal(t, rest.at, at(check, "energy", "nominal_shot", "start_gauge_Pa"))
			assert.Equal(t, rest.low, at(check, "budget", "weakest", "start_gauge_Pa"))
			assert.InDelta(t, 24e3, at(check, "energy", "start_high_gauge_Pa"), 1, "what is judged is that of a blocked bleed")
			assert.Equal(t, rest.at, at(ask("shot"), "start", "gauge_Pa", "dose"))
			plan := ask("plan")
			assert.Equal(t, rest.at, at(plan, "pressures").([]any)[2].(map[string]any)["gauge_Pa"])
			assert.GreaterOrEqual(t, at(plan, "fired_high_gauge_Pa"), rest.high)
			ladder := at(ask("setpoint"), "ladder").([]any)
			rung := map[bool]string{true: "timer", false: "at rest"}[name == "a timer"]
			i := slices.IndexFunc(ladder, func(r any) bool { return at(r, "name") == rung })
			require.GreaterOrEqual(t, i, 0)
			stands := one(ladder[i], "low_Pa", "gauge_Pa", "high_Pa")
			if rung == "timer" { // what is judged is that of a blocked bleed
				assert.InDelta(t, 24e3, stands.high, 1)
				stands.high = rest.high
			}
			assert.Equal(t, rest, stands, "the ladder")
			watch := at(ask("vent"), "stopwatch").([]any)[0]
			assert.Equal(t, rest, one(watch, "start_low_Pa", "start_gauge_Pa", "start_high_Pa"), "the stopwatch")
			assert.Contains(t, fmt.Sprint(ask("items")), fmt.Sprintf("fired, %.3f bar to", math.Ceil(0.95*rest.at/1e2)/1e3), "a measured shot")
			for _, args := range [][]string{{"commission"}, {"flight"}, {"faults"}, {"explain", "energy.total"}} {
				ask(args...)
			}
			card := filepath.Join(t.TempDir(), "card.md")
			say("card", path, "-o", card)
			written, err := os.ReadFile(card)
			require.NoError(t, err)
			_, words, _ := strings.Cut(string(written), "-->") // what is before is the archive, with the design file
			assert.NotContains(t, words, "0.22")
			assert.Equal(t, name != "a timer", strings.Contains(words, "the gauge comes to rest between the figures above"), words)
			assert.Contains(t, words, fmt.Sprintf("**%.2f bar gauge**", rest.at/1e5))
		})
	}
}

// noDeadHead holds a document to no figure and no sentence of the dead head as it is stated, but where it is called that.
func noDeadHead(t *testing.T, place string, v any) {
	t.Helper()
	switch v := v.(type) {
	case map[string]any:
		if name := fmt.Sprint(v["name"], v["key"], v["Key"]); strings.Contains(name, "dead head") || strings.Contains(name, "dead_head") {
			return
		}
		for k, of := range v {
			noDeadHead(t, place+"."+k, of)
		}
	case []any:
		for _, of := range v {
			noDeadHead(t, place+"[]", of)
		}
	case float64:
		assert.False(t, 21999 < v && v < 22001, place)
	case string:
		assert.False(t, strings.Contains(v, "0.22 bar") && !strings.Contains(v, "dead head"), "%s: %s", place, v)
	}
}
