package caption

import (
	"math"
	"slices"
)

// How long a word takes, and how well a word between two known times can be placed. Measured on nine invented sessions
// rendered as word, cue and block captions, against the times at which the words were spoken.
const (
	wordBase   = 0.17  // s a word takes beside its letters
	letterTime = 0.052 // s a letter takes
	fastSpeech = 0.8   // the shortest that speech gets, as a share of the above

	onWordHalf  = 0.25 // s; half-width that holds the truth 9 times in 10, for a word with a time of its own
	longCue     = 8.0  // s; a cue above this is as poor a clock as a block of a transcript
	cueSlop     = 0.5  // s by which the ends of a cue are off
	looseSlop   = 2.0  // s by which a cue without any time may be off
	floorSlop   = 0.5  // s to add to a time that was cut to whole seconds
	wordTimings = 0.75 // share of words with times from which a file counts as timed by words
)

// A wordRole is what a word is doing in its cue, as far as its place in time goes.
type wordRole uint8

const (
	inTalk    wordRole = iota // no number is counted in this cue
	inCount                   // another word beside counted numbers
	isCounted                 // a counted number
)

// halfWidths are the half-widths in s, by wordRole, within a cue; in a block base + slope x slack x sqrt(u(1-u)), where u in
// [0,1] is the place in the block and slack the time that its words do not need.
var (
	cueHalf    = [...]float64{inTalk: 0.6, inCount: 0.8, isCounted: 0.55}
	blockBase  = 1.0
	blockSlope = [...]float64{inTalk: 1.2, inCount: 1.1, isCounted: 0.7}
)

// timeWords gives a time to every word and tells the timing of the file.
func (r *reading) timeWords(t *Track, spans []lexeme) {
	onWord := 0
	last := Time(0) // times never go back
	var share shares
	for i := range t.Cues {
		if i == 0 || t.Cues[i].Start > t.Cues[i-1].Start {
			share = r.shares(t, i)
		}
		c := &t.Cues[i]
		words := t.Words[c.First:c.Last]
		if len(words) == 0 {
			continue
		}
		onWord += r.anchor(words, c, last)
		r.fill(words, spans[c.First:c.Last], share.of(c, &r.cues[i], r), &r.cues[i])
		for k := range words {
			s := &words[k].Time
			s.At = max(s.At, last)
			share.widen(s)
			s.High = max(s.High, s.At)
			last = s.At
		}
	}
	t.Timing = r.timing(t, onWord)
}

// shares hands the time of cues that begin together from one to the next, as their words stand in the file. Which of them is said first
// is not known.
type shares struct {
	several    bool
	start, end Time    // of all of them
	need       float64 // s that their words take to read
	next       Time    // where the next of them begins
}

// shares looks at the cues that begin with cue i.
func (r *reading) shares(t *Track, i int) shares {
	s := shares{start: t.Cues[i].Start, next: t.Cues[i].Start}
	if i+1 == len(t.Cues) || t.Cues[i+1].Start != s.start {
		return s
	}
	for j := i; j < len(t.Cues) && t.Cues[j].Start == s.start; j++ {
		if t.Cues[j].Last > t.Cues[j].First {
			s.several = s.several || s.need > 0
			s.need += r.readingTime(r.cues[j]).Seconds()
			s.end = max(s.end, t.Cues[j].End)
		}
	}
	return s
}

// of returns a cue with the share of the time that is its own.
func (s *shares) of(c *Cue, raw *rawCue, r *reading) *Cue {
	if !s.several {
		return c
	}
	part := *c
	part.Start = s.next
	s.next = min(s.end, s.next+At(float64((s.end-s.start).Seconds()*r.readingTime(*raw).Seconds()/s.need)))
	part.End = s.next
	return &part
}

// widen makes the limits of a word without a time of its own those of all the cues.
func (s *shares) widen(w *Spread) {
	if s.several && w.From != OnWord {
		w.Low, w.High = min(w.Low, s.start), max(w.High, s.end)
	}
}

