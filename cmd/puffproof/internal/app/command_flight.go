package app

import (
	"context"
	"fmt"

	"puffproof/cmd/puffproof/internal/curve"
	"puffproof/cmd/puffproof/internal/export"
	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/measure"
	"puffproof/limits/verdict"
)

// flightCommand shows where the projectile goes.
func flightCommand() *Command {
	return &Command{Name: "flight", Operands: "DESIGN", Min: 1, Max: 1, Files: true, Run: runFlight,
		Summary: "where the projectile lands, and how far people stand",
		Help: []string{
			"Computes the flight with drag, nominal and at the fastest speed that the tolerances allow (with the model factor), over every " +
				"elevation that the mount allows, with the event's wind from behind and from ahead, from the moving vehicle. To the farthest " +
				"landing it adds an allowance for bouncing and rolling: the clear zone.",
			"It holds the zone against the nearest person, the kerb and the vehicle's own wheels: children run after what flew. The energy left " +
				"at a distance is information. It never makes a verdict pass: somebody may always be nearer.",
			"Exit status 1 means that one of the two verdicts of check on this, people.landing and people.wheels, fails or is unknown; where " +
				"they hold on a condition, such as that nobody stands there, the status is 0 and the condition is printed.",
		},
		Options: []Option{
			{Name: "plot", Value: "FILE.svg", Files: true, Writes: true, Help: "draw the flights"},
			{Name: "force", Help: "let --plot replace a file that exists"},
		},
		Examples: []Example{
			{"puffproof flight whale.toml", "landing, clear zone, energy at distances"},
			{"puffproof flight whale.toml --plot flight.svg", "with a drawing"},
		},
	}
}

func runFlight(ctx context.Context, call *Call) (status, error) {
	l, id, err := call.readDesign(ctx, call.Args[0])
	if err != nil {
		return 0, err
	}
	a, err := assessment.Make(ctx, l, assessment.Options{Day: call.today(), Want: assessment.FlightStage})
	if err != nil {
		return 0, err
	}
	report := a.Flights
	if report == nil {
		return statusNotHeld, call.flightUnknown(id)
	}
	held := true
	for _, name := range []string{finding.PeopleLanding, finding.PeopleWheels} {
		v := verdict.Of(a, name)
		held = held && v.Status != finding.Fail && v.Status != finding.Unknown
		if v.Status == finding.Conditional {
			report.Notes = append(report.Notes, finding.Say("%s (%s) holds only while this is kept: %s", v.Title, v.ID, v.Condition))
		} else if v.Status != finding.NotApplicable {
			report.Notes = append(report.Notes, finding.Say("%s (%s) %s: %s", v.Title, v.ID, show.Word(v.Status), v.Why))
		}
	}
	doc, err := export.Flight(id, report)
	if err := call.show(doc, err, &screen.FlightScreen{Frame: call.frame(id), Report: report}); err != nil {
		return 0, err
	}
	err = call.plot(ctx, func() ([]byte, error) { return figure.LinesSVG(curve.Flight(id, report, call.style.Units)) })
	return heldStatus(held), err
}

// flightUnknown says that there is no answer yet, and what it lacks.
func (c *Call) flightUnknown(id show.DesignID) error {
	why := measure.ErrSpeedUnknown.Error()
	if c.json {
		return c.writeJSON(map[string]any{"design": id, "flight": nil, "notes": []string{why}})
	}
	fmt.Fprintln(c.Out, show.Wrap("NOT KNOWN: "+why+".", c.style.Width, "", "  "))
	return nil
}
