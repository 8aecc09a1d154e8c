package verdict

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// A change of state that shoots is one action: no guard and no energy is small enough. What a fault does harder is shown. One
// whose shot is not known makes the verdict unknown where nothing is known to shoot; air that does not move the projectile is no
// shot.
func TestAChangeOfStateThatShoots(t *testing.T) {
	guarded := func(l *launcher.Launcher) { l.Barrel.SealGuard = "ring with slots" }
	fault := fault.Result{Part: "fire", Mode: fault.StuckOpen, State: "armed", Effect: fault.FiresUnasked, Energy: 0.4, Judged: 0.5,
		Status: finding.Pass}
	entered := func(s pneumatics.State, judged float64, unknown string) worst.Entered {
		one := worst.Entered{State: s, Valves: []string{"fire"}, Energy: judged / worst.ModelFactor, Judged: judged}
		if unknown != "" {
			one.Unknown = finding.Words(unknown)
		}
		return one
	}
	off := entered(pneumatics.Off, 0.2, "")
	for name, c := range map[string]struct {
		entered []worst.Entered
		want    finding.Status
		value   float64
		why     string
	}{
		"off":               {[]worst.Entered{off}, finding.Fail, 0.5, "switching it off is the shot, with 0.20 J: paths.fire is open"},
		"off and armed":     {[]worst.Entered{off, entered(pneumatics.Armed, 0.1, "")}, finding.Fail, 0.5, "so does arming it"},
		"harder than all":   {[]worst.Entered{entered(pneumatics.Charging, 0.9, "")}, finding.Fail, 0.9, "charging it is the shot"},
		"does not move it":  {[]worst.Entered{entered(pneumatics.Off, 0, "")}, finding.Conditional, 0.5, "1 of 1 faults"},
		"unknown":           {[]worst.Entered{entered(pneumatics.Off, 0, "no figure")}, finding.Unknown, 0, "no figure"},
		"unknown and known": {[]worst.Entered{entered(pneumatics.Armed, 0, "no figure"), off}, finding.Fail, 0.5, "switching it off"},
	} {
		a := assessed.WithFaults(sample.Plain(guarded), fault)
		a.Energy.Entered = c.entered
		v := Of(a, finding.ShotUnasked)
		require.Equal(t, c.want, v.Status, name+": "+v.Why.String())
		assert.Contains(t, v.Why.String(), c.why, name)
		if c.want != finding.Unknown {
			assert.Equal(t, c.value, *v.Value, name)
		}
		if c.want == finding.Fail {
			assert.Equal(t, 0.0, *v.Limit, name)
			assert.NotEmpty(t, v.Advice.String(), name)
		}
	}
}

// The total energy counts the hardest shot of normal operation, and energy.fault never shows less.
func TestTheTotalCountsAChangeOfStateThatShoots(t *testing.T) {
	a := assessed.WithFaults(sample.Plain(), fault.Result{Part: "relief", Mode: fault.StuckOpen, State: "any", Effect: fault.ChangesShot,
		Energy: 0.04, Judged: 0.05, Status: finding.Pass})
	a.Energy.Entered = []worst.Entered{{State: pneumatics.Off, Valves: []string{"second"}, Energy: 1.2, Judged: 1.5}}
	a.Energy.Model, a.Energy.Limit, a.Energy.Factor = 0.01, 1, worst.ModelFactor
	a.Energy.CountEntered(&a.Launcher.Projectile)
	total := Of(a, finding.EnergyTotal)
	assert.Equal(t, finding.Fail, total.Status)
	assert.Equal(t, 1.5, *total.Value)
	assert.Contains(t, total.Why.String(), "switching it off shoots harder than firing, without any fault: paths.second is open")
	one := Of(a, finding.EnergyFault)
	assert.Equal(t, finding.Fail, one.Status)
	assert.Equal(t, 1.5, *one.Value)
}

