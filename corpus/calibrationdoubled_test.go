package corpus_test

import (
	"slices"
	"testing"

	"captally.example/captally/corpus"
	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

// doubled returns a copy of a track in which word i stands twice, in the time of one.
func doubled(t *caption.Track, i int) *caption.Track {
	out := *t
	out.Words = slices.Insert(slices.Clone(t.Words), i, t.Words[i])
	out.Cues = slices.Clone(t.Cues)
	for k := range out.Cues {
		c := &out.Cues[k]
		if c.First > i {
			c.First++
		}
		if c.Last > i {
			c.Last++
		}
	}
	return &out
}

// TestDoubledNumbers: a number that the captioner wrote twice takes no time, so it should add no repetition. Every set of the first
// sessions that has a number in its middle that is plainly heard has it doubled there, one set at a time. In some sets it still adds
// one; they may not become more.
func TestDoubledNumbers(t *testing.T) {
	for k, most := range []int{3, 12} { // in word and cue timing
		tried, more := 0, 0
		for _, s := range corpus.Sessions() {
			f := s.Files()[k]
			track, err := caption.Parse(f.Data, f.Name, caption.Options{})
			if err != nil {
				t.Fatal(err)
			}
			before := segment.Decode(track)
			for i := range before.Sets {
				set := &before.Sets[i]
				if !set.Counted || len(set.Count) < 4 {
					continue
				}
				n := set.Count[len(set.Count)/2]
				if n.Origin != segment.Heard || n.Word < 0 {
					continue
				}
				tried++
				after := segment.Decode(doubled(track, n.Word))
				for j := range after.Sets {
					o := &after.Sets[j]
					if o.Start.At < set.End.At && o.End.At > set.Start.At && o.Reps > set.Reps {
						more++
						t.Logf("%s at %s, %d twice: %d repetitions, %d before", f.Name, n.At.At, n.Said, o.Reps, set.Reps)
					}
				}
			}
		}
		t.Logf("%s: %d of %d sets", corpus.Timings[k], more, tried)
		if tried < 50 || more > most {
			t.Errorf("%s: a number written twice adds a repetition to %d of %d sets, want at most %d of 50 or more", corpus.Timings[k], more, tried, most)
		}
	}
}
