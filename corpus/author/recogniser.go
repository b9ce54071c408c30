package author

import (
	"bytes"
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
)

// How often a poor recogniser is wrong, after what such a recogniser wrote of
// spoken sessions: a third of the words of talk, a tenth of the numbers of
// counts. It stumbles over the same few numbers of a voice again and again.
const (
	wrongWord    = 0.33
	lostWord     = 0.03
	lostNumber   = 0.02
	hardNumbers  = 0.15 // share of numbers that are hard in a voice
	wrongHard    = 0.4
	wrongEasy    = 0.02
	phraseWidth  = 48  // letters of a line
	phraseLength = 7.0 // s of a cue of the word file
)

// An ear is a poor recogniser that listens to one voice.
type ear struct {
	rng   *rand.Rand
	takes map[string]string // what it takes each number for, when it is wrong
	hard  map[string]bool
}

func newEar(seed uint64) *ear {
	e := &ear{chance(seed, "recogniser"), map[string]string{}, map[string]bool{}}
	for _, n := range slices.Sorted(maps.Keys(wrongNumbers)) {
		likes := strings.Fields(wrongNumbers[n])
		e.takes[n] = strings.ReplaceAll(likes[e.rng.IntN(len(likes))], "_", " ")
		e.hard[n] = e.rng.Float64() < hardNumbers
	}
	return e
}

// recognise writes a session down as a poor recogniser hears it: lower case, no
// punctuation, no digit. All three files share its errors.
func recognise(s *Session) []written {
	e := newEar(s.script.Seed)
	var out []written
	for _, w := range s.Words {
		heard := ""
		for _, text := range spokenWords(w.Text) {
			heard += " " + e.hear(text, w.Number != 0)
		}
		parts := strings.Fields(heard)
		for i, text := range parts {
			step := w.Dur / float64(len(parts))
			at := w.At + float64(step*float64(i)) + float64(0.05*e.rng.NormFloat64())
			if n := len(out); n > 0 {
				at = math.Max(at, out[n-1].at+0.02)
				out[n-1].end = math.Min(out[n-1].end, at)
			}
			out = append(out, written{at, at + step, text, w.Number != 0})
		}
	}
	return out
}

// spokenWords is a written word as the words spoken: no hyphens, no digits.
func spokenWords(text string) []string {
	var out []string
	for _, part := range strings.FieldsFunc(plain(text), func(r rune) bool { return strings.ContainsRune("-.:", r) }) {
		if n, err := strconv.Atoi(part); err == nil && n < 10000 {
			part = strings.ReplaceAll(spell(n), "-", " ")
		}
		out = append(out, strings.Fields(part)...)
	}
	return out
}

// hear is what the recogniser makes of one word; "" when it loses it.
func (e *ear) hear(text string, count bool) string {
	chance := e.rng.Float64()
	takes, number := e.takes[text]
	wrong := wrongEasy
	if e.hard[text] {
		wrong = wrongHard
	}
	switch {
	case count && chance < lostNumber, !count && chance < lostWord:
		return ""
	case number && chance < lostNumber+wrong:
		return takes
	case number || count:
		return text
	case chance < lostWord+wrongWord:
		return soundAlike(e.rng, text, true)
	}
	return text
}

// phrases cuts words at most of their silences, and where a phrase is full.
func phrases(seed uint64, ws []written, purpose string, full func(phrase []written, next written) bool) [][]written {
	rng := chance(seed, purpose)
	var out [][]written
	for i := 0; i < len(ws); {
		n := i + 1
		for n < len(ws) && !full(ws[i:n], ws[n]) {
			gap, chance := ws[n].at-ws[n-1].end, rng.Float64()
			if gap > 3 || gap > 0.35 && chance < 0.8 {
				break
			}
			n++
		}
		out = append(out, ws[i:n])
		i = n
	}
	return out
}

// phraseWordFile writes cues of up to two lines with a time before every word.
func phraseWordFile(seed uint64, ws []written) []byte {
	full := func(p []written, next written) bool {
		return len(text(p, false))+1+len(next.text) > 2*phraseWidth || next.end-p[0].at > phraseLength && next.at-p[len(p)-1].end < 0.6
	}
	var b bytes.Buffer
	b.WriteString("WEBVTT\n")
	all := phrases(seed, ws, "phrases", full)
	for i, p := range all {
		end := p[len(p)-1].end + 0.1
		if i+1 < len(all) {
			end = math.Min(end, all[i+1][0].at)
		}
		fmt.Fprintf(&b, "\n%s --> %s\n", centiClock(p[0].at, "."), centiClock(end, "."))
		width := 0
		for i, w := range p {
			sep := " "
			if width+1+len(w.text) > phraseWidth {
				sep, width = "\n", 0
			}
			if i > 0 {
				fmt.Fprintf(&b, "%s<%s>", sep, centiClock(w.at, "."))
			}
			b.WriteString(w.text)
			width += 1 + len(w.text)
		}
		b.WriteString("\n")
	}
	return b.Bytes()
}

// phraseCueFile writes the recogniser's own phrases, however long, as cues.
func phraseCueFile(seed uint64, ws []written) []byte {
	var b bytes.Buffer
	never := func([]written, written) bool { return false }
	for i, p := range phrases(seed, ws, "segments", never) {
		fmt.Fprintf(&b, "%d\n%s --> %s\n%s\n\n", i+1, centiClock(p[0].at, ","), centiClock(p[len(p)-1].end, ","), text(p, false))
	}
	return b.Bytes()
}

// centiClock writes a time in hundredths of a second, as milliseconds.
func centiClock(s float64, point string) string { return clock(math.Round(s*100)/100, point) }
