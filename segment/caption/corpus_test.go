package caption

import (
	"bufio"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestCorpusWords reads every labelled session and compares the timing and the number of its words with a count that was made
// outside this program: each cue's text (of roll-up files the last line of each cue above 20 ms), tags removed, split at blanks.
func TestCorpusWords(t *testing.T) {
	f, err := os.Open("testdata/corpus.words")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	sc := bufio.NewScanner(f)
	for sc.Scan() {
		field := strings.Fields(sc.Text()) // file, timing, words
		name := filepath.Join("../../corpus", field[0])
		b, err := os.ReadFile(name)
		if err != nil {
			t.Error(err)
			continue
		}
		track, err := Parse(b, field[0], Options{})
		if err != nil {
			t.Error(err)
			continue
		}
		words := 0
		for _, w := range track.Words {
			words++
			if w.Time.Low > w.Time.At || w.Time.At > w.Time.High || w.Time.From == EvidenceUnknown {
				t.Fatalf("%s:%d: %q: spread %v", field[0], w.Line, w.Text, w.Time)
			}
		}
		if got := track.Timing.String(); got != field[1] {
			t.Errorf("%s: timing %s, want %s", field[0], got, field[1])
		}
		if want := number(field[2]); words != want {
			t.Errorf("%s: %d words, want %d", field[0], words, want)
		}
	}
}
