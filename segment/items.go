package segment

import (
	"math"
	"strconv"
	"strings"

	"captally.example/captally/segment/caption"
	"captally.example/captally/segment/numeral"
)

// An item is one reading of a stretch of words as a number that may be part of a count.
type item struct {
	first, last int     // words [first, last)
	part        int     // of a number that was joined from several ("1112"): which of them
	parts       int     // how many; 1 for an ordinary number
	v           int     // the number
	cost        float64 // what this reading of the words costs against the plain one, in nats
	gain        float64 // what a count gains by it
	t           float64 // begins, seconds
	end         float64
}

func (a *item) before(b *item) bool {
	return a.last <= b.first || a.first == b.first && a.last == b.last && a.parts == b.parts && a.parts > 1 && a.part < b.part
}

// Worth of numbers for a count, in nats.
const (
	gainAlone     = 2.6  // silence or punctuation on both sides
	gainHalf      = 1.3  // on one side
	gainRunning   = 0.0  // on none
	gainUnknown   = 1.2  // the captions have neither
	lossBound     = 3.0  // the words around make it a quantity
	lossHeard     = 1.6  // another word stands there that sounds like it
	lossCommon    = 1.1  // and that word is among the commonest, per factor of e in its commonness
	carefulShare  = 0.03 // of counted numbers that a careful captioner mishears
	carefulWeight = 12.0 // numbers that this is worth
	deafShare     = 0.4  // of counted numbers where a mishearing is no surprise at all
	leastHeard    = -4.5 // a mishearing that costs more is no reading
	longPause     = 1.2  // seconds of silence before the word before
	costJoined    = 2.5  // two numbers written as one
)

// items lists the readings, in the order of the words.
func (x *text) items() []item {
	out := make([]item, 0, len(x.w)/3)
	x.deaf = x.deafness()
	x.leads = x.leadingWords(false)
	near := x.numbersNear()
	for i := range x.w {
		s := &x.w[i]
		if s.num >= 0 {
			if s.num > 0 && s.num <= 100 {
				out = append(out, x.item(i, i+1, s.num, 0))
			}
			if i+1 < len(x.w) && s.num >= 20 && s.num < 100 && s.num%10 == 0 {
				if u := x.w[i+1].num; u >= 1 && u <= 9 && x.w[i+1].t-s.end < 0.7 {
					c := 0.3
					if s.fold[0] <= '9' {
						c = costJoined
					}
					out = append(out, x.item(i, i+2, s.num+u, c))
				}
			}
			out = x.joined(out, i)
		}
		if near[i] != 0 {
			out = x.heard(out, i, near[i])
		}
	}
	return out
}

// numbersNear returns, for each word, which numbers could stand there as neighbours of the numbers said within some seconds:
// bit v for v. It is 0 where no two numbers are near, since there a mishearing is not worth a thought.
func (x *text) numbersNear() []uint64 {
	const reach = 13.0
	near := make([]uint64, len(x.w))
	var at []int
	for i := range x.w {
		if x.w[i].num > 0 && x.w[i].num <= 50 {
			at = append(at, i)
		}
	}
	for k, a := range at {
		crowd := k > 0 && x.w[a].t-x.w[at[k-1]].t < reach || k+1 < len(at) && x.w[at[k+1]].t-x.w[a].t < reach
		if !crowd {
			continue
		}
		v := x.w[a].num
		var bits uint64
		for _, d := range [...]int{-2, -1, 1, 2} {
			if n := v + d; n >= 1 && n < 64 {
				bits |= 1 << n
			}
		}
		if v%5 == 0 {
			bits |= 1<<(v+5) | 1<<max(v-5, 0)
		}
		for i := a - 1; i >= 0 && x.w[i].t > x.w[a].t-reach; i-- {
			near[i] |= bits
		}
		for i := a + 1; i < len(x.w) && x.w[i].t < x.w[a].t+reach; i++ {
			near[i] |= bits
		}
	}
	return near
}

func (x *text) item(first, last, v int, cost float64) item {
	it := item{first: first, last: last, parts: 1, v: v, cost: cost, t: x.w[first].t, end: x.w[last-1].end}
	it.gain = x.gain(first, last) - cost
	it.gain -= x.bound(first, last, v)
	return it
}

// gain weighs how much words [first, last) stand apart, as counted numbers do.
func (x *text) gain(first, last int) float64 {
	before := first == 0 || x.apart(first-1)
	for k := first - 1; !before && k > 0 && k >= first-2 && (leadsIn[x.w[k].fold] || x.leads[x.w[k].fold]); k-- {
		before = x.apart(k - 1)
	}
	if !before && first > 1 && x.timing == caption.TimingWord {
		before = x.silence(first-1) > longPause // one word with each number: "slowly, three"
	}
	after := last >= len(x.w) || x.apart(last-1)
	switch {
	case before && after:
		return gainAlone
	case before || after:
		return gainHalf
	case x.timing != caption.TimingWord && !x.punctuated:
		return gainUnknown
	}
	return gainRunning
}

