package caption

import (
	"bytes"
	"fmt"
	"reflect"
	"strings"
	"testing"
)

// writtenForms is the number of forms in which writeForm writes: the nine formats, and WebVTT that rolls up.
const writtenForms = 10

// A written file holds words three to a cue of two seconds, the first at one second.
type written struct {
	file   []byte
	format string
	ends   []int // where the cues end in the file
}

// plainWords returns the words of a text with letters and digits only.
func plainWords(s string) []string {
	return strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return (r < 'a' || r > 'z') && (r < '0' || r > '9') })
}

func writeForm(words []string, form byte) written {
	f := [...]struct{ format, open, shut string }{
		{"subrip", "", ""},
		{"webvtt", "WEBVTT\n\n", ""},
		{"webvtt", "WEBVTT\n\n", ""},
		{"transcript", "", ""},
		{"ttml", "<tt><body><div>\n", "</div></body></tt>\n"},
		{"ssa", "[Events]\nFormat: Layer, Start, End, Style, Name, MarginL, MarginR, MarginV, Effect, Text\n", ""},
		{"lrc", "[ti:Chair]\n", ""},
		{"json", `{"segments":[`, "]}"},
		{"table", "start;end;text\n", ""},
		{"stl", stlHeadText, ""},
	}[form]
	w := written{format: f.format}
	var b bytes.Buffer
	b.WriteString(f.open)
	before := " "
	for i := 0; i*3 < len(words); i++ {
		three := words[i*3 : min(len(words), i*3+3)]
		writeCue(&b, form, i, three, before)
		if k := bytes.LastIndex(bytes.TrimRight(b.Bytes(), " \n"), []byte("\n\n")); form == 2 && k > 0 {
			w.ends = append(w.ends, k+2) // between the cue and the filler below it
		}
		before = strings.Join(three, " ")
		w.ends = append(w.ends, b.Len())
	}
	b.WriteString(f.shut)
	w.file = b.Bytes()
	return w
}

// stlHeadText is the head of an EBU STL file of 25 frames a second, as long as it must be (EBU Tech 3264).
var stlHeadText = "850STL25.01000" + strings.Repeat(" ", stlHead-14)

// writeCue writes cue number i; before is the line of the cue before.
func writeCue(b *bytes.Buffer, form byte, i int, words []string, before string) {
	line := strings.Join(words, " ")
	from, to := float64(2*i+1), float64(2*i+3)
	start, end := clockText(At(from)), clockText(At(to))
	switch form {
	case 0:
		fmt.Fprintf(b, "%d\n%s --> %s\n%s\n\n", i+1, strings.Replace(start, ".", ",", 1), strings.Replace(end, ".", ",", 1), line)
	case 1:
		fmt.Fprintf(b, "%s --> %s align:start\n%s\n\n", start, end, line)
	case 2:
		tagged := words[0]
		for k, word := range words[1:] {
			tagged += "<" + clockText(At(from+0.5*float64(k+1))) + "><c> " + word + "</c>"
		}
		fmt.Fprintf(b, "%s --> %s\n%s\n%s\n\n%s --> %s\n%s\n \n\n", start, end, before, tagged, end, clockText(At(to+0.01)), line)
	case 3:
		fmt.Fprintf(b, "[%s] %s\n", At(from), line)
	case 4:
		fmt.Fprintf(b, "<p begin=\"%s\" end=\"%s\">%s</p>\n", start, end, line)
	case 5:
		fmt.Fprintf(b, "Dialogue: 0,%s,%s,Default,,0,0,0,,%s\n", start[1:len(start)-1], end[1:len(end)-1], line)
	case 6:
		fmt.Fprintf(b, "[%s]%s\n", start[3:len(start)-1], line)
	case 7:
		fmt.Fprintf(b, ",\n{\"start\":%v,\"end\":%v,\"text\":\" %s\"}"[2*min(1, max(0, 1-i)):], from, to, line)
	case 8:
		fmt.Fprintf(b, "%v,5;%v,5;%s\n", from-1, to-1, line)
	case 9:
		stlCue(b, i, line)
	}
}

// stlCue writes a block of an EBU STL file (EBU Tech 3264, chapter 5); times are hours, minutes, seconds and frames, a byte each.
func stlCue(b *bytes.Buffer, i int, line string) {
	clock := func(s int) []byte { return []byte{byte(s / 3600), byte(s / 60 % 60), byte(s % 60), 0} }
	b.Write([]byte{0, byte(i), byte(i >> 8), 0xFF, 0})
	b.Write(clock(2*i + 1))
	b.Write(clock(2*i + 3))
	b.Write([]byte{20, 2, 0})
	line = line[:min(len(line), 112)]
	b.WriteString(line + strings.Repeat("\x8f", 112-len(line)))
}

// fails cuts the file at byte n and compares; it returns what is wrong, "" for nothing.
func (w *written) fails(words []string, n int) string {
	if len(words) == 0 || w.format == "stl" && !fitsSTL(words) {
		return ""
	}
	whole := texts(w.file)
	if !reflect.DeepEqual(whole, words) {
		return fmt.Sprintf("words %q, want %q", whole, words)
	}
	if w.format != "stl" {
		for _, same := range [][]byte{withEnds(w.file, "\r"), withEnds(w.file, "\r\n"), padded(w.file, n%64)} {
			if got := texts(same); !reflect.DeepEqual(got, words) {
				return fmt.Sprintf("with other line ends or lines above: words %q, want %q", got, words)
			}
		}
	}
	if msg := cutFails(w.file, n); msg != "" {
		return msg
	}
	part, err := Parse(w.file[:n], "cut", Options{})
	if err != nil || len(part.Words) == len(words) && part.Words[len(words)-1].Text == words[len(words)-1] {
		return ""
	}
	if len(part.Warnings) == 0 && !w.between(n) {
		return fmt.Sprintf("cut at byte %d leaves %d of %d words and no warning", n, len(part.Words), len(words))
	}
	return ""
}

// between reports whether byte n lies between two cues, so that what is left is a whole file for all that anybody can know.
func (w *written) between(n int) bool {
	for _, end := range w.ends {
		if n <= end && len(bytes.TrimSpace(w.file[n:end])) == 0 {
			return true
		}
	}
	return false
}

// fitsSTL: a block holds 112 bytes, and a file 65,535 subtitles.
func fitsSTL(words []string) bool {
	for i := range words {
		if len(strings.Join(words[i:min(i+3, len(words))], " ")) > 112 {
			return false
		}
	}
	return len(words) < 3*65_535
}

// padded puts n bytes of blank lines above a text.
func padded(b []byte, n int) []byte { return append(bytes.Repeat([]byte{'\n'}, n), b...) }

// TestWritten reads words in each format, cut at every byte.
func TestWritten(t *testing.T) {
	words := plainWords("Ready and one two 3 four 5 rest for 30 seconds then 1 2 3")
	for form := range byte(writtenForms) {
		w := writeForm(words, form)
		track, err := Parse(w.file, w.format, Options{})
		if err != nil || track.Format != w.format {
			t.Errorf("form %d: %v, %v, want format %s", form, track, err, w.format)
			continue
		}
		for n := range w.file {
			if msg := w.fails(words, n); msg != "" {
				t.Errorf("%s, form %d: %s", w.format, form, msg)
				break
			}
		}
	}
}
