package analyze

import (
	"fmt"
	"math"
	"testing"

	"captally.example/captally/segment"
)

func TestRepairs(t *testing.T) {
	b := newBuilder()
	b.counted("row", segment.Both, segment.Dose{}, 10, 2, 1, 2, 3)
	first, _ := b.say(17, "2, 3, free fourfive 67 9, fine 11 one to three")
	s := &b.Sets[0]
	slip := func(kind segment.SlipKind, from, to, said, expected int, captions float64) {
		s.Slips = append(s.Slips, segment.Slip{Kind: kind, First: first + from, Last: first + to, Said: said, Expected: expected,
			Captions: captions, Session: 1 - captions, At: b.Track.Words[first+from].Time})
	}
	slip(segment.Doubled, 0, 2, 2, 4, 0.9)
	slip(segment.Misheard, 2, 3, 0, 3, 0.8)
	slip(segment.Misheard, 3, 4, 0, 4, 0.85)
	slip(segment.Misheard, 3, 4, 0, 5, 0.85) // the same word stands for two
	slip(segment.Misheard, 4, 5, 0, 6, 0.7)  // and "67" for two without a second slip
	slip(segment.Gap, 5, 6, 9, 8, 0.95)
	slip(segment.Skipped, 7, 8, 11, 10, 0.1) // the speaker's own: nothing to mend
	slip(segment.Gap, 10, 11, 3, 2, 0.9)     // "to" stands where two is missing
	s.Count = append(s.Count, segment.Number{Said: 5, Word: first + 6, Rep: 9, Origin: segment.CaptionMisheard, Prob: 0.6})
	want := []string{
		"doubled f1 [2 3] []", "misheard f2 [free] [3]", "joined f3 [fourfive] [4 5]", "joined f4 [67] [6 7]",
		"dropped f5 [] [8]", "misheard  [fine] [5]", "misheard f7 [to] [2]",
	}
	r := Measure(&b.Session, Options{})
	ids := map[string]string{} // finding: f1...f5 in the order of the repairs
	for i, x := range r.Repairs {
		if x.Finding != "" {
			if ids[x.Finding] == "" {
				ids[x.Finding] = fmt.Sprintf("f%d", i+1)
			}
			f := findingOf(r, x.Finding)
			if f == nil || f.Cause != causeCaptions || math.Abs(f.At-x.At) > 0.5 {
				t.Errorf("repair %+v is of finding %+v", x, f)
			}
		}
		got := fmt.Sprintf("%s %s %v %v", x.Kind, ids[x.Finding], x.Written, x.Numbers)
		if f := findingOf(r, x.Finding); f != nil && x.Probability != f.Probability || f == nil && x.Probability != 0.6 {
			t.Errorf("repair %d: probability %v, its finding %+v", i, x.Probability, f)
		}
		if i >= len(want) || got != want[i] {
			t.Errorf("repair %d is %q, want %q", i, got, append(want, "")[min(i, len(want))])
		}
		if x.Line != x.First+1 {
			t.Errorf("repair %d: line %d of word %d", i, x.Line, x.First)
		}
	}
	if len(r.Repairs) != len(want) {
		t.Errorf("%d repairs, want %d", len(r.Repairs), len(want))
	}
}

func findingOf(r *Report, id string) *Finding {
	for i := range r.Findings {
		if r.Findings[i].ID == id {
			return &r.Findings[i]
		}
	}
	return nil
}
