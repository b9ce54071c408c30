package announce

import (
	"math"
	"math/bits"
	"slices"
	"strings"

	"captally.example/captally/segment/caption"
	"captally.example/captally/segment/numeral"
)

// least is the least weight of a mention; what the words make less likely than that is left out.
const least = 0.08

// Find lists what is announced in the track, in the order of the words.
func Find(track *caption.Track) []Mention {
	t := newText(track)
	f := finder{text: t, found: make([]amount, 0, len(track.Words)/8)}
	f.amounts()
	for i := range f.found {
		f.classify(i)
	}
	f.plainPhrases()
	f.sides()
	slices.SortStableFunc(f.out, func(a, b Mention) int {
		if a.First != b.First {
			return a.First - b.First
		}
		return int(a.Kind) - int(b.Kind)
	})
	f.attach()
	for i := range f.out {
		f.out[i].At = track.Words[f.out[i].First].Time.At
	}
	return f.out
}

// A finder collects the mentions of one track.
type finder struct {
	*text
	found []amount
	out   []Mention
}

// amounts collects every number in the track.
func (f *finder) amounts() {
	for i := 0; i < len(f.words); {
		a, ok := f.startAt(i)
		if ok {
			f.found = append(f.found, a)
			i = a.last
			continue
		}
		if f.words[i].classes&f.lexicon.second != 0 && i > 0 && f.folds[i] != "second" {
			if m, ok := f.misheardBefore(i); ok {
				f.addMisheard(m)
			}
		}
		i++
	}
	if f.poor {
		f.mishearings()
	}
}

// startAt reads the amount at word i if one can begin there.
func (f *finder) startAt(i int) (amount, bool) {
	w := f.folds[i]
	if w == "" {
		return amount{}, false
	}
	if f.words[i].classes&f.lexicon.amount == 0 && !(w[0] >= '0' && w[0] <= '9') && strings.IndexByte(w, '-') < 0 {
		return amount{}, false
	}
	if w == "a" && (i+1 == len(f.words) || f.words[i+1].classes&(f.lexicon.amount|f.lexicon.minute|f.lexicon.minuteHeard) == 0 && f.folds[i+1] != "good" && f.folds[i+1] != "proper") {
		return amount{}, false
	}
	return f.amountAt(i)
}

// addMisheard adds an amount over a number already found on its words, since the longer reading explains more of them.
func (f *finder) addMisheard(m amount) {
	for len(f.found) > 0 && f.found[len(f.found)-1].last > m.first {
		f.found = f.found[:len(f.found)-1]
	}
	f.found = append(f.found, m)
}

// inCount says, as log odds, how far the number looks like part of a count: those close by are one more or one less, or on either
// side one farther off is, with other words and numbers between ("loose, nine, press, two, three, loose, eight").
func (f *finder) inCount(i int) float64 {
	a := &f.found[i]
	if !a.single {
		return 0
	}
	if f.step(i-1, i) == 0 && i+1 < len(f.found) && f.found[i+1].single && f.found[i+1].value == a.value && f.step(i+1, i+2) < 0 {
		return announcesCount // "ten: ten, nine, eight"
	}
	steps := 0
	for _, way := range [2]int{-1, 1} {
		d := f.step(i, i+way)
		if d == 0 {
			continue
		}
		steps++
		switch {
		case way > 0 && d > 0 && f.found[i+1].first == a.last: // the count goes on from it
			return surelyCount
		case f.step(i+way, i+2*way) == d:
			return surelyCount
		}
	}
	if before, after := f.counted(i, -1), f.counted(i, 1); before+after == 0 && before != 0 {
		return surelyCount
	}
	if f.byTwosOrFives(i) {
		return surelyCount
	}
	return [...]float64{0, 2.5, surelyCount}[steps]
}

// byTwosOrFives reports whether the number belongs to a count by twos or by fives from the start, of three numbers at least.
func (f *finder) byTwosOrFives(i int) bool {
	for _, by := range [2]float64{2, 5} {
		first, last := i, i
		for first > 0 && f.goesOnBy(first-1, by) {
			first--
		}
		for last+1 < len(f.found) && f.goesOnBy(last, by) {
			last++
		}
		if last-first >= 2 && f.found[first].value == by && f.found[first].single {
			return true
		}
	}
	return false
}

// goesOnBy reports whether the number after number i is close by and larger by so much.
func (f *finder) goesOnBy(i int, by float64) bool {
	a, b := &f.found[i], &f.found[i+1]
	return b.single && b.value-a.value == by && b.first-a.last <= looseWords
}

