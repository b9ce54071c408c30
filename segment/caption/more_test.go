package caption

import (
	"bytes"
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/asticode/go-astisub"
)

// more holds further inputs of the kinds in testdata/nasty, mixed and varied; columns as there, the content in place of the file.
var more = []struct {
	name, content          string
	format, timing         string
	words, events, warning string
}{
	{"VTT: names, comments, a second cue without a blank line, words after an empty line, unknown tags",
		"WEBVTT\n\nNOTE intro\n00:00:01.000 --> 00:00:02.000\none\n\nNOTE\na comment --> here\nmore\n\nchapter two\n00:00:03.000 --> 00:00:04.000 align:start\ntwo\nthree\n00:00:05.000 --> 00:00:06.000\nfour\n\nfive after\n\n00:07.000 --> 00:08.000\n<foo>six</foo> <c.red>seven</c> <lang en>eight</lang>\n",
		"webvtt", "cue", "one@1 two@3 three four@5 five after six@7 seven eight", "", "18 empty line inside a cue"},
	{"SubRip: no blank lines, words that are numbers, a number missing, a number on the line of the time",
		"1\n00:00:01,000 --> 00:00:02,000\none\n2\n00:00:02,000 --> 00:00:03,000\n2\n3\n00:00:03,000 --> 00:00:04,000\n4\n00:00:04,000 --> 00:00:05,000\n4\n\n5 00:00:06,000 --> 00:00:07,000\nfive\n",
		"subrip", "cue", "one@1 2@2 4@3 4@4 five@6", "", ""},
	{"SubRip: words on the line of the time, a line break as a tag, braces",
		"1\n00:00:01,000 --> 00:00:02,000 and one\ntwo<br>three {\\i1}four{\\i0}\n",
		"subrip", "cue", "and@1 one two three four", "", "2 words on the line of the time"},
	{"SubRip: coordinates are no words",
		"1\n00:00:01,000 --> 00:00:02,000 X1:1 X2:2 Y1:3 Y2:4\none\n", "subrip", "cue", "one@1", "", ""},
	{"SubRip: text before the first number",
		"Chair strength\n\n1\n00:00:01,000 --> 00:00:02,000\none\n", "subrip", "cue", "one@1", "", "1 text before the first cue"},
	{"SubRip: numbers written for the words, with a cut index and a cut time at the end",
		"1\n00:00:01,000 --> 00:00:02,000\n1\n\n2\n00:00:02,000 --> 00:00:03,000\n2\n\n3\n00:0", "subrip", "cue", "1@1 2@2", "", "9 ends in the middle of a cue"},
	{"two files joined",
		"WEBVTT\n\n00:01.000 --> 00:02.000\none\n\nWEBVTT\nKind: captions\n\n00:03.000 --> 00:04.000\ntwo\n", "webvtt", "cue", "one@1 two@3", "", ""},
	{"VTT: numbers glued by times are two words, syllables one",
		"WEBVTT\n\n00:01.000 --> 00:05.000\n1<00:02.000>2 fif<00:03.000>teen<00:04.000> go\n", "webvtt", "word", "1@1 2@2 fifteen go@4", "", ""},
	{"VTT: a line with one word underlined in each cue",
		"WEBVTT\n\n00:01.000 --> 00:02.000\n<u>one</u> two three\n\n00:02.000 --> 00:03.000\none <u>two</u> three\n\n00:03.000 --> 00:04.000\none two <u>three</u>\n",
		"webvtt", "word", "one@1 two@2 three@3", "", ""},
	{"SubRip: a growing line, and a true repeat",
		"1\n00:00:01,000 --> 00:00:02,000\nand\n\n2\n00:00:02,000 --> 00:00:03,000\nand one\n\n3\n00:00:03,000 --> 00:00:04,000\nand one two\n\n4\n00:00:04,000 --> 00:00:05,000\nthree\n\n5\n00:00:05,000 --> 00:00:06,000\nthree\n\n6\n00:00:06,000 --> 00:00:07,000\nthree four\n",
		"subrip", "cue", "and@1 one@2 two@3 three@4 three@5 four@6", "", ""},
	{"captions in capitals with a speaker, a heading and a censored word",
		"1\n00:00:01,000 --> 00:00:03,000\nCOACH: READY? SET TWO: NOW [ __ ] GO\n", "subrip", "cue", "READY@1/COACH SET/COACH TWO/COACH NOW/COACH [/COACH", "", ""},
	{"a song over three cues, and a count after it",
		"1\n00:00:01,000 --> 00:00:02,000\n♪ la one\n\n2\n00:00:02,000 --> 00:00:03,000\ntwo three\n\n3\n00:00:03,000 --> 00:00:04,000\nla ♪ four\n\n4\n00:00:04,000 --> 00:00:05,000\n# la la #\n[LAUGHTER] five (left side) six\n",
		"subrip", "cue", "four@3 five@4 left side six", "♪ la one|two three|la ♪|# la la #|[LAUGHTER]", ""},
	{"a song without an end ends with its cue",
		"1\n00:00:01,000 --> 00:00:02,000\n♪ la one\n\n2\n00:00:02,000 --> 00:00:03,000\n♪ la two ♪\n\n3\n00:00:03,000 --> 00:00:04,000\nthree\n",
		"subrip", "cue", "three@3", "♪ la one|♪ la two ♪", ""},
	{"labels on many lines, and text with a colon",
		"1\n00:00:01,000 --> 00:00:02,000\nMara: one\n\n2\n00:00:02,000 --> 00:00:03,000\nMara: two\n\n3\n00:00:03,000 --> 00:00:04,000\nMara: three\nSet 2: four at 10:30\n",
		"subrip", "cue", "one@1/Mara two@2/Mara three@3/Mara Set/Mara 2/Mara four/Mara at/Mara 10:30/Mara", "", ""},
	{"headings are no speakers, nor a lone label among capitals",
		"1\n00:00:01,000 --> 00:00:02,000\nNOTE: ONE\n\n2\n00:00:02,500 --> 00:00:03,000\nREADY: TWO\n", "subrip", "cue", "NOTE@1 ONE READY@2.5 TWO", "", ""},
	{"the same words in a beat are no loop", "[0:10] and up\n[0:12] and up\n[0:14] and up\n[0:16] rest\n", "transcript", "cue",
		"and@10.5 up and@12.5 up and@14.5 up rest@16.5", "", ""},
	{"three lines roll up, and the last is said twice",
		"1\n00:00:01,000 --> 00:00:03,000\none two\n\n2\n00:00:03,000 --> 00:00:05,000\none two\nthree four\n\n3\n00:00:05,000 --> 00:00:07,000\none two\nthree four\nfive six\n\n4\n00:00:07,000 --> 00:00:09,000\nthree four\nfive six\nseven\n\n5\n00:00:09,000 --> 00:00:11,000\nfive six\nseven\nseven\n",
		"subrip", "cue", "one@1 two three@3 four five@5 six seven@7 seven@9", "", ""},
	{"roll-up: a carried line after a silence, lines of one word, the same word twice",
		"WEBVTT\n\n00:10.000 --> 00:12.000\n \nand<00:00:10.500><c> one</c>\n\n00:12.000 --> 00:12.010\nand one\n \n\n00:20.000 --> 00:22.000\nand one\ntwo\n\n00:22.000 --> 00:22.010\ntwo\n \n\n00:22.010 --> 00:25.000\ntwo\ntwo\n\n00:25.000 --> 00:25.010\ntwo\n \n",
		"webvtt", "word", "and@10 one@10.5 two@20 two@22.01", "", ""},
	{"SubRip: counting down with empty lines inside the cues",
		"1\n00:00:01,000 --> 00:00:02,000\nten\n\n9\n\n2\n00:00:02,000 --> 00:00:03,000\n8\n\n7\n\n3\n00:00:03,000 --> 00:00:04,000\nsix\n",
		"subrip", "cue", "ten@1 9 8@2 7 six@3", "", "5 empty line inside a cue"},
	{"VTT: cues named by number, whose words are the same numbers",
		"WEBVTT\n\n1\n00:01.000 --> 00:02.000\n1\n\n2\n00:02.000 --> 00:03.000\n2\n\n3\n00:03.000 --> 00:04.000\n3\n", "webvtt", "cue", "1@1 2@2 3@3", "", ""},
	{"JSON: elements with marks of their own",
		`{"monologues":[{"speaker":0,"elements":[{"type":"text","value":"One","ts":1.0,"end_ts":1.4},{"type":"punct","value":", "},{"type":"text","value":"two","ts":2.0,"end_ts":2.4}]}]}`,
		"json", "word", "One@1/0 two@2/0", "", ""},
	{"lists and joined numbers",
		"1\n00:00:01,000 --> 00:00:05,000\n1,2,3 3-2-1 10:30 1.5 1,500 twenty-one sit-to-stand one,two one-two-three 4/5 six…seven 1.2.3 e.g. don't\n",
		"subrip", "cue", "1@1 2 3 3 2 1 10:30 1.5 1,500 twenty-one sit-to-stand one two one two three 4 5 six seven 1 2 3 e.g don't", "", ""},
	{"transcript: a name and a time, words below",
		"Coach  0:05\nready and one\ntwo\n\nHelper  0:09\nme too\n\nCoach  0:15\nthree four\n",
		"transcript", "cue", "ready@5.5/Coach and/Coach one/Coach two/Coach me@9.5/Helper too/Helper three@15.5/Coach four/Coach", "", ""},
	{"transcript on one line",
		"[0:01] one two [0:05] three four [0:09] five six seven [0:20] eight\n", "transcript", "cue", "one@1.5 two three@5.5 four five@9.5 six seven eight@20.5", "", ""},
	{"transcript: times glued to the words", "0:00one\n0:05two\n0:09three\n", "transcript", "cue", "one@0.5 two@5.5 three@9.5", "", ""},
	{"transcript: times alone below their words",
		"one two three\n0:12\nfour five six\n0:31\nseven\n0:45\n", "transcript", "block", "one@0.5 two three four@12.5 five six seven@31.5", "", "1 stand after"},
	{"transcript: a day time and a time going back",
		"0:01 one\n9:30 am is when we meet\n0:10 two\n0:05 to go\n0:20 three\n", "transcript", "block",
		"one@1.5 9:30 am is when we meet two@10.5 0:05 to go three@20.5", "", "4 a time that goes back"},
	{"transcript beyond an hour", "[58:10] one\n[59:59] two\n[1:00:20] three\n", "transcript", "block", "one@3490.5 two@3599.5 three@3620.5", "", ""},
	{"JSON: events with offsets",
		`{"events":[{"tStartMs":1000,"dDurationMs":3000,"segs":[{"utf8":"one"},{"utf8":" two","tOffsetMs":500},{"utf8":"\n"}]},{"tStartMs":4000,"dDurationMs":2000,"segs":[{"utf8":"three"}]}]}`,
		"json", "word", "one@1 two@1.5 three@4", "", ""},
	{"JSON: a list of words, one without a time",
		`[{"word":"one","start":1.0,"end":1.2},{"word":"two","start":2.0,"end":2.2},{"word":"3"},{"word":"four","start":4.0,"end":4.2}]`,
		"json", "word", "one@1 two@2 3 four@4", "", "1 word without a time"},
	{"JSON: alternatives with times as text",
		`{"results":[{"alternatives":[{"transcript":"one two","words":[{"word":"one","startTime":"1.2s","endTime":"1.5s"},{"word":"two","startTime":"2.2s"}]}]},{"alternatives":[{"transcript":"three","words":[{"word":"three","startTime":"4s"}]}]}]}`,
		"json", "word", "one@1.2 two@2.2 three@4", "", ""},
	{"JSON: clock texts and offsets in ms",
		`{"transcription":[{"timestamps":{"from":"00:00:01,000","to":"00:00:02,000"},"offsets":{"from":1000,"to":2000},"text":" one two"},{"offsets":{"from":2000,"to":4000},"text":" three"}]}`,
		"json", "cue", "one@1 two three@2", "", ""},
	{"JSON: one object a line, doubts", `{"result":[{"conf":1.0,"end":1.5,"start":1.0,"word":"one"}],"text":"one"}` + "\n" + `{"result":[{"conf":0.5,"end":3.5,"start":3.0,"word":"two"}],"text":"two"}`,
		"json", "word", "one@1 two@3", "", ""},
	{"JSON: more text than timed words", `{"segments":[{"start":1,"end":4,"text":" one 2 three","words":[{"word":" one","start":1,"end":1.5}]}]}`,
		"json", "cue", "one@1 2 three", "", ""},
	{"JSON cut in the middle", `{"segments":[{"start":1,"end":2,"text":"one"},{"start":3,"end":4,"text":"two"},{"sta`, "json", "cue", "one@1 two@3", "", "0 broken JSON"},
	{"table: ms by heading", "start_ms,end_ms,text\n1000,2000,one\n2000,3000,\"two, three\"\n", "table", "cue", "one@1 two@2 three", "", ""},
	{"table: whole numbers beyond ten hours are ms", "start,end,text\n1000,2000,one\n60000,61000,two\n", "table", "cue", "one@1 two@60", "", "0 taken as milliseconds"},
	{"table: tabs and lengths", "Start\tDuration\tText\n0:01\t2\tone\n0:05\t2\ttwo\n", "table", "cue", "one@1 two@5", "", ""},
	{"table without headings, in seconds with tabs", "1.000000\t2.500000\tone\n3.000000\t4.000000\ttwo\n", "table", "cue", "one@1 two@3", "", ""},
	{"table without headings, commas in the text", "0:01,0:03,one, two\n0:05,0:07,three\n", "table", "cue", "one@1 two three@5", "", ""},
	{"SubRip: blanks in the times", "1\n00: 00: 01, 000 --> 00: 00: 02, 500\none: two\n", "subrip", "cue", "one@1 two", "", ""},
	{"JSON: not a number", `{"segments":[{"start":1,"end":2,"text":"one NaN"},{"start":NaN,"end":Infinity,"text":"two"},{"start":4,"end":5,"text":"three"}]}`,
		"json", "cue", "one@1 NaN two three@4", "", "1 segment without a time"},
	{"an accent written apart", "1\n00:00:01,000 --> 00:00:02,000\ncafe\u0301 one\n", "subrip", "cue", "cafe\u0301@1 one", "", ""},
	{"plain timed XML", `<?xml version="1.0"?><transcript><text start="1.2" dur="2.5">one &amp;#39;two&amp;#39;</text><text start="5" dur="1">three</text></transcript>`,
		"ttml", "cue", "one@1.2 two three@5", "", ""},
	{"timed XML in ms", `<timedtext format="3"><body><p t="1000" d="3000"><s>one</s><s t="500"> two</s></p><p t="4000" d="1000">three</p></body></timedtext>`,
		"ttml", "", "one@1 two@1.5 three@4", "", ""},
	{"TTML: agents, spans that alone give times, references",
		`<tt xmlns="http://www.w3.org/ns/ttml"><head><metadata><ttm:agent xml:id="a"><ttm:name>Coach</ttm:name></ttm:agent></metadata></head><body><div><p ttm:agent="a"><span begin="1s" end="2s">one</span> <span begin="2.5s">two</span></p><p begin="5s">three&nbsp;four &amp; five</p></div></body></tt>`,
		"ttml", "cue", "one@1/Coach two@2.5/Coach three@5 four five", "", ""},
	{"TTML: children one after the other", `<tt><body timeContainer="seq"><p dur="2s">one</p><p dur="3s">two</p><p begin="1s" dur="1s">three</p></body></tt>`,
		"ttml", "cue", "one@0 two@2 three@6", "", ""},
	{"TTML cut in the middle", `<tt><body><p begin="1s" end="2s">one</p><p begin="3s" end="4s">two</p><p beg`, "ttml", "cue", "one@1 two@3", "", "1 broken XML"},
	{"SSA: only dialogue lines, one of them broken",
		"Dialogue: 0,0:00:01.00,0:00:02.00,Default,,0,0,0,,one, two\nDialogue: 0,bad,0:00:03.00,Default,,0,0,0,,lost\nDialogue: 0,0:00:04.00,0:00:05.00,Default,,0,0,0,,{\\an8}three\n",
		"ssa", "cue", "one@1 two three@4", "", "2 Dialogue line not understood"},
	{"text in UTF-8 that was read as Windows-1252 before", "1\n00:00:01,000 --> 00:00:02,000\nthatâ€™s one â€“ cafÃ©\n", "subrip", "cue", "that’s@1 one café", "", "0 turned back"},
	{"clock beyond an hour, kept short", "1\n01:00:01,000 --> 01:00:02,000\none\n", "subrip", "cue", "one@1", "", "2 whole hours are taken off"},
}

