package caption

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
)

// texts returns the words of a file, nil where it cannot be read.
func texts(b []byte) []string {
	t, err := Parse(b, "x", Options{})
	if err != nil {
		return nil
	}
	out := make([]string, len(t.Words))
	for i, w := range t.Words {
		out[i] = w.Text
	}
	return out
}

// withEnds writes the line ends of a text anew.
func withEnds(b []byte, end string) []byte {
	s := strings.ReplaceAll(strings.ReplaceAll(string(b), "\r\n", "\n"), "\r", "\n")
	return []byte(strings.ReplaceAll(s, "\n", end))
}

// isText: line ends mean the same in every text format; in UTF-16 they are other bytes.
func isText(b []byte) bool { return bytes.IndexByte(b, 0) < 0 }

func seeds(tb testing.TB) map[string][]byte {
	out := map[string][]byte{}
	for _, pattern := range []string{"testdata/nasty/*", "testdata/more/*"} {
		names, err := filepath.Glob(pattern)
		if err != nil {
			tb.Fatal(err)
		}
		for _, name := range names {
			b, err := os.ReadFile(name)
			if err != nil {
				tb.Fatal(err)
			}
			out[filepath.Base(name)] = b
		}
	}
	return out
}

func TestLineEnds(t *testing.T) {
	for name, b := range seeds(t) {
		if !isText(b) {
			continue
		}
		want := texts(withEnds(b, "\n"))
		for _, end := range []string{"\r", "\r\n"} {
			if got := texts(withEnds(b, end)); !reflect.DeepEqual(got, want) {
				t.Errorf("%s with %q: words %q, want %q", name, end, got, want)
			}
		}
	}
}

// TestCut cuts every file at every byte: what is left gives the first words of the whole, but for the last one, which may be cut
// itself.
func TestCut(t *testing.T) {
	for name, b := range seeds(t) {
		switch name {
		// cues out of order; a thousand tags in one word (too slow to cut everywhere); a line said or shown twice, which is cut twice
		case "end-before-start.srt", "tag-bomb.vtt", "word-lrc.lrc", "out-of-order.vtt", "times-together.lrc", "drawing.ass":
			continue
		// what is left of so short a file does not show yet that lines are shown again, that a name will come again, or in what encoding it is
		case "growing.vtt", "rollup-cr.srt", "carried.ttml", "carried.ass", "one-word-underlined.srt", "speakers-above.txt", "scrambled.vtt":
			continue
		// or that a number, a time or a quote is more than that
		case "milliseconds.json", "numbers-from-two.srt", "numbers-above-times.txt", "numbered-blocks.txt", "quoted-mail.txt", "times-on-one-line.srt",
			"clock-begins-again.txt", "open-quote.csv", "separators-and-digits.txt", "rollup-without-fillers.srt", "repeats-between-pop-ons.vtt":
			continue
		}
		for n := range len(b) {
			if msg := cutFails(b, n); msg != "" {
				t.Errorf("%s cut at byte %d: %s", name, n, msg)
				break
			}
		}
	}
	for _, name := range []string{"sessions/desk-neck.word.vtt", "sessions/desk-neck.cue.srt", "sessions/desk-neck.block.txt", "recognised/desk-neck.word.vtt"} {
		b, err := os.ReadFile("../../corpus/" + name)
		if err != nil {
			t.Fatal(err)
		}
		b = b[:min(len(b), 5_000)]
		for n := 0; n < len(b); n += 37 {
			if msg := cutFails(b, n); msg != "" {
				t.Errorf("%s cut at byte %d: %s", name, n, msg)
				break
			}
		}
	}
}

func cutFails(b []byte, n int) string {
	whole, part := texts(b), texts(b[:n])
	for i, w := range part {
		if i >= len(whole) || w != whole[i] && i < len(part)-1 {
			if i == len(part)-1 {
				continue
			}
			return fmt.Sprintf("ends with words %q; the whole has %q", part[max(0, i-1):], whole[min(i, len(whole)):min(len(whole), i+3)])
		}
	}
	return ""
}

// TestSameAnswer: the same bytes give the same track.
func TestSameAnswer(t *testing.T) {
	for name, b := range seeds(t) {
		one, err1 := Parse(b, name, Options{})
		two, err2 := Parse(bytes.Clone(b), name, Options{})
		if !reflect.DeepEqual(one, two) || fmt.Sprint(err1) != fmt.Sprint(err2) {
			t.Errorf("%s: two readings differ", name)
		}
	}
}

// TestWriteRead: what is written is read back as the same words at the same times.
func TestWriteRead(t *testing.T) {
	for name, b := range seeds(t) {
		if msg := writeReadFails(b); msg != "" {
			t.Errorf("%s: %s", name, msg)
		}
	}
}

func writeReadFails(b []byte) string {
	t, err := Parse(b, "x", Options{})
	if err != nil || len(t.Words) == 0 {
		return ""
	}
	var out bytes.Buffer
	if err := t.WriteVTT(&out); err != nil {
		return err.Error()
	}
	back, err := Parse(out.Bytes(), "back.vtt", Options{})
	if err != nil {
		return err.Error() + "\n" + out.String()
	}
	if len(back.Words) != len(t.Words) {
		return fmt.Sprintf("%d words, want %d in\n%s", len(back.Words), len(t.Words), out.String())
	}
	for i := range t.Words {
		if back.Words[i].Text != t.Words[i].Text {
			return fmt.Sprintf("word %d %q, want %q in\n%s", i, back.Words[i].Text, t.Words[i].Text, out.String())
		}
	}
	return ""
}