const (
	looseWords = 14 // words within which numbers may belong to one count
	looseLeast = 3  // the least number that is looked at: smaller ones are said for many reasons
)

// counted looks on one side of number i for the number one less or one more, up to where a count begins: it returns by how
// much it differs, 0 for none.
func (f *finder) counted(i, way int) float64 {
	a := &f.found[i]
	if a.value < looseLeast {
		return 0
	}
	for j := i + way; j >= 0 && j < len(f.found); j += way {
		b := &f.found[j]
		if max(b.first-a.last, a.first-b.last) > looseWords || b.value == 1 {
			return 0
		}
		if d := b.value - a.value; b.single && (d == 1 || d == -1) {
			return d
		}
	}
	return 0
}

const (
	surelyCount    = 6
	announcesCount = -2.5 // the count down from the same number follows
)

// step returns by how much number j differs from number i if both are close by and differ by one, else 0.
func (f *finder) step(i, j int) int {
	if i < 0 || j < 0 || i >= len(f.found) || j >= len(f.found) {
		return 0
	}
	a, b := &f.found[i], &f.found[j]
	distance := max(b.first-a.last, a.first-b.last)
	if d := b.value - a.value; a.single && b.single && distance <= 7 && (d == 1 || d == -1) {
		return int(d)
	}
	return 0
}

// A reading is what an amount may be, as log odds for each kind.
type reading struct {
	odds  [kinds]float64
	scope [kinds]Scope
	best  [kinds]float64 // weight of the phrase that gave the scope, if other than Here
}

const never = -100

// take lets one phrase speak.
func (r *reading) take(p *phrase) {
	r.odds[p.kind] += p.weight
	if p.scope != Here && p.weight > r.best[p.kind] {
		r.best[p.kind], r.scope[p.kind] = p.weight, p.scope
	}
}

// prior is what an amount may be before its neighbours are asked. Its figures say: numbers without a unit announce
// nothing more often than not; what is announced is mostly 5 to 20 repetitions or 10 to 90 seconds.
func prior(a *amount) reading {
	var r reading
	for k := range r.odds {
		r.odds[k] = never
	}
	v := a.value
	if a.timed {
		r.odds[None], r.odds[Seconds], r.odds[Rest] = 0, 0.2, 0.2
		r.odds[Hold], r.odds[Remaining], r.odds[Gone] = -1.5, -1, -1.5
		switch {
		case v > longestRest:
			r.odds[None] += 8
		case v > 150:
			r.odds[None] += 2
		case v < 8:
			r.odds[Seconds] -= 2
			r.odds[Rest] -= 1.5
			r.odds[Hold] += 1.5
		case v > 12:
			r.odds[Hold] -= 2
		}
		return r
	}
	r.odds[None], r.odds[Reps], r.odds[Seconds] = 1, 0.3, -3.5
	r.odds[Rest], r.odds[Hold], r.odds[Remaining], r.odds[Gone] = -3, -1.5, -1.5, -1.2
	switch {
	case v <= 1:
		r.odds[None] += 4
	case v == 2:
		r.odds[None] += 1.5
	case v == 3:
		r.odds[None] += 0.7
	case v > 100:
		r.odds[None] += 5
	case v > 30:
		r.odds[None] += 1.2
	}
	if v > 10 {
		r.odds[Hold] -= 2
	}
	return r
}

// classify adds the mentions that one amount makes.
func (f *finder) classify(i int) {
	a := &f.found[i]
	count := f.inCount(i)
	if count == surelyCount {
		return
	}
	r := prior(a)
	r.odds[None] += count
	if a.more {
		r.odds[Remaining] += 4
	}
	for i, set := range f.candidates(a) {
		for ; set != 0; set &= set - 1 {
			p := &f.lexicon.numbers[64*i+bits.TrailingZeros64(set)]
			if p.kind == None && f.apart(p, a) || p.small && a.value > smallNumber {
				continue
			}
			if r.odds[p.kind] != never && f.backward(p.before, a.first) >= 0 && f.forward(p.after, a.last) >= 0 {
				r.take(p)
			}
		}
	}
	if f.poor && !a.timed && a.value <= 3 {
		r.odds[None] += 2 // "two" is more often a "to"
	}
	if f.poor {
		for _, b := range f.otherReadings(a) {
			f.emit(&b, &r)
			a.cost = readTwoWays
		}
	}
	f.emit(a, &r)
}

