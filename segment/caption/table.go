package caption

import (
	"encoding/csv"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"
)

// A tableColumn says what a column of a table holds.
type tableColumn uint8

const (
	columnOther tableColumn = iota
	columnStart
	columnEnd
	columnLength
	columnText
	columnWord // one word a line
	columnSpeaker
)

// tableColumnOf tells a column by its heading.
func tableColumnOf(heading string) (c tableColumn, millis bool) {
	h := strings.ToLower(strings.Trim(heading, " \t\"'\ufeff"))
	h = strings.NewReplacer("_", " ", "-", " ", "(", " ", ")", " ", "[", " ", "]", " ").Replace(h)
	words := strings.Fields(h)
	for i := 0; i < len(words); i++ {
		switch words[i] {
		case "ms", "millis", "milliseconds", "msec":
			millis = true
		}
	}
	for _, w := range words {
		switch w {
		case "start", "begin", "begins", "in", "from", "timestamp", "starttime", "startms":
			return columnStart, millis || w == "startms"
		case "end", "out", "to", "stop", "ends", "endtime", "endms":
			return columnEnd, millis || w == "endms"
		case "duration", "dur", "length":
			return columnLength, millis
		case "text", "transcript", "caption", "captions", "subtitle", "subtitles", "words", "content", "sentence", "line", "description",
			"utterance", "speech", "dialogue", "message":
			return columnText, millis
		case "word", "token":
			return columnWord, millis
		case "speaker", "name", "voice", "who", "actor", "character":
			return columnSpeaker, millis
		}
	}
	if len(words) == 1 && words[0] == "time" {
		return columnStart, millis
	}
	return columnOther, millis
}

// tableComma returns the sign that parts the columns: the one that parts most headings.
func tableComma(heading string) rune {
	best, most := ',', 0
	for _, c := range [...]rune{',', ';', '\t', '|'} {
		if n := strings.Count(heading, string(c)); n > most {
			best, most = c, n
		}
	}
	return best
}

// isTableHeader: a first line with headings for the text and for a start.
func isTableHeader(s string) bool {
	if len(s) > 1000 || strings.IndexAny(s, ",;\t|") < 0 {
		return false
	}
	found := [columnSpeaker + 1]bool{}
	for _, h := range strings.Split(s, string(tableComma(s))) {
		if len(h) > 40 {
			return false
		}
		c, _ := tableColumnOf(h)
		found[c] = true
	}
	return found[columnStart] && (found[columnText] || found[columnWord])
}

// headedColumns tells the columns of a table whose headings are in no words known here: by the line below them.
func headedColumns(src string) []tableColumn {
	sc := scanRows(src)
	head, _ := sc.next()
	row, ok := sc.next()
	for ok && row.from == row.to {
		row, ok = sc.next()
	}
	h, s := src[head.from:head.to], src[row.from:row.to]
	comma := string(tableComma(s))
	if !ok || strings.ContainsAny(h, "0123456789") || strings.Count(h, comma) == 0 || strings.Count(h, comma) > strings.Count(s, comma) {
		return nil
	}
	return bareColumns(s)
}

// bareColumns tells the columns of a table without headings by its first line: two times, the second not before the first, and a text;
// perhaps a number before them. It returns nil for a line that is no such row.
func bareColumns(s string) []tableColumn {
	if strings.Contains(s, "->") {
		return nil
	}
	cell := strings.SplitN(s, string(tableComma(s)), 5)
	for i := range cell {
		cell[i] = strings.Trim(cell[i], `" `)
	}
	columns := []tableColumn{columnStart, columnEnd, columnText}
	if len(cell) > 3 && isDigits(cell[0]) && isTimePair(cell[1:]) {
		return append([]tableColumn{columnOther}, columns...)
	}
	if len(cell) > 2 && isTimePair(cell) {
		return columns
	}
	return nil
}

// isTimePair reports whether cells begin with two times, one of them with decimals or colons.
func isTimePair(cell []string) bool {
	var t table
	start, ok := t.time(cell[0])
	end, okEnd := t.time(cell[1])
	return ok && okEnd && end >= start && t.decimal
}

// isSeparatorRow: "sep=;", with which some programs begin a table.
func isSeparatorRow(s string) bool { return len(s) == len("sep=;") && strings.EqualFold(s[:4], "sep=") }

