package segment

import (
	"testing"

	"captally.example/captally/segment/caption"
)

// TestAskMore checks that more that is asked for, and given, once the announced number is done raises the dose, and that the
// same words on the way to it do not.
func TestAskMore(t *testing.T) {
	for _, c := range []struct {
		count string
		dose  int
	}{
		{"1 2 3 4 5 6 7 8, and four more, 9 10 11 12", 12},
		{"1 2 3 4 5 6 7 8, looking good, two more, come on, 10", 10},
		{"1 2 3 4, four more, 5 6 7 8", 8},
		{"1 2 3 4 5 6 7 8, four more then, no, 9 10", 8},
	} {
		src := "1\n00:00:20,000 --> 00:00:27,000\nToe lifts, eight of them, and up.\n\n" +
			"2\n00:00:28,000 --> 00:00:58,000\n" + c.count + "\n\n3\n00:00:59,000 --> 00:01:04,000\nSit down and rest.\n"
		track, err := caption.Parse([]byte(src), "test.srt", caption.Options{})
		if err != nil {
			t.Fatal(err)
		}
		sets := Decode(track).Sets
		if len(sets) != 1 || sets[0].Announced.Reps != c.dose || sets[0].Reps < c.dose {
			t.Errorf("%s: %+v, want one set of %d announced", c.count, sets, c.dose)
		}
	}
}
