package author

import (
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
)

// A written word is a word as one caption file has it.
type written struct {
	at, end float64 // s, as exact as the session's; each file adds its own noise
	text    string  // with punctuation and capitals
	number  bool    // of a count: its punctuation is the captioner's
}

// hasty holds how often a captioner errs, for each number of a count or word of talk.
type hasty struct{ drop, mishear, double, join, split, dropWord, mishearWord float64 }

// usual is common practice, no source: what auto captions of a clear voice look like.
var usual = hasty{drop: 0.016, mishear: 0.016, double: 0.01, join: 0.006, split: 0.05, dropWord: 0.011, mishearWord: 0.011}

// misheardNumbers are what a number of a count is taken for.
var misheardNumbers = map[int]string{1: "won", 2: "to too", 3: "free tree", 4: "for far", 5: "fine", 6: "sick sex",
	7: "heaven", 8: "ate", 9: "line mine", 10: "then tin", 11: "leaven", 12: "shelf", 13: "30", 14: "40", 15: "50",
	16: "60", 17: "70", 18: "80", 19: "90", 20: "plenty"}

// A captioner writes down one session for one file.
type captioner struct {
	rng, shared *rand.Rand // shared gives the same errors to each file: they are in the sound
	odds        hasty
	numerals    float64
	style       map[int]bool // of each set: digits or not
	full        map[int]bool // of each set: "One." rather than "one,"
	out         []written
	faults      []Fault
	run         []int // the numbers of the count so far, for doubling
	runSet      int
	runEnd      float64
}

// caption writes a session's words down with the faults of one file.
func caption(s *Session, file string) ([]written, []Fault) {
	k := s.script.Faults / 2 // half of them shared
	odds := usual
	odds.drop, odds.mishear, odds.double = odds.drop*k, odds.mishear*k, odds.double*k
	odds.join, odds.split = odds.join*2*k, odds.split*2*k
	c := &captioner{rng: chance(s.script.Seed, file), shared: chance(s.script.Seed, "sound"), odds: odds,
		numerals: s.script.Numerals, style: map[int]bool{}, full: map[int]bool{}, faults: []Fault{}}
	for i := 0; i < len(s.Words); i++ {
		w := s.Words[i]
		if w.Number == 0 {
			c.talk(w)
			continue
		}
		c.count(w)
		if i+1 < len(s.Words) && c.joins(w, s.Words[i+1]) {
			i++
		}
	}
	return c.out, c.faults
}

// talk writes an ordinary word: rarely dropped or misheard, its numbers sometimes as digits.
func (c *captioner) talk(w Word) {
	drop, hear, num := c.rng.Float64(), c.rng.Float64(), c.rng.Float64()
	if drop < usual.dropWord {
		return
	}
	text := w.Text
	core := plain(text)
	if d, ok := digits(core); ok && num < c.numerals {
		text = strings.Replace(strings.ToLower(text), core, d, 1)
	} else if hear < usual.mishearWord {
		text = soundAlike(c.rng, text, false)
	}
	c.out = append(c.out, written{w.At, w.End(), text, false})
}

// count writes a number of a count.
func (c *captioner) count(w Word) {
	if w.Set != c.runSet || w.At-c.runEnd > 15 {
		c.run = c.run[:0]
	}
	as, kind := c.hear(w)
	c.runSet, c.runEnd = w.Set, w.End()
	if kind != "dropped" {
		c.run = append(c.run, w.Number)
	}
	switch kind {
	case "dropped":
		c.fault(w.At, Fault{Kind: kind, Number: w.Number})
	case "misheard":
		c.fault(w.At, Fault{Kind: kind, Number: w.Number, As: as})
		c.out = append(c.out, written{w.At, w.End(), as + ",", true})
	case "split":
		c.fault(w.At, Fault{Kind: kind, Number: w.Number, As: as})
		ten, one, _ := strings.Cut(as, " ")
		mid := w.At + w.Dur/2
		c.out = append(c.out, written{w.At, mid, ten, true}, written{mid, w.End(), one + ",", true})
	default:
		c.out = append(c.out, written{w.At, w.End(), c.number(w.Number, w.Set), true})
	}
	c.double(w, kind == "")
}

// hear decides what becomes of a number. Each stream is drawn from as often whatever happens.
func (c *captioner) hear(w Word) (as, kind string) {
	for _, rng := range []*rand.Rand{c.shared, c.rng} {
		drop, hear, split, which := rng.Float64(), rng.Float64(), rng.Float64(), rng.IntN(2)
		likes := strings.Fields(misheardNumbers[w.Number])
		switch {
		case kind != "":
		case drop < c.odds.drop:
			kind = "dropped"
		case hear < c.odds.mishear && len(likes) > 0:
			as, kind = likes[which%len(likes)], "misheard"
		case split < c.odds.split && w.Number > 20 && w.Number%10 != 0:
			as, kind = strconv.Itoa(w.Number/10*10)+" "+strconv.Itoa(w.Number%10), "split"
		}
	}
	return as, kind
}

// double writes the last few numbers again, in no time, if the last is whole.
func (c *captioner) double(w Word, whole bool) {
	twice, n := false, 0
	for _, rng := range []*rand.Rand{c.shared, c.rng} {
		now, k := rng.Float64() < c.odds.double, 1+rng.IntN(5)
		if now && !twice {
			twice, n = true, min(k, len(c.run))
		}
	}
	if !twice || !whole || len(c.run) < 2 {
		return
	}
	again := slices.Clone(c.run[len(c.run)-n:])
	at := w.End()
	c.fault(at, Fault{Kind: "doubled", Numbers: again})
	for i, k := range again {
		c.out = append(c.out, written{at + float64(0.01*float64(i)), at + float64(0.01*float64(i+1)), c.number(k, w.Set), true})
	}
}

// joins writes two numbers that follow each other as one, "23", and tells
// whether it did. The second number still takes its turn in the shared stream.
func (c *captioner) joins(a, b Word) bool {
	if c.rng.Float64() >= c.odds.join || len(c.out) == 0 {
		return false
	}
	last := &c.out[len(c.out)-1]
	if b.Number == 0 || b.Set != a.Set || !c.digits(a.Set) || last.text != c.number(a.Number, a.Set) {
		return false
	}
	last.text = strings.TrimRight(last.text, ",.") + strconv.Itoa(b.Number) + ","
	last.end = b.End()
	c.run = append(c.run, b.Number)
	c.runEnd = b.End()
	c.hear(b)
	c.double(b, true)
	c.fault(a.At, Fault{Kind: "joined", Numbers: []int{a.Number, b.Number}})
	return true
}

func (c *captioner) fault(at float64, f Fault) {
	f.At = cents(at)
	c.faults = append(c.faults, f)
}

// digits tells whether a set's numbers are written as digits.
func (c *captioner) digits(set int) bool {
	if _, ok := c.style[set]; !ok {
		c.style[set] = c.rng.IntN(2) == 0
		c.full[set] = c.rng.IntN(4) == 0
	}
	return c.style[set]
}

// number is a number as this set writes it.
func (c *captioner) number(n, set int) string {
	switch word := spell(n); {
	case c.digits(set):
		return strconv.Itoa(n) + ","
	case c.full[set]:
		return strings.ToUpper(word[:1]) + word[1:] + "."
	default:
		return word + ","
	}
}
