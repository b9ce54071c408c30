package segment

import (
	"math"

	"captally.example/captally/segment/naming"
)

// What tells balance from work, in nats.
const (
	costBalanceBegins = 2.8 // between two sets
	costBalanceEnds   = 2.6
	hintLimit         = 0.02 // no hint of a name is surer than this and its contrary
	neutralHint       = 0.20 // a hint that speaks neither way
	timedBalance      = 0.4  // a timed set is balance rather than a counted one
	gainBalanceSaid   = 2.0  // a phrase of weight 1 between the set before and this one
)

// balance tells the sets of balance work from the others: by their names, by what is said before them, and since one
// part of a session follows the other rather than mixing with it.
func (p *planner) balance() {
	var at []int
	var odds []float64 // of balance, nats
	after := p.cuts[main]
	for i := range p.session.Sets {
		set, s := &p.session.Sets[i], &p.placed[i]
		if set.Kind == Work {
			at = append(at, i)
			odds = append(odds, p.balanceOdds(set, min(after, s.first), s.first))
		}
		after = max(after, s.last)
	}
	for k, on := range likeliestRuns(odds, costBalanceBegins, costBalanceEnds) {
		if on {
			p.session.Sets[at[k]].Kind = Balance
		}
	}
}

// balanceOdds weighs a set that the words [from, to) precede.
func (p *planner) balanceOdds(set *Set, from, to int) float64 {
	logit := func(q float64) float64 { return math.Log(q / (1 - q)) }
	hint := naming.BalanceHint(set.Exercise.Text, p.track.Words[from:to])
	odds := logit(math.Max(hintLimit, math.Min(1-hintLimit, hint))) - logit(neutralHint)
	said := 0.0
	for _, m := range p.marks["balance"] {
		if m.First >= from && m.Last <= to {
			said = math.Max(said, m.Weight)
		}
	}
	odds += gainBalanceSaid * said
	if set.Counted {
		return odds - timedBalance
	}
	return odds + timedBalance
}

// likeliestRuns tells for each element whether it is on, given its odds in nats and what it costs to go on and off; they begin off.
func likeliestRuns(odds []float64, costOn, costOff float64) []bool {
	n := len(odds)
	off, on := 0.0, math.Inf(-1)
	cameOn, cameOff := make([]bool, n), make([]bool, n) // whether the element before was on, for either state
	for i, o := range odds {
		nextOff, nextOn := off, on+o
		cameOn[i] = true
		if on-costOff > nextOff {
			nextOff, cameOff[i] = on-costOff, true
		}
		if off-costOn+o > nextOn {
			nextOn, cameOn[i] = off-costOn+o, false
		}
		off, on = nextOff, nextOn
	}
	out := make([]bool, n)
	state := on > off
	for i := n - 1; i >= 0; i-- {
		out[i] = state
		if state {
			state = cameOn[i]
		} else {
			state = cameOff[i]
		}
	}
	return out
}