// anchor keeps the times that the file gives for words of a cue, clamped into the cue, and returns their number. The first
// word of a cue with word times begins with the cue.
func (r *reading) anchor(words []Word, c *Cue, last Time) int {
	n := 0
	last = max(last, c.Start)
	for i := range words {
		s := &words[i].Time
		if s.From != OnWord {
			continue
		}
		s.At = max(min(s.At, c.End), last)
		last = s.At
		*s = around(s.At, onWordHalf, onWordHalf, OnWord)
		n++
	}
	if first := &words[0].Time; first.From == EvidenceUnknown && (n > 0 || r.lone && len(words) == 1) {
		*first = around(c.Start, onWordHalf, onWordHalf, OnWord)
		n++
	}
	return n
}

// around returns a spread, not below zero.
func around(at Time, below, above float64, from Evidence) Spread {
	return Spread{At: at, Low: max(0, at-At(below)), High: at + At(above), From: from}
}

// fill places the words without a time of their own between those that have one, and the ends of the cue.
func (r *reading) fill(words []Word, spans []lexeme, c *Cue, raw *rawCue) {
	for i := 0; i < len(words); {
		if words[i].Time.From == OnWord {
			i++
			continue
		}
		j := i
		for j < len(words) && words[j].Time.From != OnWord {
			j++
		}
		if i == 0 && j == len(words) {
			r.spread(words, c, raw)
			return
		}
		from, to := c.Start, c.End
		if j < len(words) {
			to = words[j].Time.At
		}
		run := words[i:j]
		if i > 0 {
			from = words[i-1].Time.At
			if until := spans[i-1].until; until > from {
				from = min(until, to)
			} else {
				run = words[i-1 : j]
			}
		}
		to = max(from, to)
		r.placing.prepare(run)
		r.placing.place(run, from.Seconds(), to.Seconds(), j == len(words))
		at := r.placing.at[len(run)-(j-i):]
		for k := range at {
			words[i+k].Time = Spread{At: clampTime(At(at[k]), from, to), Low: from, High: to, From: WithinCue}
		}
		i = j
	}
}

func clampTime(t, low, high Time) Time { return max(low, min(t, high)) }

// spread places the words of a cue in which no word has a time.
func (r *reading) spread(words []Word, c *Cue, raw *rawCue) {
	from, to := c.Start.Seconds(), c.End.Seconds()
	slop := cueSlop
	if raw.floored {
		from, to = from+floorSlop, to+floorSlop
		slop = floorSlop
	}
	long := to-from > longCue
	evidence := WithinCue
	if long {
		evidence = WithinBlock
	}
	p := &r.placing
	p.prepare(words)
	p.place(words, from, to, !r.blocks)
	at, need, total := p.at, p.need, p.need[len(words)]
	slack := max(0, to-from-total)
	fast := fastSpeech
	if total > to-from {
		fast *= (to - from) / total
	}
	for i := range words {
		role := p.role[i]
		h := cueHalf[role]
		if raw.floored {
			h = blockBase
		}
		if long || raw.floored {
			u := 0.0
			if to > from {
				u = max(0, min(1, (at[i]-from)/(to-from)))
			}
			h += float64(blockSlope[role] * slack * math.Sqrt(u*(1-u)))
		}
		// Whatever the pauses, the words before it need their time, and so do the words from it on.
		low := max(at[i]-h, from-slop+float64(fast*need[i]))
		high := min(at[i]+h, to+slop-float64(fast*(total-need[i])))
		low, high = min(low, at[i]), max(high, at[i])
		if raw.loose {
			low, high, evidence = from-looseSlop, to+looseSlop, WithinBlock
		}
		words[i].Time = Spread{At: At(at[i]), Low: max(0, At(low)), High: At(high), From: evidence}
	}
}

// timing tells the timing of the whole file.
func (r *reading) timing(t *Track, onWord int) Timing {
	if len(t.Words) > 0 && float64(onWord) >= wordTimings*float64(len(t.Words)) {
		return TimingWord
	}
	var lengths []Time
	for _, c := range t.Cues {
		if c.Last > c.First {
			lengths = append(lengths, c.End-c.Start)
		}
	}
	if len(lengths) == 0 {
		return TimingUnknown
	}
	slices.Sort(lengths)
	if lengths[len(lengths)/2].Seconds() <= longCue {
		return TimingCue
	}
	return TimingBlock
}
