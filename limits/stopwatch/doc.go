// Package stopwatch judges what a builder read off a gauge while the launcher emptied: the
// effective opening of the vents that fits, and whether the log shows that they empty it as
// designed.
//
// It rests on the emptying of package vent and changes nothing of it. Pressures are gauge
// [Pa], times [s]; NaN is not fitted. Start reading at Judge, then at logFit.
package stopwatch
