package segment

import (
	"math"
	"sort"

	"captally.example/captally/segment/announce"
)

// What is asked of the beginning of a timed set. Shares and weights lie in [0,1].
const (
	startAny          = iota // 1
	startGo                  // the weight of the go phrase that ends there
	startGoSilence           // that, times the silence after it
	startSilence             // the silence after it; 1 for 6 s or more
	startFlow                // nothing separates it from the next word
	startShort               // the utterance before it has one or two words
	startSaid                // how surely a length was announced just before
	startCarried             // where none was: how surely an earlier one still holds
	startRest                // a rest was announced since
	startSide                // a side was named just before
	startSwap                // the other side was asked for just before
	startReps                // a number of repetitions was announced just before
	startNext                // an exercise was introduced just before
	startBreaths             // a number of breaths was
	startBalance             // a balance exercise was
	startTalk                // words a second in the 6 s before; 1 for fluent talk
	startQuiet               // words a second in the 8 s after; 1 for fluent talk
	startEnd                 // the words before it are a stop phrase, or a rest
	startTurn                // talk before it, times the silence after it
	startSaidSilence         // a length announced just before, times the silence after it
	startSideSilence         // a side, times that
	startShortSilence        // a short utterance, times that
	startRepsSilence         // a number of repetitions announced just before, times that
	startFeatureCount
)

type startFeatures [startFeatureCount]float64

// A timedStart is a place where a timed set may begin.
type timedStart struct {
	word      int     // the first word within the set
	t         float64 // seconds: the end of "go"
	said      []length
	announced float64 // how surely a length was announced just before
	reps      float64 // and a number of repetitions
	amount    float64 // which; 0 for none
	score     float64 // nats
}

const (
	leadTime     = 20.0  // seconds before "go" that belong to its announcement
	carryTime    = 240.0 // seconds within which a length holds for another set
	leastLength  = 0.12  // of the weight of an announcement that may hold
	silenceFull  = 6.0   // seconds
	fluentSpeech = 2.4   // words a second
)

// findStarts lists where timed sets may begin: after a go phrase, an utterance, an announced length or side.
func (l *listener) findStarts() {
	at := make([]bool, len(l.w)+1)
	for _, m := range l.doses {
		at[m.Last] = true
	}
	for _, m := range l.sides {
		at[m.Last] = true
	}
	l.starts = make([]timedStart, 0, len(l.w)/4)
	for i := 1; i < len(l.w); i++ {
		if at[i] || l.on(i).goes > 0 || l.w[i-1].stop == sentence || l.silence(i) > 1 {
			g, _ := l.startAt(i)
			l.starts = append(l.starts, g)
		}
	}
}

func (l *listener) startAt(i int) (g timedStart, f startFeatures) {
	g.word, g.t = i, l.begin(i).t
	f[startAny] = 1
	f[startGo] = l.on(i).goes
	f[startSilence] = min(1, l.pauseBefore(i)/silenceFull)
	f[startGoSilence] = f[startGo] * f[startSilence]
	if l.w[i-1].stop == runsOn && l.silence(i) < 0.35 {
		f[startFlow] = 1
	}
	if i < 3 || l.apart(i-2) || l.apart(i-3) {
		f[startShort] = 1
	}
	g.said, f[startSaid], f[startCarried] = l.announcedLengths(i)
	g.amount = l.lead(i, &f)
	f[startQuiet] = min(1, l.rate(g.t, g.t+8, i)/fluentSpeech)
	f[startTalk] = min(1, l.rate(g.t-6, g.t, i)/fluentSpeech)
	f[startTurn] = f[startTalk] * f[startSilence]
	f[startSaidSilence] = f[startSaid] * f[startSilence]
	f[startSideSilence] = max(f[startSide], f[startSwap]) * f[startSilence]
	f[startShortSilence] = f[startShort] * f[startSilence]
	f[startRepsSilence] = f[startReps] * f[startSilence]
	g.announced, g.reps = f[startSaid], f[startReps]
	g.score = l.weights.ofStart(&f)
	return g, f
}

