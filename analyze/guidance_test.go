package analyze

import (
	"strings"
	"testing"

	"captally.example/captally/segment"
)

func TestGuidanceHasSources(t *testing.T) {
	for i, g := range PublishedRanges() {
		if g.Name == "" || g.Unit == "" || g.Population == "" || len(g.Source) < 15 {
			t.Errorf("row %d lacks a name, unit, population or source: %+v", i, g)
		}
		if g.Mark != Verified && g.Mark != Restated && g.Mark != Recalled {
			t.Errorf("row %d: mark %q", i, g.Mark)
		}
		if g.Low < 0 || g.High < g.Low || g.High == 0 {
			t.Errorf("row %d: range %v to %v", i, g.Low, g.High)
		}
		if g.Year != 0 && (g.Year < 1990 || g.Year > 2026) {
			t.Errorf("row %d: year %d", i, g.Year)
		}
	}
}

// TestCompare: two sets of 12 with 90 s between, a 25 s stretch and 8 minutes of warm-up, against what the bodies publish.
func TestCompare(t *testing.T) {
	b := newBuilder()
	b.phase(segment.WarmUp, 0, 480, "")
	twelve := []int{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12}
	b.counted("row", segment.Both, segment.Dose{Reps: 12}, 500, 3, twelve...)
	b.rest(536, 90, 0)
	b.counted("row", segment.Both, segment.Dose{Reps: 12}, 626, 3, twelve...)
	b.timed(segment.Work, "calf stretch", segment.Left, segment.Dose{}, 700, 25)
	r := Measure(&b.Session, Options{})
	got := map[string]string{}
	for _, c := range Compare(r) {
		got[c.What+", "+c.Guidance.Population] = c.Position
		if !strings.HasPrefix(c.Text, "For comparison: ") || !strings.Contains(c.Text, c.Guidance.Source) {
			t.Errorf("no source in %q", c.Text)
		}
	}
	for what, want := range map[string]string{
		"sets of an exercise, older adults, strength":          "inside",
		"rest between sets, older adults, strength":            "below",
		"rest between sets, adults, muscular endurance":        "above",
		"repetitions a set, people after a stroke":             "inside",
		"repetitions a set, adults, muscular endurance":        "below",
		"stretch hold, adults":                                 "inside",
		"stretch hold, older adults":                           "below",
		"warm-up, people in cardiac rehabilitation":            "below", // the last of its rows: 15 min
		"warm-up, adults":                                      "below",
		"warm-up, older adults at risk of falls, home booklet": "above",
	} {
		if got[what] != want {
			t.Errorf("%s: %q, want %q", what, got[what], want)
		}
	}
	if _, ok := got["cool-down, people with heart disease"]; ok {
		t.Error("a cool-down was compared that the session does not have")
	}
}
