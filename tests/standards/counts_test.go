package standards_test

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"captally.example/captally/corpus"
	"captally.example/captally/segment/numeral"
	"captally.example/captally/tests/spoken"
	"captally.example/captally/tests/standards"
)

// Where nothing is misheard and every number is said on its beat, a count has one reading: it must come out exactly, in every timing.
// Paces are those of the trade (common practice, no source): from under 2 s for quick moves to 8 s where a slow lowering is asked for.
func TestCleanCountsAreExact(t *testing.T) {
	all := stated{}
	for _, pace := range []float64{1, 1.5, 2.2, 3, 4.5, 6, 8} {
		for _, reps := range []int{4, 7, 12, 20, 30} {
			for _, c := range []struct {
				how     string
				numbers []int
			}{
				{"up", spoken.Numbers(1, reps, 1)},
				{"down", spoken.Numbers(reps, 1, -1)},
			} {
				t.Run(fmt.Sprintf("%d %s at %g s", reps, c.how, pace), func(t *testing.T) {
					all.add(checkSets(t, standards.Set{Exercise: "heel raises", Numbers: c.numbers, Reps: reps, Pace: pace}))
				})
			}
		}
	}
	all.check(t)
}

func (s stated) add(o stated) {
	for timing, list := range o {
		s[timing] = append(s[timing], list...)
	}
}

// check asks that the truth lies in as many of the intervals as is honest for 9 in 10. More is no fault here: with words said exactly on the beat the clock is better than the
// reader of a file may believe.
func (s stated) check(t *testing.T) {
	for _, timing := range corpus.Timings {
		share, width, _ := corpus.Coverage(s[timing])
		low, _ := corpus.Honest(len(s[timing]))
		held := int(math.Round(share * float64(len(s[timing]))))
		t.Logf("%s timing: %d of %d ranges of time under tension hold the truth, mean width %.1f s", timing, held, len(s[timing]), width)
		if held < low {
			t.Errorf("%s timing: %d of %d ranges of time under tension hold the truth, want %d or more", timing, held, len(s[timing]), low)
		}
	}
}

// Quick moves are counted by twos, two repetitions to a number.
func TestCountsByTwosAreExact(t *testing.T) {
	for _, pace := range []float64{0.6, 1, 1.5, 2.5} {
		for _, reps := range []int{8, 12, 20, 30} {
			t.Run(fmt.Sprintf("%d at %g s", reps, pace), func(t *testing.T) {
				checkSets(t, standards.Set{Exercise: "toe taps", Numbers: spoken.Numbers(2, reps, 2), Reps: reps, Pace: pace})
			})
		}
	}
}

// Captions write numbers by house style, so a count of twelve lawfully comes in three ways: the DCMP Captioning Key (dcmp.org/learn/captioningkey/606) spells one to ten and writes the
// numerals above; the BBC Subtitle Guidelines v1.2.5 write numerals in general, and several numbers together as numerals; a recogniser spells all or none. It is one count in each.
func TestHouseStylesOfNumbersAreOneCount(t *testing.T) {
	set := standards.Set{Exercise: "heel raises", Numbers: spoken.Numbers(1, 12, 1), Reps: 12, Pace: 3}
	for name, inFigures := range map[string]func(n, place int) bool{
		"all spelled":                     func(n, place int) bool { return false },
		"numerals above ten":              func(n, place int) bool { return n > 10 },
		"all numerals":                    func(n, place int) bool { return true },
		"by turns, as a recogniser might": func(n, place int) bool { return place%2 == 0 },
	} {
		speech, _ := standards.Class(set)
		for i := range speech.Words {
			w := &speech.Words[i]
			if n, ok := numeral.Single(strings.ToLower(strings.Trim(w.Text, ",."))); ok && inFigures(n, i) {
				w.Text = strconv.Itoa(n) + w.Text[len(strings.TrimRight(w.Text, ",.")):]
			}
		}
		for _, f := range speech.Files() {
			r := measure(t, f)
			if len(r.Sets) != 1 || r.Sets[0].Performed.Reps == nil || *r.Sets[0].Performed.Reps != 12 || r.Sets[0].Prescribed == nil || r.Sets[0].Prescribed.Reps != 12 {
				t.Errorf("%s, %s timing: %+v, want one set of 12 announced and done", name, f.Timing, r.Sets)
			}
		}
	}
}

// A set that is announced and counted is work, however much of the session it fills, where no warm-up and no cool-down are spoken of.
func TestSetsAloneAreWork(t *testing.T) {
	for _, sets := range [][]standards.Set{
		{{Exercise: "wall presses", Numbers: spoken.Numbers(1, 10, 1), Reps: 10, Pace: 3}},
		{{Exercise: "wall presses", Numbers: spoken.Numbers(1, 20, 1), Reps: 20, Pace: 6}},
		{{Exercise: "wall presses", Numbers: spoken.Numbers(1, 12, 1), Reps: 12, Pace: 2, Rest: 30}, {Exercise: "wall presses", Numbers: spoken.Numbers(1, 12, 1), Reps: 12, Pace: 2}},
	} {
		speech, _ := standards.Bare(sets...)
		for _, f := range speech.Files() {
			r := measure(t, f)
			for _, p := range r.Phases {
				if p.Kind == "warm-up" || p.Kind == "cool-down" {
					t.Errorf("%d sets of %d, %s timing: %s from %.0f to %.0f s", len(sets), sets[0].Reps, f.Timing, p.Kind, p.Start, p.End)
				}
			}
			if len(r.Sets) != len(sets) {
				t.Errorf("%d sets of %d, %s timing: %d sets found", len(sets), sets[0].Reps, f.Timing, len(r.Sets))
			}
		}
	}
}
