package naming

import (
	"strings"

	"captally.example/captally/segment/caption"
)

// A Mention is a stretch of words, Track.Words[First:Last], that sounds like the name of an exercise.
type Mention struct {
	First, Last int
	Score       float64 // about 2 and more for a likely name; not a probability
}

// leastMention is the score from which Mentions lists a stretch.
const leastMention = 2.0

// Mentions returns what sounds like the name of an exercise, in order and without overlaps, over the whole track.
// It looks only at the words themselves and those beside them.
func Mentions(track *caption.Track) []Mention {
	t := newTalk(track)
	var out []Mention
	for _, m := range t.mentions(nil, 0, len(t.words)) {
		if m.score < leastMention {
			continue
		}
		if n := len(out); n > 0 && m.first < out[n-1].Last {
			if m.score > out[n-1].Score {
				out[n-1] = Mention{m.first, m.last, m.score}
			}
			continue
		}
		out = append(out, Mention{m.first, m.last, m.score})
	}
	return out
}

// A mention is a candidate with its score.
type mention struct {
	first, last int
	score       float64
	ids         []int32 // its content words
	off         float64 // how far its sound is from the name's, for one that only sounds like a name
	name        *catalogued
	plain       bool // of words that the lexicon knows
	superseded  bool // another name follows
	lowered     bool // by that
	state       int  // its name among the search's states, 0 for none
}

// mentions appends every stretch within words [lo, hi) that could be a name, by their ends, longest last.
func (t *talk) mentions(out []mention, lo, hi int) []mention {
	for end := lo + 1; end <= hi; end++ {
		out = t.endingAt(out, lo, hi, end)
	}
	return out
}

const content = head | weak | body | kit | manner

// endingAt appends the stretches that end right before word end.
func (t *talk) endingAt(out []mention, lo, hi, end int) []mention {
	f, whole, ok := t.ending(lo, end)
	if !ok {
		return out
	}
	t.rightSide(&f, end, hi)
	if f[openEnd] > 0 && !boundedRight(&f) {
		return out
	}
	for start := end - max(whole, 1); start >= lo && end-start <= longestName; start-- {
		if start < end-max(whole, 1) {
			if t.toks[start].cut >= half {
				break
			}
			if t.toks[start].cut == faint {
				f[broken]++
			}
			t.addWord(&f, start)
		}
		if !t.mayBegin(start, end-start == whole) {
			continue
		}
		g := f
		t.leftSide(&g, start, lo)
		t.shape(&g, start, end, hi)
		if g[openEnd] > 0 && !t.isBounded(&g) {
			continue
		}
		out = append(out, mention{first: start, last: end, score: g.score(), plain: g[unknownWords]+g[commonWords]+g[openEnd] == 0})
	}
	return out
}

// ending says how a name could end right before word end: with a whole name of that many words, with a noun that ends names,
// or, at the worst, with any other word. It is not ok where no name can end there.
func (t *talk) ending(lo, end int) (f features, whole int, ok bool) {
	last := &t.toks[end-1]
	if whole = t.lex.nameEnding(t.toks, end); end-whole < lo {
		whole = 0
	}
	switch {
	case whole > 0:
		f[knownName] = 1
	case last.class&(number|side) != 0, last.class&(common|inner|tail) != 0 && last.class&content == 0:
		return f, 0, false
	case last.class&head != 0:
		f[endsInHead] = 1
	case last.class&weak != 0:
		f[endsInWeak] = 1
	default:
		f[openEnd] = 1
	}
	return f, whole, true
}

// mostMore is the number of words before the last from which further ones do not make a name more likely.
const mostMore = 2

// setOff is how surely an utterance must begin or end at a stretch for it to be set off from the talk: a short pause will do.
const setOff = 0.4

