package segment

import (
	"math"
	"slices"

	"captally.example/captally/segment/announce"
	"captally.example/captally/segment/caption"
	"captally.example/captally/segment/numeral"
)

// The end of a count: the last number may be missing in the captions, and a repetition may follow it without a number.

const (
	dropKnown   = 0.85 // that a last number one short of the announced one was dropped, where the file does not show the time after it
	dropMost    = 0.93 // and at most, however long the time
	afterBeat   = 0.85 // paces from the number before until talk goes on, where a dropped number is as likely as not
	mishearing  = 0.92 // that a word that sounds like the missing number, where that was due, is it
	outOfPlace  = 0.80 // that any other word standing alone there is it
	carelessEnd = 0.3  // nats of carelessness from which several numbers at the end may be lost
	farEnd      = 2    // besides the first
	dueWithin   = 0.25 // of the time due, by which the last number may come early or late
	extraBeats  = 2.5  // paces after it, likewise
	hasty       = 0.5  // paces between two numbers that nobody does so fast
	leastSilent = 0.2  // how well a silent beginning has to fit, times the weight of its go phrase
	silentStray = 0.25 // natural logarithm, how far the pace of silent repetitions strays from those counted
	lastWords   = 3    // after "last one" in which its number would be said
	extraWords  = 8    // words after the last number within which one more repetition is looked for
)

// tails looks at what follows the last number of each counted set.
func (p *planner) tails() {
	for i := range p.session.Sets {
		set, s := &p.session.Sets[i], &p.placed[i]
		if !set.Counted || s.run == nil || s.run.hold != nil || set.Pace <= 0 {
			continue
		}
		if s.run.silentFrom > 0 {
			p.extra(set, s)
			continue
		}
		r := s.run
		if n := len(s.more); n > 0 {
			r = s.more[n-1]
		}
		p.missingFirst(set, s)
		p.writtenTwice(set, s, r)
		p.goesOnFor(set, s, r)
		if !p.unsaidLast(set, s) {
			p.missingLast(set, s, r)
		}
		p.extra(set, s)
		p.mayHaveKept(set)
	}
}

// mayHaveKept widens the range of a set in careless captions to what was announced for it, where that is near: what is missing
// or odd there is mostly the captioner's.
func (p *planner) mayHaveKept(set *Set) {
	if d := set.Announced.Reps; p.careless > carelessEnd && d > 0 && abs(d-set.Reps) <= farEnd {
		set.RepsLow, set.RepsHigh = min(set.RepsLow, d), max(set.RepsHigh, d)
	}
}

// missingFirst adds the first repetitions of a count down that is heard to begin below what was announced, where there was
// time for them.
func (p *planner) missingFirst(set *Set, s *stretch) {
	n := set.Announced.Reps - s.run.first().v
	if s.run.rule.step > 0 || n < 1 || len(s.more) > 0 {
		return
	}
	if n > 2 {
		p.silentBefore(set, s, n)
		return
	}
	prob := dropKnown
	if s.first > 0 && p.timing != caption.TimingBlock {
		beats := (p.w[s.first].t - p.w[s.first-1].end) / set.Pace
		prob = dropMost / (1 + math.Exp((afterBeat+float64(n)-beats)/0.3))
	}
	set.RepsHigh += n
	if prob < 0.5 {
		return
	}
	set.Reps += n
	if prob >= 0.9 {
		set.RepsLow += n
	}
	for i := range set.Count {
		if set.Count[i].Rep > 0 {
			set.Count[i].Rep += n
		}
	}
	d := float64(set.Pace * float64(n))
	set.Start.At -= caption.At(d)
	set.Start.Low -= caption.At(d)
	set.Tension.Value += d
	set.Tension.High += d
	set.Slips = append(set.Slips, Slip{Kind: Gap, At: set.Start, First: s.first, Last: s.first, Expected: set.Announced.Reps, Captions: prob})
}

