package verdict

import (
	"math"

	"puffproof/limits/assessment"
	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
)

// peopleLanding judges the nearest person against the zone in which the projectile can come down. Somebody inside it is
// no pass at any distance: it holds only while something is done about it, and only where a shot keeps its energy, and
// its limits also when it comes down.
func peopleLanding(a *assessment.Assessment, v *finding.Verdict) {
	v.Source = "own rule of this project: the landing zone of the fastest shot with its bounce, over every elevation and wind"
	who, nearest, known := nearestOf(a.Launcher)
	switch {
	case !known:
		v.Unknown(finding.Say("missing: %s", finding.Key("event.nearest_person")))
		return
	case a.Flights == nil:
		v.Unknown(finding.Notes(finding.Words("the landing zone is not known"), a.NoFlight))
		return
	case v.UnknownFor(a.EnergyUnknown()):
		return
	}
	v.JudgeLower(nearest, a.Flights.ClearRadius)
	if v.Status != finding.Fail {
		v.Why = finding.Say("%s stands outside of where it can come down", who)
		atFault(a, v, nearest)
		return
	}
	v.Why = finding.Say("%s is inside the zone in which a projectile can come down", who)
	if a.Energy.Judged > a.Limits.Total.Value {
		v.Why = v.Why.Say(", and the shot has %s against a limit of "+
			"%s", finding.WorstJoule(a.Energy.Judged), finding.Joule(a.Limits.Total.Value))
		v.Mend("A weaker shot first; then people further from the muzzle.")
		return
	}
	if comesDownHard(a, v) {
		return
	}
	v.HoldsWhile(finding.Words("something is done about it: a net or a hood, or everybody stands, faces away or is covered; and adults "+
		"alone collect what has landed"), finding.ItemLandingClear)
}

// comesDownHard fails a place within the zone where what a fall from the muzzle adds brings the projectile above a limit that its
// shot keeps: energy at a distance is never a reason to pass, but it is one to fail. Where nobody states how high the muzzle is, it is
// unknown. true: it may come down so.
func comesDownHard(a *assessment.Assessment, v *finding.Verdict) bool {
	e, fall := a.Energy, worst.Fall(a.Launcher, a.Flights.Height)
	shot := e.Most()
	down := shot + fall
	why := finding.Say(", and it comes down with up to %s: %s of the shot and %s of a fall from the muzzle at %s, as without drag",
		finding.WorstJoule(down), finding.WorstJoule(shot), finding.WorstJoule(fall), finding.Metres.Of(a.Flights.Height, 2))
	limit := a.Limits.Total.Value
	if a.Limits.Tip != launcher.ResilientTip { // what is rigid and only falls is no shot: it is held to the limit of a soft one
		limit = math.Max(limit, benchmark.BenchmarkOf(benchmark.TotalResilient).Value)
	}
	switch {
	case down > limit:
		v.Why = v.Why.Say("%s, against a limit of %s", why, finding.Joule(limit))
	case e.ContactArea > 0 && a.Limits.AreaApplies(down) && down/e.ContactArea > a.Limits.Area.Value:
		v.Why = v.Why.Say("%s: more than the limit per area allows on its smallest contact print, %s across", why,
			finding.Millimetre(a.Launcher.Projectile.ContactDiameter.Low))
	default:
		return false
	}
	if a.Flights.HeightGuess {
		v.Unknown(finding.Say("missing: %s, assumed as high as it may be; so far %s", finding.Key("event.muzzle_height"), v.Why))
	}
	v.Mend("Nobody within the landing zone; or a lower muzzle, a lighter projectile, a weaker shot.")
	return true
}

// atFault lets a place outside of the landing zone that a shot at a single fault reaches hold only while something is done about it.
func atFault(a *assessment.Assessment, v *finding.Verdict, place float64) {
	if far := a.Flights.FaultRadius; far > place {
		v.Why = v.Why.Say(", but at a single fault it comes down as far as %s away", finding.Metres.Of(far, 2))
		v.HoldsWhile(finding.Words("everybody stays where they are after a shot, and adults alone collect what has landed"),
			finding.ItemLandingClear)
	}
}

// nearestOf is the nearest person that the design states, whoever it is, a rider too: a rider is nobody's crew [m].
func nearestOf(l *launcher.Launcher) (who string, nearest float64, known bool) {
	e := l.Event
	if e == nil || !e.NearestPerson.Set {
		return "", 0, false
	}
	nearest = math.Inf(1)
	near := func(name string, b launcher.Band) {
		if b.Set && b.Low < nearest {
			who, nearest = name, b.Low
		}
	}
	near("the nearest person", e.NearestPerson)
	near("who stands at the kerb", e.Kerb)
	near("the person whose ear is nearest (event.ear_to_muzzle)", e.EarToMuzzle)
	near("the person whose eye is nearest (event.eye_to_muzzle)", e.EyeToMuzzle)
	if l.Mount.RideOn && !e.EarToMuzzle.Set && !e.EyeToMuzzle.Set {
		who, nearest = "the rider, of whom no distance is stated,", 0
	}
	return who, nearest, true
}

// peopleWheels judges the wheels of the launcher's own vehicle against the same zone: children run after what has landed.
func peopleWheels(a *assessment.Assessment, v *finding.Verdict) {
	v.Source = "own rule of this project: children run after a projectile; the landing zone of the fastest shot with its bounce"
	l := a.Launcher
	switch {
	case !onVehicle(l):
		v.NotApplicable(finding.Words("no vehicle: neither its wheels nor a speed nor a rider is stated"))
		return
	case l.Event == nil || !l.Event.Wheels.Set:
		v.Unknown(finding.Say("missing: %s, from the muzzle to the vehicle's nearest wheel", finding.Key("event.wheels")))
		return
	case a.Flights == nil:
		v.Unknown(finding.Notes(finding.Words("the landing zone is not known"), a.NoFlight))
		return
	}
	v.JudgeLower(l.Event.Wheels.Low, a.Flights.ClearRadius)
	moving := worst.MovingAt(l)
	switch {
	case v.Status != finding.Fail:
		v.Why = finding.Words("no projectile comes down near its wheels")
		atFault(a, v, l.Event.Wheels.Low)
	case moving > 0:
		v.Why = finding.Say("it may fire while it moves at up to %s, and a projectile can come down at its wheels, where children run after it",
			finding.Speed(moving))
		v.Mend("Fire only while it stands, with the brake set: event.vehicle_speed and mount.moving_at of 0.")
	default:
		v.Why = finding.Words("a projectile can come down at its wheels, where children run after it")
		v.HoldsWhile(finding.Words("the vehicle stands, its brake set, from before a shot until adults have collected every projectile"),
			finding.ItemLandingClear)
	}
}

// onVehicle tells that the launcher is on something that rolls, as far as the design says.
func onVehicle(l *launcher.Launcher) bool {
	return l.Mount.RideOn || l.Mount.MovingAt.Set && !l.Mount.MovingAt.Assumed ||
		l.Event != nil && (l.Event.Wheels.Set || l.Event.VehicleSpeed.Set)
}
