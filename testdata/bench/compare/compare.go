// Command compare sets the shot of package pneumatics with the integrators of
// SUNDIALS on the reference shots A, C and D: same equations, same machine, and
// the cheapest run of each code whose achieved error is at most a given one. Its
// argument is the program made of shots.c. See README.md.
package main

import (
	"bufio"
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"time"

	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
)

// run is one case with one method and tolerance.
type run struct {
	shot, method     string
	tolerance, error float64
	micros           float64
	evaluations      int
}

// shot is a reference shot: SciPy DOP853 at rtol 1e-12.
type shot struct {
	name                                                                string
	volume, pressure, c, b, dead, bore, travel, mass, friction, opening float64
	speed, time, barrel, tank                                           float64
}

func shots() []shot {
	return []shot{
		{"A", 2e-3, 401325, 3e-7, 0.3, 50e-6, 0.05, 1, 0.05, 0, 0, 52.615999715, 0.0234275341, 92807.006, 256792.433},
		{"C", 5e-3, 301325, 8e-8, 0.4, 100e-6, 0.025, 0.4, 0.02, 2, 0, 42.779950324, 0.0186083596, 160987.394, 290690.083},
		{"D", 2e-3, 401325, 3e-7, 0.3, 50e-6, 0.05, 1, 0.05, 0, 0.010, 51.832872084, 0.0282171300, 96606.653, 253376.131},
	}
}

func (k shot) circuit() (*pneumatics.Circuit, *pneumatics.Scenario) {
	const pa, ta = 101325.0, 293.15
	g := flow.Air()
	g.R = 287.05
	area := math.Pi / 4 * k.bore * k.bore
	return &pneumatics.Circuit{Gas: g, Ambient: pneumatics.Ambient{Pressure: pa, Temperature: ta},
			Volumes: []pneumatics.Volume{{Name: "tank", Volume: k.volume}},
			Paths: []pneumatics.Path{{Name: "fire", From: 0, To: pneumatics.BarrelNode, Kind: pneumatics.Valve,
				Flow: flow.SonicConductance(k.c, k.b), OpenIn: pneumatics.SetOf(pneumatics.Firing), OpeningTime: k.opening}},
			Barrel: pneumatics.Barrel{Present: true, Area: area, ExitArea: area, DeadVolume: k.dead, Travel: k.travel,
				Mass: k.mass, Breakaway: k.friction, Sliding: k.friction, JetFactor: 1}},
		&pneumatics.Scenario{From: pneumatics.Armed, To: pneumatics.Firing,
			Volumes: []pneumatics.Condition{{Pressure: k.pressure, Temperature: ta}},
			Parts:   pneumatics.Parts{NoGasInertia: true, NoAirAhead: true, NoAfterMuzzle: true, NoWallHeat: true}}
}

// runGo measures the Go program: the least mean of batches, and the error.
func (k shot) runGo(tolerance float64) run {
	c, sc := k.circuit()
	var s pneumatics.Sim
	o := pneumatics.Options{Tolerance: tolerance, NoPeak: true}
	best := math.Inf(1)
	for range 25 {
		const batch = 200
		from := time.Now()
		for range batch {
			s.Run(c, sc, o)
		}
		best = math.Min(best, time.Since(from).Seconds()/batch)
	}
	r := s.Run(c, sc, o)
	worst := 0.0
	for _, v := range [][2]float64{{r.MuzzleSpeed, k.speed}, {r.ExitTime, k.time}, {r.BarrelExit, k.barrel}, {r.AtExit[0], k.tank}} {
		worst = math.Max(worst, math.Abs(v[0]/v[1]-1))
	}
	return run{k.name, "go", tolerance, worst, 1e6 * best, r.Evaluations}
}

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: bench PROGRAM-MADE-OF-SHOTS.C")
		os.Exit(2)
	}
	out, err := exec.Command(os.Args[1]).Output()
	if err != nil {
		fmt.Fprintln(os.Stderr, "bench:", err)
		os.Exit(1)
	}
	var all []run
	for lines := bufio.NewScanner(bytes.NewReader(out)); lines.Scan(); {
		var r run
		if _, err := fmt.Sscan(lines.Text(), &r.shot, &r.method, &r.tolerance, &r.error, &r.micros, &r.evaluations); err != nil {
			fmt.Fprintln(os.Stderr, "bench:", lines.Text(), err)
			os.Exit(1)
		}
		all = append(all, r)
	}
	for _, k := range shots() {
		for e := 6; e <= 20; e++ {
			all = append(all, k.runGo(math.Pow(10, -0.5*float64(e))))
		}
	}
	report(all)
}

// report prints, for each achieved error, the cheapest run of each method and the
// ratio of the fastest of SUNDIALS to Go.
func report(all []run) {
	methods := []string{"go", "adams", "bdf", "erk5", "erk8"}
	fmt.Printf("%-5s %-9s", "case", "error at")
	for _, m := range methods {
		fmt.Printf("%16s", m)
	}
	fmt.Printf("%16s\n", "fastest C / Go")
	fmt.Printf("%-5s %-9s", "", "most")
	for range methods {
		fmt.Printf("%16s", "us (rhs)")
	}
	fmt.Println()
	for _, target := range []float64{1e-5, 1e-6, 1e-7, 1e-8} {
		for _, k := range shots() {
			fmt.Printf("%-5s %-9.0e", k.name, target)
			other, own := math.Inf(1), math.NaN()
			for _, m := range methods {
				b, ok := cheapest(all, k.name, m, target)
				if !ok {
					fmt.Printf("%16s", "-")
					continue
				}
				fmt.Printf("%16s", fmt.Sprintf("%.1f (%d)", b.micros, b.evaluations))
				if m == "go" {
					own = b.micros
				} else {
					other = math.Min(other, b.micros)
				}
			}
			fmt.Printf("%16.2f\n", other/own)
		}
	}
}

// cheapest is the fastest run of a method on a shot that is right to target, and
// that stays right at every finer tolerance: a lucky run does not count.
func cheapest(all []run, name, method string, target float64) (best run, ok bool) {
	lucky := math.Inf(1)
	for _, r := range all {
		if r.shot == name && r.method == method && r.error > target {
			lucky = math.Min(lucky, r.tolerance)
		}
	}
	for _, r := range all {
		if r.shot != name || r.method != method || r.tolerance >= lucky {
			continue
		}
		if !ok || r.micros < best.micros {
			best, ok = r, true
		}
	}
	return best, ok
}
