// Package spoken writes caption files of speech whose every word has a known time, for tests: nothing is misheard and no clock is off
// but by what the file's own format rounds away.
package spoken

import (
	"fmt"
	"math"
	"strings"

	"captally.example/captally/segment/numeral"
)

// WordGap is the time from one word of ordinary speech to the next, in seconds: 160 words a minute, the lower end of what the BBC Subtitle Guidelines
// (v1.2.5, 2026) give for subtitles, 160 to 180.
const WordGap = 0.375

// A Word is one word, with the punctuation that follows it, and the time in seconds at which it begins.
type Word struct {
	Text string
	At   float64
}

// A Speech is words in the order in which they are said. Its zero value is silence.
type Speech struct {
	Words []Word
	now   float64 // s: from when the next word may be said
}

// Now returns the time in seconds at which the last word ends.
func (s *Speech) Now() float64 { return s.now }

// Pause leaves the given seconds in silence.
func (s *Speech) Pause(seconds float64) { s.now += seconds }

// Say says words one after the other.
func (s *Speech) Say(text string) {
	for _, w := range strings.Fields(text) {
		s.Words = append(s.Words, Word{w, s.now})
		s.now += WordGap
	}
}

// At says words from the given time on. It panics if the speech is already beyond it, for the script would be wrong.
func (s *Speech) At(at float64, text string) {
	if at < s.now-1e-9 {
		panic(fmt.Sprintf("spoken: %q at %g s, but the speech lasts to %g s", text, at, s.now))
	}
	s.now = at
	s.Say(text)
}

// Count says the numbers as words, one every gap seconds, the first after one gap from now. Each is said on the end of its repetition, so the
// set lasts from now to the last number, which Count returns.
func (s *Speech) Count(numbers []int, gap float64) (end float64) {
	start := s.now
	for i, n := range numbers {
		end = start + float64(float64(i+1)*gap)
		s.Words = append(s.Words, Word{numeral.Spell(n) + ",", end})
	}
	s.now = end + WordGap
	return end
}

// Numbers returns from, from+step and so on to the last number that does not pass to.
func Numbers(from, to, step int) []int {
	var out []int
	for n := from; (step > 0 && n <= to) || (step < 0 && n >= to); n += step {
		out = append(out, n)
	}
	return out
}

// cue is words that are shown together.
type cue struct {
	words []Word
	end   float64
}

// cues cuts the speech before every word for which cut says so, given the words since the last cut.
func (s *Speech) cues(cut func(since []Word, next Word) bool) []cue {
	var out []cue
	for _, w := range s.Words {
		last := len(out) - 1
		if last < 0 || cut(out[last].words, w) {
			out = append(out, cue{})
			last++
		}
		out[last].words = append(out[last].words, w)
		out[last].end = w.At + WordGap
	}
	for i := range out[:max(0, len(out)-1)] {
		out[i].end = min(out[i].end, out[i+1].words[0].At)
	}
	return out
}

// pauses cuts at a pause of 1.5 s, and after four seconds or eight words.
func pauses(since []Word, next Word) bool {
	last := since[len(since)-1]
	return next.At-last.At > 1.5+WordGap || next.At-since[0].At > 4 || len(since) == 8
}

// WebVTT writes cues of up to eight words with a time on every word.
func (s *Speech) WebVTT() []byte {
	var b strings.Builder
	b.WriteString("WEBVTT\n")
	for _, c := range s.cues(pauses) {
		fmt.Fprintf(&b, "\n%s --> %s\n", clock(c.words[0].At, '.'), clock(c.end, '.'))
		for i, w := range c.words {
			if i > 0 {
				fmt.Fprintf(&b, " <%s>", clock(w.At, '.'))
			}
			b.WriteString(w.Text)
		}
		b.WriteString("\n")
	}
	return []byte(b.String())
}

// SubRip writes cues of up to eight words, with a time for each cue alone.
func (s *Speech) SubRip() []byte {
	var b strings.Builder
	for i, c := range s.cues(pauses) {
		fmt.Fprintf(&b, "%d\n%s --> %s\n%s\n\n", i+1, clock(c.words[0].At, ','), clock(c.end, ','), text(c.words))
	}
	return []byte(b.String())
}

// Transcript writes blocks of about 24 s, each with its time in whole seconds.
func (s *Speech) Transcript() []byte {
	var b strings.Builder
	for i, c := range s.cues(func(since []Word, next Word) bool { return next.At-since[0].At > 24 }) {
		if i > 0 {
			b.WriteString("\n")
		}
		at := int(c.words[0].At)
		fmt.Fprintf(&b, "[%d:%02d] %s\n", at/60, at%60, text(c.words))
	}
	return []byte(b.String())
}

func text(words []Word) string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = w.Text
	}
	return strings.Join(out, " ")
}

// clock writes seconds as hours, minutes, seconds and thousandths.
func clock(s float64, point byte) string {
	ms := int64(math.Round(s * 1000))
	return fmt.Sprintf("%02d:%02d:%02d%c%03d", ms/3600000, ms/60000%60, ms/1000%60, point, ms%1000)
}