func TestMore(t *testing.T) {
	for _, c := range more {
		track, err := Parse([]byte(c.content), c.name, Options{})
		if err != nil {
			t.Error(err)
			continue
		}
		if track.Format != c.format || c.timing != "" && track.Timing.String() != c.timing {
			t.Errorf("%s: %s with %s times, want %s with %s", c.name, track.Format, track.Timing, c.format, c.timing)
		}
		if strings.HasPrefix(c.name, "captions in capitals") { // the censored word is one of several blanks
			checkCensored(t, track)
			continue
		}
		checkWords(t, c.name, track, c.words)
		checkEvents(t, c.name, track, c.events)
		checkWarnings(t, c.name, track, c.warning)
		checkTrack(t, c.name, track)
	}
}

func checkCensored(t *testing.T, track *Track) {
	t.Helper()
	var got []string
	for _, w := range track.Words {
		got = append(got, w.Speaker+" "+w.Text)
	}
	want := "COACH READY|COACH SET|COACH TWO|COACH NOW|COACH [ __ ]|COACH GO"
	if s := strings.Join(got, "|"); s != want {
		t.Errorf("words %q, want %q", s, want)
	}
}

func TestKeepClock(t *testing.T) {
	track, err := Parse([]byte("1\n10:00:01,000 --> 10:00:02,000\none\n"), "x.srt", Options{KeepClock: true})
	if err != nil || track.Words[0].Time.At != Time(10*time.Hour+time.Second) {
		t.Errorf("got %v, %v; want the clock as it stands", track, err)
	}
}

