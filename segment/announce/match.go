package announce

import (
	"math/bits"
	"strings"

	"captally.example/captally/segment/caption"
	"captally.example/captally/segment/numeral"
)

// A text is a track's words as the phrases see them.
type text struct {
	lexicon *lexicon
	folds   []string
	words   []entry
	ends    []bool // the sentence ends after this word
	pauses  []bool // some punctuation stands after this word
	bare    bool   // hardly any sentence ends, as machines write
	poor    bool   // nor a figure: a poor recogniser, which mishears much
}

func newText(track *caption.Track) *text {
	l := standard()
	n, ends, figures := len(track.Words), 0, false
	t := &text{lexicon: l, folds: make([]string, n), words: make([]entry, n), ends: make([]bool, n), pauses: make([]bool, n)}
	for i := range track.Words {
		w := &track.Words[i]
		t.folds[i] = w.Fold
		t.words[i] = l.entry(w.Fold)
		figures = figures || t.words[i].id == l.figures.id
		t.pauses[i] = w.After != ""
		if t.pauses[i] && strings.ContainsAny(w.After, sentenceEnds) {
			t.ends[i] = true
			ends++
		}
	}
	t.bare = ends*100 < n
	t.poor = t.bare && !figures
	return t
}

// poor reports whether a track is a poor recogniser's, as [text.poor] is.
func poor(track *caption.Track) bool {
	l := standard()
	ends := 0
	for i := range track.Words {
		w := &track.Words[i]
		if strings.ContainsAny(w.After, sentenceEnds) {
			if ends++; ends*100 >= len(track.Words) {
				return false
			}
		}
		if w.Fold != "" && w.Fold[0] >= '0' && w.Fold[0] <= '9' && l.entry(w.Fold).id == l.figures.id {
			return false
		}
	}
	return len(track.Words) > 0
}

// sentenceEnds are the marks that end a sentence.
const sentenceEnds = ".?!:;…"

const (
	gapWords    = 3 // words that ".." stands for at most
	farGapWords = 8 // words that "..." stands for at most
)

// number reads the number at word i; it does not go on over punctuation.
func (t *text) number(i int) (numeral.Number, bool) {
	last := i + 1
	for last < len(t.folds) && last < i+longestNumber && !t.pauses[last-1] {
		last++
	}
	return numeral.At(t.folds[i:last], 0)
}

// entry returns what is known of a word; also of figures and of plurals that stand in no list.
func (l *lexicon) entry(w string) entry {
	e := l.words[w]
	switch n := len(w); {
	case e.id != 0 || n == 0:
	case w[0] >= '0' && w[0] <= '9':
		e = l.figures
	case n > 3 && w[n-1] == 's' && w[n-2] != 's' && w[n-2] != 'u' && w[n-2] != 'i' && w[n-2] != '\'':
		e = l.plurals
	}
	return e
}

const longestNumber = 8 // words

// A phraseSet is a set of the phrases around a number, one bit each.
type phraseSet [8]uint64

func (s *phraseSet) add(i int) { s[i/64] |= 1 << (i % 64) }

func (s *phraseSet) join(o *phraseSet) {
	for i := range s {
		s[i] |= o[i]
	}
}

func (s *phraseSet) keep(o *phraseSet) {
	for i := range s {
		s[i] &= o[i]
	}
}

// A slot is a place, seen from the number, at which a phrase wants its nearest word.
type slot uint8

const (
	next     slot = iota // the word behind the number
	soon                 // one of the four behind it
	later                // one of the nine behind it, over the ends of sentences
	previous             // the same before the number
	recent
	earlier
	slots
)

// An index says for each word which phrases it can begin at each slot. It is for leaving out phrases at a glance.
type index struct {
	byWord         [][slots]phraseSet // by the id of the word
	anyAfter       phraseSet          // phrases that want nothing in particular behind the number
	anyBefore      phraseSet
	timed, untimed phraseSet // phrases for amounts with and without a unit of time
}

// newIndex builds the index of the phrases around a number.
func newIndex(l *lexicon, entries []entry) index {
	x := index{byWord: make([][slots]phraseSet, len(entries))}
	var byClass [64][slots]phraseSet
	put := func(i int, e *element, s slot) {
		for _, id := range e.ids {
			x.byWord[id][s].add(i)
		}
		for c := e.classes; c != 0; c &= c - 1 {
			byClass[bits.TrailingZeros64(uint64(c))][s].add(i)
		}
	}
	for i := range l.numbers {
		p := &l.numbers[i]
		if !p.untime {
			x.timed.add(i)
		}
		if !p.timed {
			x.untimed.add(i)
		}
		if e, s, ok := nearest(p.after); ok {
			put(i, e, next+s)
		} else {
			x.anyAfter.add(i)
		}
		if e, s, ok := nearest(p.before); ok {
			put(i, e, previous+s)
		} else {
			x.anyBefore.add(i)
		}
	}
	for _, e := range entries {
		for c := e.classes; c != 0; c &= c - 1 {
			for s := range slots {
				x.byWord[e.id][s].join(&byClass[bits.TrailingZeros64(uint64(c))][s])
			}
		}
	}
	return x
}

