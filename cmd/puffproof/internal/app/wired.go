package app

import (
	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/selfcheck"
	"puffproof/limits"
	"puffproof/limits/setpoint"
)

// wired gives the services of the real program. Each has a file of its own,
// glue_NAME.go.
func wired() services {
	return services{
		template: designTemplate,
		read:     readDesign,
		gauge:    readGauge,
		check:    checkDesign,
		shot:     shootDesign,
		setpoint: setpoint.Find,
		size:     setpoint.FindSize,
		vent:     emptyDesign,
		faults:   limits.Faults,

		selfCheck: selfcheck.Run,

		dimensionOf: design.DimensionOf,
	}.measuring().drafting()
}
