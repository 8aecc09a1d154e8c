package figure

import "gonum.org/v1/plot/vg"

// spread moves places apart to at least gap, keeps their order, stays between low
// and high, and moves each as little as it may: places that touch share the mean
// of what they want (pool adjacent violators).
func spread(want []vg.Length, gap, low, high vg.Length) []vg.Length {
	type block struct {
		sum vg.Length // of the wanted places, each less its offset in the block
		n   int
	}
	half := gap / 2
	n := len(want)
	if n > 1 {
		gap = min(gap, (high-low-2*half)/vg.Length(n-1))
	}
	start := func(b block) vg.Length { // of the first place of a block
		s := b.sum / vg.Length(b.n)
		return min(max(s, low+half), high-half-gap*vg.Length(b.n-1))
	}
	order := ascending(want)
	var blocks []block
	for _, i := range order {
		blocks = append(blocks, block{want[i], 1})
		for len(blocks) > 1 {
			a, b := blocks[len(blocks)-2], blocks[len(blocks)-1]
			if start(a)+gap*vg.Length(a.n) <= start(b) {
				break
			}
			joined := block{a.sum + b.sum - vg.Length(a.n*b.n)*gap, a.n + b.n}
			blocks = append(blocks[:len(blocks)-2], joined)
		}
	}
	out := make([]vg.Length, n)
	k := 0
	for _, b := range blocks {
		for j := range b.n {
			out[order[k]] = start(b) + gap*vg.Length(j)
			k++
		}
	}
	return out
}

// ascending gives the indices of places from the lowest up; equal ones keep their
// order.
func ascending(v []vg.Length) []int {
	order := make([]int, len(v))
	for i := range order {
		order[i] = i
		for j := i; j > 0 && v[order[j]] < v[order[j-1]]; j-- {
			order[j], order[j-1] = order[j-1], order[j]
		}
	}
	return order
}