// lead looks at what was said in the seconds before word i, and returns the number of repetitions that was surest announced, 0 for none.
func (l *listener) lead(i int, f *startFeatures) (amount float64) {
	t := l.w[i-1].end
	most := func(k int, v float64) { f[k] = max(f[k], v) }
	for k := i - 1; k >= 0; k-- {
		dt := t - l.w[k].t
		if dt > leadTime {
			break
		}
		if l.at[k] == 0 {
			continue
		}
		near, p := 1-0.5*dt/leadTime, l.on(k)
		most(startRest, near*max(p.restFor, 0.5*p.rest))
		most(startSwap, near*p.swap)
		most(startNext, near*p.next)
		most(startBreaths, near*p.breaths)
		most(startBalance, near*p.balance)
		if k >= i-4 {
			most(startEnd, max(p.stop, p.rest))
		}
	}
	for k := l.saidBefore(i) - 1; k >= 0; k-- {
		m := &l.said[k]
		dt := t - l.w[m.First].t
		if dt > leadTime {
			break
		}
		near := 1 - 0.5*dt/leadTime
		switch m.Kind {
		case announce.Side:
			most(startSide, near*m.Weight)
		case announce.Reps:
			if w := near * m.Weight; m.Value >= 3 && w > f[startReps] {
				f[startReps], amount = w, m.Value
			}
		}
	}
	return amount
}

// saidBefore returns how many announcements begin before word i.
func (x *text) saidBefore(i int) int {
	return sort.Search(len(x.said), func(k int) bool { return x.said[k].First >= i })
}

// rate returns how many words a second begin in the seconds from a to b, near word i.
func (l *listener) rate(a, b float64, i int) float64 {
	return float64(l.firstNear(b, i)-l.firstNear(a, i)) / (b - a)
}

// firstNear is first for a time near that of word i.
func (x *text) firstNear(t float64, i int) int {
	for i < len(x.w) && x.w[i].t < t {
		i++
	}
	for i > 0 && x.w[i-1].t >= t {
		i--
	}
	return i
}

// A length is one announcement that may hold for a timed set.
type length struct {
	seconds float64
	weight  float64 // how surely
	ln      float64 // the natural logarithm of the seconds
	spread  float64 // of that: how far a set that keeps to it strays, as the file shows it
	keeps   float64 // logarithm of the density of sets that keep to it, at their peak
	strays  float64 // and of those that do not
}

// announcedLengths returns the lengths that may hold for a timed set that begins at word i, the surest first, and how surely one
// was said in its announcement, or carried over from an earlier one. A bare number counts as said where it was a number of
// seconds before ("right leg, twenty").
func (l *listener) announcedLengths(i int) (all []length, said, carried float64) {
	t := l.w[i-1].end
	for k := sort.Search(len(l.doses), func(k int) bool { return l.doses[k].First >= i }) - 1; k >= 0; k-- {
		m := l.doses[k]
		dt := t - l.w[m.First].t
		if m.Value < timedShortest {
			continue
		}
		w, here := 0.0, false
		switch {
		case dt <= leadTime:
			w, here = m.Weight*(1-0.4*dt/leadTime), true
		case dt <= 3*carryTime && l.saysAlone(i, m.Value):
			w, here = 0.8*m.Weight, true
		case m.Scope == announce.Everything:
			w = 0.7 * m.Weight
		case dt <= carryTime:
			w = 0.5 * m.Weight * (1 - 0.6*dt/carryTime)
		}
		if here {
			said = max(said, w)
		} else {
			carried = max(carried, w)
		}
		all = hold(all, length{seconds: m.Value, weight: w})
	}
	sort.SliceStable(all, func(a, b int) bool { return all[a].weight > all[b].weight })
	if len(all) > 3 {
		all = all[:3]
	}
	for k := range all {
		n := &all[k]
		n.ln, n.spread = math.Log(n.seconds), math.Hypot(timedSpread, l.clockSD()/n.seconds)
		n.keeps = math.Log(n.weight * (1 - strays) / n.spread)
		n.strays = math.Log(n.weight * strays / timedStray)
	}
	return all, said, carried * (1 - said)
}

// hold adds a length, or makes one that is there surer.
func hold(all []length, n length) []length {
	if n.weight < leastLength {
		return all
	}
	for i := range all {
		if all[i].seconds == n.seconds {
			all[i].weight = max(all[i].weight, n.weight)
			return all
		}
	}
	return append(all, n)
}

// saysAlone reports whether the number v is said among the dozen words before word i.
func (x *text) saysAlone(i int, v float64) bool {
	for k := max(0, i-12); k < i; k++ {
		if float64(x.w[k].num) == v {
			return true
		}
	}
	return false
}
