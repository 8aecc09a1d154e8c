// Package setpoint answers the builder's first question: at what pressure may the
// switch cut out?
//
// It solves the ladder from the top: the highest pressure that may be reached with the
// switch welded shut (energy, ratings, a plugged barrel), the relief valve's set
// pressure, the cut-out, the cut-in. Then it judges these settings as check does, in
// every verdict that hangs on them, and lowers them until all hold. Beside the
// answer it tells what each tolerance costs, what each basis of the energy would allow,
// which change of the design would help, what the supply can do, which parts serve and
// how to set the switch. FindSize plans before there is a design.
//
// Pressures are gauge values [Pa], everything else is SI. Not here: the verdicts
// themselves (package verdict), the search for the worst shot (worst, search) and what
// shots were measured (measure). Start reading at Find; chain.go is the ladder,
// envelope.go the highest start pressure that holds, lower.go what check asks for.
package setpoint