// TestSTL reads back what the subtitle library writes as EBU STL.
func TestSTL(t *testing.T) {
	s := astisub.NewSubtitles()
	for i, text := range []string{"and one", "two"} {
		at := time.Duration(i+1) * 2 * time.Second
		s.Items = append(s.Items, &astisub.Item{StartAt: at, EndAt: at + time.Second, Lines: []astisub.Line{{Items: []astisub.LineItem{{Text: text}}}}})
	}
	s.Metadata = &astisub.Metadata{Framerate: 25, Title: "Chair"}
	var b bytes.Buffer
	if err := s.WriteToSTL(&b); err != nil {
		t.Fatal(err)
	}
	track, err := Parse(b.Bytes(), "x.stl", Options{})
	if err != nil {
		t.Fatal(err)
	}
	checkWords(t, "stl", track, "and@2 one two@4")
	if track.Format != "stl" || track.Title != "Chair" {
		t.Errorf("format %q, title %q", track.Format, track.Title)
	}
	for n := range b.Len() { // the library panics on several of these
		Parse(b.Bytes()[:n], "cut.stl", Options{})
	}
	broken := bytes.Clone(b.Bytes())
	for i := 11; i < 300; i++ {
		broken[i] = '?'
	}
	if _, err := Parse(broken, "broken.stl", Options{}); err == nil {
		t.Error("a broken head of an STL file gives no error")
	}
}