// nearest returns the word that elements want first, and how far off it may be: 0 next, 1 over a gap, 2 over a far gap.
func nearest(e []element) (*element, slot, bool) {
	switch {
	case len(e) > 0 && e[0].kind == oneWord:
		return &e[0], 0, true
	case len(e) > 1 && e[1].kind == oneWord && e[0].kind == gap:
		return &e[1], 1, true
	case len(e) > 1 && e[1].kind == oneWord && e[0].kind == farGap:
		return &e[1], 2, true
	}
	return nil, 0, false
}

// candidates returns the phrases that may fit around an amount.
func (t *text) candidates(a *amount) phraseSet {
	x := &t.lexicon.index
	after, before := x.anyAfter, x.anyBefore
	open := true
	for i := 0; i <= farGapWords && a.last+i < len(t.words); i++ {
		open = open && !t.ends[a.last+i-1]
		w := &x.byWord[t.words[a.last+i].id]
		after.join(&w[later])
		if open && i <= gapWords {
			after.join(&w[soon])
			if i == 0 {
				after.join(&w[next])
			}
		}
	}
	open = true
	for i := 1; i <= farGapWords+1 && a.first-i >= 0; i++ {
		open = open && !t.ends[a.first-i]
		w := &x.byWord[t.words[a.first-i].id]
		before.join(&w[earlier])
		if open && i <= gapWords+1 {
			before.join(&w[recent])
			if i == 1 {
				before.join(&w[previous])
			}
		}
	}
	after.keep(&before)
	if a.timed {
		after.keep(&x.timed)
	} else {
		after.keep(&x.untimed)
	}
	return after
}

// forward matches elements from word i on; it returns the index behind the last word, or -1.
func (t *text) forward(e []element, i int) int {
	over := false // the next word may begin a sentence
	for len(e) > 0 {
		switch e[0].kind {
		case edge:
			if i < len(t.words) && i > 0 && !t.ends[i-1] {
				return -1
			}
			over = true
		case gap, farGap:
			return t.skip(e, i, 1)
		default:
			ok := i < len(t.words) && e[0].fits(t.words[i]) && (i == 0 || over || !t.ends[i-1])
			if ok {
				i, over = i+1, false
			} else if e[0].kind != optional {
				return -1
			}
		}
		e = e[1:]
	}
	return i
}

// backward matches elements, the nearest first, from word i-1 back; it returns the index of the first word, or -1.
func (t *text) backward(e []element, i int) int {
	for len(e) > 0 {
		switch e[0].kind {
		case edge:
			if i > 0 && !t.ends[i-1] {
				return -1
			}
		case gap, farGap:
			return t.skip(e, i, -1)
		default:
			ok := i > 0 && e[0].fits(t.words[i-1]) && !t.ends[i-1]
			if ok {
				i--
			} else if e[0].kind != optional {
				return -1
			}
		}
		e = e[1:]
	}
	return i
}

// skip tries the words that a gap may stand for, fewest first.
func (t *text) skip(e []element, i, step int) int {
	most, far := gapWords, e[0].kind == farGap
	if far {
		most = farGapWords
	}
	for n := 0; n <= most && i >= 0 && i <= len(t.words); n++ {
		got := -1
		if step > 0 {
			got = t.forwardOver(e[1:], i, far)
		} else {
			got = t.backwardOver(e[1:], i, far)
		}
		if got >= 0 {
			return got
		}
		if !far && i > 0 && t.ends[i-1] {
			return -1
		}
		i += step
	}
	return -1
}

// forwardOver is forward, but with over the first word may begin a sentence.
func (t *text) forwardOver(e []element, i int, over bool) int {
	if over && len(e) > 0 && e[0].kind == oneWord {
		if i >= len(t.words) || !e[0].fits(t.words[i]) {
			return -1
		}
		return t.forward(e[1:], i+1)
	}
	return t.forward(e, i)
}

// backwardOver is backward, but with over the first word may end a sentence.
func (t *text) backwardOver(e []element, i int, over bool) int {
	if over && len(e) > 0 && e[0].kind == oneWord {
		if i < 1 || !e[0].fits(t.words[i-1]) {
			return -1
		}
		return t.backward(e[1:], i-1)
	}
	return t.backward(e, i)
}
