package segment

import (
	"math"
	"slices"
	"sort"

	"captally.example/captally/segment/announce"
	"captally.example/captally/segment/caption"
)

// A count up of which the last repetitions are counted down: "one, two, three, four, five, ... three, two, one" are eight. Common
// practice, no source.

const (
	costTurn   = 2.0 // nats: of counting down at all
	costUnsaid = 0.7 // and more per repetition between the two without a number,
	costTalked = 2.5 // and for all of them at most
	mostDown   = 5   // repetitions that are so counted at most; more are a count of their own
	mostUnsaid = 12  // of them between the two
	turnItems  = 40  // readings of numbers after the count up among which the count down is looked for
	costNoOne  = 1.5 // the count down is heard to two only
	goWords    = 4   // after a count down within which the sign to begin shows that it only led in
	gainAsked  = 2.0 // just so many more were asked for
	costNoDose = 3.0 // nobody announced as many
)

// turned returns, of candidate sets that count up, those that go on by counting down.
func (x *text) turned(all []stretch) []stretch {
	var out []stretch
	for i := range all {
		s := &all[i]
		if !s.run.aloud() || s.run.rule.step != 1 || s.run.last().v < 2 {
			continue
		}
		if down, gain := x.turnDown(s.run); down != nil && gain > 0 {
			t := *s
			t.more = []*run{down}
			t.last, t.end = down.last().last, down.last().t
			t.score += gain
			out = append(out, t)
		}
	}
	return out
}

// turnDown returns the best count down that goes on from a count up at its pace, and how many nats the set gains by it; nil for none.
func (x *text) turnDown(up *run) (*run, float64) {
	a, pace := up.last(), usualPace(up)
	if pace == 0 {
		return nil, 0
	}
	spread := beatSpread(x.timing)
	from := sort.Search(len(x.numbers), func(i int) bool { return x.numbers[i].first >= a.last })
	upTo := min(len(x.numbers), from+turnItems)
	at := max(0, from-1) // for what is passed over
	doses := x.dosesBefore(up.first().first)
	type node struct {
		link
		unsaid int
	}
	if from == upTo {
		return nil, 0
	}
	for upTo > from && x.numbers[upTo-1].t-a.t > farApart {
		upTo--
	}
	nodes := make([]node, upTo-from)
	var room [8]int
	ways := room[:0]
	best, bestGain := -1, 0.0
	base := x.doseGain(up)
	for j := from; j < upTo; j++ {
		b := &x.numbers[j]
		n := &nodes[j-from]
		n.score = math.Inf(-1)
		if b.v > mostDown || b.t-a.t > farApart {
			continue
		}
		pass := x.cross[b.first] - x.cross[a.last] + x.over.pass(x.numbers, at, j)
		if b.v >= 2 && b.v != a.v+1 {
			first := link{pace: pace, n: len(up.items)}
			more := x.moreAsked(a.last, b.first)
			ways = unsaidBefore(ways[:0], a.v, b.v, doses, more)
			for _, unsaid := range ways {
				total := a.v + unsaid + b.v
				s := b.gain - costTurn - pass - math.Min(costTalked, float64(costUnsaid*float64(unsaid))) + beat(rule{-1}, a, b, float64(unsaid+1), &first, spread)
				if slices.Contains(doses, total) {
					s += x.doseGainOf(total, up)
				} else {
					s -= costNoDose * spread / beatSpread(caption.TimingWord)
				}
				if more > 0 && unsaid == more-b.v {
					s += gainAsked
				}
				if s > n.score {
					*n = node{link{s, -1, pace, 1}, unsaid}
				}
			}
		}
		for i := from; i < j; i++ {
			p, l := &x.numbers[i], &nodes[i-from]
			if math.IsInf(l.score, -1) || !p.before(b) || p.v < b.v || p.v > b.v+2 {
				continue
			}
			s, due := jump(rule{-1}, p, b, 0)
			s += l.score + b.gain + beat(rule{-1}, p, b, due, &l.link, spread) - (x.cross[b.first] - x.cross[p.last]) - x.over.pass(x.numbers, i, j)
			if s > n.score {
				*n = node{link{s, i - from, pace, l.n + 1}, l.unsaid}
			}
		}
		gain := n.score - base
		if b.v == 2 {
			gain -= costNoOne
		}
		if b.v <= 2 && n.n >= 2 && gain > bestGain {
			best, bestGain = j-from, gain
		}
	}
	if best < 0 {
		return nil, 0
	}
	down := &run{rule: rule{-1}, unsaid: nodes[best].unsaid}
	for k := best; k >= 0; k = nodes[k].from {
		down.items = append(down.items, x.numbers[from+k])
	}
	slices.Reverse(down.items)
	announced := slices.Contains(doses, a.v+down.unsaid+down.first().v)
	if x.countsIn(down) || !announced && x.goesSoon(down.last().last) {
		return nil, 0
	}
	return down, bestGain
}

// goesSoon reports whether the sign to begin is given within some words from word i on: "three, two, one, and go".
func (x *text) goesSoon(i int) bool {
	for _, m := range x.marks["go"] {
		if m.First >= i && m.First < i+goWords && slices.ContainsFunc(x.w[m.First:m.Last], func(w spoken) bool { return signs[w.fold] }) {
			return true
		}
	}
	return false
}

// signs are the words that begin a set and nothing else; "and down" ends as many as it begins.
var signs = wordSet("go", "start", "begin", "off")

// unsaidBefore appends how many repetitions may have been done in silence between the last number of a count up and the first of the
// count down: none, or as many as one of the announced doses asks for, or what is asked for between the two ("four more, three, two").
func unsaidBefore(out []int, up, down int, doses []int, more int) []int {
	out = append(out, 0)
	for i := -1; i < len(doses); i++ {
		n := more - down
		if i >= 0 {
			n = doses[i] - up - down
		}
		if n > 0 && n <= mostUnsaid && !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	return out
}

// doseGainOf is what an announced dose speaks for a set of so many repetitions that begins with a count.
func (x *text) doseGainOf(total int, r *run) float64 {
	best := 0.0
	for _, m := range x.repsSaid[total] {
		if m.First >= r.first().first {
			break
		}
		w := m.Weight
		if m.Scope != announce.Everything {
			w *= math.Max(0.2, 1-(r.first().t-x.w[m.First].t)/doseWithin)
		}
		best = math.Max(best, w)
	}
	return gainDose * best
}
