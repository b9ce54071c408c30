package segment

import (
	"math"
	"sort"

	"captally.example/captally/segment/caption"
)

// How far the length of a set done in silence strays, in relation to it: its beginning is known from "go" alone.
const (
	silentLengthSD = 0.10
	silentBlockSD  = 0.25

	lostFewer, lostMore = 2, 1 // repetitions fewer or more than announced in a set whose number is lost
)

// around returns a time that the models give as one figure, give or take sd seconds.
func around(t, sd float64, from caption.Evidence) caption.Spread {
	return caption.Spread{At: caption.At(t), Low: caption.At(math.Max(0, t-float64(1.645*sd))), High: caption.At(t + float64(1.645*sd)), From: from}
}

func (x *text) evidence() caption.Evidence {
	switch x.timing {
	case caption.TimingWord:
		return caption.OnWord
	case caption.TimingCue:
		return caption.WithinCue
	case caption.TimingBlock:
		return caption.WithinBlock
	}
	return caption.EvidenceUnknown
}

// clockSD is how far a time of the file strays, in seconds.
func (x *text) clockSD() float64 {
	switch x.timing {
	case caption.TimingWord:
		return 0.15
	case caption.TimingCue:
		return 0.4
	}
	return 2.0
}

// counted turns a count into a set, without its name, side and dose.
func (x *text) counted(s *stretch) Set {
	r := s.run
	if r.hold != nil {
		return x.countedHolds(s)
	}
	first := r.first()
	head := first.v // repetitions up to the first number
	if r.rule.step < 0 {
		head = 1
	}
	joints := x.joints(r)
	summed := x.summedUp(r.last().last, joints, head)
	if short := x.withoutSum(r); short != nil {
		if j := x.joints(short); holdsWay(j, r.last().v-head) {
			r, joints, summed = short, j, r.last().v-head
		}
	}
	set := Set{Counted: true, LastNumber: r.last().v}
	if len(joints) == 0 {
		length := s.end - s.start
		set.Reps, set.RepsLow, set.RepsHigh = first.v, first.v, first.v
		set.Pace = length / float64(first.v)
		set.Start = around(s.start, math.Max(0.7, x.clockSD()), x.evidence())
		set.End = around(s.end, x.clockSD(), x.evidence())
		share := silentLengthSD
		if x.timing == caption.TimingBlock {
			share = silentBlockSD
		}
		sd := math.Hypot(share*length, 1.4*x.clockSD())
		set.Tension = Length{length, math.Max(0, length-float64(1.645*sd)), length + float64(1.645*sd)}
		if r.lost {
			set.LastNumber, set.RepsLow, set.RepsHigh = 0, max(1, first.v-lostFewer), first.v+lostMore
			return set
		}
		set.Count = []Number{{Said: first.v, Word: first.first, At: set.End, Rep: first.v, Prob: 0.9}}
		return set
	}
	t := x.weigh(joints, summed)
	set.fromTally(t, head)
	set.Pace = t.pace
	sd := x.clockSD()
	start := t.first - float64(float64(head)*t.pace)
	set.Start = around(start, math.Hypot(sd, 0.1*t.pace*float64(head)), x.evidence())
	set.End = around(t.last, sd, x.evidence())
	tension := float64(set.Reps) * t.pace
	if x.timing == caption.TimingWord {
		tension = t.last - start
	}
	tsd := math.Hypot(float64(tension*t.paceSD), math.Hypot(1.4*sd, 0.1*t.pace))
	set.Tension = Length{tension, math.Max(0, tension-float64(1.645*tsd)), tension + float64(1.645*tsd)}
	x.count(&set, r, t, head)
	return set
}

// joints takes a count apart.
func (x *text) joints(r *run) []joint {
	joints := jointsOf(r, x.between(r), x.echoed, x.careless)
	x.lateJoints(joints)
	x.admit(joints)
	return joints
}

// echoed is how surely the words just before a number say that it only recalls the count.
func (x *text) echoed(it *item) float64 {
	best := 0.0
	for _, m := range x.marks["recall"] {
		if m.Last <= it.first && m.Last >= it.first-2 {
			best = math.Max(best, m.Weight)
		}
	}
	return best
}

// between returns the readings of numbers within the span of a count.
func (x *text) between(r *run) []item {
	return x.numbers[x.numbersBefore(r.first().first):x.numbersBefore(r.last().last)]
}

// numbersBefore returns how many readings of numbers begin before word i.
func (x *text) numbersBefore(i int) int {
	return sort.Search(len(x.numbers), func(k int) bool { return x.numbers[k].first >= i })
}

