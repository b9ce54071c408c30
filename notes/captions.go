package notes

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"captally.example/captally/analyze"
	"captally.example/captally/segment/caption"
	"captally.example/captally/segment/numeral"
)

// SureEnoughToChange is the probability from which captions are changed unless another is given.
const SureEnoughToChange = 0.8

// A CaptionChange is one mistake of the captions and what is done about it.
type CaptionChange struct {
	At          float64 // seconds
	Line        int     // in the file, from 1
	Written     string  // what stands there; empty for a dropped number
	Text        string  // what stands there afterwards; empty where the words go
	Probability float64 // that the captions are wrong and this was said, in [0,1]
	Finding     string  // its ID in the report, empty for none
	Left        string  // why it is left alone; empty where it is made
}

// Captions returns the WebVTT or SubRip file src with the captioner's mistakes on numbers put right and everything else
// untouched, and every mistake with what was done about it. t is the track read from src, r its report. A mistake is left
// alone below the probability least, and where its words do not show for certain what to do.
//
// Words that stand twice are deleted once, a word that stands for a number gives way to it, numbers written as one are
// parted, all in the style (words or figures) of the numbers beside it. A dropped number is put back between its neighbours
// only where both stand next to each other in one caption.
//
// The error wraps caption.ErrSplice where the file is of a format that is not written back.
func Captions(src []byte, t *caption.Track, r *analyze.Report, least float64) ([]byte, []CaptionChange, error) {
	changes, splices := captionChanges(t, r, least)
	if t.Format != "webvtt" && t.Format != "subrip" {
		_, err := caption.Splice(src, t, nil)
		return nil, changes, err
	}
	for i := range splices { // one that cannot be placed does not cost the others
		if len(splices[i]) == 0 {
			continue
		}
		if _, err := caption.Splice(src, t, splices[i]); err != nil {
			changes[i].Left, splices[i] = "the words are not in one piece in the file", nil
		}
	}
	out, err := caption.Splice(src, t, slices.Concat(splices...))
	if err != nil {
		return nil, changes, fmt.Errorf("correcting the captions: %w", err)
	}
	return out, changes, nil
}

// Changes returns every mistake of the captions on numbers, and what Captions would do about it.
func Changes(t *caption.Track, r *analyze.Report, least float64) []CaptionChange {
	changes, _ := captionChanges(t, r, least)
	return changes
}

// captionChanges returns the changes of a report, each with the words to be spliced; none for one that is left alone.
func captionChanges(t *caption.Track, r *analyze.Report, least float64) ([]CaptionChange, [][]caption.Change) {
	changes := []CaptionChange{}
	var splices [][]caption.Change
	touched := map[int]bool{}
	for _, x := range r.Repairs {
		c := CaptionChange{At: x.At, Line: x.Line, Written: strings.Join(x.Written, " "), Probability: x.Probability, Finding: x.Finding}
		var words []caption.Change
		words, c.Text, c.Left = repaired(t, x)
		if c.Left == "" && x.Probability < least {
			c.Left = "not sure enough"
		}
		if c.Left == "" && slices.ContainsFunc(words, func(w caption.Change) bool { return touched[w.Word] }) {
			c.Left = "the words are changed already"
		}
		if c.Left != "" {
			words = nil
		}
		for _, w := range words {
			touched[w.Word] = true
		}
		changes, splices = append(changes, c), append(splices, words)
	}
	return changes, splices
}

// repaired returns the words to change for a repair and what they become, or why they cannot be told for certain.
func repaired(t *caption.Track, x analyze.Repair) (words []caption.Change, text, left string) {
	if x.First < 0 || x.Last > len(t.Words) || x.Last < x.First || x.First >= len(t.Words) {
		return nil, "", "the words are not in this file"
	}
	switch x.Kind {
	case analyze.RepairDoubled:
		if left := notTwice(t, x.First, x.Last); left != "" {
			return nil, "", left
		}
		for i := x.First; i < x.Last; i++ {
			words = append(words, caption.Change{Word: i})
		}
		return words, "", ""
	case analyze.RepairDropped:
		if !certainPlace(t, x) {
			return nil, spell(t, x, x.First), "its place is not certain"
		}
		text = spell(t, x, x.First)
		w := t.Words[x.First-1]
		return []caption.Change{{Word: x.First - 1, Text: w.Text + strings.TrimRight(w.After, " ") + " " + text}}, text, ""
	}
	text = spell(t, x, x.First)
	words = []caption.Change{{Word: x.First, Text: text}}
	for i := x.First + 1; i < x.Last; i++ {
		words = append(words, caption.Change{Word: i})
	}
	return words, text, ""
}

