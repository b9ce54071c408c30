package main

import (
	"fmt"
	"io"
	"sort"
	"strings"

	"captally.example/captally/analyze"
	"captally.example/captally/cmd/captally/event"
	"captally.example/captally/cmd/captally/figures"
)

// A row of a session is a set or a rest.
type sessionRow struct {
	set  *analyze.Set
	rest *analyze.Rest
}

func (r sessionRow) start() float64 {
	if r.set != nil {
		return r.set.Start
	}
	return r.rest.Start
}

// inOrder returns the sets and rests of a report in order of time.
func inOrder(r *analyze.Report) []sessionRow {
	var rows []sessionRow
	for i := range r.Sets {
		rows = append(rows, sessionRow{set: &r.Sets[i]})
	}
	for i := range r.Rests {
		rows = append(rows, sessionRow{rest: &r.Rests[i]})
	}
	sort.SliceStable(rows, func(i, j int) bool { return rows[i].start() < rows[j].start() })
	return rows
}

// heading is the first line of a session: what was read.
func heading(r *analyze.Report) string {
	s := r.Source
	clocks := map[string]string{"word": "a time on every word", "cue": "a time on every caption", "block": "a time every half minute or so"}
	parts := []string{figures.Clock(s.Duration) + " long", figures.Count(s.Words, "word")}
	if c := clocks[s.Timing]; c != "" {
		parts = append(parts, c)
	}
	return s.Name + ": " + strings.Join(parts, ", ")
}

// printDone prints what was done: a row a set, a row a rest, in order of time.
func printDone(w io.Writer, r *analyze.Report) {
	if len(r.Sets)+len(r.Rests) == 0 {
		fmt.Fprintln(w, "No set and no rest was found: nothing is counted or timed in these captions.")
		return
	}
	refs, doubt := findingsOf(apart(r.Findings, alike(r))), doubtful(r)
	t := table{columns: []column{{title: "time", right: true}, {title: "exercise", shrink: true}, {title: "side"}, {title: "announced", right: true},
		{title: "done", right: true}, {title: "range"}, {title: "under tension"}, {title: "pace", right: true}, {title: "see"}}}
	for _, row := range inOrder(r) {
		if s := row.set; s != nil {
			value, limits := done(s.Performed)
			t.add(figures.Clock(s.Start), exercise(s), side(s.Side), figures.Dose(s.Prescribed)+doubt[s.ID], value, limits, length(s.Tension), figures.Seconds(s.Pace), refs[s.ID])
			continue
		}
		rest := row.rest
		announced := ""
		if rest.Prescribed != nil {
			announced = figures.Seconds(*rest.Prescribed)
		}
		t.add(figures.Clock(rest.Start), restName(rest, event.Off(r, rest.ID)), "", announced, figures.Seconds(rest.Length.Value), figures.Within(rest.Length.Low, rest.Length.High, "-"), "", "", refs[rest.ID])
	}
	t.print(w)
}

// exercise names a set; counted moves of the warm-up and cool-down say so.
func exercise(s *analyze.Set) string {
	name := s.Exercise
	if name == "" {
		name = "(no name said)"
	}
	if s.Phase == "warm-up" || s.Phase == "cool-down" {
		name += ", " + s.Phase
	}
	return name
}

func side(s string) string {
	if s == "both" {
		return ""
	}
	return s
}

// restName says whether a rest was kept; off whether it is told of the session where it was not.
func restName(r *analyze.Rest, off bool) string {
	name := map[string]string{"kept": "kept", "over": "too long", "short": "too short"}[r.Verdict]
	switch {
	case name == "":
		return "- rest"
	case r.Verdict != "kept" && !off:
		return "- rest, perhaps " + name
	}
	return "- rest, " + name
}

// doubtful returns a question mark for each set whose announced dose may belong to another.
func doubtful(r *analyze.Report) map[string]string {
	out := map[string]string{}
	for _, f := range r.Findings {
		if f.Kind == "dose-unclear" {
			for _, set := range append([]string{f.Set}, f.Also...) {
				out[set] = "?"
			}
		}
	}
	return out
}

// findingsOf returns for each set and rest the ids of its findings, "f2 f5"; of more than three the first two and how many more.
func findingsOf(findings []analyze.Finding) map[string]string {
	ids := map[string][]string{}
	for _, f := range findings {
		for _, of := range append([]string{f.Set, f.Rest}, f.Also...) {
			ids[of] = append(ids[of], f.ID)
		}
	}
	refs := map[string]string{}
	for of, list := range ids {
		if more := len(list) - 2; more > 1 {
			list = append(list[:2:2], fmt.Sprintf("+%d", more))
		}
		refs[of] = strings.Join(list, " ")
	}
	return refs
}

// printTotals prints the sums of a session, and what the limits mean.
func printTotals(w io.Writer, r *analyze.Report) {
	t := r.Totals
	fmt.Fprintln(w)
	if t.Sets > 0 {
		fmt.Fprintln(w, wrap("In all: ", fmt.Sprintf("%s, %s, %s under tension (%s-%s).", figures.Count(t.Sets, "set"), figures.Count(t.Reps, "rep"),
			figures.Minutes(t.Tension.Value), figures.Minutes(t.Tension.Low), figures.Minutes(t.Tension.High))))
	}
	var shares []string
	for _, kind := range []struct {
		name   string
		length float64
	}{{"warm-up", t.WarmUp}, {"work", t.Work}, {"balance", t.Balance}, {"rest", t.Rest}, {"cool-down", t.CoolDown}, {"talk", t.Talk}} {
		if kind.length > 0 {
			shares = append(shares, kind.name+" "+figures.Minutes(kind.length))
		}
	}
	if len(shares) > 0 {
		fmt.Fprintln(w, wrap("Time:   ", strings.Join(shares, ", ")+"."))
	}
	if len(r.Sets)+len(r.Rests) > 0 {
		fmt.Fprintln(w, wrap("Range:  ", "the true figure lies in the range, or between the figures in brackets, 9 times in 10; none is printed where there is no doubt."))
	}
	if len(doubtful(r)) > 0 {
		fmt.Fprintln(w, wrap("Dose?   ", "an announced number with a question mark was perhaps meant for another set."))
	}
}
