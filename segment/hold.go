package segment

import (
	"cmp"
	"math"
	"slices"

	"captally.example/captally/segment/caption"
)

// A count with seconds counted aloud in each repetition: "hold, two, three, four, five, and down, that's one".
// The inner numbers are the seconds, the outer ones the repetitions.

// A cycle is one repetition of such a count.
type cycle struct {
	inner []item
	outer *item   // nil where the repetition was not numbered
	at    float64 // seconds: when its hold began
}

// silent reports whether nobody counted the seconds of a repetition: "squeeze, and hold, and relax, six".
func (c *cycle) silent() bool { return len(c.inner) == 0 }

type holds struct {
	cycles []cycle
	to     int  // what the seconds are usually counted to
	down   bool // they are said the other way round, down to one
}

// said is the number that was said for a second.
func (h *holds) said(second int) int {
	if h.down {
		return h.to + 1 - second
	}
	return second
}

// Costs in nats.
const (
	costHoldStart   = costStart + 2.5 // of such a count
	costCycleBare   = 1.0             // a repetition without a number of its own
	costInnerGap    = 1.2             // a second left out
	costLateHold    = 2.5             // a hold that is heard from its third second on
	costOuterSlip   = 2.2             // a repetition numbered wrongly
	costSilentHold  = 0.7             // a repetition of which the seconds are left to the viewer
	gainNamed       = 1.0             // less where a word before its number shows that it is one
	outerSpread     = 0.35            // of the time from one number of a repetition to the next, natural logarithm
	costSilentFirst = 1.5             // and more where it is the first
	costOtherLength = 0.8             // held for another number of seconds than the last
	costRelease     = 1.0             // "and rest", "let go" between the last second and the number of the repetition, at most
	costUnmarked    = 1.2             // the number of a repetition that nothing marks as one
	gainMarked      = 1.5             // "that's", "that is", "round" before the number of a repetition
	innerSpread     = 0.5             // of the time between counted seconds, natural logarithm
	periodSpread    = 0.45            // of the time between repetitions
	slowestSecond   = 1.4             // seconds that a counted second takes at most
	releaseTime     = 4.0             // seconds from the last second to the number of the repetition, where letting go is all that comes between
	betweenHolds    = 6.0             // seconds between two holds of one set at most
	holdPace        = 1.0             // seconds between counted seconds, typically
	shortestPeriod  = 2.5             // seconds from one number of a repetition to the next, where none are counted between
	longestPeriod   = 22.0            // and at most
	talliedShare    = 4               // of so many repetitions the seconds of one are counted at least
	lateSecond      = 3               // from which a hold is heard where the captions lost its first seconds
)

var outerMark = wordSet("that's", "that", "is", "makes", "round", "and", "number", "for", "steps", "sets", "rep", "relax", "rest", "release", "down", "go", "up", "open", "lower", "that'll")

type holdLink struct {
	score   float64
	from    int
	fromOut bool
	dir     int // of the outer numbers: 1 up, -1 down, 0 while unknown
	h, r, k int // seconds counted in this cycle; last outer number; numbers of this cycle
	prevH   int
	cycles  int
	startAt float64 // of the first second of this cycle
	period  float64
	outAt   float64 // of the last number of a repetition
	outer   float64 // seconds from one such number to the next; 0 where unknown
}

// numbered notes that a repetition has its number d after the last such one, at t.
func (l *holdLink) numbered(t float64, d int) {
	if l.outAt > 0 && d > 0 && d <= 2 {
		l.outer = (t - l.outAt) / float64(d)
	}
	l.outAt = t
}

