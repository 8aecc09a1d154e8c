package graph

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// compressorToBarrel is drawn by hand: tank 0 feeds tank 1 through a check valve
// (link 0), tank 1 the barrel (1); tank 2 stands beside tank 0 (2); tank 3 is
// joined to the rest through the atmosphere only (3, 4).
var compressorToBarrel = []Link{{0, 1}, {1, Barrel}, {2, 0}, {0, Atmosphere}, {Atmosphere, 3}}

func bothWays(int, Way) bool { return true }

func TestReachedOnAGraphDrawnByHand(t *testing.T) {
	forward := func(_ int, way Way) bool { return way == Along }
	backward := func(_ int, way Way) bool { return way == Against }
	without := func(shut int) func(int, Way) bool { return func(link int, _ Way) bool { return link != shut } }
	for _, tc := range []struct {
		name   string
		start  Node
		passes func(int, Way) bool
		want   []bool // volumes 0 to 3, barrel, atmosphere
	}{
		{"everything open: all but what stands behind the atmosphere", Barrel, bothWays, []bool{true, true, true, false, true, false}},
		{"whose air gets to the barrel", Barrel, backward, []bool{true, true, true, false, true, false}},
		{"where the barrel's air gets to", Barrel, forward, []bool{false, false, false, false, true, false}},
		{"where tank 0's air gets to", 0, forward, []bool{true, true, false, false, true, false}},
		{"the check valve shut", Barrel, without(0), []bool{false, true, false, false, true, false}},
		{"the barrel's valve shut", 0, without(1), []bool{true, true, true, false, false, false}},
		{"from the atmosphere itself", Atmosphere, forward, []bool{false, false, false, true, false, true}},
		{"nothing open", 3, func(int, Way) bool { return false }, []bool{false, false, false, true, false, false}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			require.Equal(t, tc.want, []bool(Reached(compressorToBarrel, 4, tc.start, tc.passes)))
		})
	}
}

// Two ways out of tank 0: one valve of 9 kPa, or two of 3 and 4 kPa. From the
// barrel only the long way is left. What a link holds back it holds back Along.
func TestReachFindsTheEasiestWay(t *testing.T) {
	links := []Link{{0, Atmosphere}, {0, 1}, {1, Atmosphere}, {Barrel, 0}}
	holds := []float64{9000, 3000, 4000, 500}
	least := NewPerNode(2, math.Inf(1))
	least.Set(Atmosphere, 0)
	Reach(links, least, cmp.Less[float64], func(i int, way Way, behind float64) float64 {
		if way == Along {
			return math.Inf(1) // the walk goes against the air
		}
		return behind + holds[i]
	})
	require.Equal(t, PerNode[float64]{7000, 4000, 7500, 0}, least)
	require.Equal(t, []float64{7000, 4000}, least.Volumes())
}

func TestReachPanicsOnALoopThatGains(t *testing.T) {
	level := NewPerNode(2, 0.0)
	require.PanicsWithValue(t, "graph: a loop of links makes a value better without end", func() {
		Reach([]Link{{0, 1}}, level, cmp.Less[float64], func(_ int, _ Way, v float64) float64 { return v - 1 })
	})
}

// randomGraph has at most 5 volumes and 9 links, loops and parallel links among them.
type randomGraph struct {
	volumes int
	links   []Link
	open    [][2]bool    // each way
	holds   [][2]float64 // each way
	start   Node
}

func drawGraph(t *rapid.T) (g randomGraph) {
	pick := func(n int) int { return rapid.IntRange(0, n-1).Draw(t, "n") }
	g.volumes = 1 + pick(5)
	node := func() Node { return Node(pick(g.volumes+2)) - 2 }
	for range pick(10) {
		g.links = append(g.links, Link{node(), node()})
		g.open = append(g.open, [2]bool{pick(3) > 0, pick(3) > 0})
		g.holds = append(g.holds, [2]float64{float64(pick(8)), float64(pick(8))}) // whole numbers: sums are exact
	}
	g.start = node()
	return g
}

// everyPath visits the ends of all paths from start that enter no node twice and
// never go on from the atmosphere (unless they start there), with the links they
// take: by enumeration.
func (g *randomGraph) everyPath(visit func(end Node, over []int, ways []Way)) {
	var walk func(at Node, been []Node, over []int, ways []Way)
	walk = func(at Node, been []Node, over []int, ways []Way) {
		visit(at, over, ways)
		for i, l := range g.links {
			for _, way := range []Way{Along, Against} {
				end := l.End(way)
				if l.Start(way) == at && g.open[i][way] && end != Atmosphere && !slices.Contains(been, end) {
					walk(end, append(slices.Clone(been), end), append(slices.Clone(over), i), append(slices.Clone(ways), way))
				}
			}
		}
	}
	walk(g.start, []Node{g.start}, nil, nil)
}

// Every rule that the project walks by, against all paths of a small graph.
func TestReachAgainstEveryPath(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGraph(t)
		joined := NewPerNode(g.volumes, false)
		least := NewPerNode(g.volumes, math.Inf(1)) // sum of what the links hold back
		most := NewPerNode(g.volumes, math.NaN())   // lowest limit on the way, the highest of all ways; NaN: not reached
		const given = 5.0
		g.everyPath(func(end Node, over []int, ways []Way) {
			sum, low := 0.0, given
			for k, i := range over {
				sum += g.holds[i][ways[k]]
				low = min(low, g.holds[i][ways[k]])
			}
			joined.Set(end, true)
			least.Set(end, min(least.At(end), sum))
			if !(most.At(end) >= low) {
				most.Set(end, low)
			}
		})
		passes := func(i int, way Way) bool { return g.open[i][way] }
		require.Equal(t, joined, Reached(g.links, g.volumes, g.start, passes))

		sums := NewPerNode(g.volumes, math.Inf(1))
		sums.Set(g.start, 0)
		Reach(g.links, sums, cmp.Less[float64], func(i int, way Way, v float64) float64 {
			if !passes(i, way) {
				return math.Inf(1)
			}
			return v + g.holds[i][way]
		})
		require.Equal(t, least, sums)

		limits := NewPerNode(g.volumes, math.NaN())
		limits.Set(g.start, given)
		Reach(g.links, limits, func(a, b float64) bool { return cmp.Less(b, a) }, func(i int, way Way, v float64) float64 {
			if !passes(i, way) {
				return math.NaN()
			}
			return min(v, g.holds[i][way])
		})
		for n := Node(-2); int(n) < g.volumes; n++ {
			if math.IsNaN(most.At(n)) {
				require.True(t, math.IsNaN(limits.At(n)), "node %d: %g", n, limits.At(n))
				continue
			}
			require.Equal(t, most.At(n), limits.At(n), "node %d", n)
		}
	})
}
