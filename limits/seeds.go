package limits

// seedsFor hands the worst case of normal operation on to a question with the same
// coordinates, or with further ones, which start in their middle; none where there
// is no worst case.
func seedsFor(l *Launcher, normal *worst, q question) [][]float64 {
	if normal == nil || !normal.result.Found {
		return nil
	}
	if newBox(l, q).dim == normal.box.dim {
		return [][]float64{normal.result.Best.Point}
	}
	var out []float64
	out = append(out, normal.result.Best.Point...)
	for range q.extra {
		out = append(out, 0.5)
	}
	return [][]float64{out}
}
