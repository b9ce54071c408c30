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

// TestSilentBefore checks that the repetitions before the last ones are counted down belong to the set where there was time for just those.
func TestSilentBefore(t *testing.T) {
	for _, c := range []struct{ seconds, reps int }{{19, 12}, {2, 4}} { // from "tap" to the first number
		src := "1\n00:00:06,000 --> 00:00:09,900\nToe taps, twelve of them. Legs up, and tap.\n\n"
		for i, word := range []string{"four", "three", "two", "one"} {
			at := 1000*(10+c.seconds) + 2100*i
			src += fmt.Sprintf("2\n00:00:%02d,%03d --> 00:00:%02d,%03d\n%s\n\n", at/1000, at%1000, at/1000, min(999, at%1000+400), word)
		}
		src += "3\n00:01:00,000 --> 00:01:04,000\nFeet down one at a time and rest.\n"
		sets := setsOf(t, src)
		if len(sets) != 1 || sets[0].Reps != c.reps {
			t.Errorf("%d s before the count: %+v, want one set of %d", c.seconds, sets, c.reps)
		}
	}
}

// TestUnsaidLast checks that "last one" stands for the announced repetition that has no number, and for no other.
func TestUnsaidLast(t *testing.T) {
	for _, c := range []struct {
		last string
		reps int
	}{{"eight", 8}, {"seven", 8}, {"six", 6}} {
		count := strings.Split("one two three four five six seven eight "+c.last, " "+c.last)[0]
		sets := setsOf(t, everySecond("Leg raises, eight. And up,", count+" "+c.last+"_last_one_and_lower", 3))
		if len(sets) != 1 || sets[0].Reps != c.reps {
			t.Errorf("last one after %s: %+v, want one set of %d", c.last, sets, c.reps)
		}
	}
}
