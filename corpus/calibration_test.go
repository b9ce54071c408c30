package corpus_test

import (
	"fmt"
	"math"
	"slices"
	"testing"
	"text/tabwriter"

	"captally.example/captally/analyze"
	"captally.example/captally/corpus"
	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

// odds finds the odd places of a file.
func odds(f corpus.File) ([]analyze.Odd, error) {
	track, err := caption.Parse(f.Data, f.Name, caption.Options{})
	if err != nil {
		return nil, err
	}
	return analyze.Odds(segment.Decode(track)), nil
}

// calibrationCeilings are calibration errors of sessions left out that may not get worse, in word, cue and block timing.
var calibrationCeilings = map[bool][3]float64{
	false: {0.05, 0.05, 0.05},
	true:  {0.06, 0.13, 0.28},
}

// TestCalibration prints how reliable the causes of odd numbers are where they are more likely than not, by weights fitted on the other
// sessions, and holds the calibration errors against their ceilings. A share that is right strays by chance too: what that alone would
// give stands beside the error. On recognised captions only what is said of the session can be judged.
func TestCalibration(t *testing.T) {
	list, err := corpus.Verdicts(odds)
	if err != nil {
		t.Fatal(err)
	}
	p := corpus.LeftOut(list, func(v corpus.Verdict) string { return v.Session })
	for _, heard := range []bool{false, true} {
		by := map[bool]string{false: "hand-made", true: "recognised"}[heard]
		t.Log("\n" + lines(func(w *tabwriter.Writer) {
			fmt.Fprintln(w, by+", session left out\ttiming\tn\tsessions\tstated\tright")
			for k, timing := range corpus.Timings {
				var likely []corpus.Judgement
				sessions := map[string]bool{}
				for i, v := range list {
					if v.Heard == heard && v.Timing == timing && v.Odd.Until == 0 && p[i] > 0.5 {
						likely = append(likely, corpus.Judgement{Probability: p[i], Right: v.Right})
						sessions[v.Session] = true
					}
				}
				bins, ece := corpus.Reliability(likely)
				for i, b := range bins {
					fmt.Fprintf(w, "%.1f to %.1f\t%s\t%d\t\t", float64(i)/10, float64(i+1)/10, timing, b.N)
					if b.N > 0 {
						fmt.Fprintf(w, "%.2f\t%.2f", b.Stated, b.Right)
					}
					fmt.Fprintln(w)
				}
				fmt.Fprintf(w, "all\t%s\t%d\t%d\tcalibration error %.3f\t(%.3f by chance), Brier score %.3f\n", timing, len(likely), len(sessions), ece, corpus.ByChance(likely), corpus.Brier(likely))
				if most := calibrationCeilings[heard][k]; ece > most {
					t.Errorf("%s captions, %s timing: calibration error %.3f, above its ceiling of %.3f", by, timing, ece, most)
				}
				if len(likely) == 0 {
					t.Errorf("%s captions, %s timing: nothing was judged", by, timing)
				}
			}
		}))
	}
}

// TestCalibrationOfLengths prints how reliable it is that a set, a rest or a side was not as long as it ought to be, by weights fitted on the
// other sessions, beside what the limits of the lengths alone would say. Weighing must pay: what is stated must lie nearer to what is true.
func TestCalibrationOfLengths(t *testing.T) {
	list, err := corpus.Verdicts(odds)
	if err != nil {
		t.Fatal(err)
	}
	p := corpus.LeftOut(list, func(v corpus.Verdict) string { return v.Session })
	for kind, name := range map[analyze.OddKind]string{analyze.OddTime: "times", analyze.OddRest: "rests", analyze.OddSides: "sides"} {
		limits := slices.Index(kind.Reasons(), "lengthLogit")
		for _, heard := range []bool{false, true} {
			var weighed, bare, told []corpus.Judgement
			for i, v := range list {
				if v.Odd.Kind != kind || v.Heard != heard {
					continue
				}
				weighed = append(weighed, corpus.Judgement{Probability: p[i], Right: v.Right})
				bare = append(bare, corpus.Judgement{Probability: 1 / (1 + math.Exp(-v.Odd.Reasons[limits])), Right: v.Right})
				if p[i] > 0.5 {
					told = append(told, weighed[len(weighed)-1])
				}
			}
			if len(weighed) == 0 {
				t.Fatalf("%s, heard %v: nothing was judged", name, heard)
			}
			a, b := corpus.Brier(weighed), corpus.Brier(bare)
			_, ece := corpus.Reliability(told)
			t.Logf("%s, heard %v: %d, of which %.2f are right; Brier %.3f, by the limits alone %.3f; told as the session's: %d, %.2f right, calibration error %.3f (%.3f by chance)",
				name, heard, len(weighed), share(weighed), a, b, len(told), share(told), ece, corpus.ByChance(told))
			if a >= b {
				t.Errorf("%s, heard %v: Brier score %.3f, by the limits alone %.3f", name, heard, a, b)
			}
		}
	}
}

// share returns the share of judgements that are right.
func share(list []corpus.Judgement) float64 {
	n := 0
	for _, j := range list {
		if j.Right {
			n++
		}
	}
	return float64(n) / float64(max(1, len(list)))
}

// rangeFloors are shares of stated ranges that must hold the truth, in word, cue and block timing.
var rangeFloors = map[bool]map[string][3]float64{
	false: {corpus.IntervalReps: {0.95, 0.95, 0.91}, corpus.IntervalTension: {0.88, 0.89, 0.86}},
	true:  {corpus.IntervalReps: {0.91, 0.91, 0.82}, corpus.IntervalTension: {0.79, 0.79, 0.78}},
}

// TestCalibrationOfRanges prints how often the ranges that are meant to hold the truth 9 times in 10 do, and their mean interval score,
// so that wide ranges do not pay. Files of one session are no independent cases: the number of sessions stands beside that of ranges.
func TestCalibrationOfRanges(t *testing.T) {
	for _, heard := range []bool{false, true} {
		by := map[bool]string{false: "hand-made", true: "recognised"}[heard]
		list := append(corpus.Sessions(), corpus.More()...)
		if heard {
			list = append(corpus.Recognised(), corpus.MoreRecognised()...)
		}
		tallies, err := corpus.Evaluate(list, measure)
		if err != nil {
			t.Fatal(err)
		}
		t.Log("\n" + by + fmt.Sprintf(", %d sessions\n", len(list)) + ranges(tallies))
		for what, floor := range rangeFloors[heard] {
			for i, tally := range tallies {
				if share, _, _ := corpus.Coverage(tally.Intervals[what]); !(share >= floor[i]) {
					t.Errorf("%s captions, %s timing: %.3f of the ranges of %s hold the truth, fewer than %.3f", by, tally.Timing, share, what, floor[i])
				}
			}
		}
	}
}

// What is judged must follow the labels: a slip near a miscount is the session's, a doubled number near a fault the captioner's,
// and nothing tells of the captioner where nobody listed faults.
func TestJudge(t *testing.T) {
	truth := &corpus.Truth{
		Name: "x", Duration: 100,
		Sets:      []corpus.Set{{ID: "a", Start: 10, End: 40}, {ID: "b", Start: 60, End: 90}},
		Miscounts: []corpus.Miscount{{At: 20, Kind: "skipped", Set: "a"}, {At: 88, Kind: "short", Set: "b"}},
		Faults:    &corpus.FaultLists{Word: []corpus.Fault{{At: 30, Kind: "doubled"}}},
	}
	for _, tt := range []struct {
		kind, cause  string
		at           float64
		right, known bool
	}{
		{"count-skipped", "session", 23, true, true},
		{"count-skipped", "session", 25, false, true},
		{"count-lost", "session", 50, false, true},
		{"count-short", "session", 70, true, true}, // anywhere in its set
		{"caption-doubled", "captions", 27, true, true},
		{"caption-doubled", "captions", 20, false, true},
		{"caption-gap", "unsure", 30, false, false},
		{"rest-short", "session", 50, false, false},
	} {
		right, known := corpus.Judge(truth, caption.TimingWord, analyze.Finding{Kind: tt.kind, Cause: tt.cause, At: tt.at})
		if right != tt.right || known != tt.known {
			t.Errorf("%s of the %s at %g: right %v, known %v; want %v, %v", tt.kind, tt.cause, tt.at, right, known, tt.right, tt.known)
		}
	}
	truth.Faults = nil
	if _, known := corpus.Judge(truth, caption.TimingWord, analyze.Finding{Kind: "caption-gap", Cause: "captions", At: 30}); known {
		t.Error("faults that nobody listed were judged")
	}
}

// TestJudgeLength: a length is off as it is told only where the labels have a set or rest there, with something announced, that is off the same
// way; sides differ only where the labels have both, and they do.
func TestJudgeLength(t *testing.T) {
	thirty, five, six := 30.0, 5, 6
	go60 := 60.0
	long := &corpus.Dose{Seconds: 20}
	truth := &corpus.Truth{
		Name: "x", Duration: 300,
		Rests: []corpus.Rest{{Start: 10, End: 50, Prescribed: &thirty, Actual: 40}, {Start: 100, End: 130, Actual: 30}},
		Sets: []corpus.Set{
			{ID: "a", Exercise: "stand", Side: "left", Start: 52, Go: &go60, End: 90, Prescribed: long, Performed: corpus.Done{Seconds: &thirty}},
			{ID: "b", Exercise: "curl", Side: "left", Start: 140, End: 160, Performed: corpus.Done{Reps: &five}},
			{ID: "c", Exercise: "curl", Side: "right", Start: 170, End: 190, Performed: corpus.Done{Reps: &six}},
			{ID: "d", Exercise: "press", Side: "left", Start: 200, End: 220, Performed: corpus.Done{Reps: &six}},
		},
	}
	for _, tt := range []struct {
		kind      string
		at, until float64
		right     bool
	}{
		{"rest-over", 12, 49, true},
		{"rest-short", 12, 49, false},
		{"rest-over", 40, 95, false},    // hardly overlaps it
		{"rest-short", 100, 130, false}, // nothing was announced
		{"time-over", 58, 90, true},
		{"time-short", 58, 90, false},
		{"time-over", 140, 160, false},
		{"sides-uneven", 170, 190, true},
		{"sides-uneven", 200, 220, false}, // has no other side
		{"sides-uneven", 230, 250, false},
	} {
		if got := corpus.JudgeLength(truth, analyze.Finding{Kind: tt.kind, At: tt.at}, tt.until); got != tt.right {
			t.Errorf("%s from %v to %v: right %v, want %v", tt.kind, tt.at, tt.until, got, tt.right)
		}
	}
	truth.Sets[2].Performed.Reps = &five
	if corpus.JudgeLength(truth, analyze.Finding{Kind: "sides-uneven", At: 170}, 190) {
		t.Error("equal sides were judged to differ")
	}
}

// Weights must find what was put in: reasons that speak for it by 1 and 0 nats. Left out, a group does not help itself.
func TestFitOdds(t *testing.T) {
	var list []corpus.Verdict
	for i := range 2000 { // right with probability 0.731 = 1/(1+1/e) where the reason holds, 0.5 where it does not
		reason := float64(i % 2)
		yes := i/2%1000 < 731
		if reason == 0 {
			yes = i/2%2 == 0
		}
		list = append(list, corpus.Verdict{Session: fmt.Sprint(i / 2 % 4), Odd: analyze.Odd{Kind: analyze.OddDose, Reasons: []float64{reason}}, Right: yes})
	}
	w := corpus.FitOdds(list, nil)[analyze.OddDose]
	if math.Abs(w[0]-1) > 0.03 {
		t.Errorf("weight %.3f, want 1", w[0])
	}
	if b := corpus.Brier([]corpus.Judgement{{Probability: 0.8, Right: true}, {Probability: 0.6}}); math.Abs(b-0.2) > 1e-12 { // (0.04 + 0.36) / 2
		t.Errorf("Brier score %v, want 0.2", b)
	}
	// 100 times 0.5 in one bin: the mean absolute deviation of 100 coins is 3.98 of 100, by the binomial distribution
	if c := corpus.ByChance(make50(100)); math.Abs(c-0.0398) > 0.0002 {
		t.Errorf("by chance %.4f, want 0.0398", c)
	}
	same := []corpus.Verdict{list[0], list[0]}
	same[1].Right, same[1].Session = !same[0].Right, "other"
	same[0].Odd.Reasons, same[1].Odd.Reasons = []float64{1}, []float64{1}
	p := corpus.LeftOut(same, func(v corpus.Verdict) string { return v.Session })
	if (p[0] > 0.5) != same[1].Right || (p[1] > 0.5) != same[0].Right {
		t.Errorf("left out, two that contradict each other are believed with %v", p)
	}
}

func make50(n int) []corpus.Judgement {
	out := make([]corpus.Judgement, n)
	for i := range out {
		out[i] = corpus.Judgement{Probability: 0.5, Right: i%2 == 0}
	}
	return out
}
