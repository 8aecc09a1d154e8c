package export

import (
	"encoding/json"
	"math"

	"puffproof/cmd/puffproof/internal/record"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits"
	"puffproof/limits/commission"
	"puffproof/limits/finding"
)

// Commission is the document of a commissioning: every step, the record beside the design, and the reading that was just written
// down (nil: none was).
func Commission(id show.DesignID, r limits.Report, run *commission.Run, state *record.State, wrote *record.Wrote) (json.RawMessage, error) {
	steps := make([]show.Object, 0, len(run.Steps))
	for i := range run.Steps {
		steps = append(steps, commissionStep(&run.Steps[i], state.Due))
	}
	return show.Document(show.Fields("design", id, "steps", steps, "complete", run.Complete, "done", run.Count(),
		"refused", show.Said(run.Refused.String()), "no_air", show.Said(run.NoAir.String()), "holds", r.Holds, "confirmed", r.Confirmed,
		"left_out", show.List(run.LeftOut, func(l commission.LeftOut) show.Object {
			return show.Fields("id", l.ID, "title", l.Title, "why", l.Why)
		}), "record", recordState(state), "wrote", show.Maybe(wrote, func(w record.Wrote) show.Object {
			return show.Fields("step", w.Step, "result", w.Result, "says", show.Said(w.Says.String()), "note", show.Said(w.Note.String()))
		})))
}

func commissionStep(s *commission.Step, due map[string][]record.Changed) show.Object {
	phase := commission.PhaseOf(s.Phase)
	var done show.Object
	if d := s.Done; d != nil {
		done = show.Fields("who", d.Who, "date", show.Said(d.Date), "value", show.Said(d.Says().String()), "recorded", d.Recorded)
	}
	return show.Fields("id", s.ID, "title", s.Title, "status", string(s.Status), "expect", expectFields(s.Band), "phase", phase.Title,
		"why", s.Why, "stand", phase.Stand, "who", s.Who, "people", s.People,
		"do", s.Do, "expected", show.Said(s.Expect.String()), "write", s.Read,
		"outside", s.Outside, "takes_s", s.Takes, "done", done, "open_why", show.Said(s.OpenWhy.String()),
		"changed", show.List(due[s.ID], func(c record.Changed) show.Object {
			return show.Fields("key", c.Key, "before", show.Said(c.Before), "after", show.Said(c.After))
		}))
}

// expectFields is what a reading is held against. No gauge shows less than nothing, so a pressure without a lower bound begins at
// zero.
func expectFields(b *finding.Expected) show.Object {
	if b == nil {
		return nil
	}
	low := b.Low
	if b.Unit == finding.InPascalGauge && math.IsInf(low, -1) {
		low = 0
	}
	return show.Fields("low", show.Finite(low), "high", show.Finite(b.High), "unit", string(b.Unit))
}

func recordState(r *record.State) show.Object {
	if r.Log == nil {
		return nil
	}
	restored := r.Restored
	if restored == nil {
		restored = []string{}
	}
	altered := r.Log.Altered
	if altered == nil {
		altered = []string{}
	}
	return show.Fields("file", r.File, "readings", len(r.Log.Readings()), "torn_bytes", r.Log.Torn, "altered", altered, "restored", restored)
}
