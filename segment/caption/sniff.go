package caption

import (
	"bytes"
	"strings"
)

const packed = "this is a compressed file; unpack it first"

// refuse tells files that hold no captions as text, and says what to do instead.
func refuse(b []byte) *Error {
	if len(bytes.Trim(b, " \t\r\n\x00\xEF\xBB\xBF\xFF\xFE")) == 0 {
		return &Error{Msg: "the file is empty", Err: ErrEmpty}
	}
	for _, k := range [...]struct {
		magic string
		at    int
		msg   string
	}{
		{"ftyp", 4, "this is a video; export its captions as WebVTT or SubRip and give that file"},
		{"\x1A\x45\xDF\xA3", 0, "this is a video; export its captions as WebVTT or SubRip and give that file"},
		{"RIFF", 0, "this is a sound or video file; export its captions as WebVTT or SubRip and give that file"},
		{"ID3", 0, "this is a sound file; captions or a transcript of it are needed"},
		{"OggS", 0, "this is a sound or video file; captions or a transcript of it are needed"},
		{"fLaC", 0, "this is a sound file; captions or a transcript of it are needed"},
		{"PK\x03\x04", 0, "this is a word processor's file or a zip archive; save the text as plain text, or unpack it"},
		{"\xD0\xCF\x11\xE0", 0, "this is an old word processor's file; save the text as plain text"},
		{"\x1F\x8B", 0, packed},
		{"7z\xBC\xAF\x27\x1C", 0, packed},
		{"\xFD7zXZ\x00", 0, packed},
		{"1AY&SY", 4, packed},
		{"Rar!\x1A", 0, packed},
		{"\x28\xB5\x2F\xFD", 0, packed},
		{"{\\rtf", 0, "this is rich text; save it as plain text"},
		{"%PDF", 0, "this is a PDF; copy its text into a plain text file, with the times"},
		{"\x89PNG", 0, "this is a picture"},
		{"\xFF\xD8\xFF", 0, "this is a picture"},
		{"GIF8", 0, "this is a picture"},
	} {
		if len(b) >= k.at+len(k.magic) && string(b[k.at:k.at+len(k.magic)]) == k.magic {
			return &Error{Msg: k.msg, Err: ErrNotText}
		}
	}
	if len(b) > 376 && b[0] == 0x47 && b[188] == 0x47 && b[376] == 0x47 {
		return &Error{Msg: "this is a broadcast stream (MPEG-TS); export its captions as a text file", Err: ErrNotText}
	}
	return nil
}

// refuseText tells a decoded file that is no text after all: more controls than a caption file can hold.
func refuseText(src string) *Error {
	head := src[:min(len(src), 4096)]
	odd, runes := 0, 0
	for _, r := range head {
		runes++
		if r < ' ' && r != '\n' && r != '\r' && r != '\t' && r != '\f' && r != '\v' && r != 0x1B || r == 0xFFFD || r >= 0x7F && r < 0xA0 && r != 0x85 {
			odd++
		}
	}
	if odd*20 > runes && odd > 4 {
		return &Error{Msg: "this is not text; captions are needed, such as WebVTT (.vtt) or SubRip (.srt), or a transcript with times", Err: ErrNotText}
	}
	return nil
}

// isSTL tells an EBU Tech 3264 file by the disk format code at byte 3.
func isSTL(b []byte) bool {
	return len(b) >= 11 && (string(b[3:11]) == "STL25.01" || string(b[3:11]) == "STL30.01")
}

// sniff names the format of a decoded file by what it holds, "" for a web page.
func sniff(src string) string {
	head := strings.TrimLeft(src, "\ufeff \t\r\n\x00")
	switch {
	case isVTTHeader(head):
		return "webvtt"
	case strings.HasPrefix(head, "<") && !strings.HasPrefix(head, "<v ") && !isRow(head, isTimeRow):
		if f, ok := sniffXML(head); ok {
			return f
		}
	case strings.HasPrefix(head, "{") && !strings.HasPrefix(head, "{\\"):
		if s := strings.TrimLeft(head[1:], " \t\r\n"); s == "" || s[0] == '"' || s[0] == '}' {
			return "json"
		}
	case strings.HasPrefix(head, "["):
		if s := strings.TrimLeft(head[1:], " \t\r\n"); s != "" && (s[0] == '{' || s[0] == '"' || s[0] == ']') {
			return "json"
		}
	}
	first := firstRow(head)
	if isSeparatorRow(first) {
		first = firstRow(strings.TrimLeft(head[len(first):], "\r\n"))
	}
	if isTableHeader(first) || bareColumns(first) != nil {
		return "table"
	}
	if format := sniffRows(src); format != "transcript" || headedColumns(head) == nil {
		return format
	}
	return "table"
}