// readTable reads a table with a line of headings (start, end or duration, text, perhaps speaker), or without: start, end, text.
func readTable(r *reading) *Error {
	src := strings.TrimLeft(r.src, "\ufeff \t\r\n")
	if first := firstRow(src); isSeparatorRow(first) {
		src = strings.TrimLeft(src[len(first):], "\r\n")
	}
	skipped := strings.Count(r.src[:len(r.src)-len(src)], "\n")
	if strings.IndexByte(src, '\r') >= 0 {
		src = strings.ReplaceAll(strings.ReplaceAll(src, "\r\n", "\n"), "\r", "\n")
	}
	comma := tableComma(firstRow(src))
	if !isTableHeader(firstRow(src)) && headedColumns(src) != nil {
		comma = tableComma(firstRow(strings.TrimLeft(src[len(firstRow(src)):], "\n")))
	}
	src = r.openQuotes(src, comma, skipped)
	c := csv.NewReader(strings.NewReader(src))
	c.Comma = comma
	c.LazyQuotes, c.FieldsPerRecord, c.ReuseRecord = true, -1, true
	t := table{reading: r}
	if t.columns = bareColumns(firstRow(src)); t.columns == nil {
		head, err := c.Read()
		if err != nil {
			return &Error{Line: 1, Msg: "the first line of the table cannot be read: " + err.Error(), Err: ErrNoTimes}
		}
		t.headings(head, src)
	}
	for {
		record, err := c.Read()
		if err == io.EOF {
			break
		}
		line, _ := c.FieldPos(0)
		line += skipped
		if err != nil {
			r.warn.add(line, "line of the table not understood; left out")
			continue
		}
		if e := t.row(record, line); e != nil {
			return e
		}
	}
	t.scale()
	return nil
}

// headings tells the columns by a line of headings, or by the line below it where they are unknown.
func (t *table) headings(head []string, src string) {
	for _, h := range head {
		kind, millis := tableColumnOf(h)
		t.columns = append(t.columns, kind)
		t.millis = t.millis || millis
	}
	hasText := slices.Contains(t.columns, columnText)
	for i, c := range t.columns {
		switch {
		case c != columnWord:
		case hasText:
			t.columns[i] = columnOther
		default:
			t.columns[i], t.byWord = columnText, true
		}
	}
	if slices.Contains(t.columns, columnStart) && slices.Contains(t.columns, columnText) {
		return
	}
	if columns := headedColumns(src); columns != nil {
		t.columns = columns
		t.warn.add(1, "headings of the table unknown; the columns taken as start, end and text")
	}
}

// openQuotes takes the quote out of a field that is opened and not closed before the next line that begins with a time: it would swallow
// the lines below.
func (r *reading) openQuotes(src string, comma rune, skipped int) string {
	if strings.IndexByte(src, '"') < 0 {
		return src
	}
	b := []byte(src)
	opened, line, changed := -1, 0, false // the place of the quote, and its line
	sc := scanRows(src)
	for {
		w, ok := sc.next()
		if !ok {
			break
		}
		s := src[w.from:w.to]
		if opened >= 0 && startsRow(s, comma) {
			b[opened], opened, changed = ' ', -1, true
			r.warn.add(line+skipped, "a quote that is opened and not closed; left out")
		}
		if strings.Count(s, `"`)%2 == 0 {
			continue
		}
		if opened >= 0 {
			opened = -1
			continue
		}
		if i := strings.LastIndex(s, string(comma)+`"`); i >= 0 {
			opened, line = w.from+i+1, w.line
		}
	}
	if !changed {
		return src
	}
	return string(b)
}

// startsRow reports whether a line begins a row of a table: with a time, perhaps behind a number.
func startsRow(s string, comma rune) bool {
	cell := strings.SplitN(s, string(comma), 4)
	var t table
	for i, c := range cell[:min(len(cell), 2)] {
		c = strings.Trim(c, `" `)
		if _, ok := t.time(c); ok && len(cell) > i+1 && (t.decimal || i == 1 || len(cell) > 2) {
			return true
		}
	}
	return false
}

// A table is being read line by line.
type table struct {
	*reading
	columns []tableColumn
	millis  bool // the headings say that times are in ms
	decimal bool // a time with decimals or colons was met, so they are no ms
	frames  bool // the time read last has frames after its seconds
	byWord  bool // every line holds one word
	last    Time // end of the word before, if byWord
}

