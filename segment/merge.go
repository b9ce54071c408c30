package segment

import (
	"slices"

	"captally.example/captally/segment/announce"
)

// A therapist may count one set in several goes: up to ten and back down, or from one again for the last five, or anew after
// losing the thread. The goes follow each other at once, with nothing announced between.

const (
	mergeBeats = 2.6 // paces between the goes at most
	mergeBreak = 2.5 // nats of words that speak for another set
	mergeFlat  = 3.0 // and seconds besides

	onTheBeat = 1.8 // paces between two goes of which the second keeps the beat of the first

	turnsWithin = 2 // numbers between the last of a count up and the first of the count back down
)

// merge joins candidate counts that are goes of one set.
func (x *text) merge(all []stretch) []stretch {
	var out []stretch
	for i := 0; i < len(all); i++ {
		s := all[i]
		if n := x.partsOf(all[i:]); n > 1 {
			for _, part := range all[i+1 : i+n] {
				s.more = append(s.more, part.run)
				s.last, s.end, s.score = part.last, part.end, s.score+part.score
			}
			out = append(out, s)
			i += n - 1
			continue
		}
		if n := len(out); n > 0 && x.sameSet(&out[n-1], &s) {
			a := &out[n-1]
			a.more = append(a.more, s.run)
			a.last, a.end, a.score = s.last, s.end, a.score+s.score
			continue
		}
		out = append(out, s)
	}
	return out
}

// partsOf returns how many of the candidates, from the first on, are equal parts of one set: "four of each, so sixteen", each of them
// counted from one, on the beat.
func (x *text) partsOf(all []stretch) int {
	first := &all[0]
	if !first.run.aloud() || first.run.rule.step != 1 || len(first.more) > 0 || len(first.run.items) < 3 {
		return 1
	}
	top := first.run.last().v
	n := 1
	for n < len(all) {
		a, b := &all[n-1], &all[n]
		if !b.run.aloud() || b.run.rule.step != 1 || len(b.more) > 0 || b.run.first().v > 2 || b.run.last().v != top {
			break
		}
		if b.start-a.end > float64(onTheBeat*usualPace(a.run)) || x.sidesChange(a.last, b.first) {
			break
		}
		n++
	}
	for doses := x.dosesBefore(first.first); n > 1; n-- {
		if slices.Contains(doses, n*top) {
			return n
		}
	}
	return 1
}

func (x *text) sameSet(a, b *stretch) bool {
	if !a.run.aloud() || !b.run.aloud() {
		return false
	}
	if len(a.run.items) < 3 || len(b.run.items) < 3 {
		return false
	}
	last := a.run
	if n := len(a.more); n > 0 {
		last = a.more[n-1]
	}
	pace := (last.last().t - last.first().t) / float64(max(1, abs(last.last().v-last.first().v)))
	gap := b.start - a.end
	breaks := x.cross[b.first] - x.cross[a.last]
	if x.sidesChange(a.last, b.first) {
		return false
	}
	if n := x.startsAgain(a.last, b.first); n == 1 && !(b.run.rule.step > 0 && x.complete(a)) || n > 1 && (last.top() > n || x.announcedSum(a, b)) ||
		gap < float64(onTheBeat*pace) && x.moreAsked(a.last, b.first) == b.run.top() {
		return breaks < 2*mergeBreak && gap < float64(mergeBeats*pace)+mergeFlat+8
	}
	if breaks > mergeBreak {
		return false
	}
	if gap > float64(mergeBeats*pace)+mergeFlat {
		return false
	}
	back := last.last().v - b.run.first().v
	if turns := last.rule.step*b.run.rule.step < 0 && back >= -1 && back <= turnsWithin; !turns && (!x.announcedSum(a, b) || x.numbersBetween(a.last, b.first)) {
		return false // another count upwards is another set unless something says otherwise
	}
	for k := range x.said {
		m := &x.said[k]
		if m.First >= a.last && m.First < b.first && m.Weight > 0.4 {
			switch m.Kind {
			case announce.Reps, announce.Seconds, announce.Round:
				return m.Kind == announce.Reps && m.Scope == announce.Change
			}
		}
	}
	return true
}

// sidesChange reports whether a side is named, or the sides are changed, in words [a, b).
func (x *text) sidesChange(a, b int) bool {
	for k := range x.said {
		m := &x.said[k]
		if m.First >= a && m.First < b && m.Weight > 0.4 && (m.Kind == announce.Side || m.Kind == announce.Swap) {
			return true
		}
	}
	return false
}

// announcedSum reports whether the repetitions of both together were announced before them.
func (x *text) announcedSum(a, b *stretch) bool {
	sum := a.run.top() + b.run.top()
	for _, r := range a.more {
		sum += r.top()
	}
	return slices.Contains(x.dosesBefore(a.first), sum)
}

// complete reports whether a set that is counted in one go comes to the number that was announced for it.
func (x *text) complete(s *stretch) bool {
	return len(s.more) == 0 && slices.Contains(x.dosesBefore(s.first), s.run.last().v)
}

// moreAsked returns how many more repetitions words [a, b) ask for, 0 for none: "eight more".
func (x *text) moreAsked(a, b int) int {
	for k := range x.said {
		if m := &x.said[k]; m.Kind == announce.Remaining && !m.Timed && m.First >= a && m.Last <= b && m.Weight > 0.4 {
			return int(m.Value)
		}
	}
	return 0
}

// numbersBetween reports whether a number is said in words [a, b).
func (x *text) numbersBetween(a, b int) bool {
	for i := a; i < b; i++ {
		if x.w[i].num >= 0 {
			return true
		}
	}
	return false
}

// top is the largest number of a count: how many repetitions it says it has.
func (r *run) top() int { return max(r.first().v, r.last().v) }

// startsAgain returns 1 where the words [a, b) say that the count begins anew, n where they say that the last n or n more
// follow, else 0.
func (x *text) startsAgain(a, b int) int {
	n := 0
	for _, m := range x.marks["restart"] {
		if m.First < a || m.Last > b {
			continue
		}
		n = max(n, 1)
		for k := m.First; k < m.Last; k++ {
			n = max(n, x.w[k].num)
		}
	}
	return n
}
