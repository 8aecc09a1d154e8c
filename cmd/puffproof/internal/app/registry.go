package app

// newRegistry lists the commands in the order of the overview.
func newRegistry() registry {
	return registry{[]*Command{initCommand(),
		keysCommand(), checkCommand(), explainCommand(), adviseCommand(), compareCommand(), shotCommand(), setpointCommand(), sizeCommand(),
		ventCommand(), faultsCommand(), calibrateCommand(), flightCommand(), planCommand(), itemsCommand(), commissionCommand(), pageCommand(),
		dossierCommand(), cardCommand(), verifyCommand(), selfCheckCommand(),
		completionCommand(), versionCommand()}}
}