func TestShotUnasked(t *testing.T) {
	shoots := func(state pneumatics.State, judged float64) fault.Result {
		return fault.Result{Part: "fire", Mode: fault.StuckOpen, State: state.String(), Effect: fault.FiresUnasked,
			Energy: judged / worst.ModelFactor, Judged: judged, Status: finding.Pass}
	}
	lost := shoots(pneumatics.Armed, 0.1)
	lost.Part, lost.Mode = "power", fault.NoPower
	open := shoots(pneumatics.Charging, math.NaN())
	open.Status, open.Reason = finding.Unknown, finding.Words("no figure")
	loadsOpen := func(l *launcher.Launcher) { l.Paths[0].OpenIn |= pneumatics.SetOf(pneumatics.Loading) }
	guarded := func(l *launcher.Launcher) { l.Barrel.SealGuard = "ring with slots" }
	toBeMade := func(l *launcher.Launcher) { l.Barrel.SealGuard = "to be made" }
	for _, c := range []struct {
		name   string
		change func(*launcher.Launcher)
		faults []fault.Result
		want   finding.Status
		value  float64
		why    string
	}{
		{"none", guarded, nil, finding.Pass, 0, "none of 0 faults"},
		{"air that does not move it", guarded, []fault.Result{shoots(pneumatics.Loading, 0)}, finding.Pass, 0, "none of 1 faults"},
		{"at the limit, with a guard", guarded, []fault.Result{shoots(pneumatics.Armed, 1)}, finding.Conditional, 1,
			finding.ItemTwoActions + ", open"},
		{"the harder of two", guarded, []fault.Result{shoots(pneumatics.Armed, 0.1), shoots(pneumatics.Charging, 0.3)},
			finding.Conditional, 0.3, "2 of 2"},
		{"above it, with a guard", guarded, []fault.Result{shoots(pneumatics.Armed, above(1))}, finding.Fail, above(1), "1 of 1"},
		{"without a guard", func(*launcher.Launcher) {}, []fault.Result{shoots(pneumatics.Armed, 0.1)}, finding.Fail, 0.1,
			"the hardest: fire stuck open while armed"},
		{"with a guard to be made", toBeMade, []fault.Result{shoots(pneumatics.Armed, 0.1)}, finding.Fail, 0.1, "1 of 1"},
		{"with hands at the muzzle", guarded, []fault.Result{shoots(pneumatics.Armed, 0.3), shoots(pneumatics.Loading, 0.1)}, finding.Fail, 0.3,
			"one of them while hands are at the muzzle"},
		{"by loss of power", guarded, []fault.Result{shoots(pneumatics.Armed, 0.3), lost}, finding.Fail, 0.1, "losing power while armed"},
		{"one unknown", guarded, []fault.Result{shoots(pneumatics.Armed, 0.3), open}, finding.Unknown, 0, "no figure"},
		{"one unknown, none known to shoot", guarded, []fault.Result{open}, finding.Unknown, 0, "no figure"},
		{"one unknown, another above", guarded, []fault.Result{open, shoots(pneumatics.Armed, above(1))}, finding.Fail, above(1),
			"1 of 2 faults"},
		{"opens on loading", loadsOpen, nil, finding.Fail, 0.01, "no fault is needed"},
		{"opens on loading, and a fault shoots harder", loadsOpen, []fault.Result{shoots(pneumatics.Armed, 0.3)}, finding.Fail, 0.3,
			"no fault is needed"},
	} {
		t.Run(c.name, func(t *testing.T) {
			v := Of(assessed.WithFaults(sample.Plain(c.change), c.faults...), finding.ShotUnasked)
			require.Equal(t, c.want, v.Status, v.Why.String())
			assert.Contains(t, v.Why.String(), c.why)
			if c.want != finding.Unknown {
				assert.Equal(t, c.value, *v.Value)
			}
			if c.want == finding.Conditional {
				assert.Equal(t, finding.OnProcedure, v.Basis)
				assert.Equal(t, []string{finding.ItemTwoActions, finding.ItemGuard}, v.Items)
				assert.Contains(t, v.Condition.String(), "two independent actions")
			} else {
				assert.Empty(t, v.Condition)
				assert.Empty(t, v.Items)
			}
		})
	}
}

