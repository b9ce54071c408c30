package remarks

import (
	"strings"

	"captally.example/captally/segment/caption"
)

// Where a file has no punctuation, pauses and words that begin utterances cut the talk.
const (
	wordBase   = 0.10 // s, a spoken word lasts about this long ...
	wordLetter = 0.06 // s, ... and this much longer for each letter (15 letters a second; common practice, no source)
	fullPause  = 0.50 // s, silence after a word that ends an utterance
	shortPause = 0.15 // s, the same where the next word is one that begins utterances
	punctuated = 0.03 // least share of words with punctuation in a file that is written with punctuation
)

// cut cuts the track into utterances.
func (f *finder) cut() {
	words := f.track.Words
	marks := 0
	for i := range words {
		if words[i].After != "" {
			marks++
		}
	}
	f.written = float64(marks) > punctuated*float64(len(words))
	first := 0
	for i := range words {
		if i+1 == len(words) || f.endsAt(i, first) {
			f.utterances = append(f.utterances, [2]int{first, i + 1})
			first = i + 1
		}
	}
}

// endsAt says whether the utterance that begins at word first ends with word i.
func (f *finder) endsAt(i, first int) bool {
	w, next := &f.track.Words[i], &f.track.Words[i+1]
	if f.written {
		return strings.ContainsAny(w.After, ".?!")
	}
	begins := f.words.is(next.Fold, begin) && i-first >= 2
	switch f.track.Timing {
	case caption.TimingWord:
		silence := next.Time.At.Seconds() - w.Time.At.Seconds() - wordBase - float64(wordLetter*float64(len(w.Fold)))
		return silence > fullPause || begins && silence > shortPause
	case caption.TimingCue:
		return w.Cue != next.Cue
	}
	return begins
}
