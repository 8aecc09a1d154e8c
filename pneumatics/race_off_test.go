//go:build !race

package pneumatics

const raceChecks = "" // rapid's own number of random circuits
