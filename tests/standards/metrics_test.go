package standards_test

import (
	"math"
	"strings"
	"testing"

	"captally.example/captally/analyze"
	"captally.example/captally/corpus"
)

// A segmentation of n units has n-1 places for a boundary, and both measures slide a window of k places over these: n-k windows. Texts differ in what they count.
// SegEval speaks of the n units and divides by n-k. NLTK's strings hold the places themselves, m = n-1 of them, and it divides by m-k+1: the same number.

// NLTK 3, nltk/metrics/segmentation.py, doctests of windowdiff and pk: a string holds a 1 where a boundary lies.
func TestNLTK(t *testing.T) {
	places := func(s string) []bool {
		out := make([]bool, len(s))
		for i := range s {
			out[i] = s[i] == '1'
		}
		return out
	}
	const s1, s2, s3 = "000100000010", "000010000100", "100000010000"
	for _, c := range []struct {
		a, b string
		want float64
	}{{s1, s1, 0}, {s1, s2, 0.30}, {s2, s3, 0.80}} {
		if got := corpus.WindowDiff(places(c.a), places(c.b), 3); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("WindowDiff(%s, %s) is %.4f, want %.2f", c.a, c.b, got, c.want)
		}
	}
	often := strings.Repeat("0100", 100)
	for _, c := range []struct {
		b    string
		want float64 // as printed there, two decimals
	}{{strings.Repeat("1", 400), 0.50}, {strings.Repeat("0", 400), 0.50}, {often, 0}} {
		if got := corpus.Pk(places(often), places(c.b), 2); math.Abs(got-c.want) > 0.005 {
			t.Errorf("Pk(0100..., %.4s...) is %.4f, want %.2f", c.b, got, c.want)
		}
	}
}

// SegEval's tests (Fournier C 2013, Evaluating Text Segmentation using Boundary Edit Distance, ACL; repository cfournie/segmentation.evaluation): segmentations are
// lists of segment lengths; k is half the mean length of the reference's segments.
func TestSegEval(t *testing.T) {
	for _, c := range []struct {
		name       string
		found, ref []int
		pk, wd     float64
	}{
		{"near miss", []int{2, 3, 6}, []int{2, 2, 7}, 2.0 / 9, 2.0 / 9},
		{"near miss", []int{5, 3, 5}, []int{4, 4, 5}, 2.0 / 11, 2.0 / 11},
		{"extra boundary", []int{5, 1, 2, 5}, []int{5, 3, 5}, 1.0 / 11, 2.0 / 11},
		{"one segment", []int{13}, []int{4, 4, 5}, 4.0 / 11, 4.0 / 11},
		{"the same", []int{5, 3, 5}, []int{5, 3, 5}, 0, 0},
	} {
		ref, found := lengths(c.ref), lengths(c.found)
		k := max(2, int(math.RoundToEven(float64(len(ref)+1)/float64(len(c.ref))/2)))
		if got := corpus.Pk(ref, found, k); math.Abs(got-c.pk) > 1e-12 {
			t.Errorf("%s: Pk(%v, %v) is %.4f, want %.4f", c.name, c.ref, c.found, got, c.pk)
		}
		if got := corpus.WindowDiff(ref, found, k); math.Abs(got-c.wd) > 1e-12 {
			t.Errorf("%s: WindowDiff(%v, %v) is %.4f, want %.4f", c.name, c.ref, c.found, got, c.wd)
		}
	}
}

// lengths returns the boundaries between segments of the given lengths.
func lengths(segments []int) []bool {
	var out []bool
	for _, n := range segments {
		out = append(append(out, make([]bool, n-1)...), true)
	}
	return out[:len(out)-1]
}

// Hu H et al. 2022, TransRAC, CVPR, section 5.1: MAE is the mean of |found - true| / true, OBO the share with |found - true| <= 1. Truth 10, 10, 12, 8 against
// 10, 9, 15, 8 gives (0 + 1/10 + 3/12 + 0) / 4 = 0.0875 and 3/4.
func TestCountingMeasures(t *testing.T) {
	truth := &corpus.Truth{Name: "a", Duration: 400, Phases: []corpus.Phase{{Kind: "talk", Start: 0, End: 400}}}
	report := new(analyze.Report)
	performed, found := []int{10, 10, 12, 8}, []int{10, 9, 15, 8}
	for i := range performed {
		start := float64(100 * i)
		truth.Sets = append(truth.Sets, corpus.Set{Phase: "work", Start: start, End: start + 60, Performed: corpus.Done{Reps: &performed[i]}})
		report.Sets = append(report.Sets, analyze.Set{Phase: "work", Start: start, End: start + 60, Performed: analyze.Performed{Reps: &found[i]}})
	}
	figures := corpus.Score(truth, report, corpus.Timings[0]).Figures()
	if got := figures["reps MAE (relative)"]; got != 0.0875 {
		t.Errorf("MAE is %v, want 0.0875", got)
	}
	if got := figures["reps off by one (OBO)"]; got != 0.75 {
		t.Errorf("OBO is %v, want 0.75", got)
	}
	if got := figures["reps exact"]; got != 0.5 {
		t.Errorf("exact is %v, want 0.5", got)
	}
}
