package worst

import (
	"context"

	"puffproof/limits/launcher"
	"puffproof/limits/search"
)

// By how much more a search may find than a sketch (search.Options.Sketch), with room: what is shown as the greatest, and what a
// limit is held against. Over the shipped designs and random ones a search mostly finds the same and seldom some hundredths more
// (TestSketchMargin); over functions with jumps, harsher than launchers, 1 in 200 finds more than half as much again.
const (
	sketchMargin = 1.25
	limitMargin  = 1.5
)

// Decisive is by how much more than a sketch that climbs from far away have confirmed a search may find, with room, to be the greatest
// or to exceed a limit [-] (TestSketchMargin).
const Decisive = 1.1

// WithRoom is what a search may find where a sketch found v [-].
func WithRoom(v float64) float64 { return v * sketchMargin }

// MayBeMost tells of the figure v of a sketch, among like ones of which the greatest is top, whether a search may find it to be
// the greatest.
func MayBeMost(v, top float64) bool { return !(WithRoom(v) < top) }

// MayExceed tells of the figure v of a sketch that seems to keep a limit whether a search may find that it does not.
func MayExceed(v, limit float64) bool { return v <= limit && !FarBelow(v, limit) }

// Nearly tells of a figure v that it keeps a limit by less than a tenth: a search may find that it does not.
func Nearly(v, limit float64) bool { return v <= limit && v*Decisive > limit }

// Tame tells that climbs from far apart came to the same worst case, or to little less: questions like it may be sketched. Where they ended
// on several heights another of them may be the highest once something is changed, and a sketch does not see it.
func (w *Case) Tame() bool { return w != nil && (w.Result.Met || w.Result.Tame || w.tame) }

// FarBelow tells of the figure v of a sketch that a search will find it to keep a limit.
func FarBelow(v, limit float64) bool { return v*limitMargin < limit }

// SketchFirst sketches a question where that tells anything, and searches it unless what the sketch found is enough. The error is
// the context's.
func SketchFirst(ctx context.Context, l *launcher.Launcher, q Question, o search.Options, tame bool,
	enough func(found float64) bool) (*Case, error) {
	whole := o
	o.Sketch = tame
	w, err := Maximise(ctx, l, q, o)
	if err == nil && w.Result.Sketched && !enough(w.Value) {
		err = w.SearchOn(ctx, whole)
	}
	return w, err
}

// Surely searches a case again, as a whole and not by climbs alone, where its figure keeps a limit [its unit] by less than a tenth:
// where half of the climbs come to the same there may be a hill some hundredths higher beside them. The larger figure counts. The
// error is the context's.
func (w *Case) Surely(ctx context.Context, limit float64) error {
	if w.Shot == nil || !Nearly(w.Value, limit) {
		return nil
	}
	o := search.Options{Meet: -1}
	for _, m := range w.Result.Maxima {
		o.Seeds = append(o.Seeds, m.Point)
	}
	more, err := Maximise(ctx, w.Box.Launcher, w.Box.Question, o)
	if err != nil {
		return err
	}
	made := w.Result.Evaluations + more.Result.Evaluations
	if more.Value > w.Value || more.Undetermined() {
		more.tame = w.Tame() && more.Value < Decisive*w.Value
		*w = *more
	}
	w.Result.Evaluations = made
	return nil
}

// Confirm climbs from far away, where a sketch of the case did not, and searches it where that finds more (search.Options.Far). The
// error is the context's.
func (w *Case) Confirm(ctx context.Context, o search.Options) error {
	o.Sketch, o.Far, o.Seeds = true, 2, nil // it begins with what the sketch found
	return w.SearchOn(ctx, o)
}

// SearchOn searches the question of a sketched case, from what the sketch found on too; the case is then what the
// search found. The error is the context's.
func (w *Case) SearchOn(ctx context.Context, o search.Options) error {
	for _, m := range w.Result.Maxima {
		o.Seeds = append(o.Seeds, m.Point)
	}
	more, err := Maximise(ctx, w.Box.Launcher, w.Box.Question, o)
	if err != nil {
		return err
	}
	more.Result.Evaluations += w.Result.Evaluations
	*w = *more
	return nil
}
