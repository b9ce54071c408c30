package segment

// What is asked of the end of a timed set.
const (
	endAny         = iota // 1
	endStop               // the weight of the stop phrase that begins there
	endSwap               // of a phrase for the other side
	endRest               // of a phrase for a rest
	endRestFor            // of an announced rest with its length
	endNext               // of a phrase for another exercise
	endCountdown          // "two, one" or "one" stands just before it
	endFlow               // nothing separates it from the word before
	endSilence            // the silence before it; 1 for 6 s or more
	endTalk               // words a second in the 8 s after it; 1 for fluent talk
	endDose               // an announcement follows within 10 s
	endCue                // it is a remark on the time
	endLone               // it is an utterance of one or two words with silence on both sides
	endBefore             // words a second in the 8 s before it
	endTurn               // the silence before it, times the talk after it
	endQuiet              // little talk before it, times the talk after it
	endStopSilence        // a stop phrase or its like, times the silence before it
	endFeatureCount
)

type endFeatures [endFeatureCount]float64

// A timedEnd is a place where a timed set may end.
type timedEnd struct {
	word  int     // the first word after the set
	t     float64 // seconds
	down  bool    // a countdown stands just before it
	score float64 // nats
}

const signWords = 2 // between the end of a countdown and a count that it leads to, at most

const afterCountdown = 3.0 // seconds from the "one" of a countdown at most until the set is over

// findEnds lists where timed sets may end: where an utterance or a phrase for it begins, and after a countdown.
func (l *listener) findEnds() {
	l.ends = make([]timedEnd, 0, len(l.w)/2)
	for i := 1; i < len(l.w); i++ {
		down := l.countsDown(i)
		if p := l.on(i); l.w[i-1].stop != runsOn || l.silence(i) > 0.6 || down || p.stop > 0 || p.swap > 0 || p.rest > 0 || p.restFor > 0 {
			e, _ := l.endAt(i, down)
			l.ends = append(l.ends, e)
		}
	}
}

// countsDown reports whether the words before word i count down to one, at the end of something: not "three, two, one, go".
func (l *listener) countsDown(i int) bool {
	return i >= 2 && l.w[i-1].num == 1 && l.w[i-2].num == 2 && !l.begins(i)
}

// begins reports whether word i, or the word after it, begins a set: it gives the sign for it, or a count follows.
func (l *listener) begins(i int) bool {
	if p := l.on(i); p.stop > 0 || p.rest > 0 || p.swap > 0 {
		return false
	}
	for _, m := range l.marks["go"] {
		if m.First <= i && m.Last > i && m.Weight > 0.7 {
			return true
		}
	}
	for k := range l.runs {
		if first := l.runs[k].first().first; first >= i && first <= i+signWords {
			return true
		}
	}
	return false
}

func (l *listener) endAt(i int, down bool) (e timedEnd, f endFeatures) {
	e.word, e.t, e.down = i, l.w[i].t, down
	f[endAny] = 1
	p := l.on(i)
	f[endStop], f[endSwap], f[endRest], f[endRestFor], f[endNext] = p.stop, p.swap, p.rest, p.restFor, p.next
	if down {
		f[endCountdown] = 1
		e.t = min(e.t, l.w[i-1].t+afterCountdown)
	}
	if l.w[i-1].stop == runsOn && l.silence(i) < 0.35 {
		f[endFlow] = 1
	}
	f[endSilence] = min(1, l.pauseBefore(i)/silenceFull)
	f[endTalk] = min(1, l.rate(l.w[i].t, l.w[i].t+8, i)/fluentSpeech)
	f[endBefore] = min(1, l.rate(l.w[i].t-8, l.w[i].t, i)/fluentSpeech)
	for k := i; k < len(l.w) && l.w[k].t < l.w[i].t+10; k++ {
		if l.at[k] != 0 {
			f[endDose] = max(f[endDose], l.on(k).dose, l.on(k).restFor)
		}
	}
	if l.inner[min(i+4, len(l.w))]-l.inner[i] > 0 {
		f[endCue] = min(1, l.inner[min(i+4, len(l.w))]-l.inner[i])
	}
	for k := i + 1; k <= i+2 && k < len(l.w); k++ {
		if l.silence(k) > 2 && l.silence(i) > 1 {
			f[endLone] = 1
		}
	}
	f[endTurn] = f[endSilence] * f[endTalk]
	f[endQuiet] = (1 - f[endBefore]) * f[endTalk]
	f[endStopSilence] = max(f[endStop], max(f[endSwap], max(f[endRest], f[endRestFor]))) * f[endSilence]
	e.score = l.weights.ofEnd(&f)
	return e, f
}
