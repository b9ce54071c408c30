package chain

import "sort"

// An Interval is a candidate for the places [First, Last) that is better by Score than leaving them alone.
type Interval struct {
	First, Last int
	Score       float64
}

// Choose returns the indices of the intervals that do not overlap and whose scores sum to the most, in the order of their places.
// Of equal choices it takes the one with fewer intervals. It takes n log n time.
func Choose(all []Interval) []int {
	n := len(all)
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool {
		x, y := &all[order[a]], &all[order[b]]
		if x.Last != y.Last {
			return x.Last < y.Last
		}
		return x.First < y.First
	})
	best := make([]float64, n+1)
	take := make([]bool, n)
	prev := make([]int, n)
	for i, k := range order {
		prev[i] = sort.Search(i, func(j int) bool { return all[order[j]].Last > all[k].First })
		best[i+1] = best[i]
		if s := best[prev[i]] + all[k].Score; s > best[i] {
			best[i+1], take[i] = s, true
		}
	}
	var out []int
	for i := n - 1; i >= 0; {
		if take[i] {
			out = append(out, order[i])
			i = prev[i] - 1
		} else {
			i--
		}
	}
	for a, b := 0, len(out)-1; a < b; a, b = a+1, b-1 {
		out[a], out[b] = out[b], out[a]
	}
	return out
}