// A single contact that fires is told by its name, whatever shoots harder. Where it is one that a hand moves, one action fires too: no
// condition of two holds. Where one fires that fails by itself, it takes no action at all, and none holds either: no test comes between a
// relay that welds as it fires and the next charge. A load wired around the stop is a slip of whoever wires, which pressing the stop
// shows. What a contact does whose way is not stated is unknown, and no pass.
func TestAContactThatFiresIsTold(t *testing.T) {
	l := cut()
	l.Barrel.SealGuard = "ring with slots"
	shot := func(part string, mode fault.Mode, judged float64) fault.Result {
		return fault.Result{Part: part, Mode: mode, State: "armed", Effect: fault.FiresUnasked, Energy: judged, Judged: judged,
			Status: finding.Pass, Wiring: strings.HasPrefix(part, "control.")}
	}
	valve, remote := shot("fire", fault.StuckOpen, 0.3), shot("control.remote", fault.StuckOn, 0.2)
	v := Of(assessed.WithFaults(l, valve, remote, remote), finding.ShotUnasked)
	assert.Equal(t, finding.Fail, v.Status)
	assert.Contains(t, v.Why.String(), "by [control] one thing wrong in the wiring is enough: remote stuck on; so one action fires it")
	assert.Contains(t, v.Advice.String(), "two contacts in series before the firing valve")
	for _, mode := range []fault.Mode{fault.ContactWelded, fault.StuckIn, fault.AtPlus, fault.ContactDead, fault.NoCurrent, fault.FuseBlown} {
		v = Of(assessed.WithFaults(l, valve, shot("control.k1", mode, 0.2)), finding.ShotUnasked)
		assert.Equal(t, finding.Fail, v.Status, mode)
		assert.Equal(t, 0.0, *v.Limit, mode)
		assert.Contains(t, v.Why.String(), "it fires without any action as soon as that fails: k1 "+string(mode), mode)
		assert.Contains(t, v.Advice.String(), "a contact of another part in series", mode)
	}
	v = Of(assessed.WithFaults(l, valve, shot("control.k1", fault.PastStop, 0.2)), finding.ShotUnasked)
	assert.Equal(t, finding.Conditional, v.Status)
	assert.Subset(t, v.Items, []string{finding.ItemTwoActions, finding.ItemGuard, finding.ItemKeyAndStop})
	assert.Contains(t, v.Condition.String(), "the stop, pressed, shows that nothing is wired around it")
	v = Of(assessed.WithFaults(l, valve), finding.ShotUnasked)
	assert.NotContains(t, v.Why.String()+v.Advice.String(), "wiring")

	l.Control.Parts[3].Missing = []string{"through"}
	v = Of(assessed.WithFaults(l), finding.ShotUnasked)
	assert.Equal(t, finding.Unknown, v.Status, "no fault of the wiring was looked at")
	assert.Contains(t, v.Why.String(), "control.k1.through")
}

// Whatever part opens a way from a charged volume into the barrel can shoot, not
// only the valve that is meant to. The dose is vented while loading here; the way
// past it from the charged tank is what counts.
func TestAnyWayIntoTheBarrelCanShoot(t *testing.T) {
	for kind, ids := range map[pneumatics.PathKind][]string{
		pneumatics.Valve:     {"extra.stuck-open.loading", "extra.leaking.armed", "extra.energised-unasked.loading"},
		pneumatics.HandValve: {"extra.stuck-open.loading"},
	} {
		l := sample.Dumped()
		l.Paths = append(l.Paths, launcher.PathSpec{Name: "extra", From: "tank", To: "barrel", Kind: kind, Flow: sample.Orifice(3e-3, 0.75)})
		r := assessed.Faults(t, l, "", func(id string) bool { return slices.Contains(ids, id) })
		require.Len(t, r, len(ids))
		for _, f := range r {
			assert.Equal(t, fault.FiresUnasked, f.Effect, f.ID)
			assert.Positive(t, f.Energy, f.ID)
		}
		v := Of(assessed.WithFaults(l, r...), finding.ShotUnasked)
		assert.Equal(t, finding.Fail, v.Status, kind.String())
		assert.Contains(t, v.Why.String(), "hands are at the muzzle", kind.String())
	}
}

// A quick exhaust into the barrel shoots without any fault where its inlet has a way out in
// a state that is not firing, and not where only firing opens one.
func TestAShuttleThatLetsGo(t *testing.T) {
	for _, c := range []struct {
		states pneumatics.StateSet
		says   string
	}{
		{pneumatics.SetOf(pneumatics.Firing), ""},
		{pneumatics.SetOf(pneumatics.Firing, pneumatics.Loading), "while loading"},
		{pneumatics.SetOf(pneumatics.Firing, pneumatics.Armed), "while armed"},
	} {
		l := sample.VentedTank()
		sample.MakeQuickExhaust(l, "tank", "barrel")
		l.Paths = append(l.Paths, launcher.PathSpec{Name: "trigger", From: "line", To: "atmosphere", Kind: pneumatics.Valve,
			Flow: sample.Orifice(3e-3, 0.7), OpenIn: c.states})
		why := shuttleLetsGo(l).String()
		if c.says == "" {
			assert.Empty(t, why)
			continue
		}
		assert.Contains(t, why, "the inlet of paths.quick, line, has an open way out "+c.says)
	}
}

// What holds a condition says whether it is in force on the day.
func TestAnExpiredItemHoldsNothing(t *testing.T) {
	l := &launcher.Launcher{Checklist: []finding.Confirmation{{Item: finding.ItemGuard, Who: "A. N.", Date: "2026-05-01",
		Value: "probe of 900 mm does not reach the bore", Figures: []finding.Figure{{Value: 0.9, Unit: finding.InMetre}}}}}
	for day, want := range map[string]string{"2026-06-01": finding.ItemGuard + ", confirmed",
		"2027-06-01": finding.ItemGuard + ", open: its answer of 2026-05-01 held until 2027-05-01"} {
		assert.Equal(t, want, itemState(&assessment.Assessment{Computed: assessed.All, Launcher: l, Day: day}, finding.ItemGuard).String())
	}
	none := itemState(&assessment.Assessment{Launcher: l, Day: "2026-06-01"}, finding.ItemTwoActions)
	assert.Equal(t, finding.ItemTwoActions+", open", none.String())
}