func (t *table) row(record []string, line int) *Error {
	c := rawCue{line: line}
	p := piece{pos: -1, line: line, newline: true}
	hasStart, hasLength := false, false
	length := Time(0)
	for i, cell := range record {
		if i >= len(t.columns) {
			if t.columns[len(t.columns)-1] == columnText { // a comma inside the text without quotes
				p.text += ", " + cell
			}
			continue
		}
		switch t.columns[i] {
		case columnStart:
			c.start, hasStart = t.time(cell)
		case columnEnd:
			c.end, c.hasEnd = t.time(cell)
		case columnLength:
			length, hasLength = t.time(cell)
		case columnText:
			p.text = strings.Clone(cell)
		case columnSpeaker:
			p.speaker = strings.Clone(strings.TrimSpace(cell))
		}
	}
	if !hasStart {
		if strings.TrimSpace(p.text) != "" {
			t.warn.add(line, "line of the table without a time that can be read; its words belong to the line above")
			if len(t.cues) > 0 {
				t.addPiece(p)
			}
		}
		return nil
	}
	if hasLength && !c.hasEnd {
		c.end, c.hasEnd = c.start+length, true
	}
	if t.frames {
		t.frames = false
		t.warn.add(line, inFrames)
	}
	if t.byWord {
		return t.word(c, p)
	}
	if err := t.addCue(c); err != nil {
		return err
	}
	t.addPiece(p)
	return nil
}

// word adds a word with its time to the last cue, or to a new one behind a silence.
func (t *table) word(c rawCue, p piece) *Error {
	n := len(t.cues)
	if n == 0 || c.start > t.last+t.scaled(wordListSilence) || t.cues[n-1].last-t.cues[n-1].first >= wordListMost {
		if err := t.addCue(c); err != nil {
			return err
		}
		n++
	} else {
		p.text, p.newline = " "+p.text, false
		t.cues[n-1].end, t.cues[n-1].hasEnd = max(c.end, t.cues[n-1].end), c.hasEnd
	}
	p.at, p.until, p.timed, t.tagged = c.start, c.end, true, true
	t.last = max(t.last, c.start, c.end)
	t.addPiece(p)
	return nil
}

// scaled returns a length in the unit of the table's times, as long as they are not yet in seconds.
func (t *table) scaled(d Time) Time {
	if t.millis {
		return d * 1000
	}
	return d
}

// time reads a clock time, or seconds with a decimal point or comma.
func (t *table) time(s string) (Time, bool) {
	s, _ = plainSigns(strings.TrimSpace(s))
	if strings.IndexByte(s, ':') >= 0 {
		t.decimal = true
		at, n, fault := readClock(s)
		t.frames = t.frames || fault&clockFrames != 0
		return at, n > 0 && fault&clockTooLate == 0
	}
	s = strings.TrimSuffix(s, "s")
	if !isDigits(s) {
		t.decimal = true
	}
	v, err := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
	if err != nil || !(v >= 0 && v < 1e9) {
		return 0, false
	}
	return Time(float64(v*1e4)+0.5) * Time(100*time.Microsecond), true
}

// tooSlow reports whether words take longer to say than anybody takes, so that their times cannot be seconds.
func tooSlow(length Time, words int) bool {
	const most = Time(100 * time.Second) // a word; ten words a second in ms
	return words > 0 && length >= most*Time(words)
}

// tenHours is the latest time in s that whole numbers without a unit can mean.
const (
	tenHours    = 36_000
	wholeMillis = "times are whole numbers, the last beyond ten hours; taken as milliseconds"
	slowMillis  = "times are whole numbers, and in seconds the words would take minutes each; taken as milliseconds"
)

// scale divides the times by 1,000 where they are ms: because a heading says so, or because all are whole numbers and the last
// would be beyond ten hours.
func (t *table) scale() {
	latest, length := Time(0), Time(0)
	words := 0
	for _, c := range t.cues {
		latest = max(latest, c.start)
		if c.hasEnd {
			length += c.end - c.start
			for _, p := range t.pieces[c.first:c.last] {
				words += wordCount(p.text)
			}
		}
	}
	switch {
	case t.millis:
	case t.decimal:
		return
	case latest > tenHours*Time(time.Second):
		t.warn.add(0, wholeMillis)
	case tooSlow(length, words):
		t.warn.add(0, slowMillis)
	default:
		return
	}
	for i := range t.cues {
		t.cues[i].start /= 1000
		t.cues[i].end /= 1000
	}
	for i := range t.pieces {
		t.pieces[i].at /= 1000
		t.pieces[i].until /= 1000
	}
}
