package author

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
)

// How often a poor recogniser is wrong, after what such a recogniser wrote of
// spoken sessions: a third of the words of talk, a tenth of the numbers of counts.
const (
	wrongWord    = 0.33
	lostWord     = 0.03
	wrongNumber  = 0.08
	lostNumber   = 0.02
	phraseWidth  = 48  // letters of a line
	phraseLength = 7.0 // s of a cue of the word file
)

// recognise writes a session down as a poor recogniser hears it: lower case, no
// punctuation, no digit. All three files share its errors.
func recognise(s *Session) []written {
	rng := chance(s.script.Seed, "recogniser")
	var out []written
	for _, w := range s.Words {
		parts := spokenWords(w.Text)
		for i, text := range parts {
			step := w.Dur / float64(len(parts))
			at := w.At + float64(step*float64(i)) + float64(0.05*rng.NormFloat64())
			if text = mishear(rng, text, w.Number != 0); text == "" {
				continue
			}
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
	core := strings.ReplaceAll(plain(text), "-", " ")
	if n, err := strconv.Atoi(core); err == nil && n < 10000 {
		core = strings.ReplaceAll(spell(n), "-", " ")
	}
	return strings.Fields(core)
}

// mishear is what the recogniser makes of one word; "" when it loses it.
func mishear(rng *rand.Rand, text string, count bool) string {
	chance := rng.Float64()
	likes := strings.Fields(wrongNumbers[text])
	switch {
	case count && chance < lostNumber, !count && chance < lostWord:
		return ""
	case len(likes) > 0 && count && chance < lostNumber+wrongNumber, len(likes) > 0 && !count && chance < 0.2:
		return likes[rng.IntN(len(likes))]
	case count || len(likes) > 0:
		return text
	case chance < lostWord+wrongWord:
		return soundAlike(rng, text, true)
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
