// Package launcher holds a design in SI units with its tolerances, and what follows from
// it without a search: the circuit at a point of the tolerances, the pressures that a
// shot may start from, the pressure at which an overcharge ends, ratings, the ladder of
// pressures, and dates.
//
// Pressures are gauge [Pa] unless they are said to be absolute. No shot is computed here,
// and nothing is judged. Start at Launcher; StartPressures and Overcharge are the two
// questions that most others rest on. Where a supply comes to rest against an open bleed shots are
// expected from there, and judged from the dead head: Working says why.
package launcher
