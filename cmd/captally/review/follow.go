package review

import (
	"captally.example/captally/analyze"
	"captally.example/captally/analyze/settle"
	"captally.example/captally/cmd/captally/event"
)

// What follows from one event is settled with the finding that tells it best, and stands below it. What follows from a slip that turns out to
// be none, or the captioner's, is measured anew and stands alone again if it is still there.

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
	if all[i].verdict != "" {
		return -1
	}
	list := make([]analyze.Finding, len(all))
	for k := range all {
		list[k] = all[k].Finding
	}
	return event.Cause(r, list, i, func(k int) bool { return all[k].verdict == settle.NotSo })
}