func TestRefused(t *testing.T) {
	many := strings.Repeat("00:00:01,000 --> 00:00:02,000\nx\n\n", 11)
	for _, c := range []struct {
		name, content string
		opt           Options
		want          error
		msg           string
	}{
		{"empty", "", Options{}, ErrEmpty, "empty"},
		{"mark", "\xEF\xBB\xBF \n", Options{}, ErrEmpty, "empty"},
		{"zeros", strings.Repeat("\x00", 1100), Options{}, ErrEmpty, "empty"},
		{"mp4", "\x00\x00\x00\x18ftypmp42", Options{}, ErrNotText, "video"},
		{"mkv", "\x1A\x45\xDF\xA3\x01", Options{}, ErrNotText, "video"},
		{"docx", "PK\x03\x04xx", Options{}, ErrNotText, "zip"},
		{"rtf", "{\\rtf1\\ansi hi}", Options{}, ErrNotText, "rich text"},
		{"pdf", "%PDF-1.7", Options{}, ErrNotText, "PDF"},
		{"ts", strings.Repeat("\x47"+strings.Repeat("\x00\x01", 93)+"\x00", 4), Options{}, ErrNotText, "MPEG-TS"},
		{"html", "<!DOCTYPE html>\n<html><body>0:01 x</body></html>", Options{}, ErrNotText, "web page"},
		{"binary", "\x01\x02\x03\x04\x05\x06\x07\x08\x0e\x0f\x10", Options{}, ErrNotText, "not text"},
		{"prose", "no times here at all\njust words\n", Options{}, ErrNoTimes, "captions have lines such as"},
		{"header", "WEBVTT\n\n", Options{}, ErrNoTimes, "this looks like a WebVTT file, but it has no line with times"},
		{"json", `{"a":[1,2]}`, Options{}, ErrNoTimes, "but it has no words with times; expected entries"},
		{"deep json", strings.Repeat("[", 100) + strings.Repeat("]", 100), Options{}, nil, ""},
		{"large", many, Options{MaxBytes: 100}, ErrTooBig, "100 bytes"},
		{"many", many, Options{MaxCues: 10}, ErrTooBig, "more captions than the limit of 10"},
	} {
		_, err := Parse([]byte(c.content), c.name, c.opt)
		if err == nil || c.want != nil && (!errors.Is(err, c.want) || !strings.HasPrefix(err.Error(), c.name+":") || !strings.Contains(err.Error(), c.msg)) {
			t.Errorf("%s: error %v, want %q", c.name, err, c.msg)
		}
	}
	if _, err := Read(strings.NewReader(many), "large", Options{MaxBytes: 100}); !errors.Is(err, ErrTooBig) {
		t.Errorf("Read beyond the limit: %v", err)
	}
}

