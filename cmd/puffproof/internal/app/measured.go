package app

import (
	"context"
	"strings"

	"puffproof/cmd/puffproof/internal/problem"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/readings"
	"puffproof/cmd/puffproof/internal/shots"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/limits/vent"
)

// readMeasured reads the design of the command line and the shots beside it; nil where
// none were given.
func (c *Call) readMeasured(ctx context.Context) (*launcher.Launcher, show.DesignID, *measure.Findings, error) {
	l, id, err := c.readDesign(ctx, c.Args[0])
	if err != nil {
		return nil, id, nil, err
	}
	found, err := c.shotsIfGiven(ctx, l)
	return l, id, found, err
}

// shotsIfGiven draws everything from the shots file that --shots names; nil
// where it is not given.
func (c *Call) shotsIfGiven(ctx context.Context, l *launcher.Launcher) (*measure.Findings, error) {
	if !c.flags.IsSet("shots") {
		return nil, nil
	}
	name := c.flags.String("shots")
	data, err := c.readFile(ctx, name)
	if err != nil {
		return nil, err
	}
	units := c.style.Units
	if c.json {
		units = quantity.Metric
	}
	day, err := c.day()
	if err != nil {
		return nil, err
	}
	return measured(ctx, l, units, name, data, day)
}

// measured draws everything from the text of a shots file, on the day of the question. A
// reading that cannot be what it says is an error, in the units given.
func measured(ctx context.Context, l *launcher.Launcher, units quantity.System, name string, data []byte, day string) (*measure.Findings,
	error) {
	log, problems := shots.Read(name, data, l.Ambient.Pressure.Nominal, day)
	if len(problems) > 0 {
		return nil, &fileError{problems}
	}
	found, err := measure.Evaluate(ctx, l, log)
	if err != nil {
		return nil, err
	}
	for _, r := range found.Severe() {
		problems = append(problems, problem.Problem{File: name, Line: max(1, r.Line), Column: 1, Message: units.Text(r.Text),
			Want: "a reading that this launcher can have given", Hint: "look at the line and its units again; if it is right, the design is not"})
	}
	if len(problems) > 0 {
		return nil, &fileError{problems}
	}
	return found, nil
}

// logIfGiven reads the log of an emptying that a flag names; nil where it is not
// given.
func (c *Call) logIfGiven(ctx context.Context, l *launcher.Launcher, flag string) (*vent.Log, error) {
	if !c.flags.IsSet(flag) {
		return nil, nil
	}
	name := c.flags.String(flag)
	data, err := c.readFile(ctx, name)
	if err != nil {
		return nil, err
	}
	log, err := understandLog(l, name, data)
	if err != nil {
		return nil, err
	}
	said := name // the file may name it, as a filled-in sheet does
	if v := c.flags.String("volume"); v != "" {
		log.Volume, said = v, "--volume"
	}
	return &log, knownVolume(l, &log, said)
}

// knownVolume tells whether the launcher has the volume that a log is of; said is what names it.
func knownVolume(l *launcher.Launcher, log *vent.Log, said string) error {
	if log.Volume == "" {
		return nil
	}
	var known []string
	for _, v := range l.Volumes {
		if v.Name == log.Volume {
			return nil
		}
		known = append(known, v.Name)
	}
	return inputErrorf("%s: no volume is named %q; there are %s", said, log.Volume, strings.Join(known, ", "))
}

// understandLog understands the text of a log of an emptying.
func understandLog(l *launcher.Launcher, name string, data []byte) (vent.Log, error) {
	log, problems := readings.Read(name, data, l.Ambient.Pressure.Nominal)
	if len(problems) > 0 {
		return log, &fileError{problems}
	}
	return log, nil
}
