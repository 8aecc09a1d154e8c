package pneumatics

import (
	"fmt"
	"math"

	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/line"
)

// division is how many cells a line has per length [1/m]; 0 for one that is only a
// resistance. A piece with a stated number of cells is never that.
func (e *engine) division(path int, pieces, more []line.Piece) float64 {
	if e.sc.Parts.SteadyLines {
		return 0
	}
	length, stated := 0.0, false
	for _, row := range [...][]line.Piece{pieces, more} {
		for i := range row {
			l := &row[i]
			if !(l.Bore > 0 && l.Length > 0) {
				panic(fmt.Sprintf("pneumatics: line of bore %g m and length %g m", l.Bore, l.Length))
			}
			length += l.Length
			stated = stated || l.Cells > 0
		}
	}
	n := e.cellsFor(path, length, pieces)
	if n == 0 && stated {
		n = 1
	}
	return float64(n) / length
}

// shotTime estimates how long a shot through a path takes [s]: the time to move the
// projectile by the highest pressure there is, or to fill the barrel through the part
// at that pressure, whichever is longer. +Inf where no shot goes through it.
func (e *engine) shotTime(path int) float64 {
	p := &e.c.Paths[path]
	if e.sc.NoProjectile || !e.b.Present || e.o.Settle || p.From == Atmosphere || p.To == Atmosphere || p.Flow.IsZero() ||
		e.moves[path].Peak(0) <= 0 {
		return math.Inf(1)
	}
	if e.sc.Jammed { // what counts is the front itself, however fast it comes
		return 0
	}
	highest := e.pa
	for i := range e.sc.Volumes {
		highest = max(highest, e.sc.Volumes[i].Pressure)
	}
	way := max(e.b.Travel-max(e.sc.Seat, 0), 0.1*e.b.Travel)
	move := math.Sqrt(2 * e.b.Mass * way / (max(highest-e.pa, 1e3) * e.b.Area))
	if p.Kind == Hose {
		return move
	}
	c, _ := p.Flow.Conductance(e.gas)
	// Volume of free air over the sonic flow of free air; while the part opens, the
	// flow grows with time.
	fill := (e.b.DeadVolume + e.b.Area*way) * e.pa / (flow.ReferencePressure * c * highest)
	if o := p.OpeningTime; fill < 0.5*o {
		fill = math.Sqrt(2 * fill * o)
	} else {
		fill += 0.5 * o
	}
	return max(move, fill)
}

// cellsFor decides how finely a run of pieces is divided: 0 for one that is no more
// than a resistance, else the number of its cells. Sound crosses a run so many times in
// a shot: from 60 times on a resistance differs by 1.5 % of the shot's energy (root mean
// square over 40 random launchers, a hose of 0.7 to 3 times the valve's bore on either
// side), unless it holds back more than its part: then a resistance was up to 66 % off, as
// the conductances of part and line do not tell what the gas keeps of its motion from one to
// the other. Below that 2 + 14/times cells, at most 12, differ by about 1 % from 24 cells.
// Half as many missed up to 48 % of the energy that the wave model gave inside the range
// (of 2300 random launchers, testdata/wave/README.md). Common practice, no source;
// TestLineCellsAreEnough, TestShortLineIsAResistance.
func (e *engine) cellsFor(path int, length float64, pieces []line.Piece) int {
	ratio := e.shotTime(path) * e.gas.SoundSpeed(e.ta) / length
	if ratio > 60 && (ratio > 1000 || !e.holdsBack(path, pieces)) {
		return 0
	}
	n := 2 + int(math.Round(min(14/ratio, 10)))
	if e.o.Coarse && !e.sc.Jammed {
		n = max(min(n, coarseCells), 2*n/3)
	}
	return n
}

// coarseCells is the number of cells that a coarse run of line has at least, where its rule asks for more.
const coarseCells = 4

// holdsBack tells that pieces beside a part pass, steadily, less than 1.5 times what it
// does.
func (e *engine) holdsBack(path int, pieces []line.Piece) bool {
	p := &e.c.Paths[path]
	if p.Kind == Hose {
		return false
	}
	run, _ := line.Steady(pieces, &e.gas, line.Alone).Conductance(e.gas)
	part, _ := p.Flow.Conductance(e.gas)
	return run < 1.5*part
}
