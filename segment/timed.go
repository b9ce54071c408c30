package segment

import (
	"math"
	"sort"

	"captally.example/captally/segment/announce"
)

// A stretch is a candidate set: a count, or a timed stretch from "go" to "stop".
type stretch struct {
	first, last int     // words [first, last): from the first count or the word after "go" to the last count or the word before "stop"
	start, end  float64 // seconds: of the first number or of "go"; of the last number or of "stop"
	score       float64 // nats better than talk
	run         *run    // nil for a timed stretch
	more        []*run  // further goes of the same count
	seconds     float64 // the announced length that speaks for a timed stretch; 0 for none
}

// What speaks for a timed set, in nats.
const (
	costTimed      = 3.5  // of any timed set at all
	gainGo         = 2.5  // a go phrase of weight 1
	gainSide       = 1.0  // a side was named just before
	gainBalance    = 1.0  // a balance exercise was
	gainStop       = 2.2  // a stop phrase of weight 1
	gainAnnounced  = 3.5  // its length was announced just before
	gainCountdown  = 2.5  // "three, two, one" before the end
	gainTimeCue    = 1.6  // a remark on the time within it, the first three
	lossTalk       = 1.2  // it is filled with fluent talk
	lossUnknown    = 1.5  // no length was announced
	timedSpread    = 0.35 // natural logarithm: how far a timed set strays from what was announced
	timedShortest  = 6.0  // seconds
	timedLongest   = 400.0
	timedTypical   = 30.0  // seconds where nothing was announced
	timedBroad     = 0.6   // its spread, natural logarithm
	carryWithin    = 150.0 // seconds within which an announced length holds for another set
	announceWithin = 30.0  // seconds before "go" in which its length is looked for
)

// timed finds the candidate timed sets.
func (x *text) timed(counted []run) []stretch {
	cross := x.crossing()
	ends := x.stops()
	var out []stretch
	for _, g := range x.gos() {
		t0 := x.goTime(g.last)
		length, weight := x.announcedLength(g.first, g.last)
		lead := x.timedLead(g.last)
		best := stretch{}
		for _, e := range ends {
			if e.word <= g.last {
				continue
			}
			dt := e.t - t0
			if dt < timedShortest {
				continue
			}
			if dt > timedLongest || length > 0 && dt > 2.5*length+8 || length == 0 && dt > 4*timedTypical {
				break
			}
			s := lead - costTimed + gainGo*g.weight + gainStop*e.weight
			if length > 0 {
				z := math.Log(dt/length) / timedSpread
				s += gainAnnounced*weight - math.Min(5, 0.5*z*z)
			} else {
				z := math.Log(dt/timedTypical) / timedBroad
				s -= lossUnknown + 0.5*z*z
			}
			s -= 1.2 * math.Max(0, cross[max(g.last, e.word-1)]-cross[g.last]-0.6)
			s += x.within(g.last, e.word)
			s -= x.countInside(counted, g.last, e.word)
			if s > best.score {
				best = stretch{first: g.last, last: e.word, start: t0, end: e.t, score: s, seconds: length}
			}
		}
		if best.score > 0 {
			out = append(out, best)
		}
	}
	return out
}

// timedLead is what is said just before "go", ahead of word i, speaks for a timed set: which side is meant, or a balance exercise.
func (x *text) timedLead(i int) float64 {
	side, balance := 0.0, 0.0
	t := x.w[i-1].t
	for k := range x.said {
		m := &x.said[k]
		if m.First < i && m.Kind == announce.Side && t-x.w[m.First].t < 10 {
			side = math.Max(side, m.Weight)
		}
	}
	for _, m := range x.marks["balance"] {
		if m.First < i && t-x.w[m.First].t < 15 {
			balance = math.Max(balance, m.Weight)
		}
	}
	return gainSide*side + gainBalance*balance
}

// A goMark is a place where a timed set may begin.
type goMark struct {
	first, last int // words of the phrase
	weight      float64
}

// gos lists the go phrases, the longest at each end, and silences that follow an announced length.
func (x *text) gos() []goMark {
	byEnd := map[int]goMark{}
	for _, m := range x.marks["go"] {
		if m.Last < len(x.w) && x.w[m.Last-1].stop == runsOn && x.silence(m.Last) < 0.35 {
			m.Weight *= 0.4 // the talk goes on
		}
		if old, ok := byEnd[m.Last]; !ok || m.Weight > old.weight {
			byEnd[m.Last] = goMark{m.First, m.Last, m.Weight}
		}
	}
	for i := 1; i < len(x.w); i++ {
		if gap := x.silence(i); gap > 3.5 || x.w[i-1].stop == sentence && gap > 2 {
			if old, ok := byEnd[i]; !ok || old.weight < 0.4 {
				byEnd[i] = goMark{i - 1, i, 0.4}
			} else {
				old.weight = math.Min(1, old.weight+0.2)
				byEnd[i] = old
			}
		}
	}
	out := make([]goMark, 0, len(byEnd))
	for _, g := range byEnd {
		out = append(out, g)
	}
	sort.Slice(out, func(a, b int) bool { return out[a].last < out[b].last })
	return out
}

