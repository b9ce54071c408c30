package main

import (
	"strings"
	"testing"

	"captally.example/captally/analyze"
)

// TestDoubtful: the doses of all sets that one unclear announcement was said for stand with a question mark.
func TestDoubtful(t *testing.T) {
	r := &analyze.Report{
		Sets:     []analyze.Set{{ID: "s1", Prescribed: &analyze.Dose{Reps: 6}}, {ID: "s2", Prescribed: &analyze.Dose{Reps: 6}}, {ID: "s3", Prescribed: &analyze.Dose{Reps: 8}}},
		Findings: []analyze.Finding{{ID: "f1", Kind: "dose-unclear", Cause: "unsure", Set: "s1", Also: []string{"s2"}}},
	}
	var b strings.Builder
	printDone(&b, r)
	for _, want := range []string{"6 reps?", "8 reps"} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("no %q in\n%s", want, b.String())
		}
	}
	if strings.Count(b.String(), "6 reps?") != 2 || strings.Contains(b.String(), "8 reps?") || strings.Count(b.String(), "f1") != 2 {
		t.Errorf("two of three sets are in doubt:\n%s", b.String())
	}
	for _, doubt := range []bool{true, false} {
		if !doubt {
			r.Findings = nil
		}
		b.Reset()
		if printTotals(&b, r); strings.Contains(b.String(), "question mark") != doubt {
			t.Errorf("in doubt %v:\n%s", doubt, b.String())
		}
	}
}
