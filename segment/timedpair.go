package segment

import (
	"math"
	"sort"

	"captally.example/captally/segment/announce"
)

// What is asked of the words between the beginning and the end of a timed set, and of its length.
const (
	pairCues      = iota // the weight of the remarks on the time, three at most
	pairCueFit           // how far they are from being true, in squared deviations
	pairCueTrue          // how many of them are true, 2 at most
	pairCross            // what speaks against going on across the words, 6 at most
	pairTalk             // words a second, less 0.4 of fluent talk
	pairFlow             // seconds of the longest flow of talk beyond 6, by tens
	pairFew              // a count of fewer than six numbers within, which is no seconds, by tens of nats
	pairGo               // the weight of a go phrase within, with a silence after it
	pairStop             // the weight of a stop phrase or its like within
	pairDose             // an announcement within
	pairFit              // nats that the announced lengths speak for this one against any other
	pairFar              // natural logarithm of how far it is from the surest of them, 1.5 at most
	pairTypical          // how far it is from the usual ones, in squared deviations
	pairUnsaid           // nothing was announced
	pairReps             // how far it is from the time that announced repetitions take, in squared deviations, times how surely they were
	pairCountdown        // a countdown within, not at the end
	pairSeconds          // nats of seconds counted aloud; its weight is 1
	pairFeatureCount
)

type pairFeatures [pairFeatureCount]float64

const (
	timedSpread  = 0.08 // natural logarithm: how far a timed set strays from what was announced
	timedOver    = 1.7  // times as far where it is over
	timedStray   = 0.35 // one in five strays so far
	timedTypical = 28.0 // seconds where nothing was announced
	timedBroad   = 0.5  // its spread, natural logarithm
	rounding     = 1e-9 // nats by which a sum may be off for the order of its parts
	flowPause    = 1.2  // seconds: a longer silence ends a flow of talk
	secondsPace  = 1.0  // of seconds counted aloud
	secondsStray = 0.35 // natural logarithm: how far their pace strays from it
)

// met is what a timed set has met so far on its way to an end.
type met struct {
	flow      float64 // seconds of the longest flow of talk
	goes      float64 // weight of a go phrase with a silence after it
	stop      float64 // of a stop phrase or its like
	dose      float64 // of an announcement
	down      float64 // 1 for a countdown
	few       float64 // nats, as countWithin has them
	up, toOne float64
}

// meet takes in the phrases at word k; within tells that the word is not the first of the set.
func (l *listener) meet(m *met, k int, within bool) {
	p := l.on(k)
	if silence := l.silence(k); within {
		m.goes = max(m.goes, p.goes*min(1, silence/3))
		if l.w[k-1].stop != runsOn || silence > 0.35 {
			m.stop = max(m.stop, p.stop, p.swap, p.rest)
		}
	}
	m.dose = max(m.dose, p.dose, p.restFor)
}

// each calls see for every end that a set that begins at g may have, unless the whole cannot reach so many nats. The features are
// valid during the call only.
func (l *listener) each(g *timedStart, least float64, see func(*timedEnd, *pairFeatures)) {
	longest := timedUnsaid
	if len(g.said) > 0 {
		longest = 75
		for _, n := range g.said {
			longest = max(longest, float64(1.8*n.seconds)+8)
		}
	}
	lo := sort.Search(len(l.ends), func(i int) bool { return l.ends[i].word > g.word })
	r := sort.Search(len(l.runs), func(i int) bool { return l.runs[i].last().last > g.word })
	f := &l.pair
	k := g.word            // words before it have been seen
	begin := l.w[g.word].t // of the flow of talk
	toOneAt := -9
	var m met
	known, most := false, 0.0 // most is what it can come to but for the flow of talk, if known
	length := unknowns(0)
	if len(g.said) > 0 {
		length = withLength
	}
	for i := lo; i < len(l.ends); i++ {
		e := &l.ends[i]
		dt := e.t - g.t
		if dt > longest {
			break
		}
		for ; k < e.word; k++ {
			c := l.along[k]
			if c&crossPause != 0 {
				begin = l.w[k].t
			}
			if v := l.w[k].end - begin; v > m.flow {
				m.flow = v
			}
			if c&crossPhrase != 0 {
				l.meet(&m, k, k > g.word)
				known = false
			}
			if c&crossDown != 0 && k > g.word && l.w[k].t-g.t > 4 {
				m.down, known = 1, false
			}
		}
		for ; r < len(l.runs) && l.runs[r].last().last <= e.word; r++ {
			c, u, d := l.countWithin(g, e, &l.runs[r])
			known = false
			m.up = max(m.up, u)
			m.few = max(m.few, c)
			if d > 0 {
				m.toOne, toOneAt = max(m.toOne, d), l.runs[r].last().last
			}
		}
		if dt < timedShortest {
			continue
		}
		remarks := l.inner[e.word] - l.inner[g.word]
		open := length
		if remarks > 0 {
			open |= withRemarks
		}
		if !known {
			known, most = true, l.weights.most(&m)
		}
		if g.score+e.score+l.weights.unmet[open]+most+l.weights.ofFlow(m.flow) < least-rounding {
			continue
		}
		*f = pairFeatures{}
		f[pairCues] = min(3, remarks)
		f[pairCross] = min(6, max(0, l.cross[e.word-1]-l.cross[g.word]))
		f[pairTalk] = min(1, float64(e.word-g.word)/dt/fluentSpeech) - 0.4
		f[pairFlow] = max(0, min(3, (m.flow-6)/10))
		f[pairFew], f[pairSeconds] = min(1, m.few/10), m.up
		f[pairGo], f[pairStop], f[pairDose], f[pairCountdown] = m.goes, m.stop, m.dose, m.down
		if e.word-toOneAt < 4 {
			f[pairSeconds] += m.toOne
		}
		if e.down {
			f[pairCountdown] = 0
		}
		if length == 0 {
			f[pairUnsaid] = 1
		}
		if g.score+e.score+l.weights.ofPair(f)+f[pairSeconds]+l.weights.rest[open] < least-rounding { // what is not asked yet is 0
			continue
		}
		f[pairCueFit], f[pairCueTrue] = l.cueFit(g, e)
		l.lengthFit(g, dt, f)
		see(e, f)
	}
}

