package notes

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"captally.example/captally/analyze"
)

// corrections returns what a viewer needs to know of the slips that were really made: a wrong count, a set or rest cut short.
// A rest that was longer, or a fault of the captions, needs none; nor does what is not likely enough, for a viewer does what
// is written. A set whose count has been put right needs no second word.
func corrections(r *analyze.Report, w wording) []Correction {
	out := []Correction{}
	told := map[string]bool{} // sets
	unclear := unclearDoses(r, true)
	for _, kinds := range []map[string]bool{slipKinds, doseKinds, otherKinds} {
		for _, f := range r.Findings {
			set := findSet(r, f.Set)
			if f.Cause != "session" || !likelyEnough(f) || !kinds[f.Kind] || doseKinds[f.Kind] && told[f.Set] || f.Kind == "sides-uneven" && toldOf(r, set, told) {
				continue
			}
			at, clause := f.At, ""
			if set == nil {
				clause = w.restClause(f, findRest(r, f.Rest))
			} else if doseKinds[f.Kind] {
				at, clause = set.Start, w.doseClause(set, f)
			} else {
				clause = countClause(set, f)
				if slipKinds[f.Kind] && !unclear[f.Set] {
					clause += inAll(set)
				}
			}
			if clause == "" {
				continue
			}
			out = append(out, Correction{At: at, Text: "At " + clock(at) + " " + clause, Finding: f.ID, clause: clause})
			told[f.Set] = true
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].At < out[j].At })
	return out
}

// The least probabilities at which a viewer is told; the therapist sees the rest in the report. A length needs less: its figure is given
// beside what was announced, and who waits or holds on for that does no more than was meant.
const (
	sureEnough       = 0.8
	sureEnoughLength = 0.65
)

// likelyEnough says whether a viewer is told of a finding.
func likelyEnough(f analyze.Finding) bool {
	if strings.HasPrefix(f.Kind, "time-") || strings.HasPrefix(f.Kind, "rest-") {
		return f.Probability >= sureEnoughLength
	}
	return f.Probability >= sureEnough
}

var (
	slipKinds  = map[string]bool{"count-skipped": true, "count-repeated": true, "count-restarted": true, "count-jumped": true, "count-lost": true}
	doseKinds  = map[string]bool{"count-short": true, "count-over": true, "time-short": true, "time-over": true}
	otherKinds = map[string]bool{"sides-uneven": true, "rest-short": true, "rest-missing": true}
)

// toldOf says whether a set of the same exercise has been put right, which evens its sides.
func toldOf(r *analyze.Report, set *analyze.Set, told map[string]bool) bool {
	for _, s := range r.Sets {
		if set != nil && told[s.ID] && fold(s.Exercise) == fold(set.Exercise) {
			return true
		}
	}
	return false
}

// restClause words a rest that was cut short. It is empty where no rest was announced.
func (w wording) restClause(f analyze.Finding, rest *analyze.Rest) string {
	switch {
	case rest == nil || rest.Prescribed == nil:
		return ""
	case f.Kind == "rest-missing":
		return fmt.Sprintf("a rest of %s is due. Pause the video to take it.", w.seconds(*rest.Prescribed))
	}
	return fmt.Sprintf("the rest is %s, not %s. Pause the video to rest longer.", w.onlySeconds(rest.Length.Value), wholeSeconds(*rest.Prescribed))
}

// countClause words a slip of the count, from the entry where it slips and the number said before it, or uneven sides.
func countClause(set *analyze.Set, f analyze.Finding) string {
	before, here := countAt(set, f.At)
	text := fmt.Sprintf("the count goes from %s to %s.", number(before), number(here))
	switch {
	case f.Kind == "sides-uneven":
		return "one side gets more than the other. Do the same on both sides."
	case f.Kind == "count-lost":
		text = "the count stops while the moves go on."
	case f.Kind == "count-repeated" && here > 0 && here == before:
		text = fmt.Sprintf("the count says %s twice.", number(here))
	case before == 0 || here == 0:
		text = "the count is wrong."
	case f.Kind == "count-skipped" && (before-here == 2 || here-before == 2):
		text = fmt.Sprintf("the count leaves out %s.", number((before+here)/2))
	}
	return text
}

// inAll adds to a slip of the count what to do instead, where a number was announced.
func inAll(set *analyze.Set) string {
	if set.Prescribed == nil || set.Prescribed.Reps == 0 {
		return ""
	}
	return fmt.Sprintf(" Do %s in all.", number(set.Prescribed.Reps))
}

// nearDose is how many repetitions a set may lie from the announced number without that number being in doubt: then the count was
// misread, if anything was.
const nearDose = 2

// unclearDoses returns the sets whose announced dose may belong to another; those that were counted near it, one by one, only where all are
// asked for.
func unclearDoses(r *analyze.Report, all bool) map[string]bool {
	out := map[string]bool{}
	for _, f := range r.Findings {
		if f.Kind == "dose-unclear" && (all || f.Also != nil || !nearIts(findSet(r, f.Set))) {
			out[f.Set] = true
			for _, also := range f.Also {
				out[also] = true
			}
		}
	}
	return out
}

// nearIts says whether a set was counted near its announced number.
func nearIts(set *analyze.Set) bool {
	if set == nil || set.Prescribed == nil || set.Prescribed.Reps == 0 || set.Performed.Reps == nil {
		return false
	}
	off := *set.Performed.Reps - set.Prescribed.Reps
	return -nearDose <= off && off <= nearDose
}

// countAt returns the number said nearest to a time, and the one said before it; 0 for none.
func countAt(set *analyze.Set, at float64) (before, here int) {
	best := 1.5 // seconds; a finding stands on its number
	last := 0
	for _, c := range set.Count {
		if c.Number == 0 || c.Origin == "caption-repeat" {
			continue
		}
		if d := math.Abs(c.At - at); d < best {
			best, before, here = d, last, c.Number
		}
		last = c.Number
	}
	return before, here
}

// doseClause words a set that was shorter or longer than announced. It is empty where nothing was announced.
func (w wording) doseClause(set *analyze.Set, f analyze.Finding) string {
	done, want := set.Performed, set.Prescribed
	switch {
	case want == nil:
		return ""
	case done.Reps != nil && want.Reps > 0:
		has := number(*done.Reps)
		if done.RepsLow != nil && done.RepsHigh != nil && *done.RepsLow != *done.RepsHigh {
			has = "about " + has
		}
		return fmt.Sprintf("the set has %s, not %s. Do %s in all.", has, number(want.Reps), number(want.Reps))
	case done.Seconds == nil || want.Seconds == 0:
		return ""
	case f.Kind == "time-short":
		return fmt.Sprintf("the set ends after %s. Go on to %s.", w.onlySeconds(*done.Seconds), wholeSeconds(want.Seconds))
	}
	return fmt.Sprintf("the set goes on for %s. You may stop at %s.", w.onlySeconds(*done.Seconds), wholeSeconds(want.Seconds))
}

func wholeSeconds(s float64) string { return number(int(math.Round(s))) }

func findSet(r *analyze.Report, id string) *analyze.Set {
	for i := range r.Sets {
		if r.Sets[i].ID == id {
			return &r.Sets[i]
		}
	}
	return nil
}

func findRest(r *analyze.Report, id string) *analyze.Rest {
	for i := range r.Rests {
		if r.Rests[i].ID == id {
			return &r.Rests[i]
		}
	}
	return nil
}
