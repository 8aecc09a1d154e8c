package app

import (
	"context"

	"puffproof/cmd/puffproof/internal/export"
	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits"
)

// planCommand makes a test plan.
func planCommand() *Command {
	return &Command{Name: "plan", Operands: "DESIGN", Min: 1, Max: 1, Files: true, Run: runPlan,
		Summary: "a test plan: pressures, shots, readings to expect, stop rules",
		Help: []string{
			"Makes a plan from the design for measuring the launcher: at which pressures, how many shots for a bound below the limit, what each " +
				"instrument should show, which bench tests narrow the model, what ends the session and who stands where.",
			"A bound measured at one pressure counts up to 1.25 times that gauge pressure, so the last pressure of the plan is chosen to reach " +
				"the highest one the launcher can start from.",
			"There is a plan only for a launcher that may be filled: its vessels, its relief valve, its venting, the barrel behind a projectile " +
				"that jams, and its dates must hold, as check says. What it shoots with may be what the shots are to find out.",
			"Exit status 1 means that there is no plan: it must not be filled, the highest pressure is not known, or the build is too strong to " +
				"be shot at all.",
		},
		Options: []Option{
			sheetOption("a line a shot, the pressures in the gauge's own unit, which calibrate reads back"),
			{Name: "force", Help: "let --sheet replace a file that exists"},
		},
		Examples: []Example{
			{"puffproof plan whale.toml --sheet shots.csv", "and a sheet for the shots, to fill in"},
			{"puffproof plan whale.toml", "the plan, to print"},
			{"puffproof plan whale.toml --units us", "in psi and ft/s"},
		},
	}
}

func runPlan(ctx context.Context, call *Call) (status, error) {
	l, id, err := call.readDesign(ctx, call.Args[0])
	if err != nil {
		return 0, err
	}
	plan, err := limits.Plan(ctx, l, call.today())
	if err != nil {
		return 0, err
	}
	doc, err := export.Plan(id, plan)
	if err = call.show(doc, err, &screen.PlanScreen{Frame: call.frame(id), Plan: plan}); err != nil {
		return 0, err
	}
	err = call.blankSheet(ctx, "sheet", l, func(_ string, u unit.Unit) ([]byte, error) { return export.ShotsSheet(plan, u, call.style.Units) })
	return heldStatus(len(plan.Refused) == 0 && len(plan.Pressures) > 0), err
}
