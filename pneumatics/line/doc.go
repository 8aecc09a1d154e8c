// Package line is a hose or pipe as it is stated, the losses of its fittings and its
// friction, and what it passes steadily. How gas moves in it is in package row.
//
// SI units; pressures are absolute. Start reading at Piece.
package line
