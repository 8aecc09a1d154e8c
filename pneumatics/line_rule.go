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
	n := e.cellsFor(path, length)
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
		e.moves[path].peak(0) <= 0 {
		return math.Inf(1)
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
// side), below it 1 + 7/times cells, at most 6, differ by about 1 % from 12 cells
// (common practice, no source; TestLineCellsAreEnough, TestShortLineIsAResistance).
func (e *engine) cellsFor(path int, length float64) int {
	ratio := e.shotTime(path) * e.gas.SoundSpeed(e.ta) / length
	if ratio > 60 {
		return 0
	}
	return min(1+int(math.Round(7/ratio)), 6)
}
