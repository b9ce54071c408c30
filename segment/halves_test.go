package segment

import (
	"fmt"
	"strings"
	"testing"

	"captally.example/captally/segment/caption"
)

// TestJoinHalves checks that of a repetition counted on its way there and back the two ways are one, and that holds which all begin alike stay.
func TestJoinHalves(t *testing.T) {
	for said, want := range map[string]int{"up two three down two three": 4, "hold two three hold two three": 8} {
		src := "1\n00:00:05,000 --> 00:00:35,000\n" + strings.Repeat(said+" ", 4) + "\n"
		track, err := caption.Parse([]byte(src), "test.srt", caption.Options{})
		if err != nil {
			t.Fatal(err)
		}
		h := &holds{to: 3}
		for k := range 8 {
			h.cycles = append(h.cycles, cycle{inner: []item{{first: 3*k + 1, last: 3*k + 2, v: 2}, {first: 3*k + 2, last: 3*k + 3, v: 3}}})
		}
		newText(track).joinHalves(h)
		if len(h.cycles) != want {
			t.Errorf("%s, four times: %d repetitions, want %d", said, len(h.cycles), want)
		}
	}
}

// TestCountdownBefore checks that seconds counted down before a set are none of its repetitions.
func TestCountdownBefore(t *testing.T) {
	var b strings.Builder
	for i, line := range []string{"Squats, five reps. Ready.", "Five, four, three, two, one.", "Go.", "One.", "Two.", "Three.", "Four.", "Five.", "Rack them."} {
		at := 5 + 6*i
		fmt.Fprintf(&b, "%d\n00:00:%02d,000 --> 00:00:%02d,500\n%s\n\n", i+1, at, at+5, line)
	}
	if sets := setsOf(t, b.String()); len(sets) != 1 || sets[0].Reps != 5 {
		t.Errorf("%+v, want one set of 5", sets)
	}
}
