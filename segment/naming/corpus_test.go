package naming_test

import (
	"slices"
	"strings"
	"testing"

	"captally.example/captally/corpus"
	"captally.example/captally/segment/caption"
	"captally.example/captally/segment/naming"
	"captally.example/captally/segment/numeral"
)

// TestCorpus names the sets of the labelled sessions, whose spans are taken from the truth, and bounds the share that is right:
// the F1 of the words of the two names is at least a half, as in corpus.Score.
func TestCorpus(t *testing.T) {
	for _, c := range []struct {
		name     string
		sessions []corpus.Session
		least    [3]float64 // word, cue, block
	}{
		{"sessions", corpus.Sessions(), [3]float64{0.95, 0.96, 0.97}},
		{"recognised", corpus.Recognised(), [3]float64{0.75, 0.74, 0.71}},
		{"more", corpus.More(), [3]float64{0.76, 0.76, 0.76}},
	} {
		var right, sets [3]int
		for _, s := range c.sessions {
			word := parse(t, s.Word)
			for i, f := range s.Files() {
				track := parse(t, f)
				spans := spansOf(s.Truth, track, times(word, track))
				for k, n := range naming.Names(track, spans) {
					if spans[k].Kind != naming.Work && spans[k].Kind != naming.Balance {
						continue
					}
					sets[i]++
					if sameExercise(s.Truth.Sets[k].Exercise, n.Text) {
						right[i]++
					} else {
						t.Logf("%s %s: %q for %q", f.Name, s.Truth.Sets[k].ID, n.Text, s.Truth.Sets[k].Exercise)
					}
				}
			}
		}
		for i, timing := range corpus.Timings {
			share := float64(right[i]) / float64(sets[i])
			t.Logf("%s, %v: %d of %d sets named right (%.3f)", c.name, timing, right[i], sets[i], share)
			if share < c.least[i] {
				t.Errorf("%s, %v: %.3f of the sets named right, want at least %.2f", c.name, timing, share, c.least[i])
			}
		}
	}
}

func parse(t *testing.T, f corpus.File) *caption.Track {
	t.Helper()
	track, err := caption.Parse(f.Data, f.Name, caption.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return track
}

// times returns for each word of a track when it was said, in seconds, from the same words in the track with word times.
func times(word, track *caption.Track) []float64 {
	a, b := word.Words, track.Words
	common := make([][]int16, len(a)+1) // longest common subsequence of the endings
	for i := range common {
		common[i] = make([]int16, len(b)+1)
	}
	for i := len(a) - 1; i >= 0; i-- {
		for j := len(b) - 1; j >= 0; j-- {
			common[i][j] = max(common[i+1][j], common[i][j+1])
			if a[i].Fold == b[j].Fold {
				common[i][j] = common[i+1][j+1] + 1
			}
		}
	}
	out := make([]float64, len(b))
	last := 0.0
	for i, j := 0, 0; j < len(b); {
		switch {
		case i < len(a) && a[i].Fold == b[j].Fold:
			last = a[i].Time.At.Seconds()
			out[j] = last
			i, j = i+1, j+1
		case i < len(a) && common[i+1][j] >= common[i][j+1]:
			i++
		default:
			out[j] = last
			j++
		}
	}
	return out
}

// Slack around the times of the truth, in seconds: the word times of the files are off by about 0.1.
const (
	goSlack    = 0.35
	countSlack = 0.4
	firstCount = 8 // words after the start of a set within which its first number stands
)

func spansOf(truth *corpus.Truth, track *caption.Track, at []float64) []naming.SetSpan {
	kinds := map[string]naming.Kind{"work": naming.Work, "balance": naming.Balance, "warm-up": naming.WarmUp, "cool-down": naming.CoolDown}
	isNumber := func(i int) bool { _, ok := numeral.Single(track.Words[i].Fold); return ok }
	var out []naming.SetSpan
	after := 0
	for _, s := range truth.Sets {
		span := naming.SetSpan{After: after, Kind: kinds[s.Phase], Counted: s.Go == nil, Start: caption.At(s.Start)}
		start := s.Start + countSlack
		if s.Go != nil {
			start = *s.Go - goSlack
		}
		span.First = after + indexFrom(at[after:], start)
		span.Last = span.First + indexFrom(at[span.First:], s.End+goSlack)
		if span.Counted {
			for i := span.First; i < min(span.First+firstCount, span.Last); i++ {
				if isNumber(i) {
					span.First = i
					break
				}
			}
			for i := span.Last; i > span.First; i-- {
				if isNumber(i - 1) {
					span.Last = i
					break
				}
			}
		}
		out = append(out, span)
		after = span.Last
	}
	return out
}

// indexFrom returns the index of the first time that is t or later.
func indexFrom(times []float64, t float64) int {
	i := slices.IndexFunc(times, func(x float64) bool { return x >= t })
	if i < 0 {
		return len(times)
	}
	return i
}

// sameExercise reports whether two names share enough words to mean one exercise.
func sameExercise(truth, found string) bool {
	a, b := wordsOf(truth), wordsOf(found)
	shared := 0
	for w := range a {
		if b[w] {
			shared++
		}
	}
	return shared > 0 && 4*shared >= len(a)+len(b) // F1 = 2*shared/(len(a)+len(b)) of at least a half
}

func wordsOf(name string) map[string]bool {
	out := map[string]bool{}
	for _, w := range strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return r < 'a' || r > 'z' }) {
		for _, e := range [][2]string{{"ises", "ise"}, {"ches", "ch"}, {"shes", "sh"}, {"es", ""}, {"s", ""}} {
			if rest, ok := strings.CutSuffix(w, e[0]); ok && len(rest) >= 3 {
				w = rest + e[1]
				break
			}
		}
		if w = strings.TrimRight(w, "e"); !slices.Contains([]string{"th", "a", "an", "of", "and", "to", "on", "with"}, w) {
			out[w] = true
		}
	}
	return out
}

func BenchmarkNames(b *testing.B) {
	for _, c := range []struct {
		name     string
		sessions []corpus.Session
	}{{"sessions", corpus.Sessions()}, {"recognised", corpus.Recognised()}} {
		b.Run(c.name, func(b *testing.B) {
			type input struct {
				track *caption.Track
				spans []naming.SetSpan
			}
			var in []input
			words := 0
			for _, s := range c.sessions {
				track, err := caption.Parse(s.Word.Data, s.Word.Name, caption.Options{})
				if err != nil {
					b.Fatal(err)
				}
				words += len(track.Words)
				in = append(in, input{track, spansOf(s.Truth, track, times(track, track))})
			}
			for b.Loop() {
				for _, x := range in {
					naming.Names(x.track, x.spans)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(words), "ns/word")
		})
	}
}
