package naming

import (
	_ "embed"
	"strings"
	"testing"

	"captally.example/captally/segment/caption"
)

//go:embed testdata/passages.txt
var passages string

// TestPassages measures the names in talk of other voices. Nothing was fitted to it, and nothing should be.
func TestPassages(t *testing.T) {
	for _, c := range []struct {
		name  string
		track func(*caption.Track) *caption.Track
		least float64
	}{
		{"punctuated", func(track *caption.Track) *caption.Track { return track }, 0.8},
		{"by pauses", unpunctuated, 0.8},
		{"a stream of words", stream, 0.6},
	} {
		right, all := 0, 0
		for _, p := range strings.Split(passages, "\n## ")[1:] {
			voice, text, _ := strings.Cut(p, "\n")
			text, want := readPassage(t, text)
			track, sets := say(text)
			track = c.track(track)
			for k, n := range Names(track, sets) {
				all++
				if samePassageName(want[k], n.Text) {
					right++
				} else {
					t.Logf("%s, %s, set %d: %q for %q", c.name, voice, k+1, n.Text, want[k])
				}
			}
		}
		share := float64(right) / float64(all)
		t.Logf("%s: %d of %d sets named right (%.3f)", c.name, right, all, share)
		if share < c.least {
			t.Errorf("%s: %.3f of the sets named right, want at least %.2f", c.name, share, c.least)
		}
	}
}

// readPassage returns the words of a passage as say reads them, and the names of its sets.
func readPassage(t *testing.T, text string) (words string, names []string) {
	t.Helper()
	var b strings.Builder
	for line := range strings.Lines(text) {
		name, ok := strings.CutPrefix(line, "=")
		if !ok {
			b.WriteString(line)
			continue
		}
		name, said, ok := strings.Cut(name, "|")
		if !ok {
			t.Fatalf(`a set without "|": %q`, line)
		}
		names = append(names, strings.TrimSpace(name))
		b.WriteString(" | " + said + " || ")
	}
	return b.String(), names
}

// stream takes the punctuation from a track and leaves nothing in its place.
func stream(track *caption.Track) *caption.Track {
	out := *track
	out.Timing = caption.TimingBlock
	out.Words = make([]caption.Word, len(track.Words))
	for i, w := range track.Words {
		w.Text, w.After = w.Fold, ""
		out.Words[i] = w
	}
	return &out
}

// samePassageName says whether two names share half of their words: the F1 of their stems is at least a half.
func samePassageName(want, found string) bool {
	a, b := stemSet(want), stemSet(found)
	shared := 0
	for s := range a {
		if b[s] {
			shared++
		}
	}
	return shared > 0 && 4*shared >= len(a)+len(b)
}

func stemSet(name string) map[string]bool {
	out := map[string]bool{}
	for w := range strings.FieldsSeq(strings.ToLower(name)) {
		switch w {
		case "the", "a", "of", "and", "to", "on", "with":
			continue
		}
		out[strings.TrimSuffix(stem(w), "e")] = true
	}
	return out
}
