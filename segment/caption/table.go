package caption

import (
	"encoding/csv"
	"io"
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
		case "text", "transcript", "caption", "captions", "subtitle", "subtitles", "words", "content", "sentence", "line":
			return columnText, millis
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
	return found[columnStart] && found[columnText]
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
	c := csv.NewReader(strings.NewReader(src))
	c.Comma = tableComma(firstRow(src))
	c.LazyQuotes, c.FieldsPerRecord, c.ReuseRecord = true, -1, true
	t := table{reading: r}
	if t.columns = bareColumns(firstRow(src)); t.columns == nil {
		head, err := c.Read()
		if err != nil {
			return &Error{Line: 1, Msg: "first line of the table not understood: " + err.Error(), Err: ErrNoTimes}
		}
		for _, h := range head {
			kind, millis := tableColumnOf(h)
			t.columns = append(t.columns, kind)
			t.millis = t.millis || millis
		}
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

// A table is being read line by line.
type table struct {
	*reading
	columns []tableColumn
	millis  bool // the headings say that times are in ms
	decimal bool // a time with decimals or colons was met, so they are no ms
}

func (t *table) row(record []string, line int) *Error {
	c := rawCue{line: line}
	p := piece{pos: -1, line: line, newline: true}
	hasStart := false
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
			if d, ok := t.time(cell); ok {
				c.end, c.hasEnd = c.start+d, true
			}
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
	if err := t.addCue(c); err != nil {
		return err
	}
	t.addPiece(p)
	return nil
}

// time reads a clock time, or seconds with a decimal point or comma.
func (t *table) time(s string) (Time, bool) {
	s, _ = plainSigns(strings.TrimSpace(s))
	if strings.IndexByte(s, ':') >= 0 {
		t.decimal = true
		at, n, fault := readClock(s)
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

// tenHours is the latest time in s that whole numbers without a unit can mean.
const (
	tenHours    = 36_000
	wholeMillis = "times are whole numbers, the last beyond ten hours; taken as milliseconds"
)

// scale divides the times by 1,000 where they are ms: because a heading says so, or because all are whole numbers and the last
// would be beyond ten hours.
func (t *table) scale() {
	latest := Time(0)
	for _, c := range t.cues {
		latest = max(latest, c.start)
	}
	if !t.millis {
		if t.decimal || latest <= tenHours*Time(time.Second) {
			return
		}
		t.warn.add(0, wholeMillis)
	}
	for i := range t.cues {
		t.cues[i].start /= 1000
		t.cues[i].end /= 1000
	}
}
