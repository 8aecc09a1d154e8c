package finding

// Millisecond is a time [s] of a valve.
func Millisecond(t float64) Shown { return Shown{Value: t, Unit: Milliseconds, Digits: 2} }
