package notes

import (
	"fmt"
	"slices"
	"strings"
)

// longSentence is the number of words above which a sentence is listed as long. Common practice in plain writing, no source.
const longSentence = 20

// ReadabilityText tells a person how hard a draft is to read: the figures of the whole and of the draft's own words, and which
// sentences are long and which words hard, so that they can be put more simply.
func ReadabilityText(n *Notes) string {
	var b strings.Builder
	all, own := ReadabilityOfAll(n), Readability(n)
	fmt.Fprintf(&b, "All sentences:       reading ease %.0f, grade %.1f (%s)\n", all.Ease(), all.Grade(), amountOf(all))
	fmt.Fprintf(&b, "Without what is said: reading ease %.0f, grade %.1f (%s)\n", own.Ease(), own.Grade(), amountOf(own))
	b.WriteString("Ease (Flesch 1948): higher is easier. Grade (Kincaid and others 1975): years of school; 6 or lower suits most people.\n")
	var hard []string
	long := 0
	for _, l := range n.Lines {
		if !anyProse(l) {
			continue
		}
		for _, s := range sentences(l.Text) {
			r := reading(s)
			if r.Words > longSentence {
				if long++; long == 1 {
					fmt.Fprintf(&b, "\nLong sentences (over %d words):\n", longSentence)
				}
				fmt.Fprintf(&b, "- %s%s (%d words)\n", saidAt(l), s, r.Words)
			}
		}
		for _, w := range hardWords(l.Text) {
			if !slices.Contains(hard, w) {
				hard = append(hard, w)
			}
		}
	}
	if len(hard) > 0 {
		fmt.Fprintf(&b, "\nHard words (three syllables or more):\n%s\n", strings.Join(hard, ", "))
	}
	return b.String()
}

// amountOf says how much was measured.
func amountOf(r Reading) string {
	w := wording{}
	return w.of(r.Words, "word", "") + " in " + w.of(r.Sentences, "sentence", "")
}

// saidAt says when a line was said, for one that was.
func saidAt(l Line) string {
	if l.Source != Said || l.At == nil {
		return ""
	}
	return "said at " + clock(*l.At) + ": "
}

// hardWords returns the words of three syllables or more, in lower case; a figure is none.
func hardWords(text string) []string {
	var out []string
	for _, w := range bareWords(text) {
		if !strings.ContainsAny(w, "0123456789") && wordSyllables(w) >= 3 {
			out = append(out, strings.ToLower(w))
		}
	}
	return out
}
