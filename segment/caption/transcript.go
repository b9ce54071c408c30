package caption

import (
	"sort"
	"strconv"
	"strings"
	"time"
)

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
		return &Error{Msg: "no times found; looked for caption cues (00:00:01.000 --> 00:00:04.000) and for a transcript with times such as [0:47] at the start of its lines", Err: ErrNoTimes}
	}
	r.blocks = true
	if t.after {
		return t.blocksBefore()
	}
	return t.blocksAfter()
}

// sureOfOne: a single time is believed in brackets on the first line.
func (t *transcript) sureOfOne() bool {
	for _, w := range t.rows {
		if w.taken != nil {
			return w.taken.shape == leadSquare || w.taken.shape == leadRound && w.line <= 3
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
	if t.inline() {
		t.split()
	}
	t.dropCutTime()
	t.nameRows()
}

func (t *transcript) add(w row) {
	tr := transcriptRow{row: w}
	s := t.src[w.from:w.to]
	if st, ok := leadingStamp(s); ok {
		tr.lead = st
	}
	if !tr.lead.lone {
		if st, ok := trailingStamp(s); ok {
			tr.trail = st
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

// inline reports whether times in square brackets stand inside the lines, more often than at their ends.
func (t *transcript) inline() bool {
	ends, inside := 0, 0
	for _, w := range t.rows {
		if w.lead.shape == leadSquare || w.trail.shape == trailSquare {
			ends++
		}
		for s := t.src[w.from:w.to]; ; {
			n := nextBracket(s)
			if n < 0 {
				break
			}
			inside++
			s = s[n+1:]
		}
	}
	return inside >= 2 && inside >= 2*ends
}

// nextBracket returns the place of the next time in square brackets, -1 for none.
func nextBracket(s string) int {
	for from := 0; ; {
		i := strings.IndexByte(s[from:], '[')
		if i < 0 {
			return -1
		}
		from += i
		var st stamp
		if st.bracketed(s[from:min(len(s), from+40)]) > 0 {
			return from
		}
		from++
	}
}

// split cuts the lines before each time in square brackets.
func (t *transcript) split() {
	rows := t.rows
	t.rows = nil
	for _, w := range rows {
		from := w.from
		for from < w.to {
			n := nextBracket(t.src[from+1 : w.to])
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

// choose decides which of the times count.
func (t *transcript) choose() {
	var count [stampShapes]int
	total := 0
	for _, w := range t.rows {
		if w.lead.shape != noStamp {
			count[w.lead.shape]++
		}
		if w.trail.shape != noStamp {
			count[w.trail.shape]++
		}
		if w.lead.shape != noStamp || w.trail.shape != noStamp {
			total++
		}
	}
	winner := noStamp
	for s := leadSquare; s < stampShapes; s++ {
		if count[s] > count[winner] {
			winner = s
		}
	}
	if winner == noStamp {
		return
	}
	t.takeRising(winner)
	if count[winner]*2 <= total {
		t.takeOthers()
	}
	t.after = t.timesAfter(winner)
}

// of returns the stamp of a row in the given shape.
func (w *transcriptRow) of(shape stampShape) *stamp {
	switch shape {
	case w.lead.shape:
		return &w.lead
	case w.trail.shape:
		return &w.trail
	}
	return nil
}

// takeRising takes the longest series of times in the winning shape that never goes back; of two such, that which goes on the
// earliest.
func (t *transcript) takeRising(shape stampShape) {
	var rows []int // with a stamp of this shape
	for i := range t.rows {
		if t.rows[i].of(shape) != nil {
			rows = append(rows, i)
		}
	}
	at := func(k int) Time { return t.rows[rows[k]].of(shape).at }
	length := make([]int, len(rows)) // of the longest series from here on
	var heads []Time                 // heads[n-1] is the latest time from which a series of n can begin
	for k := len(rows) - 1; k >= 0; k-- {
		n := sort.Search(len(heads), func(j int) bool { return heads[j] < at(k) })
		length[k] = n + 1
		if n == len(heads) {
			heads = append(heads, at(k))
		} else {
			heads[n] = at(k)
		}
	}
	left, last := len(heads), Time(0)
	for k, i := range rows {
		w := &t.rows[i]
		switch {
		case length[k] == left && at(k) >= last:
			w.taken, last = w.of(shape), at(k)
			left--
		case w.lead.lone && w.to == len(t.src):
			t.rows = t.rows[:i] // cut off
			t.warn.add(w.line, cutFile)
		default:
			t.warn.add(w.line, "a time that goes back; left among the words")
		}
	}
}

// takeOthers takes times in other shapes where they lie between those already taken.
func (t *transcript) takeOthers() {
	next := make([]Time, len(t.rows)+1)
	next[len(t.rows)] = maxClock
	for i := len(t.rows) - 1; i >= 0; i-- {
		next[i] = next[i+1]
		if st := t.rows[i].taken; st != nil {
			next[i] = st.at
		}
	}
	last := Time(0)
	for i := range t.rows {
		w := &t.rows[i]
		for _, st := range []*stamp{&w.lead, &w.trail} {
			if w.taken == nil && st.shape != noStamp && st.shape != trailBare && st.shape != leadGlued && st.at >= last && st.at <= next[i+1] {
				w.taken = st
			}
		}
		if w.taken != nil {
			last = w.taken.at
		}
	}
}

// timesAfter reports whether the times stand at the end of their blocks: words come before the first time, which is not near
// zero, and the last line has one too.
func (t *transcript) timesAfter(winner stampShape) bool {
	trailing := winner == trailRound || winner == trailSquare || winner == trailBare
	first := -1
	for i, w := range t.rows {
		if w.taken == nil {
			continue
		}
		if first < 0 {
			first = i
		}
		if !trailing && (!w.taken.lone || winner == nameAlone) {
			return false
		}
	}
	if first < 0 || t.rows[first].taken.at <= Time(3*time.Second) || t.rows[len(t.rows)-1].taken == nil {
		return false
	}
	return first > 0 || trailing
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
	if strings.ContainsAny(s, ":[(") && strings.Trim(s, "0123456789:.,[( -–") == "" {
		t.rows = t.rows[:n]
		t.warn.add(t.rows[n-1].line, cutFile)
		return
	}
	if i := strings.LastIndexAny(s, "[("); i > 0 && strings.Trim(s[i+1:], "0123456789:., -–") == "" {
		t.rows[n].to = t.rows[n].from + i
		t.warn.add(t.rows[n].line, cutFile)
	}
}

// isCutLabel reports whether s is the beginning of a time as it is spoken.
func isCutLabel(s string, at Time) bool {
	n := int(at / Time(time.Second))
	var parts []string
	for _, u := range [...]struct {
		n    int
		name string
	}{{n / 3600, "hour"}, {n / 60 % 60, "minute"}, {n % 60, "second"}} {
		switch {
		case u.n == 1:
			parts = append(parts, "1 "+u.name)
		case u.n > 1:
			parts = append(parts, strconv.Itoa(u.n)+" "+u.name+"s")
		}
	}
	return strings.Contains(s, " ") && strings.HasPrefix(strings.Join(parts, ", "), s)
}

// spokenClock reads "1 minute, 5 seconds", -1 for something else.
func spokenClock(s string) Time {
	var total Time
	field := strings.Fields(strings.ReplaceAll(s, ",", " "))
	if len(field) == 0 || len(field) > 6 || len(field)%2 != 0 {
		return -1
	}
	for i := 0; i < len(field); i += 2 {
		if !isDigits(field[i]) || len(field[i]) > 4 {
			return -1
		}
		n := Time(number(field[i]))
		switch strings.TrimSuffix(field[i+1], "s") {
		case "hour":
			total += n * Time(time.Hour)
		case "minute":
			total += n * Time(time.Minute)
		case "second":
			total += n * Time(time.Second)
		default:
			return -1
		}
	}
	return total
}
