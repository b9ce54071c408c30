package analyze

import (
	"fmt"
	"math"
	"strings"
)

// totals sums the sets of work and balance, and the phases. Work and balance are the seconds of their sets alone, from the first
// repetition to the last; what is said to announce a set counts as talk. The limits of the sum take the errors of the sets as
// independent of each other, so they combine in quadrature.
func totals(r *Report) Totals {
	var t Totals
	var value, low, high float64
	for _, s := range r.Sets {
		if !owed(s) {
			continue
		}
		t.Sets++
		if s.Performed.Reps != nil {
			t.Reps += *s.Performed.Reps
		}
		value += s.Tension.Value
		low = math.Hypot(low, s.Tension.Value-s.Tension.Low)
		high = math.Hypot(high, s.Tension.High-s.Tension.Value)
	}
	t.Tension = Range{Value: round(value), Low: round(value - low), High: round(value + high)}
	sums := map[string]*float64{
		"work": &t.Work, "rest": &t.Rest, "balance": &t.Balance, "warm-up": &t.WarmUp, "cool-down": &t.CoolDown, "talk": &t.Talk,
	}
	for _, p := range r.Phases {
		*sums[p.Kind] = round(*sums[p.Kind] + p.End - p.Start)
	}
	announcing := t.Work + t.Balance
	t.Work, t.Balance = 0, 0
	for _, s := range r.Sets {
		if owed(s) {
			*sums[s.Phase] = round(*sums[s.Phase] + s.End - s.Start)
		}
	}
	t.Talk = round(t.Talk + math.Max(0, announcing-t.Work-t.Balance))
	return t
}

// owed says whether a set belongs to the dose of the session: work or balance, not a counted move of the warm-up.
func owed(s Set) bool { return s.Phase == "work" || s.Phase == "balance" }

// Verdict sums a report up in one line for a person, such as
// "12 of 14 sets as announced; 2 to look at; 1 rest short". Sets whose dose was not announced, or is unclear, are named apart.
func Verdict(r *Report) string {
	off, unsure, unclear := map[string]bool{}, map[string]bool{}, map[string]bool{}
	rests := map[string]int{}
	faults := 0
	for _, f := range r.Findings {
		switch {
		case f.Cause == causeCaptions:
			faults++
		case f.Cause == causeSession && strings.HasPrefix(f.Kind, "rest-"):
			rests[f.Kind]++
		case f.Set == "" || f.Kind == "time-cue-off":
		case f.Kind == "dose-unclear":
			unclear[f.Set] = true
			for _, also := range f.Also {
				unclear[also] = true
			}
		case f.Cause == causeSession && rank[f.Kind] == 1:
			off[f.Set] = true
		default:
			unsure[f.Set] = true
		}
	}
	told, kept, look := 0, 0, 0
	for _, s := range r.Sets {
		if off[s.ID] || unsure[s.ID] || unclear[s.ID] {
			look++
		}
		if !owed(s) || s.Prescribed == nil || unclear[s.ID] {
			continue
		}
		told++
		if !off[s.ID] {
			kept++
		}
	}
	parts := []string{setsLine(r.Totals.Sets, told, kept)}
	if look > 0 {
		parts = append(parts, fmt.Sprintf("%d to look at", look))
	}
	for _, k := range []struct{ kind, word string }{{"rest-short", "short"}, {"rest-missing", "missing"}, {"rest-over", "long"}} {
		if n := rests[k.kind]; n > 0 {
			parts = append(parts, plural(n, "rest")+" "+k.word)
		}
	}
	if faults > 0 {
		parts = append(parts, plural(faults, "captioner's fault"))
	}
	return strings.Join(parts, "; ")
}

func setsLine(sets, told, kept int) string {
	switch {
	case sets == 0:
		return "no sets found"
	case told == 0:
		return plural(sets, "set") + ", no clear dose"
	case told < sets:
		return fmt.Sprintf("%d of %s as announced, %d without a clear dose", kept, plural(told, "set"), sets-told)
	}
	return fmt.Sprintf("%d of %s as announced", kept, plural(told, "set"))
}

func plural(n int, one string) string { return fmt.Sprintf("%d %s", n, unit(n, one)) }
