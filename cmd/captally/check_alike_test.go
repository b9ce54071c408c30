package main

import (
	"fmt"
	"strings"
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

// TestTold: what the heading of a cause says already is not said again, and how sure the unsure is, is no figure.
func TestTold(t *testing.T) {
	for _, tt := range []struct{ cause, text, want string }{
		{"session", "You say 3 twice.", "You say 3 twice. (80%)"},
		{"unsure", "The captions show no 12.", "The captions show no 12."},
		{"captions", "The captions show “to” where 2 was due. The session was fine.", "The captions show “to” where 2 was due. (80%)"},
		{"captions", "The captions leave out 2. The session was probably fine.", "The captions leave out 2. The session was probably fine. (80%)"},
	} {
		if got := told(analyze.Finding{Cause: tt.cause, Text: tt.text, Probability: 0.8}); got != tt.want {
			t.Errorf("%s: got %q, want %q", tt.cause, got, tt.want)
		}
	}
}

// TestHence: what follows from a slip is told beneath it, and counts as the one thing that it is.
func TestHence(t *testing.T) {
	f := func(id, kind, set string) analyze.Finding {
		return analyze.Finding{ID: id, Kind: kind, Set: set, Cause: "session", Probability: 0.9, Text: "The " + kind + "."}
	}
	r := &analyze.Report{
		Sets: []analyze.Set{{ID: "s1", Exercise: "row", Side: "left"}, {ID: "s2", Exercise: "row", Side: "right"}, {ID: "s3", Exercise: "curl"}},
		Findings: []analyze.Finding{
			f("f1", "count-short", "s1"), f("f2", "count-over", "s3"), f("f3", "rest-short", ""), f("f4", "count-skipped", "s1"), f("f5", "sides-uneven", "s2"),
			f("f6", "count-skipped", "s3"),
		},
	}
	var b strings.Builder
	printFindings(&output{Writer: &b}, r, "session", "Done", "")
	var order []string
	for _, line := range strings.Split(b.String(), "\n")[2:] {
		if fields := strings.Fields(line); len(fields) > 2 {
			order = append(order, fields[0]+" "+fields[2])
		}
	}
	if got, want := strings.Join(order, ", "), "f4 The, f1 Hence, f5 Hence, f6 The, f2 Besides,, f3 The"; got != want {
		t.Errorf("got %s\nwant %s\n%s", got, want, b.String())
	}
	if sentence, _ := verdict(r); !strings.HasPrefix(sentence, "3 things to look at in the session") {
		t.Errorf("three events: %q", sentence)
	}
	r.Findings[3].Cause = "captions" // then the set is short of itself
	if leads := hence(r); leads["f1"] != "" || leads["f5"] != "f1" {
		t.Errorf("a slip of the captions leads: %v", leads)
	}
}

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
