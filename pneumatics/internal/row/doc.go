// Package row is the gas in hoses and pipes: each a row of cells with gas mass and
// internal energy as any volume has, and between neighbours a mass flow with the inertia
// of the gas between them.
//
// It knows pieces of line and nodes, no circuit: whoever uses it lays the rows (Lay),
// gives their cells and flows a place in a state vector (Place, PlaceFlows), says what
// their open ends open into (Open), and asks for rates (Flow). What lies between two
// rows, or between a row and a volume, sees an End of each (Meet) and books what it
// passes (Leave, Arrive).
//
// Start reading at Rows (rows.go), then balance.go.
package row