// shape counts what depends on a candidate as a whole.
func (t *talk) shape(f *features, start, end, hi int) {
	more := f[bodyWords] + f[kitWords] + f[mannerWords]
	if end-start == 1 {
		f[oneWord] = 1
	}
	if over := more - mostMore; over > 0 {
		f[bodyWords] -= over
	}
	if f[endsInWeak] > 0 && more > 0 {
		f[weakWithMore] = 1
	}
	last := &t.toks[end-1]
	if f[beginsUtterance] == 1 && f[endsUtterance] == 1 {
		f[aloneInUtterance] = 1
	}
	switch {
	case f[endsInWeak] > 0 && f[oneWord] > 0 && f[beforeNumber] > 0: // "set two"
	case f[beginsUtterance] == 1 && last.cut < full && (last.cut > none || f[beforeNumber] > 0) && t.hasDose(end, hi):
		f[headline] = 1
	case f[beginsUtterance] < 1 && f[afterIntro] == 0 && t.glosses(start):
		f[gloss] = 1
	}
	if f[gloss] == 0 && f[beginsUtterance] >= setOff && f[endsUtterance] >= setOff && t.doseFollows(end, hi) {
		f[announced] = 1
	}
	f[announcedInner] = max(f[announced], f[headline]) * f[innerWords]
	f[unknownRough], f[openRough], f[knownRough] = t.rough*f[unknownWords], t.rough*f[openEnd], t.rough*f[knownName]
	if end-start == 1 && strings.HasSuffix(t.words[start].Fold, "ing") && t.lex.words[t.words[start].Fold] == 0 {
		f[gerund] = 1
	}
	if last.class&resting != 0 {
		f[restWords]++
	}
	particle := f[knownName] > 0 && end-start == 2 && last.class&tail != 0
	alone := end-start == 1 || particle
	if end-start > 2 && f[knownName] == 0 && isThen(t.words[end-2].Fold) && last.stem == t.words[end-1].Fold {
		f[command] = 1
	}
	if t.words[start].Fold == "stand" && end-start > 2 { // "stand on one leg" asks, "standing on one leg" names
		f[bareVerb] = 1
	}
	if alone && last.stem == t.words[end-1].Fold && f[afterArticle] == 0 {
		f[bareVerb] = 1
		if end == hi {
			f[command] = 1
		}
	}
}

// isBounded says whether a candidate whose last word says nothing is set off from the talk on both sides.
func (t *talk) isBounded(f *features) bool {
	left := f[afterIntro] >= 0.6 || f[beginsUtterance] > setOff || f[afterAgain] >= 0.9
	return left && boundedRight(f)
}

func boundedRight(f *features) bool { return f[endsUtterance] > setOff || f[beforeNumber] > 0 }

// addWord counts one more word on the left of a candidate's end.
func (t *talk) addWord(f *features, i int) {
	if c := t.toks[i].class; c&(body|kit|head|weak) != 0 && c&manner == 0 && t.toks[i].stem != t.words[i].Fold {
		f[pluralInside]++
	}
	if t.toks[i].class&resting != 0 {
		f[restWords]++
	}
	switch c := t.toks[i].class; {
	case isArticle(t.words[i].Fold):
	case c&side != 0:
		f[commonWords]++
	case c&number != 0 && t.toks[i+1].class&(body|manner) == 0:
		f[commonWords]++
	case c&body != 0:
		f[bodyWords]++
	case c&kit != 0:
		f[kitWords]++
	case c&manner != 0:
		f[mannerWords]++
	case c&(head|weak) != 0:
	case c&inner != 0:
		f[innerWords]++
	case c&(common|number) != 0:
		f[commonWords]++
	default:
		f[unknownWords]++
	}
}

func (t *talk) mayBegin(i int, whole bool) bool {
	c := t.toks[i].class
	if whole {
		return true
	}
	if i > 0 && t.toks[i].stem == "front" && t.toks[i-1].class&inner != 0 { // "one foot in front"
		return false
	}
	if c&number != 0 && c&manner != 0 { // "one leg stand", but "one raise" is a dose
		return t.toks[i+1].class&(body|manner) != 0
	}
	return c&content != 0 || c == 0 || c == resting
}

