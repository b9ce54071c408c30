package analyze

import (
	"math"
	"testing"

	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

func TestHabits(t *testing.T) {
	b := newBuilder()
	b.phase(segment.Talk, 0, 30, "")
	b.say(2, "a b c d e f g h i j k l")
	dose := b.dose(20, "eight of them", 8, 0)
	s := b.counted("row", segment.Both, dose, 30, 2, 1, 2, 3, 4, 5, 6, 7)
	// seven repetitions: the spaces between the numbers are 2 s, and the last two 3 s
	for i, at := range []float64{32, 34, 36, 38, 40, 43, 46} {
		s.Count[i].At = spread(at, 0.2)
	}
	s.TimeCues = []segment.TimeCue{{At: spread(40, 0.2), Said: 10, Actual: 12.5}, {At: spread(35, 0.2), Said: 10, Actual: 20}}
	b.timed(segment.Balance, "stand", segment.Left, segment.Dose{}, 60, 20)
	b.rest(80, 28, 30)
	b.rest(110, 60, 30)
	b.rest(180, 10, 30)
	b.rest(200, 10, 0)
	h := HabitsOf(&b.Session, Measure(&b.Session, Options{}), Options{})
	if len(h.Paces) != 1 || h.Paces[0] != (Pace{"s1", "row", 2}) {
		t.Errorf("paces %+v", h.Paces)
	}
	if math.Abs(h.Slowing-0.5) > 1e-9 { // thirds of six spaces: 2+2 at first, 3+3 at last
		t.Errorf("slowing %v, want 0.5", h.Slowing)
	}
	if h.Rests != (Kept{Kept: 1, Short: 1, Over: 1}) || h.Rests.All() != 3 {
		t.Errorf("rests %+v", h.Rests)
	}
	if h.Doses != (Kept{Short: 1}) || h.Unstated != 1 {
		t.Errorf("doses %+v, %d unstated", h.Doses, h.Unstated)
	}
	want := []Cue{{35, 10, 20, false}, {40, 10, 12.5, true}}
	if len(h.Cues) != 2 || h.Cues[0] != want[0] || h.Cues[1] != want[1] {
		t.Errorf("cues %+v, want %+v", h.Cues, want)
	}
	// talk: before the work, after it, and in the gaps between the rests; the last number is said as the work ends
	talk, rest := 30+16+2+10+10.0, 28+60+10+10.0
	if want := round(16 / (talk + rest) * 60); h.Rate != want {
		t.Errorf("%v words a minute, want %v", h.Rate, want)
	}
	if h.Talk != talk || h.Rest != rest || h.Exercise != 14+20 {
		t.Errorf("talk %v, rest %v, exercise %v", h.Talk, h.Rest, h.Exercise)
	}
	if empty := HabitsOf(&segment.Session{}, Measure(&segment.Session{}, Options{}), Options{}); empty.Rate != 0 || empty.Slowing != 0 || len(empty.Cues)+len(empty.Paces) != 0 {
		t.Errorf("of nothing: %+v", empty)
	}
}

// TestWordsBetween: a word that begins at the end of a stretch belongs to the next.
func TestWordsBetween(t *testing.T) {
	b := newBuilder()
	b.say(10, "a b c") // 10.0, 10.4, 10.8
	for _, c := range []struct {
		from, to float64
		want     int
	}{{0, 10, 0}, {10, 10.4, 1}, {10, 10.8, 2}, {10.2, 99, 2}, {11, 10, 0}} {
		if got := wordsBetween(b.Track, caption.At(c.from), caption.At(c.to)); got != c.want {
			t.Errorf("%v to %v: %d, want %d", c.from, c.to, got, c.want)
		}
	}
}

// TestHabitsInDoubt: what cannot be told is neither kept nor missed, and a remark on the time is not held against anybody where the end of
// the set is known roughly.
func TestHabitsInDoubt(t *testing.T) {
	b := newBuilder()
	d := b.dose(1, "Eleven of them.", 11, 0)
	b.counted("row", segment.Left, d, 10, 3, 1, 2, 3, 4)
	s := b.counted("row", segment.Right, d, 40, 3, 1, 2, 3, 4)
	s.End = spread(52, 8)
	s.TimeCues = []segment.TimeCue{{At: spread(38, 0.2), Said: 10, Actual: 14}}
	b.rest(60, 75, 10) // far longer than announced
	h := HabitsOf(&b.Session, Measure(&b.Session, Options{}), Options{})
	if h.Doses != (Kept{Unsure: 2}) || h.Doses.All() != 2 {
		t.Errorf("doses %+v, want two in doubt", h.Doses)
	}
	if h.Rests != (Kept{Unsure: 1}) {
		t.Errorf("rests %+v, want one in doubt", h.Rests)
	}
	if len(h.Cues) != 1 || !h.Cues[0].Near {
		t.Errorf("cues %+v, want one that is near enough for all that is known", h.Cues)
	}
}