// fromTally takes the repetitions from the beat: the likeliest number, and the narrowest range that holds 9 in 10.
func (s *Set) fromTally(t *tally, head int) {
	best := 0
	for n, p := range t.reps {
		if p > t.reps[best] {
			best = n
		}
	}
	lo, hi, mass := best, best, t.reps[best]
	for mass < 0.9 {
		l, h := 0.0, 0.0
		if lo > 0 {
			l = t.reps[lo-1]
		}
		if hi+1 < len(t.reps) {
			h = t.reps[hi+1]
		}
		if l == 0 && h == 0 {
			// a hole in the distribution: widen both ways
			if lo == 0 && hi+1 >= len(t.reps) {
				break
			}
		}
		if h >= l && hi+1 < len(t.reps) {
			hi++
			mass += h
		} else if lo > 0 {
			lo--
			mass += l
		} else if hi+1 < len(t.reps) {
			hi++
		} else {
			break
		}
	}
	s.Reps, s.RepsLow, s.RepsHigh = best+head, lo+head, hi+head
}

// count lists the numbers and the silent repetitions, and the odd places.
func (x *text) count(s *Set, r *run, t *tally, head int) {
	spread := func(it *item) caption.Spread { return x.track.Words[it.first].Time }
	add := func(it *item, rep int, o Origin, p float64) {
		s.Count = append(s.Count, Number{Said: it.v, Word: it.first, At: spread(it), Rep: rep, Origin: o, Prob: p})
	}
	rep := head
	first := t.joints[0].a
	add(&first, rep, originOf(&first), 1)
	x.misheard(s, &first)
	for k := range t.joints {
		j := &t.joints[k]
		o := j.likeliest()
		again, n := &j.options[o], j.options[o].reps
		for i := range j.again {
			it := &j.again[i]
			if again.kind == Repeated || again.kind == Restarted {
				rep++
				n--
				add(it, rep, Heard, again.post)
			} else {
				add(it, 0, CaptionRepeat, again.post)
			}
		}
		for i := 1; i < n; i++ {
			at := j.a.t + (j.b.t-j.a.t)*float64(i)/float64(n)
			rep++
			s.Count = append(s.Count, Number{Word: -1, At: around(at, x.clockSD(), x.evidence()), Rep: rep, Origin: Inferred, Prob: again.post})
		}
		rep++
		add(&j.b, rep, originOf(&j.b), again.post)
		x.slip(s, r, j)
	}
}

func originOf(it *item) Origin {
	if it.cost > 0 {
		return CaptionMisheard
	}
	return Heard
}

func (j *joint) likeliest() int {
	best := 0
	for o := range j.options {
		if j.options[o].post > j.options[best].post {
			best = o
		}
	}
	return best
}

// slip notes what is odd at a joint, and whose it is.
func (x *text) slip(s *Set, r *run, j *joint) {
	x.misheard(s, &j.b)
	var session, captions float64
	o := &j.options[j.likeliest()]
	for i := range j.options {
		switch j.options[i].cause {
		case bySession:
			session += j.options[i].post
		case byCaptions:
			captions += j.options[i].post
		}
	}
	kind := o.kind
	if kind == Lost && !o.odd && len(j.again) == 0 && x.talk(j.a.last, j.b.first) < silentTalk {
		kind, captions = Gap, gapSilent // nothing stands there: done in silence, or lost by the captioner
	}
	if kind == Gap && x.talk(j.a.last, j.b.first) > fillingTalk {
		captions *= gapFilled // the therapist spoke instead of counting, most likely
	}
	if session+captions < 0.2 && !o.odd {
		return
	}
	at := &j.b
	when := x.track.Words[at.first].Time
	if len(j.again) > 0 {
		at = &j.again[0]
		when = x.track.Words[at.first].Time
	} else if kind == Gap || kind == Lost {
		when = x.between2(&j.a, &j.b)
	}
	sl := Slip{Kind: kind, At: when, First: at.first, Last: at.last, Said: at.v, Expected: j.a.v + r.rule.step, Session: session, Captions: captions}
	if n := len(j.again); n > 0 {
		sl.Last = j.again[n-1].last
	}
	s.Slips = append(s.Slips, sl)
}

const (
	silentTalk  = 0.4  // seconds of talk below which nothing was said between two numbers
	fillingTalk = 0.6  // seconds of talk above which it may stand in place of the number
	gapFilled   = 0.5  // what that leaves of the probability that the captioner lost the number
	gapSilent   = 0.55 // that several numbers that are missing there were lost by the captioner
	heldLess    = 0.5  // that a second missing at either end of a hold was counted
	heardRight  = 0.9  // that a word which stands where a number was due is that number
)

