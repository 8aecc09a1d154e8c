package app

import (
	"context"
	"errors"
	"math"
	"os"
	"os/signal"
	"puffproof/cmd/puffproof/internal/render"
	"puffproof/limits"
	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

// TestMain makes "framed" a program of the scripts: the real command line over
// services whose answers the design file's text chooses. So every exit status
// can be had without a launcher that earns it.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"framed": func() {
			ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
			st := runWith(ctx, framed(), os.Args, os.Stdin, os.Stdout, os.Stderr, os.Environ())
			stop()
			os.Exit(int(st))
		},
	})
}

func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Setup: func(e *testscript.Env) error {
			e.Setenv("TERM", "xterm-256color")
			return nil
		},
	})
}

// framed gives invented services. The design's name says what becomes of it.
func framed() services {
	return services{
		template: func() []byte { return []byte("holds\n") },
		read: func(name string, data []byte) (*launcher.Launcher, error) {
			text := strings.TrimSpace(string(data))
			if text == "broken" {
				return nil, errors.New(name + ":1:1: key one is wrong\n" + name + ":2:5: key \x1b[31mtwo is wrong")
			}
			return &launcher.Launcher{Name: text}, nil
		},
		gauge: func(text string, _ float64) (float64, error) {
			v, err := strconv.ParseFloat(strings.TrimSuffix(text, " bar"), 64)
			if err != nil {
				return 0, errors.New("no pressure: " + text)
			}
			return v * 1e5, nil
		},
		check: framedCheck,
		shot:  framedShot,
	}
}

func framedCheck(ctx context.Context, l *launcher.Launcher, o assessment.Options) (limits.Report, error) {
	one := 1.0
	v := finding.Verdict{ID: "energy.total", Title: "Is it weak enough?", Status: finding.Pass, Value: &one, Limit: &one, Unit: finding.InJoule, Basis: finding.OnModel, Source: "invented"}
	switch l.Name {
	case "fails":
		v.Status = finding.Fail
	case "unknown":
		v.Status = finding.Unknown
	case "withheld":
		return limits.Report{}, errors.New("the energy balance is off by 0.1")
	case "panics":
		panic("a bug\nof two lines")
	case "not a number":
		nan := math.NaN()
		v.Value = &nan
	case "slow":
		// The file tells the script that the command is at work.
		_ = os.WriteFile("started", nil, 0o644)
		select {
		case <-ctx.Done():
			return limits.Report{}, ctx.Err()
		case <-time.After(time.Minute):
			return limits.Report{}, errors.New("never interrupted")
		}
	}
	r := limits.Report{Verdicts: []finding.Verdict{v}, Holds: v.Status == finding.Pass, OpenItems: 3}
	if l.Name == "confirmed" {
		r.Confirmed, r.OpenItems = true, 0
	}
	return r, nil
}

func framedShot(_ context.Context, l *launcher.Launcher, at *float64, m models) (render.ShotView, error) {
	if l.Name == "withheld" {
		return render.ShotView{}, errors.New("the mass balance is off by 0.1")
	}
	start := 40000.0
	if at != nil {
		start = *at
	}
	return render.ShotView{
		Outcome: "left", Start: []render.NodeGauge{{Name: "tank", Gauge: start}}, MuzzleSpeed: 4, MuzzleEnergy: 0.04,
		Travel: 0.1, ExitTime: 0.03,
		Series: render.Series{Time: []float64{0, 0.01, 0.03}, Travel: []float64{0, 0.02, 0.1}, Speed: []float64{0, 2, 4}, Gauge: []float64{0, 3e4, 1e4}},
	}, nil
}
