package author

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
)

// lineWidth and cueWidth are the most letters of a roll-up line and of a cue.
const (
	lineWidth = 40
	cueWidth  = 80
)

// clock writes hours, minutes, seconds and milliseconds.
func clock(s float64, point string) string {
	ms := int(math.Round(s * 1000))
	return fmt.Sprintf("%02d:%02d:%02d%s%03d", ms/3600000, ms/60000%60, ms/1000%60, point, ms%1000)
}

// wordFile writes roll-up captions: each line comes with a time on every word,
// then stands for 10 ms, then is the upper line while the next comes. A line
// stays 4 s at most after its last word.
func wordFile(seed uint64, ws []written) []byte {
	words := heardAt(chance(seed, "word times"), ws)
	var b bytes.Buffer
	b.WriteString("WEBVTT\nKind: captions\nLanguage: en\n\n")
	above := " "
	for i := 0; i < len(words); {
		n := fill(words, i)
		line := words[i:n]
		last := line[len(line)-1]
		end := last.end
		if n < len(words) {
			end = math.Max(last.at, math.Min(last.end+4, words[n].at-0.01))
		}
		plain, timed := rollUpLine(line)
		fmt.Fprintf(&b, "%s --> %s align:start position:0%%\n%s\n%s\n\n", clock(line[0].at, "."), clock(end, "."), above, timed)
		fmt.Fprintf(&b, "%s --> %s align:start position:0%%\n%s\n \n\n", clock(end, "."), clock(end+0.01, "."), plain)
		above, i = plain, n
	}
	return b.Bytes()
}

// heardAt gives each word, in lower case and bare, a time of its own: about
// 0.1 s off, with a shift for the whole file, and never before the last one's.
func heardAt(rng *rand.Rand, ws []written) []written {
	shift := 0.05 * rng.NormFloat64()
	var out []written
	last := 0.0
	for _, w := range ws {
		text := plain(w.text)
		if text == "" {
			continue
		}
		at := math.Max(last+0.01, w.at+shift+float64(0.1*rng.NormFloat64()))
		out = append(out, written{at: at, end: at + w.end - w.at, text: text})
		last = at
	}
	return out
}

// fill returns where the line that starts at word i ends: it is full, or a long
// silence follows.
func fill(words []written, i int) int {
	n, width := i+1, len(words[i].text)
	for n < len(words) && width+1+len(words[n].text) <= lineWidth && words[n].at-words[n-1].end < 4 {
		width += 1 + len(words[n].text)
		n++
	}
	return n
}

// rollUpLine writes a line without and with the times of its words.
func rollUpLine(line []written) (plain, timed string) {
	plain, timed = line[0].text, line[0].text
	for _, w := range line[1:] {
		plain += " " + w.text
		timed += fmt.Sprintf("<%s><c> %s</c>", clock(w.at, "."), w.text)
	}
	return plain, timed
}

// cueFile writes ordinary cues.
func cueFile(seed uint64, ws []written) []byte {
	rng := chance(seed, "cue times")
	var b bytes.Buffer
	last := 0.0
	number := 1
	for i := 0; i < len(ws); number++ {
		n, width := i, -1
		for n < len(ws) {
			if n > i && (width+1+len(ws[n].text) > cueWidth || ws[n].end-ws[i].at > 7 || breaks(rng.Float64(), ws[n-1], ws[n], width)) {
				break
			}
			width += 1 + len(ws[n].text)
			n++
		}
		start := math.Max(last+0.001, ws[i].at+float64(0.25*rng.NormFloat64()))
		end := math.Max(start+0.45, ws[n-1].end+0.1+float64(0.1*rng.NormFloat64()))
		if n < len(ws) {
			end = math.Max(start+0.2, math.Min(end, ws[n].at))
		}
		fmt.Fprintf(&b, "%d\n%s --> %s\n%s\n\n", number, clock(start, ","), clock(end, ","), text(ws[i:n], true))
		last, i = end, n
	}
	return b.Bytes()
}

// breaks tells whether a cue ends between two words: at most pauses, at many
// ends of sentences.
func breaks(chance float64, a, b written, width int) bool {
	gap := b.at - a.end
	switch {
	case gap > 1.5:
		return true
	case gap > 0.7:
		return chance < 0.85
	case strings.ContainsAny(a.text[len(a.text)-1:], ".?!") && !a.number:
		return width > 25 && chance < 0.6
	}
	return gap > 0.3 && width > 60 && chance < 0.3
}

// text joins words; the comma behind a number does not end a cue.
func text(ws []written, cue bool) string {
	var words []string
	for _, w := range ws {
		words = append(words, w.text)
	}
	s := strings.Join(words, " ")
	if cue && ws[len(ws)-1].number {
		s = strings.TrimSuffix(s, ",")
	}
	return s
}

// blockFile writes a transcript with a time every 20 to 28 s, in whole seconds.
func blockFile(seed uint64, ws []written) []byte {
	rng := chance(seed, "block times")
	var b bytes.Buffer
	for i := 0; i < len(ws); {
		long := 20 + float64(8*rng.Float64())
		n := i + 1
		for n < len(ws) && ws[n].at-ws[i].at < long {
			n++
		}
		s := int(ws[i].at)
		stamp := fmt.Sprintf("%d:%02d", s/60, s%60)
		if s >= 3600 {
			stamp = fmt.Sprintf("%d:%02d:%02d", s/3600, s/60%60, s%60)
		}
		fmt.Fprintf(&b, "[%s] %s\n\n", stamp, text(ws[i:n], false))
		i = n
	}
	return b.Bytes()
}
