package segment

import (
	"fmt"
	"strings"
	"testing"
)

// TestAskMore checks that more that is asked for, and given, once the announced number is done raises the dose, and that the
// same words on the way to it do not.
func TestAskMore(t *testing.T) {
	for _, c := range []struct {
		count string
		dose  int
	}{
		{"1 2 3 4 5 6 7 8, and four more, 9 10 11 12", 12},
		{"1 2 3 4, four more, 5 6 7 8", 8},
		{"1 2 3 4 5 6 7 8, four more then, no, 9 10", 8},
	} {
		src := "1\n00:00:20,000 --> 00:00:27,000\nToe lifts, eight of them, and up.\n\n" +
			"2\n00:00:28,000 --> 00:00:58,000\n" + c.count + "\n\n3\n00:00:59,000 --> 00:01:04,000\nSit down and rest.\n"
		sets := setsOf(t, src)
		if len(sets) != 1 || sets[0].Announced.Reps != c.dose {
			t.Errorf("%s: %+v, want one set of %d announced", c.count, sets, c.dose)
		}
	}
}

// TestGoesOnFor checks that repetitions which are asked for at the end of a count belong to it where their number is said on the beat.
func TestGoesOnFor(t *testing.T) {
	for last, want := range map[int]int{35: 10, 55: 8} { // when "ten" is said, seconds
		var b strings.Builder
		cue := func(at int, said string) {
			fmt.Fprintf(&b, "%d\n00:00:%02d,000 --> 00:00:%02d,900\n%s\n\n", at, at, at, said)
		}
		cue(5, "Toe lifts, eight of them, and up.")
		for i, n := range strings.Fields("One Two Three Four Five Six Seven Eight") {
			cue(8+3*i, n+".")
		}
		cue(30, "Looking good. Two more.")
		cue(last-1, "Come on.")
		cue(last, "Ten. Sit down.")
		sets := setsOf(t, b.String())
		if len(sets) == 0 || sets[0].Reps != want {
			t.Errorf("ten at %d s: %+v, want %d repetitions", last, sets, want)
		}
	}
}
