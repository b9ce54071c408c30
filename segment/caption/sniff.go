package caption

import (
	"bytes"
	"strings"
)

// refuse tells files that hold no captions as text, with what to do instead.
func refuse(b []byte) *Error {
	if len(bytes.Trim(b, " \t\r\n\x00\xEF\xBB\xBF\xFF\xFE")) == 0 {
		return &Error{Msg: "the file is empty", Err: ErrEmpty}
	}
	return nil
}

// sniff names the format of a decoded file.
func sniff(src string) string {
	head := strings.TrimLeft(src, "\ufeff \t\r\n")
	if isVTTHeader(head) {
		return "webvtt"
	}
	sc := scanRows(src)
	for {
		r, ok := sc.next()
		if !ok {
			break
		}
		if _, ok := readTimeLine(src[r.from:r.to]); ok {
			return "subrip"
		}
	}
	return "transcript"
}

// isVTTHeader: "WEBVTT", then the end, a line end, a space or a tab (WebVTT 4.1).
func isVTTHeader(s string) bool {
	const magic = "WEBVTT"
	return strings.HasPrefix(s, magic) && (len(s) == len(magic) || strings.IndexByte(" \t\r\n", s[len(magic)]) >= 0)
}
