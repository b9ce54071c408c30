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

func TestHabitsGrammar(t *testing.T) {
	for _, tt := range []struct{ got, want string }{
		{strings.Join(cueLines(analyze.Habits{Cues: []analyze.Cue{{Near: true}}}), "|"), "1 of 1 was near enough to the time that was left."},
		{strings.Join(cueLines(analyze.Habits{Cues: []analyze.Cue{{Near: true}, {Near: true}, {At: 90, Said: 5, Actual: 17.2}}}), "|"),
			"2 of 3 were near enough to the time that was left.|At 1:30 you said 5 s, and it was 17 s."},
		{strings.Join(keptLines(analyze.Habits{Rests: analyze.Kept{Kept: 4, Short: 1, Unsure: 2}}), "|"), "4 of 7 rests lasted as you announced; 1 short, of 2 it cannot be told."},
	} {
		if tt.got != tt.want {
			t.Errorf("got %q, want %q", tt.got, tt.want)
		}
	}
}
