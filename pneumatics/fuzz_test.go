package pneumatics

import (
	"testing"
	"time"
)

// FuzzRun runs circuits made from bytes: no panic, no hang, no figure that is not
// a number where there should be one. The step budget is the program's own.
func FuzzRun(f *testing.F) {
	f.Add([]byte{})
	f.Add([]byte("a whale on a parade float blows foam balls"))
	f.Add([]byte{255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255})
	f.Add([]byte{7, 1, 200, 3, 4, 250, 6, 7, 80, 9, 10, 11, 120, 13, 14, 150, 16, 17, 180, 19, 20, 21, 220, 23, 24, 25, 26, 27, 28, 29, 30})
	f.Fuzz(func(t *testing.T, bytes []byte) {
		c, sc := randomCircuit(&byteDice{bytes})
		start := time.Now()
		const budget = 20000
		r := new(Sim).Run(c, sc, Options{Tolerance: 1e-6, MaxSteps: budget})
		if r.Outcome == TimeRanOut && r.Steps+r.Rejected >= budget {
			return // the budget is spent: no answer, and none is given
		}
		if why := complain(c, sc, r); why != "" {
			t.Fatalf("%s\n%+v\n%+v\n%+v", why, c, sc, r)
		}
		if took := time.Since(start); took > 20*time.Second {
			t.Fatalf("took %v", took)
		}
	})
}
