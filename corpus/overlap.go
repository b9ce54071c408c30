package corpus

import (
	"cmp"
	"math"
	"slices"
)

// span is a stretch of the recording in seconds.
type span struct{ start, end float64 }

func (s span) length() float64 { return s.end - s.start }

// overlap returns intersection over union, in [0,1].
func overlap(a, b span) float64 {
	union := max(a.end, b.end) - min(a.start, b.start)
	if union <= 0 {
		return 0
	}
	return max(0, min(a.end, b.end)-max(a.start, b.start)) / union
}

// pair joins the spans truth[i] and found[j].
type pair struct{ i, j int }

// match pairs spans one to one, the greatest overlaps first, and leaves out overlaps below least.
// Of equal overlaps the later span goes first.
func match(truth, found []span, least float64) []pair {
	type candidate struct {
		overlap float64
		pair
	}
	var all []candidate
	for i, t := range truth {
		for j, f := range found {
			if v := overlap(t, f); v >= least {
				all = append(all, candidate{v, pair{i, j}})
			}
		}
	}
	slices.SortFunc(all, func(a, b candidate) int {
		return cmp.Or(cmp.Compare(b.overlap, a.overlap), cmp.Compare(b.i, a.i), cmp.Compare(b.j, a.j))
	})
	usedTruth, usedFound := map[int]bool{}, map[int]bool{}
	var out []pair
	for _, c := range all {
		if usedTruth[c.i] || usedFound[c.j] {
			continue
		}
		usedTruth[c.i], usedFound[c.j] = true, true
		out = append(out, c.pair)
	}
	return out
}

// within reports whether x lies in [s.start - slack, s.end + slack].
func (s span) within(x, slack float64) bool { return s.start-slack <= x && x <= s.end+slack }

// beyond returns how far x lies outside the span, 0 for inside.
func (s span) beyond(x float64) float64 {
	if s.start <= x && x <= s.end {
		return 0
	}
	return min(math.Abs(x-s.start), math.Abs(x-s.end))
}