func (t *talk) leftSide(f *features, i, lo int) {
	if i == 0 {
		f[beginsUtterance] = 1
		return
	}
	before := &t.toks[i-1]
	f[beginsUtterance] = [...]float32{none: 0, faint: 0.4, half: 0.6, full: 1}[before.cut]
	f[afterIntro], f[afterAgain], f[afterClosing] = t.toks[i].intro, t.toks[i].again, t.toks[i].closing
	if before.cut != full && isArticle(t.words[i-1].Fold) {
		f[afterArticle] = 1
		f[afterIntro] = max(f[afterIntro], before.intro)
		f[afterAgain] = max(f[afterAgain], before.again)
		f[afterClosing] = max(f[afterClosing], before.closing)
	}
	if t.isLabel(i, lo) {
		f[afterIntro] = max(f[afterIntro], labelled)
	}
	f[negated] = t.negatedAt(i, lo)
	if before.cut <= faint {
		switch {
		case before.class&side != 0:
			f[afterSide] = 1
		case before.class&number != 0:
			f[afterNumber] = 1
		case before.class&content != 0 || before.class == 0:
			f[cutOffLeft] = 1
		}
	}
}

// labelled is the weight of a label as a phrase that introduces a name.
const labelled = 0.8

// isLabel says whether a label stands right before word i, a word and a number at the start of an utterance: "round four,".
func (t *talk) isLabel(i, lo int) bool {
	if i < lo+2 || t.toks[i-1].class&number == 0 || t.toks[i-1].cut == none || t.toks[i-2].cut > none {
		return false
	}
	return t.toks[i-2].class&(content|side|number|tail) == 0 && (i-2 == lo || t.toks[i-3].cut == full)
}

// negatedAt says whether a word of denial stands among the few before word i of the same utterance.
func (t *talk) negatedAt(i, lo int) float32 {
	for j := i - 1; j >= max(lo, i-3) && t.toks[j].cut < half; j-- {
		switch t.words[j].Fold {
		case "don't", "not", "no", "never", "without", "stop", "avoid", "isn't":
			return 1
		}
	}
	return 0
}

// doseWithin is how many words after a name its dose or side may begin.
const doseWithin = 4

// doseFollows says whether a number or a side stands among the next words, before hi and the end of the utterance.
func (t *talk) doseFollows(end, hi int) bool {
	if t.toks[end-1].cut == full && t.written {
		return false
	}
	for i := end; i < min(hi, end+doseWithin); i++ {
		if t.toks[i].class&(number|side) != 0 {
			return true
		}
		if t.toks[i].cut == full {
			break
		}
	}
	return false
}

// longestUtterance is how many words after a name its utterance may give the dose.
const longestUtterance = 16

// hasDose says whether the utterance that goes on at word end has a number before it ends.
func (t *talk) hasDose(end, hi int) bool {
	for i := end; i < min(hi, end+longestUtterance); i++ {
		if t.toks[i].class&number != 0 {
			return true
		}
		if t.toks[i].cut == full {
			break
		}
	}
	return false
}

// glosses says whether word i stands after the first comma of an utterance that opens like a name: "reach and rock, rock on to your toes".
func (t *talk) glosses(i int) bool {
	comma := -1
	first := i
	for ; first > 0 && t.toks[first-1].cut < full && i-first < longestUtterance; first-- {
		if t.toks[first-1].cut == half {
			comma = first - 1
		}
	}
	if comma < 0 || comma-first >= longestName || !t.mayBegin(first, false) {
		return false
	}
	c := t.toks[comma].class
	return c&content != 0 || c == 0
}

func isThen(w string) bool { return w == "and" || w == "then" }

func isArticle(w string) bool {
	switch w {
	case "the", "a", "an", "your", "our", "some", "those", "these", "little", "my":
		return true
	}
	return false
}

func (t *talk) rightSide(f *features, end, hi int) {
	last, next := &t.toks[end-1], &t.toks[end]
	f[endsUtterance] = [...]float32{none: 0, faint: 0.4, half: 0.7, full: 1}[last.cut]
	if end == hi {
		f[endsUtterance] = 1
		return
	}
	if next.class&number != 0 {
		f[beforeNumber] = 1
	}
	if next.class&side != 0 {
		f[beforeSide] = 1
	}
	if last.cut != full {
		f[beforePhrase] = next.after
	}
	if last.cut <= faint && next.class&tail != 0 {
		f[beforeTail] = 1
	}
	if last.cut <= faint && next.class&content != 0 && next.class&number == 0 && next.after == 0 {
		f[cutOffRight] = 1
	}
}
