package notes

import (
	"fmt"
	"math"
	"strings"
	"unicode"

	"github.com/jdkato/prose/v2"

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
func Readability(n *Notes) Reading {
	var own []string
	for _, l := range n.Lines {
		prose := l.Source == Measured && l.Part != partChapters || l.Source == Standing && l.Part == partCautions
		if prose && strings.HasSuffix(l.Text, ".") {
			own = append(own, l.Text)
		}
	}
	return reading(strings.Join(own, " "))
}

// reading counts a punctuated text. A hyphenated word is one word and a figure counts as it is spoken, as SMOG's author asks.
func reading(text string) Reading {
	var r Reading
	for _, s := range sentences(text) {
		words := 0
		for _, w := range strings.FieldsFunc(s, func(c rune) bool { return unicode.IsSpace(c) || c == '—' }) {
			w = strings.TrimFunc(w, func(c rune) bool { return !unicode.IsLetter(c) && !unicode.IsDigit(c) })
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

// sentences splits a punctuated text. The library splits it; where it fails, as it does by panicking on some letters, full
// stops do.
func sentences(text string) (out []string) {
	if strings.TrimSpace(text) == "" {
		return nil
	}
	out, err := library(text)
	if err != nil || len(out) == 0 {
		return plainSentences(text)
	}
	return out
}

func library(text string) (out []string, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("splitting sentences: %v", p)
		}
	}()
	doc, err := prose.NewDocument(text,
		prose.WithSegmentation(true), prose.WithTokenization(false), prose.WithTagging(false), prose.WithExtraction(false))
	if err != nil {
		return nil, err
	}
	for _, s := range doc.Sentences() {
		out = append(out, s.Text)
	}
	return out, nil
}

// plainSentences splits after each full stop, question mark or exclamation mark that a space follows.
func plainSentences(text string) []string {
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
