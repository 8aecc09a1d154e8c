package vent

import (
	"context"

	"puffproof/limits/launcher"
	"puffproof/limits/worst"
)

// Input is what the emptying of a launcher is computed from.
type Input struct {
	Launcher *launcher.Launcher
	Limits   launcher.EnergyLimits // that what is left, or pushed out, is held against
	Normal   *worst.Case           // the worst case of normal operation; nil: not computed
	Stuck    worst.Stuck
	Loading  *Loading // nil: nothing is known to be empty while loading
}

// stage is the computation of one Report.
type stage struct {
	ctx    context.Context
	in     Input
	detail SheetDetail
	report *Report
}

// over tells that nobody wants the report any more.
func (s stage) over() bool { return s.ctx.Err() != nil }
