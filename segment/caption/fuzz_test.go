package caption

import (
	"bytes"
	"fmt"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"unicode/utf8"
)

// fuzzFormat checks on any bytes, starting from the seeds with one of the endings, that nothing panics, that the track is in order,
// that the same bytes give the same answer, and that LF, CR and CRLF give the same words.
func fuzzFormat(f *testing.F, endings string, extra ...string) {
	for name, b := range seeds(f) {
		if strings.Contains(endings, filepath.Ext(name)) {
			f.Add(b)
		}
	}
	for _, s := range extra {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		track, err := Parse(b, "x", Options{})
		again, errAgain := Parse(b, "x", Options{})
		if !reflect.DeepEqual(track, again) || fmt.Sprint(err) != fmt.Sprint(errAgain) {
			t.Fatal("two readings of the same bytes differ")
		}
		if err != nil {
			return
		}
		checkTrack(t, "x", track)
		if isText(b) && bytes.IndexByte(b, '\r') < 0 && !isSTL(b) {
			want := texts(b)
			for _, end := range []string{"\r", "\r\n"} {
				if got := texts(withEnds(b, end)); !reflect.DeepEqual(got, want) {
					t.Fatalf("with %q: words %q, want %q", end, got, want)
				}
			}
		}
		if bytes.Contains(b, []byte("â")) || bytes.Contains(b, []byte("Ã")) || !utf8.Valid(b) {
			return // what looks like text in the wrong encoding is turned back when it is read again
		}
		if msg := writeReadFails(b); msg != "" {
			t.Fatal(msg)
		}
	})
}

func FuzzWebVTT(f *testing.F)     { fuzzFormat(f, ".vtt") }
func FuzzSubRip(f *testing.F)     { fuzzFormat(f, ".srt") }
func FuzzTTML(f *testing.F)       { fuzzFormat(f, ".ttml") }
func FuzzSSA(f *testing.F)        { fuzzFormat(f, ".ass") }
func FuzzLRC(f *testing.F)        { fuzzFormat(f, ".lrc") }
func FuzzJSON(f *testing.F)       { fuzzFormat(f, ".json") }
func FuzzTable(f *testing.F)      { fuzzFormat(f, ".csv") }
func FuzzTranscript(f *testing.F) { fuzzFormat(f, ".txt") }

func FuzzSTL(f *testing.F) {
	head := "850STL25.01100" + strings.Repeat(" ", 1024-14)
	block := "\x00\x01\x00\xff\x00\x00\x00\x01\x00\x00\x00\x02\x00\x14\x02\x00" + "one two" + strings.Repeat("\x8f", 105)
	fuzzFormat(f, ".stl", head+block)
}

// FuzzCut writes words in one of five formats, cuts the file anywhere, and asks for the first of the words.
func FuzzCut(f *testing.F) {
	for format := range byte(5) {
		f.Add("ready and one two 3 four 5 rest for 30 seconds", format, uint16(100))
	}
	f.Fuzz(func(t *testing.T, text string, format byte, cut uint16) {
		b := render(plainWords(text), format%5)
		if msg := cutFails(b, int(cut)%(len(b)+1)); msg != "" {
			t.Fatalf("%s\n%s", msg, b)
		}
	})
}

// plainWords returns the words of a text with letters and digits only.
func plainWords(s string) []string {
	return strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return (r < 'a' || r > 'z') && (r < '0' || r > '9') })
}

// render writes words three to a cue of two seconds.
func render(words []string, format byte) []byte {
	var b strings.Builder
	open := map[byte]string{1: "WEBVTT\n\n", 2: "WEBVTT\n\n", 4: "<tt><body><div>\n"}
	b.WriteString(open[format])
	before := " "
	for i := 0; i*3 < len(words); i++ {
		w := words[i*3 : min(len(words), i*3+3)]
		line := strings.Join(w, " ")
		start, end := clockText(At(float64(2*i+1))), clockText(At(float64(2*i+3)))
		switch format {
		case 0:
			fmt.Fprintf(&b, "%d\n%s --> %s\n%s\n\n", i+1, strings.Replace(start, ".", ",", 1), strings.Replace(end, ".", ",", 1), line)
		case 1:
			fmt.Fprintf(&b, "%s --> %s align:start\n%s\n\n", start, end, line)
		case 2: // roll-up
			tagged := w[0]
			for k, word := range w[1:] {
				tagged += "<" + clockText(At(float64(2*i+1)+0.5*float64(k+1))) + "><c> " + word + "</c>"
			}
			filler := clockText(At(float64(2*i+3)) + At(0.01))
			fmt.Fprintf(&b, "%s --> %s\n%s\n%s\n\n%s --> %s\n%s\n \n\n", start, end, before, tagged, end, filler, line)
			before = line
		case 3:
			fmt.Fprintf(&b, "[%s] %s\n", At(float64(2*i+1)), line)
		case 4:
			fmt.Fprintf(&b, "<p begin=\"%s\" end=\"%s\">%s</p>\n", start, end, line)
		}
	}
	return []byte(b.String())
}
