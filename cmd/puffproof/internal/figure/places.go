package figure

import "gonum.org/v1/plot/vg"

// Place is where something stands in a drawing, in millimetres from its upper left corner.
type Place struct{ Left, Top, Width, Height float64 }

// PartPlace is where a part stands: its symbol, and below that, a little to the right, its name and note.
type PartPlace struct{ Symbol, Label Place }

// What the symbol of a part takes of its lane: left and right of its line, whatever it is moved by.
const (
	symbolLeft  = 14.6 * mm
	symbolRight = 9.2 * mm
)

// Places are where volumes and parts stand in the drawing of a circuit, in the order of Nodes and Parts: room to touch each,
// which no other has. Instruments are those of each node.
func (c Circuit) Places() (nodes []Place, parts []PartPlace, instruments [][]Place) {
	l := c.lay()
	at := func(x, y, width, height vg.Length) Place {
		return Place{float64(x / mm), float64(y / mm), float64(width / mm), float64(height / mm)}
	}
	const wide = lanePitch - 2*mm
	y := 1 * mm
	levels := make([]vg.Length, len(c.Nodes))
	for n, node := range c.Nodes {
		levels[n] = y + c.head(n)
		if node.Barrel {
			nodes = append(nodes, at(1*mm, y+1*mm, vg.Length(l.lanes)*lanePitch+laneLeft-8*mm, barrelLow-2*mm))
			instruments = append(instruments, nil)
		} else {
			var own []Place
			for k, lane := range l.instruments[n] {
				place := at(laneAt(lane)-wide/2, y, wide, c.head(n)-1*mm)
				if k == 0 {
					nodes = append(nodes, place)
					continue
				}
				own = append(own, place)
			}
			instruments = append(instruments, own)
		}
		y += c.nodeHeight(n)
	}
	for i, part := range c.Parts {
		upper := part.upper()
		top := levels[upper]
		if c.Nodes[upper].Barrel {
			top += tubeLow
		}
		x, high := laneAt(l.part[i]), 4*mm // below the line of the volume
		deep := 9.8*mm + linePitch*vg.Length(max(0, len(part.label())-3))
		parts = append(parts, PartPlace{Symbol: at(x-symbolLeft, top+high, symbolLeft+symbolRight, 14.4*mm-high),
			Label: at(x+1*mm, top+14.4*mm, min(lanePitch-2*mm, c.width(l)-x-1*mm), deep)})
	}
	return nodes, parts, instruments
}
