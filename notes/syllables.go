package notes

import "strings"

// unlike are common words whose syllables the rule below miscounts.
var unlike = map[string]int{
	"being": 2, "doing": 2, "going": 2, "science": 2, "quiet": 2, "diet": 2, "area": 3, "idea": 3, "video": 3, "ideas": 3, "videos": 3,
	"create": 2, "really": 2, "people": 2, "every": 2, "different": 3, "business": 2, "something": 2, "someone": 2, "sometimes": 2,
	"forearm": 2, "forearms": 2, "sideways": 2, "somebody": 3, "therapist": 3, "rhythm": 2, "minute": 2, "minutes": 2, "lifetime": 2, "anyone": 3, "everyone": 3, "none": 1,
	"clockwise": 2, "homework": 2, "kneecap": 2, "kneecaps": 2,
}

// wordSyllables estimates the syllables of an English word: its groups of vowels, without a silent e at the end ("make",
// "makes", "moved"), but with one before a final l or r after a consonant ("table"). Words with hyphens are the sum of their
// parts. A word has at least one.
func wordSyllables(word string) int {
	n := 0
	for _, part := range strings.FieldsFunc(strings.ToLower(word), func(c rune) bool { return c == '-' || c == '–' }) {
		n += partSyllables(strings.Trim(part, "'’"))
	}
	return max(1, n)
}

func partSyllables(w string) int {
	if n, ok := unlike[w]; ok {
		return n
	}
	for _, suffix := range []string{"'s", "’s", "'ll", "’ll", "'re", "’re", "'ve", "’ve", "'d", "’d"} {
		w = strings.TrimSuffix(w, suffix)
	}
	n, before := 0, false
	for i := range len(w) {
		v := vowel(w, i)
		if v && !before {
			n++
		}
		before = v
	}
	switch {
	case strings.HasSuffix(w, "n't") || strings.HasSuffix(w, "n’t"):
		if stem := strings.TrimSuffix(strings.TrimSuffix(w, "n't"), "n’t"); strings.HasSuffix(stem, "d") || strings.HasSuffix(stem, "s") {
			n++ // "didn't", "isn't"
		}
	case silent(w):
		n--
	}
	return max(1, n)
}

// vowel says whether letter i of w sounds as a vowel: y does, but at the start of a word.
func vowel(w string, i int) bool {
	return strings.IndexByte("aeiou", w[i]) >= 0 || w[i] == 'y' && i > 0
}

// silent says whether the last vowel of a word is an e that is not spoken.
func silent(w string) bool {
	for _, end := range []string{"es", "ed", "e"} {
		stem := strings.TrimSuffix(w, end)
		if stem == w || stem == "" || vowel(stem, len(stem)-1) {
			continue
		}
		last := stem[len(stem)-1]
		beforeLast := byte('a')
		if len(stem) > 1 {
			beforeLast = stem[len(stem)-2]
		}
		syllabic := (last == 'l' || last == 'r') && strings.IndexByte("aeiouylr", beforeLast) < 0 // ta-ble, met-re
		switch end {
		case "es":
			return !syllabic && strings.IndexByte("szxcg", last) < 0 && !strings.HasSuffix(stem, "sh") && !strings.HasSuffix(stem, "ch") // "makes", not "stretches"
		case "ed":
			return !syllabic && last != 't' && last != 'd' // "moved", not "lifted"
		}
		return !syllabic
	}
	return false
}
