package author

import (
	"fmt"
	"math"
)

// A tally follows the count of one set and notes its slips.
type tally struct {
	set       string
	step      int // 1 or -1
	dose      int
	last      int // the number said last, 0 before the first
	since     int // repetitions since then
	spoken    int // the number said last, whatever it was put right to
	reps      int
	miscounts []Miscount
}

// said notes a number on the repetition just done. A count that starts anew
// goes the way turn says, 0 for the way it went.
func (c *tally) said(n int, anew bool, turn int, at float64) {
	want := n
	switch {
	case anew && turn != 0:
		c.step = turn
	case anew:
	case c.last != 0:
		want = c.last + c.step*c.since
	case c.step > 0:
		want = c.reps
	}
	if n != want {
		kind := "jumped-back"
		if c.last != 0 && n == c.last {
			kind = "repeated"
		} else if (n-want)*c.step > 0 {
			kind = "skipped"
		}
		c.miscounts = append(c.miscounts, Miscount{At: cents(at), Kind: kind,
			OutOfTurn: &OutOfTurn{n, want}, Set: c.set, Silence: &Silence{c.since > 1}})
	}
	c.last, c.since, c.spoken = n, 0, n
}

// correct notes that the therapist put the count right.
func (c *tally) correct(n int) {
	if n != 0 {
		c.last, c.since = n, 0
	}
}

// end notes whether the set was short or over.
func (c *tally) end(at float64) {
	if c.dose == 0 || c.reps == c.dose {
		return
	}
	kind := "short"
	if c.reps > c.dose {
		kind = "over"
	}
	c.miscounts = append(c.miscounts, Miscount{At: cents(at), Kind: kind, OffDose: &OffDose{c.reps, c.dose}, Set: c.set})
}

// A beat gives the time from one repetition to the next: it jitters and drifts.
type beat struct {
	pace, jitter, drift float64 // s; share of the pace; per cent from first to last
	n                   int
}

func (b *beat) next(v *voice, i int) float64 {
	drift := b.drift / 100 * (float64(i)/math.Max(1, float64(b.n-1)) - 0.5)
	return b.pace * (1 + drift + float64(b.jitter*clamp(v.rng.NormFloat64(), 2.5)))
}

// mostPush is how far words may push a number off its beat, as a share of the pace.
const mostPush = 0.6

// counted plays a counted set.
func (p *player) counted(x *Part) (float64, error) {
	start, at := p.announce(x)
	p.now = at + 0.1
	set := len(p.t.Sets) + 1
	step := x.stepOf()
	c := &tally{set: fmt.Sprint("s", set), step: sign(step), dose: x.Dose}
	b := &beat{x.Pace, 0.02 + float64(0.03*p.rng.Float64()), x.Drift + float64(4*clamp(p.rng.NormFloat64(), 1.5)), len(x.Reps)}
	if x.Leads {
		at -= 0.5 * x.Pace
	}
	var times []float64
	for i, r := range x.Reps {
		due := at + r.Wait + b.next(&p.voice, i)
		turn := 0
		if r.Anew {
			turn = x.turn(i)
		}
		got := p.rep(r, set, due, turn, c)
		if got > due+float64(mostPush*x.Pace) && i > 0 {
			return 0, &SyntaxError{p.name, x.Line, fmt.Sprintf("the words before repetition %d push it %.1f s off its beat: add silent repetitions", i+1, got-due)}
		}
		at = got
		times = append(times, at)
	}
	p.endSet(x, c, times, start)
	return start, nil
}

// rep plays one repetition that is due at a time, and returns when it was done.
func (p *player) rep(r Rep, set int, due float64, turn int, c *tally) float64 {
	if r.Before != "" {
		due = p.lead(r.Before, set, due)
	}
	c.reps++
	c.since++
	if r.Number != 0 {
		due = math.Max(due, p.now+0.02)
		p.now = due
		p.number(r.Number, set)
		c.said(r.Number, r.Anew, turn, due)
	}
	after, to := correction(r.After)
	c.correct(to)
	if after != "" {
		p.now = math.Max(p.now, due) + 0.15
		p.say(after, set, 0)
	}
	return due
}

// lead speaks words that end on a repetition, later than due if they need the
// time, and returns when the repetition is done.
func (p *player) lead(words string, set int, due float64) float64 {
	n := len(p.words)
	p.say(words, set, 0)
	shift := due - p.words[len(p.words)-1].End() - 0.05
	if shift < 0 {
		due -= shift
		shift = 0
	}
	for i := n; i < len(p.words); i++ {
		p.words[i].At += shift
	}
	p.now = math.Min(p.now+shift, due)
	return due
}

// endSet works out the set's times and writes it down.
func (p *player) endSet(x *Part, c *tally, times []float64, start float64) {
	first, last := times[0], times[len(times)-1]
	pace := x.Pace
	if len(times) > 1 {
		pace = (last - first) / float64(len(times)-1)
	}
	if x.Leads {
		last += pace
	} else {
		first = math.Max(first-pace, start)
	}
	c.end(last)
	p.now = math.Max(last, p.words[len(p.words)-1].End())
	s := Set{Phase: x.In, Exercise: x.Exercise, Side: x.Side, Start: cents(first), End: cents(last),
		Performed: Dose{Reps: c.reps}, ID: c.set,
		Count: &Count{Pace: Seconds((last - first) / float64(c.reps)), Step: x.stepOf()}}
	if c.spoken != 0 {
		s.LastNumber = &c.spoken
	}
	if x.Dose > 0 {
		s.Prescribed = &Dose{Reps: x.Dose}
	}
	p.t.Sets = append(p.t.Sets, s)
	p.t.Miscounts = append(p.t.Miscounts, c.miscounts...)
}

func sign(n int) int {
	if n < 0 {
		return -1
	}
	return 1
}
