package analyze

import (
	"sort"

	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

// Habits are what a session shows of how it was led, for the person who led it alone. Lengths are in seconds; a figure that
// cannot be told is 0.
type Habits struct {
	Paces    []Pace  // of the counted sets of work and balance, in their order
	Slowing  float64 // how much longer a repetition takes at the end of a set than at its start, as a share: 0.1 is a tenth
	Rests    Kept    // against what was announced
	Doses    Kept    // the sets, against what was announced
	Unstated int     // sets of work and balance for which no dose was announced
	Cues     []Cue   // remarks on the time left, in their order
	Rate     float64 // words a minute where nobody exercises: talk and rests
	Talk     float64 // without exercise or rest
	Exercise float64 // sets, warm-up and cool-down
	Rest     float64
}

// A Pace is that of one counted set.
type Pace struct {
	Set      string // its ID
	Exercise string
	Seconds  float64 // a repetition
}

// Kept counts what was as announced, what was not, and of what that cannot be told.
type Kept struct{ Kept, Short, Over, Unsure int }

// All returns how many there are.
func (k Kept) All() int { return k.Kept + k.Short + k.Over + k.Unsure }

// A Cue is a remark on the time left, such as "ten more seconds".
type Cue struct {
	At, Said, Actual float64 // seconds; Actual is what was really left
	Near             bool    // whether the two agree within the tolerance, or cannot be told not to
}

// HabitsOf reads the habits from a session and its report. The zero Options mean the usual tolerances.
func HabitsOf(s *segment.Session, r *Report, opt Options) Habits {
	opt = opt.withDefaults()
	h := Habits{Slowing: slowing(s), Rate: rate(s), Talk: r.Totals.Talk, Rest: r.Totals.Rest}
	h.Exercise = round(r.Totals.Work + r.Totals.Balance + r.Totals.WarmUp + r.Totals.CoolDown)
	off := map[string]string{} // set or rest: the kind of its finding, "unsure" where it is in doubt
	for _, f := range r.Findings {
		switch {
		case rank[f.Kind] != 1 && !ofRest(f.Kind):
		case f.Cause == causeSession:
			off[f.Set+f.Rest] = f.Kind
		default:
			for _, set := range append([]string{f.Set + f.Rest}, f.Also...) {
				off[set] = causeUnsure
			}
		}
	}
	for _, x := range r.Sets {
		if !owed(x) {
			continue
		}
		if x.Pace > 0 {
			h.Paces = append(h.Paces, Pace{Set: x.ID, Exercise: x.Exercise, Seconds: x.Pace})
		}
		switch kind := off[x.ID]; {
		case x.Prescribed == nil:
			h.Unstated++
		case kind == "count-short" || kind == "time-short":
			h.Doses.Short++
		case kind == "count-over" || kind == "time-over":
			h.Doses.Over++
		case kind == causeUnsure:
			h.Doses.Unsure++
		default:
			h.Doses.Kept++
		}
	}
	for _, x := range r.Rests {
		switch kind := off[x.ID]; {
		case x.Prescribed == nil:
		case x.Verdict == "kept":
			h.Rests.Kept++
		case kind == "rest-short" || kind == "rest-missing":
			h.Rests.Short++
		case kind == "rest-over":
			h.Rests.Over++
		default:
			h.Rests.Unsure++
		}
	}
	h.cues(s, opt.TimeCues)
	return h
}

func (h *Habits) cues(s *segment.Session, tol Tolerance) {
	add := func(cues []segment.TimeCue, end caption.Spread) {
		for _, c := range cues {
			h.Cues = append(h.Cues, Cue{At: at(c.At.At), Said: round(c.Said), Actual: round(c.Actual), Near: cueOff(c, end, tol) < clearlyOff})
		}
	}
	for i := range s.Sets {
		add(s.Sets[i].TimeCues, s.Sets[i].End)
	}
	for i := range s.Rests {
		add(s.Rests[i].TimeCues, s.Rests[i].End)
	}
	sort.SliceStable(h.Cues, func(i, j int) bool { return h.Cues[i].At < h.Cues[j].At })
}

// fewestSpaces is how many repetitions a set must have after one another, each with its number, to tell whether it slows
// down: three at either end.
const fewestSpaces = 6

// slowing compares the last third of the spaces between numbers with the first, over all sets that have enough of them, as
// the median of the sets.
func slowing(s *segment.Session) float64 {
	var shares []float64
	for i := range s.Sets {
		var spaces []float64
		var last *segment.Number
		for j := range s.Sets[i].Count {
			n := &s.Sets[i].Count[j]
			if n.Origin != segment.Heard || n.Rep == 0 {
				continue
			}
			if last != nil && n.Rep == last.Rep+1 {
				spaces = append(spaces, n.At.At.Seconds()-last.At.At.Seconds())
			}
			last = n
		}
		if third := len(spaces) / 3; len(spaces) >= fewestSpaces {
			if first := sum(spaces[:third]); first > 0 {
				shares = append(shares, sum(spaces[len(spaces)-third:])/first-1)
			}
		}
	}
	return round(median(shares))
}

// rate returns the words a minute in talk and rests.
func rate(s *segment.Session) float64 {
	if s.Track == nil {
		return 0
	}
	words, length := 0, 0.0
	for _, p := range s.Phases {
		if p.Kind != segment.Talk && p.Kind != segment.Rest {
			continue
		}
		length += (p.End - p.Start).Seconds()
		words += wordsBetween(s.Track, p.Start, p.End)
	}
	if length <= 0 {
		return 0
	}
	return round(float64(words) / length * 60)
}

// wordsBetween counts the words that begin in [from,to).
func wordsBetween(t *caption.Track, from, to caption.Time) int {
	begun := func(when caption.Time) int {
		return sort.Search(len(t.Words), func(i int) bool { return t.Words[i].Time.At >= when })
	}
	return max(0, begun(to)-begun(from))
}

func sum(xs []float64) float64 {
	total := 0.0
	for _, x := range xs {
		total += x
	}
	return total
}

// median returns the middle of some figures, or the mean of the two in the middle; 0 for none.
func median(xs []float64) float64 {
	if len(xs) == 0 {
		return 0
	}
	xs = append([]float64(nil), xs...)
	sort.Float64s(xs)
	n := len(xs) / 2
	if len(xs)%2 == 1 {
		return xs[n]
	}
	return (xs[n-1] + xs[n]) / 2
}