// between2 is an instant between two numbers.
func (x *text) between2(a, b *item) caption.Spread {
	return caption.Spread{At: caption.At((a.t + b.t) / 2), Low: caption.At(a.t), High: caption.At(b.t), From: x.evidence()}
}

// misheard notes a number of a count for which the captions have something else.
func (x *text) misheard(s *Set, it *item) {
	if it.cost <= 0 || it.part > 0 {
		return
	}
	s.Slips = append(s.Slips, Slip{Kind: Misheard, At: x.track.Words[it.first].Time, First: it.first, Last: it.last, Expected: it.v, Captions: heardRight})
}

// countedHolds turns a count with holds into a set: a repetition is a hold.
func (x *text) countedHolds(s *stretch) Set {
	r := s.run
	set := Set{Counted: true}
	h := r.hold
	x.doubledHolds(&set, h)
	h.joinNumbered()
	n := len(h.cycles)
	var starts []float64
	last := 0
	for i := range h.cycles {
		c := &h.cycles[i]
		starts = append(starts, c.at)
		x.innerSlips(&set, h, i)
		if c.outer == nil {
			continue
		}
		x.misheard(&set, c.outer)
		it := c.outer
		set.LastNumber = it.v
		set.Count = append(set.Count, Number{Said: it.v, Word: it.first, At: x.track.Words[it.first].Time, Rep: i + 1, Origin: originOf(it), Prob: 0.95})
		x.outerSlip(&set, h, i, last)
		last = it.v
	}
	lost := h.lost()
	n += lost
	set.Reps, set.RepsLow, set.RepsHigh = n, n-lost, n
	n = len(h.cycles)
	end := r.last().t
	period := 0.0
	if n > 1 {
		period = (starts[n-1] - starts[0]) / float64(n-1)
	}
	start := starts[0] - math.Min(2.5, 0.3*period)
	if c := h.cycles[0]; c.outer != nil && period > 0 {
		start = c.outer.t - period
	}
	if h.cycles[n-1].outer == nil {
		end = math.Max(r.last().end, starts[n-1]+float64(0.8*period))
	}
	set.Pace = period
	sd := x.clockSD()
	set.Start, set.End = around(start, sd+0.4, x.evidence()), around(end, sd, x.evidence())
	length := end - start
	set.Tension = Length{length, math.Max(0, length-float64(1.645*1.4*(sd+0.2))), length + float64(1.645*1.4*(sd+0.2))}
	return set
}

// outerSlip notes where the number of repetition i does not follow the number before it.
func (x *text) outerSlip(set *Set, h *holds, i, last int) {
	it := h.cycles[i].outer
	dir := 1
	if h.numberedDown() {
		dir = -1
	}
	if last == 0 || it.v-last == dir {
		return
	}
	sl := Slip{At: x.track.Words[it.first].Time, First: it.first, Last: it.last, Said: it.v, Expected: last + dir, Session: 0.8, Captions: 0.2}
	switch {
	case it.v == last:
		sl.Kind = Repeated
	case it.v-last == 2*dir && i > 0 && h.cycles[i-1].outer != nil:
		sl.Kind = Skipped
	default:
		return
	}
	set.Slips = append(set.Slips, sl)
}

// innerSlips notes the seconds of hold i that the captions miss or mishear.
func (x *text) innerSlips(set *Set, h *holds, i int) {
	c := &h.cycles[i]
	if c.silent() {
		return
	}
	gap := func(at caption.Spread, word, v int, captions float64) {
		set.Slips = append(set.Slips, Slip{Kind: Gap, At: at, First: word, Last: word, Expected: h.said(v), Captions: captions})
	}
	if from := h.from(); c.inner[0].v == from+1 {
		w := c.inner[0].first
		gap(x.track.Words[w].Time, w, from, heldLess)
	}
	for k := range c.inner {
		second := c.inner[k]
		second.v = h.said(second.v)
		x.misheard(set, &second)
		if k > 0 && c.inner[k].v == c.inner[k-1].v+2 {
			gap(x.between2(&c.inner[k-1], &c.inner[k]), c.inner[k].first, c.inner[k].v-1, heardRight)
		}
	}
	if last := &c.inner[len(c.inner)-1]; last.v == h.to-1 {
		w := min(last.last, len(x.w)-1)
		gap(x.track.Words[w].Time, w, h.to, heldLess)
	}
}

