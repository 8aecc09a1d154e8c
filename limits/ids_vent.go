package limits

// The identifiers of the verdicts on emptying, on loading and on dates.
const (
	VentShutdown  = "vent.shutdown"
	VentPowerLoss = "vent.power-loss"
	VentPoints    = "vent.points"
	VentTrapped   = "vent.trapped"
	GaugeReadable = "gauge.readable"
	LoadingEmpty  = "loading.empty"
	DatesPast     = "dates.past"
	// MeasuredEmptying and MeasuredLeak are there only where a log was read.
	MeasuredEmptying = "vent.measured"
	MeasuredLeak     = "leak.measured"
)

// The identifiers of items of the checklist on emptying.
const (
	ItemVentTest     = "vent.test"
	ItemStaysEmpty   = "vent.stays-empty"
	ItemLeakDown     = "leak-down"
	ItemOpenTag      = "open.tag"
	ItemGaugeCompare = "gauge.compare"
	// AheadItem begins the identifiers of the items on dates that are still to come.
	AheadItem = "date-ahead."
)
