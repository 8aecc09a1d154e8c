package limits

import (
	"fmt"
	"math"

	"puffproof/pneumatics"
)

// unaskedVerdict judges the shots that nobody asked for.
func (j *judge) unaskedVerdict() {
	v := j.newVerdict("shot.unasked", "Fires unasked at a single fault", InJoule)
	v.Source, v.Basis = "own rule of this project: never while hands are at the muzzle, else only behind two independent actions and a guard", OnCircuit
	defer func() { j.add(v) }()
	if why := j.energyUnknown(); why != "" {
		v.unknown(why)
		return
	}
	var worst, loading, power *FaultResult
	n, atHands, tried, open := 0, 0, 0, ""
	for i := range j.Faults.Faults {
		f := &j.Faults.Faults[i]
		if f.Mode != NoPower && f.Effect != FiresUnasked && f.State == "any" {
			continue
		}
		tried++
		if f.Effect != FiresUnasked {
			continue
		}
		if f.Status == Unknown && open == "" {
			open = fmt.Sprintf("%s, %s, while %s: %s", f.Part, f.Mode, f.State, f.Reason)
		}
		if f.Energy <= 0 || math.IsNaN(f.Energy) {
			continue // the air that gets in does not move it out
		}
		n++
		if worst == nil || f.Judged > worst.Judged {
			worst = f
		}
		if f.State == pneumatics.Loading.String() {
			atHands++
			loading = f
		}
		if f.Mode == NoPower && (power == nil || f.Judged > power.Judged) {
			power = f
		}
	}
	j.judgeUnasked(v, worst, loading, power, n, atHands, tried)
	if open != "" && v.Status != Fail { // what is certain goes first
		v.unknown(open)
	}
}

func (j *judge) judgeUnasked(v *Verdict, worst, loading, power *FaultResult, n, atHands, tried int) {
	opener := j.opensOnLoading()
	if worst == nil && opener != "" {
		worst = &FaultResult{}
	}
	if worst == nil {
		v.judge(0, j.Limits.Total.Value)
		v.Why = fmt.Sprintf("none of %d faults of valves and power from charging, armed or loading moves the projectile", tried)
		return
	}
	v.judge(worst.Judged, j.Limits.Total.Value)
	v.Why = fmt.Sprintf("%d of %d faults from charging, armed or loading shoot; the hardest: %s while %s", n, tried, worst.Name(), worst.State)
	switch {
	case opener != "":
		v.judge(max(worst.Judged, j.Energy.Judged), 0)
		v.Why = "paths." + opener + " opens into the barrel on entering state loading, with hands at the muzzle: no fault is needed"
		v.Advice = "Take loading out of its open_in."
	case power != nil:
		v.judge(power.Judged, 0) // two actions and a guard are no help against a pulled plug
		v.Why += "; losing power while " + power.State + " fires it, which takes no action at all"
		if loading != nil {
			v.Why += ", and some while hands are at the muzzle"
		}
		v.Advice = "A firing valve that closes without power (unpowered = \"closed\"), and vents that do not lead through the barrel."
	case loading != nil:
		v.judge(worst.Judged, 0) // with hands at the muzzle no energy is small enough
		v.Why += "; " + someOf(atHands) + " while hands are at the muzzle (" + loading.Name() + ")"
		v.Advice = "Vent what feeds the barrel in state loading, or a second shut valve before it."
	case v.Status == Fail:
		v.Advice = "Less energy, or a second valve in series that opens only to fire."
	case Declared(j.Launcher.Barrel.SealGuard) == "":
		v.judge(worst.Judged, 0) // without a guard none is either
		v.Advice = "A guard that keeps faces and fingers off the muzzle (declare it as barrel.seal_guard), and two independent actions before air can reach the firing valve; or a second valve in series."
	default:
		v.Basis = OnProcedure
		v.Why += "; it holds only with two independent actions before a shot (item " + j.itemState(itemTwoActions) + ") and a guard that keeps faces and fingers off the muzzle (item " + j.itemState(itemGuard) + ")"
		v.Advice = "Confirm both items. barrel.seal_guard (" + j.Launcher.Barrel.SealGuard + ") is declared against lips and ears that seal the muzzle: whether it keeps a finger and a face off as well, the probe of " + itemGuard + " tells."
	}
}

// someOf counts in words that begin a clause.
func someOf(n int) string {
	if n == 1 {
		return "one of them"
	}
	return fmt.Sprintf("%d of them", n)
}

// itemState is an item with what the design's checklist says of it.
func (j *judge) itemState(id string) string {
	if j.confirmed(id) {
		return id + ", confirmed"
	}
	return id + ", open"
}

// opensOnLoading names a valve between a volume and the barrel that is open in
// state loading; "" where there is none.
func (j *judge) opensOnLoading() string {
	for i := range j.Launcher.Paths {
		p := &j.Launcher.Paths[i]
		valve := p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve
		toBarrel := p.To == "barrel" && p.From != "atmosphere" || p.From == "barrel" && p.To != "atmosphere"
		if valve && toBarrel && p.OpenIn.Has(pneumatics.Loading) {
			return p.Name
		}
	}
	return ""
}
