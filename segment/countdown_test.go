package segment

import "testing"

// TestCountdownThenTime checks that ten counted down are repetitions though a length of time follows them, and that seconds which lead
// in to a count are none.
func TestCountdownThenTime(t *testing.T) {
	const down = "ten, nine, eight, seven, six, five, four, three, two, one"
	for _, c := range []struct {
		then string
		sets int
	}{
		{"that's one minute of rest. Sit back.", 1},
		{"one, two, three, four, five, six, seven, eight, nine, ten. Rest.", 1},
	} {
		sets := setsOf(t, "1\n00:00:10,000 --> 00:00:14,000\nHeel raises, ten of them, and up,\n\n2\n00:00:14,500 --> 00:00:33,000\n"+down+",\n\n"+
			"3\n00:00:33,500 --> 00:00:52,000\n"+c.then+"\n\n4\n00:01:40,000 --> 00:01:44,000\nThat is all for today.\n")
		if len(sets) != c.sets || sets[0].Reps != 10 {
			t.Errorf("then %q: %d sets, want one of 10: %+v", c.then, len(sets), sets)
		}
	}
}
