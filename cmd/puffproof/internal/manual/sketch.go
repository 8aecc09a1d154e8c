package manual

import (
	"math"
	"strconv"
	"strings"
)

// sketchText is the layout that a design from nothing begins with: a tank, a dose that a small
// valve fills, a firing valve, a way out of each, a relief valve and a switch. Its figures are
// invented; they stand for a bore of 41 mm. What a part is like, and every figure, is declared: nobody has shown it.
const sketchText = `# A launcher begun from nothing. Every figure here is a sketch's, none is your
# launcher's. "declared" is a promise that nobody has shown yet: what rests on
# one holds only if it proves true. Replace each by your own, and say how you
# know it: measured, datasheet or label; "declared closed" becomes "closed" once
# you have seen the part do it.
name = "Sketch of a launcher"

[volumes.tank]
volume = "2.0 L ± 3 %, declared"
rated_pressure = "10 bar, declared"
material = "declared: steel"

[volumes.dose]                      # the air of one shot
volume = "0.5 L ± 3 %, declared"
rated_pressure = "10 bar, declared"
material = "declared: steel"

[paths.feed]                        # fills the dose, and is shut during a shot
from = "tank"
to = "dose"
kind = "valve"
orifice = "1.2 mm ± 0.1 mm, declared"
orifice_removable = "declared no"
open_in = ["charging"]
unpowered = "declared closed"
drive = "declared direct"

[paths.fire]
from = "dose"
to = "barrel"
kind = "valve"
Cv = "2.0 ± 10 %, declared"
open_in = ["firing"]
unpowered = "declared closed"
drive = "declared direct"
opening_time = "30 ms ± 10 ms, declared"

[paths.dump_tank]
from = "tank"
to = "atmosphere"
kind = "valve"
orifice = "1.5 mm ± 0.1 mm, declared"
open_in = ["off"]
unpowered = "declared open"
drive = "declared direct"
points = "declared away"

[paths.dump_dose]                   # open too while hands are at the muzzle
from = "dose"
to = "atmosphere"
kind = "valve"
orifice = "1.5 mm ± 0.1 mm, declared"
open_in = ["off", "loading"]
unpowered = "declared open"
drive = "declared direct"
points = "declared away"

[paths.bleed_barrel]                # lets the air out from behind a stuck projectile
from = "barrel"
to = "atmosphere"
kind = "orifice"
orifice = "1.0 mm ± 0.1 mm, declared"
points = "declared away"

[paths.relief]
from = "tank"
to = "atmosphere"
kind = "relief"
orifice = "6 mm ± 0.2 mm, declared"
set_pressure = "0.75 bar ± 0.1 bar, declared"
full_flow_pressure = "0.95 bar ± 0.1 bar, declared"
points = "declared away"

[supply]
kind = "compressor"
feeds = "tank"
free_air = "12 L/min ± 20 %, declared"
dead_head = "6 bar, declared"

[pressure_switch]
senses = "tank"
cut_out = "0.36 bar ± 0.02 bar, declared"
cut_in = "0.22 bar ± 0.02 bar, declared"
differential = "0.06 bar ± 0.01 bar, declared"
adjustable = "declared no"

[gauge]
on = "tank"
range = "1.6 bar, declared"
class = "1.6, declared"
stop_pin = "declared no"

[barrel]
fit = "in bore"
bore = "{bore} mm ± 0.2 mm, declared"
travel = "60 mm ± 2 mm, declared"
dead_volume = "{dead} mL ± 10 %, declared"
rated_pressure = "6 bar, declared"
material = "declared: polycarbonate"

[projectile]
mass = "{mass} g ± 8 %, declared"
diameter = "{bore} mm ± 0.5 mm, declared"

[venting]
target = "0.05 bar"
within = "60 s"
`

// Sketch gives the design file to begin from without one, for a bore [m]. Nothing in it is stated as a fact for its builder: which parts
// there are, and between what, is the layout; what they are like is declared.
func Sketch(bore float64) []byte {
	const (
		drawn = 0.041 // the bore of the sketch [m]
		mass  = 4.0   // of its ball of foam [g]
		dead  = 40.0  // [mL]
	)
	share := bore / drawn
	figure := func(v float64) string { return strconv.FormatFloat(v, 'g', 3, 64) }
	return []byte(strings.NewReplacer("{bore}", figure(1e3*bore), "{dead}", figure(dead*share*share), "{mass}",
		figure(mass*math.Pow(share, 3))).Replace(sketchText))
}
