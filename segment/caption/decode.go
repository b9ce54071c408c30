package caption

import (
	"bytes"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// decode returns the file as UTF-8, without a byte order mark at its start, and warns where it had to guess.
func decode(b []byte, warn *warnings) string {
	switch {
	case bytes.HasPrefix(b, []byte{0xEF, 0xBB, 0xBF}):
		b = b[3:]
	case bytes.HasPrefix(b, []byte{0xFF, 0xFE, 0, 0}):
		return decodeUTF32(b[4:], 0)
	case bytes.HasPrefix(b, []byte{0, 0, 0xFE, 0xFF}):
		return decodeUTF32(b[4:], 3)
	case bytes.HasPrefix(b, []byte{0xFF, 0xFE}):
		return decodeUTF16(b[2:], 0)
	case bytes.HasPrefix(b, []byte{0xFE, 0xFF}):
		return decodeUTF16(b[2:], 1)
	default:
		if low, ok := guessUTF16(b); ok {
			warn.add(0, "no byte order mark; read as UTF-16 because every other byte is zero")
			return decodeUTF16(b, low)
		}
	}
	if !utf8.Valid(b) {
		b = trimCutRune(b)
	}
	if !utf8.Valid(b) {
		if mostlyUTF8(b) {
			return decodeMixed(b, warn)
		}
		warn.add(firstBadLine(b), "not UTF-8; read as Windows-1252")
		return decode1252(b)
	}
	s := string(b)
	if fixed, ok := unscramble(s); ok {
		warn.add(0, "UTF-8 that was once taken for Windows-1252; turned back")
		return fixed
	}
	return s
}

// guessUTF16 tells UTF-16 without a mark by its zero bytes; low is the place of the low byte in each pair.
func guessUTF16(b []byte) (low int, ok bool) {
	n := min(len(b), 512) &^ 1
	if n < 8 {
		return 0, false
	}
	var zero [2]int
	for i := 0; i < n; i++ {
		if b[i] == 0 {
			zero[i&1]++
		}
	}
	half := n / 2
	switch {
	case zero[0]*10 > half*3 && zero[1]*20 < half:
		return 1, true
	case zero[1]*10 > half*3 && zero[0]*20 < half:
		return 0, true
	}
	return 0, false
}

// decodeUTF16 decodes pairs of bytes; low is the place of the low byte in a pair. An odd last byte is dropped.
func decodeUTF16(b []byte, low int) string {
	var out strings.Builder
	out.Grow(len(b) / 2)
	unit := func(i int) rune { return rune(b[i+low]) | rune(b[i+1-low])<<8 }
	for i := 0; i+1 < len(b); i += 2 {
		r := unit(i)
		if utf16.IsSurrogate(r) {
			if i+3 < len(b) {
				if both := utf16.DecodeRune(r, unit(i+2)); both != utf8.RuneError {
					r = both
					i += 2
				}
			} else {
				break
			}
		}
		out.WriteRune(r)
	}
	return out.String()
}

// decodeUTF32 decodes groups of four bytes; low is the place of the lowest byte, 0 or 3.
func decodeUTF32(b []byte, low int) string {
	var out strings.Builder
	for ; len(b) >= 4; b = b[4:] {
		out.WriteRune(rune(b[low]) | rune(b[low^1])<<8 | rune(b[low^2])<<16 | rune(b[low^3])<<24)
	}
	return out.String()
}

// upper1252 holds what Windows-1252 has at 0x80 to 0x9F, per the WHATWG Encoding Standard, index-windows-1252.
const upper1252 = "€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ"

func decode1252(b []byte) string {
	upper := []rune(upper1252)
	var out strings.Builder
	out.Grow(len(b) + len(b)/8)
	for _, c := range b {
		switch {
		case c < 0x80:
			out.WriteByte(c)
		case c < 0xA0:
			out.WriteRune(upper[c-0x80])
		default:
			out.WriteRune(rune(c))
		}
	}
	return out.String()
}

// mostlyUTF8 reports whether more of what is not ASCII is UTF-8 than not, as where two files in different encodings were joined.
func mostlyUTF8(b []byte) bool {
	good, bad := 0, 0
	for len(b) > 0 {
		r, n := utf8.DecodeRune(b)
		switch {
		case r == utf8.RuneError && n == 1:
			bad++
		case n > 1:
			good++
		}
		b = b[n:]
	}
	return good > bad
}

// decodeMixed decodes UTF-8 with a few bytes of Windows-1252 among it.
func decodeMixed(b []byte, warn *warnings) string {
	upper := []rune(upper1252)
	var out strings.Builder
	out.Grow(len(b) + len(b)/8)
	line := 1
	for i := 0; i < len(b); {
		r, n := utf8.DecodeRune(b[i:])
		switch {
		case endsLine(b, i):
			line++
		case r != utf8.RuneError || n > 1:
		case b[i] < 0xA0:
			r = upper[b[i]-0x80]
			warn.add(line, strayByte)
		default:
			r = rune(b[i])
			warn.add(line, strayByte)
		}
		out.WriteRune(r)
		i += n
	}
	return out.String()
}

const strayByte = "not UTF-8 in a file that is UTF-8 for the rest; read as Windows-1252"

// unscramble turns "thatâ€™s" back into "that’s": only if the whole text, taken back to Windows-1252, is UTF-8.
func unscramble(s string) (string, bool) {
	if !strings.Contains(s, "â€") && !strings.Contains(s, "Ã") {
		return "", false
	}
	b := make([]byte, 0, len(s))
	for _, r := range s {
		switch {
		case r < 0x80, r >= 0xA0 && r < 0x100:
			b = append(b, byte(r))
		default:
			c, ok := byte1252(r)
			if !ok {
				return "", false
			}
			b = append(b, c)
		}
	}
	if !utf8.Valid(b) {
		return "", false
	}
	return string(b), true
}

func byte1252(r rune) (byte, bool) {
	c := byte(0x80)
	for _, u := range upper1252 {
		if u == r {
			return c, true
		}
		c++
	}
	return 0, false
}

// trimCutRune drops the beginning of a rune that was cut off at the end of the file.
func trimCutRune(b []byte) []byte {
	for n := 1; n <= 3 && n <= len(b); n++ {
		if c := b[len(b)-n]; utf8.RuneStart(c) {
			if c >= 0xC0 && !utf8.FullRune(b[len(b)-n:]) && utf8.Valid(b[:len(b)-n]) && !isASCII(b[:len(b)-n]) {
				return b[:len(b)-n]
			}
			break
		}
	}
	return b
}

// isASCII: a text that is plain but for its last byte says nothing of its encoding.
func isASCII(b []byte) bool {
	for _, c := range b {
		if c >= 0x80 {
			return false
		}
	}
	return true
}

func firstBadLine(b []byte) int {
	line := 1
	for i := 0; i < len(b); {
		r, n := utf8.DecodeRune(b[i:])
		if r == utf8.RuneError && n == 1 {
			break
		}
		if endsLine(b, i) {
			line++
		}
		i += n
	}
	return line
}

// endsLine reports whether a line end, LF, CR or CRLF, ends with b[i].
func endsLine(b []byte, i int) bool {
	return b[i] == '\n' || b[i] == '\r' && (i+1 == len(b) || b[i+1] != '\n')
}
