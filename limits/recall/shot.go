package recall

import (
	"context"

	"puffproof/pneumatics"
)

// Of is the memory of a context; nil: it has none.
func Of(ctx context.Context) *Memory {
	m, _ := ctx.Value(memoryKey{}).(*Memory)
	return m
}

// Run is sim.Run, or what that gave before for the same circuit, scenario and options: designs that differ in what no shot reads
// have their shots in common. Without a memory every shot is computed. A run that was stopped is not kept.
func (m *Memory) Run(sim *pneumatics.Sim, c *pneumatics.Circuit, sc *pneumatics.Scenario, o pneumatics.Options) *pneumatics.Result {
	if m == nil {
		return sim.Run(c, sc, o)
	}
	plain := o
	plain.Stop = nil
	at := m.sum(Key{"run", c, sc, &plain})
	if before, ok := m.of(at); ok {
		return before.(*pneumatics.Result)
	}
	r := sim.Run(c, sc, o)
	if o.Stop == nil || !o.Stop() {
		m.keep(at, r.Clone())
	}
	return r
}
