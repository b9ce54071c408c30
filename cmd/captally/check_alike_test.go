package main

import (
	"fmt"
	"testing"

	"captally.example/captally/analyze"
)

// misheardReport has a mishearing for each word, each of a set and ten seconds after the last.
func misheardReport(words ...string) *analyze.Report {
	r := &analyze.Report{}
	for i, w := range words {
		f := analyze.Finding{ID: fmt.Sprintf("f%d", i+1), Kind: "caption-misheard", Cause: "captions", At: float64(10 * i), Set: "s1", Probability: 0.96 - float64(i)/100, Text: w}
		r.Findings = append(r.Findings, f)
		r.Repairs = append(r.Repairs, analyze.Repair{Kind: analyze.RepairMisheard, Finding: f.ID, Written: []string{w}, Numbers: []int{2}})
	}
	return r
}

// TestAlike: one mishearing that comes three times is told once, at its first, with all its times; twice, or with another word, it is not.
func TestAlike(t *testing.T) {
	r := misheardReport("to", "too", "To", "for", "to", "too")
	groups := alike(r)
	if len(groups) != 1 || len(groups["f1"]) != 3 {
		t.Fatalf("groups %v, want one of f1, f3 and f5", groups)
	}
	if got, want := alikeText(r, groups["f1"]), "3 times the captions show “to” where 2 was due: at 0:00, 0:20 and 0:40. (92%)"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	var left string
	for _, f := range apart(r.Findings, groups) {
		left += f.ID + " "
	}
	if left != "f1 f2 f4 f6 " {
		t.Errorf("apart stand %s, want f1 f2 f4 f6", left)
	}
	r.Findings[2].Cause = "unsure" // a person need look at it
	r.Findings[4].Settled = true   // and has decided on that one
	if groups := alike(r); len(groups) != 0 {
		t.Errorf("groups %v of one, one unsure and one settled", groups)
	}
}
