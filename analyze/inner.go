package analyze

import "captally.example/captally/segment"

// leastInner is the length of a repetition, in seconds, from which something may have been counted within it. Common practice, no source:
// nobody counts to three in less.
const leastInner = 4.0

// withinRepetition says whether a slip is of the seconds that are counted aloud while a repetition is held ("six, hold, two, three,
// four"), and not of the number of a repetition: what was due there does not stand between the numbers of the repetitions on
// either side of it. People count no faster than three in two seconds there.
func withinRepetition(set *segment.Set, s segment.Slip) bool {
	if s.Kind != segment.Gap && s.Kind != segment.Misheard || s.Expected <= 0 ||
		set.Pace < leastInner || float64(s.Expected) > float64(1.5*set.Pace) {
		return false
	}
	before, after := 0, 0 // the numbers of the repetitions on either side; 0 for none
	for _, n := range set.Count {
		switch {
		case n.Word >= s.First && n.Word < s.Last:
			return false
		case n.Said <= 0:
		case n.At.At <= s.At.At && (s.Last <= s.First || n.Word < s.First):
			before = n.Said
		case after == 0:
			after = n.Said
		}
	}
	switch {
	case before == 0 && after == 0:
		return false
	case after == 0:
		return s.Expected <= before
	case before == 0:
		return s.Expected >= after
	}
	return s.Expected <= min(before, after) || s.Expected >= max(before, after)
}

// toldBefore says whether slip j is a second that a hold may only have ended without, right after a slip in the number of its own
// repetition, with the same number due: both tell of one moment, and the one of the repetition tells more.
func toldBefore(set *segment.Set, j int) bool {
	s := set.Slips[j]
	if j == 0 || s.Kind != segment.Gap || s.Captions > 0.5 || !withinRepetition(set, s) {
		return false
	}
	last := set.Slips[j-1]
	return last.Session > 0.5 && last.Expected == s.Expected && (s.At.At-last.At.At).Seconds() < set.Pace
}
