package corpus_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"captally.example/captally/corpus"
)

// Gneiting & Raftery 2007, eq. 43: (u - l) + 2/alpha (l - x) below, 2/alpha (x - u) above. The expected values are that formula worked out by hand.
func TestIntervalScore(t *testing.T) {
	for _, c := range []struct{ low, high, truth, alpha, want float64 }{
		{10, 14, 12, 0.1, 4},
		{10, 14, 10, 0.1, 4},             // an end is inside
		{10, 14, 9.5, 0.1, 4 + 10},       // half a unit below costs ten
		{10, 14, 15, 0.1, 4 + 20},        // one above costs twenty
		{10, 14, 15, 0.5, 4 + 4},         // a half interval may miss more often, so a miss costs less
		{12, 12, 12, 0.1, 0},             // certain and right
		{-math.Pi, 0, 1, 2, math.Pi + 1}, // alpha 2: width plus distance
	} {
		got := corpus.Interval{Low: c.low, High: c.high, Truth: c.truth}.Score(c.alpha)
		if math.Abs(got-c.want) > 1e-12 {
			t.Errorf("[%g, %g] with truth %g at alpha %g scores %g, want %g", c.low, c.high, c.truth, c.alpha, got, c.want)
		}
	}
}

// The score is proper (Gneiting & Raftery 2007, section 6.2): the true quantiles beat every other statement on average. For a uniform truth on [0, 1] and alpha 0.1 these
// are 0.05 and 0.95, and the expected score is the width 0.9 plus 2/0.1 times the mean distance outside, 2 x 0.05^2 / 2: 0.95.
func TestIntervalScoreIsProper(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	truths := make([]float64, 20000)
	for i := range truths {
		truths[i] = r.Float64()
	}
	score := func(low, high float64) float64 {
		var list []corpus.Interval
		for _, x := range truths {
			list = append(list, corpus.Interval{Low: low, High: high, Truth: x})
		}
		_, _, s := corpus.Coverage(list)
		return s
	}
	best := score(0.05, 0.95)
	if math.Abs(best-0.95) > 0.01 {
		t.Errorf("the true quantiles score %g, want 0.95", best)
	}
	for _, c := range [][2]float64{{0, 1}, {0.15, 0.85}, {0.05, 1}, {0, 0.95}, {-1, 2}, {0.5, 0.5}} {
		if s := score(c[0], c[1]); s <= best {
			t.Errorf("[%g, %g] scores %g, no worse than the true quantiles with %g", c[0], c[1], s, best)
		}
	}
}

func TestCoverage(t *testing.T) {
	share, width, score := corpus.Coverage([]corpus.Interval{{Low: 1, High: 3, Truth: 2}, {Low: 1, High: 2, Truth: 2}, {Low: 5, High: 5, Truth: 6}, {Low: 0, High: 1, Truth: 0.5}})
	if share != 0.75 || width != 1 || score != (2+1+20+1)/4.0 {
		t.Errorf("coverage %g, width %g, score %g, want 0.75, 1, 6", share, width, score)
	}
	if share, _, _ := corpus.Coverage(nil); !math.IsNaN(share) {
		t.Errorf("coverage of nothing is %g, want NaN", share)
	}
}

func TestReliability(t *testing.T) {
	bins, ece := corpus.Reliability([]corpus.Judgement{
		{Probability: 0.95, Right: true}, {Probability: 0.95, Right: true}, {Probability: 1, Right: true}, {Probability: 0.9, Right: false}, // stated 0.95, right 0.75
		{Probability: 0.62, Right: true}, {Probability: 0.64, Right: true}, // stated 0.63, right 1
		{Probability: 0, Right: false}, {Probability: 0.05, Right: false}, // stated 0.025, right 0
	})
	if b := bins[9]; b.N != 4 || math.Abs(b.Stated-0.95) > 1e-12 || b.Right != 0.75 {
		t.Errorf("bin of 0.9 to 1: %+v", b)
	}
	if bins[6].N != 2 || bins[0].N != 2 || bins[5].N != 0 {
		t.Errorf("bins: %+v", bins)
	}
	if want := 4.0/8*0.20 + 2.0/8*0.37 + 2.0/8*0.025; math.Abs(ece-want) > 1e-12 {
		t.Errorf("expected calibration error %g, want %g", ece, want)
	}
	if _, ece := corpus.Reliability(nil); ece != 0 {
		t.Errorf("expected calibration error of nothing is %g, want 0", ece)
	}
}

// The central 95 of 100 of the binomial distribution with probability 0.9, as quantiles at 0.025 and 0.975; worked out with exact fractions apart from this project.
func TestHonest(t *testing.T) {
	for n, want := range map[int][2]int{1: {0, 1}, 20: {15, 20}, 46: {37, 45}, 100: {84, 95}, 200: {171, 188}, 400: {348, 371}} {
		if low, high := corpus.Honest(n); low != want[0] || high != want[1] {
			t.Errorf("of %d intervals %d to %d, want %d to %d", n, low, high, want[0], want[1])
		}
	}
}
