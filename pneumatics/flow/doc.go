// Package flow is the gas of a launcher and what restrictions pass of it: a
// calorically perfect gas, parts stated by ISO 6358, by flow coefficients or as
// ideal nozzles, hoses by a formula, and what two parts pass one after the other.
//
// It knows of no circuit and of no time. SI units; pressures are absolute.
//
// Start reading at Gas (gas.go) and Restriction (restriction.go).
package flow