func (x *text) holdRuns(items []item, over *passing) []run {
	n := len(items)
	inner := make([]holdLink, n)
	outer := make([]holdLink, n)
	tight := x.timing == caption.TimingWord
	careful := x.careless == 0
	bad := holdLink{score: math.Inf(-1), from: unreached}
	x.leadsHolds = x.leadingWords(true)
	for j := range items {
		b := &items[j]
		in, out := bad, bad
		mark := x.outerMarked(b)
		if b.v <= 2 {
			in = holdLink{score: b.gain - costHoldStart + x.holdSaid(b.first), from: -1, h: b.v, k: 1, startAt: b.t, cycles: 1}
		}
		if b.v == 1 && b.cost == 0 {
			out = holdLink{score: b.gain - costHoldStart - costSilentHold - costSilentFirst, from: -1, dir: 1, r: 1, outAt: b.t, cycles: 1}
		}
		for i, seen := j-1, 0; i >= 0 && seen < window; i-- {
			a := &items[i]
			if a.cost == 0 {
				seen++
			}
			if !a.before(b) {
				continue
			}
			dt := b.t - a.t
			if dt > longestPeriod {
				break
			}
			if inner[i].from == unreached && outer[i].from == unreached {
				continue
			}
			between, border := over.pass(items, i, j), float64(1.5*(x.cross[b.first]-x.cross[min(a.last, b.first)]))
			pass := between + border
			if l := &inner[i]; l.from != unreached {
				if d := b.v - l.h; d >= 1 && d <= 2 && dt <= 5 {
					next := sameCycle(l, i, b, dt, pass, tight)
					in.improve(&next, l, b.gain, careful)
				}
				if startsNext(l, false, b) {
					next := nextCycle(l, i, false, b, dt, pass, tight)
					in.improve(&next, l, b.gain, careful)
				}
				if (l.k >= 2 || l.h >= lateSecond) && dt <= 12 {
					next := closeCycle(l, i, b, dt, between, border, mark)
					out.improve(&next, l, b.gain, careful)
				}
			}
			if l := &outer[i]; l.from != unreached {
				if startsNext(l, true, b) {
					next := nextCycle(l, i, true, b, dt, pass, tight)
					in.improve(&next, l, b.gain, careful)
				}
				if countsSilent(l, b, dt) {
					next := silentCycle(l, i, b, dt, pass, tight, mark)
					out.improve(&next, l, b.gain, careful)
				}
			}
		}
		inner[j], outer[j] = in, out
	}
	return x.extractHolds(items, inner, outer)
}

// unreached is where an item is reached from that no count has come to.
const unreached = -2

// improve takes b where that is the better way to reach an item, whose gain is given; going on from l must beat beginning another count.
func (a *holdLink) improve(b, l *holdLink, gain float64, careful bool) {
	anew := costStart
	if b.h == lateSecond && b.k == 1 && careful {
		anew = costHoldStart // no count begins with it
	}
	if b.score-l.score-gain >= -anew && b.score > a.score {
		*a = *b
	}
}

// holdSaid is what the word "hold" or its like just before word i speaks for seconds being counted from there.
func (x *text) holdSaid(i int) float64 {
	for k := i - 1; k >= 0 && k >= i-2; k-- {
		switch x.w[k].fold {
		case "hold", "holding", "squeeze", "press", "old", "gold", "told", "push", "tighten", "lift", "keep":
			return 1.5
		case "in", "down", "up", "out", "lower", "release", "open", "close", "pull":
			if k == i-1 {
				return 0.8
			}
		}
	}
	return 0
}

// sameCycle goes on to the next second of a repetition, or the one after.
func sameCycle(l *holdLink, i int, b *item, dt, pass float64, tight bool) holdLink {
	d := b.v - l.h
	out := *l
	out.score += b.gain - pass - float64(costInnerGap*float64(d-1))
	if tight {
		z := math.Log(math.Max(0.05, dt)/(holdPace*float64(d))) / innerSpread
		out.score += onBeat(innerSpread) - math.Min(4, 0.5*z*z)
	}
	out.from, out.fromOut, out.h = i, false, b.v
	out.k++
	return out
}

// startsNext reports whether b may be the first second of the next repetition that is heard.
func startsNext(l *holdLink, fromOut bool, b *item) bool {
	if !fromOut {
		return b.v <= 2 && l.k >= 2
	}
	return b.v <= 2 || b.v == lateSecond && l.prevH >= lateSecond // the seconds before it are lost
}

// nextCycle goes on to the next repetition.
func nextCycle(l *holdLink, i int, fromOut bool, b *item, dt, pass float64, tight bool) holdLink {
	out := *l
	out.score += b.gain - pass
	if b.v > 2 {
		out.score -= costLateHold
	}
	if fromOut && l.outer > 0 && dt > l.outer {
		z := math.Log(dt/l.outer) / outerSpread
		out.score -= math.Min(4, 0.5*z*z)
	}
	if !fromOut {
		out.score -= costCycleBare
		if tight && dt < 0.9 {
			out.score -= 4
		}
		if l.prevH > 0 && l.prevH != l.h {
			out.score -= costOtherLength
		}
		out.prevH = l.h
	}
	if period := b.t - l.startAt; tight && period > 0 && l.startAt > 0 {
		if l.period > 0 {
			z := math.Log(period/l.period) / periodSpread
			out.score += onBeat(periodSpread) - math.Min(4, 0.5*z*z)
		}
		out.period = period
	}
	out.from, out.fromOut, out.h, out.k, out.startAt = i, fromOut, b.v, 1, b.t
	out.cycles++
	return out
}

