package segment

import (
	"cmp"
	"math"
	"slices"

	"captally.example/captally/segment/announce"
	"captally.example/captally/segment/caption"
)

// A rule is a way to count: from where, and by what step.
type rule struct {
	step int // 1, 2, 5, 10 upwards; -1 down
}

var rules = [...]rule{{1}, {-1}, {2}, {5}, {10}}

// A run is a candidate count: items of one rule, one after the other, as one count would say them.
type run struct {
	rule       rule
	items      []item
	score      float64   // nats better than talk
	sums       []float64 // the score up to each item
	silentFrom int       // where only the last number was said: the word after "go"; else 0
	begin, end float64   // of such a set, seconds
	lost       bool      // and its number is lost
	hold       *holds    // not nil where seconds are counted aloud within each repetition
	dose       float64   // what its announced dose adds to the score, where it was worked out already
	unsaid     int       // where it goes on from another count: repetitions between the two without a number
}

func (r *run) first() *item { return &r.items[0] }
func (r *run) last() *item  { return &r.items[len(r.items)-1] }

// aloud reports whether its repetitions were counted one by one: it is neither the seconds of holds nor a set of which only the last number
// was said, nor nil.
func (r *run) aloud() bool { return r != nil && r.hold == nil && r.silentFrom == 0 }

// Costs of what a count rarely does, in nats.
const (
	costStart    = 4.0  // of any count at all
	costLate     = 1.2  // per number that is missing at its start
	costMissing  = 1.0  // a number left out, silently or by the captioner
	costMissMore = 0.45 // and each further one
	costSteps    = 0.7  // counting by twos or fives
	costRepeat   = 3.0  // the same number again
	costBack     = 4.5  // a jump back
	farthestBack = 9    // numbers that a count jumps back at most
	costAnew     = 5.0  // and to the beginning, where another set is likelier
	costOver     = 0.9  // passing over an item that stands apart, by its gain
	costTwice    = 1.8  // and at most for several that were written twice
	costOverMore = 1.5  // and more for each beyond two
	costLong     = 0.06 // per second of silence over longSilence
	longSilence  = 9.0
	farApart     = 50.0 // seconds: no count bridges more
	leastRun     = -3.0 // a count that scores less is not worth a thought, whatever was announced
	costRest     = 16.0 // of going on across an announced rest
	costLength   = 5.0  // across a number of seconds that may be a rest
	costSide     = 3.0  // across the name of a side
	costBreak    = 6.0  // of going on across a change of sides
	window       = 24   // items
	paceTypical  = 2.2  // seconds a repetition, typically; common practice, no source
	paceSpread   = 0.75 // its spread, natural logarithm
	clockStray   = 0.2  // seconds, of the time between two words
	paceFastest  = 0.35 // no repetition is quicker
)

// lowestAnew is the number, in steps, up to which a count that jumps back to it has likelier begun anew, its first numbers lost. Where the
// file shows no times between the two, more are.
func lowestAnew(t caption.Timing) int {
	if t == caption.TimingBlock {
		return 6
	}
	return 3
}

// beatSpread is how far, in natural logarithm, the time between two numbers of a count strays, as the file shows it.
func beatSpread(t caption.Timing) float64 {
	switch t {
	case caption.TimingWord:
		return 0.30
	case caption.TimingCue:
		return 0.45
	}
	return 1.1
}

// counts finds the candidate counts among the items; they may overlap.
func (x *text) counts(items []item) []run {
	c := newCounting(items)
	x.over = c.over
	var all []run
	for _, r := range rules {
		all = x.runsOf(all, r, c)
	}
	all = append(all, x.holdsDown(all)...)
	return append(all, x.holdRuns(items, c.over)...)
}

