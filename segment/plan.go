package segment

import (
	"math"
	"sort"

	"captally.example/captally/segment/announce"
	"captally.example/captally/segment/caption"
	"captally.example/captally/segment/chain"
)

// What speaks for a count being a set, in nats, besides the count itself.
const (
	gainDose      = 3.0  // it ends at the number that was announced
	gainLeadIn    = 1.5  // a go phrase stands just before it
	lossBreath    = 60.0 // it counts breaths
	lossShort     = 1.5  // per number that it has fewer than four
	lossBrief     = 0.8  // per second that it is shorter than briefest
	briefest      = 8.0  // seconds
	lossHasty     = 6.0  // it is said at the speed of talk, not of movement
	lossCountdown = 4.0  // it only counts down a few seconds
	gainOnBeat    = 4.0  // it began, by its pace, just after a go phrase of weight 1
	gainRestart   = 2.5  // it is said to begin anew just after
	gainThats     = 2.2  // "that's", "makes" before a lone last number
	silentBase    = 1.0
	wayStray      = 0.7 // how far a number on the way strays, against two numbers that follow each other
	wayMost       = 3.0 // what they all speak for or against it at most
	lossAnnounces = 8.0 // the number only announces what is to come, per weight of the mention over 0.4
	lossGoesOn    = 3.0 // a larger number follows on the beat: it was not the last
	silentWays    = 4   // places where such a set may have begun that are kept
	silentPace    = 3.7 // seconds a repetition of sets done in silence, typically
	silentSpread  = 0.5 // its spread, natural logarithm
	silentLongest = 130.0
	doseWithin    = 100.0
)

// asStretch makes a candidate set of a count.
func (x *text) asStretch(r *run) stretch {
	s := stretch{first: r.first().first, last: r.last().last, start: r.first().t, end: r.last().t, score: r.score, run: r}
	n := len(r.items)
	if r.silentFrom > 0 {
		s.first, s.start, s.end = r.silentFrom, r.begin, r.end
	} else if r.hold == nil {
		s.score -= float64(lossShort * math.Max(0, float64(4-max(n, x.repsIn(r)))))
		if r.rule.step < 0 && r.first().v <= 5 && x.hurried(r) && !x.endsJustBefore(r) {
			s.score -= lossCountdown
		}
		if n > 2 {
			if pace := (s.end - s.start) / float64(n-1); pace < 0.75 && r.rule.step > 0 {
				s.score -= float64(lossHasty * math.Min(1, (0.75-pace)/0.3))
			}
		}
	}
	s.score -= float64(lossBreath * math.Max(0, x.breathing(r)-0.2))
	s.score += x.beginsOnBeat(r)
	if x.restartsAfter(r) {
		s.score += gainRestart
	}
	s.score -= float64(lossBrief * math.Max(0, briefest-(s.end-s.start)))
	s.score += x.doseGain(r)
	if r.silentFrom == 0 {
		s.score += x.leadIn(s.first)
	}
	return s
}

// beginsOnBeat is what it speaks for a count of few numbers that it began, by its own pace, where a go phrase or a silence
// ends: "go ... five ... ten".
func (x *text) beginsOnBeat(r *run) float64 {
	if r.hold != nil || r.silentFrom > 0 || r.rule.step < 0 || r.first().v < 3 {
		return 0
	}
	span := float64(r.last().v - r.first().v)
	pace := (r.last().t - r.first().t) / span
	if len(r.items) >= r.last().v/2 || pace < 0.9 || pace > 9 {
		return 0
	}
	best := 0.0
	for _, g := range x.gos() {
		if g.last > r.first().first {
			break
		}
		z := math.Log((r.first().t-x.goTime(g.last))/(pace*float64(r.first().v))) / 0.3
		best = math.Max(best, gainOnBeat*g.weight*math.Exp(-0.5*z*z))
	}
	return best
}

// hurried reports whether the numbers of a count come about as fast as seconds.
func (x *text) hurried(r *run) bool {
	pace := (r.last().t - r.first().t) / float64(max(1, len(r.items)-1))
	if x.timing == caption.TimingBlock {
		return pace < 4 // the words' own times say little
	}
	return pace < 2
}

// restartsAfter reports whether the count is said to begin anew just after.
func (x *text) restartsAfter(r *run) bool {
	for _, m := range x.marks["restart"] {
		if m.First >= r.last().last && m.First < r.last().last+8 {
			return true
		}
	}
	return false
}

// endsJustBefore reports whether numbers that stand apart come so soon before a count down that it goes on from them:
// "nine, ten, five more: five, four, three, two, one".
func (x *text) endsJustBefore(r *run) bool {
	n := 0
	for i := range x.numbers {
		it := &x.numbers[i]
		if dt := r.first().t - it.t; it.cost == 0 && it.gain >= gainHalf && it.v > r.first().v && dt > 0 && dt < 9 {
			n++
		}
	}
	return n >= 2
}

