package limits

import (
	"fmt"
	"math"

	"puffproof/pneumatics"
)

// unaskedShots are the single faults that shoot where nobody asked.
type unaskedShots struct {
	worst    *FaultResult // the hardest; nil: none shoots
	loading  *FaultResult // one with hands at the muzzle; nil: none
	power    *FaultResult // the hardest by loss of power; nil: none
	shooting int          // how many shoot
	atHands  int          // how many of them with hands at the muzzle
	tried    int          // faults from charging, armed or loading
	open     string       // of the first whose shot is unknown, what it is; "" none
}

func unaskedOf(r *FaultReport) (u unaskedShots) {
	for _, f := range r.byPart() {
		if f.Mode != NoPower && f.Effect != FiresUnasked && f.State == "any" {
			continue
		}
		u.tried++
		if f.Effect != FiresUnasked {
			continue
		}
		if f.Status == Unknown && u.open == "" {
			u.open = fmt.Sprintf("%s, %s, while %s: %s", f.Part, f.Mode, f.State, f.Reason)
		}
		if f.Energy <= 0 || math.IsNaN(f.Energy) {
			continue // the air that gets in does not move it out
		}
		u.shooting++
		if u.worst == nil || f.Judged > u.worst.Judged {
			u.worst = f
		}
		if f.State == pneumatics.Loading.String() {
			u.atHands++
			u.loading = f
		}
		if f.Mode == NoPower && (u.power == nil || f.Judged > u.power.Judged) {
			u.power = f
		}
	}
	return u
}

// shotUnasked judges the shots that nobody asked for.
func shotUnasked(a *Assessment) Verdict {
	v := newVerdict(ShotUnasked, "Fires unasked at a single fault", InJoule)
	v.Source = "own rule of this project: never while hands are at the muzzle, else only behind two independent actions and a guard"
	if why := a.energyUnknown(); why != "" {
		v.unknown(why)
		return v
	}
	u := unaskedOf(a.Faults)
	switch opener := a.Launcher.opensOnLoading(); {
	case opener != "":
		most := a.Energy.Judged
		if u.worst != nil {
			most = max(most, u.worst.Judged)
		}
		v.judge(most, 0)
		v.Why = "paths." + opener + " opens into the barrel on entering state loading, with hands at the muzzle: no fault is needed"
		v.Advice = "Take loading out of its open_in."
	case u.worst == nil:
		v.judge(0, a.Limits.Total.Value)
		v.Why = fmt.Sprintf("none of %d faults of valves and power from charging, armed or loading moves the projectile", u.tried)
	default:
		judgeUnasked(a, &v, u)
	}
	if u.open != "" && v.Status != Fail { // what is certain goes first
		v.unknown(u.open)
	}
	return v
}

// judgeUnasked judges where a fault shoots.
func judgeUnasked(a *Assessment, v *Verdict, u unaskedShots) {
	v.judge(u.worst.Judged, a.Limits.Total.Value)
	v.Why = fmt.Sprintf("%d of %d faults from charging, armed or loading shoot; the hardest: %s while %s",
		u.shooting, u.tried, u.worst.Name(), u.worst.State)
	switch {
	case u.power != nil:
		v.judge(u.power.Judged, 0) // two actions and a guard are no help against a pulled plug
		v.Why += "; losing power while " + u.power.State + " fires it, which takes no action at all"
		if u.loading != nil {
			v.Why += ", and some while hands are at the muzzle"
		}
		v.Advice = "A firing valve that closes without power (unpowered = \"closed\"), and vents that do not lead through the barrel."
	case u.loading != nil:
		v.judge(u.worst.Judged, 0) // with hands at the muzzle no energy is small enough
		v.Why += "; " + someOf(u.atHands) + " while hands are at the muzzle (" + u.loading.Name() + ")"
		v.Advice = "Vent what feeds the barrel in state loading, or a second shut valve before it."
	case v.Status == Fail:
		v.Advice = "Less energy, or a second valve in series that opens only to fire."
	case Declared(a.Launcher.Barrel.SealGuard) == "":
		v.judge(u.worst.Judged, 0) // without a guard none is either
		v.Advice = "A guard that keeps faces and fingers off the muzzle (declare it as barrel.seal_guard), and two independent actions " +
			"before air can reach the firing valve; or a second valve in series."
	default:
		v.Basis = OnProcedure
		v.Why += "; it holds only with two independent actions before a shot (item " + itemState(a, ItemTwoActions) +
			") and a guard that keeps faces and fingers off the muzzle (item " + itemState(a, ItemGuard) + ")"
		v.Advice = "Confirm both items. barrel.seal_guard (" + a.Launcher.Barrel.SealGuard + ") is declared against lips and ears that seal " +
			"the muzzle: whether it keeps a finger and a face off as well, the probe of " + ItemGuard + " tells."
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
func itemState(a *Assessment, id string) string {
	if a.Launcher.confirmed(id, a.Day) {
		return id + ", confirmed"
	}
	return id + ", open"
}

// opensOnLoading names a valve between a volume and the barrel that is open in
// state loading; "" where there is none.
func (l *Launcher) opensOnLoading() string {
	for i := range l.Paths {
		p := &l.Paths[i]
		valve := p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve
		toBarrel := p.To == "barrel" && p.From != "atmosphere" || p.From == "barrel" && p.To != "atmosphere"
		if valve && toBarrel && p.OpenIn.Has(pneumatics.Loading) {
			return p.Name
		}
	}
	return ""
}
