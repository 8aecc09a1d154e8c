package verdict

import (
	"fmt"
	"slices"
	"strings"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// bearing is what the verdicts on a kind of declared key rest on it, and the item of the
// checklist that shows whether it is true; "" none. A key that is not listed bears on all of them.
type bearing struct {
	ends     string // of the dotted key
	verdicts []string
	item     string
}

// bearings lists the keys that bear on some verdicts only. Which they are was read off the
// functions of this package; TestNoPassMovesWithADeclaredKey of the designs' reader moves each of them.
func bearings() []bearing {
	energies := []string{finding.EnergyTotal, finding.EnergyArea, finding.EnergyFault, finding.BarrelStalled, finding.SourceLimited,
		finding.ShotUnasked, finding.VentPoints, finding.VentShutdown, finding.VentPowerLoss, finding.BarrelJammed, finding.PeopleLanding}
	pressures := []string{finding.VesselRating, finding.BarrelBlocked, finding.ReliefRating, finding.HeatSoak, finding.LadderOrder}
	source := append([]string{finding.ReliefCapacity, finding.StoredEnergy, finding.MuzzleSealed, finding.MisuseOfObjects, finding.GaugeRange,
		finding.GaugeReadable, finding.ValveDifferential, finding.VentTrapped, finding.LoadingEmpty, finding.SoundAtPeak,
		finding.PeopleWheels}, energies...)
	// The energy that a tip may have is what the target of an emptying is taken from where none is stated.
	tip := append([]string{finding.VentTrapped, finding.LoadingEmpty, finding.GaugeReadable}, energies...)
	return []bearing{
		{".rated_for_gas", []string{finding.VesselMaterial}, finding.ItemLabels},
		{".material", append([]string{finding.VesselMaterial, finding.StoredEnergy}, pressures...), finding.ItemLabels},
		{".rated_pressure", append([]string{finding.StoredEnergy}, pressures...), finding.ItemLabels},
		{"projectile.tip_proof", tip, finding.ItemTip},
		{"projectile.tip", tip, finding.ItemTip},
		{"projectile.contact_diameter", energies, finding.ItemPrint},
		{"projectile.open_cell", []string{finding.EnergyFault, finding.MisuseOfObjects, finding.PeopleLanding, finding.PeopleWheels}, ""},
		{"supply.dead_head", append(source, pressures...), ""},
		{"pressure_switch.differential", []string{finding.SwitchBand}, ""},
		{"pressure_switch.adjustable", energies, finding.ItemSwitchTest},
		{".orifice_removable", []string{finding.EnergyFault}, finding.ItemBore},
		{"barrel.object_control", []string{finding.MisuseOfObjects}, ""},
		{"barrel.seal_guard", append([]string{finding.MuzzleSealed}, energies...), finding.ItemSealGuard},
		{"event.nearest_person", []string{finding.PeopleLanding, finding.SoundAtPeak}, finding.ItemLandingClear},
		{"event.muzzle_height", []string{finding.PeopleLanding, finding.PeopleWheels}, finding.ItemLandingClear},
		{"event.wheels", []string{finding.PeopleWheels}, finding.ItemLandingClear},
		{"event.ear_to_muzzle", []string{finding.SoundAtPeak, finding.PeopleLanding}, finding.ItemHearing},
		{"event.peak_level", []string{finding.SoundAtPeak}, finding.ItemHearing},
		{"supply.noise_level", []string{finding.SoundAtPeak}, ""},
		{"event.youngest", []string{finding.ProjectileChoking}, ""},
		{".wire_rating", []string{finding.ControlFuses}, finding.ItemFuses},
		{".rating", []string{finding.ControlFuses}, finding.ItemFuses},
		{".stop_pin", []string{finding.GaugeReadable, finding.MeasuredEmptying, finding.MeasuredLeak}, ""},
	}
}

// holdsIfTrue makes a verdict that passes, or holds while people keep a condition, one that
// holds only if what is declared proves true, where it rests on that.
func holdsIfTrue(l *launcher.Launcher, v *finding.Verdict) {
	if l == nil || len(l.Declared) == 0 || !v.Holds() {
		return
	}
	var keys, items []string
	for _, key := range l.Declared {
		item, bears := bearsOn(key, v.ID)
		if !bears {
			continue
		}
		keys = append(keys, key)
		if item != "" && !slices.Contains(items, item) {
			items = append(items, item)
		}
	}
	switch len(keys) {
	case 0:
	case 1:
		alsoWhile(v, finding.Words("the declared "+keys[0]+" proves true"), items)
	default:
		alsoWhile(v, finding.Say("%d declarations prove true: %s", len(keys), listed(keys)), items)
	}
}

// alsoWhile adds a condition, and the items that show it, to those that a verdict has.
func alsoWhile(v *finding.Verdict, condition finding.Text, items []string) {
	if v.Status == finding.Conditional {
		condition = v.Condition.Say("; and %s", condition)
	}
	for _, item := range v.Items {
		if !slices.Contains(items, item) {
			items = append(items, item)
		}
	}
	v.HoldsWhile(condition, items...)
}

// computed are the verdicts with figures that are computed from the launcher's tolerances. What is counted is none; how loud a shot is, is
// known to tens of decibels only, whatever they are.
func computed() []string {
	for _, b := range bearings() {
		if b.ends == "supply.dead_head" {
			return slices.DeleteFunc(slices.Clone(b.verdicts), func(id string) bool {
				return id == finding.VentTrapped || id == finding.LoadingEmpty || id == finding.SoundAtPeak
			})
		}
	}
	panic("verdict: what the supply bears on is not listed")
}

// beforeAShot are the verdicts on pressures that are there before any shot, and on ratings, gauges and vessels: they read the launcher's
// Overcharge, ReadyHigh, Gaps, VesselPressures and Parts, where a barrel that is shut off until it fires is no part of the circuit.
// TestPressuresBeforeAShotKnowNoProjectile moves what they do not read.
var beforeAShot = [...]string{finding.VesselRating, finding.ReliefRating, finding.ReliefCapacity, finding.LadderOrder, finding.HeatSoak,
	finding.GaugeRange, finding.StoredEnergy, finding.ValveDifferential}

// ofShotAlone tells that a verdict is one of those and a key says what flies, what it flies out of, or where to, and nothing of the
// pressures before. Where something leads into the barrel before it fires, or by a hose whose air rushes in behind what sticks there, it
// does.
func ofShotAlone(l *launcher.Launcher, id, key string) bool {
	table, name, _ := strings.Cut(key, ".")
	switch {
	case !slices.Contains(beforeAShot[:], id):
		return false
	case table == "barrel" && id == finding.VesselRating: // the wave of the valve is thrown back the higher the narrower the bore is
		return false
	case table == "projectile", table == "mount", table == "event":
	case table != "barrel" || !slices.Contains([]string{"bore", "travel", "dead_volume", "tube_outer_diameter", "tube_inner_diameter",
		"engagement"}, name):
		return false
	}
	for i := range l.Paths {
		p := &l.Paths[i]
		if p.From != "barrel" && p.To != "barrel" || p.From == "atmosphere" || p.To == "atmosphere" {
			continue
		}
		shut := (p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve) && p.OpenIn == pneumatics.SetOf(pneumatics.Firing)
		if !shut || p.Hose != nil || p.Way != launcher.OnlyWay {
			return false
		}
	}
	return true
}

// holdsIfNarrow makes a verdict that holds, and is computed from a tolerance which nothing of its origin gives, one that holds only if it
// is as narrow as that. A tolerance is a claim like any other: without it the worst case is no worse than the middle.
func holdsIfNarrow(l *launcher.Launcher, v *finding.Verdict) {
	if l == nil || !v.Holds() || !slices.Contains(computed(), v.ID) {
		return
	}
	var keys, items []string
	for _, n := range l.Narrow {
		item, bears := bearsOn(n.Key, v.ID)
		if !bears || slices.Contains(l.Declared, n.Key) || ofShotAlone(l, v.ID, n.Key) {
			continue
		}
		keys = append(keys, n.Key)
		if item != "" && !slices.Contains(items, item) {
			items = append(items, item)
		}
	}
	switch len(keys) {
	case 0:
	case 1:
		alsoWhile(v, finding.Words("the tolerance of "+keys[0]+" is as narrow as stated"), items)
	case 2, 3:
		alsoWhile(v, finding.Words("the tolerances of "+strings.Join(keys, ", ")+" are as narrow as stated"), items)
	default:
		alsoWhile(v, finding.Say("%d tolerances that a note lists are as narrow as stated", len(keys)), items)
	}
}

// listed names keys; of many the first ones, and how the others are found.
func listed(keys []string) string {
	const most = 16
	if len(keys) <= most {
		return strings.Join(keys, ", ")
	}
	return strings.Join(keys[:most/2], ", ") + fmt.Sprintf(", and %d more that the design says are declared", len(keys)-most/2)
}

// bearsOn tells whether a declared key bears on a verdict, and the item that shows it.
func bearsOn(key, id string) (item string, bears bool) {
	for _, b := range bearings() {
		if strings.HasSuffix(key, b.ends) {
			return b.item, slices.Contains(b.verdicts, id)
		}
	}
	return "", true
}
