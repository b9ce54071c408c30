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
// that the same bytes give the same answer, that LF, CR and CRLF give the same words and blank lines above change none, and that what is
// written as WebVTT is read back as the same words.
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
			if got := texts(padded(b, len(b)%64)); utf8.Valid(b) && !reflect.DeepEqual(got, want) {
				t.Fatalf("with %d blank lines above: words %q, want %q", len(b)%64, got, want)
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
	file := writeForm([]string{"one", "two", "3", "four"}, 9).file
	teletext := bytes.Clone(file)
	teletext[11] = '1'
	fuzzFormat(f, ".stl", string(file), string(teletext))
}

// FuzzCut writes words in each format, cuts the file anywhere, and asks for the first of the words and for a warning where the cut goes
// through a cue; and for the same words with every kind of line end and with any number of bytes before them.
func FuzzCut(f *testing.F) {
	for form := range byte(writtenForms) {
		f.Add("ready and one two 3 four 5 rest for 30 seconds", form, uint16(100))
		f.Add("1 2 3 4 5 6 7 8 9 10 and rest", form, uint16(1130))
	}
	f.Fuzz(func(t *testing.T, text string, form byte, cut uint16) {
		words := plainWords(text)
		w := writeForm(words, form%writtenForms)
		if msg := w.fails(words, int(cut)%(len(w.file)+1)); msg != "" {
			t.Fatalf("%s\n%q", msg, w.file)
		}
	})
}
