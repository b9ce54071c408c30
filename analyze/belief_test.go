package analyze

import (
	"math"
	"testing"

	"captally.example/captally/segment"
)

// TestBelief checks the two-piece normal distribution where it is the ordinary one against printed tables of the standard
// normal distribution (NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1: 0.8413 below 1, 0.9772 below 2).
func TestBelief(t *testing.T) {
	unit := belief{mode: 10, low: 1, high: 1}
	for _, tt := range []struct{ x, want float64 }{{10, 0.5}, {11, 0.8413}, {12, 0.9772}, {9, 0.1587}, {8, 0.0228}} {
		if got := unit.below(tt.x); math.Abs(got-tt.want) > 0.00005 {
			t.Errorf("below(%v) = %.5f, want %v", tt.x, got, tt.want)
		}
	}
	b := believe(segment.Length{Value: 30, Low: 25, High: 35})
	if got := b.below(35) - b.below(25); math.Abs(got-0.9) > 1e-9 {
		t.Errorf("the limits hold %v, want 0.9", got)
	}
	// one-sided doubt: the mode is an end, and all mass lies on the other side
	b = belief{mode: 5, high: 2}
	if b.below(5) != 0 || b.above(5) != 1 {
		t.Errorf("below(mode) = %v, want 0", b.below(5))
	}
	// no doubt at all
	b = belief{mode: 5}
	if b.below(4.9) != 0 || b.below(5.1) != 1 || b.below(5) != 0.5 {
		t.Errorf("certain 5: %v, %v, %v", b.below(4.9), b.below(5), b.below(5.1))
	}
	// whole numbers sum to 1
	sum, reps := 0.0, believeReps(11, 10, 14)
	for n := -50; n < 80; n++ {
		sum += reps.is(n)
	}
	if math.Abs(sum-1) > 1e-9 {
		t.Errorf("whole numbers sum to %v", sum)
	}
}
