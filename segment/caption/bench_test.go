package caption

import (
	"bytes"
	"os"
	"strconv"
	"strings"
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

// TestFasterThanLibrary compares the best of seven readings of an hour of captions that roll up, taken in turn with those of go-astisub
// v0.41.0 and of a bare look at every byte. Alone on a machine it is more than ten times as fast as the library; the test asks for six,
// for busy machines.
func TestFasterThanLibrary(t *testing.T) {
	hour := hourVTT(t)
	ours, library, bytesOnly := time.Hour, time.Hour, time.Hour
	cues := 0
	for range 7 {
		ours = min(ours, timeOf(func() {
			track, err := Parse(hour, "hour.vtt", Options{})
			if err != nil {
				t.Fatal(err)
			}
			cues = len(track.Cues)
		}))
		library = min(library, timeOf(func() {
			if _, err := astisub.ReadFromWebVTT(bytes.NewReader(hour)); err != nil {
				t.Fatal(err)
			}
		}))
		bytesOnly = min(bytesOnly, timeOf(func() { lineEnds(hour) }))
	}
	allocations := testing.AllocsPerRun(5, func() { Parse(hour, "hour.vtt", Options{}) })
	ratio := float64(library) / float64(ours)
	t.Logf("an hour that rolls up, %d KB: read in %v, by go-astisub in %v (%.1f times), its bytes alone in %v; %v allocations for %d cues",
		len(hour)/1000, ours.Round(10*time.Microsecond), library.Round(10*time.Microsecond), ratio, bytesOnly.Round(time.Microsecond), allocations, cues)
	if ratio < 6 {
		t.Errorf("only %.1f times as fast as the library", ratio)
	}
}

func timeOf(f func()) time.Duration {
	start := time.Now()
	f()
	return time.Since(start)
}

// lineEnds reads every byte once and does nothing else.
func lineEnds(b []byte) (n int) {
	for _, c := range b {
		if c == '\n' {
			n++
		}
	}
	return n
}

// BenchmarkBytes only looks at every byte of the same hour.
func BenchmarkBytes(b *testing.B) {
	hour := hourVTT(b)
	b.SetBytes(int64(len(hour)))
	for b.Loop() {
		lineEnds(hour)
	}
}

// BenchmarkMillion reads a million cues.
func BenchmarkMillion(b *testing.B) {
	file := []byte(manyCues(1_000_000))
	b.SetBytes(int64(len(file)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Parse(file, "million.srt", Options{MaxBytes: 1 << 30, MaxCues: 1_000_000}); err != nil {
			b.Fatal(err)
		}
	}
}

// manyCues writes n SubRip cues of two words, five to a second.
func manyCues(n int) string {
	var b strings.Builder
	for i := range n {
		start := Time(i%400_000) * Time(200*time.Millisecond)
		b.WriteString(strconv.Itoa(i+1) + "\n" + clockText(start) + " --> " + clockText(start+Time(190*time.Millisecond)) + "\nand " + strconv.Itoa(i%10+1) + "\n\n")
	}
	return b.String()
}
