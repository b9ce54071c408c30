package numeral

import "strings"

// Pairs finds the numbers behind two words of a text, quickly since it keeps what is to know of each word.
type Pairs struct {
	firsts, seconds []part // by word
	room            [mostSaid]Guess
}

// NewPairs returns what finds numbers in a text of so many different words, which the caller numbers from 0.
func NewPairs(words int) *Pairs {
	return &Pairs{firsts: make([]part, words), seconds: make([]part, words)}
}

// A part is what is known of one of two words.
type part struct {
	known  bool
	mixes  bool          // it may sound otherwise beside some words
	listed bool          // it is such a word of two in the data file
	sounds uint8         // how many it has
	codes  [longest]byte // of them
}

// SoundsLikeOneOf is the function [SoundsLikeOneOf] for words number i and j, of which neither is itself a number, with a space between,
// and for those who ask for no guess that costs more than most. The answer is valid until the next.
func (p *Pairs) SoundsLikeOneOf(first string, i int, second string, j int, among uint64, most float64) []Guess {
	t := heard()
	a, b := &p.firsts[i], &p.seconds[j]
	if !a.known {
		*a = t.firstPart(first)
	}
	if !b.known {
		*b = t.secondPart(second)
	}
	if a.mixes || b.mixes || a.listed && b.listed {
		return SoundsLikeOneOf(first+" "+second, among)
	}
	n := a.sounds + b.sounds
	if n == 0 || n > longest {
		return nil
	}
	codes := a.codes
	copy(codes[a.sounds:], b.codes[:b.sounds])
	return sorted(t.alike(codes[:n], among, t.levelFor(most), p.room[:0]))
}

func (t *heardTable) firstPart(word string) part {
	p := t.part(word)
	p.mixes, p.listed = strings.Contains(word, " "), t.firsts[word]
	return p
}

func (t *heardTable) secondPart(word string) part {
	p := t.part("   " + word)              // some letters sound otherwise in the first places of all
	p.mixes = word == "" || word[0] == 'e' // it would lengthen a vowel at the end of the first
	p.listed = t.seconds[word] || t.seconds[strings.TrimSuffix(strings.TrimSuffix(word, "s"), "'")]
	return p
}

func (t *heardTable) part(word string) part {
	p := part{known: true}
	k, fits := key(word, &p.codes)
	p.sounds = uint8(len(k))
	if !fits {
		p.sounds = longest + 1
	}
	t.measure.encode(k)
	return p
}
