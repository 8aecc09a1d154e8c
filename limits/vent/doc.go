// Package vent answers whether a launcher really empties: switched off and without power,
// from every state, down to the pressure that counts as empty; what that pushes out of
// the barrel; what stays while it is loaded; and what the log of a leak-down says. That of a
// real emptying is judged in package stopwatch.
//
// It computes and tells, it does not decide: verdicts and items of the checklist are made
// from its Report elsewhere. Parts fail in package fault; here each one works, at the slow
// or at the fast end of its tolerances, and relief valves never help.
//
// SI throughout. Pressures are gauge [Pa] unless they say otherwise, times [s]; a time of
// +Inf was not reached, a figure of NaN is not known or not asked.
//
// Start reading at Compute (compute.go), then at the cases (cases.go) and the run of one
// (run.go). Loading (loading.go) and its barriers (barriers.go) are about the state in
// which hands are at the muzzle; JudgeLeakDown (leak_judge.go) about readings; Sizes (size.go) about the vent that is needed.
package vent