// writtenTwice passes over numbers that follow the last one so fast that nobody did them: the captioner wrote the end of the count twice.
func (p *planner) writtenTwice(set *Set, s *stretch, r *run) {
	if r.rule.step != 1 || p.timing == caption.TimingBlock {
		return
	}
	i := s.last
	for i < len(p.w) && p.w[i].num >= 0 && p.w[i].t-p.w[i-1].t < float64(hasty*set.Pace) {
		i++
	}
	n := i - s.last
	if n < 2 || p.w[i-1].num != r.last().v || p.w[s.last].num != r.last().v+1-n {
		return
	}
	w := s.last
	set.Slips = append(set.Slips, Slip{Kind: Doubled, At: p.track.Words[w].Time, First: w, Last: i, Said: p.w[w].num, Expected: r.last().v + 1, Captions: dropMost})
	s.last = i
}

// silentBefore adds the n repetitions that were done in silence before the last few are counted down, where the set began, by the pace of
// these, just after a go phrase or a silence: "twelve. And tap, ... four, three, two, one".
func (p *planner) silentBefore(set *Set, s *stretch, n int) {
	due := float64(set.Pace * float64(n+1))
	best, at := leastSilent, -1
	for _, g := range p.goMarks {
		if g.last > s.first {
			break
		}
		took := s.start - p.goTime(g.last)
		if took <= 0 || p.cross[s.first]-p.cross[g.last] > mergeBreak {
			continue
		}
		z := math.Log(took/due) / silentStray
		if fit := g.weight * math.Exp(-0.5*z*z); fit > best {
			best, at = fit, g.last
		}
	}
	if at < 0 {
		return
	}
	start := around(p.goTime(at), p.clockSD()+0.4, p.evidence())
	more := set.Start.At.Seconds() - start.At.Seconds()
	set.Start, s.first = start, at
	set.Reps, set.RepsLow, set.RepsHigh = set.Reps+n, set.RepsLow+n, max(set.RepsHigh, set.Reps+n)
	set.Tension = Length{set.Tension.Value + more, set.Tension.Low + more, set.Tension.High + more}
	for i := range set.Count {
		if set.Count[i].Rep > 0 {
			set.Count[i].Rep += n
		}
	}
}

// missingLast adds the last announced repetition where its number seems to be lost.
func (p *planner) missingLast(set *Set, s *stretch, r *run) {
	step := r.rule.step
	next := r.last().v + step
	last := set.Announced.Reps
	if step < 0 {
		last = 1
	}
	far := 0 // further numbers that may be lost besides
	switch {
	case p.careless > carelessEnd:
		far = farEnd
	case p.lastHeard(s, r, last, set.Pace):
		far = 1
	}
	if left := last - next; left*step < 0 || abs(left) > far*abs(step) || last < 1 {
		return
	}
	for beats := 0; (last-next)*step >= 0; beats++ {
		if !p.addLast(set, s, step, next, beats) {
			return
		}
		next += step
	}
}

// unsaidLast adds the announced repetition that is called the last one in place of its number ("seven, last one, up and down") and reports
// whether there was one.
func (p *planner) unsaidLast(set *Set, s *stretch) bool {
	if set.Announced.Reps != set.Reps+1 {
		return false
	}
	for _, m := range p.marks["final"] {
		if m.First < s.last || m.First > s.last+extraWords || p.w[m.First].t-p.w[s.last-1].t > float64(extraBeats*set.Pace) || p.numbersBetween(m.Last, min(len(p.w), m.Last+lastWords)) {
			continue
		}
		set.Reps++
		set.RepsHigh = max(set.RepsHigh, set.Reps)
		if p.timing != caption.TimingBlock { // where it may as well be called so after its number
			set.RepsLow++
		}
		at := set.End
		at.At, at.High = at.At+caption.At(set.Pace), at.High+caption.At(set.Pace)
		set.Count = append(set.Count, Number{Word: -1, At: at, Rep: set.Reps, Origin: Inferred, Prob: heardRight})
		set.Tension.Value, set.Tension.High = set.Tension.Value+set.Pace, set.Tension.High+set.Pace
		set.End, s.last = at, m.Last
		return true
	}
	return false
}

// lastHeard reports whether the word after a count sounds like its last announced number, and comes when that is due: "thirteen", a
// silence, "fifty".
func (p *planner) lastHeard(s *stretch, r *run, last int, pace float64) bool {
	if s.last >= len(p.w) || p.timing != caption.TimingWord {
		return false
	}
	beats := (p.w[s.last].t - r.last().t) / (pace * math.Abs(float64(last-r.last().v)))
	return math.Abs(beats-1) < dueWithin && slices.ContainsFunc(p.soundsLike(s.last), func(g numeral.Guess) bool { return g.Value == last })
}

