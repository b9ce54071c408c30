package numeral

import "strings"

// Pairs finds the numbers behind two words of a text, quickly since it keeps what is to know of each word. Its zero value is ready for use.
type Pairs struct{ firsts, seconds parts }

// parts are what is known of words, by the numbers that the caller gave them; nil for none.
type parts struct {
	of   []*part
	free []part
}

// get returns what is known of word number i, found out where it is not.
func (p *parts) get(i int, word string, find func(string) part) *part {
	if i >= len(p.of) {
		p.of = append(p.of, make([]*part, i+1-len(p.of))...)
	}
	if p.of[i] == nil {
		if len(p.free) == 0 {
			p.free = make([]part, 32)
		}
		p.of[i], p.free = &p.free[0], p.free[1:]
		*p.of[i] = find(word)
	}
	return p.of[i]
}

// A part is what is known of one of two words.
type part struct {
	mixes  bool          // it may sound otherwise beside some words
	listed bool          // it is such a word of two in the data file
	sounds int           // how many it has
	codes  [longest]byte // of them
	needs  sums          // what they cost at least beside each number
}

// SoundsLikeOneOf is the function [SoundsLikeOneOf] for two words, of which neither is a number, with a space between. The caller
// numbers its different words, from 0.
func (p *Pairs) SoundsLikeOneOf(first string, i int, second string, j int, among uint64) []Guess {
	t := heard()
	a, b := p.firsts.get(i, first, t.firstPart), p.seconds.get(j, second, t.secondPart)
	if a.mixes || b.mixes || a.listed && b.listed {
		return SoundsLikeOneOf(first+" "+second, among)
	}
	n := a.sounds + b.sounds
	if n == 0 || n > longest {
		return nil
	}
	codes, needs := a.codes, a.needs
	copy(codes[a.sounds:], b.codes[:b.sounds])
	for i := range needs {
		needs[i] += b.needs[i]
	}
	var room [mostSaid]Guess
	return kept(sorted(t.alike(codes[:n], &needs, among, room[:0])))
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

func (t *heardTable) part(word string) (p part) {
	k, fits := key(word, &p.codes)
	p.sounds = len(k)
	if !fits {
		p.sounds = longest + 1
	}
	t.measure.encode(k)
	t.needs.atLeast(k, &p.needs)
	return p
}
