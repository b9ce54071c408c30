package segment

import (
	"math"
	"slices"
)

// A stretch is a candidate set: a count, or a timed stretch from "go" to "stop".
type stretch struct {
	first, last int      // words [first, last): from the first count or the word after "go" to the last count or the word before "stop"
	start, end  float64  // seconds: of the first number or of "go"; of the last number or of "stop"
	score       float64  // nats better than talk
	run         *run     // nil for a timed stretch
	more        []*run   // further goes of the same count
	seconds     float64  // the surest announced length of a timed stretch; 0 for none
	said        []length // all lengths that may hold for it
	ways        []way    // of a timed stretch: how else it may begin and end, itself included; among them ways of other sets
	best        float64  // the best score among them
	cues        []timeRemark
}

// A way is one reading of where a timed set begins and ends.
type way struct {
	first, last int     // words [first, last)
	start, end  float64 // seconds
	score       float64 // nats
	said        []length
}

const (
	timedShortest    = 6.0   // seconds
	timedUnsaid      = 120.0 // seconds at most where no length was announced
	timedLeast       = -0.8  // nats that a candidate must have; a little below even odds, since a missed set costs more than a false one
	timedLeastUnsaid = 0.5   // where no length was announced
	timedUnlikely    = -5.0  // nats: no way worth keeping
	timedWorth       = -2.8  // nats: no way worth offering, whatever is like it
	timedAlike       = 0.6   // share of their union that two ways of one set have in common
	timedOffered     = 3     // ends that compete for each beginning
)

// timed finds the candidate timed sets, given the counts that may be sets. That there is a set is as likely as all ways of it
// together: each candidate gains what those like it have together above the best of them.
func (x *text) timed(counted []run) []stretch {
	l := x.listen(counted)
	ways := make([]way, 0, len(l.ends)*3/2)
	for i := range l.starts {
		ways = l.from(ways, &l.starts[i])
	}
	out := make([]stretch, 0, 64)
	for i := 0; i < len(ways); {
		j := i
		for j < len(ways) && ways[j].first == ways[i].first {
			j++
		}
		out = offer(out, ways, i, j)
		i = j
	}
	for i := range out {
		s := &out[i]
		if len(s.said) > 0 {
			s.seconds = s.said[0].seconds
		}
		s.cues = l.cuesWithin(s.first, s.last)
		s.score -= x.inRest(s.first, s.start, s.end)
	}
	return slices.DeleteFunc(out, func(s stretch) bool { return s.score <= 0 })
}

// offer adds the best of the ways [from, to), which begin at the same word, as candidates.
func offer(out []stretch, ways []way, from, to int) []stretch {
	var room [timedOffered + 1]int
	top := room[:0] // the best of them, in their order
	for i := from; i < to; i++ {
		if ways[i].score < timedWorth {
			continue
		}
		k := len(top)
		for k > 0 && ways[top[k-1]].score < ways[i].score {
			k--
		}
		top = slices.Insert(top, k, i)[:min(len(top)+1, timedOffered)]
	}
	for _, i := range top {
		w := &ways[i]
		a, b := neighbours(ways, i)
		best, sum := w.score, 0.0
		for k := a; k < b; k++ {
			if w.like(&ways[k]) {
				best = max(best, ways[k].score)
			}
		}
		for k := a; k < b; k++ {
			if w.like(&ways[k]) {
				sum += math.Exp(ways[k].score - best)
			}
		}
		least := timedLeast
		if len(w.said) == 0 {
			least = timedLeastUnsaid
		}
		if s := w.score + math.Log(sum); s > least {
			out = append(out, stretch{first: w.first, last: w.last, start: w.start, end: w.end, score: s - least, said: w.said, ways: ways[a:b], best: best})
		}
	}
	return out
}

// neighbours returns the bounds [a, b) of the ways that may be like way i. The ways are in the order of their beginnings.
func neighbours(ways []way, i int) (a, b int) {
	w := &ways[i]
	far := (w.end - w.start) / timedAlike
	for a = i; a > 0 && w.start-ways[a-1].start < far; a-- {
	}
	for b = i + 1; b < len(ways) && ways[b].start-w.start < far; b++ {
	}
	return a, b
}

// like reports whether two ways are of one set.
func (w *way) like(o *way) bool {
	both := min(w.end, o.end) - max(w.start, o.start)
	return both > timedAlike*(max(w.end, o.end)-min(w.start, o.start))
}

// from adds the ways of a timed set that begins at g.
func (l *listener) from(out []way, g *timedStart) []way {
	l.each(g, timedUnlikely, func(e *timedEnd, f *pairFeatures) {
		if s := g.score + e.score + l.weights.ofPair(f) + f[pairSeconds]; s > timedUnlikely {
			out = append(out, way{g.word, e.word, g.t, e.t, s, g.said})
		}
	})
	return out
}
