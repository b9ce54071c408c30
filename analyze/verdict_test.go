package analyze

import "testing"

func TestVerdict(t *testing.T) {
	dose := &Dose{Reps: 10}
	sets := func(n int, told int) []Set {
		out := make([]Set, n)
		for i := range out {
			out[i] = Set{ID: setID(i), Phase: "work"}
			if i < told {
				out[i].Prescribed = dose
			}
		}
		return out
	}
	for _, tt := range []struct {
		want     string
		sets     []Set
		findings []Finding
	}{
		{"no sets found", nil, nil},
		{"3 sets, no clear dose", sets(3, 0), nil},
		{"14 of 14 sets as announced", sets(14, 14), nil},
		{"2 of 2 sets as announced, 1 without a clear dose", sets(3, 2), nil},
		{"11 of 13 sets as announced, 1 without a clear dose; 4 to look at; 1 rest short; 1 rest long; 1 captioner's fault", sets(14, 14), []Finding{
			{Kind: "count-over", Cause: "session", Set: "s2"},
			{Kind: "count-repeated", Cause: "session", Set: "s2"},
			{Kind: "time-short", Cause: "session", Set: "s9"},
			{Kind: "count-skipped", Cause: "unsure", Set: "s11"},
			{Kind: "dose-unclear", Cause: "unsure", Set: "s12"},
			{Kind: "rest-short", Cause: "session", Rest: "r1"},
			{Kind: "rest-over", Cause: "session", Rest: "r2"},
			{Kind: "rest-over", Cause: "unsure", Rest: "r3"},
			{Kind: "caption-gap", Cause: "captions", Set: "s3"},
		}},
	} {
		r := &Report{Sets: tt.sets, Findings: tt.findings, Totals: Totals{Sets: len(tt.sets)}}
		if got := Verdict(r); got != tt.want {
			t.Errorf("got %q, want %q", got, tt.want)
		}
	}
}
