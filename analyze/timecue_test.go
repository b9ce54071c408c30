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
