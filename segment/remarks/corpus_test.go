package remarks_test

import (
	"slices"
	"strings"
	"testing"

	"captally.example/captally/corpus"
	"captally.example/captally/segment/caption"
	"captally.example/captally/segment/remarks"
)

// TestCorpus bounds the share of the words of the truth's level and equipment that the remarks hold, counted as in corpus.ScoreNotes.
func TestCorpus(t *testing.T) {
	for _, c := range []struct {
		name             string
		sessions         []corpus.Session
		level, equipment float64 // least mean recall
	}{
		{"sessions", corpus.Sessions(), 0.90, 0.85},
		{"recognised", corpus.Recognised(), 0.55, 0.20},
	} {
		for i, timing := range corpus.Timings {
			level, equipment := 0.0, 0.0
			for _, s := range c.sessions {
				file := s.Files()[i]
				track, err := caption.Parse(file.Data, file.Name, caption.Options{})
				if err != nil {
					t.Fatal(err)
				}
				f := remarks.Find(track, caption.At(s.Truth.Phases[0].End))
				if f.Level != nil {
					level += recall(s.Truth.Level, f.Level.Text)
				}
				var things []string
				for _, e := range f.Equipment {
					things = append(things, e.Text)
				}
				equipment += recall(s.Truth.Equipment, strings.Join(things, " "))
				spoken(t, file.Name, track, f)
			}
			n := float64(len(c.sessions))
			t.Logf("%s, %v: level %.3f, equipment %.3f", c.name, timing, level/n, equipment/n)
			if level/n < c.level || equipment/n < c.equipment {
				t.Errorf("%s, %v: level %.3f, equipment %.3f; want at least %.2f and %.2f", c.name, timing, level/n, equipment/n, c.level, c.equipment)
			}
		}
	}
}

// spoken checks that every word of the remarks stands where the remark says it does.
func spoken(t *testing.T, name string, track *caption.Track, f remarks.Found) {
	t.Helper()
	all := slices.Concat(f.Equipment, f.Cautions, f.Effort, f.Options, f.Afterwards)
	for _, r := range []*remarks.Remark{f.Title, f.Level} {
		if r != nil {
			all = append(all, *r)
		}
	}
	for _, r := range all {
		text := strings.ToLower(r.Text)
		for _, w := range track.Words[r.First:r.Last] {
			rest, ok := strings.CutPrefix(strings.TrimLeft(text, " ,.?!;:-…\"'"), strings.ToLower(w.Text))
			if !ok {
				t.Errorf("%s: %q is not what words %d to %d say: %q at %q", name, r.Text, r.First, r.Last, w.Text, text)
				break
			}
			text = rest
		}
		if rest := strings.Trim(text, " ,.?!;:-…\"'"); rest != "" {
			t.Errorf("%s: %q ends in words that were never said: %q", name, r.Text, rest)
		}
	}
}

// recall is the share of the words of truth, without common ones and plural endings, that stand in found.
func recall(truth, found string) float64 {
	want, have := wordsOf(truth), wordsOf(found)
	n := 0
	for w := range want {
		if have[w] {
			n++
		}
	}
	return float64(n) / float64(len(want))
}

const common = "the a an of and to on with without able some something your you for have has had are was been from into onto this that or in at it is be by"

func wordsOf(text string) map[string]bool {
	out := map[string]bool{}
	for _, w := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r < 'a' || r > 'z' }) {
		if !slices.Contains(strings.Fields(common), w) {
			out[strings.TrimRight(strings.TrimSuffix(w, "s"), "e")] = true
		}
	}
	return out
}

func BenchmarkFind(b *testing.B) {
	var tracks []*caption.Track
	words := 0
	for _, s := range corpus.Sessions() {
		track, err := caption.Parse(s.Word.Data, s.Word.Name, caption.Options{})
		if err != nil {
			b.Fatal(err)
		}
		tracks = append(tracks, track)
		words += len(track.Words)
	}
	b.ReportAllocs()
	for b.Loop() {
		for _, track := range tracks {
			remarks.Find(track, 0)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(words), "ns/word")
}