// countsSilent reports whether b, seconds dt after the number of a repetition, may be the number of the next, of which nobody counts the
// seconds.
func countsSilent(l *holdLink, b *item, dt float64) bool {
	d := b.v - l.r
	return b.cost == 0 && dt >= shortestPeriod && (l.dir*d == 1 || l.dir == 0 && abs(d) == 1)
}

// silentCycle goes on to that number.
func silentCycle(l *holdLink, i int, b *item, dt, pass float64, onWords bool, before marking) holdLink {
	out := *l
	out.score += b.gain - pass - costSilentHold
	if before.marked {
		out.score += gainNamed
	}
	if onWords && l.outer > 0 {
		z := math.Log(dt/l.outer) / outerSpread
		out.score += onBeat(outerSpread) - math.Min(4, 0.5*z*z)
	}
	out.dir = b.v - l.r
	out.numbered(b.t, 1)
	out.from, out.fromOut, out.r, out.k = i, true, b.v, 0
	out.startAt = 0
	out.cycles++
	return out
}

// A marking is what the word before a number says of its being the number of a repetition.
type marking struct{ marked, and bool } // and: it is only "and"

func (x *text) outerMarked(b *item) marking {
	if b.first == 0 {
		return marking{}
	}
	word := x.w[b.first-1].fold
	return marking{outerMark[word] || x.leadsHolds[word], word == "and"}
}

// closeCycle ends a repetition with its number.
func closeCycle(l *holdLink, i int, b *item, dt, between, border float64, before marking) holdLink {
	marked := before.marked
	if marked && dt <= releaseTime {
		border = math.Min(border, costRelease)
	}
	out := *l
	out.score += b.gain - between - border
	switch d := b.v - l.r; {
	case l.r == 0 && b.v == 1:
		out.dir = 1
	case l.r == 0:
		out.score -= costOuterSlip
	case l.dir == 0 && (d == 1 || d == -1):
		out.dir = d
	case l.dir*d == 1:
	case d == 0, l.dir*d == 2:
		out.score -= costOuterSlip
	default:
		out.score -= 5
	}
	if marked && !before.and {
		out.score += gainMarked
	} else if !marked {
		out.score -= costUnmarked
		if b.v == l.h+1 || b.v <= 2 {
			out.score -= costUnmarked // it is likelier another second
		}
	}
	if l.prevH > 0 && l.prevH != l.h {
		out.score -= costOtherLength
	}
	out.numbered(b.t, abs(b.v-l.r))
	out.from, out.fromOut, out.r, out.prevH = i, false, b.v, l.h
	return out
}

// A holdNode is an item of a count with holds, in one of its two parts.
type holdNode struct {
	at    int
	outer bool
}

func (x *text) extractHolds(items []item, inner, outer []holdLink) []run {
	link := func(n holdNode) *holdLink {
		if n.outer {
			return &outer[n.at]
		}
		return &inner[n.at]
	}
	var ends []holdNode
	for j := range items {
		if outer[j].score > 0 && outer[j].cycles >= 2 {
			ends = append(ends, holdNode{j, true})
		}
		if inner[j].score > 0 && inner[j].cycles >= 2 && inner[j].h >= 2 {
			ends = append(ends, holdNode{j, false})
		}
	}
	slices.SortStableFunc(ends, func(a, b holdNode) int { return cmp.Compare(link(b).score, link(a).score) })
	used := make([]bool, len(items))
	var out []run
	var path []holdNode
	for _, e := range ends {
		path = path[:0]
		for n := e; n.at >= 0 && !used[n.at]; n = (holdNode{link(n).from, link(n).fromOut}) {
			path = append(path, n)
		}
		slices.Reverse(path)
		for _, part := range plainParts(items, path) {
			r := holdRun(items, part)
			x.joinHalves(r.hold)
			if !x.holding(r.hold) {
				continue
			}
			first := part[0].at
			r.score = link(part[len(part)-1]).score
			if l := link(part[0]); l.from >= 0 {
				r.score -= l.score - items[first].gain + costHoldStart - x.holdSaid(items[first].first)
			}
			if r.score <= 0 {
				continue
			}
			out = append(out, r)
			for _, n := range part {
				used[n.at] = true
			}
		}
	}
	return out
}