// sniffRows looks at the lines one by one for the first that gives the format away.
func sniffRows(src string) string {
	lrc, others := 0, 0
	heads, timed := 0, 0 // of LRC, whatever the decimals of its times
	sc := scanRows(src)
	for {
		w, ok := sc.next()
		if !ok {
			break
		}
		s := trimFront(src[w.from:w.to])
		if s == "" {
			continue
		}
		switch {
		case isSSARow(s):
			return "ssa"
		case s[0] == '[' && isLRCRow(s):
			lrc++
			if isLRCHead(s) {
				heads++
			}
		case isTimeRow(s):
			return "subrip"
		default:
			others++
			if _, n := lrcTime(s, '[', ']'); n > 0 {
				timed++
			}
		}
	}
	if lrc > 0 && lrc >= others || heads > 0 && lrc+timed > others-timed {
		return "lrc"
	}
	return "transcript"
}

func isTimeRow(s string) bool {
	_, ok := readTimeLine(s)
	return ok
}

// isRow reports whether one of the first lines of s passes the test.
func isRow(s string, test func(string) bool) bool {
	sc := scanRows(s)
	for n := 0; n < 50; n++ {
		w, ok := sc.next()
		if !ok {
			return false
		}
		if test(s[w.from:w.to]) {
			return true
		}
	}
	return false
}

func firstRow(s string) string {
	sc := scanRows(s)
	w, _ := sc.next()
	return s[w.from:w.to]
}

// isVTTHeader: "WEBVTT", here in letters of any size, then the end, a line end, a space or a tab (WebVTT 4.1).
func isVTTHeader(s string) bool {
	const magic = "WEBVTT"
	return len(s) >= len(magic) && strings.EqualFold(s[:len(magic)], magic) && (len(s) == len(magic) || strings.IndexByte(" \t\r\n", s[len(magic)]) >= 0)
}

func isSSARow(s string) bool {
	for _, mark := range [...]string{"[Script Info]", "[Events]", "[V4+ Styles]", "[V4 Styles]"} {
		if len(s) >= len(mark) && strings.EqualFold(s[:len(mark)], mark) {
			return true
		}
	}
	return strings.HasPrefix(s, "Dialogue:") && strings.Count(s[:min(len(s), 200)], ",") >= 4
}

// sniffXML tells what kind of XML a file is by its first element.
func sniffXML(s string) (format string, ok bool) {
	for {
		s = strings.TrimLeft(s, " \t\r\n")
		if !strings.HasPrefix(s, "<") {
			return "", false
		}
		end := ">"
		switch {
		case strings.HasPrefix(s, "<?"):
			end = "?>"
		case strings.HasPrefix(s, "<!--"):
			end = "-->"
		case len(s) > 9 && strings.EqualFold(s[:9], "<!doctype"):
			if strings.Contains(strings.ToLower(s[:min(len(s), 40)]), "html") {
				return "html", true
			}
			if i := strings.IndexAny(s, "[>"); i >= 0 && s[i] == '[' {
				end = "]>"
			}
		default:
			return xmlFormat(s)
		}
		i := strings.Index(s, end)
		if i < 0 {
			return "ttml", true
		}
		s = s[i+len(end):]
	}
}

func xmlFormat(s string) (string, bool) {
	name := s[1:]
	if i := strings.IndexAny(name, " \t\r\n>/"); i >= 0 {
		name = name[:i]
	}
	if i := strings.LastIndexByte(name, ':'); i >= 0 {
		name = name[i+1:]
	}
	switch strings.ToLower(name) {
	case "html", "head", "body", "div", "script", "!doctype":
		return "html", true
	case "tt", "transcript", "timedtext":
		return "ttml", true
	}
	head := s[:min(len(s), 2000)]
	if strings.Contains(head, "<text start=") || strings.Contains(head, "<p t=") || strings.Contains(head, "<p begin=") {
		return "ttml", true
	}
	return "", false
}
