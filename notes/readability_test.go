package notes

import (
	"math"
	"testing"
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

// TestSentencesSurvive: letters on which the splitting library is known to panic still give sentences.
func TestSentencesSurvive(t *testing.T) {
	for _, text := range []string{"ȺȺȺȺ'll go. Stop.", "\xff\xfe. Two.", "....", "One. Two."} {
		if len(sentences(text)) == 0 {
			t.Errorf("%q gave no sentence", text)
		}
	}
	if got := plainSentences("Do ten. Rest for 1.5 minutes! Again"); len(got) != 3 {
		t.Errorf("plain splitting gave %q", got)
	}
}
