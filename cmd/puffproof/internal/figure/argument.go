package figure

import (
	"image/color"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Claim is an element of an argument in the notation of the GSN Community Standard, version 3 (2021; from memory): a goal is a
// rectangle, a strategy a parallelogram, a solution a circle; a diamond below an element says that it is undeveloped; an arrow
// with a full head leads from an element to what supports it. The standard draws from the top down, here it goes from the
// left to the right where there are many leaves.
type Claim struct {
	ID, Text    string
	Shape       ClaimShape
	Undeveloped bool
	Against     bool // what speaks against it: drawn in the warning colour, and its text says so
	Below       []Claim
}

// ClaimShape is the shape of an element.
type ClaimShape uint8

// The shapes.
const (
	GoalShape ClaimShape = iota
	StrategyShape
	SolutionShape
)

// ClaimColumn is a column of an overview: goals below a heading.
type ClaimColumn struct {
	Heading string
	Claims  []Claim
}

const (
	claimWidth  = 18 * vg.Centimeter
	claimFont   = 7.0
	claimLead   = 3 * vg.Millimeter // of the lines of a claim
	claimPad    = 1.2 * vg.Millimeter
	claimGap    = 1.6 * vg.Millimeter // between elements below one another
	diamondHigh = 2.6 * vg.Millimeter
	circleSize  = 7.6 * vg.Millimeter
)

// The columns of a tree that is drawn to the right: of hazards, of measures, of leaves.
func treeColumns() [3]struct{ at, width vg.Length } {
	return [3]struct{ at, width vg.Length }{{0.5 * mm, 42 * mm}, {49 * mm, 54 * mm}, {110 * mm, 69 * mm}}
}

// lines are the text of an element, its identifier first, in a width.
func (c Claim) lines(width vg.Length) []string {
	return wrap(c.ID+": "+c.Text, width-2*claimPad-2*c.lean(), claimFont)
}

// lean is how far the sides of an element lean over.
func (c Claim) lean() vg.Length {
	if c.Shape == StrategyShape {
		return 2.5 * mm
	}
	return 0
}

// own is the height of an element at a depth of a tree, without what is below it.
func (c Claim) own(depth int) vg.Length {
	width := treeColumns()[min(depth, 2)].width
	if c.Shape == SolutionShape {
		lines := wrap(c.Text, width-circleSize-claimPad, claimFont)
		return max(circleSize, claimLead*vg.Length(len(lines)))
	}
	h := claimLead*vg.Length(len(c.lines(width))) + 2*claimPad
	if c.Undeveloped {
		h += diamondHigh
	}
	return h
}

// laidClaim is an element with all that is below it, and the heights that it takes: of itself, of what is below, of both.
type laidClaim struct {
	Claim
	own, belowHeight, height vg.Length
	below                    []laidClaim
}

// laid measures an element at a depth of a tree, once.
func (c Claim) laid(depth int) laidClaim {
	l := laidClaim{Claim: c, own: c.own(depth)}
	for i, b := range c.Below {
		l.below = append(l.below, b.laid(depth+1))
		if i > 0 {
			l.belowHeight += claimGap
		}
		l.belowHeight += l.below[i].height
	}
	l.height = max(l.own, l.belowHeight)
	return l
}

// ClaimTrees draws elements with all that supports them, to the right, as few drawings as fit into a height [mm]; an element that
// is higher alone has a drawing of its own. ErrNoCurve where there is none.
func ClaimTrees(claims []Claim, most float64) ([]*Drawing, error) {
	if len(claims) == 0 {
		return nil, ErrNoCurve
	}
	const between = 4 * vg.Millimeter
	trees := make([]laidClaim, len(claims))
	for i, c := range claims {
		trees[i] = c.laid(0)
	}
	var out []*Drawing
	for len(trees) > 0 {
		n, height := 0, vg.Length(0)
		for n < len(trees) {
			h := trees[n].height + between
			if n > 0 && height+h > vg.Length(most)*vg.Millimeter {
				break
			}
			height += h
			n++
		}
		part := trees[:n]
		d, err := newDrawing(claimWidth, height, func(dc draw.Canvas) error {
			y := dc.Max.Y - between/2
			for _, c := range part {
				(pen{dc}).claimTree(c, 0, y)
				y -= c.height + between
			}
			return nil
		})
		if err != nil {
			return nil, err
		}
		out, trees = append(out, d), trees[n:]
	}
	return out, nil
}

// claimTree draws an element from y downwards, and to its right all that is below it. It gives the height of its middle.
func (p pen) claimTree(c laidClaim, depth int, y vg.Length) vg.Length {
	column := treeColumns()[min(depth, 2)]
	var middles []vg.Length
	at := y - max(0, (c.own-c.belowHeight)/2)
	for _, b := range c.below {
		middles = append(middles, p.claimTree(b, depth+1, at))
		at -= b.height + claimGap
	}
	top := y - (c.height-c.own)/2
	middle := p.claim(c.Claim, column.at, top, column.width, c.own)
	if len(middles) == 0 {
		return middle
	}
	next := treeColumns()[min(depth+1, 2)].at
	bus := (column.at + column.width + next) / 2
	p.lines(thin(), vg.Point{X: column.at + column.width, Y: middle}, vg.Point{X: bus, Y: middle})
	p.lines(thin(), vg.Point{X: bus, Y: max(middle, middles[0])}, vg.Point{X: bus, Y: min(middle, middles[len(middles)-1])})
	for _, m := range middles {
		p.arrow(bus, m, next, m)
	}
	return middle
}

// claim draws one element into a box and gives the height of its middle.
func (p pen) claim(c Claim, x, top, width, height vg.Length) vg.Length {
	style, black := ink(), color.Color(color.Black)
	if c.Against {
		style.Color, black = limitInk(), limitInk()
	}
	if c.Shape == SolutionShape {
		y := top - height/2
		p.dc.SetLineStyle(style)
		p.dc.Stroke(circleAt(x+circleSize/2, y, circleSize/2))
		p.text(x+circleSize/2, y, c.ID, 6, text.XCenter, black)
		p.claimLines(wrap(c.Text, width-circleSize-claimPad, claimFont), x+circleSize+claimPad, y, black)
		return y
	}
	bottom := top - height
	if c.Undeveloped {
		bottom += diamondHigh
	}
	lean := c.lean()
	p.lines(style, vg.Point{X: x + lean, Y: top}, vg.Point{X: x + width, Y: top}, vg.Point{X: x + width - lean, Y: bottom},
		vg.Point{X: x, Y: bottom}, vg.Point{X: x + lean, Y: top})
	if c.Undeveloped {
		m := x + width/2
		p.lines(style, vg.Point{X: m, Y: bottom}, vg.Point{X: m + 1.7*mm, Y: bottom - diamondHigh/2}, vg.Point{X: m, Y: bottom - diamondHigh},
			vg.Point{X: m - 1.7*mm, Y: bottom - diamondHigh/2}, vg.Point{X: m, Y: bottom})
	}
	p.claimLines(c.lines(width), x+claimPad+lean, (top+bottom)/2, black)
	return (top + bottom) / 2
}

// claimLines writes lines to the right of x around a height.
func (p pen) claimLines(lines []string, x, middle vg.Length, ink color.Color) {
	y := middle + claimLead*vg.Length(len(lines)-1)/2
	for _, l := range lines {
		p.text(x, y, l, claimFont, text.XLeft, ink)
		y -= claimLead
	}
}

// ClaimOverview draws an argument from the top down: its top claim, the context it stands in, the strategy with the claims that it
// rests on in columns, and beside it a further strategy, which is not drawn out; one without an identifier is none. ErrNoCurve where
// there is no column.
func ClaimOverview(top, strategy, further Claim, context []string, columns []ClaimColumn) (*Drawing, error) {
	if len(columns) == 0 {
		return nil, ErrNoCurve
	}
	o := overview{top: top, strategy: strategy, further: further, context: context, columns: columns}
	o.wide = (claimWidth - 1*mm) / vg.Length(len(columns))
	height := o.headHeight()
	most := vg.Length(0)
	for _, c := range columns {
		most = max(most, o.columnHeight(c))
	}
	return newDrawing(claimWidth, height+most+1*mm, func(dc draw.Canvas) error {
		o.paint(pen{dc})
		return nil
	})
}

// overview is an argument from the top down.
type overview struct {
	top, strategy, further Claim
	context                []string
	columns                []ClaimColumn
	wide                   vg.Length // of a column
}

// Within the overview: the widths of the top claim and of its context, and the steps between its rows.
const (
	topWide     = 118 * vg.Millimeter
	firstWide   = 96 * vg.Millimeter // of the strategy
	furtherWide = 74 * vg.Millimeter // of the one beside it
	contextWide = 50 * vg.Millimeter
	rail        = 3 * vg.Millimeter
	stepDown    = 6 * vg.Millimeter
)

func boxHeight(lines int) vg.Length { return claimLead*vg.Length(lines) + 2*claimPad }

func (o overview) topHeight() vg.Length { return boxHeight(len(o.top.lines(topWide))) }

func (o overview) contextHeight() vg.Length {
	h := -claimGap
	for _, c := range o.context {
		h += boxHeight(len(wrap(c, contextWide-4*claimPad, claimFont))) + claimGap
	}
	return h
}

func (o overview) strategyHeight() vg.Length {
	return max(boxHeight(len(o.strategy.lines(firstWide))), boxHeight(len(o.further.lines(furtherWide))))
}

func (o overview) headHeight() vg.Length {
	return max(o.topHeight(), o.contextHeight()) + stepDown + o.strategyHeight() + stepDown
}

func (o overview) columnHeight(c ClaimColumn) vg.Length {
	h := claimLead * vg.Length(len(wrap(c.Heading, o.wide-rail, claimFont+1))+1)
	for _, g := range c.Claims {
		h += o.claimHeight(g) + claimGap
	}
	return h
}

func (o overview) claimHeight(g Claim) vg.Length {
	h := boxHeight(len(g.lines(o.wide - rail - 2*mm)))
	if g.Undeveloped {
		h += diamondHigh
	}
	return h
}

func (o overview) paint(p pen) {
	y := p.dc.Max.Y - 0.5*mm
	p.claim(o.top, 0.5*mm, y, topWide, o.topHeight())
	at := y
	for _, c := range o.context {
		h := boxHeight(len(wrap(c, contextWide-4*claimPad, claimFont)))
		p.contextBox(c, claimWidth-contextWide-0.5*mm, at, h)
		at -= h + claimGap
	}
	p.openArrow(topWide+0.5*mm, y-2*mm, claimWidth-contextWide-0.5*mm)
	y -= max(o.topHeight(), o.contextHeight())
	middle := firstWide / 2
	p.arrow(middle, p.dc.Max.Y-0.5*mm-o.topHeight(), middle, y-stepDown)
	if o.further.ID != "" {
		x, half := claimWidth-0.5*mm-furtherWide/2, y-stepDown/2
		p.lines(thin(), vg.Point{X: middle, Y: half}, vg.Point{X: x, Y: half})
		p.arrow(x, half, x, y-stepDown)
		height := o.strategyHeight()
		if o.further.Undeveloped {
			height += diamondHigh
		}
		p.claim(o.further, claimWidth-0.5*mm-furtherWide, y-stepDown, furtherWide, height)
	}
	y -= stepDown
	p.claim(o.strategy, 0.5*mm, y, firstWide, o.strategyHeight())
	y -= o.strategyHeight()
	bus := y - stepDown/2
	p.lines(thin(), vg.Point{X: middle, Y: y}, vg.Point{X: middle, Y: bus})
	first, last := 0.5*mm+rail/2, 0.5*mm+rail/2+o.wide*vg.Length(len(o.columns)-1)
	p.lines(thin(), vg.Point{X: first, Y: bus}, vg.Point{X: max(last, middle), Y: bus})
	for i, c := range o.columns {
		o.column(p, c, 0.5*mm+o.wide*vg.Length(i), bus)
	}
}

// column draws goals below one another beside the rail that leads to them.
func (o overview) column(p pen, c ClaimColumn, x, bus vg.Length) {
	y := bus - stepDown/2
	for _, l := range wrap(c.Heading, o.wide-rail, claimFont+1) {
		p.text(x+rail, y, l, claimFont+1, text.XLeft, color.Black)
		y -= claimLead
	}
	last := bus
	for _, g := range c.Claims {
		h := o.claimHeight(g)
		last = p.claim(g, x+rail, y, o.wide-rail-2*mm, h)
		p.arrow(x+rail/2, last, x+rail, last)
		y -= h + claimGap
	}
	p.lines(thin(), vg.Point{X: x + rail/2, Y: bus}, vg.Point{X: x + rail/2, Y: last})
}

// contextBox is a context: a box with round ends.
func (p pen) contextBox(says string, x, top, height vg.Length) {
	const r = 1.6 * mm
	right, bottom := x+contextWide, top-height
	var path vg.Path
	path.Move(vg.Point{X: x + r, Y: bottom})
	path.Line(vg.Point{X: right - r, Y: bottom})
	path.QuadTo(vg.Point{X: right, Y: bottom}, vg.Point{X: right, Y: bottom + r})
	path.Line(vg.Point{X: right, Y: top - r})
	path.QuadTo(vg.Point{X: right, Y: top}, vg.Point{X: right - r, Y: top})
	path.Line(vg.Point{X: x + r, Y: top})
	path.QuadTo(vg.Point{X: x, Y: top}, vg.Point{X: x, Y: top - r})
	path.Line(vg.Point{X: x, Y: bottom + r})
	path.QuadTo(vg.Point{X: x, Y: bottom}, vg.Point{X: x + r, Y: bottom})
	path.Close()
	p.dc.SetLineStyle(ink())
	p.dc.Stroke(path)
	p.claimLines(wrap(says, contextWide-4*claimPad, claimFont), x+2*claimPad, (top+bottom)/2, color.Black)
}

// openArrow is a level line with an open head: in the context of.
func (p pen) openArrow(x0, y, x1 vg.Length) {
	p.lines(thin(), vg.Point{X: x0, Y: y}, vg.Point{X: x1 - 1.8*mm, Y: y})
	p.lines(thin(), vg.Point{X: x1 - 1.8*mm, Y: y + 0.8*mm}, vg.Point{X: x1, Y: y}, vg.Point{X: x1 - 1.8*mm, Y: y - 0.8*mm},
		vg.Point{X: x1 - 1.8*mm, Y: y + 0.8*mm})
}
