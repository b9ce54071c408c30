package caption

import (
	"fmt"
	"strings"
)

// readTranscript reads text with a time in brackets at the start of its blocks: "[0:47] words".
func readTranscript(r *reading) *Error {
	r.blocks = true
	sc := scanRows(r.src)
	for {
		w, ok := sc.next()
		if !ok {
			return nil
		}
		s := r.src[w.from:w.to]
		if isBlank(s) {
			continue
		}
		if at, n := bracketTime(s); n > 0 {
			if len(r.cues) >= r.maxCues {
				return &Error{Line: w.line, Msg: fmt.Sprintf("more than %d blocks", r.maxCues), Err: ErrTooBig}
			}
			r.cues = append(r.cues, rawCue{start: at, line: w.line, first: len(r.pieces), last: len(r.pieces)})
			w.from += n
		}
		if len(r.cues) == 0 {
			continue
		}
		r.pieces = append(r.pieces, piece{text: r.src[w.from:w.to], pos: w.from, line: w.line, newline: true})
		r.cues[len(r.cues)-1].last = len(r.pieces)
	}
}

func bracketTime(s string) (Time, int) {
	if !strings.HasPrefix(s, "[") {
		return 0, 0
	}
	t, n, _ := readClock(s[1:])
	if n == 0 || !strings.HasPrefix(s[1+n:], "]") {
		return 0, 0
	}
	return t, n + 2
}
