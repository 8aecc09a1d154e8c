package sound

import (
	"math"
	"slices"

	"puffproof/limits/launcher"
	"puffproof/pneumatics"
	"puffproof/pneumatics/sound"
)

// ears are those that the design states, at no level yet.
func (r *Report) ears(l *launcher.Launcher) (out []Ear) {
	if l.Event == nil || !l.Event.EarToMuzzle.Set {
		return nil
	}
	add := func(who string, b launcher.Band) {
		if b.Set { // a source is no point: nearer than its own width the distance says nothing
			out = append(out, Ear{Who: who, Distance: max(b.Nominal, 2*r.Radius), Nearest: max(b.Low, 2*r.Radius)})
		}
	}
	who := "the nearest ear"
	if l.Mount.RideOn {
		who = "the rider's ear"
	}
	add(who, l.Event.EarToMuzzle)
	if near, known := l.Event.Nearest(); known { // at the one distance that all else takes for that person
		add("the nearest person's ear", launcher.Exact("event.nearest_person", near))
	}
	return out
}

// hear gives an ear what it hears of sources: the loudest, for their peaks do not meet.
func hear(e Ear, sources []Source) Ear {
	e.Levels, e.By = Levels{math.Inf(-1), math.Inf(-1)}, ""
	for _, s := range sources {
		at := Levels{sound.Carried(s.Expected, 1, e.Distance), sound.Carried(s.Upper, 1, e.Nearest)}
		if s.Apart {
			at = s.plus(-20 * math.Log10(pumpDistance))
		}
		e.Expected = louder(e.Expected, at.Expected)
		if at.Upper > e.Upper {
			e.Upper, e.By = at.Upper, s.ID
		}
	}
	return e
}

// listen lets all ears hear the sources.
func (r *Report) listen(l *launcher.Launcher) {
	slices.SortStableFunc(r.Sources, func(a, b Source) int { return loudestFirst(a.Levels, b.Levels) })
	r.Near = hear(Ear{Who: "where toys are measured", Distance: PlaceOfBenchmark, Nearest: PlaceOfBenchmark}, r.Sources)
	r.Ears = nil
	for _, e := range r.ears(l) {
		r.Ears = append(r.Ears, hear(e, r.Sources))
	}
	slices.SortStableFunc(r.Ears, func(a, b Ear) int { return loudestFirst(a.Levels, b.Levels) })
}

// shots are the sources that a recording of a shot holds.
func shots(s Source) bool { return s.ID == "burst" || s.ID == "column" }

// record narrows the interval by a recorded peak: the recorded level, with its band and with what
// the tolerances of the launcher make of the loudest shot, stands for the sources of a shot. One that is not
// measured only widens it. loudest and recorded are the upper ends that the
// model gives of the loudest shot and of the one that was recorded [dB].
func (r *Report) record(l *launcher.Launcher, loudest, recorded float64) {
	if l.Event == nil || !l.Event.PeakLevel.Set || math.IsInf(recorded, 0) || math.IsNaN(recorded) {
		return
	}
	b := l.Event.PeakLevel
	rec := &Recording{Origin: b.Origin, Level: b.Nominal, High: b.High, Burst: loudest, Spread: max(0, loudest-recorded),
		Model: hear(Ear{Distance: PlaceOfBenchmark, Nearest: PlaceOfBenchmark}, slices.DeleteFunc(slices.Clone(r.Sources),
			func(s Source) bool { return !shots(s) })).Levels}
	rec.Upper = rec.High + rec.Spread
	r.Recorded = rec
	carried := Levels{sound.Carried(b.Nominal, PlaceOfBenchmark, 1), sound.Carried(rec.Upper, PlaceOfBenchmark, 1)}
	for i := range r.Sources {
		s := &r.Sources[i]
		switch {
		case !shots(*s):
		case !rec.Measured():
			if s.ID == "burst" {
				s.Levels = Levels{louder(s.Expected, carried.Expected), max(s.Upper, carried.Upper)}
			}
		case s.ID == "burst": // it holds whatever of the shot was loudest
			s.Levels = carried
		default:
			s.Levels = Levels{min(s.Expected, carried.Expected), min(s.Upper, carried.Upper)}
		}
	}
}

// Burst is the upper end [dB(C)] of the burst of one shot at the worse ear of a launcher: a screening of many shots, for what it comes
// to over the tolerances is Compute's. -Inf: nothing leaves, no ear is stated, or a recording stands for the model.
func Burst(l *launcher.Launcher, c *pneumatics.Circuit, r *pneumatics.Result) float64 {
	recorded := l.Event != nil && l.Event.PeakLevel.Set && l.Event.PeakLevel.Origin == launcher.Measured
	if r.Reason != "" || r.Outcome != pneumatics.Left || recorded {
		return math.Inf(-1)
	}
	level := sound.Level(loudness(c, r))
	of := Report{Radius: math.Sqrt(c.Barrel.Area / math.Pi)}
	return of.worse(l, []Source{{ID: "burst", Levels: Levels{level, level}}})
}