// A valve of any kind that is open while loading leads air to the hands at the muzzle, from
// whichever side it is written; one that leads outdoors does not.
func TestAValveThatOpensOnLoading(t *testing.T) {
	loading := pneumatics.SetOf(pneumatics.Loading)
	for _, c := range []struct {
		kind     pneumatics.PathKind
		from, to string
		states   pneumatics.StateSet
		opens    bool
	}{
		{pneumatics.Valve, "tank", "barrel", loading, true},
		{pneumatics.HandValve, "tank", "barrel", loading, true},
		{pneumatics.HandValve, "barrel", "tank", loading, true},
		{pneumatics.HandValve, "barrel", "atmosphere", loading, false},
		{pneumatics.Valve, "tank", "barrel", pneumatics.SetOf(pneumatics.Firing), false},
	} {
		l := sample.Plain()
		l.Paths = append(l.Paths, launcher.PathSpec{Name: "extra", From: c.from, To: c.to, Kind: c.kind, OpenIn: c.states})
		assert.Equal(t, c.opens, opensOnLoading(l) == "extra", c)
	}
}

// A projectile that is wet, or that ice holds, is so already when a part fails: where it is too hard by the two together, or by itself, the
// shot that nobody asks for rests on its item too. Where nothing shoots, or another thing fails, that is all there is to say.
func TestAnUnaskedShotOfAWetOrFrozenOne(t *testing.T) {
	guarded := func(l *launcher.Launcher) { l.Barrel.SealGuard = "ring with slots" }
	fires := fault.Result{Part: "fire", Mode: fault.StuckOpen, State: "armed", Effect: fault.FiresUnasked, Energy: 0.4, Judged: 0.5,
		Status: finding.Pass}
	kept := func(mode fault.Mode, by string, judged float64) fault.Result {
		return fault.Result{Part: "projectile", Mode: mode, State: "any", Effect: fault.ChangesShot, Energy: judged / 1.25, Judged: judged,
			Status: finding.OpenItem, HeldBy: by}
	}
	joint := func(by string, judged float64, status finding.Status) fault.Result {
		r := fires
		r.Judged, r.HeldBy, r.Status, r.Reason = judged, by, status, finding.Words("no figure")
		return r
	}
	for name, c := range map[string]struct {
		faults, unasked []fault.Result
		want            finding.Status
		items           []string
		why             string
	}{
		"dry": {[]fault.Result{fires}, nil, finding.Conditional, []string{finding.ItemTwoActions, finding.ItemGuard}, ""},
		"both within": {[]fault.Result{fires}, []fault.Result{joint("", 0.9, finding.Pass)}, finding.Conditional,
			[]string{finding.ItemTwoActions, finding.ItemGuard}, ""},
		"soaked alone": {[]fault.Result{fires, kept(fault.Soaked, finding.ItemWeighed, 3)}, nil, finding.Conditional,
			[]string{finding.ItemWeighed}, "whatever fires it"},
		"soaked together": {[]fault.Result{fires}, []fault.Result{joint(finding.ItemWeighed, 1.2, finding.OpenItem)}, finding.Conditional,
			[]string{finding.ItemWeighed}, "1.20 J by fire stuck open while armed"},
		"frozen together": {[]fault.Result{fires}, []fault.Result{joint(finding.ItemNotFrozen, 1.2, finding.Pass)}, finding.Conditional,
			[]string{finding.ItemNotFrozen}, "then let go has up to"},
		"unknown":        {[]fault.Result{fires}, []fault.Result{joint("", math.NaN(), finding.Unknown)}, finding.Unknown, nil, "no figure"},
		"nothing shoots": {[]fault.Result{kept(fault.Soaked, finding.ItemWeighed, 3)}, nil, finding.Pass, nil, ""},
	} {
		a := assessed.WithFaults(sample.Plain(guarded), c.faults...)
		a.Faults.Unasked = c.unasked
		v := Of(a, finding.ShotUnasked)
		require.Equal(t, c.want, v.Status, "%s: %s", name, v.Why)
		assert.Subset(t, v.Items, c.items, name)
		assert.Contains(t, v.Why.String(), c.why, name)
		if len(c.items) == 1 {
			assert.Subset(t, v.Items, []string{finding.ItemTwoActions, finding.ItemGuard}, "%s: what held it before holds it still", name)
		} else {
			assert.NotContains(t, v.Items, finding.ItemWeighed, name)
		}
	}
}
