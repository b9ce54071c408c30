package caption

import (
	"sort"
	"strings"
	"time"
)

// readLRC reads lyrics-style lines "[mm:ss.xx] words", with "<mm:ss.xx>" before a word where it has a time of its own.
// A line with several times is said at each of them. There is no standard; this is the common habit.
func readLRC(r *reading) *Error {
	r.blocks = true
	var offset Time
	sc := scanRows(r.src)
	sung := false // a line has several times
	for {
		w, ok := sc.next()
		if !ok {
			if sung { // such lines are out of order by nature
				sort.SliceStable(r.cues, func(i, j int) bool { return r.cues[i].start < r.cues[j].start })
			}
			return nil
		}
		s := trimFront(r.src[w.from:w.to])
		if name, value, ok := lrcHeader(s); ok {
			switch name {
			case "ti":
				r.title = value
			case "la", "lang":
				r.language = value
			case "offset":
				offset = lrcOffset(value)
				if offset != 0 {
					r.warn.add(w.line, "[offset] taken as milliseconds by which the words come earlier; players differ on its sign")
				}
			}
			continue
		}
		before := len(r.cues)
		if err := r.lrcLine(s, w.line, offset); err != nil {
			return err
		}
		sung = sung || len(r.cues) > before+1
	}
}

// lrcHeader reads "[ti:words]".
func lrcHeader(s string) (name, value string, ok bool) {
	if !strings.HasPrefix(s, "[") || len(s) < 2 || s[1] >= '0' && s[1] <= '9' {
		return "", "", false
	}
	name, value, ok = strings.Cut(strings.TrimSuffix(strings.TrimSpace(s[1:]), "]"), ":")
	return strings.ToLower(name), strings.TrimSpace(value), ok && strings.IndexByte(name, ' ') < 0
}

func lrcOffset(s string) Time {
	neg := strings.HasPrefix(s, "-")
	s = strings.TrimLeft(s, "+-")
	if !isDigits(s) || len(s) > 8 {
		return 0
	}
	t := Time(number(s)) * Time(time.Millisecond)
	if neg {
		return -t
	}
	return t
}

// lrcLine reads the times at the start of a line and adds a cue for each.
func (r *reading) lrcLine(s string, line int, offset Time) *Error {
	var times []Time
	for {
		t, n := lrcTime(s, '[', ']')
		if n == 0 {
			break
		}
		times = append(times, t)
		s = strings.TrimLeft(s[n:], " \t")
	}
	if len(times) == 0 {
		if len(r.cues) > 0 && !isBlank(s) {
			r.addPiece(piece{text: s, pos: -1, line: line, newline: true})
		}
		return nil
	}
	for i, t := range times {
		if len(times)*len(s) > 1<<20 && i > 0 {
			r.warn.add(line, "too many times on one line; the first is read")
			break
		}
		if err := r.addCue(rawCue{start: max(0, t-offset), line: line}); err != nil {
			return err
		}
		r.lrcWords(s, line, times[0]-t+offset)
	}
	return nil
}

// lrcWords cuts the words of a line at their times, which are shifted earlier by back.
func (r *reading) lrcWords(s string, line int, back Time) {
	p := piece{line: line, pos: -1, newline: true}
	for {
		i := strings.IndexAny(s, "<[")
		var t Time
		n := 0
		for i >= 0 {
			if t, n = lrcTime(s[i:], '<', '>'); n > 0 {
				break
			}
			if t, n = lrcTime(s[i:], '[', ']'); n > 0 {
				break
			}
			next := strings.IndexAny(s[i+1:], "<[")
			if next < 0 {
				i = -1
				break
			}
			i += 1 + next
		}
		if i < 0 {
			p.text = s
			r.addPiece(p)
			return
		}
		if !isBlank(s[:i]) {
			p.text = s[:i]
			r.addPiece(p)
			p.newline = false
		}
		p.at, p.timed, r.tagged, r.lone = max(0, t-back), true, true, true
		s = s[i+n:]
	}
}

// lrcTime reads "[mm:ss.xx]" or "[mm:ss:xx]" and returns its length, 0 for none.
func lrcTime(s string, open, shut byte) (Time, int) {
	if len(s) < 6 || s[0] != open {
		return 0, 0
	}
	end := strings.IndexByte(s[:min(len(s), 20)], shut)
	if end < 0 {
		return 0, 0
	}
	in := []byte(s[1:end])
	if i := strings.LastIndexByte(string(in), ':'); i > 0 && strings.Count(string(in), ":") == 2 && len(in)-i == 3 && strings.IndexByte(string(in), '.') < 0 {
		in[i] = '.'
	}
	t, n, _ := readClock(string(in))
	if n != len(in) {
		return 0, 0
	}
	return t, end + 1
}

// isLRCHead: a header with one of the usual names.
func isLRCHead(s string) bool {
	name, _, ok := lrcHeader(s)
	switch name {
	case "ti", "ar", "al", "au", "by", "offset", "length", "re", "ve", "la":
		return ok
	}
	return false
}

// isLRCRow: a header, or a time with two decimals at the start of a line, where a transcript has none or three.
func isLRCRow(s string) bool {
	if _, _, ok := lrcHeader(s); ok {
		return isLRCHead(s)
	}
	_, n := lrcTime(s, '[', ']')
	if n == 0 {
		return false
	}
	return n > 5 && s[n-4] == '.'
}
