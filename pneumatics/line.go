package pneumatics

import "math"

// Line is one piece of hose or pipe of constant bore. Its air has volume, inertia
// and friction: a row of cells, each with gas mass and temperature as any volume
// has, and between neighbours a mass flow with the inertia of the gas between
// them.
//
// A line that sound crosses many times during a shot, one of a path that no shot
// passes (a vent, a valve that stays shut), and every line where nothing is loaded
// or a run settles (Options.Settle), is a resistance and adds its volume to the node on
// its side: it costs nothing (see cellsFor).
//
// Friction is that of a smooth pipe; its work stays in the gas. Where a line opens
// into a volume, the gas that enters loses half a dynamic head (sharp edge), the
// jet that leaves loses its motion in the volume. Where two pieces meet, the wider
// one is entered with the loss of Borda and Carnot, the narrower one with a
// half of what the narrowing covers of the section. No end passes more than the
// speed of sound allows.
type Line struct {
	Bore   float64 // inner diameter [m], above 0
	Length float64 // [m], above 0
	// Loss is the sum of the loss factors of elbows and fittings in the piece, in
	// dynamic heads of its bore [-]; see ElbowLoss.
	Loss float64
	// Conductance is how many times as much the piece passes as one with the losses
	// stated, where losses alone decide [-]: friction and Loss are divided by its
	// square. 0: 1.
	Conductance float64
	// Cells is the number of cells; 0: as many as the shot needs; a stated number makes it a line always.
	Cells int
}

// Loss factors of fittings in dynamic heads of the bore [-], from memory: Crane
// Technical Paper 410, appendix A (sharp-edged entrance 0.5, exit 1, standard 90°
// elbow 30 f_T, 45° elbow 16 f_T, tee 20 f_T straight and 60 f_T through the branch) with
// f_T = 0.027 of a half-inch pipe, its smallest.
const (
	EntryLoss     = 0.5
	ElbowLoss     = 0.81
	HalfElbowLoss = 0.43
	TeeRunLoss    = 0.54
	TeeBranchLoss = 1.62
)

// Area is the section of the bore [m2].
func (l *Line) Area() float64 { return math.Pi / 4 * l.Bore * l.Bore }

// Volume is what the piece holds [m3].
func (l *Line) Volume() float64 { return l.Area() * l.Length }

// losses is the factor on friction and fittings.
func (l *Line) losses() float64 {
	if l.Conductance <= 0 {
		return 1
	}
	return 1 / (l.Conductance * l.Conductance)
}

// The friction factor's laminar and turbulent branches are joined smoothly between
// these Reynolds numbers (pipe flow turns turbulent between 2000 and 4000, any text
// on fluid mechanics).
const (
	laminarEnd     = 2000.0
	turbulentBegin = 4000.0
)

// PipeFriction is Darcy's friction factor of a smooth pipe [-] at a Reynolds
// number: 64/Re, and Haaland's form of the smooth-pipe law above Re 4000:
//
//	f = (1.8 log10(Re/6.9))^-2
//
// between 2000 and 4000 a smooth step from one to the other. Source: Haaland, J.
// Fluids Eng. 105 (1983) 89 (read in a later text).
func PipeFriction(re float64) float64 {
	switch {
	case re <= laminarEnd:
		return 64 / re
	case re >= turbulentBegin:
		return haaland(re)
	}
	s := (re - laminarEnd) / (turbulentBegin - laminarEnd)
	s *= s * (3 - 2*s)
	return (1-s)*64/re + s*haaland(re)
}

func haaland(re float64) float64 {
	const c = (math.Ln10 / 1.8) * (math.Ln10 / 1.8)
	l := math.Log(re * (1 / 6.9))
	return c / (l * l)
}

// LineVolume is what the lines on the side of a node hold [m3]: the pieces before
// the part of a path from the node, and those after the part of a path to it. In a
// state where the part is shut their air goes where the node's goes.
func (c *Circuit) LineVolume(n Node) float64 {
	sum := 0.0
	for i := range c.Paths {
		p := &c.Paths[i]
		if p.From == n {
			sum += volumeOf(p.Before)
		}
		if p.To == n {
			sum += volumeOf(p.After)
		}
	}
	return sum
}

func volumeOf(pieces []Line) float64 {
	sum := 0.0
	for i := range pieces {
		sum += pieces[i].Volume()
	}
	return sum
}
