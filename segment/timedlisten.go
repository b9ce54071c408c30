package segment

import (
	"sort"

	"captally.example/captally/segment/announce"
	"captally.example/captally/segment/caption"
)

// A listener holds what the model of timed sets asks of the words, each looked up once.
type listener struct {
	*text
	weights *timedWeights
	starts  []timedStart
	ends    []timedEnd
	pair    pairFeatures // of a beginning and an end, while they are looked at
	runs    []countedRun // the counts, by their last word

	heard []phrasesAt // what was heard somewhere; the first of them is nothing
	at    []int32     // by word: which of them
	inner []float64   // the weight of remarks on the time, summed
	cues  []timeRemark
	doses []*announce.Mention // lengths of timed sets
	sides []*announce.Mention
	along []crossed // by word
}

// phrasesAt are the weights of the phrases at a word.
type phrasesAt struct {
	goes    float64 // a go phrase that ends before it
	stop    float64 // others that begin there, fillers before them included
	swap    float64
	rest    float64
	next    float64
	dose    float64 // an announced length or number of repetitions that begins there
	restFor float64 // an announced rest with its length
	breaths float64 // a number of breaths
	balance float64
}

// on returns what was heard at word i.
func (l *listener) on(i int) *phrasesAt { return &l.heard[l.at[i]] }

// noting returns the same to be added to; it is valid until the next.
func (l *listener) noting(i int) *phrasesAt {
	if l.at[i] == 0 {
		l.at[i] = int32(len(l.heard))
		l.heard = append(l.heard, phrasesAt{})
	}
	return l.on(i)
}

// What a timed set meets that goes on across a word.
type crossed uint8

const (
	crossPause  crossed = 1 << iota // before it, which ends a flow of talk
	crossPhrase                     // a go phrase that ends there, or a stop phrase or its like that begins there, or an announcement
	crossDown                       // a countdown that ends there
)

// A timeRemark is what was said on the time within a set.
type timeRemark struct {
	word   int // its first word
	last   int // the word after it
	t      float64
	kind   announce.Kind // Remaining, Gone or Halfway
	v      float64       // seconds
	weight float64
}

const bareRemark = 0.4 // weight of a remark that is a bare number: what is left, or what is gone

// listen prepares the text for the model of timed sets.
func (x *text) listen(counted []run) *listener {
	l := &listener{text: x, weights: weightsOf(x.timedColumn())}
	for i := range counted {
		l.runs = append(l.runs, countedRun{&counted[i], x.asStretch(&counted[i]).score, usualPace(&counted[i])})
	}
	sort.SliceStable(l.runs, func(a, b int) bool { return l.runs[a].last().last < l.runs[b].last().last })
	n := len(x.w) + 1
	l.heard, l.at, l.inner = make([]phrasesAt, 1, 16+n/6), make([]int32, n), make([]float64, n)
	l.mark()
	l.hear()
	l.along = make([]crossed, len(x.w))
	for k := 1; k < len(x.w); k++ {
		if l.silence(k) > flowPause {
			l.along[k] |= crossPause
		}
		if p := l.on(k); p.goes > 0 || p.stop > 0 || p.swap > 0 || p.rest > 0 || p.dose > 0 || p.restFor > 0 {
			l.along[k] |= crossPhrase
		}
		if l.countsDown(k) {
			l.along[k] |= crossDown
		}
	}
	l.findStarts()
	l.findEnds()
	return l
}

// timedColumns is how many kinds of files have weights of their own: with a time on each word; on each cue or each block, with
// punctuation and without.
const timedColumns = 5

// timedColumn returns which of them the text has.
func (x *text) timedColumn() int {
	bare := 0
	if !x.punctuated {
		bare = 2
	}
	switch x.timing {
	case caption.TimingWord:
		return 0
	case caption.TimingCue:
		return 1 + bare
	}
	return 2 + bare
}

