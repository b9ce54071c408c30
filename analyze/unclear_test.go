package analyze

import (
	"slices"
	"testing"

	"captally.example/captally/segment"
)

// TestUnclearTogether: what one announcement leaves unclear of several sets is one finding; another announcement has its own.
func TestUnclearTogether(t *testing.T) {
	b := newBuilder()
	d := b.dose(1, "Last round, minute eleven.", 11, 0)
	b.counted("carry", segment.Left, d, 10, 3, 1, 2, 3, 4)
	b.counted("carry", segment.Right, d, 40, 3, 1, 2, 3, 4)
	b.counted("row", segment.Both, b.dose(60, "Row, eleven.", 11, 0), 70, 3, 1, 2, 3, 4)
	f := Measure(&b.Session, Options{}).Findings
	if len(f) != 2 || f[0].Set != "s1" || !slices.Equal(f[0].Also, []string{"s2"}) || f[1].Set != "s3" || f[1].Also != nil {
		t.Fatalf("%+v, want one finding of s1 and s2, and one of s3", f)
	}
	if want := "The sets at 0:10 (carry, left) and 0:40 (carry, right) have 4 repetitions each where 11 seem to be announced. " +
		"Perhaps the dose was changed, or meant for another set."; f[0].Text != want {
		t.Errorf("got %q, want %q", f[0].Text, want)
	}
	b.counted("carry", segment.Left, d, 100, 3, 1, 2, 3)
	if want := "The 3 sets from 0:10 (carry, left) to 1:40 (carry, left) have 3 to 4 repetitions where 11 seem to be announced. " +
		"Perhaps the dose was changed, or meant for another set."; Measure(&b.Session, Options{}).Findings[0].Text != want {
		t.Errorf("got %q, want %q", Measure(&b.Session, Options{}).Findings[0].Text, want)
	}
	ruled := Settlement{Rulings: []Ruling{{Finding: Finding{Kind: "dose-unclear", Set: "s2"}, Cause: "session"}}}
	if got := kinds(MeasureSettled(&b.Session, Options{}, ruled)); got != "count-short dose-unclear dose-unclear" {
		t.Errorf("the second ruled to be short: %q", got)
	}
}

// TestMayBeSeconds: five counted where thirty was said are hardly thirty repetitions, and no sentence mixes the two.
func TestMayBeSeconds(t *testing.T) {
	for _, tt := range []struct {
		announced int
		want      string
	}{
		{1, "The set at 0:10 (calf stretch) has 5 repetitions where 1 seems to be announced. Perhaps the dose was changed, or meant for another set."},
		{30, "The set at 0:10 (calf stretch) has 5 repetitions, and 30 was announced: perhaps seconds, or the dose of another set."},
		{10, "The set at 0:10 (calf stretch) has 5 repetitions where 10 seem to be announced. Perhaps the dose was changed, or meant for another set."},
		{32, "The set at 0:10 (calf stretch) has 5 repetitions where 32 seem to be announced. Perhaps the dose was changed, or meant for another set."},
	} {
		b := newBuilder()
		b.counted("calf stretch", segment.Both, segment.Dose{Reps: tt.announced}, 10, 3, 1, 2, 3, 4, 5)
		if f := Measure(&b.Session, Options{}).Findings; len(f) != 1 || f[0].Text != tt.want {
			t.Errorf("5 for %d: %+v, want %q", tt.announced, f, tt.want)
		}
	}
	b := newBuilder()
	b.timed(segment.Work, "plank", segment.Both, segment.Dose{Seconds: 60}, 10, 16)
	if want := "The set at 0:10 (plank) lasts 16 seconds where 60 seconds seem to be announced. Perhaps the dose was changed, or meant for another set."; Measure(&b.Session, Options{}).Findings[0].Text != want {
		t.Errorf("got %q, want %q", Measure(&b.Session, Options{}).Findings[0].Text, want)
	}
}
