package segment

import "testing"

// TestAdmitted checks that a slip is the session's where the therapist owns up to it, and that the same words about another
// number change nothing. One caption for the whole count leaves the beat unknown.
func TestAdmitted(t *testing.T) {
	slip := func(said string) Slip {
		src := "1\n00:00:20,000 --> 00:00:28,000\nToe lifts, eight of them, and up.\n\n" +
			"2\n00:00:28,000 --> 00:00:52,000\nOne, two, three, four, five, six, eight, nine, ten.\n\n" +
			"3\n00:00:53,000 --> 00:01:01,000\n" + said + "\n"
		for _, set := range setsOf(t, src) {
			for _, s := range set.Slips {
				if s.Expected == 7 || s.Kind == Skipped || s.Kind == Gap {
					return s
				}
			}
		}
		t.Fatalf("%q: no slip found", said)
		return Slip{}
	}
	plain := slip("Good. Sit down and rest there.")
	for _, said := range []string{"Did I say seven? I did not say seven.", "I skipped seven, did you notice?", "What happened to seven? Rest there."} {
		if s := slip(said); s.Session < 0.6 || s.Session < plain.Session+0.2 {
			t.Errorf("%q: session %.2f, without it %.2f", said, s.Session, plain.Session)
		}
	}
	if s := slip("I skipped twelve last week, sit down."); s.Session > plain.Session+0.01 {
		t.Errorf("another number: session %.2f, without it %.2f", s.Session, plain.Session)
	}
}

// TestSummedUp checks that the number of repetitions that the therapist says afterwards decides between the accounts of a
// count, and is no number of the count itself.
func TestSummedUp(t *testing.T) {
	set := func(count, said string) Set {
		src := "1\n00:00:20,000 --> 00:00:28,000\nToe lifts, ten of them, and up.\n\n" +
			"2\n00:00:28,000 --> 00:00:55,000\n" + count + "\n\n" +
			"3\n00:00:56,000 --> 00:01:04,000\n" + said + "\n"
		sets := setsOf(t, src)
		if len(sets) != 1 {
			t.Fatalf("%q: %d sets", said, len(sets))
		}
		return sets[0]
	}
	const twice = "One, two, three, four, five, six, seven, seven, eight, nine, ten."
	for _, c := range []struct {
		count, said string
		reps, last  int
	}{
		{twice, "I heard it, so that's eleven. Sit down.", 11, 10},
		{twice, "Lovely work, my counting is fine, that was ten. Sit down.", 10, 10},
		{"One, two, three, four, five, six, seven, eight, nine, ten.", "That's eleven minutes gone. Sit down.", 10, 10},
	} {
		if s := set(c.count, c.said); s.Reps != c.reps || s.LastNumber != c.last {
			t.Errorf("%s %s: %d repetitions, last number %d; want %d, %d", c.count, c.said, s.Reps, s.LastNumber, c.reps, c.last)
		}
	}
}
