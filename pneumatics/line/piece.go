package line

import "math"

// Piece is one piece of hose or pipe of constant bore. Its air has volume, inertia
// and friction: a row of cells, each with gas mass and temperature as any volume
// has, and between neighbours a mass flow with the inertia of the gas between
// them.
//
// A line that sound crosses many times during a shot and that passes far more than its
// part, and one that no shot passes, is a resistance and adds its volume to the node on its
// side: it costs nothing.
//
// Friction is that of a smooth pipe; its work stays in the gas. Where a line opens
// into a volume, the gas that enters loses half a dynamic head (sharp edge), the
// jet that leaves loses its motion in the volume. Where two pieces meet, the wider
// one is entered with the loss of Borda and Carnot, the narrower one with a
// half of what the narrowing covers of the section. No end passes more than the
// speed of sound allows.
type Piece struct {
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
func (p *Piece) Area() float64 { return math.Pi / 4 * p.Bore * p.Bore }

// Volume is what the piece holds [m3].
func (p *Piece) Volume() float64 { return p.Area() * p.Length }

// Losses is the factor on friction and fittings.
func (p *Piece) Losses() float64 {
	if p.Conductance <= 0 {
		return 1
	}
	return 1 / (p.Conductance * p.Conductance)
}

// Volume is what pieces hold [m3].
func Volume(pieces []Piece) float64 {
	sum := 0.0
	for i := range pieces {
		sum += pieces[i].Volume()
	}
	return sum
}
