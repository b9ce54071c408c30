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
		var dose Dose
		if m := p.repsAnnounced(from, p.placed[i].first+doseInside); m != nil {
			dose = Dose{Reps: int(m.Value), At: m.At, First: m.First, Last: m.Last}
		} else if before := p.countedBefore(i); before != nil && !p.lengthAnnounced(from, p.placed[i].first) {
			dose = before.Announced
		}
		if dose.Reps == 0 {
			continue
		}
		pace := set.Performed.Value / float64(dose.Reps)
		if pace < quickestRep || pace > slowestRep {
			continue
		}
		set.Counted, set.Pace = true, pace
		set.Reps, set.RepsLow, set.RepsHigh = dose.Reps, max(1, dose.Reps-lostFewer), dose.Reps+lostMore
		set.Announced = dose
		set.Performed, set.TimeCues = Length{}, nil
	}
}

// countedBefore returns the last set before set i of the same exercise, where it was counted to an announced number, else nil.
func (p *planner) countedBefore(i int) *Set {
	for k := i - 1; k >= 0; k-- {
		b := &p.session.Sets[k]
		if b.Exercise.Text != p.session.Sets[i].Exercise.Text || b.Exercise.Text == "" {
			continue
		}
		if b.Counted && b.Announced.Reps > 0 {
			return b
		}
		return nil
	}
	return nil
}

// lengthAnnounced reports whether a length of time is announced in words [a, b).
func (p *planner) lengthAnnounced(a, b int) bool {
	for k := range p.said {
		if m := &p.said[k]; m.First >= a && m.First < b && m.Kind == announce.Seconds && m.Weight >= surelyDose {
			return true
		}
	}
	return false
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
