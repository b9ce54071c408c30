package segment

import "captally.example/captally/segment/announce"

// A set of so many repetitions that nobody counts looks like a timed one: "ten heel slides ... and rest". As many are believed to be done
// as were announced, give or take.

const (
	quickestRep = 1.3 // seconds a repetition that nobody counts, at least
	slowestRep  = 9.0 // and at most
	surelyDose  = 0.5 // weight of an announcement from which it is believed
	doseInside  = 6   // words of the set within which its number may still be said
)

// uncounted makes sets of repetitions of the timed sets for which a number of repetitions was announced, and no length after it, where they
// last about as long as such a set does.
func (p *planner) uncounted() {
	for i := range p.session.Sets {
		set := &p.session.Sets[i]
		if set.Counted || set.Kind != Work && set.Kind != Balance {
			continue
		}
		from := p.cuts[main]
		if i > 0 {
			from = max(from, p.placed[i-1].last)
		}
		var dose Dose
		timed := set.Announced.Seconds > 0
		switch m, before := p.announcedLast(from, p.placed[i].first+doseInside), p.countedBefore(i); {
		case m != nil && m.Kind == announce.Reps && (!timed || from <= set.Announced.First && set.Announced.First < m.First && m.First < p.placed[i].first):
			dose = Dose{Reps: int(m.Value), At: m.At, First: m.First, Last: m.Last}
		case m == nil && !timed && before != nil:
			dose = before.Announced
		default:
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

// announcedLast returns the last announcement of repetitions or of a length of time in words [a, b), nil where there is none.
func (p *planner) announcedLast(a, b int) *announce.Mention {
	var last *announce.Mention
	for k := p.saidBefore(a); k < len(p.said) && p.said[k].First < b; k++ {
		m := &p.said[k]
		if m.Weight >= surelyDose && (m.Kind == announce.Seconds || m.Kind == announce.Reps && m.Value >= 3) {
			last = m
		}
	}
	return last
}
