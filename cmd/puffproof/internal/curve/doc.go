// Package curve turns results into the data of their figures (package figure), in the units
// shown: a shot, a ladder of pressures, an emptying, flights, measured shots beside the model;
// and a shot into the small plots of a terminal. Start reading at Shot.
package curve
