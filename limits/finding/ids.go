package finding

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

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
	BarrelJammed      = "barrel.jammed"
	HeatSoak          = "heat.soak"
	SwitchBand        = "switch.band"
	StoredEnergy      = "stored.energy"
	SourceLimited     = "source.limited"
	MisuseOfObjects   = "misuse.objects"
	MuzzleSealed      = "muzzle.sealed"
	ProjectileChoking = "projectile.choking"
	ValveDifferential = "valve.differential"
	ShotUnasked       = "shot.unasked"
	VentShutdown      = "vent.shutdown"
	VentPowerLoss     = "vent.power-loss"
	VentPoints        = "vent.points"
	VentTrapped       = "vent.trapped"
	GaugeReadable     = "gauge.readable"
	GaugeRange        = "gauge.range"
	LoadingEmpty      = "loading.empty"
	DatesPast         = "dates.past"
	ControlStop       = "control.stop" // these three only where the wiring is stated
	ControlRestart    = "control.restart"
	ControlFuses      = "control.fuses"
	DesignTemplate    = "design.template" // only where a figure is still the template's
	PeopleLanding     = "people.landing"
	PeopleWheels      = "people.wheels"
	SoundAtPeak       = "sound.peak"
	MeasuredEmptying  = "vent.measured" // only where a log was read
	MeasuredLeak      = "leak.measured" // likewise
)

// The identifiers of items of the checklist, of which designs write answers.
const (
	ItemShots         = "confirm.shots"
	ItemTip           = "tip.press-test"
	ItemTipRadius     = "tip.radius"
	ItemLabels        = "label.ratings"
	ItemPrint         = "contact.print"
	ItemOneProjectile = "one-projectile"
	ControlItem       = "object-control." // and the number of the control
	ItemOneBarrel     = "barrel.one"
	ItemSealGuard     = "seal-guard"
	ItemMuzzleAdmits  = "muzzle-admits"
	ItemSeatStop      = "seat-stop"
	ItemReliefShutOff = "relief.no-shut-off"
	ItemBarrelEmpty   = "barrel.no-pressure"
	ItemLoadingWait   = "loading.wait"
	ItemEndCaps       = "end-caps"
	ItemHoseRestraint = "hose.restraint"
	ItemLandingClear  = "landing.clear"
	ItemHearing       = "sound.hearing"
	ItemKeyAndStop    = "control.key-and-stop"
	ItemElevation     = "mount.elevation"
	ItemFuses         = "electric.fuses"
	ItemContacts      = "electric.contacts"
	ItemVentOutlets   = "vent.outlets"
	ItemLookIn        = "muzzle.look-in"
	ItemTugAndBite    = "projectile.tug-and-bite"
	ItemWeighed       = "projectile.weighed"    // only where foam may soak water, and would shoot harder than it may
	ItemNotFrozen     = "projectile.not-frozen" // only where water may freeze, and one that lets go late would shoot harder than it may
	ItemColdDrain     = "cold.drain"
	ItemAgeRetire     = "age.retire"
	ItemClearAllRound = "clear.round"
	ItemVentTest      = "vent.test"
	ItemVentByHand    = "vent.by-hand"
	ItemStaysEmpty    = "vent.stays-empty"
	ItemLeakDown      = "leak-down"
	ItemOpenTag       = "open.tag"
	ItemSupplyOff     = "supply.off"
	ItemGaugeCompare  = "gauge.compare"
	AheadItem         = "date-ahead." // and the key: a date that is still to come
	ItemReliefTest    = "relief.test"
	ItemBore          = "restrictor.gauge"
	ItemPassage       = "valve.passage" // these three only where the stated figure is doubted
	ItemDeadVolume    = "dead-volume.water"
	ItemOpeningTime   = "valve.opening-time"
	ItemExhaust       = "exhaust.open"
	ItemSwitchTest    = "switch.test"
	ItemPumpMark      = "pump.mark"
	ItemTimerEmpty    = "timer.from-empty"
	ItemPrefill       = "prefill.gauge"
	ItemJamDrill      = "drill.jam"
	ItemTwoActions    = "unasked.two-actions"
	ItemGuard         = "unasked.guard"
	ItemWaterTest     = "proof.water"
	ItemDryControl    = "control.without-air"
	ItemVentLow       = "vent.low"
	ItemReliefInPlace = "relief.in-place"
	ItemFaultsTried   = "faults.tried"
	ItemShotsWeak     = "shots.weak"
	ItemShotsMiddle   = "shots.middle"
	ItemSecondLook    = "second.look"
	RecordItem        = "record.whole" // of a record that was altered: no answer closes it
)

// ObjectControlItem is the identifier of the item that the n-th control of what gets into
// the barrel has, counted from 0.
func ObjectControlItem(n int) string { return fmt.Sprintf("%s%d", ControlItem, n+1) }

// ItemIDs lists the identifiers of items that a design can have, for people to choose
// from: of each control of what gets into the barrel the first.
func ItemIDs() []string {
	return []string{ItemShots, ItemTip, ItemTipRadius, ItemLabels, ItemPrint, ItemOneProjectile, ObjectControlItem(0), ItemOneBarrel,
		ItemSealGuard,
		ItemMuzzleAdmits, ItemSeatStop, ItemReliefShutOff, ItemBarrelEmpty, ItemLoadingWait, ItemEndCaps, ItemHoseRestraint, ItemLandingClear,
		ItemHearing,
		ItemKeyAndStop, ItemElevation, ItemFuses, ItemVentOutlets, ItemLookIn, ItemTugAndBite, ItemWeighed, ItemNotFrozen, ItemColdDrain,
		ItemAgeRetire, ItemClearAllRound,
		ItemVentTest, ItemVentByHand,
		ItemStaysEmpty, ItemLeakDown, ItemOpenTag, ItemSupplyOff, ItemGaugeCompare, ItemReliefTest, ItemBore, ItemPassage,
		ItemDeadVolume, ItemOpeningTime, ItemExhaust,
		ItemSwitchTest, ItemPumpMark, ItemTimerEmpty, ItemPrefill, ItemJamDrill, ItemTwoActions, ItemGuard,
		ItemWaterTest, ItemDryControl, ItemContacts, ItemVentLow, ItemReliefInPlace, ItemFaultsTried, ItemShotsWeak, ItemShotsMiddle,
		ItemSecondLook}
}

// IsItem tells whether some design can have an item of this identifier that an answer
// closes. A date that is still to come is no such item: only another date closes it.
func IsItem(id string) bool {
	if n, ok := strings.CutPrefix(id, ControlItem); ok {
		i, err := strconv.Atoi(n)
		return err == nil && i > 0 && id == ObjectControlItem(i-1)
	}
	return slices.Contains(ItemIDs(), id)
}