// crossing returns, for each word, the summed cost of the words before it for a set that goes on across them:
// crossing[b] - crossing[a] is what words [a, b) cost.
func (x *text) crossing() []float64 {
	at := make([]float64, len(x.w)+1)
	put := func(kind string, cost float64) {
		for _, m := range x.marks[markKind(kind)] {
			at[m.First] = math.Max(at[m.First], cost*m.Weight*m.Weight)
		}
	}
	for k := range x.said {
		m := &x.said[k]
		switch {
		case m.Kind == announce.Rest && m.Value > 0 && m.Weight > 0.5 && m.Scope == announce.Here:
			at[m.First] = math.Max(at[m.First], costRest*m.Weight*m.Weight)
		case m.Kind == announce.Rest && m.Timed && m.Value >= 5 && m.Scope == announce.Here:
			at[m.First] = math.Max(at[m.First], costLength*m.Weight)
		case m.Kind == announce.Side && m.Weight > 0.5:
			at[m.First] = math.Max(at[m.First], costSide*m.Weight*m.Weight)
		case m.Kind == announce.Swap:
			at[m.First] = math.Max(at[m.First], costBreak*m.Weight*m.Weight)
		case m.Kind == announce.Reps && m.Weight > 0.5 && m.Value >= 3 && m.Scope != announce.Change:
			at[m.First] = math.Max(at[m.First], 2.5*m.Weight)
		}
	}
	put("rest", 3.0)
	put("swap", costBreak)
	put("next", 2.5)
	put("again", 3)
	put("goodbye", 2.0)
	put("stop", 0.6)
	put("welcome", 1.0)
	put("cool-down", 1.0)
	sum := 0.0
	for i, c := range at {
		at[i] = sum
		sum += c
	}
	return at
}

// A link is a way to reach an item in a count: the best one, or as its first number.
type link struct {
	score float64
	from  int     // the link before, -1 at the start
	pace  float64 // seconds a repetition so far, 0 where unknown
	n     int     // items so far
}

// A counting is the search for the counts among items, by one rule after the other. Its slices are written anew for each.
type counting struct {
	items  []item
	over   *passing
	ones   []int     // plain numbers before each item that a count begins with
	links  []link    // two for each item j: 2j, the best way to reach it, and 2j+1, beginning there
	value  []float64 // of a count that ends with the item
	goesOn []bool    // see goingOn
	used   []bool    // the item belongs to a count
	order  []int     // links with which counts end, the best first
	room   []item    // for the items of the counts
	sums   []float64 // for their scores up to each item
}

func newCounting(items []item) *counting {
	n := len(items)
	flags := make([]bool, 2*n)
	return &counting{items, passingOver(items), make([]int, n+1), make([]link, 2*n), make([]float64, n), flags[:n], flags[n:], make([]int, 0, n), nil, nil}
}

// take cuts n elements off room, which is made anew with at least so many where it is too small.
func take[T any](room *[]T, n, atLeast int) []T {
	if n > len(*room) {
		*room = make([]T, max(n, atLeast))
	}
	taken := (*room)[:n:n]
	*room = (*room)[n:]
	return taken
}

// runsOf adds the counts of one rule to out. A number before a count that only looks like its start must not hide the true one, so that
// each item is also a beginning.
func (x *text) runsOf(out []run, r rule, c *counting) []run {
	items, links, ones, over := c.items, c.links, c.ones, c.over
	for i := range items {
		ones[i+1] = ones[i]
		if it := &items[i]; it.v == r.step && it.cost == 0 && it.gain >= gainHalf {
			ones[i+1]++
		}
	}
	spread, lowest := beatSpread(x.timing), lowestAnew(x.timing)
	most := onBeat(spread)
	dir := dirOf(r)
	for j := range items {
		b := &items[j]
		anew := -costStart - startCost(r, b.v)
		best := link{score: b.gain + anew, from: -1, n: 1}
		links[2*j+1] = best
		for i, seen := j-1, 0; i >= 0 && seen < window; i-- {
			a := &items[i]
			if a.cost == 0 {
				seen++
			}
			if !a.before(b) {
				continue
			}
			if b.t-a.t > farApart {
				break
			}
			if most+links[2*i].score+b.gain <= best.score { // no jump makes it better
				continue
			}
			if d := dir * (b.v - a.v); d < -farthestBack || d > 0 && d%r.step != 0 {
				continue
			}
			jumped, due := jump(r, a, b, lowest)
			if jumped+most < anew { // what is passed over is still to come off
				continue
			}
			jumped -= x.cross[b.first] - x.cross[min(a.last, b.first)] + over.pass(items, i, j)
			if r.step > 0 && b.v <= a.v && ones[j] > ones[i+1] { // back past a one, which began another count
				jumped -= costAnew
			}
			if jumped+most < anew { // beginning another count is likelier, however well b keeps the beat
				continue
			}
			for from := 2 * i; from <= 2*i+1; from++ {
				l := &links[from]
				if jumped+most+l.score+b.gain > best.score {
					s := jumped + beat(r, a, b, due, l, spread)
					if t := s + l.score + b.gain; s >= anew && t > best.score {
						best = link{t, from, paced(a, b, due, l), l.n + 1}
					}
				}
				if l.from < 0 {
					break
				}
			}
		}
		links[2*j] = best
	}
	return x.extract(out, r, c)
}

