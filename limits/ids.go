package limits

// The identifiers of verdicts are stable: reports, papers and other programs name
// verdicts by them.
const (
	EnergyTotal       = "energy.total"
	EnergyArea        = "energy.area"
	EnergyFault       = "energy.fault"
	LadderOrder       = "ladder.order"
	ReliefCapacity    = "relief.capacity"
	ReliefRating      = "relief.rating"
	VesselRating      = "vessel.rating"
	VesselMaterial    = "vessel.material"
	BarrelBlocked     = "barrel.blocked"
	BarrelStalled     = "barrel.stalled"
	HeatSoak          = "heat.soak"
	SwitchBand        = "switch.band"
	StoredEnergy      = "stored.energy"
	SourceLimited     = "source.limited"
	MisuseOfObjects   = "misuse.objects"
	MuzzleSealed      = "muzzle.sealed"
	ProjectileChoking = "projectile.choking"
	ValveDifferential = "valve.differential"
)

// The identifiers of items of the checklist, of which designs write answers.
const (
	ItemShots         = "confirm.shots"
	ItemTip           = "tip.press-test" // of TipItem
	ItemLabels        = "label.ratings"
	ItemPrint         = "contact.print"
	ItemOneProjectile = "one-projectile"
	ItemObjectControl = "object-control." // and the number of the control
	ItemSealGuard     = "seal-guard"
	ItemMuzzleAdmits  = "muzzle-admits"
	ItemSeatStop      = "seat-stop"
)
