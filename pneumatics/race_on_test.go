//go:build race

package pneumatics

// raceChecks is how many random circuits a property tries under the race
// detector, which is some fifteen times slower.
const raceChecks = "10"
