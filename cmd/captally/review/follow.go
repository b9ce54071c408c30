package review

import (
	"slices"
	"strings"

	"captally.example/captally/analyze"
	"captally.example/captally/analyze/settle"
)

// A slip of the count makes a set fall short of its dose, and the sides differ: one event, which a person settles once, at the
// finding that tells it best. The others follow from it, and stand below it. What follows from a slip that turns out to be none,
// or the captioner's, is measured anew and stands alone again if it is still there.

var (
	slipKinds = []string{"count-skipped", "count-repeated", "count-restarted", "count-jumped", "count-lost"}
	repsKinds = []string{"count-short", "count-over"}
	ofOneSide = slices.Concat([]string{"time-short", "time-over", "dose-unclear"}, repsKinds, slipKinds) // make the sides differ
)

// together puts each finding that follows from another below that one, in the order in which they came.
func together(r *analyze.Report, all []judged) []judged {
	parent := make([]int, len(all))
	for i := range all {
		parent[i] = cause(r, all, i)
	}
	var out []judged
	at := map[int]int{} // by place in all: place in out
	for i, f := range all {
		if parent[i] < 0 {
			at[i] = len(out)
			out = append(out, f)
		}
	}
	for i, f := range all {
		if p := parent[i]; p >= 0 {
			for parent[p] >= 0 {
				p = parent[p]
			}
			j := at[p]
			out[j].follow = append(out[j].follow, f.Finding)
		}
	}
	return out
}

// cause returns the place of the finding from which another follows, -1 for none. What a person has decided on by itself
// stands alone.
func cause(r *analyze.Report, all []judged, i int) int {
	f := all[i]
	if f.verdict != "" {
		return -1
	}
	var kinds, sets []string
	switch {
	case slices.Contains(repsKinds, f.Kind):
		kinds, sets = slipKinds, []string{f.Set}
	case f.Kind == "sides-uneven":
		kinds, sets = ofOneSide, bothSides(r, f.Set)
	}
	best := -1
	for k, x := range all {
		if !slices.Contains(kinds, x.Kind) || !slices.Contains(sets, x.Set) || x.Cause == "captions" || x.verdict == settle.NotSo {
			continue
		}
		if best < 0 || matters(x.Finding) > matters(all[best].Finding) {
			best = k
		}
	}
	return best
}

// bothSides returns the IDs of a set and of its fellow on the other side: the third on the left goes with the third on the right.
func bothSides(r *analyze.Report, id string) []string {
	i := slices.IndexFunc(r.Sets, func(s analyze.Set) bool { return s.ID == id })
	if i < 0 || r.Sets[i].Exercise == "" {
		return []string{id}
	}
	set, nth := r.Sets[i], 0
	var others []string
	for k, s := range r.Sets {
		switch {
		case s.Phase != set.Phase || !strings.EqualFold(s.Exercise, set.Exercise):
		case s.Side != set.Side:
			others = append(others, s.ID)
		case k < i:
			nth++
		}
	}
	if nth < len(others) {
		return []string{id, others[nth]}
	}
	return []string{id}
}
