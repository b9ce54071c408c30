package standards_test

import (
	"fmt"
	"math"
	"testing"

	"captally.example/captally/analyze"
	"captally.example/captally/corpus"
	"captally.example/captally/segment/caption"
	"captally.example/captally/tests/spoken"
	"captally.example/captally/tests/standards"
)

// nearness is how far a length may be off where every word is said exactly on its beat: what the file's clock cannot tell.
type nearness struct{ seconds, share float64 }

func (n nearness) of(length float64) float64 { return n.seconds + n.share*length }

var timeNear = map[caption.Timing]nearness{caption.TimingWord: {0.5, 0.02}, caption.TimingCue: {1.5, 0.02}, caption.TimingBlock: {8, 0.1}}

// fullBlocks is a length in seconds that surely holds one block of a transcript from its start to its end, and so a known beat. A shorter set may lie in blocks that hold talk as well, and its
// length is then anyone's guess within what the report states.
const fullBlocks = 60

// announcing is how long "Here we go again. Second set, twenty again. Ready, and go" takes before a set at most, in seconds.
const announcing = 8.0

// measure returns the report of a speech, and fails where the speech cannot be read.
func measure(t *testing.T, f spoken.File) *analyze.Report {
	t.Helper()
	r, err := f.Measure()
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// stated are the intervals of time under tension that reports state, by timing, to be judged together: one in ten may miss.
type stated map[caption.Timing][]corpus.Interval

// checkSets asks for exactly the sets of a class: repetitions, time under tension, pace, and no finding.
func checkSets(t *testing.T, sets ...standards.Set) stated {
	t.Helper()
	speech, given := standards.Class(sets...)
	out := stated{}
	for _, f := range speech.Files() {
		t.Run(f.Timing.String(), func(t *testing.T) {
			r := measure(t, f)
			if len(r.Sets) != len(sets) {
				t.Fatalf("%d sets found, want %d", len(r.Sets), len(sets))
			}
			for i, s := range r.Sets {
				want, length := sets[i], given[i].End-given[i].Start
				near := timeNear[f.Timing].of(length)
				if s.Phase != "work" {
					t.Errorf("set %d: found as %s, want work", i+1, s.Phase)
				}
				if s.Performed.Reps == nil || *s.Performed.Reps != want.Reps {
					t.Errorf("set %d: %s repetitions, want %d", i+1, show(s.Performed.Reps), want.Reps)
				}
				if f.Timing != caption.TimingBlock || length >= fullBlocks {
					if math.Abs(s.Tension.Value-length) > near {
						t.Errorf("set %d: %.1f s under tension, want %.1f", i+1, s.Tension.Value, length)
					}
					if math.Abs(s.Pace-want.Pace) > near/float64(want.Reps) {
						t.Errorf("set %d: %.2f s a repetition, want %.2f", i+1, s.Pace, want.Pace)
					}
				}
				out[f.Timing] = append(out[f.Timing], corpus.Interval{Low: s.Tension.Low, High: s.Tension.High, Truth: length})
			}
			for _, x := range r.Findings {
				if f.Timing == caption.TimingBlock && x.Rest != "" {
					continue // where a rest lies within its block is anyone's guess
				}
				if x.Cause == "session" {
					t.Errorf("a finding in a class without a slip: %s at %.0f s, %s", x.Kind, x.At, x.Text)
				}
			}
		})
	}
	return out
}

func show(n *int) string {
	if n == nil {
		return "no"
	}
	return fmt.Sprint(*n)
}

// Time under tension of a set is the sum of its repetitions' efforts: Lu W et al. 2023, J Hum Kinet 87:157-65, doi:10.5114/jhk/161472.
// The tempos and repetitions are those of the rows; repetitions times tempo is worked out here.
func TestTensionFromTempo(t *testing.T) {
	for _, c := range []struct {
		source     string
		reps       int
		tempo, set float64 // s
	}{
		// Westcott WL et al. 2001, J Sports Med Phys Fitness 41(2):154-8: 8 to 12 repetitions of 7 s (2 up, 1 pause, 4 down) against 4 to 6 of 14 s (10 up, 4 down).
		{"Westcott 2001, regular, fewest", 8, 7, 56},
		{"Westcott 2001, regular, most", 12, 7, 84},
		{"Westcott 2001, slow, fewest", 4, 14, 56},
		{"Westcott 2001, slow, most", 6, 14, 84},
		// Wilk M et al. 2018, J Hum Kinet 62:241-50, doi:10.2478/hukin-2018-0034: tempos 2/0/2/0, 5/0/3/0 and 6/0/4/0 (s down, pause, up, pause).
		{"Wilk 2018, 2/0/2/0", 10, 4, 40},
		{"Wilk 2018, 5/0/3/0", 10, 8, 80},
		{"Wilk 2018, 6/0/4/0", 10, 10, 100},
	} {
		t.Run(c.source, func(t *testing.T) {
			if float64(c.reps)*c.tempo != c.set {
				t.Fatalf("%d repetitions of %g s are not %g s", c.reps, c.tempo, c.set)
			}
			checkSets(t, standards.Set{Exercise: "wall presses", Numbers: spoken.Numbers(1, c.reps, 1), Reps: c.reps, Pace: c.tempo})
		})
	}
}

// Burd NA et al. 2012, J Physiol 590:351-62, doi:10.1113/jphysiol.2011.221200: 6 s up and 6 s down against 1 s and 1 s, so six times the tension for the same repetitions.
func TestTensionRatio(t *testing.T) {
	slow, _ := standards.Class(standards.Set{Exercise: "knee extensions", Numbers: spoken.Numbers(1, 8, 1), Reps: 8, Pace: 12})
	fast, _ := standards.Class(standards.Set{Exercise: "knee extensions", Numbers: spoken.Numbers(1, 8, 1), Reps: 8, Pace: 2})
	for i := range 2 { // word and cue timing
		a, b := measure(t, slow.Files()[i]), measure(t, fast.Files()[i])
		if len(a.Sets) != 1 || len(b.Sets) != 1 {
			t.Errorf("%s: %d and %d sets, want one each", slow.Files()[i].Timing, len(a.Sets), len(b.Sets))
			continue
		}
		if ratio := a.Sets[0].Tension.Value / b.Sets[0].Tension.Value; math.Abs(ratio-6) > 0.3 {
			t.Errorf("%s: the slow set has %.2f times the tension of the fast one, want 6", slow.Files()[i].Timing, ratio)
		}
	}
}

// Kim PS, Mayhew JL, Peterson DF 2002, J Strength Cond Res 16(3):440-5: a metronome at 60 beats a minute, one beat up and one down, makes 30 repetitions a minute.
func TestCadenceOfMetronome(t *testing.T) {
	const beats = 60.0 // a minute
	pace := 60 / (beats / 2)
	checkSets(t, standards.Set{Exercise: "bench presses", Numbers: spoken.Numbers(1, 20, 1), Reps: 20, Pace: pace})
}

// Step test at 96 beats a minute, up-up-down-down: 24 steps a minute (YMCA protocol, restated at altiushealthcare.co.uk), so 72 in its three minutes.
func TestCadenceOfStepTest(t *testing.T) {
	const steps = 96.0 / 4 // a minute
	checkSets(t, standards.Set{Exercise: "step ups", Numbers: spoken.Numbers(1, 72, 1), Reps: 72, Pace: 60 / steps})
}

// A physiotherapist's plan at blog.parkrun.com/au/2020/06/29: 20 calf raises of 6 s, 60 s of rest, 20, 60 s, 20. That makes 60 repetitions, 360 s of
// work and 120 s of rest, 480 s in all.
func TestCalfRaisePlan(t *testing.T) {
	set := standards.Set{Exercise: "calf raises", Numbers: spoken.Numbers(1, 20, 1), Reps: 20, Pace: 6, Rest: 60}
	last := set
	last.Rest = 0
	checkSets(t, set, set, last)
	speech, _ := standards.Class(set, set, last)
	for _, f := range speech.Files() {
		t.Run(f.Timing.String()+" totals", func(t *testing.T) {
			r := measure(t, f)
			if r.Totals.Reps != 60 || r.Totals.Sets != 3 {
				t.Errorf("%d repetitions in %d sets, want 60 in 3", r.Totals.Reps, r.Totals.Sets)
			}
			for _, c := range []struct {
				what      string
				got, want float64
			}{{"work", r.Totals.Work, 360}, {"under tension", r.Totals.Tension.Value, 360}, {"rest", r.Totals.Rest, 120}, {"work and rest", r.Totals.Work + r.Totals.Rest, 480}} {
				near := timeNear[f.Timing].of(c.want)
				if c.what != "work" && c.what != "under tension" { // a rest ends where the next set is announced
					if f.Timing == caption.TimingBlock {
						continue // and where that is within a block is anyone's guess
					}
					near += 2 * announcing
				}
				if math.Abs(c.got-c.want) > near {
					t.Errorf("%s: %.1f s, want %g", c.what, c.got, c.want)
				}
			}
			if len(r.Rests) != 2 {
				t.Fatalf("%d rests, want 2", len(r.Rests))
			}
			for i, rest := range r.Rests {
				if f.Timing == caption.TimingBlock {
					if rest.Length.Low > 60 || rest.Length.High < 60-announcing {
						t.Errorf("rest %d: %+v, want a range that holds 60 s", i+1, rest.Length)
					}
					continue
				}
				if rest.Prescribed == nil || *rest.Prescribed != 60 || rest.Verdict != "kept" || math.Abs(rest.Length.Value-60) > timeNear[f.Timing].of(60)+announcing {
					t.Errorf("rest %d: %+v, want 60 s announced and kept", i+1, rest)
				}
			}
		})
	}
}
