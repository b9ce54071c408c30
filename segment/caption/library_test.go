package caption

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"github.com/asticode/go-astisub"
)

// TestLibraryAgrees reads clean captions with go-astisub v0.41.0 as well: the same cues at the same times with the same words. The
// SubRip sessions are as they stand; the roll-up ones are written as plain WebVTT first, since the library returns each line thrice.
func TestLibraryAgrees(t *testing.T) {
	for _, name := range []string{"knee-weeks4.cue.srt", "steady-feet.cue.srt", "ankle-return.word.vtt"} {
		src, err := os.ReadFile("../../corpus/sessions/" + name)
		if err != nil {
			t.Fatal(err)
		}
		track, err := Parse(src, name, Options{})
		if err != nil {
			t.Fatal(err)
		}
		var subs *astisub.Subtitles
		if track.Format == "subrip" {
			subs, err = astisub.ReadFromSRT(bytes.NewReader(src))
		} else {
			var plain bytes.Buffer
			if err := track.WriteVTT(&plain); err != nil {
				t.Fatal(err)
			}
			subs, err = astisub.ReadFromWebVTT(&plain)
		}
		if err != nil {
			t.Fatal(err)
		}
		if len(subs.Items) != len(track.Cues) {
			t.Errorf("%s: %d cues, the library has %d", name, len(track.Cues), len(subs.Items))
			continue
		}
		for i, item := range subs.Items {
			c := track.Cues[i]
			if Time(item.StartAt) != c.Start || Time(item.EndAt) != c.End {
				t.Errorf("%s: cue %d from %v to %v, the library has %v to %v", name, i, c.Start, c.End, item.StartAt, item.EndAt)
			}
			var lines []string
			for _, l := range item.Lines {
				lines = append(lines, l.String())
			}
			want := wordsOf(strings.Join(lines, " "))
			var got []string
			for _, w := range track.Words[c.First:c.Last] {
				got = append(got, w.Text)
			}
			if strings.Join(got, " ") != strings.Join(want, " ") {
				t.Errorf("%s: cue %d has words %q, the library %q", name, i, got, want)
			}
		}
	}
}