// from returns the number at which the seconds of a hold usually begin.
func (h *holds) from() int {
	n := [3]int{}
	for i := range h.cycles {
		if c := &h.cycles[i]; !c.silent() && c.inner[0].v < 3 {
			n[c.inner[0].v]++
		}
	}
	if n[2] > n[1] {
		return 2
	}
	return 1
}

// doubledHolds takes out cycles that the captioner wrote twice: their seconds follow those of the cycle before at once, with
// no word between.
func (x *text) doubledHolds(set *Set, h *holds) {
	kept := h.cycles[:1]
	period := h.period()
	for i := 1; i < len(h.cycles); i++ {
		a, b := &kept[len(kept)-1], &h.cycles[i]
		if a.silent() || b.silent() {
			kept = append(kept, *b)
			continue
		}
		atOnce := b.inner[0].first == a.inner[len(a.inner)-1].last
		early := x.timing != caption.TimingBlock && len(h.cycles) > 3 && b.at-a.at < tooSoon*period
		if a.outer == nil && len(a.inner) > 1 && (atOnce || early) {
			w := b.inner[0].first
			set.Slips = append(set.Slips, Slip{Kind: Doubled, At: x.track.Words[w].Time, First: w, Last: b.inner[len(b.inner)-1].last, Said: b.inner[0].v, Captions: 0.85, Session: 0.15})
			a.outer = b.outer
			continue
		}
		kept = append(kept, *b)
	}
	h.cycles = kept
}

const tooSoon = 0.6 // of the usual time between holds: less is no second hold

// period returns the median time between the beginnings of holds, in seconds.
func (h *holds) period() float64 {
	var d []float64
	for i := 1; i < len(h.cycles); i++ {
		d = append(d, h.cycles[i].at-h.cycles[i-1].at)
	}
	if len(d) == 0 {
		return 0
	}
	sort.Float64s(d)
	return d[len(d)/2]
}

// lost returns how many repetitions the numbers of the others speak for that have no seconds of their own: the first, where
// the numbering begins late, and those where a number is passed over and the time for it.
func (h *holds) lost() int {
	n, prev := 0, -1
	period := h.cycles[len(h.cycles)-1].at - h.cycles[0].at
	period /= float64(max(1, len(h.cycles)-1))
	for i := range h.cycles {
		o := h.cycles[i].outer
		if o == nil || h.numberedDown() {
			continue
		}
		if prev < 0 {
			if d := o.v - (i + 1); d == 1 {
				n += d
			}
		} else {
			d := o.v - h.cycles[prev].outer.v - (i - prev)
			beats := (h.cycles[i].at - h.cycles[prev].at) / period
			if d > 0 && d <= 2 && beats > float64(i-prev)+float64(0.6*float64(d)) {
				n += d
			}
		}
		prev = i
	}
	return n
}

// numberedDown reports whether the repetitions are numbered downwards.
func (h *holds) numberedDown() bool {
	first, last := 0, 0
	for i := range h.cycles {
		if o := h.cycles[i].outer; o != nil {
			if first == 0 {
				first = o.v
			}
			last = o.v
		}
	}
	return last < first
}

// goOn adds a further go of the count to a set.
func (x *text) goOn(set *Set, r *run) {
	next := x.counted(&stretch{first: r.first().first, last: r.last().last, start: r.first().t, end: r.last().t, run: r})
	gap := next.Start.At.Seconds() + next.Pace - set.End.At.Seconds()
	set.Reps, set.RepsLow, set.RepsHigh = set.Reps+r.unsaid, set.RepsLow+r.unsaid, set.RepsHigh+r.unsaid
	for i := range next.Count {
		if next.Count[i].Rep > 0 {
			next.Count[i].Rep += set.Reps
		}
	}
	if r.first().v == 1 && r.rule.step > 0 && set.LastNumber > 0 {
		w := x.track.Words[r.first().first]
		set.Slips = append(set.Slips, Slip{Kind: Restarted, At: w.Time, First: r.first().first, Last: r.first().last, Said: 1, Expected: set.LastNumber + 1, Session: 0.35})
	}
	set.Count = append(set.Count, next.Count...)
	set.Slips = append(set.Slips, next.Slips...)
	set.Reps, set.RepsLow, set.RepsHigh = set.Reps+next.Reps, set.RepsLow+next.RepsLow, set.RepsHigh+next.RepsHigh
	set.LastNumber = next.LastNumber
	set.Tension.Value += next.Tension.Value - next.Pace + gap
	set.Tension.Low += next.Tension.Low - next.Pace + gap
	set.Tension.High += next.Tension.High - next.Pace + gap
	set.End = next.End
	if set.Reps > 0 {
		set.Pace = set.Tension.Value / float64(set.Reps)
	}
}
