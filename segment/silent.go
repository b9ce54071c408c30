package segment

import (
	"math"
	"slices"
	"sort"

	"captally.example/captally/segment/announce"
	"captally.example/captally/segment/caption"
)

// Sets done in silence: of all their numbers only the last is said, "and that's ten", or one now and then.

const (
	gainThats     = 2.2 // "that's", "makes" before a lone last number
	silentBase    = 1.0
	wayStray      = 0.7 // how far a number on the way strays, against two numbers that follow each other
	wayMost       = 3.0 // what they all speak for or against it at most
	lossAnnounces = 8.0 // the number only announces what is to come, per weight of the mention over 0.4
	lossGoesOn    = 3.0 // a larger number follows on the beat: it was not the last
	mostWaysKept  = 4   // places where such a set may have begun that are kept
	silentPace    = 3.7 // seconds a repetition of sets done in silence, typically
	silentSpread  = 0.5 // its spread, natural logarithm
	silentLongest = 130.0
	mostMisheard  = 4.0 // nats that another word in place of that number may cost
	lossTeen      = 1.0 // "fifty" for fifteen
	lossLost      = 1.5 // the last number is lost after "that's"
)

// silentCounts finds sets of which only the last number is said: "and that's ten".
func (x *text) silentCounts(items []item, counted []run) []run {
	var out []run
	add := func(it *item, marked, lost bool) {
		n := len(out)
		out = x.silentWays(out, it, marked)
		for i := range out[n:] {
			out[n+i].lost = lost
		}
	}
	for k := range items {
		it := &items[k]
		if it.cost > 0 || it.v < 4 || it.first < 2 {
			continue
		}
		marked := summingUp[x.w[it.first-1].fold]
		if !marked && (it.gain < gainHalf || countFollows(counted, it) || x.ofBreath(it)) {
			continue
		}
		add(it, marked, false)
		if teen := it.v/10 + 10; marked && x.careless > 0 && it.v%10 == 0 && it.v >= 30 {
			as := *it
			as.v, as.cost = teen, lossTeen
			add(&as, true, false)
		}
	}
	if x.careless == 0 {
		return out
	}
	for i := 2; i < len(x.w); i++ {
		if !summingUp[x.w[i-1].fold] {
			continue
		}
		for _, g := range x.soundsLike(i) {
			if cost := g.Cost + float64(x.deaf*lossHeard); g.Cost > 0 && g.Value >= 4 && cost < mostMisheard {
				add(&item{first: i, last: i + 1, parts: 1, v: g.Value, cost: cost, t: x.w[i].t, end: x.w[i].end}, true, false)
			}
		}
		if x.w[i].num < 0 && x.apart(i-1) {
			w := &x.w[i-1]
			for _, v := range x.dosesBefore(i) {
				add(&item{first: i - 1, last: i, parts: 1, v: v, cost: lossLost, t: w.end, end: w.end}, true, true)
			}
		}
	}
	return out
}

// summingUp are the words before a number that says how many have been done.
var summingUp = wordSet("that's", "is", "makes", "that'll")

// dosesBefore returns the numbers of repetitions that were announced lately before word i, each once.
func (x *text) dosesBefore(i int) []int {
	var out []int
	add := func(m *announce.Mention) {
		if v := int(m.Value); m.Kind == announce.Reps && m.Weight > 0.3 && v >= 4 && !slices.Contains(out, v) {
			out = append(out, v)
		}
	}
	to := x.saidBefore(i)
	from := sort.Search(to, func(k int) bool { return x.w[i].t-x.w[x.said[k].First].t < doseWithin })
	for _, k := range x.forAll {
		if k >= from {
			break
		}
		add(&x.said[k])
	}
	for k := from; k < to; k++ {
		add(&x.said[k])
	}
	return out
}

// silentWays adds to out where a set whose last number is it may have begun, the likeliest first; marked says that it sums up.
func (x *text) silentWays(out []run, it *item, marked bool) []run {
	first := len(out)
	items := []item{*it}
	announces, goesOn := x.announces(it), !marked && x.goesOn(it)
	near := sort.Search(len(x.goMarks), func(k int) bool { return it.t-x.w[x.goMarks[k].last-1].end <= silentLongest })
	for _, g := range x.goMarks[near:] {
		from := g.last
		if from >= it.first {
			break
		}
		r := run{rule: rule{1}, items: items, silentFrom: from}
		r.dose = x.doseGain(&r)
		known := r.dose >= 0.25*gainDose
		if !marked && !known && it.v < 6 {
			continue
		}
		along := x.onTheWay(from, it)
		if it.cost > lossTeen && r.dose < 0.15*gainDose || !marked && !known && along < 1 {
			continue
		}
		r.begin, r.end = x.inSilence(from, it)
		length := r.end - r.begin
		r.score = silentBase - it.cost + x.silentFit(from, it) + float64(gainGo*(g.weight-0.4)) - math.Max(0, x.cross[it.first-1]-x.cross[from]-0.6)
		r.score -= float64(2 * lossTalk * math.Max(-0.3, math.Min(1.5, (float64(it.first-from)/length-0.7)/0.6)))
		r.score += along
		if marked {
			r.score += gainThats
		}
		if goesOn {
			r.score -= lossGoesOn
		}
		r.score -= float64(lossAnnounces * math.Max(0, announces-0.4))
		k := len(out) // its place by the scores with the dose, which asStretch adds
		for k > first && out[k-1].score+out[k-1].dose < r.score+r.dose {
			k--
		}
		if k < first+mostWaysKept {
			out = slices.Insert(out, k, r)
			out = out[:min(len(out), first+mostWaysKept)]
		}
	}
	return out
}

