package review

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"captally.example/captally/analyze"
	"captally.example/captally/analyze/settle"
)

func TestWhatFollowsStandsBelowItsCause(t *testing.T) {
	r := &analyze.Report{Sets: []analyze.Set{
		{ID: "s1", Phase: "work", Exercise: "heel raise", Side: "left"}, {ID: "s2", Phase: "work", Exercise: "Heel raise", Side: "right"},
		{ID: "s3", Phase: "work", Exercise: "heel raise", Side: "left"}, {ID: "s4", Phase: "work", Exercise: "heel raise", Side: "right"},
	}}
	f := func(kind, set, cause string) judged {
		return judged{Finding: analyze.Finding{Kind: kind, Set: set, Cause: cause, Probability: 0.9}}
	}
	ruled := func(j judged, k settle.Kind) judged { j.verdict = k; return j }
	slip, short, sides := f("count-skipped", "s1", "session"), f("count-short", "s1", "session"), f("sides-uneven", "s2", "session")
	for what, test := range map[string]struct {
		in   []judged
		want []string // each with what follows from it
	}{
		"a slip, the dose it spoils, the sides":        {[]judged{short, slip, sides}, []string{"count-skipped count-short sides-uneven"}},
		"no slip":                                      {[]judged{short, sides}, []string{"count-short sides-uneven"}},
		"a slip of the captioner":                      {[]judged{short, f("caption-gap", "s1", "captions")}, []string{"count-short", "caption-gap"}},
		"another set's slip":                           {[]judged{short, f("count-skipped", "s2", "session")}, []string{"count-short", "count-skipped"}},
		"the sides of another round":                   {[]judged{slip, f("sides-uneven", "s4", "session")}, []string{"count-skipped", "sides-uneven"}},
		"a slip that was said":                         {[]judged{short, ruled(slip, settle.Said)}, []string{"count-skipped count-short"}},
		"a slip that was none":                         {[]judged{short, ruled(slip, settle.NotSo)}, []string{"count-short", "count-skipped"}},
		"a dose that was decided on by itself":         {[]judged{ruled(short, settle.NotSo), slip}, []string{"count-short", "count-skipped"}},
		"rests and remarks, which follow from nothing": {[]judged{f("rest-short", "", "session"), f("time-cue-off", "s1", "session"), slip}, []string{"rest-short", "time-cue-off", "count-skipped"}},
	} {
		var got []string
		for _, j := range together(r, test.in) {
			line := j.Kind
			for _, x := range j.follow {
				line += " " + x.Kind
			}
			got = append(got, line)
		}
		if len(got) != len(test.want) {
			t.Errorf("%s: %q, want %q", what, got, test.want)
			continue
		}
		for i := range got {
			if got[i] != test.want[i] {
				t.Errorf("%s: %q, want %q", what, got, test.want)
			}
		}
	}
}

// A session of the corpus: one slip of the count is one thing to settle, and agreeing with the captioner's mistakes leaves the others.
func TestOneEventIsSettledOnce(t *testing.T) {
	captions, err := os.ReadFile(filepath.Join("..", "..", "..", "corpus", "sessions", "knee-weeks4.cue.srt"))
	if err != nil {
		t.Fatal(err)
	}
	h, _ := handOn(t, string(captions))
	s := h.now()
	var slip findingRow
	var faults []string
	for _, f := range s.Findings {
		if f.Where == "Set 4" && f.Cause == "session" {
			slip = f
		}
		if f.Cause == "captions" {
			faults = append(faults, f.Key)
		}
	}
	if len(slip.Follow) != 1 || len(faults) < 3 {
		t.Fatalf("set 4 has %+v; %d faults of the captions", slip, len(faults))
	}
	left := s.Left
	s = h.decide(map[string]any{"finding": slip.Key, "verdict": "said"})
	if s.Left != left-1 || len(s.Changes) != 1 {
		t.Errorf("%d of %d are left after one was settled, by %q", s.Left, left, s.Changes)
	}
	s = h.decide(map[string]any{"agree": faults})
	if s.Left != left-1-len(faults) || len(s.Changes) != 1+len(faults) {
		t.Errorf("%d are left after agreeing with %d of %d", s.Left, len(faults), left-1)
	}
	if _, refused := h.ask("decide", map[string]any{"agree": []string{s.Findings[0].Key}}); refused == "" {
		t.Error("what is no fault of the captions was agreed with as one")
	}
	if s, refused := h.ask("undo", nil); refused != "" || s.Left != left-1 {
		t.Errorf("%d are left after undo (%s), want %d", s.Left, refused, left-1)
	}
}

// What one announcement leaves unclear of several sets is flagged at each of them.
func TestEverySetOfAnUnclearDoseIsFlagged(t *testing.T) {
	captions, err := os.ReadFile(filepath.Join("..", "..", "..", "corpus", "sessions", "walk-stronger.cue.srt"))
	if err != nil {
		t.Fatal(err)
	}
	h, _ := handOn(t, string(captions))
	s := h.now()
	key := ""
	for _, f := range s.Findings {
		if strings.Contains(f.Text, "seem to be announced") && strings.HasPrefix(f.Text, "The 5 sets from") {
			key = f.Key
		}
	}
	if key == "" {
		t.Fatalf("no finding of five sets among %+v", s.Findings)
	}
	for _, row := range s.Sets[:5] {
		if !slices.ContainsFunc(row.Flags, func(x flag) bool { return x.Key == key }) {
			t.Errorf("set %d is not flagged: %+v", row.Number, row.Flags)
		}
	}
}