// apart reports whether something separates word i from the next: punctuation, a silence, or another number.
func (x *text) apart(i int) bool {
	if i+1 >= len(x.w) || x.w[i].stop != runsOn {
		return true
	}
	if x.w[i].num >= 0 && x.w[i+1].num >= 0 {
		return true
	}
	return x.timing == caption.TimingWord && x.w[i+1].t-x.w[i].end > 0.35
}

// joined adds the readings of figures as several numbers of a count written as one: "23" as 2, 3; "21" as 2, 1; "1820" as 18, 20.
func (x *text) joined(out []item, i int) []item {
	f := x.w[i].fold
	if len(f) < 2 || len(f) > 6 || f[0] < '0' || f[0] > '9' {
		return out
	}
	w := &x.w[i]
	for _, r := range rules {
		for head := 1; head < len(f); head++ {
			parts := split(f, head, r.step)
			length := (w.end - w.t) / float64(max(1, len(parts)))
			for k, v := range parts {
				it := item{first: i, last: i + 1, part: k, parts: len(parts), v: v, cost: costJoined, t: w.t + float64(length*float64(k)), end: w.t + float64(length*float64(k+1))}
				it.gain = x.gain(i, i+1) - costJoined/float64(len(parts))
				out = append(out, it)
			}
		}
	}
	return out
}

// split splits figures into at least two numbers that go on by step, the first of head figures; nil where they do not.
func split(f string, head, step int) []int {
	v, err := strconv.Atoi(f[:head])
	if err != nil || v < 1 || v%step != 0 {
		return nil
	}
	out := []int{v}
	for rest := f[head:]; rest != ""; {
		v += step
		next, ok := strings.CutPrefix(rest, strconv.Itoa(v))
		if v < 1 || !ok {
			return nil
		}
		out = append(out, v)
		rest = next
	}
	return out
}

// deafness returns the factor by which a mishearing is less surprising in these captions than in careful ones, where it is 1:
// it follows from how often, between a number and the one after the next, a word stands that only sounds like the one due.
func (x *text) deafness() float64 {
	heard, misheard := 0.5, 0.0
	for i := range x.w {
		due := x.numbersWithin(i, -1) << 1 &^ 3 // from 2
		if due == 0 {
			continue
		}
		if due &= x.numbersWithin(i, 1) >> 1; due == 0 {
			continue
		}
		if v := x.w[i].num; v >= 0 {
			if v < 64 && due>>v&1 == 1 {
				heard++
			}
			continue
		}
		for _, g := range x.soundsLike(i) {
			if g.Cost > 0 && g.Cost < 2 && g.Value < 64 && due>>g.Value&1 == 1 {
				misheard++
				break
			}
		}
	}
	share := (misheard + carefulShare*carefulWeight) / (heard + misheard + carefulWeight)
	x.careless = 0.5 * math.Max(0, math.Log(share/carefulShare))
	return math.Max(0.1, math.Min(1.2, 1-math.Log(share/carefulShare)/math.Log(deafShare/carefulShare)))
}

// numbersWithin returns the numbers below 64 among the five words before word i (step -1) or after it (step 1), no more than
// five seconds off: bit v for v.
func (x *text) numbersWithin(i, step int) uint64 {
	var bits uint64
	t := x.w[i].t
	for k, n := i+step, 0; k >= 0 && k < len(x.w) && n < 5 && math.Abs(x.w[k].t-t) <= 5; k, n = k+step, n+1 {
		if v := x.w[k].num; v >= 0 && v < 64 {
			bits |= 1 << v
		}
	}
	return bits
}

// soundsLike returns the numbers that may have been heard as word i; each lexeme is looked up once.
func (x *text) soundsLike(i int) []numeral.Guess {
	l := &x.lexemes[x.w[i].lexeme]
	if !l.asked {
		n := len(x.guesses)
		x.guesses = numeral.AppendSoundsLike(x.guesses, x.w[i].fold)
		l.guesses, l.asked = x.guesses[n:len(x.guesses):len(x.guesses)], true
	}
	return l.guesses
}

// soundsLikeTwo returns those of the numbers among, and perhaps others, that may have been heard as word i and the next, at that cost at most.
func (x *text) soundsLikeTwo(i int, among uint64, most float64) []numeral.Guess {
	a, b := &x.w[i], &x.w[i+1]
	return x.pairs.SoundsLikeOneOf(a.fold, int(a.lexeme), b.fold, int(b.lexeme), among, most)
}

