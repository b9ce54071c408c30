package standards_test

import (
	"strings"
	"testing"

	"captally.example/captally/segment/numeral"
)

// CLDR's English number words (unicode-org/cldr, common/rbnf/en.xml, spellout-cardinal), the examples below a thousand that a count can meet.
func TestCLDRNumberWords(t *testing.T) {
	for n, want := range map[int]string{7: "seven", 12: "twelve", 15: "fifteen", 40: "forty", 21: "twenty-one", 99: "ninety-nine", 123: "one hundred twenty-three"} {
		if got := numeral.Spell(n); got != want {
			t.Errorf("Spell(%d) = %q, want %q", n, got, want)
		}
	}
	// Parsing is lenient there: space, comma and hyphen between the parts do not count.
	for _, text := range []string{"twenty-one", "twenty one", "21"} {
		if got, ok := numeral.At(strings.Fields(text), 0); !ok || got.Value != 21 {
			t.Errorf("At(%q) = %+v, %v, want 21", text, got, ok)
		}
	}
}

// Number phrases with their values from the README of github.com/rodaine/numwords; but its "twenty second" is an ordinal, which in an exercise class it is not.
func TestNumberPhrases(t *testing.T) {
	for _, c := range []struct {
		text         string
		value, words int
	}{
		{"twenty-five", 25, 1}, {"eleven hundred", 1100, 2}, {"nine hundred and ninety nine", 999, 5}, {"twenty second hold", 20, 1},
	} {
		if got, ok := numeral.At(strings.Fields(c.text), 0); !ok || got.Value != c.value || got.Words != c.words || got.Ordinal {
			t.Errorf("At(%q) = %+v, %v, want %d of %d words", c.text, got, ok, c.value, c.words)
		}
	}
}
