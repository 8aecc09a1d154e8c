package verdict

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/assessment"
	"puffproof/limits/control"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// step is a contact, or several side by side.
func step(contacts ...control.Contact) control.Step { return contacts }

func contact(part string, no int) control.Contact { return control.Contact{Part: part, No: no} }

// cut is a launcher whose one load hangs on two relays that hold themselves, each behind a contact of the stop; invented.
func cut() *launcher.Launcher {
	l := sample.VentedTank()
	on := pneumatics.SetOf(pneumatics.Charging)
	relay := func(name string, no int) control.Part {
		return control.Part{Name: name, Kind: control.Relay, Through: []control.Step{step(contact("f", 1)), step(contact("stop", no)),
			step(contact("start", no), contact(name, 1))}}
	}
	l.Control = &control.Wiring{Parts: []control.Part{{Name: "f", Kind: control.Fuse, Rating: 3, Wire: 3}, {Name: "stop", Kind: control.Stop},
		{Name: "start", Kind: control.StartButton, ClosedIn: on}, relay("k1", 1), relay("k2", 2),
		{Name: "all", Kind: control.Load, Moves: []string{"fire", "vent", control.Supply},
			Through: []control.Step{step(contact("f", 1)), step(contact("k1", 2)), step(contact("k2", 2))}}}}
	return l
}

// openCircuit makes the two relays ones that the pressed stop pulls in, which then open the way of the load: what gives them no
// current takes the stop away.
func openCircuit(no int, fuse1, fuse2 string) func(l *launcher.Launcher) {
	return func(l *launcher.Launcher) {
		w := l.Control
		w.Parts[2].Kind = control.KeySwitch
		pulled := func(no int) control.Contact { return control.Contact{Part: "stop", No: no, Not: true} }
		opens := func(relay string) control.Contact { return control.Contact{Part: relay, No: 2, Not: true} }
		w.Parts[3].Through = []control.Step{step(contact(fuse1, 1)), step(pulled(1))}
		w.Parts[4].Through = []control.Step{step(contact(fuse2, 1)), step(pulled(no))}
		w.Parts[5].Through = []control.Step{step(contact("f3", 1)), step(contact("start", 1)), step(opens("k1")), step(opens("k2"))}
		for _, name := range []string{"f2", "f3"} {
			w.Parts = append(w.Parts, control.Part{Name: name, Kind: control.Fuse, Rating: 3, Wire: 3})
		}
	}
}

// A timer in series with one pedal: whoever steps on it fires alone, for nobody moves a timer. A second pedal in its place, or
// beside it, is a second action. By construction.
func TestATimerIsNoSecondAction(t *testing.T) {
	shot := fault.Result{Part: "fire", Mode: fault.StuckOpen, State: "armed", Effect: fault.FiresUnasked, Energy: 0.1, Judged: 0.125,
		Status: finding.Pass}
	for name, c := range map[string]struct {
		beside []control.Kind
		want   finding.Status
	}{
		"a timer":              {[]control.Kind{control.Timer}, finding.Fail},
		"a button":             {[]control.Kind{control.Button}, finding.Conditional},
		"a button and a timer": {[]control.Kind{control.Button, control.Timer}, finding.Conditional},
	} {
		l := cut()
		l.Barrel.SealGuard = "ring with slots"
		load := &l.Control.Parts[5]
		load.Moves = []string{"fire"}
		firing := pneumatics.SetOf(pneumatics.Firing)
		load.Through = append(load.Through, step(contact("pedal", 1)))
		parts := []control.Part{{Name: "pedal", Kind: control.Button, ClosedIn: firing}}
		for i, kind := range c.beside {
			name := string(rune('a' + i))
			load.Through = append(load.Through, step(contact(name, 1)))
			parts = append(parts, control.Part{Name: name, Kind: kind, ClosedIn: firing})
		}
		l.Control.Parts = append(l.Control.Parts, parts...)
		v := Of(assessed.WithFaults(l, shot), finding.ShotUnasked)
		assert.Equal(t, c.want, v.Status, name+": "+v.Why.String())
		if c.want == finding.Fail {
			assert.Contains(t, v.Why.String(), "a timer is in series with pedal before the firing valve", name)
			assert.Equal(t, 0.0, *v.Limit, name)
		}
	}
}

