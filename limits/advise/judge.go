package advise

import (
	"context"
	"math"
	"strings"

	"puffproof/limits"
	"puffproof/limits/assessment"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// light is the share of a check's effort while ways are looked for.
const light = 0.1

// judged is what check says of a launcher, and whether it flies.
type judged struct {
	report  limits.Report
	nominal *worst.Nominal
	weakest worst.Weakest
}

// judge judges a launcher as check does, and shoots the nominal and the weakest one.
func judge(ctx context.Context, l *launcher.Launcher, day string) (j judged, err error) {
	if len(l.Template) > 0 { // that figures are another's is nothing that a change of the build mends
		l = l.Clone()
		l.Template = nil
	}
	if j.report, err = limits.Check(ctx, l, assessment.Options{Day: day, Sheets: vent.SlowEndOnly}); err != nil {
		return j, err
	}
	if j.nominal, err = worst.NominalShot(ctx, l, nil, 0); err != nil {
		return j, err
	}
	j.weakest, err = worst.FindWeakest(ctx, l, search.Quick())
	return j, err
}

// flies tells that the nominal launcher shoots its projectile out.
func (j *judged) flies() bool {
	return j.nominal != nil && j.nominal.Result.Outcome == pneumatics.Left && j.nominal.Result.FinalSpeed >= worst.Creep
}

// good tells that every verdict holds and that nominal and weakest leave.
func (j *judged) good() bool { return j.report.Holds && j.flies() && j.weakest.Leaves }

// troubles are the verdicts that fail or are unknown.
func (j *judged) troubles() (out []finding.Verdict) {
	for _, v := range j.report.Verdicts {
		if v.Status == finding.Fail || v.Status == finding.Unknown {
			out = append(out, v)
		}
	}
	return out
}

// excess is by how much a verdict fails: value over limit; 1 where that has no sense.
func excess(v finding.Verdict) float64 {
	if v.Status != finding.Fail || v.Value == nil || v.Limit == nil || v.AtLeast || !(*v.Limit > 0) {
		return 1
	}
	return math.Max(1, *v.Value / *v.Limit)
}

// energies are the verdicts that less energy mends.
var energies = map[string]bool{finding.EnergyTotal: true, finding.EnergyArea: true, finding.EnergyFault: true, finding.ShotUnasked: true,
	finding.VentPoints: true, finding.BarrelStalled: true, finding.PeopleLanding: true}

// hush asks for quieter shots: by what the loudest is louder than the one that is screened, or where none is, by less pressure.
func (a *attempt) hush(v finding.Verdict) bool {
	const again = 0.3 // [dB]
	if v.Status != finding.Fail || v.Value == nil || v.Limit == nil {
		return false
	}
	if screened := a.last.figures.loud; !math.IsInf(screened, -1) {
		a.sieve.louder += math.Max(*v.Value-*v.Limit-screened, 0) + again
		return true
	}
	return a.lower(0.8)
}

// isOf tells that a verdict on faults names one of a mode as the worst.
func isOf(v finding.Verdict, mode fault.Mode) bool {
	return strings.Contains(v.Why.String(), string(mode))
}

// mend makes the next attempt stricter where a verdict fails, and changes what no dial turns.
// It gives false where it knows nothing to do.
func (a *attempt) mend(j *judged) bool {
	done, hardest := false, 0.0
	if said := troubleWords(a); len(said) > 0 {
		a.asked = said
	}
	a.kinked = a.kinked || kinkForbids(j.troubles())
	if a.blocked == nil {
		a.blocked = map[string]bool{}
	}
	for _, v := range j.troubles() {
		a.blocked[v.ID] = true
		over := excess(v)
		switch v.ID {
		case finding.BarrelStalled:
			if a.sieve.jams && a.stuck > 1 { // screening it did not do
				done = a.sooner(math.Min(over, 2)) || done
			}
			if a.stuck++; !a.sieve.jams || a.stuck <= 2 {
				a.sieve.jams, a.sieve.freed, done = true, over, true
			}
		case finding.BarrelJammed:
			a.bled = true
			done = a.bleed() || done
		case finding.GaugeReadable:
			a.fine++
			done = a.newGauge() || done
		case finding.GaugeRange:
			done = a.newGauge() || done
		case finding.VentShutdown, finding.VentPowerLoss:
			done = a.widen(v) || done
		case finding.LadderOrder, finding.HeatSoak:
			a.sieve.more += 0.05e5
			done = true
		case finding.ReliefCapacity:
			done = a.widerRelief() || done
		case finding.SwitchBand:
			done = a.raise(1.15) || done
		case finding.ValveDifferential:
			done = a.directValve() || done
		case finding.VesselRating, finding.BarrelBlocked, finding.ReliefRating, finding.StoredEnergy:
			done = a.lower(0.8) || done
		case finding.SoundAtPeak:
			done = a.hush(v) || done
		default:
			switch {
			case v.Status != finding.Fail || !energies[v.ID]:
			case v.ID == finding.EnergyFault && !a.sieve.snaps && isOf(v, fault.OpensFaster):
				a.sieve.snaps, done = true, true
			default:
				hardest = math.Max(hardest, over)
			}
		}
	}
	if hardest > 0 {
		const most = 2 // beyond that the corners are too far from those that count: they are looked for anew
		a.sieve.factor *= 1.05 * math.Min(most, math.Max(1, hardest/math.Max(a.last.figures.hardest, 0.1)))
		done = true
	}
	if len(j.troubles()) == 0 && !j.good() {
		return a.looser()
	}
	return done
}
