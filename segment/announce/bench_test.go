package announce

import (
	"os"
	"testing"

	"captally.example/captally/segment/caption"
)

// readSession reads one file of the labelled sessions.
func readSession(tb testing.TB, path string) *caption.Track {
	tb.Helper()
	b, err := os.ReadFile("../../corpus/" + path)
	if err != nil {
		tb.Fatal(err)
	}
	track, err := caption.Parse(b, path, caption.Options{})
	if err != nil {
		tb.Fatal(err)
	}
	return track
}

func BenchmarkFind(b *testing.B) {
	for _, path := range []string{"sessions/knee-weeks4.word.vtt", "sessions/hip-clinic-hour.cue.srt", "recognised/knee-weeks4.block.txt"} {
		b.Run(path, func(b *testing.B) {
			track := readSession(b, path)
			for b.Loop() {
				Find(track)
			}
			b.ReportMetric(float64(len(track.Words)), "words")
		})
	}
}

func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		if _, err := newLexicon(wordsFile, phrasesFile); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkAsk asks for sides, doses and rests, as a session's decoder does.
func BenchmarkAsk(b *testing.B) {
	for _, path := range []string{"sessions/hip-clinic-hour.word.vtt", "recognised/hip-clinic-hour.word.vtt"} {
		b.Run(path, func(b *testing.B) {
			track := readSession(b, path)
			mentions := Find(track)
			var sets []SetSpan
			var rests []RestSpan
			for i := 300; i+50 < len(track.Words); i += 90 {
				sets = append(sets, SetSpan{First: i, Last: i + 40, Exercise: "heel raise", Count: 10})
				rests = append(rests, RestSpan{First: i + 40, Last: i + 90})
			}
			b.ReportAllocs()
			for b.Loop() {
				Sides(track, sets, mentions)
				RestDosesBeside(sets, rests, mentions, Doses(track, sets, mentions))
			}
			b.ReportMetric(float64(len(sets)), "sets")
		})
	}
}
