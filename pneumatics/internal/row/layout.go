package row

import (
	"math"

	"puffproof/pneumatics/line"
)

// Run is how pieces are laid as a row.
type Run struct {
	ShutLeft, ShutRight bool    // a part is there, or nothing passes
	PerLength           float64 // cells per length, of pieces that state no number of their own [1/m]
	Scale               float64 // on friction and fittings [-]
}

// Lay appends a row of pieces, in two parts, each piece with whole cells but for a half one at a
// part. It gives the number of cells of the first part.
func (r *Rows) Lay(run Run, first, second []line.Piece) (split int) {
	w := row{cell: len(r.Cells), face: len(r.Faces), piece: len(r.pieces), shutL: run.ShutLeft, shutR: run.ShutRight}
	r.Faces = append(r.Faces, Face{})
	r.addPieces(&w, &run, first, len(second) == 0)
	split = len(r.Cells) - w.cell
	r.addPieces(&w, &run, second, true)
	r.close(&w)
	return split
}

// addPieces appends the cells of pieces. toTheEnd: no pieces follow.
func (r *Rows) addPieces(w *row, run *Run, pieces []line.Piece, toTheEnd bool) {
	for i := range pieces {
		l := &pieces[i]
		n := l.Cells
		if n <= 0 {
			n = max(1, int(math.Round(run.PerLength*l.Length)))
		}
		halfL := w.shutL && len(r.Cells) == w.cell
		halfR := w.shutR && toTheEnd && i == len(pieces)-1
		parts := float64(n)
		if halfL || halfR {
			parts -= 0.5
		}
		dx, area := l.Length/parts, l.Area()
		if n == 1 { // one cell, whose gas all moves through its open side
			dx = l.Length
		}
		losses := run.Scale * l.Losses()
		r.pieces = append(r.pieces, piece{first: len(r.Faces) - 1, last: len(r.Faces) - 1 + n, cell: len(r.Cells), cells: n,
			end:      len(r.Cells) + n - 1 - w.cell,
			reynolds: l.Bore / (area * r.viscosity), factor: losses / (2 * l.Bore), fixed: losses * l.Loss / (2 * l.Length)})
		for k := range n {
			length, share := dx, 0.5
			lastL, lastR := halfL && k == 0, halfR && k == n-1
			if lastL || lastR {
				share = 1
				if n > 1 {
					length = 0.5 * dx
				}
			}
			r.addCell(area, length, share, lastL, lastR)
		}
	}
}

// addCell appends a cell and the face behind it.
func (r *Rows) addCell(area, length, share float64, shutL, shutR bool) {
	volume := area * length
	r.Cells = append(r.Cells, Cell{Area: area, invArea: 1 / area, Volume: volume, invGM1: r.gm1 / volume,
		choke: math.Sqrt(r.gas.Gamma/r.gas.R) * area})
	before := &r.Faces[len(r.Faces)-1]
	behind := Face{area: area, invArea: 1 / area}
	if before.area == 0 {
		before.area, before.invArea = area, 1/area
	}
	if !shutL {
		before.lb, before.sb = share*length, share
	}
	if !shutR {
		behind.la, behind.sa = share*length, share
	}
	r.Faces = append(r.Faces, behind)
}

// close settles what each face of a row is.
func (r *Rows) close(w *row) {
	w.n, w.pieces = len(r.Cells)-w.cell, len(r.pieces)-w.piece
	last := w.face + w.n
	for k := w.face; k <= last; k++ {
		f := &r.Faces[k]
		f.length = f.la + f.lb
		i := w.cell + k - w.face
		switch {
		case k == w.face && w.shutL, k == last && w.shutR:
			f.kind = atPart
		case k == w.face:
			f.kind, f.loss, f.mobility = mouth, line.EntryLoss, r.Cells[i].Area/f.lb
		case k == last:
			f.kind, f.loss, f.mobility = mouth, line.EntryLoss, r.Cells[i-1].Area/f.la
		default:
			a, b := r.Cells[i-1].Area, r.Cells[i].Area
			f.mobility = 1 / (f.la/a + f.lb/b)
			if a != b {
				f.kind, f.loss = joint, line.EntryLoss*(1-min(a, b)/max(a, b))
			}
		}
	}
	r.rows = append(r.rows, *w)
	for i := w.piece; i < len(r.pieces); i++ {
		p := &r.pieces[i]
		flows := p.last - p.first + 1
		if r.Faces[p.first].kind == atPart {
			flows--
		}
		if r.Faces[p.last].kind == atPart {
			flows--
		}
		p.share = 1 / float64(flows)
	}
}