// lengthFit compares the length of a set, in seconds, with those that were announced.
func (l *listener) lengthFit(g *timedStart, dt float64, f *pairFeatures) {
	ln := math.Log(dt)
	z := (ln - lnTypical) / timedBroad
	f[pairTypical] = -min(4, 0.5*z*z)
	if g.amount > 0 {
		z := (ln - math.Log(float64(g.amount*silentPace))) / silentSpread
		f[pairReps] = -float64(g.reps * min(4, 0.5*z*z))
	}
	if len(g.said) == 0 {
		return
	}
	announced, any := commonLength(ln, g.said)
	f[pairFit] = announced - any
	f[pairFar] = -min(1.5, math.Abs(ln-g.said[0].ln))
}

// cueFit says how far the remarks on the time between g and e are from being true, the mean of half the squared deviations,
// 4 at most each; and how many are true.
func (l *listener) cueFit(g *timedStart, e *timedEnd) (fit, right float64) {
	sum, n := 0.0, 0.0
	for _, c := range l.cuesWithin(g.word, e.word) {
		said, real := c.v, e.t-c.t
		switch c.kind {
		case announce.Gone:
			real = c.t - g.t
		case announce.Halfway:
			said, real = (e.t-g.t)/2, c.t-g.t
		}
		if said <= 0 {
			continue
		}
		z := (real - said) / (2 + float64(0.25*said))
		n += c.weight
		sum += float64(c.weight * min(4, 0.5*z*z))
		if z *= z; z < 12 {
			right += float64(c.weight * math.Exp(-0.5*z))
		}
	}
	if n == 0 {
		return 0, 0
	}
	return -sum / max(n, 0.5), min(2, right)
}

// A countedRun is a count and what it speaks for itself as a set.
type countedRun struct {
	*run
	set  float64 // nats
	pace float64 // seconds a number, the median
}

// countWithin weighs a count between g and e: in nats, what a short one counts for itself, and
// what any counts as seconds, up or down.
func (l *listener) countWithin(g *timedStart, e *timedEnd, r *countedRun) (few, up, down float64) {
	if r.first().first < g.word || r.set <= 0 {
		return 0, 0, 0
	}
	n := len(r.items)
	if r.hold != nil || n < 3 || len(g.said) == 0 || math.Abs(math.Log(r.pace/secondsPace)) > secondsStray && (r.rule.step > 0 || r.pace > 1.4 || r.pace < 0.4) {
		n = 0 // no seconds
	}
	switch {
	case r.rule.step < 0 && r.last().v <= 2:
		if n > 0 && r.first().v <= 10 && e.word-r.last().last < 4 {
			return 0, 0, r.set
		}
		return 0, 0, 0
	case n > 3 && r.rule.step == 1 && g.announced > 0.25 && g.reps < g.announced && r.first().v <= 2 && r.first().t-g.t < 6:
		if last := float64(r.last().v); last <= g.said[0].seconds+2 {
			return 0, r.set, 0
		}
	}
	if len(r.items) >= 6 || r.hold != nil {
		return 0, 0, 0 // it speaks for itself
	}
	return r.set, 0, 0
}

// usualPace returns the median time between the numbers of a count, in seconds for a step of one.
func usualPace(r *run) float64 {
	var all []float64
	for i := 1; i < len(r.items); i++ {
		a, b := &r.items[i-1], &r.items[i]
		all = append(all, (b.t-a.t)/float64(max(1, abs(b.v-a.v))))
	}
	if len(all) == 0 {
		return 0
	}
	sort.Float64s(all)
	return all[len(all)/2]
}
