package segment

import "testing"

// TestHoldsDown checks that seconds counted down in each of several repetitions are those of one set, and that the same counts are
// several sets where the sides change.
func TestHoldsDown(t *testing.T) {
	const all = "five, four, three, two, one"
	for _, c := range []struct {
		first, between string
		sets           []int
	}{
		{all, "and let go. Again, bend,", []int{3}},
		{"five, four, three, two", "and let go. Again, bend,", []int{3}}, // a captioner lost its last number
		{all, "and let go. Now the other side, left hand, bend,", nil},
	} {
		src := "1\n00:00:10,000 --> 00:00:18,000\nThumb bends, hold each for five seconds. Three of these. Ready, and bend,\n\n" +
			"2\n00:00:18,500 --> 00:00:23,000\n" + c.first + "\n\n3\n00:00:23,100 --> 00:00:26,500\n" + c.between + "\n\n" +
			"4\n00:00:27,000 --> 00:00:31,500\n" + all + "\n\n5\n00:00:31,600 --> 00:00:35,000\n" + c.between + "\n\n" +
			"6\n00:00:35,500 --> 00:00:40,000\n" + all + "\n\n7\n00:00:40,500 --> 00:00:44,000\nand relax. Rest for twenty seconds.\n"
		var reps []int
		for _, s := range setsOf(t, src) {
			reps = append(reps, s.Reps)
		}
		if c.sets == nil {
			if len(reps) == 1 && reps[0] == 3 {
				t.Errorf("%q between: one set of three", c.between)
			}
			continue
		}
		if len(reps) != len(c.sets) || reps[0] != c.sets[0] {
			t.Errorf("%q between: sets of %v, want %v", c.between, reps, c.sets)
		}
	}
}
