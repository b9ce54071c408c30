package caption

import "strings"

// A transcriptRow is one line of a transcript with the times that stand at its two ends.
type transcriptRow struct {
	row
	lead, trail stamp
	taken       *stamp // the one that counts, nil for none
}

// A transcript is text with a time here and there, as it is copied from a page.
type transcript struct {
	*reading
	rows    []transcriptRow
	after   bool   // times stand at the end of their block
	speaker string // named beside the time of the block at hand
}

// readTranscript reads such a text. The shape in which most times are written rules; a time in another shape or at another place
// stays among the words ("rest for 1:30"), unless no shape rules.
func readTranscript(r *reading) *Error {
	t := transcript{reading: r}
	t.scan()
	t.choose()
	taken := 0
	for i := range t.rows {
		if t.rows[i].taken != nil {
			taken++
		}
	}
	if taken == 0 || taken == 1 && !t.sureOfOne() {
		return &Error{Msg: "no times found; captions have lines such as 00:00:01.000 --> 00:00:04.000, and a transcript has times such as [0:47] at the start of its lines", Err: ErrNoTimes}
	}
	r.blocks = true
	if t.after {
		return t.blocksBefore()
	}
	return t.blocksAfter()
}

// sureOfOne: a single time is believed in brackets on the first line.
func (t *transcript) sureOfOne() bool {
	for i, w := range t.rows {
		if w.taken != nil {
			return w.taken.shape == leadSquare || w.taken.shape == leadRound && i < 3
		}
	}
	return false
}

// scan cuts the text into lines and finds the times at their ends.
func (t *transcript) scan() {
	sc := scanRows(t.src)
	for {
		w, ok := sc.next()
		if !ok {
			break
		}
		s := t.src[w.from:w.to]
		if isBlank(s) {
			continue
		}
		if total, ok := playerClock(s); ok {
			t.end = total
			continue
		}
		t.add(w)
	}
	for _, open := range [...]byte{'[', '('} {
		if t.inline(open) {
			t.split(open)
			break
		}
	}
	t.dropCutTime()
	t.nameRows()
	t.dropNumbers()
}

// dropNumbers leaves out the numbers of the blocks: every time that stands alone has its own number, from 1 on, on the line above it, and
// there are words below each.
func (t *transcript) dropNumbers() {
	blocks, words := 0, 1
	for i, w := range t.rows {
		switch {
		case w.lead.lone:
			if words == 0 || i == 0 || t.rows[i-1].lead.lone {
				return
			}
			words = 0
		case t.aboveTime(i):
			s, _ := plainSigns(strings.Trim(t.src[w.from:w.to], " \t>"))
			if blocks++; !isDigits(s) || number(s) != blocks || blocks > 1 && words == 0 {
				return
			}
		default:
			words++
		}
	}
	if blocks < 2 || words == 0 {
		return
	}
	kept := t.rows[:0]
	for i, w := range t.rows {
		if w.lead.lone || !t.aboveTime(i) {
			kept = append(kept, w)
		}
	}
	t.rows = kept
}

// aboveTime reports whether a time stands alone on the line below row i.
func (t *transcript) aboveTime(i int) bool { return i+1 < len(t.rows) && t.rows[i+1].lead.lone }

func (t *transcript) add(w row) {
	tr := transcriptRow{row: w}
	s := t.src[w.from:w.to]
	plain, changed := plainSigns(s)
	if st, ok := leadingStamp(plain); ok {
		tr.lead = st
	}
	if !tr.lead.lone {
		if st, ok := trailingStamp(plain); ok {
			tr.trail = st
		}
	}
	if changed {
		for _, st := range []*stamp{&tr.lead, &tr.trail} {
			st.from, st.to = placeIn(s, plain, st.from), placeIn(s, plain, st.to)
		}
	}
	t.rows = append(t.rows, tr)
}

// playerClock reads "0:00 / 12:30", the clock of a player that was copied with the page; its right side is the whole length.
func playerClock(s string) (Time, bool) {
	s = strings.TrimSpace(s)
	_, n, _ := transcriptClock(s)
	if n == 0 {
		return 0, false
	}
	rest, ok := strings.CutPrefix(trimFront(s[n:]), "/")
	if !ok {
		return 0, false
	}
	rest = trimFront(rest)
	total, n, _ := transcriptClock(rest)
	return total, n > 0 && n == len(rest)
}

// inline reports whether times in the given brackets stand inside the lines: twice as often as at their ends, or never going back.
func (t *transcript) inline(open byte) bool {
	ends, inside := 0, 0
	rising, last := true, Time(0)
	for _, w := range t.rows {
		switch {
		case w.lead.shape == leadName, w.lead.shape == nameAlone,
			open == '[' && (w.lead.shape == leadSquare || w.trail.shape == trailSquare),
			open == '(' && (w.lead.shape == leadRound || w.trail.shape == trailRound):
			ends++
		}
		for s := t.src[w.from:w.to]; ; {
			n, at := nextBracket(s, open)
			if n < 0 {
				break
			}
			inside++
			rising, last = rising && at >= last, at
			s = s[n+1:]
		}
	}
	return inside >= 2 && (inside >= 2*ends && open == '[' || inside > ends && rising)
}

