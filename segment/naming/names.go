// Package naming finds the names of exercises as they are said.
//
// It works in three steps:
//  1. the track is cut into utterances, and every word gets the part it may play in a name and the phrases around it (talk);
//  2. every stretch of up to a handful of words that could be a name gets a score, a weighted sum of named features (mentions); so does
//     what only describes a movement (descriptions);
//  3. over the whole session the best sequence of names is chosen, one a set: a name that was said before several sets
//     gains from each, a set with nothing said takes the name of the set before it (Names).
//
// The vocabulary and the phrases are data files, to which a therapist may add.
package naming

import (
	"strings"

	"captally.example/captally/segment/caption"
)

// Kind is what a set belongs to.
type Kind uint8

const (
	Work Kind = iota
	Balance
	WarmUp
	CoolDown
)

// A SetSpan is a set as far as it is known before it has a name.
type SetSpan struct {
	First, Last int // Track.Words[First:Last], from the first count or "go" to the last word of the set
	After       int // index of the first word after the set before it; 0 for the first set
	Kind        Kind
	Counted     bool         // counted, not timed
	Start       caption.Time // when the set starts
}

// A Name is the name of one set's exercise.
type Name struct {
	Text        string  // as said, lower case, without article; empty where no name was found
	First, Last int     // where it is said for this set, or else where it was said best: Track.Words[First:Last]
	Respelled   bool    // the captions have other words, which sound like Text or describe it
	Carried     bool    // nothing was said for this set: the name is that of another set
	Confidence  float64 // in [0,1]
}

// Names returns a name for each set. The sets stand in order. Sets of the same exercise get the same name.
func Names(track *caption.Track, sets []SetSpan) []Name {
	if len(sets) == 0 {
		return nil
	}
	s := &search{talk: newTalk(track), sets: sets}
	s.collect()
	s.makeStates()
	if s.listenAgain() {
		s.makeStates()
	}
	first, _, _ := s.best(nil)
	path, ahead, before := s.best(first)
	return s.names(path, s.margins(path, ahead, before))
}

// names puts the chosen states in words.
func (s *search) names(path []int, margins []float64) []Name {
	out := make([]Name, len(path))
	for k, i := range path {
		if i == 0 {
			continue
		}
		st := &s.states[i]
		text := s.text(st.first, st.last)
		if st.name != nil {
			text = strings.Join(st.name.words, " ")
		}
		n := Name{Text: text, Respelled: st.name != nil, First: st.first, Last: st.last, Carried: true, Confidence: confidence(margins[k], st.name != nil)}
		if j := s.from[k][i]; j >= 0 {
			m := &s.leads[k][j]
			n.First, n.Last, n.Carried = m.first, m.last, false
		}
		out[k] = n
	}
	return out
}

func (t *talk) text(first, last int) string {
	if last-first > 2 && isDoing(t.words[first].Fold) && isArticle(t.words[first+1].Fold) {
		first += 2
	}
	var b strings.Builder
	for i := first; i < last; i++ {
		if i > first {
			b.WriteByte(' ')
		}
		b.WriteString(t.words[i].Fold)
	}
	return b.String()
}

// isDoing reports whether w only says that the exercise is done: "hold a plank".
func isDoing(w string) bool {
	switch w {
	case "hold", "holding", "do", "doing", "try", "have":
		return true
	}
	return false
}
