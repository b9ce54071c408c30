package caption

import (
	"strings"
	"time"
)

// isWordList reports whether the objects of a list are single words and not segments.
func isWordList(list []*jsonNode) bool {
	single := 0
	for _, n := range list {
		if len(segmentWords(n)) > 0 {
			return false
		}
		if n.get("word", "punctuated_word", "alternatives", "value") != nil {
			single++
		}
	}
	return single*2 > len(list)
}

// Where a list of single words is cut into cues: at a silence, at the end of a sentence, or after so many words.
const (
	wordListSilence = Time(1500 * time.Millisecond)
	wordListMost    = 12
)

// wordList reads a plain list of timed words.
func (r *reading) wordList(list []*jsonNode) *Error {
	last, n := Time(-1), 0
	open, loose := false, false
	for _, w := range list {
		s := wordText(w)
		if strings.TrimSpace(s) == "" {
			continue
		}
		start, timed := jsonTime(w, true)
		if !open || n >= wordListMost || timed && !loose && start > last+wordListSilence {
			if !timed {
				start = max(last, 0)
			}
			if err := r.addCue(rawCue{start: start, line: w.line}); err != nil {
				return err
			}
			open, n = true, 0
		}
		p := piece{text: s, pos: -1, line: w.line, newline: n == 0, speaker: speakerOf(w)}
		r.timeJSONWord(&p, w, 0)
		r.addPiece(p)
		n++
		loose = p.loose
		c := &r.cues[len(r.cues)-1]
		if p.timed {
			last = max(last, p.at, p.until)
		}
		if p.until > c.start {
			c.end, c.hasEnd = p.until, true
		}
		if m := pauseMark(s); m == '.' && n > 2 {
			open = false
		}
	}
	return nil
}
