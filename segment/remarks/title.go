package remarks

import (
	"slices"
	"unicode"
	"unicode/utf8"
)

const titleWords = 10 // longest title

// title returns what follows "welcome to" and the like, up to the end of the utterance or a comma. What would name any session, as
// "this session" or "for you", is no title.
func (f *finder) title() *Remark {
	var best *Remark
	weight := 0.0
	for _, m := range f.marksIn(0, f.intro) {
		if m.Kind != "title" || m.Weight < weight {
			continue
		}
		last := f.titleEnd(m.Last)
		if !f.isTitle(m.Last, last) || best != nil && m.Weight == weight && m.First != best.First && m.Last != best.First {
			continue
		}
		r := f.remark(m.Last, last)
		best, weight = &r, m.Weight
	}
	return best
}

// titleEnd returns the end of the title that begins at word first. Where nothing is punctuated, words that begin an utterance end it, and
// "and" before a word that no title goes on with.
func (f *finder) titleEnd(first int) int {
	last := first
	for last < len(f.track.Words) && last < first+titleWords {
		w := f.word(last)
		if f.words.is(w, clause) || !f.written && last > first && f.words.is(w, begin) {
			break
		}
		if w == "and" && last+1 < len(f.track.Words) && (f.words.is(f.word(last+1), joint) || f.words.is(f.word(last+1), clause)) {
			break
		}
		last++
		if f.track.Words[last-1].After != "" || f.endsUtterance(last) {
			break
		}
	}
	for last > first && (f.word(last-1) == "and" || f.word(last-1) == "today" || f.words.is(f.word(last-1), joint) || f.words.is(f.word(last-1), article)) {
		last--
	}
	return last
}

// isTitle says whether words [first, last) can name a session: they do not begin as the end of a sentence whose beginning is lost, and name
// more than any session.
func (f *finder) isTitle(first, last int) bool {
	if first >= last {
		return false
	}
	if r, _ := utf8.DecodeRuneInString(f.track.Words[first].Text); f.words.is(f.word(first), joint) && !unicode.IsUpper(r) { // but "On Your Feet"
		return false
	}
	if w := f.word(first); w == "video" || w == "channel" { // "this is your video yet"
		return false
	}
	for i := first; i < last; i++ {
		if w := f.word(i); !f.words.is(w, generic) && w != "you" {
			return true
		}
	}
	return false
}

func (f *finder) endsUtterance(last int) bool {
	_, found := slices.BinarySearchFunc(f.utterances, last, func(u [2]int, i int) int { return u[1] - i })
	return found
}
