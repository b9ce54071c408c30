package segment

import (
	"sort"

	"captally.example/captally/segment/announce"
	"captally.example/captally/segment/caption"
)

// Counts that are no repetitions: the last seconds of a hold, and what leads in to a count.

const (
	lossCountdown = 4.0  // it only counts down a few seconds
	lossCountIn   = 12.0 // it only leads in: "five, six, seven, eight"
	longestIn     = 4    // numbers of such a one
	holdWords     = 25   // before a count within which time is told of
)

// lossSeconds is what speaks against a count for being one of these, in nats.
func (x *text) lossSeconds(r *run) float64 {
	loss := 0.0
	switch down := r.rule.step < 0; {
	case down && r.first().v <= 5 && x.hurried(r) && !x.endsJustBefore(r):
		loss = lossCountdown
	case down && r.first().v <= 10 && x.timesHold(r):
		loss = 2 * lossCountdown
	}
	if x.countsIn(r) {
		loss += lossCountIn + float64(gainAlone*float64(len(r.items)))
	}
	return loss
}

// hurried reports whether the numbers of a count come about as fast as seconds.
func (x *text) hurried(r *run) bool {
	pace := (r.last().t - r.first().t) / float64(max(1, len(r.items)-1))
	if x.timing == caption.TimingBlock {
		return pace < 4 // the words' own times say little
	}
	return pace < 2
}

// endsJustBefore reports whether numbers that stand apart come so soon before a count down that it goes on from them:
// "nine, ten, five more: five, four, three, two, one".
func (x *text) endsJustBefore(r *run) bool {
	n := 0
	for i := range x.numbers {
		it := &x.numbers[i]
		if dt := r.first().t - it.t; it.cost == 0 && it.gain >= gainHalf && it.v > r.first().v && dt > 0 && dt < 9 {
			n++
		}
	}
	return n >= 2
}

// countsIn reports whether a few numbers from the middle of a count, or seconds down to one, lead over to a count from one: "five, six,
// seven, eight, one"; "three, two, one, go, one".
func (x *text) countsIn(r *run) bool {
	if r.rule.step == -1 && r.last().v == 1 && r.first().v <= 10 && x.hurried(r) {
		return x.oneFollows(r, longestIn+2)
	}
	if r.rule.step != 1 || r.first().v < 3 || len(r.items) > longestIn || r.last().v-r.first().v >= longestIn {
		return false
	}
	return x.oneFollows(r, 3)
}

// oneFollows reports whether the first number within some words after a count is a one that counts: not that of "one minute".
func (x *text) oneFollows(r *run, words int) bool {
	from := r.last().last
	for i := sort.Search(len(x.numbers), func(i int) bool { return x.numbers[i].first >= from }); i < len(x.numbers); i++ {
		it := &x.numbers[i]
		if it.first >= from+words {
			break
		}
		if it.cost == 0 {
			return it.v == 1 && it.gain > -gainHalf
		}
	}
	return false
}

// timesHold reports whether what is said last of time and dose before a count is how much time is left or gone: then it counts seconds.
func (x *text) timesHold(r *run) bool {
	first := r.first().first
	timed := false
	for k := range x.said {
		m := &x.said[k]
		if m.First >= first {
			break
		}
		if m.Weight < 0.4 || m.First < first-holdWords {
			continue
		}
		switch m.Kind {
		case announce.Remaining, announce.Gone, announce.Seconds:
			timed = m.Timed
		case announce.Halfway:
		default:
			timed = false
		}
	}
	return timed
}
