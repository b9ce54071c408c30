// Package speed compares the whole way from bytes to report with what other libraries need for the first step of it. Milliseconds differ from machine to machine
// and from run to run; a ratio taken within one run holds.
package speed

import (
	"bytes"
	"fmt"
	"runtime"
	"testing"
	"time"

	"github.com/asticode/go-astisub"
	"github.com/jdkato/prose/v2"

	"captally.example/captally/analyze"
	"captally.example/captally/corpus"
	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

// session is a session of 25 minutes, about 2,200 words.
const session = "knee-weeks4"

// rival is what a file's report is compared with.
type rival struct {
	name    string
	goal    float64 // how many times the rival's time the report should take at most
	ceiling float64 // how many times it may take today; to be lowered to the goal
	run     func([]byte) error
}

// rivals are the first steps in other libraries: go-astisub v0.41.0 reads captions and finds no words in them; prose v2.0.0, told to do nothing else, splits a
// transcript into tokens.
var rivals = map[caption.Timing]rival{
	caption.TimingWord: {"go-astisub reading the same WebVTT", 1, 2, func(b []byte) error {
		_, err := astisub.ReadFromWebVTT(bytes.NewReader(b))
		return err
	}},
	caption.TimingCue: {"go-astisub reading the same SubRip", 3, 10, func(b []byte) error {
		_, err := astisub.ReadFromSRT(bytes.NewReader(b))
		return err
	}},
	caption.TimingBlock: {"prose splitting the same transcript", 15, 30, func(b []byte) error {
		_, err := prose.NewDocument(string(b), prose.WithTagging(false), prose.WithExtraction(false), prose.WithSegmentation(false))
		return err
	}},
}

// report takes a file the whole way.
func report(f corpus.File) error {
	track, err := caption.Parse(f.Data, f.Name, caption.Options{})
	if err != nil {
		return err
	}
	analyze.Measure(segment.Decode(track), analyze.Options{})
	return nil
}

func files(tb testing.TB) []corpus.File {
	for _, s := range corpus.Sessions() {
		if s.Name == session {
			return s.Files()
		}
	}
	tb.Fatalf("no session %s", session)
	return nil
}

// best returns the least processor time that each of two takes, measured in turn and over several runs, so that the collection of their garbage counts.
func best(tb testing.TB, a, b func() error) (ta, tb2 time.Duration) {
	ta, tb2 = time.Hour, time.Hour
	for range 5 {
		ta, tb2 = min(ta, each(tb, a)), min(tb2, each(tb, b))
	}
	return ta, tb2
}

// each returns the processor time of one run, averaged over as many as take a twentieth of a second.
func each(tb testing.TB, run func() error) time.Duration {
	start, runs := cpu(), 0
	for runs == 0 || cpu()-start < 50*time.Millisecond {
		if err := run(); err != nil {
			tb.Fatal(err)
		}
		runs++
	}
	return (cpu() - start) / time.Duration(runs)
}

func TestReportKeepsUp(t *testing.T) {
	for _, f := range files(t) {
		r := rivals[f.Timing]
		ours, theirs := best(t, func() error { return report(f) }, func() error { return r.run(f.Data) })
		ratio := float64(ours) / float64(theirs)
		t.Logf("%s: the report takes %.2f times %s (%v against %v; goal %g)", f.Name, ratio, r.name, ours, theirs, r.goal)
		if ratio > r.ceiling {
			t.Errorf("%s: the report takes %.2f times %s, more than %.2f", f.Name, ratio, r.name, r.ceiling)
		}
	}
}

// What a report may allocate.
const (
	goalAllocs    = 1.0 // a word
	goalBytes     = 2e6 // for the session
	ceilingAllocs = 1.1 // today, likewise; to be lowered to the goals
	ceilingBytes  = 3.4e6
)

func TestReportAllocatesLittle(t *testing.T) {
	const runs = 5
	for _, f := range files(t) {
		words := float64(len(parsed(t, f).Words))
		if err := report(f); err != nil { // which reads the tables of the program
			t.Fatal(err)
		}
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		for range runs {
			if err := report(f); err != nil {
				t.Fatal(err)
			}
		}
		runtime.ReadMemStats(&after)
		allocs, bytes := float64(after.Mallocs-before.Mallocs)/runs/words, float64(after.TotalAlloc-before.TotalAlloc)/runs
		t.Logf("%s: the report takes %.2f allocations a word and %.2f MB (goals %g and %g)", f.Name, allocs, bytes/1e6, goalAllocs, goalBytes/1e6)
		if allocs > ceilingAllocs || bytes > ceilingBytes {
			t.Errorf("%s: more than %g allocations a word or %g MB", f.Name, ceilingAllocs, ceilingBytes/1e6)
		}
	}
}

// mostLonger is how many times the time a word a report of a session of 16 times the words may take.
const mostLonger = 1.5

func TestLongSessionsKeepUp(t *testing.T) {
	for _, f := range files(t) {
		track := parsed(t, f)
		measure := func(tr *caption.Track) func() error {
			return func() error { analyze.Measure(segment.Decode(tr), analyze.Options{}); return nil }
		}
		const times = 16
		one, many := best(t, measure(track), measure(repeated(track, times)))
		ratio := float64(many) / float64(one) / times
		t.Logf("%s: of %d times the words a word takes %.2f times as long (goal %g)", f.Name, times, ratio, mostLonger)
		if ratio > 1.5*mostLonger { // machines are noisy; what grows with the square of the words would take ten times as long
			t.Errorf("%s: of %d times the words a word takes %.2f times as long", f.Name, times, ratio)
		}
	}
}

func parsed(tb testing.TB, f corpus.File) *caption.Track {
	track, err := caption.Parse(f.Data, f.Name, caption.Options{})
	if err != nil {
		tb.Fatal(err)
	}
	return track
}

// repeated returns a track in which all is said so many times, one after the other.
func repeated(track *caption.Track, times int) *caption.Track {
	out := *track
	out.Words, out.Cues, out.Events = nil, nil, nil
	for k := range times {
		later, words, cues := track.Duration*caption.Time(k), len(out.Words), len(out.Cues)
		for _, w := range track.Words {
			w.Cue += cues
			w.Time.At, w.Time.Low, w.Time.High = w.Time.At+later, w.Time.Low+later, w.Time.High+later
			out.Words = append(out.Words, w)
		}
		for _, c := range track.Cues {
			c.Start, c.End, c.First, c.Last = c.Start+later, c.End+later, c.First+words, c.Last+words
			out.Cues = append(out.Cues, c)
		}
	}
	out.Duration *= caption.Time(times)
	return &out
}

func BenchmarkReport(b *testing.B) {
	for _, f := range files(b) {
		b.Run(fmt.Sprintf("timing=%s", f.Timing), func(b *testing.B) {
			b.ReportAllocs()
			b.SetBytes(int64(len(f.Data)))
			for b.Loop() {
				if err := report(f); err != nil {
					b.Fatal(err)
				}
			}
			r := rivals[f.Timing]
			ours, theirs := best(b, func() error { return report(f) }, func() error { return r.run(f.Data) })
			b.ReportMetric(float64(ours)/float64(theirs), "x-rival")
		})
	}
}

// BenchmarkParse shows what the reading alone takes of it.
func BenchmarkParse(b *testing.B) {
	for _, f := range files(b) {
		b.Run(fmt.Sprintf("timing=%s", f.Timing), func(b *testing.B) {
			b.ReportAllocs()
			b.SetBytes(int64(len(f.Data)))
			for b.Loop() {
				if _, err := caption.Parse(f.Data, f.Name, caption.Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
