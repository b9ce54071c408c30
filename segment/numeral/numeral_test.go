package numeral

import (
	"strconv"
	"strings"
	"testing"
)

func TestAt(t *testing.T) {
	for _, c := range []struct {
		words string
		want  Number
	}{
		{"12", Number{12, 1, Digits, false}},
		{"twelve of those", Number{12, 1, Spelled, false}},
		{"twenty-one", Number{21, 1, Spelled, false}},
		{"twenty one", Number{21, 2, Spelled, false}},
		{"twenty eleven", Number{20, 1, Spelled, false}},
		{"one two three", Number{1, 1, Spelled, false}},
		{"1 2 3", Number{1, 1, Digits, false}},
		{"20 one", Number{20, 1, Digits, false}},
		{"a dozen presses", Number{12, 2, Spelled, false}},
		{"dozen", Number{12, 1, Spelled, false}},
		{"two dozen", Number{24, 2, Spelled, false}},
		{"2 dozen", Number{24, 2, Mixed, false}},
		{"half a dozen", Number{6, 3, Spelled, false}},
		{"a hundred", Number{100, 2, Spelled, false}},
		{"a hundred and ten times", Number{110, 4, Spelled, false}},
		{"one hundred and", Number{100, 2, Spelled, false}},
		{"one hundred and a half", Number{100, 2, Spelled, false}},
		{"ten and twenty", Number{10, 1, Spelled, false}},
		{"eleven hundred", Number{1100, 2, Spelled, false}},
		{"2 hundred", Number{200, 2, Mixed, false}},
		{"one thousand and five", Number{1005, 4, Spelled, false}},
		{"two thousand three hundred four", Number{2304, 5, Spelled, false}},
		{"one-hundred-and-twenty-three", Number{123, 1, Spelled, false}},
		{"1,500", Number{1500, 1, Digits, false}},
		{"12,345,678", Number{12345678, 1, Digits, false}},
		{"nought to ten", Number{0, 1, Spelled, false}},
		{"zero", Number{0, 1, Spelled, false}},
		{"nil", Number{0, 1, Spelled, false}},
		{"third", Number{3, 1, Spelled, true}},
		{"3rd", Number{3, 1, Digits, true}},
		{"twenty-first", Number{21, 1, Spelled, true}},
		{"twenty first time", Number{21, 2, Spelled, true}},
		{"first two", Number{1, 1, Spelled, true}},
		{"one hundredth", Number{100, 2, Spelled, true}},
		{"twenty second hold", Number{20, 1, Spelled, false}},
		{"twenty-second", Number{22, 1, Spelled, true}},
	} {
		got, ok := At(strings.Fields(c.words), 0)
		if !ok || got != c.want {
			t.Errorf("At(%q) = %+v, %v, want %+v", c.words, got, ok, c.want)
		}
	}
}

func TestAtNoNumber(t *testing.T) {
	for _, w := range []string{"", "a", "a two", "and", "oh", "1.5", "10:30", "30s", "1,50", "1,5000", ",500", "12%", "half a minute",
		"for", "to", "twenty-eleven", "sit-to-stand", "two-way", "1234567890", "-", "--", "th", "twenty-"} {
		if got, ok := At(strings.Fields(w+" x"), 0); ok {
			t.Errorf("At(%q) = %+v, want none", w, got)
		}
	}
	if _, ok := At([]string{"ten"}, 1); ok {
		t.Error("a number behind the last word")
	}
}

func TestSingle(t *testing.T) {
	for w, want := range map[string]int{"12": 12, "twelve": 12, "twenty-one": 21, "twenty": 20, "zero": 0, "1,500": 1500} {
		if got, ok := Single(w); !ok || got != want {
			t.Errorf("Single(%q) = %d, %v, want %d", w, got, ok, want)
		}
	}
	for _, w := range []string{"third", "3rd", "dozen", "a", "two-way", "one's", "", "for"} {
		if got, ok := Single(w); ok {
			t.Errorf("Single(%q) = %d, want none", w, got)
		}
	}
}

// The examples are those of the Unicode CLDR number spelling rules for English
// (unicode-org/cldr, common/rbnf/en.xml: spellout-cardinal and spellout-cardinal-verbose).
func TestSpellCLDR(t *testing.T) {
	for _, c := range []struct {
		n              int
		plain, verbose string
	}{
		{0, "zero", "zero"},
		{21, "twenty-one", "twenty-one"},
		{-4, "minus four", "minus four"},
		{100, "one hundred", "one hundred"},
		{123, "one hundred twenty-three", "one hundred and twenty-three"},
		{1005, "one thousand five", "one thousand and five"},
		{1234, "one thousand two hundred thirty-four", "one thousand two hundred and thirty-four"},
		{123456, "one hundred twenty-three thousand four hundred fifty-six", "one hundred and twenty-three thousand, four hundred and fifty-six"},
		{1002003, "one million two thousand three", "one million, two thousand and three"},
	} {
		if got := Spell(c.n); got != c.plain {
			t.Errorf("Spell(%d) = %q, want %q", c.n, got, c.plain)
		}
		if got := SpellVerbose(c.n); got != c.verbose {
			t.Errorf("SpellVerbose(%d) = %q, want %q", c.n, got, c.verbose)
		}
	}
}

// The ordinals are CLDR's examples for spellout-ordinal and digits-ordinal (same file).
func TestOrdinalsCLDR(t *testing.T) {
	for w, want := range map[string]int{"first": 1, "second": 2, "third": 3, "fifth": 5, "eighth": 8, "ninth": 9, "twelfth": 12,
		"twentieth": 20, "twenty-first": 21, "one hundredth": 100,
		"1st": 1, "2nd": 2, "3rd": 3, "4th": 4, "11th": 11, "12th": 12, "13th": 13, "21st": 21, "111th": 111} {
		words := strings.Fields(w)
		if got, ok := At(words, 0); !ok || got.Value != want || !got.Ordinal || got.Words != len(words) {
			t.Errorf("At(%q) = %+v, %v, want the ordinal of %d", w, got, ok, want)
		}
	}
}

func TestSpellRoundTrip(t *testing.T) {
	check := func(n int, text string) {
		words := strings.Fields(strings.ReplaceAll(text, ",", ""))
		got, ok := At(words, 0)
		if !ok || got.Value != n || got.Words != len(words) || got.Form != Spelled || got.Ordinal {
			t.Fatalf("At(%q) = %+v, %v, want %d", text, got, ok, n)
		}
	}
	for n := range 10000 {
		check(n, Spell(n))
		check(n, SpellVerbose(n))
		if got, ok := At([]string{strconv.Itoa(n)}, 0); !ok || got.Value != n {
			t.Fatalf("At(%d) = %+v, %v", n, got, ok)
		}
	}
	for _, n := range []int{10000, 99999, 100000, 123456, 999999, 1000000, 1002003, 999999999} {
		check(n, Spell(n))
		check(n, SpellVerbose(n))
	}
}

func FuzzAt(f *testing.F) {
	for _, s := range []string{"a hundred and ten", "twenty-one", "1,500", "half a dozen", "- -", "one thousand million and"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		words := strings.Fields(strings.ToLower(s))
		for i := range words {
			n, ok := At(words, i)
			if ok && (n.Words < 1 || i+n.Words > len(words) || n.Value < 0) {
				t.Fatalf("At(%q, %d) = %+v", words, i, n)
			}
			if v, ok := Single(words[i]); ok && v < 0 {
				t.Fatalf("Single(%q) = %d", words[i], v)
			}
			SoundsLike(words[i])
		}
	})
}