// inSilence returns when a set in silence began and ended, in seconds: from word from on, up to its one number. Where the file
// places the words roughly, it lasts what such a set usually lasts, as far as the places allow.
func (x *text) inSilence(from int, last *item) (begin, end float64) {
	a := &x.w[from-1]
	begin, end = a.end, last.t
	shortest, longest := x.silentLengths(from, last)
	more := math.Min(math.Max(silentPace*float64(last.v), shortest), longest) - (end - begin)
	aLow, aHigh := x.bounds(from - 1)
	bLow, bHigh := x.bounds(last.first)
	before, after := begin-(aLow+a.end-a.t), bHigh-end // how much earlier it can have begun, and later ended
	if more < 0 {
		before, after = aHigh+a.end-a.t-begin, end-bLow
	}
	if room := before + after; room > 0 {
		begin -= more * before / room
		end += more * after / room
	}
	return begin, end
}

// silentLengths returns how long a set in silence can have lasted from word from up to its one number, in seconds.
func (x *text) silentLengths(from int, last *item) (shortest, longest float64) {
	a := &x.w[from-1]
	if x.timing != caption.TimingBlock {
		return last.t - a.end, last.t - a.end
	}
	spoken := a.end - a.t
	aLow, aHigh := x.bounds(from - 1)
	bLow, bHigh := x.bounds(last.first)
	return bLow - aHigh - spoken, bHigh - aLow - spoken
}

// silentFit weighs that length, against the usual one: the mean over all that it can have been.
func (x *text) silentFit(from int, last *item) float64 {
	const steps = 8
	shortest, longest := x.silentLengths(from, last)
	sum, of, density := 0.0, 0.0, 0.0
	for k := 0; k <= steps; k++ {
		if length := math.Max(1, shortest+float64((longest-shortest)*float64(k)/steps)); length != of { // with a time on each word there is but one
			z := math.Log(length/float64(last.v)/silentPace) / silentSpread
			of, density = length, math.Exp(-0.5*z*z)
		}
		sum += density
	}
	return math.Log(math.Max(1e-9, sum/(steps+1)))
}

// onTheWay is what the numbers between the word from and the last number of a set speak for it, where only now and then one is
// said: each comes when so many repetitions are done at an even beat.
func (x *text) onTheWay(from int, last *item) float64 {
	begin := x.w[from-1].end
	spread := wayStray * beatSpread(x.timing)
	most := onBeat(spread)
	between := x.numbers[x.numbersBefore(from):x.numbersBefore(last.first)]
	counts := func(b *item) bool { return b.cost == 0 && b.gain >= gainHalf && b.v < last.v && b.v >= 2 }
	n := 0
	for k := range between {
		if counts(&between[k]) {
			n++
		}
	}
	if 2*n >= last.v { // it is counted aloud
		return 0
	}
	sum := 0.0
	for k := range between {
		b := &between[k]
		if !counts(b) {
			continue
		}
		z := math.Log((b.t-begin)/(last.t-begin)*float64(last.v)/float64(b.v)) / spread
		sum += max(-wayMost, most-float64(0.5*z*z))
	}
	return math.Min(sum, wayMost)
}

// ofBreath reports whether a number ends the seconds of a breath: "out, two, three, four".
func (x *text) ofBreath(it *item) bool {
	i := it.first
	for v := it.v; i > 0 && v > 1 && x.w[i-1].num == v-1; v-- {
		i--
	}
	return i < it.first && i > 0 && breathWord[x.w[i-1].fold]
}

// announces is how surely a number announces a dose.
func (x *text) announces(it *item) float64 {
	best := 0.0
	for k := x.saidBefore(it.first); k < len(x.said) && x.said[k].First < it.last; k++ {
		if m := &x.said[k]; m.Kind == announce.Reps {
			best = math.Max(best, m.Weight)
		}
	}
	return best
}

// goesOn reports whether a larger number stands apart so soon after a number that it may go on the same count.
func (x *text) goesOn(it *item) bool {
	for k := x.numbersBefore(it.first + 1); k < len(x.numbers); k++ {
		b := &x.numbers[k]
		if b.cost > 0 || b.gain < gainHalf || b.v <= it.v {
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
