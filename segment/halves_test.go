package segment

import (
	"fmt"
	"strings"
	"testing"

	"captally.example/captally/segment/caption"
)

// TestHalves checks that a repetition counted on its way there and back is one, and that seconds counted down before a set are none of it.
func TestHalves(t *testing.T) {
	tempo := func(n int) string { return fmt.Sprintf("up two three, down two three, that's %d.", n) }
	for _, c := range []struct {
		name  string
		lines []string
		reps  int
	}{
		{"there and back", []string{"Heel raises, six of them, here we go.", tempo(1), tempo(2), tempo(3), tempo(4), tempo(5), tempo(6), "Have a breather."}, 6},
		{"a countdown before", []string{"Squats, five reps. Ready.", "Five, four, three, two, one.", "Go.", "One.", "Two.", "Three.", "Four.", "Five.", "Rack them."}, 5},
	} {
		var b strings.Builder
		for i, line := range c.lines {
			at := 5 + 6*i
			fmt.Fprintf(&b, "%d\n00:00:%02d,000 --> 00:00:%02d,500\n%s\n\n", i+1, at, at+5, line)
		}
		track, err := caption.Parse([]byte(b.String()), "test.srt", caption.Options{})
		if err != nil {
			t.Fatal(err)
		}
		sets := Decode(track).Sets
		if len(sets) != 1 || sets[0].Reps != c.reps {
			t.Errorf("%s: %+v, want one set of %d", c.name, sets, c.reps)
		}
	}
}