// notTwice says why words [first,last) may be more than numbers written twice: they hold other words, do not follow the same
// number at once, or one of them alone goes on into a remark ("six done").
func notTwice(t *caption.Track, first, last int) string {
	for i := first; i < last; i++ {
		if _, ok := figureAt(t, i); !ok {
			return "there are other words among the numbers"
		}
	}
	before, ok := figureAt(t, first-1)
	if end, _ := figureAt(t, last-1); !ok || before != end {
		return "they do not follow the same number at once"
	}
	if last-first > 1 || last == len(t.Words) || t.Words[last-1].After != "" || t.Words[last].Cue != t.Words[last-1].Cue {
		return ""
	}
	if _, counts := figureAt(t, last); !counts {
		return "it may belong to the words after it"
	}
	return ""
}

// certainPlace says whether a dropped number belongs between two words that stand next to each other: its neighbours in the
// count, in one caption, with no times of their own.
func certainPlace(t *caption.Track, x analyze.Repair) bool {
	if t.Timing == caption.TimingWord || len(x.Numbers) != 1 || x.First == 0 || t.Words[x.First-1].Cue != t.Words[x.First].Cue {
		return false
	}
	before, ok := figureAt(t, x.First-1)
	after, ok2 := figureAt(t, x.First)
	n := x.Numbers[0]
	return ok && ok2 && (before == n-1 && after == n+1 || before == n+1 && after == n-1)
}

// figureAt returns the number that word i is.
func figureAt(t *caption.Track, i int) (int, bool) {
	if i < 0 || i >= len(t.Words) {
		return 0, false
	}
	return numeral.Single(t.Words[i].Fold)
}

// spell writes the numbers of a repair as those beside word i are written, in figures or in words.
func spell(t *caption.Track, x analyze.Repair, i int) string {
	figures := 0
	for j := max(0, i-nearWords); j < min(len(t.Words), x.Last+nearWords); j++ {
		if _, ok := figureAt(t, j); !ok || j >= x.First && j < x.Last {
			continue
		}
		if strings.IndexFunc(t.Words[j].Text, unicode.IsDigit) >= 0 {
			figures++
		} else {
			figures--
		}
	}
	var parts []string
	for _, n := range x.Numbers {
		if figures > 0 {
			parts = append(parts, fmt.Sprint(n))
		} else {
			parts = append(parts, numeral.Spell(n))
		}
	}
	text := strings.Join(parts, " ")
	if first := []rune(t.Words[i].Text); x.Last > x.First && len(first) > 0 && unicode.IsUpper(first[0]) {
		text = upper(text)
	}
	return text
}

// nearWords is how many words on each side show whether numbers are written in figures: the better part of a caption.
const nearWords = 8

// ChangesText writes changes for a person: those that are made, then those that are left alone.
func ChangesText(changes []CaptionChange) string {
	var b strings.Builder
	for _, made := range []bool{true, false} {
		for i, c := range changes {
			if (c.Left == "") != made {
				continue
			}
			if !made && !slices.ContainsFunc(changes[:i], func(c CaptionChange) bool { return c.Left != "" }) {
				b.WriteString("\nLeft alone:\n")
			}
			fmt.Fprintf(&b, "%8s  line %-5d %s  (%s", clock(c.At), c.Line, changed(c), sure(c.Probability))
			if c.Left != "" {
				b.WriteString("; " + c.Left)
			}
			b.WriteString(")\n")
		}
	}
	if len(changes) == 0 {
		return "No mistake of the captions on numbers was found.\n"
	}
	if !slices.ContainsFunc(changes, func(c CaptionChange) bool { return c.Left == "" }) {
		return "Nothing is changed.\n" + b.String()
	}
	return b.String()
}

// changed tells a change: what stood there, and what stands there now.
func changed(c CaptionChange) string {
	switch {
	case c.Written == "":
		return fmt.Sprintf("put in “%s”", c.Text)
	case c.Text == "":
		return fmt.Sprintf("take out “%s”, which stands there twice", c.Written)
	}
	return fmt.Sprintf("“%s” becomes “%s”", c.Written, c.Text)
}

// sure writes a probability; none is certain.
func sure(p float64) string {
	if p > 0.99 {
		return "over 99% sure"
	}
	return fmt.Sprintf("%.0f%% sure", 100*p)
}