// By hand, on each side of the limits of the three verdicts.
func TestVerdictsOfTheWiring(t *testing.T) {
	load := func(l *launcher.Launcher) *control.Part { return &l.Control.Parts[5] }
	for name, c := range map[string]struct {
		change               func(l *launcher.Launcher)
		stop, restart, fuses finding.Status
		stays                float64
	}{
		"as it should be": {func(*launcher.Launcher) {}, finding.Pass, finding.Pass, finding.Pass, 0},
		"one relay only": {func(l *launcher.Launcher) { load(l).Through = load(l).Through[:2] },
			finding.Fail, finding.Pass, finding.Pass, 1},
		"one contact of the stop for both": {func(l *launcher.Launcher) { l.Control.Parts[4].Through[1] = step(contact("stop", 1)) },
			finding.Fail, finding.Pass, finding.Pass, 1},
		"nothing holds itself": {func(l *launcher.Launcher) {
			l.Control.Parts[2].Kind = control.KeySwitch
		}, finding.Pass, finding.Fail, finding.Pass, 0},
		"a stop that is none": {func(l *launcher.Launcher) {
			l.Control.Parts[1].Kind, l.Control.Parts[1].ClosedIn = control.Switch, pneumatics.SetOf(pneumatics.Charging)
		}, finding.Fail, finding.Pass, finding.Pass, 1},
		"relays that the stop pulls in, all by one contact of it": {openCircuit(1, "f", "f"), finding.Fail, finding.Fail, finding.Pass, 1},
		"relays that the stop pulls in, all behind one fuse":      {openCircuit(2, "f", "f"), finding.Fail, finding.Fail, finding.Pass, 1},
		"relays that the stop pulls in, each by its own":          {openCircuit(2, "f", "f2"), finding.Pass, finding.Fail, finding.Pass, 0},
		"a wire that two loads hang on": {func(l *launcher.Launcher) {
			other := *load(l)
			other.Name, other.Moves, load(l).Moves = "pump", []string{control.Supply}, []string{"fire", "vent"}
			l.Control.Parts = append(l.Control.Parts, other)
		}, finding.Conditional, finding.Pass, finding.Pass, 0},
		"a wire of the start button that both relays hang on": {func(l *launcher.Launcher) {
			l.Control.Parts[4].Through[2] = step(contact("start", 1), contact("k2", 1))
		}, finding.Conditional, finding.Pass, finding.Pass, 0},
		"a fuse above the wire": {func(l *launcher.Launcher) { l.Control.Parts[0].Wire = 2.99 }, finding.Pass, finding.Pass, finding.Fail, 0},
		"no fuse": {func(l *launcher.Launcher) { load(l).Through = load(l).Through[1:] }, finding.Pass, finding.Pass, finding.Fail,
			0},
		"a fuse above every wire": {func(l *launcher.Launcher) { l.Control.Parts[0].Rating, l.Control.Parts[0].Wire = 63.01, 0 },
			finding.Pass, finding.Pass, finding.Fail, 0},
		"a wire nobody knows": {func(l *launcher.Launcher) { l.Control.Parts[0].Rating, l.Control.Parts[0].Wire = 63, 0 },
			finding.Pass, finding.Pass, finding.Unknown, 0},
		"a fuse nobody read": {func(l *launcher.Launcher) { l.Control.Parts[0].Rating = 0 },
			finding.Pass, finding.Pass, finding.Unknown, 0},
		"a key that is not known": {func(l *launcher.Launcher) { load(l).Missing = []string{"through"} },
			finding.Unknown, finding.Unknown, finding.Unknown, 0},
		"a valve that is not wired": {func(l *launcher.Launcher) { load(l).Moves = []string{"fire", control.Supply} },
			finding.Unknown, finding.Unknown, finding.Unknown, 0},
		"a valve that stays": {func(l *launcher.Launcher) { l.Paths[0].Unpowered = pneumatics.Stays },
			finding.Unknown, finding.Unknown, finding.Unknown, 0},
		"a pump that is not wired": {func(l *launcher.Launcher) { load(l).Moves = []string{"fire", "vent"} },
			finding.Unknown, finding.Unknown, finding.Unknown, 0},
	} {
		l := cut()
		c.change(l)
		a := &assessment.Assessment{Launcher: l}
		stop := Of(a, finding.ControlStop)
		assert.Equal(t, c.stop, stop.Status, "%s: %s", name, stop.Why)
		assert.Equal(t, c.restart, Of(a, finding.ControlRestart).Status, name)
		assert.Equal(t, c.fuses, Of(a, finding.ControlFuses).Status, name)
		if stop.Status != finding.Unknown {
			assert.InDelta(t, c.stays, *stop.Value, 0, name)
		}
	}
}

// What is not known of a wiring is told with the way to find it, in every verdict that it leaves unknown.
func TestAnUnknownWiringSaysWhatToState(t *testing.T) {
	for name, c := range map[string]struct {
		change func(l *launcher.Launcher)
		id     string
		says   string
	}{
		"a way": {func(l *launcher.Launcher) { l.Control.Parts[5].Missing = []string{"through"} }, finding.ControlStop,
			"follow the wire back"},
		"states": {func(l *launcher.Launcher) { l.Control.Parts[2].Missing = []string{"closed_in"} }, finding.ControlRestart,
			"closed_in: with a meter"},
		"no load": {func(l *launcher.Launcher) { l.Control.Parts[5].Moves = []string{"fire"} }, finding.ControlStop, `kind = "load"`},
		"stays":   {func(l *launcher.Launcher) { l.Paths[0].Unpowered = pneumatics.Stays }, finding.ControlFuses, "springs back"},
		"fuse":    {func(l *launcher.Launcher) { l.Control.Parts[0].Wire = 0 }, finding.ControlFuses, "what is printed on the fuse"},
		"fires or not": {func(l *launcher.Launcher) { l.Control.Parts[5].Missing = []string{"through"} }, finding.ShotUnasked,
			"follow the wire back"},
	} {
		l := cut()
		l.Barrel.SealGuard = "ring with slots"
		c.change(l)
		v := Of(assessed.WithFaults(l), c.id)
		assert.Equal(t, finding.Unknown, v.Status, name)
		assert.Contains(t, v.Advice.String(), c.says, name)
		assert.Contains(t, v.Advice.String(), "puffproof keys control", name)
	}
}

// Without a wiring nothing is asked; what is declared of a fuse counts only as long as it proves true.
func TestAWiringIsJudgedWhereItIsStated(t *testing.T) {
	l := cut()
	a := &assessment.Assessment{Launcher: l}
	l.Declared = []string{"control.f.wire_rating"}
	assert.Equal(t, finding.Conditional, Of(a, finding.ControlFuses).Status)
	assert.Equal(t, finding.Pass, Of(a, finding.ControlStop).Status)
	l.Control = nil
	for _, id := range []string{finding.ControlStop, finding.ControlRestart, finding.ControlFuses} {
		assert.Empty(t, Of(a, id).ID)
	}
}
