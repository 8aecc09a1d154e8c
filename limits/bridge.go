package limits

import (
	"math"
	"strings"

	"puffproof/pneumatics"
)

// What the other families still ask of judge, and what they make themselves.

func newVerdict(id, title string, unit Quantity) Verdict {
	return Verdict{ID: id, Title: title, Unit: unit, Status: Unknown, Basis: OnCircuit}
}

func answered(items []Item, l *Launcher, day string) []Item {
	j := &judge{Assessment: &Assessment{Launcher: l, Day: day}}
	for i := range items {
		j.answer(&items[i])
	}
	return items
}

func (l *Launcher) confirmed(id, day string) bool {
	return answered([]Item{{ID: id}}, l, day)[0].Done != nil
}

func (l *Launcher) energyLimits(day string) (EnergyLimits, error) {
	p := l.Projectile
	if l.confirmed(tipItemID, day) && strings.TrimSpace(p.TipProof) == "" {
		p.TipProof = "checklist"
	}
	return LimitsOf(l.Limits, p)
}

const (
	itemVentTest   = ItemVentTest
	itemLeakDown   = ItemLeakDown
	itemReliefTest = "relief.test"
	itemBore       = "restrictor.gauge"
	itemGauge      = ItemGaugeCompare
	itemSwitchTest = "switch.test"
	itemJamDrill   = "drill.jam"
	itemTwoActions = "unasked.two-actions"
	itemGuard      = "unasked.guard"
)

func (j *judge) vents(detail sheetDetail) (err error) {
	j.loadingAir()
	if j.Emptying, err = computeVents(j.ctx, j.ventInput(), detail); err != nil {
		return err
	}
	for _, judged := range []func(*Assessment) Verdict{ventShutdown, ventPowerLoss, ventPoints, ventTrapped} {
		j.report.Verdicts = append(j.report.Verdicts, judged(j.Assessment))
	}
	return nil
}

func (j *judge) gauges() { j.report.Verdicts = append(j.report.Verdicts, gaugeReadable(j.Assessment)) }

func (j *judge) loadingVerdict() {
	j.loadingAir()
	j.report.Verdicts = append(j.report.Verdicts, loadingEmpty(j.Assessment))
}

func (j *judge) dates(day string) {
	j.Day = day
	if v, there := datesPast(j.Assessment); there {
		j.report.Verdicts = append(j.report.Verdicts, v)
	}
}

func (j *judge) ventItems() {
	for _, it := range ventItems(j.Assessment) {
		j.item(it)
	}
}

func (j *judge) revealedBy(item string) string { return revealedBy(j.Assessment, item) }

func (j *judge) emptyTarget() float64 {
	if j.Emptying != nil && j.Emptying.Target > 0 {
		return j.Emptying.Target
	}
	limit := j.Limits.Total.Value
	if limit == 0 {
		limit = math.Inf(1)
	}
	target, _ := j.Launcher.ventTarget(limit)
	return target
}

func (j *judge) loadingAir() *loadingAir {
	if j.Loading == nil {
		j.Loading = loadingOf(j.Launcher, j.emptyTarget())
	}
	return j.Loading
}

func (l *Launcher) loadingAir(target float64) *loadingAir { return loadingOf(l, target) }

func (j *judge) restIn(s pneumatics.State, volume int) (float64, bool) {
	return j.loadingAir().restIn(s, volume)
}
