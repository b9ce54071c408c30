package segment

import "slices"

// A count may reach into another: its last numbers may be those with which the next begins ("eight ... ten, nine, eight").

const (
	leastCut    = 3   // numbers that are left of a count that is cut short, at least
	leastRival  = 4.0 // nats of a count before whose beginning another is cut off
	mostCutAway = 4   // numbers that are cut off at most: with more it is a count of its own
)

// cutShort returns, for each count that reaches into a later one, what it is without the numbers that lie there.
func (x *text) cutShort(runs []run) []run {
	var out []run
	order := make([]int, len(runs))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return runs[a].first().first - runs[b].first().first })
	for k, i := range order {
		a := &runs[i]
		if !a.aloud() || x.countsIn(a) {
			continue
		}
		last := -1
		for _, j := range order[k+1:] {
			b := &runs[j]
			if b.first().first > a.last().last {
				break
			}
			from := b.first().first
			if from > 0 && x.w[from-1].num == b.first().v { // "ten: ten, nine, eight"
				from--
			}
			if !b.aloud() || b.score < leastRival || from <= a.first().first || from >= a.last().last || b.last().last <= a.last().last {
				continue
			}
			n := len(a.items)
			for n > 0 && a.items[n-1].last > from {
				n--
			}
			if n < leastCut || len(a.items)-n > mostCutAway || n == last || a.sums[n-1] < leastRun {
				continue
			}
			last = n
			out = append(out, run{rule: a.rule, items: a.items[:n:n], score: a.sums[n-1], sums: a.sums[:n:n]})
		}
	}
	return out
}
