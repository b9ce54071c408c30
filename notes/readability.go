package notes

import (
	"math"
	"strings"
	"unicode"

	"captally.example/captally/segment/numeral"
)

// A Reading says how hard a text is to read, by formulas that count words, sentences and syllables.
type Reading struct {
	Words, Sentences, Syllables int
	Long                        int // words of three syllables or more
}

// Ease is the Flesch Reading Ease, higher being easier: Flesch R 1948, "A new readability yardstick", J Appl Psychol 32:221-33.
func (r Reading) Ease() float64 {
	words, sentences, syllables := r.parts()
	return 206.835 - float64(1.015*words/sentences) - float64(84.6*syllables/words)
}

// Grade is the Flesch-Kincaid grade, in years of a US school: Kincaid JP et al. 1975, US Navy Research Branch Report 8-75.
func (r Reading) Grade() float64 {
	words, sentences, syllables := r.parts()
	return float64(0.39*words/sentences) + float64(11.8*syllables/words) - 15.59
}

// SMOG is the grade of McLaughlin GH 1969, "SMOG grading: a new readability formula", J Reading 12(8):639-46. Its author meant
// it for 30 sentences; fewer are scaled up.
func (r Reading) SMOG() float64 {
	_, sentences, _ := r.parts()
	return float64(1.0430*math.Sqrt(float64(r.Long)*30/sentences)) + 3.1291
}

// parts returns the three counts, at least 1 each, so that an empty text has a figure.
func (r Reading) parts() (words, sentences, syllables float64) {
	return float64(max(1, r.Words)), float64(max(1, r.Sentences)), float64(max(1, r.Syllables))
}

// Readability measures how hard the draft's own words are: the standing and measured sentences of its description. What was
// said is the speaker's, and blanks, headings, chapters and names of sources are no sentences.
func Readability(n *Notes) Reading { return reading(joined(n, ownProse)) }

// ReadabilityOfAll measures the sentences that were said beside the draft's own.
func ReadabilityOfAll(n *Notes) Reading { return reading(joined(n, anyProse)) }

func ownProse(l Line) bool {
	return l.Source == Measured && l.Part != partChapters || l.Source == Standing && l.Part == partCautions && l.Form == Item
}

func anyProse(l Line) bool { return ownProse(l) || l.Source == Said && l.Part != partTitle }

// joined returns the sentences of some lines as one text.
func joined(n *Notes, is func(Line) bool) string {
	var own []string
	for _, l := range n.Lines {
		if is(l) && strings.ContainsAny(l.Text[max(0, len(l.Text)-1):], ".?!") {
			own = append(own, l.Text)
		}
	}
	return strings.Join(own, " ")
}

// reading counts a punctuated text. A hyphenated word is one word and a figure counts as it is spoken, as SMOG's author asks.
func reading(text string) Reading {
	var r Reading
	for _, s := range sentences(text) {
		words := 0
		for _, w := range bareWords(s) {
			for _, spoken := range spoken(w) {
				words++
				n := wordSyllables(spoken)
				r.Syllables += n
				if n >= 3 {
					r.Long++
				}
			}
		}
		if words > 0 {
			r.Sentences++
			r.Words += words
		}
	}
	return r
}

// bareWords returns the words of a text without the marks around them.
func bareWords(text string) []string {
	words := strings.FieldsFunc(text, func(c rune) bool { return unicode.IsSpace(c) || c == '—' })
	for i, w := range words {
		words[i] = strings.TrimFunc(w, func(c rune) bool { return !unicode.IsLetter(c) && !unicode.IsDigit(c) })
	}
	return words
}

// spoken returns the words in which a written word is said: "12:40" as "twelve forty". It is empty for an empty word.
func spoken(w string) []string {
	if w == "" {
		return nil
	}
	if !strings.ContainsAny(w, "0123456789") {
		return []string{w}
	}
	var out []string
	for _, part := range strings.FieldsFunc(w, func(c rune) bool { return !unicode.IsDigit(c) && !unicode.IsLetter(c) }) {
		if n, ok := numeral.Single(part); ok {
			part = numeral.Spell(n)
		}
		out = append(out, strings.Fields(part)...)
	}
	return out
}

// sentences splits after each full stop, question mark or exclamation mark that a space follows.
func sentences(text string) []string {
	var out []string
	start := 0
	for i, c := range text {
		if strings.ContainsRune(".?!", c) && (i+1 == len(text) || text[i+1] == ' ' || text[i+1] == '\n') {
			out = append(out, strings.TrimSpace(text[start:i+1]))
			start = i + 1
		}
	}
	if rest := strings.TrimSpace(text[start:]); rest != "" {
		out = append(out, rest)
	}
	return out
}
