package main

import (
	"bytes"
	"strings"
	"testing"

	"captally.example/captally/analyze"
)

func TestAdvice(t *testing.T) {
	finding := func(kind, cause string, at float64) analyze.Finding {
		return analyze.Finding{Kind: kind, Cause: cause, At: at}
	}
	r := &analyze.Report{Findings: []analyze.Finding{
		finding("count-skipped", "session", 90), finding("count-repeated", "session", 60), finding("count-lost", "unsure", 30),
		finding("rest-short", "session", 200), finding("caption-doubled", "captions", 300),
	}}
	got := strings.Join(advice(r, analyze.Habits{Rate: 172}), "\n")
	for _, want := range []string{"slipped at 1:00 and 1:30.", "rest ended early at 3:20.", "172 words a minute", "wrong in 1 place"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
	if strings.Contains(got, "0:30") {
		t.Errorf("what is unsure is held against nobody:\n%s", got)
	}
	if all := advice(r, analyze.Habits{Rate: 172, Unstated: 2, Cues: []analyze.Cue{{}}, Rests: analyze.Kept{Over: 1}}); len(all) != mostAdvice {
		t.Errorf("%d things to mind, want %d", len(all), mostAdvice)
	}
	if none := advice(&analyze.Report{}, analyze.Habits{}); len(none) != 1 || !strings.HasPrefix(none[0], "Nothing") {
		t.Errorf("of a session without a fault: %q", none)
	}
	if got, want := andMore([]string{"1", "2", "3", "4", "5"}), "1, 2, 3, and 2 more times"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestHabitsOfNothing(t *testing.T) {
	var b bytes.Buffer
	printHabits(&output{Writer: &b, plain: true}, &analyze.Report{}, analyze.Habits{})
	if text := b.String(); !strings.HasSuffix(text, "\nNothing to tell: no count and no exercise phrase was found.\n") {
		t.Errorf("told of nothing:\n%s", text)
	}
}
