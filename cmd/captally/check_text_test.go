package main

import (
	"strings"
	"testing"

	"captally.example/captally/analyze"
)

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