// repsIn returns how many repetitions a count of few numbers plausibly stands for: as many as its numbers say, if its pace
// is one of movement.
func (x *text) repsIn(r *run) int {
	total := abs(r.last().v-r.first().v) + 1
	if pace := (r.last().t - r.first().t) / float64(max(1, total-1)); pace < 1 || pace > 8 {
		return 0
	}
	return total
}

// breathing is the share of a count's beginnings (its own, or those of its cycles) that follow a word for a breath at once.
func (x *text) breathing(r *run) float64 {
	starts := []int{r.first().first}
	if r.hold != nil {
		starts = starts[:0]
		for i := range r.hold.cycles {
			starts = append(starts, r.hold.cycles[i].inner[0].first)
		}
	} else if pace := (r.last().t - r.first().t) / float64(max(1, len(r.items)-1)); pace > 1.8 {
		return 0
	}
	n := 0
	for _, i := range starts {
		if i > 0 && breathWord[x.w[i-1].fold] && (x.timing != caption.TimingWord || x.silence(i) < 1.2) {
			n++
		}
	}
	return float64(n) / float64(len(starts))
}

// ofBreath reports whether a number ends the seconds of a breath: "out, two, three, four".
func (x *text) ofBreath(it *item) bool {
	i := it.first
	for v := it.v; i > 0 && v > 1 && x.w[i-1].num == v-1; v-- {
		i--
	}
	return i < it.first && i > 0 && breathWord[x.w[i-1].fold]
}

var breathWord = wordSet("in", "out", "breathe", "breath", "inhale", "exhale")

// doseGain is what an announced dose speaks for a count that ends there.
func (x *text) doseGain(r *run) float64 {
	total := r.last().v
	if r.rule.step < 0 {
		total = r.first().v
	}
	best := 0.0
	begin := r.first().first
	if r.silentFrom > 0 {
		begin = r.silentFrom
	}
	for k := range x.said {
		m := &x.said[k]
		if m.First >= begin && (m.Scope != announce.Change || m.Last > r.last().first) {
			if m.First >= r.last().last {
				break
			}
			continue
		}
		if m.Kind != announce.Reps || int(m.Value) != total && int(m.Value) != total+1 {
			continue
		}
		w := m.Weight
		if int(m.Value) != total {
			w *= 0.5 // its last number may be lost
		}
		if m.Scope != announce.Everything && m.Scope != announce.Change {
			dt := r.first().t - x.w[m.First].t
			w *= math.Max(0.2, 1-dt/doseWithin)
		}
		best = math.Max(best, w)
	}
	return gainDose * best
}

// leadIn is what a go phrase just before word i speaks for a set that begins there.
func (x *text) leadIn(i int) float64 {
	best := 0.0
	for _, m := range x.marks["go"] {
		if m.Last <= i && m.Last >= i-6 {
			best = math.Max(best, m.Weight*(1-float64(0.12*float64(i-m.Last))))
		}
	}
	return gainLeadIn * best
}

// silentCounts finds sets of which only the last number is said: "and that's ten".
func (x *text) silentCounts(items []item, counted []run) []run {
	var out []run
	gos := x.gos()
	cross := x.crossing()
	for k := range items {
		it := &items[k]
		if it.cost > 0 || it.v < 4 || it.first < 2 {
			continue
		}
		marked := false
		switch x.w[it.first-1].fold {
		case "that's", "is", "makes", "that'll":
			marked = true
		}
		if !marked && (it.gain < gainHalf || countFollows(counted, it) || x.ofBreath(it)) {
			continue
		}
		var ways []run // by their scores with the dose, which asStretch adds
		for _, g := range gos {
			from := g.last
			if from >= it.first || it.t-x.w[from-1].end > silentLongest {
				continue
			}
			r := run{rule: rule{1}, items: []item{*it}, silentFrom: from}
			r.begin, r.end = x.inSilence(from, it)
			length := r.end - r.begin
			dose := x.doseGain(&r)
			along := x.onTheWay(from, it)
			if !marked && dose < 0.25*gainDose && (along < 1 || it.v < 6) {
				continue
			}
			r.score = silentBase + x.silentFit(from, it) + float64(gainGo*(g.weight-0.4)) - math.Max(0, cross[it.first-1]-cross[from]-0.6)
			r.score -= float64(2 * lossTalk * math.Max(-0.3, math.Min(1.5, (float64(it.first-from)/length-0.7)/0.6)))
			r.score += along
			if marked {
				r.score += gainThats
			}
			if !marked && x.goesOn(it) {
				r.score -= lossGoesOn
			}
			if !marked {
				r.score -= float64(lossAnnounces * math.Max(0, x.announces(it)-0.4))
			}
			r.dose = dose
			ways = append(ways, r)
		}
		sort.SliceStable(ways, func(a, b int) bool { return ways[a].score+ways[a].dose > ways[b].score+ways[b].dose })
		out = append(out, ways[:min(len(ways), silentWays)]...)
	}
	return out
}

