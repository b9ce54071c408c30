package numeral

import (
	"bytes"
	_ "embed"
	"fmt"
	"math/bits"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// A Guess is a number that may stand behind a word.
type Guess struct {
	Value int
	Cost  float64 // negative natural logarithm of its weight: 0 where the word is the number itself
}

//go:embed heard.txt
var heardFile string

// heard is the data file, read when it is first needed.
var heard = sync.OnceValue(func() *heardTable {
	t, err := parseHeard(heardFile)
	if err != nil {
		panic(err) // the file is part of the program, and a test reads it
	}
	return t
})

// A said is how one number sounds.
type said struct {
	value  int
	sounds []byte // codes
	shared int    // how many of them the one before in the table begins with too
}

type heardTable struct {
	measure *measure
	said    []said
	needs   needTable // beside each of them
	levels  [levels]level
	words   map[string][]Guess
	firsts  map[string]bool // of those that are two words, the first and the second
	seconds map[string]bool
	common  map[string]float64
}

// A level is for guesses of so much cost at most.
type level struct {
	limits [2*longest + 1]int32 // the largest distance of a guess, in hundredths, by the sounds of the word and the number together
	room   [longest + 1]sums    // what the sounds of a word may need beside each number, by how many they are
}

const (
	levels    = 16
	levelStep = 0.125 // of cost, from one level down to the next
)

// costAt returns the highest cost that a level is for.
func costAt(level int) float64 { return farthest - float64(levelStep*float64(level)) }

// levelFor returns the lowest level that is for guesses of a cost.
func (t *heardTable) levelFor(cost float64) *level {
	const rounding = 1e-6
	l := 0
	for l+1 < levels && costAt(l+1) > cost+rounding {
		l++
	}
	return &t.levels[l]
}

const (
	sameSound = 0.7 // cost of a word that sounds exactly like a number and is not in the file
	plural    = 0.8 // more, for a word of the file with an s behind it
	perSound  = 8.0 // cost of a distance as large as the word is long
	farthest  = 3.2 // a higher cost is no guess at all
)

// parseHeard reads the data file; an error names the line.
func parseHeard(text string) (*heardTable, error) {
	t := &heardTable{measure: newMeasure(), words: map[string][]Guess{}, firsts: map[string]bool{}, seconds: map[string]bool{}, common: map[string]float64{}}
	n := 0
	for line := range strings.Lines(text) {
		n++
		f := strings.Fields(line)
		if len(f) == 0 || f[0][0] == '#' {
			continue
		}
		if err := t.line(f); err != nil {
			return nil, fmt.Errorf("heard.txt:%d: %w", n, err)
		}
	}
	slices.SortFunc(t.said, func(a, b said) int { return bytes.Compare(a.sounds, b.sounds) })
	for i := 1; i < len(t.said); i++ {
		a, b := t.said[i-1].sounds, t.said[i].sounds
		for n := 0; n < len(a) && n < len(b) && a[n] == b[n]; n++ {
			t.said[i].shared = n + 1
		}
	}
	for i := range t.said {
		n := t.measure.needs(t.said[i].sounds)
		t.needs.put(i, &n)
	}
	for i := len(t.said); i < mostSaid; i++ { // lanes without a number, which no word has room for
		for s := range t.needs {
			t.needs[s].put(i, leastLost)
		}
	}
	for k := range t.levels {
		l := &t.levels[k]
		for n := range l.limits {
			l.limits[n] = int32(float64(lengthOf(n)) * (costAt(k) - sameSound) / perSound)
		}
		for n := range l.room {
			for i := range t.said {
				more := int32(len(t.said[i].sounds) - n) // sounds of the number that must be lost besides
				l.room[n].put(i, l.limits[n+len(t.said[i].sounds)]-max(more*leastLost, 0))
			}
		}
	}
	return t, nil
}

func (t *heardTable) line(f []string) error {
	switch {
	case f[0] == "say" && len(f) == 3:
		v, err := strconv.Atoi(f[1])
		if err != nil {
			return fmt.Errorf("expected a number, found %q", f[1])
		}
		if len(f[2]) > longest {
			return fmt.Errorf("more than %d sounds", longest)
		}
		if i := strings.IndexFunc(f[2], func(r rune) bool { return !strings.ContainsRune(sounds, r) }); i >= 0 {
			return fmt.Errorf("%q is no sound", f[2][i:])
		}
		if len(t.said) == mostSaid {
			return fmt.Errorf("more than %d numbers", mostSaid)
		}
		k := []byte(f[2])
		t.measure.encode(k)
		t.said = append(t.said, said{value: v, sounds: k})
	case f[0] == "heard" && len(f) > 3:
		v, err := strconv.Atoi(f[1])
		if err != nil {
			return fmt.Errorf("expected a number, found %q", f[1])
		}
		c, err := strconv.ParseFloat(f[2], 64)
		if err != nil || !(c >= 0) {
			return fmt.Errorf("expected a cost of 0 or more, found %q", f[2])
		}
		for _, w := range f[3:] {
			w = strings.ReplaceAll(w, "-", " ")
			t.words[w] = append(t.words[w], Guess{v, c})
			if first, second, two := strings.Cut(w, " "); two {
				t.firsts[first], t.seconds[second] = true, true
			}
		}
	case f[0] == "common" && len(f) > 2:
		r, err := strconv.ParseFloat(f[1], 64)
		if err != nil || !(r > 0) {
			return fmt.Errorf("expected a rate above 0, found %q", f[1])
		}
		for _, w := range f[2:] {
			t.common[w] = r
		}
	default:
		return fmt.Errorf("expected say NUMBER SOUNDS, heard NUMBER COST WORDS or common RATE WORDS, found %q", strings.Join(f, " "))
	}
	return nil
}

// Commonness returns how many of a thousand words of everyday talk are this word, roughly; 0 for a word that is
// not among the commonest. The higher it is, the more a mishearing needs other evidence.
func Commonness(word string) float64 { return heard().common[word] }

// SoundsLike returns the numbers from 1 to 20 and the tens to 100 that may have been said where a recogniser or a
// hasty captioner wrote word, cheapest first, each once; nothing for a word that sounds like none.
// A number in words comes first with cost 0, also one above 20, and is followed by what is easily taken for it
// (15 for "fifty"). Two words that were heard for one number are given with a space between: "search mean".
//
// The cost is about the sound alone; how often the word is said for its own sake is [Commonness].
func SoundsLike(word string) []Guess { return SoundsLikeOneOf(word, every) }

const every = ^uint64(0)

// SoundsLikeOneOf is [SoundsLike] for those who ask for a few of the numbers below 64 only, bit v of among for v. Others may
// be among the answers.
func SoundsLikeOneOf(word string, among uint64) []Guess {
	return appendSoundsLike(nil, word, among)
}

// AppendSoundsLike appends to dst what [SoundsLike] returns.
func AppendSoundsLike(dst []Guess, word string) []Guess { return appendSoundsLike(dst, word, every) }

func appendSoundsLike(dst []Guess, word string, among uint64) []Guess {
	t := heard()
	var room [mostSaid]Guess
	out := room[:0]
	if v, ok := Single(word); ok && v > 0 {
		if word[0] >= '0' && word[0] <= '9' {
			word = cardinalSpelling(v)
		}
		out = append(out, Guess{v, 0})
	}
	return append(dst, t.near(word, out, among)...)
}

// cardinalSpelling returns the one word for v, or "" for a number of several.
func cardinalSpelling(v int) string {
	switch {
	case v > 0 && v < len(cardinals):
		return cardinals[v]
	case v < 100 && v%10 == 0:
		return tensNames[v/10]
	}
	return ""
}

// near adds to out the numbers that sound like word; it need not look at others than those in among.
func (t *heardTable) near(word string, out []Guess, among uint64) []Guess {
	for _, g := range t.words[word] {
		out = add(out, g)
	}
	if stem, ok := strings.CutSuffix(word, "s"); ok {
		for _, g := range t.words[strings.TrimSuffix(stem, "'")] {
			out = add(out, Guess{g.Value, g.Cost + plural})
		}
	}
	var buf [longest]byte
	k, _ := key(word, &buf)
	if len(k) == 0 {
		return sorted(out)
	}
	t.measure.encode(k)
	return sorted(t.alike(k, among, &t.levels[0], out))
}

// alike adds to out those of the numbers in among that sound like a word of codes, as far as a level is for.
func (t *heardTable) alike(k []byte, among uint64, l *level, out []Guess) []Guess {
	var needs sums
	t.needs.atLeast(k, &needs)
	var close [mostSaid]uint8
	n := 0
	for w := range needs {
		for left := within(needs[w], l.room[len(k)][w]); left != 0; left &= left - 1 {
			i := lanes*w + bits.TrailingZeros64(left)/16
			s := &t.said[i]
			if among != every && (s.value > 63 || among>>s.value&1 == 0) {
				continue
			}
			more := int32(len(k)-len(s.sounds)) * leastLost // sounds of the word that must be lost besides
			if t.measure.atLeast(s.sounds, k)+max(more, 0) > l.limits[len(k)+len(s.sounds)] {
				continue
			}
			close[n] = uint8(i)
			n++
		}
	}
	if n > 0 {
		out = t.compare(k, close[:n], l, out)
	}
	return out
}

// compare adds to out those of the numbers that are close enough to a word of codes.
func (t *heardTable) compare(word []byte, numbers []uint8, l *level, out []Guess) []Guess {
	var c comparison
	c.start(t.measure, word)
	next := 0
	for _, i := range numbers {
		for ; next <= int(i); next++ {
			c.done = min(c.done, t.said[next].shared)
		}
		s := &t.said[i]
		n := len(word) + len(s.sounds)
		limit := l.limits[n]
		if d := c.distance(t.measure, word, s.sounds, limit); d <= limit {
			out = add(out, Guess{s.value, sameSound + perSound*float64(d)/float64(lengthOf(n))})
		}
	}
	return out
}

// lengthOf returns a little more than the mean length of two words with so many sounds together, in hundredths.
func lengthOf(sounds int) int32 { return int32(sounds+2) * 50 }

// mostSaid bounds the numbers of the data file.
const mostSaid = 32

// add keeps the lower cost of a value that is there already.
func add(out []Guess, g Guess) []Guess {
	for i := range out {
		if out[i].Value == g.Value {
			out[i].Cost = min(out[i].Cost, g.Cost)
			return out
		}
	}
	return append(out, g)
}

func sorted(out []Guess) []Guess {
	slices.SortStableFunc(out, func(a, b Guess) int {
		switch {
		case a.Cost < b.Cost:
			return -1
		case a.Cost > b.Cost:
			return 1
		}
		return a.Value - b.Value
	})
	return out
}
