package segment

import (
	"captally.example/captally/segment/announce"
)

// A set of so many repetitions that nobody counts looks like a timed one: "ten heel slides ... and rest". As many are believed to be done
// as were announced, give or take.

const (
	quickestRep = 1.3 // seconds a repetition that nobody counts, at least
	slowestRep  = 9.0 // and at most
	surelyDose  = 0.5 // weight of an announcement from which it is believed
	doseInside  = 6   // words of the set within which its number may still be said
)

// uncounted makes sets of repetitions of the timed sets for which a number of repetitions was announced, and no length, where they last
// about as long as such a set does.
func (p *planner) uncounted() {
	for i := range p.session.Sets {
		set := &p.session.Sets[i]
		if set.Counted || set.Announced.Seconds > 0 || set.Kind != Work && set.Kind != Balance {
			continue
		}
		from := p.cuts[main]
		if i > 0 {
			from = max(from, p.placed[i-1].last)
		}
		m := p.repsAnnounced(from, p.placed[i].first+doseInside)
		if m == nil {
			continue
		}
		n, length := int(m.Value), set.Performed.Value
		if pace := length / m.Value; pace < quickestRep || pace > slowestRep {
			continue
		}
		set.Counted, set.Pace = true, length/m.Value
		set.Reps, set.RepsLow, set.RepsHigh = n, max(1, n-lostFewer), n+lostMore
		set.Announced = Dose{Reps: n, At: m.At, First: m.First, Last: m.Last}
		set.Performed, set.TimeCues = Length{}, nil
	}
}

// repsAnnounced returns the last announcement of repetitions in words [a, b), nil where there is none or a length was announced.
func (p *planner) repsAnnounced(a, b int) *announce.Mention {
	var best *announce.Mention
	for k := range p.said {
		m := &p.said[k]
		if m.First < a || m.First >= b || m.Weight < surelyDose {
			continue
		}
		switch {
		case m.Kind == announce.Seconds:
			return nil
		case m.Kind == announce.Reps && m.Value >= 3:
			best = m
		}
	}
	return best
}