// TestPlainErrors: whatever is missing in a file of whatever format, the person who exported it is told in words, and not in names of the
// program's own.
func TestPlainErrors(t *testing.T) {
	for _, format := range []string{"webvtt", "subrip", "ttml", "json", "ssa", "lrc", "stl", "table", "transcript"} {
		msg := nothingIn(format)
		if !strings.HasPrefix(msg, "this looks like ") || !strings.Contains(msg, ", but it has no ") || strings.Contains(msg, " "+format+" ") || strings.Contains(msg, "cue") {
			t.Errorf("%s: %q", format, msg)
		}
	}
	for content, want := range map[string]string{
		"WEBVTT\n\nNOTE nothing here\n":                                   "this looks like a WebVTT file, but it has no line with times such as 00:00:01.000 --> 00:00:04.000",
		"[Script Info]\n\n[Events]\nFormat: Start, End, Text\n":           "this looks like an SSA or ASS file, but it has no line that begins with Dialogue: and has times",
		`<tt xmlns="http://www.w3.org/ns/ttml"><body></body></tt>` + "\n": "this looks like a TTML file, but it has no words with times",
	} {
		if _, err := Parse([]byte(content), "x", Options{}); err == nil || err.Error() != "x: "+want {
			t.Errorf("%q: %v, want %q", content, err, want)
		}
	}
}
