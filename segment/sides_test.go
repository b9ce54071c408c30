package segment

import (
	"strings"
	"testing"
)

// TestSessionSide checks that a side which is said once for the whole session is that of its sets, and that one which is only spoken of, or
// a movement of both sides, has none; and that some movements go by turns by their name.
func TestSessionSide(t *testing.T) {
	const count = "one two three four five six seven eight"
	for _, c := range []struct {
		opening, name string
		far           bool // much is said between the opening and the set
		side          string
	}{
		{"I'm showing this on my left shoulder today.", "Table slides", true, "left"},
		{"Today's operated leg is the right leg.", "Heel slides", true, "right"},
		{"If your bad leg is the right one, swap it over.", "Heel slides", true, "both"},
		{"Today's operated leg is the right leg.", "Squats", true, "both"},
		{"On your back now, knees above the hips.", "Dead bugs", false, "alternate"},
		{"On your side now, and the right leg is on top.", "Clams", false, "right"},
	} {
		talk := ""
		if c.far {
			talk = strings.Repeat("The chair should stand on a mat so that it does not slip away while we work. ", 8)
		}
		src := "1\n00:00:02,000 --> 00:00:06,000\n" + c.opening + " " + talk + "\n\n" + everySecond(c.name+", eight of them. And go,", count, 3)
		sets := setsOf(t, src)
		if len(sets) != 1 || sets[0].Side.String() != c.side {
			t.Errorf("%s %s: %+v, want one set, %s", c.opening, c.name, sets, c.side)
		}
	}
}