// addLast adds the repetition of number next, beats beats after that of the last number said, and reports whether it was likely done.
func (p *planner) addLast(set *Set, s *stretch, step, next, beats int) bool {
	n := abs(step)
	beat := float64(set.Pace * float64(n))
	prob, word := p.lastProb(s, beat, next, beats)
	if prob < 0.5 {
		if prob > 0.1 {
			set.RepsHigh += n
		}
		return false
	}
	if prob >= 0.9 {
		set.RepsLow += n
	}
	set.Reps += n
	set.RepsHigh += n
	set.Tension.Value += beat
	set.Tension.High += beat
	sl := Slip{Kind: Gap, At: set.End, First: s.last, Last: s.last, Expected: next, Captions: prob}
	set.End.At += caption.At(beat)
	set.End.High += caption.At(beat)
	num := Number{Word: -1, At: set.End, Rep: set.Reps, Origin: Inferred, Prob: prob}
	if word >= 0 {
		sl.Kind, sl.First, sl.Last, sl.At = Misheard, word, word+1, p.track.Words[word].Time
		num = Number{Said: next, Word: word, At: sl.At, Rep: set.Reps, Origin: CaptionMisheard, Prob: prob}
		set.LastNumber = next
		s.last = word + 1
	}
	set.Count = append(set.Count, num)
	set.Slips = append(set.Slips, sl)
	return true
}

// lastProb returns how surely the number next was said a beat after done beats after the last one, and the word that stands for it,
// -1 for none.
func (p *planner) lastProb(s *stretch, pace float64, next, done int) (float64, int) {
	t := p.w[s.last-1].t + float64(pace*float64(done))
	for k := s.last; k < len(p.w) && k < s.last+4; k++ {
		beats := (p.w[k].t - t) / pace
		if p.timing == caption.TimingWord && (beats < 0.6 || beats > 1.5) {
			continue
		}
		for _, g := range p.soundsLike(k) {
			if g.Value == next && g.Cost < 3.4 && numeral.Commonness(p.w[k].fold) < 3 {
				return mishearing, k
			}
		}
		if k == s.last && p.apart(k-1) && p.apart(k) && p.w[k].num < 0 && p.timing == caption.TimingWord && !p.beginsMark(k) {
			return outOfPlace, k
		}
	}
	if s.last >= len(p.w) {
		return dropKnown, -1
	}
	if p.timing == caption.TimingBlock {
		return dropKnown, -1
	}
	slope := 0.12
	if p.timing == caption.TimingCue {
		slope = 0.3
	}
	beats := (p.w[s.last].t - t) / pace
	return dropMost / (1 + math.Exp((afterBeat-beats)/slope)), -1
}

// beginsMark reports whether a cue phrase that ends a set begins at word k.
func (p *planner) beginsMark(k int) bool {
	for _, kind := range []string{"stop", "rest", "swap", "next"} {
		for _, m := range p.marks[markKind(kind)] {
			if m.First == k {
				return true
			}
		}
	}
	return false
}

// extra adds a repetition that was done after the last number, without one of its own: "and one for luck".
func (p *planner) extra(set *Set, s *stretch) {
	for _, m := range p.marks["extra"] {
		if m.First < s.last || m.First > s.last+extraWords || p.w[m.First].t-p.w[s.last-1].t > float64(extraBeats*set.Pace)+2 {
			continue
		}
		between := false
		for k := range p.said {
			if q := &p.said[k]; q.First >= s.last && q.First < m.First && (q.Kind == announce.Rest || q.Kind == announce.Swap) {
				between = true
			}
		}
		if between || m.Weight < 0.8 {
			continue
		}
		set.Reps++
		set.RepsHigh++
		if m.Weight < 0.9 {
			set.RepsLow--
		}
		set.RepsLow++
		at := p.track.Words[m.First].Time
		set.Count = append(set.Count, Number{Word: -1, At: at, Rep: set.Reps, Origin: Inferred, Prob: 0.9 * m.Weight})
		d := at.At.Seconds() - set.End.At.Seconds()
		if d > 0 {
			set.Tension.Value += d
			set.Tension.High += d + set.Pace
			set.End.At, set.End.High = at.At, max(at.High, set.End.High)
		}
		s.last = m.Last
		return
	}
}
