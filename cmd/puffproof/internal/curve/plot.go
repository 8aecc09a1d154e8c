package curve

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"github.com/guptarohit/asciigraph"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
)

// plotHeight is the number of rows of one curve.
const plotHeight = 7

// Plots draws pressure and speed of a shot as text, over time on the left and over travel on the
// right, so many columns wide; none where the shot has no course.
func Plots(shot show.ShotView, width int, u quantity.System) (blocks []string) {
	s := shot.Series
	n := s.Length()
	if n < 2 || !increasing(s.Time[:n]) {
		return nil
	}
	half := (width - 2) / 2
	for _, y := range []plotted{
		{"barrel pressure", s.Gauge[:n], quantity.Gauge},
		{"speed", s.Speed[:n], quantity.Speed},
	} {
		left := plot(plotted{"time", s.Time[:n], quantity.Time}, y, half, u)
		right := ""
		if x := s.Travel[:n]; x[n-1] > x[0] {
			right = plot(plotted{"travel", x, quantity.Length}, y, half, u)
		}
		blocks = append(blocks, sideBySide(left, right, half+2))
	}
	return blocks
}

// plotted is one axis: a name, SI values, their quantity.
type plotted struct {
	name   string
	values []float64
	q      quantity.Kind
}

// plot draws y over x, width columns wide. The library's own colours stay off:
// it does not know of pipes and NO_COLOR.
func plot(x, y plotted, width int, u quantity.System) string {
	xu, yu := u.Axis(x.q, maxAbs(x.values)), u.Axis(y.q, maxAbs(y.values))
	const labels = 9 // columns of the y labels and the axis
	cells := width - labels
	ys := resample(x.values, y.values, cells)
	for i := range ys {
		ys[i] = yu.Of(ys[i])
	}
	top := 0.0
	for _, v := range ys {
		top = math.Max(top, v)
	}
	graph := asciigraph.Plot(ys,
		asciigraph.Height(plotHeight-1),
		asciigraph.LowerBound(0), asciigraph.UpperBound(top),
		asciigraph.YAxisValueFormatter(func(v float64) string { return fmt.Sprintf("%6s", quantity.Tick(v, top)) }),
	)
	first, last := xu.Of(x.values[0]), xu.Of(maxAbs(x.values))
	foot := quantity.Tick(first, last)
	end := quantity.Tick(last, last) + " " + xu.Name
	gap := max(1, cells-len(foot)-show.Columns(end))
	mid := x.name
	if gap > len(mid)+2 {
		left := (gap - len(mid)) / 2
		foot += strings.Repeat(" ", left) + mid + strings.Repeat(" ", gap-len(mid)-left) + end
	} else {
		foot += strings.Repeat(" ", gap) + end
	}
	return fmt.Sprintf("%s%s\n%s\n%s%s", strings.Repeat(" ", 7), y.name+", "+yu.Name, show.TrimLines(graph), strings.Repeat(" ", 8), foot)
}

func maxAbs(v []float64) float64 {
	m := 0.0
	for _, x := range v {
		m = math.Max(m, math.Abs(x))
	}
	return m
}

func increasing(v []float64) bool { return sort.Float64sAreSorted(v) && v[len(v)-1] > v[0] }

// resample gives y at n evenly spaced x from the first to the largest, linear
// between points. Where x turns back the first passage counts.
func resample(x, y []float64, n int) []float64 {
	out := make([]float64, n)
	first, last := x[0], maxAbs(x)
	j := 0
	for i := range out {
		at := first + (last-first)*float64(i)/float64(n-1)
		for j < len(x)-2 && x[j+1] < at {
			j++
		}
		u := 1.0
		if w := x[j+1] - x[j]; w > 0 {
			u = math.Min(math.Max((at-x[j])/w, 0), 1)
		}
		out[i] = y[j] + u*(y[j+1]-y[j])
	}
	return out
}

// sideBySide puts two blocks of text next to each other, the second one from
// the given column on.
func sideBySide(left, right string, column int) string {
	l, r := strings.Split(left, "\n"), strings.Split(right, "\n")
	var b strings.Builder
	for i := range max(len(l), len(r)) {
		a, c := "", ""
		if i < len(l) {
			a = l[i]
		}
		if i < len(r) {
			c = r[i]
		}
		line := a
		if c != "" {
			line += strings.Repeat(" ", max(0, column-show.Columns(a))) + c
		}
		b.WriteString(strings.TrimRight(line, " ") + "\n")
	}
	return strings.TrimRight(b.String(), "\n")
}
