package announce

import (
	"math"

	"captally.example/captally/segment/caption"
)

// A RestSpan is a pause between two sets.
type RestSpan struct {
	First, Last int     // Track.Words[First:Last], from the word after the set before to the first of the next set
	Seconds     float64 // how long it was as far as known, else 0
}

// The log odds with which a length holds for a rest, and what moves them; as those of doses.go they are judgement.
const (
	atRest         = 0.0   // said in the pause
	restPerWord    = -0.05 // for each word since the pause began, up to restWords
	restWords      = 60    // words
	restSlack      = 3     // words by which the provisional end of a set may be late
	early          = -0.7  // said so
	laterMention   = -0.7  // for each length said before it in the same pause
	nextSets       = -1.2  // a length that is taken for the next set's dose
	ownWords       = 8     // words of a pause within which a length is its own even if the next set's is the same
	nextIsTimed    = -1.5  // a length that may be the next set's instead
	bareRest       = -0.9  // a number without a unit, first thing in the pause
	restFirstWords = 4     // words into the pause within which that may be
	asSetBalance   = -1.5  // more, beside a balance set
	asSet          = -1.1  // what holds for all rests between sets, or between exercises
	restAgrees     = 0.4   // a length that was kept
	asTimedSet     = -0.8  // what sounds like a timed set
	asGone         = -0.5  // "that's thirty seconds, you've earned a seat"
	asHold         = -1.0  // what sounds like a hold
	leastRestProb  = 0.4   // of a rest that is worth telling
	nothingSaid    = -1.9  // log odds of "nothing was announced"
)

// RestDoses returns the length in seconds that was announced for each rest; Value is 0 where none was found.
// sets are those of [Doses]; a rest belongs between the set that ends before it and the one that begins after it.
func RestDoses(track *caption.Track, sets []SetSpan, rests []RestSpan, mentions []Mention) []Dose {
	return RestDosesBeside(sets, rests, mentions, Doses(track, sets, mentions))
}

// RestDosesBeside is [RestDoses] for those who have the doses of the sets already: what [Doses] says of them.
func RestDosesBeside(sets []SetSpan, rests []RestSpan, mentions []Mention, doses []Dose) []Dose {
	out := make([]Dose, len(rests))
	round := rounds(sets, mentions)
	var votes []vote // room for those on one rest
	n := 0
	for i := range rests {
		r := &rests[i]
		for n < len(mentions) && mentions[n].First < r.First-restSlack {
			n++
		}
		before, after, next := neighbours(sets, r)
		b := ballot{votes: votes[:0], timed: true, seen: r.Seconds, agrees: restAgrees}
		var taken *Dose
		if after != nil {
			taken = &doses[next]
		}
		votesInRest(&b, r, mentions[n:], before, after, taken)
		if before != nil && after != nil {
			votesForAll(&b, mentions[:n], before, after, round[next-1], round[next])
		}
		votes = b.votes
		best := b.best(nothingSaid)
		if best.Prob < leastRestProb {
			best = Dose{}
		}
		best.Timed = true
		out[i] = best
	}
	return out
}

// neighbours returns the sets before and after a rest, nil for none, and the index of the one after.
func neighbours(sets []SetSpan, r *RestSpan) (before, after *SetSpan, next int) {
	for next = range sets {
		if sets[next].First >= r.First {
			return before, &sets[next], next
		}
		before = &sets[next]
	}
	return before, nil, len(sets)
}

// votesInRest adds the lengths that are said in the pause; the first is mostly it.
func votesInRest(b *ballot, r *RestSpan, mentions []Mention, before, after *SetSpan, taken *Dose) {
	said, last := 0, -1
	for i := range mentions {
		m := &mentions[i]
		if m.First >= r.Last {
			break
		}
		odds := math.Log(m.Weight)
		switch {
		case m.Kind == Rest && m.Value > 0 && m.Scope == Here:
		case m.Kind == Seconds && m.Timed:
			odds += asTimedSet
		case m.Kind == Gone && m.Timed && m.First-r.First <= ownWords: // "That's thirty seconds, you've earned a seat"
			odds += asGone
		case m.Kind == Hold && m.Timed && m.Value >= 10:
			odds += asHold
		case m.Kind == Reps && isRestNumber(m, r, before, taken): // "And rest. Twenty."
			odds = bareRest
		default:
			continue
		}
		if last >= 0 && m.First >= last {
			said++
		}
		last = m.Last
		if m.First < r.First {
			odds += early
		}
		odds += atRest + float64(restPerWord*float64(max(0, min(m.First-r.First, restWords)))) + float64(laterMention*float64(min(said, 3)))
		if after != nil && after.Timed && after.First-m.Last < m.First-r.First {
			odds += nextIsTimed
		}
		if taken != nil && taken.Last > 0 && (taken.First == m.First || taken.Value == m.Value && m.First-r.First > ownWords) {
			odds += float64(nextSets * taken.Prob)
		}
		b.add(Dose{Value: m.Value, Timed: true, First: m.First, Last: m.Last, At: m.At}, odds)
	}
}

// isRestNumber reports whether a number without a unit, said first thing in a pause, may be the length of the rest: a usual
// one, and neither the end of the count before nor the dose of the set after.
func isRestNumber(m *Mention, r *RestSpan, before *SetSpan, taken *Dose) bool {
	at := m.First - r.First
	if at < 0 || at > restFirstWords || at > 2 && m.Weight < weakest || m.Scope != Here || m.Value < 10 || !isUsual(int(m.Value)) {
		return false
	}
	if before != nil && !before.Timed && float64(before.Count) == m.Value && at == 0 {
		return false
	}
	return taken == nil || taken.First != m.First && (taken.Timed || taken.Value != m.Value)
}

// votesForAll adds what was said for every rest between sets, or rounds, or between exercises.
func votesForAll(b *ballot, mentions []Mention, before, after *SetSpan, round, nextRound int) {
	want := BetweenExercises
	if before.Exercise == after.Exercise || round != nextRound {
		want = BetweenSets
	}
	odds := asSet
	if before.Balance || after.Balance {
		odds += asSetBalance
	}
	for i := len(mentions) - 1; i >= 0; i-- {
		m := &mentions[i]
		if m.Kind == Rest && (m.Scope == want || m.Scope == Everything) && m.Weight > weakest && (m.Round == 0 || m.Round == round) {
			b.add(Dose{Value: m.Value, Timed: true, First: m.First, Last: m.Last, At: m.At}, math.Log(m.Weight)+odds)
			return
		}
	}
}