// plainParts divides a path into counts of at least two repetitions: each begins with the first second of a repetition, and
// repetitions of which the first number and most others are other words belong to none.
func plainParts(items []item, path []holdNode) [][]holdNode {
	var parts [][]holdNode
	var part, cycle []holdNode
	cycles, plain, top := 0, 0, 0 // plain: numbers of the repetition that stand plainly, less those that do not
	flush := func() {
		if cycles > 1 {
			parts = append(parts, part)
		}
		part, cycles = nil, 0
	}
	close := func() {
		switch {
		case len(cycle) > 0 && (plain >= 0 || items[cycle[0].at].cost == 0):
			part = append(part, cycle...)
			cycles++
		case len(cycle) > 0:
			flush()
		}
		cycle, plain, top = cycle[:0], 0, 0
	}
	closed := true // the repetition has its number
	for _, n := range path {
		it := &items[n.at]
		switch {
		case !n.outer && (closed || it.v <= top):
			close()
			if it.v > 2 && (it.v != lateSecond || cycles == 0) {
				continue
			}
			closed = false
		case n.outer && closed:
			close()
		case len(cycle) == 0:
			continue
		}
		cycle = append(cycle, n)
		if it.cost == 0 {
			plain++
		} else if !n.outer {
			plain--
		}
		if n.outer {
			closed = true
		} else {
			top = it.v
		}
	}
	close()
	flush()
	return parts
}

// holdRun makes a run of a path through a count with holds.
func holdRun(items []item, path []holdNode) run {
	h := &holds{}
	r := run{rule: rule{1}, hold: h, items: make([]item, 0, len(path))}
	first := 0 // of the cycle at hand, among the items
	for k, n := range path {
		it := &items[n.at]
		r.items = append(r.items, *it)
		switch {
		case n.outer && (len(h.cycles) == 0 || h.cycles[len(h.cycles)-1].outer != nil):
			h.cycles = append(h.cycles, cycle{outer: &items[n.at]})
		case n.outer:
			h.cycles[len(h.cycles)-1].outer = it
		case len(h.cycles) == 0 || startsCycle(h, it):
			first = k
			h.cycles = append(h.cycles, cycle{inner: r.items[k:]})
		default:
			h.cycles[len(h.cycles)-1].inner = r.items[first:]
		}
	}
	var lengths [31]int // how many cycles are counted to each number
	for _, c := range h.cycles {
		if c.silent() {
			continue
		}
		if v := c.inner[len(c.inner)-1].v; v < len(lengths) {
			lengths[v]++
		}
	}
	for v := range lengths {
		if lengths[v] > lengths[h.to] {
			h.to = v
		}
	}
	h.place()
	r.trim()
	return r
}

// place sets when each hold began; that of a repetition whose seconds nobody counts as long before its number as it is in the others.
func (h *holds) place() {
	var before []float64
	for i := range h.cycles {
		if c := &h.cycles[i]; !c.silent() {
			c.at = c.inner[0].t
			if c.outer != nil {
				before = append(before, c.outer.t-c.at)
			}
		}
	}
	slices.Sort(before)
	for i := range h.cycles {
		if c := &h.cycles[i]; c.silent() {
			c.at = c.outer.t
			if n := len(before); n > 0 {
				c.at -= before[n/2]
			}
			if i > 0 {
				c.at = math.Max(c.at, h.cycles[i-1].at)
			}
		}
	}
}