// nextBracket returns the place of the next time in the given brackets, -1 for none.
func nextBracket(s string, open byte) (int, Time) {
	for from := 0; ; {
		i := strings.IndexByte(s[from:], open)
		if i < 0 {
			return -1, 0
		}
		from += i
		var st stamp
		if st.bracketed(s[from:min(len(s), from+40)]) > 0 {
			return from, st.at
		}
		from++
	}
}

// split cuts the lines before each time in the given brackets.
func (t *transcript) split(open byte) {
	rows := t.rows
	t.rows = nil
	for _, w := range rows {
		from := w.from
		for from < w.to {
			n, _ := nextBracket(t.src[from+1:w.to], open)
			to := w.to
			if n >= 0 {
				to = from + 1 + n
			}
			if !isBlank(t.src[from:to]) {
				t.add(row{from: from, to: to, line: w.line})
			}
			from = to
		}
	}
}

// nameRows finds lines that hold the speaker's name and a time ("Coach 0:25"), with the words below: names come again.
func (t *transcript) nameRows() {
	lines := map[string]int{}
	total := 0
	for _, w := range t.rows {
		if name := t.nameBeforeTime(w); name != "" {
			lines[name]++
			total++
		}
	}
	if total < 2 || len(lines) == total {
		return
	}
	for i := range t.rows {
		w := &t.rows[i]
		if name := t.nameBeforeTime(*w); name != "" {
			w.lead = w.trail
			w.lead.shape, w.lead.speaker = nameAlone, name
			w.lead.from, w.lead.to, w.lead.lone = 0, 0, true
			w.trail = stamp{}
		}
	}
}

func (t *transcript) nameBeforeTime(w transcriptRow) string {
	if w.trail.shape == noStamp || w.lead.shape != noStamp {
		return ""
	}
	name := strings.Trim(t.src[w.from:w.from+w.trail.to], " \t:-–*")
	if !isName(name) || strings.ContainsAny(name, ".") {
		return ""
	}
	return name
}

// blocksAfter makes the blocks of a transcript whose times stand before their words.
func (t *transcript) blocksAfter() *Error {
	var heading []string
	label := Time(-1) // a time alone on the line before
	for i := range t.rows {
		w := &t.rows[i]
		s := t.src[w.from:w.to]
		from, to, speaker := w.from, w.to, ""
		if st := w.taken; st != nil {
			if err := t.addCue(rawCue{start: st.at, end: st.end, hasEnd: st.hasEnd, line: w.line, floored: !st.fraction}); err != nil {
				return err
			}
			if st.frames {
				t.warn.add(w.line, inFrames)
			}
			from, to, speaker = w.from+st.from, w.from+st.to, st.speaker
			label = -1
			t.speaker = speaker
			if st.lone {
				label = st.at
				continue
			}
		} else if len(t.cues) == 0 {
			heading = append(heading, strings.TrimSpace(s))
			continue
		} else if label >= 0 && (spokenClock(s) == label || w.to == len(t.src) && isCutLabel(s, label)) {
			label = -1 // it is the time once more, for screen readers
			continue
		}
		label = -1
		t.addPiece(piece{text: t.src[from:to], pos: from, line: w.line, newline: true, speaker: t.speaker})
	}
	t.heading(heading)
	return nil
}

// heading keeps what stands before the first time as a title.
func (t *transcript) heading(rows []string) {
	var title []string
	for _, s := range rows {
		if l := strings.ToLower(s); l != "transcript" && l != "show transcript" && l != "captions" {
			title = append(title, s)
		}
	}
	t.title = strings.Join(title, ", ")
	if len(t.title) > 200 {
		t.warn.add(1, "text before the first time taken for a heading, not for words")
	}
}

// blocksBefore makes the blocks of a transcript whose times stand after their words: a block runs from the time before to its own.
func (t *transcript) blocksBefore() *Error {
	t.warn.add(t.rows[0].line, "times stand after their words; taken as the ends of the blocks")
	start := Time(0)
	open := false
	for i := range t.rows {
		w := &t.rows[i]
		if !open {
			if err := t.addCue(rawCue{start: start, line: w.line, floored: true}); err != nil {
				return err
			}
			open = true
		}
		from, to := w.from, w.to
		if st := w.taken; st != nil {
			from, to = w.from+st.from, w.from+st.to
			start = st.at
			c := &t.cues[len(t.cues)-1]
			c.end, c.hasEnd = st.at, true
			open = false
			if st.lone {
				continue
			}
		}
		t.addPiece(piece{text: t.src[from:to], pos: from, line: w.line, newline: true})
	}
	return nil
}

// dropCutTime drops the last line of a file that was cut off inside a time.
func (t *transcript) dropCutTime() {
	n := len(t.rows) - 1
	if n < 1 || t.rows[n].to != len(t.src) || t.rows[n].lead.shape != noStamp {
		return
	}
	s := t.src[t.rows[n].from:t.rows[n].to]
	if strings.ContainsAny(s, ":[(") && strings.Trim(s, "0123456789:;.,[( -–") == "" {
		t.rows = t.rows[:n]
		t.warn.add(t.rows[n-1].line, cutFile)
		return
	}
	if i := strings.LastIndexAny(s, "[("); i > 0 && strings.Trim(s[i+1:], "0123456789:;., -–") == "" {
		t.rows[n].to = t.rows[n].from + i
		t.warn.add(t.rows[n].line, cutFile)
	}
}
