package fault

import (
	"context"
	"math"
	"slices"

	"puffproof/limits/control"
	"puffproof/limits/doubt"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
)

// Input is what single faults are run on.
type Input struct {
	Launcher      *launcher.Launcher
	Limits        launcher.EnergyLimits
	Normal        *worst.Case    // the worst case of normal operation; nil: not computed
	NormalUnknown finding.Text   // why its energy is not known; "" it is
	Emptying      *vent.Report   // how it empties without any fault
	Loading       *vent.Loading  // what state loading leaves in the volumes
	Plugged       *worst.Plugged // the barrel with its muzzle closed; nil: not computed
	Day           string         // of the question, an ISO date; without one no answer of the checklist counts
	// Only picks faults by their id; nil: all of them. Those left out are not computed.
	Only func(id string) bool
	// Roughly leaves it at a sketch of the worst fault too where that is far from the limit.
	Roughly bool
}

// stage runs the faults of one launcher.
type stage struct {
	Input
	ctx      context.Context
	report   *Report
	answers  map[string]*Result     // results of searches, by question
	found    map[string]*worst.Case // what they found, by question
	currents map[string]control.On  // what has current in each state, by what is wrong
	offs     map[string]offState    // what stays in it switched off, by what is moved
	// loadings are what loading leaves where the wiring moves valves, by what it moves.
	loadings map[string]*vent.Loading
	err      error // why what a jam leaves is withheld; nil: it is not
}

func newStage(ctx context.Context, in Input) *stage {
	return &stage{Input: in, ctx: ctx, report: &Report{Limit: in.Limits.Total.Value}, answers: map[string]*Result{},
		found: map[string]*worst.Case{}}
}

// failed is the design with the fault.
func (st *stage) failed(f *fault) *launcher.Launcher {
	w := st.Launcher.Clone()
	if f.apply != nil {
		f.apply(w)
	}
	if f.unasked { // what is loaded when nobody asked may be new, wet or worn: no friction holds it back for certain
		doubt.Loosen(w)
	}
	return w
}

// normalHigh is the highest normal pressure before any heat [Pa gauge].
func (st *stage) normalHigh() float64 {
	high, _ := st.Launcher.NormalHigh()
	return high
}

// normalEnergy is the worst energy of normal operation, raw and judged.
func (st *stage) normalEnergy() (raw, judged float64) {
	if len(st.NormalUnknown) != 0 {
		return math.NaN(), math.NaN()
	}
	return st.Normal.Energies()
}

// answerOf is an item with the answer that the checklist gives by the day of the question. Whoever answers it otherwise asks anew.
func (st *stage) answerOf(item finding.Item) finding.Item {
	if !slices.Contains(st.report.Asked, item.ID) {
		st.report.Asked = append(st.report.Asked, item.ID)
	}
	return st.Launcher.AnswerOf(item, st.Day)
}
