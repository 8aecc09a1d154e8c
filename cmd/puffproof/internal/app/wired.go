package app

// wired gives the services of the real program. Each has a file of its own,
// glue_NAME.go.
func wired() services {
	return services{
		template: designTemplate,
		read:     readDesign,
		gauge:    readGauge,
		check:    checkDesign,
	}
}
