// Package random writes design files of launchers that nobody thought of: other
// layouts, sizes and pressures, figures that are stated, left out or claimed
// exact. A design is made from a seed, the same one each time. All are invented.
// Nearly every one is read without a fault; whether its launcher is any good is
// not asked.
//
// The package knows nothing of the program: it writes text. Tests of any package
// may import it, and so does testdata/compare. Start reading at Design.
package random

import (
	"bytes"
	"fmt"
	"math/rand/v2"
)

// Design writes the design file of a seed [TOML]. The same seed gives the same
// bytes as long as this package is not changed.
func Design(seed uint64) []byte {
	d := &draw{r: rand.New(rand.NewPCG(seed, 11)), kinds: rand.New(rand.NewPCG(seed, 13)),
		fills: rand.New(rand.NewPCG(seed, 17))}
	d.plan()
	d.head(seed)
	d.air()
	d.circuit()
	d.supply()
	d.pressureSwitch()
	d.gauges()
	d.barrel()
	d.projectile()
	d.venting()
	d.event()
	d.mount()
	d.rules()
	d.objects()
	d.bench()
	d.checklist()
	return d.out.Bytes()
}

// draw is one design in the making: the source of chance, what was written, and
// what the tables must agree on.
type draw struct {
	r   *rand.Rand
	out bytes.Buffer
	// kinds decides which valves have a diaphragm or a third port, apart from all other
	// choices: those stay as they are.
	kinds *rand.Rand
	// fills decides likewise what ends a filling without a switch, what stands before a regulator, and the ratings of hoses.
	fills *rand.Rand

	careful   bool     // the builder states what verdicts ask for, and builds for gas
	working   float64  // pressure of the tank when the switch stops the supply [bar gauge]
	switched  bool     // there is a pressure switch
	cylinder  bool     // the supply is a regulated cylinder
	deadHead  float64  // of the supply [bar gauge]
	stages    []string // volumes from the supply to the firing valve
	litres    []float64
	overTube  bool
	width     float64 // bore, or outside of the launch tube [mm]
	way       float64 // travel, or engagement [mm]
	elevation float64 // of the event [deg]; 0: none
}

// stated is the probability p of a careless builder, or certainty.
func (d *draw) stated(p float64) float64 {
	if d.careful {
		return 1
	}
	return p
}

// plan draws what several tables depend on.
func (d *draw) plan() {
	d.careful = d.chance(0.5)
	d.working = d.log(0.05, 4)
	if d.careful && d.chance(0.7) {
		d.working = d.log(0.05, 0.6)
	}
	d.switched = d.chance(0.75)
	d.cylinder = d.chance(0.12)
	// Without a switch it is the working pressure, which the reader wants within 10 bar.
	d.deadHead = d.working * d.log(1.1, 2)
	if d.switched && d.chance(0.6) {
		d.deadHead = d.working * max(1.05, d.log(0.5, 8)) // below it the switch would never stop it, and the reader refuses it
	}
	d.stages = [][]string{{"tank"}, {"tank", "dose"}, {"tank", "dose"}, {"tank", "manifold", "dose"}}[d.r.IntN(4)]
	for i := range d.stages {
		if i == 0 {
			d.litres = append(d.litres, d.log(0.2, 20))
			continue
		}
		d.litres = append(d.litres, d.log(0.02, 2))
	}
	d.overTube = d.chance(0.25)
	d.width, d.way = d.log(8, 80), d.log(15, 1200)
	if d.overTube {
		d.width, d.way = d.log(8, 40), d.log(20, 400)
	}
}

// last is the volume that the firing valve empties.
func (d *draw) last() string { return d.stages[len(d.stages)-1] }

func (d *draw) head(seed uint64) {
	d.line("# Random launcher of seed %d. Every figure is invented; no such launcher exists.", seed)
	name := fmt.Sprintf("Random launcher %d", seed)
	if d.chance(0.1) {
		name += " <b> & 'co'" // must come out of every paper as it went in
	}
	d.line("name = %q", name)
	d.maybe(0.7, "revision = %q", d.word("A", "B", "3", "?"))
	d.maybe(0.3, "description = %q", "Drawn by lot, invented data")
	d.maybe(0.3, "owner = %q", "who built it")
	d.maybe(0.3, "adult_in_charge = %q", "who holds the key")
}

// air writes ambient air and gas. The temperature stays between coldest and
// hottest, as the reader asks.
func (d *draw) air() {
	if d.chance(0.9) {
		d.table("ambient")
		d.maybe(0.85, "pressure = %q",
			d.word("1013 hPa abs", "1013 hPa abs ± 30 hPa", "95.0 kPa abs ± 1 kPa, measured", "870 hPa abs ± 20 hPa", "14.6 psia"))
		d.maybe(0.85, "temperature = %q", d.word("18 degC ± 8 K", "21 degC", "65 degF ± 5 K", "288 K ± 4 K, measured", "12 degC ± 0"))
		d.maybe(0.7, "hottest = %q", d.word("30 degC", "40 degC", "60 degC", "100 degF"))
		d.maybe(0.7, "coldest = %q", d.word("10 degC", "0 degC", "-10 degC"))
	}
	if d.cylinder && d.chance(0.6) {
		d.table("gas")
		d.line(`name = "nitrogen"`)
	} else if d.chance(0.4) {
		d.table("gas")
		d.line(`name = "air"`)
	}
}
