package caption

import (
	"bytes"
	"os"
	"testing"
	"time"

	"github.com/asticode/go-astisub"
)

// hourVTT returns an hour of roll-up captions: the longest labelled session two and a half times over.
func hourVTT(tb testing.TB) []byte {
	b, err := os.ReadFile("../../corpus/sessions/knee-weeks4.word.vtt")
	if err != nil {
		tb.Fatal(err)
	}
	track, err := Parse(b, "", Options{})
	if err != nil {
		tb.Fatal(err)
	}
	var out bytes.Buffer
	out.WriteString("WEBVTT\nKind: captions\nLanguage: en\n\n")
	blocks := bytes.Split(b, []byte("\n\n"))[1:]
	for k := 0; k < 3; k++ {
		for _, block := range blocks {
			out.Write(shiftTimes(block, Time(k)*track.Duration))
			out.WriteString("\n\n")
		}
	}
	return out.Bytes()
}

// shiftTimes adds d to every time such as 00:01:02.345 in b.
func shiftTimes(b []byte, d Time) []byte {
	var out []byte
	for i := 0; i < len(b); {
		if i+12 <= len(b) && b[i] >= '0' && b[i] <= '9' && b[i+2] == ':' && b[i+8] == '.' {
			t, n, _ := readClock(string(b[i : i+12]))
			if n == 12 {
				out = append(out, clockText(t+d)...)
				i += 12
				continue
			}
		}
		out = append(out, b[i])
		i++
	}
	return out
}

func BenchmarkParse(b *testing.B) {
	hour := hourVTT(b)
	files := map[string][]byte{"word-hour": hour}
	names := []string{"word-hour"}
	for _, f := range []string{"word.vtt", "cue.srt", "block.txt"} {
		data, err := os.ReadFile("../../corpus/sessions/knee-weeks4." + f)
		if err != nil {
			b.Fatal(err)
		}
		files[f], names = data, append(names, f)
	}
	for _, name := range names {
		data := files[name]
		b.Run(name, func(b *testing.B) {
			b.SetBytes(int64(len(data)))
			b.ReportAllocs()
			words := 0
			for b.Loop() {
				t, err := Parse(data, name, Options{})
				if err != nil {
					b.Fatal(err)
				}
				words = len(t.Words)
			}
			b.ReportMetric(float64(words), "words")
		})
	}
}

// BenchmarkLibrary reads the same hour with the subtitle library alone, which loses the words' times.
func BenchmarkLibrary(b *testing.B) {
	hour := hourVTT(b)
	b.SetBytes(int64(len(hour)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := astisub.ReadFromWebVTT(bytes.NewReader(hour)); err != nil {
			b.Fatal(err)
		}
	}
}

// TestAllocations: reading costs at most two allocations a cue, in each timing.
func TestAllocations(t *testing.T) {
	for _, name := range []string{"knee-weeks4.word.vtt", "knee-weeks4.cue.srt", "knee-weeks4.block.txt"} {
		b, err := os.ReadFile("../../corpus/sessions/" + name)
		if err != nil {
			t.Fatal(err)
		}
		track, err := Parse(b, name, Options{})
		if err != nil {
			t.Fatal(err)
		}
		most := float64(2*len(track.Cues) + 100)
		if n := testing.AllocsPerRun(5, func() { Parse(b, name, Options{}) }); n > most {
			t.Errorf("%s: %v allocations for %d cues", name, n, len(track.Cues))
		}
	}
}

// TestFasterThanLibrary compares the best of five readings of an hour of captions; the benchmarks show some eleven times, and the
// test asks for four, for busy machines.
func TestFasterThanLibrary(t *testing.T) {
	hour := hourVTT(t)
	best := func(read func()) time.Duration {
		d := time.Hour
		for range 5 {
			start := time.Now()
			read()
			d = min(d, time.Since(start))
		}
		return d
	}
	ours := best(func() { Parse(hour, "hour.vtt", Options{}) })
	library := best(func() { astisub.ReadFromWebVTT(bytes.NewReader(hour)) })
	if ours*4 > library {
		t.Errorf("%v, the library takes %v", ours, library)
	}
}
