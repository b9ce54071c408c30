package corpus

import (
	"strings"
)

// wordSet is the set of the words of a text, stripped of plural endings.
type wordSet map[string]bool

// skipped are words too common to tell one exercise from another ("th" is "the" without its ending).
var skipped = []string{"th", "a", "an", "of", "and", "to", "on", "with"}

// wordsOf returns the words of a text: runs of the letters a to z, lower case, without a plural ending and final e.
func wordsOf(text string) wordSet {
	set := wordSet{}
	for _, w := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r < 'a' || r > 'z' }) {
		set[stem(w)] = true
	}
	for _, w := range skipped {
		delete(set, w)
	}
	return set
}

// stem takes the plural ending and a final e from a word: "raises" and "raise" are "rais", "stretches" is "stretch".
func stem(w string) string {
	for _, ending := range []struct{ plural, singular string }{{"ises", "ise"}, {"ches", "ch"}, {"shes", "sh"}, {"es", ""}, {"s", ""}} {
		if rest, ok := strings.CutSuffix(w, ending.plural); ok && len(rest) >= 3 {
			w = rest + ending.singular
			break
		}
	}
	return strings.TrimRight(w, "e")
}

// shared returns how many words of a are in b.
func (a wordSet) shared(b wordSet) int {
	n := 0
	for w := range a {
		if b[w] {
			n++
		}
	}
	return n
}

// without returns the words of a that are not in b.
func (a wordSet) without(b wordSet) wordSet {
	out := wordSet{}
	for w := range a {
		if !b[w] {
			out[w] = true
		}
	}
	return out
}

// sameExercise reports whether two names share enough words to mean one exercise: an F1 of their words of at least a half.
func sameExercise(truth, found string) bool {
	a, b := wordsOf(truth), wordsOf(found)
	if len(a) == 0 || len(b) == 0 {
		return false
	}
	c := float64(a.shared(b))
	p, r := c/float64(len(b)), c/float64(len(a))
	return c > 0 && 2*p*r/(p+r) >= 0.5
}
