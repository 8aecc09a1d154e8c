package main

import (
	"fmt"
	"slices"
	"strings"
)

// step is one command line that is compared. Files that stand in it are laid beside it.
type step struct {
	name string
	line string // DESIGN stands for the design's file
	on   share
}

// share says of which designs a step is asked. Designs with a lot share the dear steps
// out: of each so many one, that with the remainder at. All others get every step.
type share struct {
	of, at   int
	refused  bool // of designs too that the old program does not read
	noDesign bool // once, without any
}

var (
	every    = share{of: 1, refused: true}
	readable = share{of: 1}
	metric   = share{of: 5, refused: true}
	us       = share{of: 5, at: 1}
	measured = share{of: 5, at: 2}
	papers   = share{of: 10, at: 3}
	verified = share{of: 10, at: 8}
	thorough = share{of: 10, at: 4}
	further  = share{of: 10, at: 9}
	noDesign = share{noDesign: true}
)

// The day of the papers and the day on which they are verified.
const (
	paperDay  = "2026-05-31"
	verifyDay = "2026-06-01"
)

// steps lists what is compared, by the name that the flag -commands takes.
func steps() []step {
	return []step{
		{"check", "check --json DESIGN", every},
		{"check-thorough", "check --json --thorough DESIGN", thorough},
		{"check-shots", "check --json --shots shots.csv DESIGN", measured},
		{"check-confirmed", "check --quiet --require-confirmed DESIGN", thorough},
		{"shot", "shot --json DESIGN", readable},
		{"shot-wave", "shot --json --model wave --at 0.3bar DESIGN", thorough},
		{"setpoint", "setpoint --json DESIGN", readable},
		{"setpoint-shots", "setpoint --json --shots shots.csv DESIGN", thorough},
		{"vent", "vent --json --size --csv sheet.csv DESIGN", readable},
		{"vent-logs", "vent --json --log vent.csv --leak-log leak.csv DESIGN", measured},
		{"faults", "faults --json DESIGN", every},
		{"faults-pairs", "faults --json --pairs DESIGN", thorough},
		{"plan", "plan --json DESIGN", measured},
		{"flight", "flight --json DESIGN", measured},
		{"calibrate", "calibrate --json --shots shots.csv --fragment fitted.toml DESIGN", measured},
		{"dossier", "dossier --json --date " + paperDay + " -o paper.html DESIGN", papers},
		{"dossier-full", "dossier --date " + paperDay + " --shots shots.csv --vent-log vent.csv --leak-log leak.csv" +
			" --units us -o full.md DESIGN", verified},
		{"dossier-pdf", "dossier --date " + paperDay + " -o paper.pdf DESIGN", further},
		{"card", "card --date " + paperDay + " -o card.md DESIGN", papers},
		{"verify", "verify --json --date " + verifyDay + " paper.html DESIGN", verified},
		{"verify-changed", "verify --date " + verifyDay + " paper.html changed.toml", verified},
		{"check-text", "check --sources --assumed DESIGN", metric},
		{"check-us", "check --units us DESIGN", us},
		{"check-shots-us", "check --units us --shots shots.csv DESIGN", further},
		{"shot-text", "shot --plot shot.svg DESIGN", metric},
		{"setpoint-text", "setpoint --plot ladder.svg DESIGN", metric},
		{"setpoint-us", "setpoint --units us DESIGN", us},
		{"vent-text", "vent --plot vent.svg DESIGN", metric},
		{"vent-logs-us", "vent --units us --log vent.csv --leak-log leak.csv DESIGN", further},
		{"vent-us", "vent --units us --size DESIGN", us},
		{"faults-text", "faults DESIGN", metric},
		{"faults-us", "faults --units us DESIGN", us},
		{"plan-us", "plan --units us DESIGN", further},
		{"flight-text", "flight --plot flight.svg DESIGN", further},
		{"flight-us", "flight --units us DESIGN", further},
		{"calibrate-text", "calibrate --shots shots.csv --plot fit.svg DESIGN", further},
		{"calibrate-us", "calibrate --units us --shots shots.csv DESIGN", further},
		{"size", "size --json", noDesign},
		{"size-text", "size --limit 0.3J --bore 41mm --travel 150mm --mass 4g --plot plan.svg", noDesign},
		{"size-us", "size --units us --limit 0.3J --bore 41mm --travel 150mm --mass 4g", noDesign},
		{"self-check", "self-check --json", noDesign},
		{"self-check-text", "self-check", noDesign},
		{"init", "init new.toml", noDesign},
		{"help", "help", noDesign},
	}
}

// chosenSteps are the steps that a list of names asks for.
func chosenSteps(names string) ([]step, error) {
	chosen := slices.DeleteFunc(steps(), func(s step) bool { return !anyMatch(names, s.name) })
	if len(chosen) == 0 {
		var known []string
		for _, s := range steps() {
			known = append(known, s.name)
		}
		return nil, fmt.Errorf("no command is named %s; there are %s", names, strings.Join(known, ", "))
	}
	return chosen, nil
}

// stepNamed gives a step that others build on.
func stepNamed(name string) step {
	all := steps()
	return all[slices.IndexFunc(all, func(s step) bool { return s.name == name })]
}

// suits tells whether a step is asked of a design. Deep makes no difference between
// designs but for those whose check is too dear: they get that one only.
func (p step) suits(s *scene, deep bool) bool {
	if p.on.noDesign || s.design.name == general {
		return p.on.noDesign && s.design.name == general
	}
	if p.name == "check" {
		return true
	}
	if lot := s.design.lot; lot != everyLot && !deep && lot%p.on.of != p.on.at {
		return false
	}
	checked, ok := s.outcome(stepNamed("check"), s.was)
	if !ok || checked.TimedOut || checked.Computed > s.dear {
		return false
	}
	return p.on.refused || checked.Exit != refusedStatus
}
