package topic

import (
	"slices"
	"strings"

	"captally.example/captally/segment/caption"
	"captally.example/captally/segment/numeral"
)

// A Place says where the words of a feature stand.
type Place uint8

const (
	Here   Place = iota // no matter where
	Ahead               // among the next words after an edge
	Behind              // among the last words before it
	Next                // the very next word
	Last                // the very last word
	places
)

var placeMarks = [...]string{"", ">", "<", ">>", "<<"}

// A Feature is a word, or a pair of neighbours, that may have weights.
type Feature struct {
	Place         Place
	First, Second string // Second is empty for a single word
}

// String returns the feature as files have it: "knee", "knee lift", ">knee", "<<stop".
func (f Feature) String() string {
	s := placeMarks[f.Place] + f.First
	if f.Second != "" {
		s += " " + f.Second
	}
	return s
}

// parse reads what String returns.
func parse(s string) Feature {
	word := strings.TrimLeft(s, "<>")
	f := Feature{Place: Place(max(0, slices.Index(placeMarks[:], s[:len(s)-len(word)])))}
	f.First, f.Second, _ = strings.Cut(word, " ")
	return f
}

// Number stands for every number word.
const Number = "0"

// Words returns the words of a track as tables know them: folded, every number as "0".
func Words(track *caption.Track) []string {
	out := make([]string, len(track.Words))
	for i := range track.Words {
		out[i] = track.Words[i].Fold
		if _, ok := numeral.Single(out[i]); ok {
			out[i] = Number
		}
	}
	return out
}

// Features returns what of word i may have a weight wherever it stands: the word, and the pair that it makes with the one before.
// Numbers alone have none, since counts speak for themselves.
func Features(words []string, i int) []Feature {
	var out []Feature
	if words[i] != Number {
		out = append(out, Feature{First: words[i]})
	}
	if i > 0 && (words[i] != Number || words[i-1] != Number) {
		out = append(out, Feature{First: words[i-1], Second: words[i]})
	}
	return out
}

// How many words around an edge are looked at.
const (
	wordsAhead  = 8
	wordsBehind = 5
)

// EdgeFeatures returns what around the place before word i may have a weight, each once.
func EdgeFeatures(words []string, i int) []Feature {
	var out []Feature
	put := func(place Place, first, second string) {
		if f := (Feature{place, first, second}); !slices.Contains(out, f) {
			out = append(out, f)
		}
	}
	window := func(place Place, from, to int) {
		for k := from; k < to; k++ {
			put(place, words[k], "")
			if k > from {
				put(place, words[k-1], words[k])
			}
		}
	}
	if i < len(words) {
		put(Next, words[i], "")
	}
	if i > 0 {
		put(Last, words[i-1], "")
	}
	window(Ahead, i, min(i+wordsAhead, len(words)))
	window(Behind, max(0, i-wordsBehind), i)
	return out
}