// readTwoWays is the cost of what a poor recogniser wrote where it may well stand for something else.
const readTwoWays = 0.6

// apart reports whether punctuation stands between the number and the word next to it that a phrase wants.
// What makes a number mean nothing ("page two", "two cushions") is said in one breath with it.
func (f *finder) apart(p *phrase, a *amount) bool {
	return len(p.after) > 0 && p.after[0].kind == oneWord && f.pauses[a.last-1] ||
		len(p.before) > 0 && p.before[0].kind == oneWord && a.first > 0 && f.pauses[a.first-1]
}

// emit turns log odds into mentions.
func (f *finder) emit(a *amount, r *reading) {
	most := slices.Max(r.odds[:])
	sum := 0.0
	var share [kinds]float64
	for k, o := range r.odds {
		if o-most > -12 {
			share[k] = math.Exp(o - most)
			sum += share[k]
		}
	}
	scale := math.Exp(-a.cost) / sum
	for k := range share {
		p := min(1, share[k]*scale)
		if Kind(k) == None || p < least {
			continue
		}
		m := Mention{First: a.first, Last: a.last, Kind: Kind(k), Value: a.value, High: a.high, Timed: a.timed, Scope: r.scope[k], Weight: p}
		f.out = append(f.out, m)
		if teen := teenFor(a); m.Kind == Reps && teen > 0 {
			m.Value, m.High, m.Weight = teen, teen, p*0.45
			f.out = append(f.out, m)
		}
	}
}

// teenFor returns the teen that is easily heard as these tens: fifteen for fifty.
func teenFor(a *amount) float64 {
	if a.timed || a.value < 30 || a.value > 90 || math.Mod(a.value, 10) != 0 {
		return 0
	}
	return a.value/10 + 10
}

// plainPhrases adds the mentions of phrases without a number.
func (f *finder) plainPhrases() {
	var until [kinds]int
	for i, w := range f.words {
		if w.id == 0 {
			continue
		}
		for _, n := range f.lexicon.byFirst[w.id] {
			p := &f.lexicon.plain[n]
			if i < until[p.kind] {
				continue
			}
			last := f.after(p.after, i)
			if last < 0 {
				continue
			}
			until[p.kind] = last
			m := Mention{First: i, Last: last, Kind: p.kind, Scope: p.scope, Weight: 1 / (1 + math.Exp(-p.weight))}
			if p.kind == Round || p.kind == Rounds {
				m.Value = f.numberIn(i, last)
			}
			m.High = m.Value
			f.out = append(f.out, m)
		}
	}
}

// after matches a phrase whose first word may begin a sentence.
func (f *finder) after(e []element, i int) int {
	if !e[0].fits(f.words[i]) {
		return -1
	}
	return f.forward(e[1:], i+1)
}

// numberIn returns the cardinal or ordinal in words first to last, -1 for "last round", 0 for none.
func (f *finder) numberIn(first, last int) float64 {
	for i := first; i < last; i++ {
		if n, ok := numeral.At(f.folds[i:last], 0); ok {
			return float64(n.Value)
		}
		if (f.folds[i] == "last" || f.folds[i] == "final") && f.folds[last-1] == "round" {
			return -1
		}
	}
	return 0
}

// attach gives doses the side and the round that stand close by in the same sentence.
func (f *finder) attach() {
	for i := range f.out {
		m := &f.out[i]
		if m.Kind != Reps && m.Kind != Seconds && m.Kind != Rest {
			continue
		}
		for j := i - 1; j >= 0 && m.First-f.out[j].Last <= 6; j-- {
			o := &f.out[j]
			if o.Kind == Round && o.Value > 0 && m.Round == 0 && f.sameSentence(o.First, m.First) {
				m.Round = int(o.Value)
			}
			if o.Kind == Side && m.Side == SideUnknown && m.First-o.Last <= 3 && f.sameSentence(o.First, m.First) {
				m.Side = o.Side
			}
		}
		for j := i + 1; j < len(f.out) && f.out[j].First-m.Last <= 3 && m.Side == SideUnknown; j++ {
			if o := &f.out[j]; o.Kind == Side && f.sameSentence(m.First, o.First) {
				m.Side = o.Side
			}
		}
	}
}

func (f *finder) sameSentence(i, j int) bool {
	return !slices.Contains(f.ends[min(i, j):max(i, j)], true)
}
