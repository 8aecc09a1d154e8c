package limits

// ShotUnasked is the verdict on shots that nobody asked for.
const ShotUnasked = "shot.unasked"

// The identifiers of items on single faults, and of what only people keep away.
const (
	ItemReliefShutOff = "relief.no-shut-off"
	ItemBarrelEmpty   = "barrel.no-pressure"
	ItemLoadingWait   = "loading.wait"
	ItemEndCaps       = "end-caps"
	ItemHoseRestraint = "hose.restraint"
	ItemLandingClear  = "landing.clear"
	ItemKeyAndStop    = "control.key-and-stop"
	ItemElevation     = "mount.elevation"
	ItemFuses         = "electric.fuses"
	ItemVentOutlets   = "vent.outlets"
	ItemLookIn        = "muzzle.look-in"
	ItemTugAndBite    = "projectile.tug-and-bite"
	ItemColdDrain     = "cold.drain"
	ItemAgeRetire     = "age.retire"
	ItemClearAllRound = "clear.round"
)
