package analyze

import (
	"fmt"
	"slices"

	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
	"captally.example/captally/segment/numeral"
)

// A Repair says which words of the captions are wrong and which numbers were said in their place. It is made for each
// mistake that the captioner rather than the speaker is believed to have made.
type Repair struct {
	Kind        string   `json:"kind"`              // see the constants
	Finding     string   `json:"finding,omitempty"` // its finding, where there is one
	Set         string   `json:"set"`
	At          float64  `json:"at_s"`
	First       int      `json:"first"`   // words [first,last) of the words as read are wrong, from 0;
	Last        int      `json:"last"`    // for a dropped number none is, and it belongs before word first
	Line        int      `json:"line"`    // of the first word, in the file
	Written     []string `json:"written"` // the words as they stand there
	Numbers     []int    `json:"numbers"` // what was said there; empty where the words stand there twice
	Probability float64  `json:"probability"`
}

// The kinds of a repair.
const (
	RepairDoubled  = "doubled"  // the words were said once and stand there twice
	RepairMisheard = "misheard" // a number was said
	RepairJoined   = "joined"   // several numbers were said
	RepairDropped  = "dropped"  // a number was said and does not stand there
)

// repairOf returns the repair of a slip, nil where there is none to make: the cause is another, nothing is known of the
// number, or of its place among the words. due is what should have been said.
func (f *finder) repairOf(i int, s segment.Slip, due []int) *Repair {
	track := f.session.Track
	if cause, _ := causeOf(s); cause != causeCaptions || track == nil || s.Last <= s.First || s.First < 0 || s.Last > len(track.Words) {
		return nil
	}
	r := newRepair(track, i, s.First, s.Last, s.Captions)
	switch s.Kind {
	case segment.Doubled, segment.Repeated, segment.Restarted:
		r.Kind = RepairDoubled
	case segment.Misheard:
		r.mishear(due, f.session.Sets[i].Count)
	default:
		if d := s.Said - s.Expected; d != 1 && d != -1 {
			return nil
		}
		if soundsDue(track, s) {
			r = newRepair(track, i, s.First-1, s.First, s.Captions)
			r.Kind, r.Numbers = RepairMisheard, due
		} else {
			r.Kind, r.Numbers, r.Last, r.Written = RepairDropped, due, r.First, []string{}
		}
	}
	if slices.Contains(r.Numbers, 0) || r.asWritten(track) {
		return nil
	}
	return r
}

// alike is the cost up to which a word that stands alone between the neighbours of a missing number is that number by its
// sound: "to" for two, "free" for three (see numeral.SoundsLike). Common practice, no source.
const alike = 1.0

// soundsDue says whether one word stands between a number that was said and the number before the missing one, and sounds
// like the missing one: "one to three".
func soundsDue(track *caption.Track, s segment.Slip) bool {
	if s.First < 2 {
		return false
	}
	before, ok := numeral.Single(track.Words[s.First-2].Fold)
	guesses := numeral.SoundsLike(track.Words[s.First-1].Fold)
	return ok && before-s.Expected == s.Expected-s.Said && len(guesses) > 0 && guesses[0].Value == s.Expected && guesses[0].Cost > 0 && guesses[0].Cost <= alike
}

// mishear makes r a repair of words for which numbers were said: those that were due, or all that the count has on the
// words where these are more.
func (r *Repair) mishear(due []int, count []segment.Number) {
	r.Kind, r.Numbers = RepairMisheard, due
	var counted []int
	for _, n := range count {
		if n.Word >= r.First && n.Word < r.Last && n.Said > 0 && n.Origin != segment.CaptionRepeat {
			counted = append(counted, n.Said)
		}
	}
	if len(counted) > len(due) {
		r.Numbers = counted
	}
	if len(r.Numbers) == 1 && len(r.Written) == 1 {
		for _, step := range []int{1, -1} { // "67" for six, seven
			if n := r.Numbers[0]; r.Written[0] == fmt.Sprintf("%d%d", n, n+step) {
				r.Numbers = []int{n, n + step}
				break
			}
		}
	}
	if len(r.Numbers) > 1 {
		r.Kind = RepairJoined
	}
}

// asWritten says whether the words are the number already.
func (r *Repair) asWritten(track *caption.Track) bool {
	if len(r.Numbers) != 1 || r.Last-r.First != 1 {
		return false
	}
	n, ok := numeral.Single(track.Words[r.First].Fold)
	return ok && n == r.Numbers[0]
}

func newRepair(track *caption.Track, set, first, last int, p float64) *Repair {
	r := &Repair{Set: setID(set), At: at(track.Words[first].Time.At), First: first, Last: last, Line: track.Words[first].Line,
		Written: []string{}, Numbers: []int{}, Probability: round(p)}
	for _, w := range track.Words[first:last] {
		r.Written = append(r.Written, w.Text)
	}
	return r
}

// repairs returns the repairs of the findings, and those of numbers in a count that are written as another word without being
// odd enough for a finding, such as "won" for one; in the order of their words, no word in two of them.
func (f *finder) repairs() []Repair {
	var out []Repair
	taken := map[int]bool{}
	add := func(r *Repair) {
		for w := r.First; w < max(r.Last, r.First+1); w++ {
			if taken[w] {
				return
			}
		}
		for w := r.First; w < r.Last; w++ {
			taken[w] = true
		}
		out = append(out, *r)
	}
	for _, x := range f.found {
		if x.repair != nil {
			x.repair.Finding = x.ID
			add(x.repair)
		}
	}
	for i := range f.session.Sets {
		for _, n := range f.session.Sets[i].Count {
			if n.Origin == segment.CaptionMisheard && n.Word >= 0 && n.Said > 0 && f.session.Track != nil && n.Word < len(f.session.Track.Words) && !f.refused[n.Word] {
				r := newRepair(f.session.Track, i, n.Word, n.Word+1, n.Prob)
				r.mishear([]int{n.Said}, f.session.Sets[i].Count)
				if !r.asWritten(f.session.Track) {
					add(r)
				}
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Repair) int { return a.First - b.First })
	return out
}
