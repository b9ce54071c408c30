package naming

import (
	"strings"

	"captally.example/captally/segment/caption"
	"captally.example/captally/segment/phrases"
)

// A cut is how surely an utterance ends after a word.
type cut uint8

const (
	none  cut = iota
	faint     // a short pause, where the file has no punctuation
	half      // a comma
	full      // a full stop, or a pause
)

// A token is a word as naming sees it.
type token struct {
	stem  string
	id    int32 // of the stem
	class class
	cut   cut // after the word
	// Weights in [0,1] of the phrases around the word.
	intro   float32 // a phrase that introduces a name ends right before the word
	again   float32 // a phrase that repeats a name ends right before the word
	after   float32 // a phrase that follows a name begins at the word
	same    float32 // a phrase for the exercise before begins here
	new     float32 // a phrase for another exercise begins here
	closing float32 // a phrase that looks back on an exercise ends right before the word
}

// A talk is a track cut into tokens and utterances.
type talk struct {
	lex     *lexicon
	words   []caption.Word
	toks    []token // one a word, and one more at the end
	timing  caption.Timing
	written bool     // with punctuation
	rough   float32  // how surely a recogniser heard the words, and badly, in [0,1]
	stems   []string // by id
	ids     map[string]int32
	room    []int32 // for the content words of mentions
	ear     *ear    // nil until something is looked for by its sound
}

// newWords is about how many words a talk has for each that is new.
const newWords = 4

func newTalk(track *caption.Track) *talk {
	lex := english()
	t := &talk{lex: lex, timing: track.Timing, words: track.Words, toks: make([]token, len(track.Words)+1)}
	t.ids = make(map[string]int32, len(track.Words)/newWords)
	seen := make(map[string]int32, len(track.Words)/newWords) // the first place of each word
	heads := make([]phrases.Head, len(track.Words))
	for i := range track.Words {
		w, tok := &track.Words[i], &t.toks[i]
		if first, ok := seen[w.Fold]; ok {
			tok.stem, tok.id, tok.class = t.toks[first].stem, t.toks[first].id, t.toks[first].class
			heads[i] = heads[first]
			continue
		}
		seen[w.Fold] = int32(i)
		heads[i] = lex.book.Head(w.Fold)
		tok.stem = stem(w.Fold)
		tok.id, tok.class = t.id(tok.stem), lex.class(w.Fold, tok.stem)
	}
	t.cuts(track)
	t.rough = t.roughness()
	t.phrases(heads)
	return t
}

// Shares of words that the lexicon does not know. Of the labelled sessions, those in a captioner's words have 0.07 to 0.15, those as
// a poor recogniser heard them 0.12 to 0.19.
const (
	cleanUnknown = 0.115
	roughUnknown = 0.145
)

// roughness tells words that a recogniser guessed from words that were said: they are more of everything.
func (t *talk) roughness() float32 {
	if t.written || len(t.words) == 0 {
		return 0
	}
	unknown := 0
	for i := range t.words {
		if t.toks[i].class == 0 {
			unknown++
		}
	}
	share := float64(unknown) / float64(len(t.words))
	return float32(min(1, max(0, (share-cleanUnknown)/(roughUnknown-cleanUnknown))))
}

// Pauses end utterances where the file has no punctuation.
const (
	wordBase   = 0.10 // s, a spoken word lasts about this long ...
	wordLetter = 0.06 // s, ... and this much longer for each letter (15 letters a second; common practice, no source)
	faintPause = 0.22 // s, silence after a word that is taken for a comma, perhaps
	fullPause  = 0.50 // s, silence after a word that is taken for a full stop
	beginsAt   = 0.85 // weight of a phrase that is taken for the start of an utterance where nothing else marks it
	punctuated = 0.03 // least share of words with punctuation in a file that is written with punctuation
)

func (t *talk) cuts(track *caption.Track) {
	marks := 0
	for i := range t.words {
		if t.words[i].After != "" {
			marks++
		}
	}
	t.written = float64(marks) > punctuated*float64(len(t.words))
	for i := range t.words {
		w := &t.words[i]
		switch {
		case i+1 == len(t.words):
			t.toks[i].cut = full
		case strings.ContainsAny(w.After, ".?!:;"):
			t.toks[i].cut = full
		case w.After != "":
			t.toks[i].cut = half
		case t.written:
		case track.Timing == caption.TimingWord:
			t.toks[i].cut = pause(w, &t.words[i+1])
		case track.Timing == caption.TimingCue && w.Cue != t.words[i+1].Cue:
			t.toks[i].cut = full
		}
	}
}

func pause(w, next *caption.Word) cut {
	silence := next.Time.At.Seconds() - w.Time.At.Seconds() - wordBase - float64(wordLetter*float64(len(w.Fold)))
	switch {
	case silence > fullPause:
		return full
	case silence > faintPause:
		return faint
	}
	return none
}

// unmarked says whether nothing but the words marks where utterances begin.
func (t *talk) unmarked() bool { return !t.written && t.timing == caption.TimingBlock }

// phrases finds the phrases around the words, whose heads are given.
func (t *talk) phrases(heads []phrases.Head) {
	n := len(t.words)
	fold := func(i int) string { return t.words[i].Fold }
	isNumber := func(i int) bool { return t.toks[i].class&number != 0 }
	guess := t.unmarked()
	var found []phrases.Match
	for i := range n {
		if t.ordinal(i) {
			t.toks[i].same = 1
		}
		found = t.lex.book.FindAt(found[:0], heads[i], i, n, fold, isNumber)
		for _, m := range found {
			first, last, w := &t.toks[m.First], &t.toks[m.Last], float32(m.Weight)
			if guess && m.First > 0 && m.Weight >= beginsAt && m.Kind != "closing" && m.Kind != "after" {
				t.toks[m.First-1].cut = max(t.toks[m.First-1].cut, faint)
			}
			switch m.Kind {
			case "intro":
				last.intro = max(last.intro, w)
			case "again":
				last.again = max(last.again, w)
			case "after":
				first.after = max(first.after, w)
			case "same":
				first.same = max(first.same, w)
			case "new":
				first.new = max(first.new, w)
			case "closing":
				last.closing = max(last.closing, w)
			}
		}
	}
}

// ordinal says whether word i is an utterance of its own that counts sets: "Second. And hinge."
func (t *talk) ordinal(i int) bool {
	switch t.words[i].Fold {
	case "second", "third", "fourth":
		return i > 0 && t.toks[i-1].cut == full && t.toks[i].cut >= half
	}
	return false
}

// id returns the number of a stem within this talk.
func (t *talk) id(stem string) int32 {
	n, ok := t.ids[stem]
	if !ok {
		n = int32(len(t.stems))
		t.ids[stem] = n
		t.stems = append(t.stems, stem)
	}
	return n
}

func (t *talk) idsOf(stems []string) []int32 {
	out := make([]int32, len(stems))
	for i, s := range stems {
		out[i] = t.id(s)
	}
	return out
}

func (t *talk) stemsOf(ids []int32) []string {
	out := make([]string, len(ids))
	for i, id := range ids {
		out[i] = t.stems[id]
	}
	return out
}
