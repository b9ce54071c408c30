package notes

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/jdkato/prose/v2"

	"captally.example/captally/corpus"
)

// TestFormulas checks the formulas against worked examples. The platypus sentence (13 words, 24 syllables) at grade 11.3, the
// text of 5.7 words a sentence and 1.02 syllables a word at -1.3, and the least grade of -3.40 are the usual published
// examples of the Flesch-Kincaid formula (restated at animalaesthetics.com and promisekit.org); the eases are the same counts put
// into Flesch's formula by hand. SMOG: 80 long words in 30 sentences; the author's page, harrymclaughlin.com/SMOG.htm, gives the
// precise formula, here worked by hand to 12.46.
func TestFormulas(t *testing.T) {
	for _, tt := range []struct {
		name      string
		got, want float64
		within    float64
	}{
		{"platypus grade", Reading{Words: 13, Sentences: 1, Syllables: 24}.Grade(), 11.3, 0.05},
		{"platypus ease", Reading{Words: 13, Sentences: 1, Syllables: 24}.Ease(), 37.5, 0.05},
		{"5.7 words, 1.02 syllables", Reading{Words: 5700, Sentences: 1000, Syllables: 5814}.Grade(), -1.3, 0.05},
		{"least grade", Reading{Words: 1, Sentences: 1, Syllables: 1}.Grade(), -3.40, 0.005},
		{"most ease", Reading{Words: 1, Sentences: 1, Syllables: 1}.Ease(), 121.22, 0.005},
		{"cat and mat ease", reading("The cat sat on the mat.").Ease(), 116.145, 0.0005},
		{"cat and mat grade", reading("The cat sat on the mat.").Grade(), -1.45, 0.0005},
		{"SMOG, 80 in 30", Reading{Sentences: 30, Long: 80}.SMOG(), 12.46, 0.05},
		{"SMOG, 9 in 10", Reading{Sentences: 10, Long: 9}.SMOG(), 8.55, 0.005},
	} {
		if math.Abs(tt.got-tt.want) > tt.within {
			t.Errorf("%s: %.4f, want %v", tt.name, tt.got, tt.want)
		}
	}
}

func TestReadingCounts(t *testing.T) {
	for _, tt := range []struct {
		text string
		want Reading
	}{
		{"", Reading{}},
		{"The cat sat on the mat.", Reading{Words: 6, Sentences: 1, Syllables: 6}},
		{"The Australian platypus is seemingly a hybrid of a mammal and reptilian creature.", Reading{Words: 13, Sentences: 1, Syllables: 24, Long: 4}},
		{"Do ten. Rest!", Reading{Words: 3, Sentences: 2, Syllables: 3}},
		{"Stop at 12:40.", Reading{Words: 4, Sentences: 1, Syllables: 5}},                 // stop at twelve forty
		{"A sit-to-stand helps.", Reading{Words: 3, Sentences: 1, Syllables: 5, Long: 1}}, // a hyphenated word is one
	} {
		if got := reading(tt.text); got != tt.want {
			t.Errorf("%q: %+v, want %+v", tt.text, got, tt.want)
		}
	}
}

// TestSyllables: divisions as printed in common dictionaries; from memory.
func TestSyllables(t *testing.T) {
	for word, want := range map[string]int{
		"heel": 1, "raise": 1, "raises": 2, "stretch": 1, "stretches": 2, "lifted": 2, "moved": 1, "table": 2, "ankle": 2, "knee": 1,
		"muscle": 2, "muscles": 2, "balance": 2, "exercise": 3, "exercises": 4, "breath": 1, "breathe": 1, "dizzy": 2, "therapist": 3, "emergency": 4,
		"video": 3, "seconds": 2, "the": 1, "you": 1, "isn't": 2, "don't": 1, "twenty-one": 3, "made": 1, "sides": 1, "sideways": 2, "minute": 2, "hurts": 1,
		"does": 1, "normal": 2, "number": 2, "local": 2, "shoulder": 2, "squeeze": 1, "a": 1, "I": 1,
	} {
		if got := wordSyllables(word); got != want {
			t.Errorf("%s: %d syllables, want %d", word, got, want)
		}
	}
}

// TestSentences: a full stop within a figure or a name ends nothing, and no text is without a sentence.
func TestSentences(t *testing.T) {
	for text, want := range map[string]int{
		"Do ten. Rest for 1.5 minutes! Again": 3, "Ask at clinic.example now. Stop.": 2, "\xff\xfe. Two.": 2, "One. Two.": 2, "": 0, "  ": 0,
	} {
		if got := sentences(text); len(got) != want {
			t.Errorf("%q: %q, want %d sentences", text, got, want)
		}
	}
}

// TestSentencesAgree: github.com/jdkato/prose/v2, a library for English text, finds the same sentences in the draft's own
// words for every labelled session.
func TestSentencesAgree(t *testing.T) {
	compared := 0
	for _, s := range corpus.Sessions() {
		n := draftOf(t, s.Cue)
		text := joined(n, ownProse)
		doc, err := prose.NewDocument(text, prose.WithSegmentation(true), prose.WithTokenization(false), prose.WithTagging(false), prose.WithExtraction(false))
		if err != nil {
			t.Fatal(err)
		}
		var theirs []string
		for _, x := range doc.Sentences() {
			theirs = append(theirs, x.Text)
		}
		ours := sentences(text)
		if !slices.Equal(ours, theirs) {
			t.Errorf("%s:\nours   %q\ntheirs %q", s.Name, ours, theirs)
		}
		compared += len(ours)
	}
	if compared < 100 {
		t.Errorf("only %d sentences were compared", compared)
	}
}

func TestReadabilityText(t *testing.T) {
	at := 65.0
	n := &Notes{Lines: []Line{
		{Form: Item, Part: partWho, Source: Said, At: &at, Text: "This is for people who walk up and down and up and down and up and down and up the hill."},
		{Form: Item, Part: partCautions, Source: Standing, Text: "Exercise carefully."},
		{Form: Plain, Part: partCautions, Source: Standing, Text: "(Incomprehensible sources.)"},
		{Form: Item, Part: partNeed, Source: Blank, Text: "[equipment?]"},
	}}
	got := ReadabilityText(n)
	for _, want := range []string{"(23 words in 2 sentences)", "(2 words in 1 sentence)", "- said at 1:05: This is for people", "(21 words)\n", "\nexercise, carefully\n"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
	if strings.Contains(strings.ToLower(got), "incomp") || strings.Contains(got, "equipment") {
		t.Errorf("what is no prose was measured:\n%s", got)
	}
}

// TestPlainLanguageOfTheCorpus: the draft's own words stay at grade 6 or below for every labelled session.
func TestPlainLanguageOfTheCorpus(t *testing.T) {
	for _, s := range append(corpus.Sessions(), corpus.More()...) {
		if r := Readability(draftOf(t, s.Cue)); r.Grade() > 6 || r.Words < 50 {
			t.Errorf("%s: grade %.1f in %d words, want 6 or below", s.Name, r.Grade(), r.Words)
		}
	}
}
