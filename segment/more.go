package segment

import "captally.example/captally/segment/announce"

// Repetitions that are asked for when the announced number is done: "ten, and five more".

const (
	moreWords = 8 // after the announced number within which more is asked for
	mostMore  = 6 // repetitions that are asked for where the count breaks off
)

// asksMore reports whether mention m asks for more repetitions within some words after word i.
func asksMore(m *announce.Mention, i int) bool {
	return m.Kind == announce.Remaining && !m.Timed && m.First > i && m.First <= i+moreWords
}

// askMore raises the dose of a set that was done and then gone on with for just so many more.
func (p *planner) askMore(set *Set) {
	done := set.Announced.Reps
	more := set.Reps - done
	if !set.Counted || done == 0 || more < 2 {
		return
	}
	for k := range set.Count {
		c := &set.Count[k]
		if c.Rep != done || c.Word < 0 {
			continue
		}
		for i := range p.said {
			if m := &p.said[i]; int(m.Value) == more && asksMore(m, c.Word) {
				set.raise(m, more)
				return
			}
		}
	}
}

// raise adds to the dose of a set what a mention asks for.
func (s *Set) raise(m *announce.Mention, more int) {
	s.Announced = Dose{Reps: s.Announced.Reps + more, At: m.At, First: m.First, Last: m.Last}
}

// goesOnFor adds the repetitions that are asked for after the last number of a count up, where the number that they come to is said:
// "eight, two more, ... ten".
func (p *planner) goesOnFor(set *Set, s *stretch, r *run) {
	if r.rule.step != 1 {
		return
	}
	for i := range p.said {
		m := &p.said[i]
		more := int(m.Value)
		if !asksMore(m, s.last-1) || more < 2 || more > mostMore {
			continue
		}
		if k := p.numberDue(m.Last, r.last(), more, set.Pace); k >= 0 {
			if set.Announced.Reps == set.Reps {
				set.raise(m, more)
			}
			p.countTo(set, s, k, more, p.w[k].t-r.last().t)
			return
		}
	}
}

// numberDue returns the word, from word i on, with the number that follows the number it by more, about when it is due; -1 for none.
func (p *planner) numberDue(i int, it *item, more int, pace float64) int {
	for k := i; k < len(p.w) && k < i+2*moreWords; k++ {
		took := p.w[k].t - it.t
		if took > pace*(float64(more)+1.5) {
			break
		}
		if p.w[k].num == it.v+more && took >= float64(0.5*pace*float64(more)) {
			return k
		}
	}
	return -1
}

// countTo adds more repetitions to a set, the last of them with its number at word k; they take some seconds.
func (p *planner) countTo(set *Set, s *stretch, k, more int, took float64) {
	at := p.track.Words[k].Time
	set.Reps, set.RepsLow, set.RepsHigh, set.LastNumber = set.Reps+more, set.RepsLow+more, set.RepsHigh+more, p.w[k].num
	set.Count = append(set.Count, Number{Said: p.w[k].num, Word: k, At: at, Rep: set.Reps, Origin: Heard, Prob: heardRight})
	set.Tension = Length{set.Tension.Value + took, set.Tension.Low + took, set.Tension.High + took}
	set.End, s.last = at, k+1
}