// mark puts the cue phrases where they are asked for.
func (l *listener) mark() {
	for _, m := range l.marks["go"] {
		p := l.noting(m.Last)
		p.goes = max(p.goes, m.Weight)
	}
	put := func(kind string, of func(*phrasesAt) *float64) {
		for _, m := range l.marks[markKind(kind)] {
			at := of(l.noting(l.utterance(m.First)))
			*at = max(*at, m.Weight)
		}
	}
	put("stop", func(p *phrasesAt) *float64 { return &p.stop })
	put("swap", func(p *phrasesAt) *float64 { return &p.swap })
	put("rest", func(p *phrasesAt) *float64 { return &p.rest })
	put("next", func(p *phrasesAt) *float64 { return &p.next })
	for _, m := range l.marks["balance"] {
		p := l.noting(m.First)
		p.balance = max(p.balance, m.Weight)
	}
	for i := 1; i < len(l.w); i++ {
		if f := l.w[i].fold; (f == "breaths" || f == "breath") && (l.w[i-1].num > 1 || i > 1 && l.w[i-2].num > 1) {
			l.noting(i).breaths = 1
		}
	}
}

// utterance goes back from word i over the fillers before it.
func (l *listener) utterance(i int) int {
	for i > 0 && l.w[i-1].stop == runsOn && l.silence(i) < 0.6 && filler[l.w[i-1].fold] {
		i--
	}
	return i
}

// filler are the words that may stand before a stop phrase.
var filler = wordSet("and", "okay", "ok", "right", "now", "so", "then", "alright", "well")

// hear puts the announcements where they are asked for.
func (l *listener) hear() {
	sum := make([]float64, len(l.w)+1)
	for k := range l.said {
		m := &l.said[k]
		weight := m.Weight
		if lone := l.lone(m); lone && (m.Timed || m.Kind == announce.Reps || m.Kind == announce.Remaining || m.Kind == announce.Gone || m.Kind == announce.Halfway) {
			if sum[m.First] < 1 {
				sum[m.First] = 1
				kind := m.Kind
				if kind != announce.Gone && kind != announce.Halfway {
					kind = announce.Remaining
				}
				weight := 1.0
				if !m.Timed && m.Kind == announce.Reps {
					weight = bareRemark
				}
				l.cues = append(l.cues, timeRemark{m.First, m.Last, l.w[m.First].t, kind, m.Value, weight})
			}
			weight *= 0.5 // announces less
		} else if k := m.Kind; k == announce.Remaining || k == announce.Gone || k == announce.Halfway {
			sum[m.First] = max(sum[m.First], weight)
			l.cues = append(l.cues, timeRemark{m.First, m.Last, l.w[m.First].t, k, m.Value, weight})
		}
		switch m.Kind {
		case announce.Seconds:
			l.doses = append(l.doses, m)
			p := l.noting(m.First)
			p.dose = max(p.dose, weight)
		case announce.Reps:
			if m.Value >= 3 {
				p := l.noting(m.First)
				p.dose = max(p.dose, weight)
			}
		case announce.Rest:
			if l.works(m) {
				l.doses = append(l.doses, m)
			} else if m.Value > 0 {
				p := l.noting(l.utterance(m.First))
				p.restFor = max(p.restFor, weight)
			}
		case announce.Side:
			l.sides = append(l.sides, m)
		case announce.Swap:
			p := l.noting(l.utterance(m.First))
			p.swap = max(p.swap, m.Weight)
		}
	}
	s := 0.0
	for i, v := range sum {
		l.inner[i] = s
		s += v
	}
}

// works reports whether a length that looks like a rest is one of work: "forty-five on, fifteen off".
func (l *listener) works(m *announce.Mention) bool {
	if m.Last >= len(l.w) {
		return false
	}
	switch l.w[m.Last].fold {
	case "on", "working", "work":
		return true
	}
	return false
}

// lone reports whether an amount or a remark stands in a short utterance with silence on both sides, as remarks on the time do.
func (l *listener) lone(m *announce.Mention) bool {
	const few, silent = 5, 1.8
	a := m.First
	for a > 0 && m.First-a < few && l.silence(a) < silent {
		a--
	}
	b := m.Last
	for b < len(l.w) && b-m.Last < few && l.silence(b) < silent {
		b++
	}
	return a > 0 && b < len(l.w) && l.silence(a) >= silent && l.silence(b) >= silent && b-a <= few+1
}

// cuesWithin returns the remarks on the time in words [a, b).
func (l *listener) cuesWithin(a, b int) []timeRemark {
	i := sort.Search(len(l.cues), func(k int) bool { return l.cues[k].word >= a })
	j := sort.Search(len(l.cues), func(k int) bool { return l.cues[k].word >= b })
	return l.cues[i:j]
}
