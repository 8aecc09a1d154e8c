package app

import (
	"context"

	"puffproof/cmd/puffproof/internal/render"
	"puffproof/cmd/puffproof/internal/unit"
)

// planCommand makes a test plan.
func planCommand() *Command {
	return &Command{
		Name:     "plan",
		Summary:  "a test plan: pressures, shots, readings to expect, stop rules",
		Operands: "DESIGN",
		Min:      1, Max: 1,
		Files: true,
		Help: []string{
			"Makes a plan from the design for measuring the launcher: at which pressures, how many shots for a bound below the limit, " +
				"what each instrument should show, which bench tests narrow the model, what ends the session and who stands where.",
			"A bound measured at one pressure counts up to 1.25 times that gauge pressure, so the last pressure of the plan is chosen to reach the " +
				"highest one the launcher can start from.",
			"Exit status 1 means that there is no plan: the highest pressure is not known, or the build is too strong to be shot at all.",
		},
		Examples: []Example{
			{"puffproof plan whale.toml", "the plan, to print"},
			{"puffproof plan whale.toml --units us", "in psi and ft/s"},
		},
		Run: runPlan,
	}
}

func runPlan(ctx context.Context, call *Call) (status, error) {
	l, id, err := call.readDesign()
	if err != nil {
		return statusInput, err
	}
	plan, err := call.services.plan(ctx, l)
	if err != nil {
		return statusWithheld, err
	}
	doc, err := render.PlanJSON(id, plan)
	if err != nil {
		return statusWithheld, err
	}
	if call.json {
		err = call.writeJSON(doc)
	} else {
		unit.Sentences(plan, call.style.Units)
		screen := render.PlanScreen{Style: call.style, Design: id, Plan: plan}
		if call.quiet {
			screen.Detail = render.FindingOnly
		}
		err = screen.Write(call.Out)
	}
	if err != nil {
		return statusWithheld, err
	}
	if plan.Refused != "" || len(plan.Pressures) == 0 {
		return statusNotHeld, nil
	}
	return statusOK, nil
}
