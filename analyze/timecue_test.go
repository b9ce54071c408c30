package analyze

import (
	"testing"

	"captally.example/captally/segment"
)

// TestSaidOfTime checks that a remark on the time is told as it was made.
func TestSaidOfTime(t *testing.T) {
	for want, cue := range map[string]segment.TimeCue{
		"10 seconds are left":                          {Said: 10},
		"half is done, which leaves 15 seconds":        {Said: 15, Half: true},
		"20 seconds are gone, which leaves 10 seconds": {Said: 10, Gone: 20},
	} {
		if got := saidOfTime(cue); got != want {
			t.Errorf("%+v: %q, want %q", cue, got, want)
		}
	}
}

// TestTimeCues: a remark is told to be wrong where the times show it clearly, and not where it is hardly more likely than not.
func TestTimeCues(t *testing.T) {
	for _, tt := range []struct {
		left, rough float64 // seconds really left, and how far the end of the set may lie either way
		want        string
	}{
		{10, 0.2, ""}, {13, 0.2, ""}, {13.8, 0.2, "time-cue-off"}, {6.2, 0.2, "time-cue-off"},
		{13.8, 8, ""}, {17, 6, "time-cue-off"},
	} {
		b := newBuilder()
		s := b.timed(segment.Work, "plank", segment.Both, segment.Dose{}, 10, 60)
		s.End = spread(70, tt.rough)
		s.TimeCues = []segment.TimeCue{{At: spread(70-tt.left, 0.2), Said: 10, Actual: tt.left}}
		if got := kinds(Measure(&b.Session, Options{})); got != tt.want {
			t.Errorf("“ten more seconds” with %v s left, give or take %v: %q, want %q", tt.left, tt.rough, got, tt.want)
		}
	}
}