// heard adds the numbers of the set near that may have been said where another word, or another number, was written.
func (x *text) heard(out []item, i int, near uint64) []item {
	w := &x.w[i]
	odd := float64(x.deaf * (lossHeard + float64(lossCommon*x.lexemes[w.lexeme].common)))
	if most := x.gain(i, i+1) - odd; most >= leastHeard {
		out = x.misheardAs(out, i, i+1, near, x.soundsLike(i), odd, most)
	}
	if i+1 < len(x.w) && w.num < 0 && x.w[i+1].num < 0 && x.w[i+1].t-w.end < 0.3 {
		odd := float64(x.deaf * lossHeard)
		if most := x.gain(i, i+2) - odd; most >= leastHeard {
			out = x.misheardAs(out, i, i+2, near, x.soundsLikeTwo(i, near, most-leastHeard), odd, most)
		}
	}
	return out
}

// misheardAs adds those of the guesses at what words [i, last) stand for that are in the set near: odd is what it costs that other words
// stand there, and most what is left of the gain then.
func (x *text) misheardAs(out []item, i, last int, near uint64, guesses []numeral.Guess, odd, most float64) []item {
	w := &x.w[i]
	for _, g := range guesses {
		if g.Cost == 0 || g.Value < 1 || g.Value > 63 || near&(1<<g.Value) == 0 || w.num >= 0 && g.Cost > 2 {
			continue
		}
		loss := g.Cost
		if last == i+1 && w.num >= 0 {
			loss++
		}
		if gain := most - loss; gain >= leastHeard {
			out = append(out, item{first: i, last: last, parts: 1, v: g.Value, cost: odd + loss, gain: gain, t: w.t, end: x.w[last-1].end})
		}
	}
	return out
}

// bound returns how much the words next to a number speak for a quantity, a label or a pronoun rather than a count. Words
// that may be misheard numbers themselves bind little where the captions mishear much.
func (x *text) bound(first, last, v int) float64 {
	next, prev := "", ""
	if last < len(x.w) && x.w[last-1].stop == runsOn && !x.pause(last) {
		next = x.w[last].fold
	}
	if first > 0 && x.w[first-1].stop == runsOn && !x.pause(first) {
		prev = x.w[first-1].fold
	}
	weak := lossBound * math.Min(1, x.deaf)
	switch {
	case quantityOf[next] || labelFor[prev]:
		return lossBound
	case v == 1 && (pronounAfter[prev] || oneBefore[next]), mayQuantify[next] && !(ends[next] && x.pause(first)), mayLabel[prev]:
		return weak
	}
	return 0
}

// pause reports whether the file shows a silence before word i.
func (x *text) pause(i int) bool {
	return x.timing == caption.TimingWord && x.w[i].t-x.w[i-1].end > 0.45
}

func wordSet(words ...string) map[string]bool {
	m := make(map[string]bool, len(words))
	for _, w := range words {
		m[w] = true
	}
	return m
}

// leadsIn are the words that people say before each number of a count: "and one, and two", "that's three".
var leadsIn = wordSet("and", "that's", "now", "then", "up", "down", "that")

// Words that make the number before or after them no count. Common practice, no source.
var (
	quantityOf = wordSet("second", "seconds", "minute", "minutes", "min", "mins", "times", "each", "more", "reps", "repetitions", "kilo", "kilos", "kg",
		"percent", "per", "degrees", "weeks", "week", "years", "year", "months", "days", "day", "hours", "o'clock", "sets", "rounds", "lots", "steps",
		"inches", "centimetres", "metres", "pounds", "count", "counts", "breaths", "exercises", "stations", "people", "videos", "tins", "pairs",
		"joints", "puffs", "thousand", "hundred", "different", "cent")
	mayQuantify = wordSet("of", "left", "to", "or", "big", "little", "small", "quick", "done", "gone")
	ends        = wordSet("done", "gone") // after a number that comes in its turn: the last of a set
	labelFor    = wordSet("page", "number", "week", "stage", "part", "station", "joint", "tip", "phase", "level", "video", "step", "chapter", "set")
	mayLabel    = wordSet("the", "a", "an", "about", "at", "another", "than", "or", "every", "for", "with", "only", "least", "past", "of", "got", "these", "those",
		"into", "under", "over", "like", "you", "was", "were", "are", "last", "final", "first")
	pronounAfter = wordSet("this", "that", "the", "each", "other", "which", "next", "last", "first", "second", "another", "no", "every", "any", "good", "big", "new", "left",
		"right", "only", "final", "long", "slow", "easy", "hard", "free", "working", "back", "top", "bottom", "same")
	oneBefore = wordSet("of", "leg", "foot", "hand", "side", "end", "arm", "knee", "more", "another", "is", "day", "minute", "in", "at", "by", "finger", "thing", "that", "with", "way", "who")
)
