package segment

import "testing"

// TestSecondsAloud checks that seconds counted aloud in a position that is held are a length of time, and that as many quick repetitions
// of a movement are not.
func TestSecondsAloud(t *testing.T) {
	const count = "one two three four five six seven eight nine ten"
	for _, c := range []struct {
		lead    string
		seconds float64
	}{
		{"Stand on your right leg. I count to ten. One leg stand, and go,", 10},
		{"Now ten quick heel taps with the right leg. Tap, and go,", 0},
	} {
		sets := setsOf(t, everySecond(c.lead, count, 1))
		if len(sets) != 1 {
			t.Errorf("%s: %d sets, want one", c.lead, len(sets))
			continue
		}
		s := &sets[0]
		if s.Counted != (c.seconds == 0) || s.Announced.Seconds != c.seconds || c.seconds > 0 && (s.Performed.Value < 8.5 || s.Performed.Value > 11.5) {
			t.Errorf("%s: counted %v, %v s of %v announced, want %v", c.lead, s.Counted, s.Performed.Value, s.Announced.Seconds, c.seconds)
		}
	}
}

func TestHeldStill(t *testing.T) {
	for name, want := range map[string]bool{
		"One leg stand": true, "standing on one leg": true, "one leg": true, "side plank": true, "tree": true,
		"standing march": false, "standing hip abduction": false, "lift your leg": false, "sit to stand": false, "stand up": false,
	} {
		if heldStill(name) != want {
			t.Errorf("%s: held still %v, want %v", name, !want, want)
		}
	}
}