// joinHalves makes one repetition of each two that are counted on the way there and on the way back: "up, two, three, down, two, three".
func (x *text) joinHalves(h *holds) {
	lead := func(i int) string {
		if c := &h.cycles[i]; !c.silent() && c.inner[0].first > 0 {
			return x.w[c.inner[0].first-1].fold
		}
		return ""
	}
	turns, stays := 0, 0
	for i := 2; i < len(h.cycles); i++ {
		if h.cycles[i].silent() || h.cycles[i-1].silent() {
			continue
		}
		if a, b := lead(i-1), lead(i); a != b && b == lead(i-2) {
			turns++
		} else {
			stays++
		}
	}
	if turns < 3 || turns < 4*stays {
		return
	}
	back := lead(1)
	if h.cycles[0].outer != nil {
		back = lead(0)
	}
	var joined []cycle
	for i, c := range h.cycles {
		if i > 0 && lead(i) == back && h.cycles[i-1].outer == nil && lead(i-1) != back {
			joined[len(joined)-1].outer = c.outer
			continue
		}
		joined = append(joined, c)
	}
	h.cycles = joined
}

// joinNumbered makes one repetition of those between two numbers that follow each other, where no more time lies between these than
// usually does: its seconds are counted on the way there and on the way back.
func (h *holds) joinNumbered() {
	var numbered []int
	var each []float64 // seconds from one number to the next
	for i := range h.cycles {
		o := h.cycles[i].outer
		if o == nil {
			continue
		}
		if n := len(numbered); n > 0 {
			last := h.cycles[numbered[n-1]].outer
			if o.v <= last.v {
				return
			}
			each = append(each, (o.t-last.t)/float64(o.v-last.v))
		}
		numbered = append(numbered, i)
	}
	if len(each) < 2 {
		return
	}
	slices.Sort(each)
	usual := each[len(each)/2]
	drop := make([]bool, len(h.cycles))
	dropped := false
	from, v, t := -1, 0, h.cycles[0].at
	for _, i := range numbered {
		o := h.cycles[i].outer
		if more := i - from - (o.v - v); o.v > v && more > 0 && o.t-t < usual*(float64(o.v-v)+0.6) {
			for k := i - 1; k > from && more > 0; k-- {
				drop[k], dropped, more = true, true, more-1
			}
		}
		from, v, t = i, o.v, o.t
	}
	if !dropped {
		return
	}
	var kept []cycle
	at, joined := 0.0, false
	for i, c := range h.cycles {
		if drop[i] {
			if !joined {
				at, joined = c.at, true
			}
			continue
		}
		if joined {
			c.at, joined = at, false
		}
		kept = append(kept, c)
	}
	h.cycles = kept
}

// trim takes off cycles at the end that are cut short or come late, and have no number of their own: other talk.
func (r *run) trim() {
	h := r.hold
	for n := len(h.cycles); n > 2; n-- {
		c := &h.cycles[n-1]
		if c.outer != nil {
			return
		}
		period := (h.cycles[n-2].at - h.cycles[0].at) / float64(n-2)
		late := c.at-h.cycles[n-2].at > 1.7*period
		short := c.inner[len(c.inner)-1].v <= h.to-2
		if !late && !short {
			return
		}
		h.cycles = h.cycles[:n-1]
		for k := len(r.items) - 1; k >= 0; k-- {
			if r.items[k].first < c.inner[0].first {
				r.items = r.items[:k+1]
				break
			}
		}
	}
}

func startsCycle(h *holds, it *item) bool {
	c := &h.cycles[len(h.cycles)-1]
	return c.outer != nil || it.v <= c.inner[len(c.inner)-1].v
}

// holding reports whether cycles look like repetitions with a hold: most are numbered or begin with a word for it, or some of
// several that are all alike; and most are held for the same number of seconds.
func (x *text) holding(h *holds) bool {
	n, all := 0, len(h.cycles)
	marked, same := 0, 0
	for i := range h.cycles {
		c := &h.cycles[i]
		if c.silent() {
			continue
		}
		n++
		if c.outer != nil || x.holdSaid(c.inner[0].first) > 0 {
			marked++
		}
		if c.inner[len(c.inner)-1].v == h.to {
			same++
		}
	}
	if n < all && (n < 2 || n*talliedShare < all) {
		return false
	}
	if all > 1 {
		period := (h.cycles[all-1].at - h.cycles[0].at) / float64(all-1)
		if period > float64(slowestSecond*float64(h.to))+betweenHolds {
			return false // counted too slowly for seconds
		}
	}
	regular := n >= 4 && h.to >= 3 && same >= n-1 && 3*marked >= n
	return (3*marked >= 2*n || regular) && 5*same >= 3*n && h.to >= 2
}
