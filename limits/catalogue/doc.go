// Package catalogue lists every band of a launcher once, with how a shot depends on it:
// which go into the circuit or into the pressures before a shot, which count at one end
// anyway, and which no shot reads, with the reason. There is no other list of bands.
//
// A quantity can be moved over its ends and put back; what moves along with it does too.
// SI throughout. Start reading at Of, then at Coordinates.
package catalogue
