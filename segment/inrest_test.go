package segment

import "testing"

// TestInRest checks that the silence of an announced rest is no set, and that the same silence after a sign to begin is one.
func TestInRest(t *testing.T) {
	for _, c := range []struct {
		then string
		sets int
	}{
		{"Rest thirty seconds. And breathe.", 1},
		{"Now a plank, thirty seconds. Ready, and go.", 2},
	} {
		src := everySecond("Squats, eight of them. And down,", "one two three four five six seven eight", 3)
		src = src[:len(src)-len("3\n00:03:00,000 --> 00:03:04,000\nThat is all for today, see you soon.\n")]
		src += "3\n00:00:38,000 --> 00:00:41,000\n" + c.then + "\n\n4\n00:01:11,000 --> 00:01:14,000\nAnd stop. That is all for today, see you soon.\n"
		if sets := setsOf(t, src); len(sets) != c.sets {
			t.Errorf("%q: %d sets, want %d: %+v", c.then, len(sets), c.sets, sets)
		}
	}
}
