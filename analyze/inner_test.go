package analyze

import (
	"testing"

	"captally.example/captally/segment"
)

// TestWithinRepetition: what is missing between the sixth and the seventh repetition cannot be the number of a repetition when it is a 3.
func TestWithinRepetition(t *testing.T) {
	for _, tt := range []struct {
		kind segment.SlipKind
		due  int
		pace float64
		want string
	}{
		{segment.Gap, 3, 8, "At 1:10 (squeeze) the captions leave out 3 in the count within a repetition. The session was probably fine."},
		{segment.Gap, 3, 2, "At 0:20 (squeeze) the captions leave out 3 while the beat goes on. The session was probably fine."}, // too fast to count within
		{segment.Gap, 14, 8, "At 1:10 (squeeze) the captions leave out 14 while the beat goes on. The session was probably fine."},
	} {
		b := newBuilder()
		s := b.counted("squeeze", segment.Both, segment.Dose{}, 4, tt.pace, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10)
		when := 4 + 8.3*tt.pace // between the eighth and the ninth
		s.Slips = []segment.Slip{{Kind: tt.kind, At: spread(when, 0.2), First: 9, Last: 9, Expected: tt.due, Captions: 0.9}}
		f := Measure(&b.Session, Options{}).Findings
		if len(f) != 1 || f[0].Text != tt.want {
			t.Errorf("%d due at a pace of %v s: %+v, want %q", tt.due, tt.pace, f, tt.want)
		}
	}
}

// TestToldOnce: a hold of which the last second is missing says nothing more where the repetition's own number was left out.
func TestToldOnce(t *testing.T) {
	for _, tt := range []struct {
		left float64 // probability that the number of the repetition was left out by the therapist
		due  int     // what the hold lacks
		want string
	}{
		{0.97, 5, "count-skipped"},
		{0.97, 4, "count-skipped caption-gap"},
		{0.1, 5, "caption-gap caption-gap"},
	} {
		b := newBuilder()
		s := b.counted("leg raise", segment.Right, segment.Dose{}, 10, 8, 1, 2, 3, 4, 6, 7, 8)
		six := s.Count[4]
		s.Slips = []segment.Slip{
			{Kind: segment.Skipped, At: six.At, First: six.Word, Last: six.Word + 1, Said: 6, Expected: 5, Session: tt.left, Captions: 0.98 - tt.left},
			{Kind: segment.Gap, At: spread(six.At.At.Seconds()+3, 0.2), First: six.Word + 1, Last: six.Word + 1, Expected: tt.due, Captions: 0.5},
		}
		if got := kinds(Measure(&b.Session, Options{})); got != tt.want {
			t.Errorf("5 left out with %v, hold without %d: %q, want %q", tt.left, tt.due, got, tt.want)
		}
	}
}
