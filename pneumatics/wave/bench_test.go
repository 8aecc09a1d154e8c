package wave

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/pneumatics/flow"
)

// stepper is a gun in the middle of its shot with 200 cells.
func stepper() *system {
	s := closedTube(200, func(x float64) State { return State{1.2 + 0.1*x, 20 * x, 1e5 * (1 + 0.1*x)} })
	s.conditions()
	return s
}

// A step allocates nothing: promised in the package's design (no source).
func TestStepAllocatesNothing(t *testing.T) {
	lines := Options{Before: []Hose{wide, elbow}, After: []Hose{elbow, thin}}
	for _, o := range []Options{{}, {Hose: Hose{Bore: 0.01, Length: 1, Darcy: 0.02}}, lines} {
		s := rocket
		s.dead, s.exit = 2*s.dead, rocketTube
		circ, sc := launcher(s)
		var r runner
		assert.NoError(t, r.build(circ, sc, o))
		r.conditions()
		assert.Zero(t, testing.AllocsPerRun(200, func() { r.step(r.nextStep()) }))
	}
}

// BenchmarkCellStep reports the time of one step of one cell in smooth flow,
// both stages and the choice of the step included.
func BenchmarkCellStep(b *testing.B) {
	s := stepper()
	b.ReportAllocs()
	for b.Loop() {
		s.step(s.limitStep())
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/200, "ns/cell-step")
}

// BenchmarkShotWithLines is a shot over a tube with a hose on either side of the
// valve at the study's resolution.
func BenchmarkShotWithLines(b *testing.B) {
	s := rocket
	s.exit = rocketTube
	s.hose = Hose{Bore: 0.006, Length: 3, Friction: PipeFriction, Entry: 0.5}
	s.after = Hose{Bore: 0.008, Length: 3, Friction: PipeFriction, Entry: 0.5}
	circ, sc, o := s.plumbed(flow.Air())
	b.ReportAllocs()
	work := 0
	for b.Loop() {
		r, err := Shot(circ, sc, o)
		if err != nil {
			b.Fatal(err)
		}
		work = r.CellSteps
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(work), "ns/cell-step")
}

// BenchmarkShot is a whole shot of the reference launcher A.
func BenchmarkShot(b *testing.B) {
	circ, sc := launcher(launcherA)
	b.ReportAllocs()
	work := 0
	for b.Loop() {
		r, err := Shot(circ, sc, Options{})
		if err != nil {
			b.Fatal(err)
		}
		work = r.CellSteps
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(work), "ns/cell-step")
}
