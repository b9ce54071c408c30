package announce

import (
	"math"
	"math/rand/v2"
	"testing"
)

// TestTrellisAgainstEnumeration compares the probabilities of the sides of five sets with those from adding up all 243 ways one by one.
func TestTrellisAgainstEnumeration(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 20 {
		places := make([]sidePlace, 5)
		for i := range places {
			p := &places[i]
			*p = sidePlace{begins: i == 0, same: r.IntN(2) == 0, close: r.IntN(2) == 0, even: r.IntN(2) == 0, silent: r.IntN(3) == 0, swap: r.Float64(), each: r.Float64(), other: r.IntN(6) - 1}
			p.named[r.IntN(2)][r.IntN(int(sideWheres))] = r.Float64()
		}
		carried := make([][sideStates]float64, len(places))
		for i := range carried {
			carried[i] = [sideStates]float64{0.2, 0.3, 0.5}
		}
		var want [5][sideStates]float64
		total := 0.0
		for way := range 243 {
			var s [5]sideState
			for i, n := 0, way; i < 5; i, n = i+1, n/3 {
				s[i] = sideState(n % 3)
			}
			sum := 0.0
			for i := range s {
				a, b := onBoth, onBoth
				if i > 0 {
					b = s[i-1]
				}
				if i > 1 {
					a = s[i-2]
				}
				sideEach(places, i, a, b, s[i], carried, func(f sideFeature, v float64) { sum += sideFitted[f] * v })
			}
			total += math.Exp(sum)
			for i := range s {
				want[i][s[i]] += math.Exp(sum)
			}
		}
		trellis := newSideTrellis(places, &sideFitted, carried, nil)
		for i := range places {
			for s, p := range trellis.odds(i) {
				if math.Abs(p-want[i][s]/total) > 1e-9 {
					t.Fatalf("set %d, side %d: %g, by enumeration %g", i, s, p, want[i][s]/total)
				}
			}
		}
	}
}

// TestSidesOfRows are sessions in short: what is said before each set, and the sides that follow.
func TestSidesOfRows(t *testing.T) {
	for _, c := range []struct{ script, want string }{
		// a side once said holds for the sets that follow without a word on it
		{`Toe taps. Right foot first, big toe, five. {toe_taps: One. Two. Five. } Next toe, five. {toe_taps: One. Two. Five. } And the little one, five. {toe_taps: One. Two. Five. }
		Now the left foot, big toe, five. {toe_taps: One. Two. Five. } Next toe, five. {toe_taps: One. Two. Five. } And the little one. {toe_taps: One. Two. Five. }`, "r r r l l l"},
		// in a later round nobody says the sides again
		{`Squats, eight. Down. {squat: One. Two. Eight. } Rows with the left arm, eight. Pull. {row: One. Two. Eight. } And the right arm. Pull. {row: One. Two. Eight. }
		Rest, thirty seconds. Round two. Squats, eight. Down. {squat: One. Two. Eight. } Rows, left. Pull. {row: One. Two. Eight. } Other arm. Pull. {row: One. Two. Eight. }`, "b l r b l r"},
		// the set before ends late in the captions, and "other leg" stands in it
		{`Single leg stand. Left leg, thirty seconds. Up. {single_leg_stand! Nice and tall. Three, two, one. Other leg. } Thirty seconds. Up. {single_leg_stand! Eyes ahead. And down. }`, "l r"},
		// the side comes with the first words of the set
		{`Heel lifts on one leg, ten each side. Ready. {heel_lift: Left leg. One. Two. Ten. } Shake it. Ready. {heel_lift: Right leg. One. Two. Ten. }`, "l r"},
		// a side in a story is no side of the set
		{`My neighbour, the one who lives on the left, he does these every morning and he is eighty now. Chair squats, ten of those, nice and slow, both feet flat. Down. {chair_squat: One. Two. Ten. }`, "b"},
	} {
		s := parseScript(t, c.script)
		got := ""
		for i, g := range Sides(s.track, s.sets, Find(s.track)) {
			if i > 0 {
				got += " "
			}
			got += g.Side.String()[:1]
			if g.Prob <= 1.0/3 || g.Prob > 1+1e-9 {
				t.Errorf("set %d: probability %g", i, g.Prob)
			}
		}
		if got != c.want {
			t.Errorf("%.40s...\n got %s\nwant %s", c.script, got, c.want)
		}
	}
}
