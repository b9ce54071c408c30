// Package event tells which findings of a report are of one event, and which matter most.
//
// A slip of the count makes a set fall short of its dose, and the sides differ: one event, which is told, and settled, once, at the
// finding that tells it best. The others follow from it.
package event

import (
	"slices"
	"strings"

	"captally.example/captally/analyze"
)

// weights say how much a kind of finding matters to somebody who exercises along with the video: a dose that was not kept
// before a slip of the tongue, a mistake of the captions last. Common practice, no source.
var weights = map[string]float64{
	"count-short": 1, "count-over": 1, "time-short": 1, "time-over": 1, "rest-missing": 0.9, "dose-unclear": 0.8,
	"sides-uneven": 0.8, "count-skipped": 0.75, "count-repeated": 0.75, "count-restarted": 0.75, "count-jumped": 0.75, "count-lost": 0.75,
	"rest-short": 0.7, "rest-over": 0.5, "time-cue-off": 0.5,
	"caption-gap": 0.3, "caption-misheard": 0.3, "caption-doubled": 0.3,
}

// usualWeight is that of a kind which has none above.
const usualWeight = 0.5

// Matters is how high a finding stands in the list: how probable it is times how much its kind matters, and half of that
// where the captions are to blame and nobody need record again.
func Matters(f analyze.Finding) float64 {
	w, known := weights[f.Kind]
	if !known {
		w = usualWeight
	}
	switch f.Cause {
	case "captions":
		w /= 2
	case "unsure": // it may be of the session after all, whatever it is called
		w = max(w, usualWeight)
	}
	return f.Probability * w
}

var (
	slipKinds = []string{"count-skipped", "count-repeated", "count-restarted", "count-jumped", "count-lost"}
	repsKinds = []string{"count-short", "count-over"}
	ofOneSide = slices.Concat([]string{"time-short", "time-over", "dose-unclear"}, repsKinds, slipKinds) // make the sides differ
)

// Cause returns the place of the finding from which the i-th of a list follows, -1 for none; none says of which nothing can follow.
func Cause(r *analyze.Report, list []analyze.Finding, i int, none func(int) bool) int {
	f := list[i]
	var kinds, sets []string
	switch {
	case slices.Contains(repsKinds, f.Kind):
		kinds, sets = slipKinds, []string{f.Set}
	case f.Kind == "sides-uneven":
		kinds, sets = ofOneSide, bothSides(r, f.Set)
	}
	best := -1
	for k, x := range list {
		if !slices.Contains(kinds, x.Kind) || !slices.Contains(sets, x.Set) || x.Cause == "captions" || none(k) {
			continue
		}
		if best < 0 || Matters(x) > Matters(list[best]) {
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

// Off says whether a report tells of the session that a rest was not as long as announced.
func Off(r *analyze.Report, rest string) bool {
	return slices.ContainsFunc(r.Findings, func(f analyze.Finding) bool {
		return f.Rest == rest && f.Cause == "session" && strings.HasPrefix(f.Kind, "rest-")
	})
}
