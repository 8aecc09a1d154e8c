package verdict

import (
	"go/ast"
	"go/parser"
	"go/token"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/vent"
)

// Every identifier of a verdict is a row of the table, once, and every row has a judge
// and a title that fits its column; the identifiers are read from their source.
func TestTheTableHasEveryVerdictOnce(t *testing.T) {
	file, err := parser.ParseFile(token.NewFileSet(), "../finding/ids.go", nil, 0)
	require.NoError(t, err)
	constants := slices.IndexFunc(file.Decls, func(d ast.Decl) bool {
		block, is := d.(*ast.GenDecl)
		return is && block.Tok == token.CONST
	})
	ids := map[string]int{}
	// The first block of constants is that of the verdicts.
	for _, spec := range file.Decls[constants].(*ast.GenDecl).Specs {
		id, err := strconv.Unquote(spec.(*ast.ValueSpec).Values[0].(*ast.BasicLit).Value)
		require.NoError(t, err)
		ids[id] = 0
	}
	require.Contains(t, ids, "energy.total")
	require.NotContains(t, ids, "confirm.shots", "an item")
	for _, q := range Table() {
		assert.Contains(t, ids, q.ID)
		ids[q.ID]++
		assert.NotEmpty(t, q.Title, q.ID)
		assert.LessOrEqual(t, len([]rune(q.Title)), 38, q.ID)
		assert.NotNil(t, q.Judge, q.ID)
	}
	for id, rows := range ids {
		assert.Equal(t, 1, rows, id)
	}
}

// Each stage has the verdicts that are computed in it, and a whole check has them all.
func TestVerdictsOfAStage(t *testing.T) {
	of := func(stage assessment.Stages) (ids []string) {
		for _, q := range Table() {
			if q.Stage&stage != 0 {
				ids = append(ids, q.ID)
			}
		}
		return ids
	}
	assert.Equal(t, []string{"barrel.stalled", "vessel.rating", "barrel.blocked", "vent.shutdown", "vent.power-loss", "vent.trapped"},
		of(assessment.StuckStage))
	assert.Equal(t, []string{"misuse.objects", "source.limited"}, of(assessment.ObjectStage))
	assert.Equal(t, []string{"vent.shutdown", "vent.power-loss", "vent.points", "vent.trapped", "gauge.readable"},
		of(assessment.EmptyingStage))
	assert.Equal(t, []string{"barrel.jammed", "energy.fault", "shot.unasked", "loading.empty"}, of(assessment.FaultStage))
}

// What was not computed is unknown, whatever the verdict reads: a nought that nobody
// computed looks like a stuck projectile that gains nothing. No verdict panics for it, and
// what it needs is named.
func TestAStageThatWasNotComputedIsNoAnswer(t *testing.T) {
	whole := assessed.Stated(t, sample.Plain())
	for _, q := range Table() {
		for _, absent := range []assessment.Stages{assessment.EnergyStage, assessment.StuckStage, assessment.ObjectStage,
			assessment.EmptyingStage, assessment.FaultStage} {
			if q.Stage&absent == 0 {
				continue
			}
			a := *whole
			a.Computed &^= absent
			v := Of(&a, q.ID)
			assert.Equal(t, finding.Unknown, v.Status, "%s without %s", q.ID, absent)
			assert.Equal(t, "not computed: "+absent.String(), v.Why.String(), q.ID)
			assert.Nil(t, v.Value, q.ID)
		}
	}
	part, err := assessment.Make(assessed.Glance(), sample.Plain(), assessment.Options{Want: assessment.EnergyStage})
	require.NoError(t, err)
	assert.Equal(t, finding.Unknown, Of(part, finding.BarrelStalled).Status)
	assert.Equal(t, finding.Unknown, Of(part, finding.VesselRating).Status)
	assert.Equal(t, finding.Unknown, Of(part, finding.SourceLimited).Status)
	assert.Equal(t, finding.Unknown, Of(part, finding.EnergyFault).Status)
	assert.NotEqual(t, finding.Unknown, Of(part, finding.EnergyTotal).Status)
}

// A question that does not arise has no verdict, and one of the whole none in a part of it.
func TestQuestionsThatDoNotArise(t *testing.T) {
	a := assessed.Emptying(t, sample.VentedTank(), vent.SlowEndOnly)
	assert.Empty(t, Of(a, finding.MeasuredLeak).ID)
	for i := range a.Stated.Volumes {
		a.Stated.Volumes[i].MadeOn = "2026-01-01"
	}
	a.Stated.Barrel.MadeOn, a.Stated.Projectile.MadeOn = "2026-01-01", "2026-01-01"
	a.Day = "2026-05-30"
	assert.Empty(t, Of(a, finding.DatesPast).ID, "all are young, and none has a date to come")
	assert.Empty(t, Of(a, "no.such").ID)
	a.Logs.Leak = &vent.LeakAnswer{Status: vent.LeakTight}
	v := Of(a, finding.MeasuredLeak)
	assert.Equal(t, finding.Pass, v.Status)
	assert.Equal(t, "The measured leak-down is tight", v.Title)
	var ids []string
	for _, v := range Judge(a, assessment.EmptyingStage) {
		ids = append(ids, v.ID)
	}
	assert.Equal(t, []string{finding.VentShutdown, finding.VentPowerLoss, finding.VentPoints, finding.VentTrapped, finding.GaugeReadable}, ids)
}