// A passing says what it costs a count to pass over items that stand apart as counted numbers do.
type passing struct {
	cost []float64 // summed, before each item
	n    []int     // how many, before each item
	last []int     // the last such item before each, -1 for none
}

func passingOver(items []item) *passing {
	p := &passing{make([]float64, len(items)+1), make([]int, len(items)+1), make([]int, len(items)+1)}
	p.last[0] = -1
	for i := range items {
		it := &items[i]
		p.cost[i+1], p.n[i+1], p.last[i+1] = p.cost[i], p.n[i], p.last[i]
		if it.cost == 0 && it.gain > 0.5 {
			p.cost[i+1] += costOver * it.gain / gainAlone
			p.n[i+1]++
			p.last[i+1] = i
		}
	}
	return p
}

// pass is what it costs to go from item i to item j. Several numbers are not passed over lightly, but for those that only
// lead back to i: they were written twice.
func (p *passing) pass(items []item, i, j int) float64 {
	cost := max(0, p.cost[j]-p.cost[i+1])
	n := p.n[j] - p.n[i+1]
	last := p.last[j]
	switch {
	case n > 1 && items[last].v == items[i].v:
		if items[last].last-items[i].last == n {
			cost = math.Min(cost, costTwice)
		}
	case n > 2:
		cost += float64(costOverMore * float64(n-2))
	}
	return cost
}

// startCost is what it costs a count to begin with v.
func startCost(r rule, v int) float64 {
	switch r.step {
	case -1:
		if v < 3 {
			return 12
		}
		if v == 10 || v == 20 || v == 5 || v == 15 || v == 12 || v == 8 {
			return 1
		}
		return 2.1
	case 1:
		return math.Min(costLate*float64(v-1), 5+float64(0.1*float64(v)))
	}
	if v%r.step != 0 {
		return 12
	}
	return costSteps + float64(costLate*float64(v/r.step-1))
}

// onBeat is what it speaks for a count that a number comes just on the beat: the likelihood of that in a count against that
// of numbers at any time, which would come anywhere between a tenth of the beat and ten times it.
func onBeat(spread float64) float64 {
	return math.Max(0, math.Log(2*math.Ln10/(spread*math.Sqrt(2*math.Pi)))-0.8)
}

// jump weighs the value of b after that of a in a count, and says how many numbers on it is due; -100 for what no count does. Back to
// lowest steps or fewer another count is likelier.
func jump(r rule, a, b *item, lowest int) (score, due float64) {
	d := b.v - a.v
	m := d / r.step
	whole := m*r.step == d
	score = -float64(costLong * max(0, b.t-a.end-longSilence))
	switch {
	case whole && m == 1:
		return score, 1
	case whole && m > 1:
		score -= costMissing + float64(costMissMore*float64(m-2))
		if m > 12 {
			score -= 3
		}
		return score, float64(m)
	case d == 0:
		return score - costRepeat, 1
	case a.cost > 0 || b.cost > 0 || b.gain < gainHalf: // what may not even be a number jumps nowhere
	case d*dirOf(r) < -farthestBack:
	case r.step > 0 && d < 0:
		score -= costBack
		if b.v <= lowest*r.step {
			score -= costAnew
		}
		return score, 1
	case r.step < 0 && d > 0:
		return score - costBack - 2, 1
	}
	return -100, 1
}