// inSilence returns when a set in silence began and ended, in seconds: from word from on, up to its one number. Where the file
// places the words roughly, it lasts what such a set usually lasts, as far as the places allow.
func (x *text) inSilence(from int, last *item) (begin, end float64) {
	a, b := &x.w[from-1], &x.w[last.first]
	begin, end = a.end, last.t
	shortest, longest := x.silentLengths(from, last)
	more := math.Min(math.Max(silentPace*float64(last.v), shortest), longest) - (end - begin)
	before, after := begin-(a.lo+a.end-a.t), b.hi-end // how much earlier it can have begun, and later ended
	if more < 0 {
		before, after = a.hi+a.end-a.t-begin, end-b.lo
	}
	if room := before + after; room > 0 {
		begin -= more * before / room
		end += more * after / room
	}
	return begin, end
}

// silentLengths returns how long a set in silence can have lasted from word from up to its one number, in seconds.
func (x *text) silentLengths(from int, last *item) (shortest, longest float64) {
	a, b := &x.w[from-1], &x.w[last.first]
	if x.timing != caption.TimingBlock {
		return last.t - a.end, last.t - a.end
	}
	spoken := a.end - a.t
	return b.lo - a.hi - spoken, b.hi - a.lo - spoken
}

// silentFit weighs that length, against the usual one: the mean over all that it can have been.
func (x *text) silentFit(from int, last *item) float64 {
	const steps = 8
	shortest, longest := x.silentLengths(from, last)
	sum := 0.0
	for k := 0; k <= steps; k++ {
		length := math.Max(1, shortest+float64((longest-shortest)*float64(k)/steps))
		z := math.Log(length/float64(last.v)/silentPace) / silentSpread
		sum += math.Exp(-0.5 * z * z)
	}
	return math.Log(math.Max(1e-9, sum/(steps+1)))
}

// onTheWay is what the numbers between the word from and the last number of a set speak for it, where only now and then one is
// said: each comes when so many repetitions are done at an even beat.
func (x *text) onTheWay(from int, last *item) float64 {
	begin := x.w[from-1].end
	spread := wayStray * beatSpread(x.timing)
	sum, n := 0.0, 0
	for k := range x.numbers {
		b := &x.numbers[k]
		if b.first >= last.first {
			break
		}
		if b.first < from || b.cost > 0 || b.gain < gainHalf || b.v >= last.v || b.v < 2 {
			continue
		}
		z := math.Log((b.t-begin)/(last.t-begin)*float64(last.v)/float64(b.v)) / spread
		sum += math.Max(-wayMost, onBeat(spread)-float64(0.5*z*z))
		n++
	}
	if 2*n >= last.v { // it is counted aloud
		return 0
	}
	return math.Min(sum, wayMost)
}

// announces is how surely a number announces a dose.
func (x *text) announces(it *item) float64 {
	best := 0.0
	for k := range x.said {
		if m := &x.said[k]; m.Kind == announce.Reps && m.First >= it.first && m.First < it.last {
			best = math.Max(best, m.Weight)
		}
	}
	return best
}

// goesOn reports whether a larger number stands apart so soon after a number that it may go on the same count.
func (x *text) goesOn(it *item) bool {
	for k := range x.numbers {
		b := &x.numbers[k]
		if b.first <= it.first || b.cost > 0 || b.gain < gainHalf || b.v <= it.v {
			continue
		}
		pace := (b.t - it.t) / float64(b.v-it.v)
		return pace > 0.9 && pace < 8 && b.v <= 2*it.v+1
	}
	return false
}

// countFollows reports whether a count begins so soon after a number that the number must have been its announcement.
func countFollows(counted []run, it *item) bool {
	const soon = 16.0
	for i := range counted {
		r := &counted[i]
		if dt := r.first().t - it.t; r.score > 4 && dt > 0 && dt < soon {
			return true
		}
		if r.score > 4 && r.first().first < it.first && r.last().last > it.last {
			return true // or part of it
		}
	}
	return false
}

// pick chooses, among candidates that overlap, those that together speak best, in order of time.
func pick(all []stretch) []stretch {
	intervals := make([]chain.Interval, len(all))
	for i := range all {
		intervals[i] = chain.Interval{First: all[i].first, Last: all[i].last, Score: all[i].score}
	}
	chosen := chain.Choose(intervals)
	out := make([]stretch, len(chosen))
	for i, k := range chosen {
		out[i] = all[k]
	}
	return out
}
