package segment

import (
	"math"
	"slices"

	"captally.example/captally/segment/announce"
	"captally.example/captally/segment/caption"
	"captally.example/captally/segment/chain"
)

// The beat: how many repetitions fit between the numbers of a count.
//
// Each account of the odd places of a count gives every number its repetition. At a given pace that account says when the
// numbers were spoken; how well this agrees with what the file allows is its evidence, summed over a grid of paces.

const mostWays = 96 // accounts weighed together; further odd places are settled one by one

// Silence within a cue or block. Fitted on the labelled sessions.
const (
	longShare = 0.25 // of stretches of talk between counts that hold a long silence
	restShare = 0.7  // of those in which a rest is announced
)

// A tally is what the beat says of a count.
type tally struct {
	joints []joint
	reps   []float64 // probability of n repetitions from the first number to the last, index n
	pace   float64   // seconds a repetition, mean
	paceSD float64   // of its natural logarithm
	first  float64   // time of the first number
	last   float64   // and of the last
}

// box returns where number b can have been spoken; a is the number before it, c the one after it, nil for none.
func (x *text) box(a, b, c *item) chain.Box {
	bx := chain.Box{At: b.t, Lead: -1, Tail: -1}
	bx.Low, bx.High = x.bounds(b.first)
	if x.timing != caption.TimingWord {
		cue := &x.track.Cues[x.track.Words[b.first].Cue]
		bx.From, bx.To = cue.Start.Seconds(), cue.End.Seconds()
		before := x.talk(cue.First, b.first)
		after := x.talk(b.first, cue.Last)
		bx.Low = math.Min(bx.From+float64(fastest*before), bx.To)
		bx.High = math.Max(bx.To-float64(fastest*after), bx.Low)
		if a == nil || a.first < cue.First {
			bx.Lead = before
		}
		if c == nil || c.first >= cue.Last {
			bx.Tail = after
		}
		bx.Still = longShare
		if a == nil && x.restsIn(cue.First, b.first) || c == nil && x.restsIn(b.last, cue.Last) {
			bx.Still = restShare
		}
	}
	if a != nil {
		bx.Talk = x.talk(a.last, b.first)
	}
	return bx
}

// talk returns how long words [a, b) take to say, in seconds.
func (x *text) talk(a, b int) float64 {
	sum := 0.0
	for k := a; k < b; k++ {
		sum += wordLength(&x.w[k])
	}
	return sum
}

// restsIn reports whether a rest is announced in words [a, b).
func (x *text) restsIn(a, b int) bool {
	for k := range x.said {
		if m := &x.said[k]; m.Kind == announce.Rest && m.First >= a && m.First < b && m.Weight > 0.4 {
			return true
		}
	}
	return false
}

// weigh sums up the evidence for each account of the joints. Where the therapist says afterwards how many it were, summed is how
// many of them the joints hold, else 0.
func (x *text) weigh(joints []joint, summed int) *tally {
	t := &tally{joints: joints}
	boxes := make([]chain.Box, len(joints)+1)
	boxes[0] = x.box(nil, &joints[0].a, &joints[0].b)
	for k := range joints {
		var next *item
		if k+1 < len(joints) {
			next = &joints[k+1].b
		}
		boxes[k+1] = x.box(&joints[k].a, &joints[k].b, next)
	}
	l := chain.NewLattice(x.clock(), boxes)
	ways := waysOf(joints)
	least, most := between(joints)
	paces := l.Paces(least, most)
	priors := make([]float64, len(ways))
	for w, way := range ways {
		n := 0
		for k, o := range way {
			priors[w] += joints[k].options[o].prior
			n += joints[k].options[o].reps
		}
		if n == summed {
			priors[w] += summedUp
		}
	}
	mass := make([]float64, len(ways)*len(paces)) // by way, then by pace; first its logarithm
	best := math.Inf(-1)
	reps := make([]int, len(joints))
	alike := make([]int, len(ways)) // the ways in an order in which each shares much with the one before
	for w := range alike {
		alike[w] = w
	}
	slices.SortFunc(alike, func(a, b int) int { return slices.Compare(ways[a], ways[b]) })
	for i, p := range paces {
		z := math.Log(p/paceTypical) / paceSpread
		for _, w := range alike {
			for k, o := range ways[w] {
				reps[k] = joints[k].options[o].reps
			}
			ev := priors[w] - float64(0.5*z*z) + l.Evidence(reps, p)
			mass[w*len(paces)+i] = ev
			best = max(best, ev)
		}
	}
	sum := 0.0
	for i := range mass {
		mass[i] = math.Exp(mass[i] - best)
		sum += mass[i]
	}
	var m1, m2 float64
	for k := range joints {
		for o := range joints[k].options {
			joints[k].options[o].post = 0
		}
	}
	wayMass := make([]float64, len(ways))
	for w := range ways {
		for i, p := range paces {
			q := mass[w*len(paces)+i] / sum
			wayMass[w] += q
			lp := math.Log(p)
			m1 += float64(q * lp)
			m2 += float64(q * lp * lp)
		}
	}
	for w, way := range ways {
		n := 0
		for k, o := range way {
			joints[k].options[o].post += wayMass[w]
			n += joints[k].options[o].reps
		}
		for len(t.reps) <= n {
			t.reps = append(t.reps, 0)
		}
		t.reps[n] += wayMass[w]
	}
	t.pace = math.Exp(m1)
	t.paceSD = math.Sqrt(math.Max(0, m2-float64(m1*m1)))
	t.first, t.last = joints[0].a.t, joints[len(joints)-1].b.t
	return t
}

// clock returns how the file places its words in time.
func (x *text) clock() chain.Clock {
	switch x.timing {
	case caption.TimingWord:
		return chain.OnWords
	case caption.TimingCue:
		return chain.InCues
	}
	return chain.InBlocks
}

// between returns how many repetitions lie between the first number and the last, at least and at most.
func between(joints []joint) (least, most int) {
	for k := range joints {
		lo, hi := joints[k].options[0].reps, joints[k].options[0].reps
		for _, o := range joints[k].options {
			lo, hi = min(lo, o.reps), max(hi, o.reps)
		}
		least += lo
		most += hi
	}
	return least, most
}

// waysOf lists the accounts of all joints together; where they are too many, each joint keeps its likeliest options.
func waysOf(joints []joint) [][]int {
	size := 1
	keep := make([]int, len(joints))
	for k := range joints {
		keep[k] = len(joints[k].options)
		size *= keep[k]
		for size > mostWays && keep[k] > 1 {
			size = size / keep[k] * (keep[k] - 1)
			keep[k]--
		}
	}
	ways := [][]int{make([]int, len(joints))}
	for k := range joints {
		n := len(ways)
		for o := 1; o < keep[k]; o++ {
			for w := 0; w < n; w++ {
				way := append([]int(nil), ways[w]...)
				way[k] = o
				ways = append(ways, way)
			}
		}
	}
	return ways
}
