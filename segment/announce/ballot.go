package announce

import "math"

const (
	agrees   = 0.9  // log odds for a value that was done, in a set
	differs  = -1.5 // for one far from what was done
	farOff   = 0.55 // share of the value from which on it is far
	nearTime = 0.25 // share of a time, or nearSecs, within which it was done
	nearSecs = 4    // seconds
)

// A vote is one dose that may hold for a set.
type vote struct {
	dose Dose
	odds float64
}

// A ballot collects votes by value.
type ballot struct {
	votes  []vote
	timed  bool
	seen   float64 // repetitions or seconds done, 0 for unknown
	agrees float64 // log odds for a value that was done
}

func (b *ballot) add(d Dose, odds float64) {
	if d.Value <= 0 {
		return
	}
	b.votes = append(b.votes, vote{d, odds})
}

// best returns the value with the most weight, said by its strongest mention.
func (b *ballot) best(nothing float64) Dose {
	total := math.Exp(nothing)
	var best Dose
	bestSum := 0.0
	for i, v := range b.votes {
		sum, top := 0.0, v
		first := true
		for j, w := range b.votes {
			if w.dose.Value != v.dose.Value {
				continue
			}
			if j < i {
				first = false
				break
			}
			sum += math.Exp(w.odds)
			if w.odds > top.odds {
				top = w
			}
		}
		if !first {
			continue
		}
		sum = float64(sum * math.Exp(b.agreement(v.dose.Value)))
		total += sum
		if sum > bestSum {
			best, bestSum = top.dose, sum
		}
	}
	if bestSum == 0 {
		return Dose{Timed: b.timed}
	}
	best.Prob = bestSum / total
	return best
}

// strongest returns the log odds of the strongest vote.
func (b *ballot) strongest() float64 {
	most := float64(never)
	for _, v := range b.votes {
		most = max(most, v.odds)
	}
	return most
}

// agreement is the log odds that what was done adds to a value.
func (b *ballot) agreement(v float64) float64 {
	off := math.Abs(b.seen - v)
	switch {
	case b.seen <= 0:
		return 0
	case b.timed && off <= max(nearSecs, nearTime*v), off == 0:
		return b.agrees
	case off == 1:
		return b.agrees / 2
	case off > 2 && (off > farOff*v || b.seen > 2*v):
		return differs
	}
	return 0
}
