package sound

// Opening gives the rate of change of the mass flow [kg/s2] of an outlet that passes flow [kg/s] when open, opens
// in time [s], and has a bore of radius [m]: nothing opens faster than sound crosses it.
func Opening(air Air, flow, time, radius float64) float64 {
	return flow / max(time, radius/air.Speed)
}
