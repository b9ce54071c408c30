package segment

import (
	"fmt"
	"strings"
	"testing"
)

// TestTurn checks that the last repetitions of a set may be counted down, that those between which nobody counts are added where the dose
// asks for them, and that a count down which leads in to something else adds none.
func TestTurn(t *testing.T) {
	for _, c := range []struct {
		what, up, down string
		from           string
		reps           int
	}{
		{"down", "one, two, three, four, five,", "three, two, one.", "00:00:29,000", 8},
		{"two in silence", "one, two, three, four,", "two, one.", "00:00:32,000", 8},
		{"leads in", "one, two, three, four, five, six, seven, eight.", "three, two, one, and go.", "00:00:38,500", 8},
	} {
		src := "1\n00:00:10,000 --> 00:00:13,900\nSquats now, eight of them, and down,\n\n"
		at := 14
		for _, word := range strings.Fields(c.up) {
			src += fmt.Sprintf("2\n00:00:%d,000 --> 00:00:%d,500\n%s\n\n", at, at, word)
			at += 3
		}
		h, m, s, ms := 0, 0, 0, 0
		if _, err := fmt.Sscanf(c.from, "%d:%d:%d,%d", &h, &m, &s, &ms); err != nil {
			t.Fatal(err)
		}
		for i, word := range strings.Fields(c.down) {
			src += fmt.Sprintf("3\n00:00:%02d,%03d --> 00:00:%02d,%03d\n%s\n\n", s+3*i, ms, s+3*i, ms+400, word)
		}
		src += "4\n00:01:00,000 --> 00:01:04,000\nRest now, thirty seconds.\n"
		sets := setsOf(t, src)
		if len(sets) == 0 || sets[0].Reps != c.reps {
			t.Errorf("%s: %+v, want a set of %d", c.what, sets, c.reps)
		}
	}
}