// goTime is when a set begins whose go phrase ends before word i.
func (x *text) goTime(i int) float64 { return x.w[i-1].end }

// A stopMark is a place where a timed set may end.
type stopMark struct {
	word   int // the first word after the set
	t      float64
	weight float64
}

// stops lists where timed sets may end: stop, swap and rest phrases at the start of an utterance, and the end of a countdown.
func (x *text) stops() []stopMark {
	at := map[int]stopMark{}
	put := func(i int, w float64) {
		for i > 0 && x.w[i-1].stop == runsOn && x.silence(i) < 0.6 && filler[x.w[i-1].fold] {
			i--
		}
		if i >= len(x.w) {
			return
		}
		if !(i == 0 || x.w[i-1].stop != runsOn || x.silence(i) > 0.3) {
			w *= 0.5
		}
		if old, ok := at[i]; !ok || w > old.weight {
			at[i] = stopMark{i, x.w[i].t, w}
		}
	}
	for _, m := range x.marks["stop"] {
		put(m.First, m.Weight)
	}
	for _, m := range x.marks["swap"] {
		put(m.First, 0.9*m.Weight)
	}
	for _, m := range x.marks["rest"] {
		put(m.First, 0.9*m.Weight)
	}
	for k := range x.said {
		if m := &x.said[k]; m.Kind == announce.Rest && m.Value > 0 {
			put(m.First, 0.9*m.Weight)
		}
	}
	for i := 1; i < len(x.w); i++ {
		if x.w[i].num == 1 && x.w[i-1].num == 2 && i+1 < len(x.w) {
			old := at[i+1]
			at[i+1] = stopMark{i + 1, math.Min(x.w[i+1].t, x.w[i].t+2), math.Min(1.6, old.weight+0.9)}
		}
	}
	out := make([]stopMark, 0, len(at))
	for _, s := range at {
		out = append(out, s)
	}
	sort.Slice(out, func(a, b int) bool { return out[a].word < out[b].word })
	return out
}

// filler are the words that may stand before a stop phrase.
var filler = wordSet("and", "okay", "ok", "right", "now", "so", "then", "alright", "well")

// announcedLength returns the seconds that were announced for a timed set whose go phrase is words [first, last), 0 for
// none, and how surely. A bare number counts where it was a number of seconds before ("right leg, twenty").
func (x *text) announcedLength(first, last int) (seconds, weight float64) {
	t := x.w[min(last, len(x.w)-1)].t
	for k := len(x.said) - 1; k >= 0; k-- {
		m := &x.said[k]
		if m.First >= last || m.Kind != announce.Seconds || m.Value <= 0 {
			continue
		}
		dt := t - x.w[m.First].t
		w := m.Weight
		switch {
		case dt <= announceWithin:
			w *= 1 - 0.5*dt/announceWithin
		case dt > carryWithin:
			return seconds, weight
		case x.saysAlone(last, m.Value):
			w *= 0.8
		default:
			w *= 0.4
		}
		if w > weight {
			seconds, weight = m.Value, w
		}
	}
	return seconds, weight
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

// within weighs what is said in words [a, b) of a timed set.
func (x *text) within(a, b int) float64 {
	s, cues := 0.0, 0
	for k := range x.said {
		m := &x.said[k]
		if m.First < a || m.Last > b {
			continue
		}
		switch m.Kind {
		case announce.Remaining, announce.Gone, announce.Halfway:
			if cues++; cues <= 3 {
				s += gainTimeCue * m.Weight
			}
		}
	}
	if b-a >= 2 && x.w[b-1].num == 1 && x.w[b-2].num == 2 {
		s += gainCountdown
	}
	if length := x.timeAt(b) - x.w[a-1].end; length > 0 {
		rate := float64(b-a) / length
		s -= lossTalk * math.Max(-0.5, math.Min(1.5, (rate-1.0)/0.8))
	}
	return s
}

// countInside is what counts within words [a, b) speak against a timed set there.
func (x *text) countInside(counted []run, a, b int) float64 {
	loss := 0.0
	for i := range counted {
		r := &counted[i]
		if r.first().first < a || r.last().last > b {
			continue
		}
		if r.rule.step < 0 && r.last().v <= 2 && r.last().last >= b-2 {
			continue // a countdown to its end
		}
		loss += r.score
	}
	return loss
}
