package corpus_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"captally.example/captally/analyze"
	"captally.example/captally/corpus/author"
	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

// A sample is a session drawn at random, with its truth and what was found in its captions, by timing.
type sample struct {
	name    string
	session *author.Session
	files   []author.File
}

func sampled(t *testing.T, seed uint64, h author.Habit) sample {
	t.Helper()
	name := fmt.Sprintf("sample-%d.script.txt", seed)
	script := author.Sample(seed, h)
	parsed, err := author.Parse(name, strings.NewReader(string(script)))
	if err != nil {
		t.Fatal(err)
	}
	played, err := author.Play(name, parsed)
	if err != nil {
		t.Fatalf("%v\n%s", err, script)
	}
	files, _, err := author.Render(name, script)
	if err != nil {
		t.Fatal(err)
	}
	return sample{name, played, files}
}

func found(t *testing.T, f author.File, data []byte) *analyze.Report {
	t.Helper()
	tr, err := caption.Parse(data, f.Name, caption.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return analyze.Measure(segment.Decode(tr), analyze.Options{})
}

// setAt returns the set of a report that overlaps [start, end] most, nil where none does by half.
func setAt(r *analyze.Report, start, end float64) *analyze.Set {
	var best *analyze.Set
	most := 0.5 * (end - start)
	for i := range r.Sets {
		s := &r.Sets[i]
		if o := math.Min(end, s.End) - math.Max(start, s.Start); o > most {
			best, most = s, o
		}
	}
	return best
}

// TestSampledCounts: a clean count at an even beat is exact, whatever the timing, up or down.
func TestSampledCounts(t *testing.T) {
	for seed := range uint64(80) {
		s := sampled(t, seed, author.Habit{Down: true})
		for _, f := range s.files[:3] {
			r := found(t, f, f.Data)
			if len(r.Sets) != len(s.session.Truth.Sets) {
				t.Errorf("%s: %d sets found, %d done", f.Name, len(r.Sets), len(s.session.Truth.Sets))
				continue
			}
			for i, want := range s.session.Truth.Sets {
				if got := r.Sets[i].Performed.Reps; got == nil || *got != want.Performed.Reps {
					t.Errorf("%s: %s at %.0f s: %d repetitions done, found %s", f.Name, want.Exercise, float64(want.Start), want.Performed.Reps, number(got))
				}
			}
			for _, x := range r.Findings {
				if strings.HasPrefix(x.Kind, "count") && x.Cause == "session" && x.Probability > 0.5 {
					t.Errorf("%s: nothing was counted wrong, found %s at %.0f s", f.Name, x.Kind, x.At)
				}
			}
		}
	}
}

func number(n *int) string {
	if n == nil {
		return "none"
	}
	return fmt.Sprint(*n)
}

// TestSampledSides: beside timed sets, and on both sides, one set in a hundred is wrong at most: not found, of another kind, miscounted or
// of the other side. A captioner may lose the very word that begins a set.
func TestSampledSides(t *testing.T) {
	sets, wrong := 0, 0
	odd := func(format string, args ...any) {
		wrong++
		t.Logf(format, args...)
	}
	for seed := range uint64(40) {
		s := sampled(t, 300+seed, author.Habit{Sides: true, Held: true})
		for _, f := range s.files[:3] {
			r := found(t, f, f.Data)
			sets += len(s.session.Truth.Sets)
			if len(r.Sets) != len(s.session.Truth.Sets) {
				odd("%s: %d sets found, %d done", f.Name, len(r.Sets), len(s.session.Truth.Sets))
				continue
			}
			for i, want := range s.session.Truth.Sets {
				got := &r.Sets[i]
				if want.Performed.Seconds != nil {
					if got.Performed.Seconds == nil {
						odd("%s: %s at %.0f s: a timed set, found %s repetitions", f.Name, want.Exercise, float64(want.Start), number(got.Performed.Reps))
					}
					continue
				}
				if reps := got.Performed.Reps; reps == nil || *reps != want.Performed.Reps {
					odd("%s: %s at %.0f s: %d repetitions done, found %s", f.Name, want.Exercise, float64(want.Start), want.Performed.Reps, number(reps))
				}
				if (want.Side == "left" || want.Side == "right") && got.Side != want.Side {
					odd("%s: %s at %.0f s: %s side, found %q", f.Name, want.Exercise, float64(want.Start), want.Side, got.Side)
				}
			}
		}
	}
	if wrong*100 > sets {
		t.Errorf("%d of %d sets are wrong", wrong, sets)
	}
}

// TestSampledRanges: the ranges hold the truth about nine times in ten when counts have slips and the captioner errs. The bounds leave
// room for chance: with n sets, three standard deviations of a share of 0.9.
func TestSampledRanges(t *testing.T) {
	for k, timing := range []string{"word", "cue", "block"} {
		n, reps, tension := 0, 0, 0
		for seed := range uint64(80) {
			s := sampled(t, 100+seed, author.Habit{Slips: 0.3, Faults: 1})
			r := found(t, s.files[k], s.files[k].Data)
			for _, want := range s.session.Truth.Sets {
				got := setAt(r, float64(want.Start), float64(want.End))
				if got == nil || got.Performed.RepsLow == nil {
					continue
				}
				n++
				if *got.Performed.RepsLow <= want.Performed.Reps && want.Performed.Reps <= *got.Performed.RepsHigh {
					reps++
				}
				if length := float64(want.End - want.Start); got.Tension.Low <= length && length <= got.Tension.High {
					tension++
				}
			}
		}
		least := 0.9 - 3*math.Sqrt(0.9*0.1/float64(n))
		t.Logf("%-5s %d sets: repetitions within their range %.3f, time under tension %.3f", timing, n, float64(reps)/float64(n), float64(tension)/float64(n))
		if n < 150 || float64(reps) < least*float64(n) || float64(tension) < least*float64(n) {
			t.Errorf("%s: of %d sets the ranges hold the repetitions of %d and the time of %d; at least %.3f expected", timing, n, reps, tension, least)
		}
	}
}

// TestSampledLater: the same session a minute later gives the same report a minute later.
func TestSampledLater(t *testing.T) {
	const later = 60.0
	for seed := range uint64(6) {
		s := sampled(t, 200+seed, author.Habit{Slips: 0.3, Faults: 1})
		f := s.files[1]
		a, b := found(t, f, f.Data), found(t, f, delayed(t, f.Data, later))
		if len(a.Sets) != len(b.Sets) || len(a.Findings) != len(b.Findings) || len(a.Rests) != len(b.Rests) {
			t.Errorf("%s: %d sets, %d rests, %d findings, a minute later %d, %d, %d", f.Name, len(a.Sets), len(a.Rests), len(a.Findings), len(b.Sets), len(b.Rests), len(b.Findings))
			continue
		}
		for i := range a.Sets {
			x, y := &a.Sets[i], &b.Sets[i]
			if math.Abs(y.Start-x.Start-later) > 0.002 || math.Abs(y.End-x.End-later) > 0.002 || x.Exercise != y.Exercise || math.Abs(x.Tension.High-y.Tension.High) > 0.002 {
				t.Errorf("%s: set %d at %.3f to %.3f s, a minute later at %.3f to %.3f s", f.Name, i, x.Start, x.End, y.Start, y.End)
			}
		}
	}
}

// delayed writes SubRip captions with all times later.
func delayed(t *testing.T, srt []byte, by float64) []byte {
	t.Helper()
	lines := strings.Split(string(srt), "\n")
	n := 0
	for i, l := range lines {
		if a, b, ok := strings.Cut(l, " --> "); ok {
			lines[i] = laterClock(t, a, by) + " --> " + laterClock(t, b, by)
			n++
		}
	}
	if n == 0 {
		t.Fatal("no times in the captions")
	}
	return []byte(strings.Join(lines, "\n"))
}

func laterClock(t *testing.T, clock string, by float64) string {
	t.Helper()
	var h, m, s, ms int
	if _, err := fmt.Sscanf(clock, "%d:%d:%d,%d", &h, &m, &s, &ms); err != nil {
		t.Fatalf("%q: %v", clock, err)
	}
	ms += 1000 * (3600*h + 60*m + s + int(by))
	return fmt.Sprintf("%02d:%02d:%02d,%03d", ms/3600000, ms/60000%60, ms/1000%60, ms%1000)
}