// beat weighs the time between a and b, which is due numbers on, in a count that has come to l.
func beat(r rule, a, b *item, due float64, l *link, spread float64) float64 {
	if a.first == b.first { // written as one word: their times are not known
		return 0
	}
	dt := math.Max(0.05, b.t-a.t)
	if l.pace == 0 {
		reps := 1.0 // repetitions a number
		if r.step > 1 {
			reps = 2
		}
		z := math.Log(dt/due/(paceTypical*reps)) / paceSpread
		score := -math.Min(6, 0.25*z*z)
		if dt/due < paceFastest {
			score -= 2.5
		}
		return score
	}
	rough := spread > 1 // the silences are not shown: numbers may seem to follow each other at once
	spread = math.Hypot(spread, clockStray/l.pace)
	z := math.Log(dt/due/l.pace) / spread
	timing := 0.5 * z * z
	if rough && z < 0 {
		timing = 0
	}
	if due > 1 { // said without the repetitions between
		z1 := math.Log(dt/l.pace) / spread
		timing = math.Min(timing, float64(0.5*z1*z1)+1.5)
	}
	return onBeat(spread) - math.Min(5, timing)
}

// paced returns the pace of a count, in seconds a number, that goes on from l with b due numbers after a.
func paced(a, b *item, due float64, l *link) float64 {
	if a.first == b.first {
		return l.pace
	}
	perNumber := math.Max(0.05, b.t-a.t) / due
	if l.pace == 0 {
		return perNumber
	}
	w := 1 / math.Min(float64(l.n), 5)
	return math.Exp(float64((1-w)*math.Log(l.pace)) + float64(w*math.Log(math.Max(perNumber, 0.5*l.pace))))
}

func dirOf(r rule) int {
	if r.step < 0 {
		return -1
	}
	return 1
}

// extract takes the runs out of the links and adds them to out, the best first, no item twice. Of a count that could end in several places those are
// better where the announced number is reached.
func (x *text) extract(out []run, r rule, c *counting) []run {
	items, links, value := c.items, c.links, c.value
	order := c.order[:0]
	c.goingOn(r)
	for j := range items {
		if links[2*j].score >= leastRun {
			order = append(order, 2*j)
			value[j] = links[2*j].score
			if r.step > 0 && links[2*j].from >= 0 && !c.goesOn[j] {
				announces := math.Min(1, 2*x.announces(&items[j]))
				value[j] += float64((1 - announces) * x.doseGain(&run{rule: r, items: items[j : j+1]}))
			}
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(value[b/2], value[a/2]) })
	used := c.used
	clear(used)
	for _, j := range order {
		k, n, first := j, 0, 0
		for ; k >= 0 && !used[k/2]; k = links[k].from {
			n, first = n+1, k/2
		}
		less := 0.0
		if k >= 0 && n > 0 { // the beginning belongs to a better one
			less = links[k].score + costStart + startCost(r, items[first].v)
		}
		if n < 2 || links[j].score-less < leastRun {
			continue
		}
		chain, sums := take(&c.room, n, 128), take(&c.sums, n, 256)
		for i := j; i >= 0 && i != k; i = links[i].from {
			used[i/2] = true
			n--
			chain[n], sums[n] = items[i/2], links[i].score-less
		}
		space(chain)
		out = append(out, run{rule: r, items: chain, score: sums[len(sums)-1], sums: sums})
	}
	return out
}

// space places the later numbers of several that were written as one word: at an even beat up to the next number, or on from
// the numbers before.
func space(items []item) {
	for k := 1; k < len(items); k++ {
		it := &items[k]
		if it.first != items[k-1].first {
			continue
		}
		first, next := k-1, k+1
		for first > 0 && items[first-1].first == it.first {
			first--
		}
		for next < len(items) && items[next].first == it.first {
			next++
		}
		a, b := &items[0], &items[first] // between which the beat is known
		if next < len(items) {
			a, b = &items[first], &items[next]
		}
		if a.v != b.v {
			it.t = items[first].t + float64((b.t-a.t)/float64(b.v-a.v)*float64(it.v-items[first].v))
		}
	}
}

// goingOn says of each item whether a count goes on from it, or from the same number written again close by.
func (c *counting) goingOn(r rule) {
	const near = 6 // items
	items, links, out := c.items, c.links, c.goesOn
	clear(out)
	for k := range items {
		i := links[2*k].from / 2
		if links[2*k].from < 0 || items[k].v != items[i].v+r.step {
			continue
		}
		for n := max(0, i-near); n <= min(i+near, len(items)-1); n++ {
			out[n] = out[n] || items[n].v == items[i].v
		}
	}
}

func abs(v int) int {
	if v < 0 {
		return -v
	}
	return v
}
