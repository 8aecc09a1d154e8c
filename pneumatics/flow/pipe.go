package flow

import "math"

// SmoothPipe is what smooth-pipe friction lets through a pipe of bore d and length l, both [m], from p1 to p2, absolute [Pa], in [kg/s],
// isothermal at t [K], with the viscosity at warm [K], which is the greater:
//
//	laminar    q = pi d^4 (p1^2 - p2^2)/(256 mu L R T)
//	turbulent  G^1.75 = (p1^2 - p2^2) d^1.25/(0.316 R T L mu^0.25),  q = G pi d^2/4
//
// the lesser counts. Source: Hagen-Poiseuille; Blasius' friction factor 0.316
// Re^-0.25 (any text on fluid mechanics, for instance White, Fluid Mechanics, pipe
// flow; from memory).
func SmoothPipe(g Gas, d, l, t, warm, p1, p2 float64) float64 {
	mu := g.Viscosity(warm)
	squares := p1*p1 - p2*p2
	laminar := math.Pi * math.Pow(d, 4) * squares / (256 * mu * l * g.R * t)
	turbulent := math.Pi / 4 * d * d * math.Pow(squares*math.Pow(d, 1.25)/(0.316*g.R*t*l*math.Pow(mu, 0.25)), 1/1.75)
	return min(laminar, turbulent)
}
