package notes

import (
	"fmt"
	"math"
	"sort"

	"captally.example/captally/analyze"
)

// corrections returns what a viewer needs to know of the slips that were really made: a wrong count, a set or rest cut short.
// A rest that was longer, or a fault of the captions, needs none.
func corrections(r *analyze.Report) []Correction {
	out := []Correction{}
	told := map[string]bool{} // sets whose count has been put right
	for _, rank := range []map[string]bool{slipKinds, doseKinds, otherKinds} {
		for _, f := range r.Findings {
			if f.Cause != "session" || !rank[f.Kind] || told[f.Set] && !slipKinds[f.Kind] && f.Rest == "" {
				continue
			}
			at, text := correction(r, f)
			if text == "" {
				continue
			}
			out = append(out, Correction{At: at, Text: text, Finding: f.ID})
			if f.Set != "" {
				told[f.Set] = true
			}
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].At < out[j].At })
	return out
}

var (
	slipKinds  = map[string]bool{"count-skipped": true, "count-repeated": true, "count-restarted": true, "count-jumped": true, "count-lost": true}
	doseKinds  = map[string]bool{"count-short": true, "count-over": true, "time-short": true, "time-over": true}
	otherKinds = map[string]bool{"sides-uneven": true, "rest-short": true, "rest-missing": true}
)

// correction words one finding for a viewer, who reads it beside the video. The text is empty where nothing can be said.
func correction(r *analyze.Report, f analyze.Finding) (at float64, text string) {
	if rest := findRest(r, f.Rest); rest != nil && rest.Prescribed != nil {
		return f.At, restCorrection(f, rest)
	}
	set := findSet(r, f.Set)
	if set == nil {
		return 0, ""
	}
	switch {
	case slipKinds[f.Kind]:
		return f.At, slipCorrection(set, f) + inAll(set)
	case f.Kind == "sides-uneven":
		return f.At, fmt.Sprintf("At %s one side gets more than the other. Do the same on both sides.", clock(f.At))
	case set.Prescribed == nil:
		return 0, ""
	}
	return set.Start, doseCorrection(set, f)
}

func restCorrection(f analyze.Finding, rest *analyze.Rest) string {
	if f.Kind == "rest-missing" {
		return fmt.Sprintf("At %s a rest of %s is due. Pause the video to take it.", clock(f.At), seconds(*rest.Prescribed))
	}
	return fmt.Sprintf("The rest at %s is %s, not %s. Pause the video to rest longer.",
		clock(f.At), seconds(rest.Length.Value), number(int(math.Round(*rest.Prescribed))))
}

// slipCorrection tells what the count says, from the entry where it slips and the number said before it.
func slipCorrection(set *analyze.Set, f analyze.Finding) string {
	before, here := countAt(set, f.At)
	at := clock(f.At)
	switch {
	case f.Kind == "count-lost":
		return fmt.Sprintf("At %s the count stops while the moves go on.", at)
	case f.Kind == "count-repeated" && here > 0:
		return fmt.Sprintf("At %s the count says %s twice.", at, number(here))
	case before == 0 || here == 0:
		return fmt.Sprintf("At %s the count is wrong.", at)
	case f.Kind == "count-skipped" && (before-here == 2 || here-before == 2):
		return fmt.Sprintf("At %s the count leaves out %s.", at, number((before+here)/2))
	}
	return fmt.Sprintf("At %s the count goes from %s to %s.", at, number(before), number(here))
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

// inAll adds what to do instead, where a number was announced.
func inAll(set *analyze.Set) string {
	if set.Prescribed == nil || set.Prescribed.Reps == 0 {
		return ""
	}
	return fmt.Sprintf(" Do %s in all.", number(set.Prescribed.Reps))
}

func doseCorrection(set *analyze.Set, f analyze.Finding) string {
	at := clock(set.Start)
	switch {
	case set.Performed.Reps != nil && set.Prescribed.Reps > 0:
		has := number(*set.Performed.Reps)
		if p := set.Performed; p.RepsLow != nil && p.RepsHigh != nil && *p.RepsLow != *p.RepsHigh {
			has = "about " + has
		}
		return fmt.Sprintf("The set at %s has %s, not %s. Do %s in all.", at, has, number(set.Prescribed.Reps), number(set.Prescribed.Reps))
	case set.Performed.Seconds == nil || set.Prescribed.Seconds == 0:
		return ""
	case f.Kind == "time-short":
		return fmt.Sprintf("The set at %s ends after %s. Go on to %s.", at, seconds(*set.Performed.Seconds), number(int(math.Round(set.Prescribed.Seconds))))
	}
	return fmt.Sprintf("The set at %s goes on for %s. You may stop at %s.", at, seconds(*set.Performed.Seconds), number(int(math.Round(set.Prescribed.Seconds))))
}

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
