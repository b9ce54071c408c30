package segment

import (
	"math"
	"sort"

	"captally.example/captally/segment/caption"
)

// A joint is the place between one number of a count and the next that counts on from it.
type joint struct {
	a, b    item    // the numbers
	again   []item  // numbers between them that were said or written again
	echo    float64 // how surely words before those say that they only recall the count, in [0, 1]
	options []option
}

// An option is one account of what happened at a joint.
type option struct {
	reps  int // repetitions from a to b
	kind  SlipKind
	odd   bool // a slip of somebody
	cause cause
	prior float64 // natural logarithm, up to a constant of the joint
	post  float64 // probability, once weighed
}

type cause uint8

const (
	byNobody cause = iota
	bySession
	byCaptions
)

// How often, of the odd places of a count, each account is the true one: natural logarithms.
// Fitted on the labelled sessions; see the corpus package.
var (
	priorSkip    = math.Log(0.25) // the therapist left a number out
	priorDropped = math.Log(0.75) // the captioner did, or it was done in silence
	priorRepeat  = math.Log(0.7)  // the therapist said one number twice, a repetition each
	priorTwice   = math.Log(0.3)  // the captioner wrote it twice, or it was an echo
	priorRestart = math.Log(0.12) // the therapist said several numbers again, a repetition each
	priorDoubled = math.Log(0.88) // the captioner wrote them twice
	priorSilent  = 1.2            // nats per repetition that a silent stretch strays from the numbers around it
	waited       = -2.0           // and less where talk fills the time
	recalled     = 4.5            // nats that such words take from numbers said again being repetitions
	priorUnsaid  = -3.2           // nats: a repetition between two numbers that follow each other, without one of its own
)

// jointsOf takes a count apart. Numbers that stand twice are moved out of the way, so that what is left only rises (or falls).
func jointsOf(r *run, all []item, echoed func(*item) float64, careless float64) []joint {
	kept, again := forward(r.rule, withRepeats(r, all))
	var out []joint
	for k := 1; k < len(kept); k++ {
		j := joint{a: kept[k-1], b: kept[k], again: again[k-1]}
		for i := range j.again {
			j.echo = math.Max(j.echo, echoed(&j.again[i]))
		}
		j.weigh(r.rule, careless)
		out = append(out, j)
	}
	return out
}

// lateJoints adds, where more time lies between two numbers than the numbers account for, the account that a repetition
// between them has lost its number. Where talk fills the time the count may as well have waited.
func (x *text) lateJoints(joints []joint) {
	var beats []float64
	for k := range joints {
		if j := &joints[k]; len(j.options) == 1 && j.options[0].reps > 0 {
			beats = append(beats, (j.b.t-j.a.t)/float64(j.options[0].reps))
		}
	}
	if len(beats) < 3 {
		return
	}
	sort.Float64s(beats)
	usual := beats[len(beats)/2]
	if x.timing == caption.TimingBlock {
		return // the words' own times show no beat
	}
	for k := range joints {
		j := &joints[k]
		o := j.options[0]
		if len(j.again) > 0 || len(j.options) > 2 || o.reps < 1 || o.kind == Restarted {
			continue
		}
		more := int((j.b.t-j.a.t)/usual+0.5) - o.reps
		if (j.b.t-j.a.t)/usual < float64(o.reps)+0.6 || more < 1 {
			continue
		}
		prior := o.prior + priorUnsaid
		if x.talk(j.a.last, j.b.first) > 0.8 {
			prior += waited
		}
		j.options = append(j.options, option{reps: o.reps + more, kind: Lost, odd: true, prior: prior})
	}
}

// withRepeats returns the numbers of a count and, between them, those that the count passed over although they stand apart
// as counted numbers do and were said just before: they were said twice, or written twice.
func withRepeats(r *run, all []item) []item {
	const reach = 9
	dir := 1
	if r.rule.step < 0 {
		dir = -1
	}
	out := []item{r.items[0]}
	for k := 1; k < len(r.items); k++ {
		a, b := &r.items[k-1], &r.items[k]
		for i := range all {
			it := &all[i]
			if it.first < a.last || it.last > b.first || it.cost > 0 || it.gain < gainHalf {
				continue
			}
			if back := dir * (b.v - it.v); back >= 0 && back <= reach*abs(r.rule.step) && (it.v-b.v)%r.rule.step == 0 {
				out = append(out, *it)
			}
		}
		out = append(out, *b)
	}
	return out
}

// forward returns the numbers without those that repeat what was already said, and for each kept one those that follow it.
func forward(r rule, items []item) (kept []item, again [][]item) {
	dir := 1
	if r.step < 0 {
		dir = -1
	}
	for k := range items {
		it := items[k]
		if n := len(kept); n > 0 && dir*(it.v-kept[n-1].v) <= 0 {
			if comesBack(items[k:], kept[n-1].v, dir) {
				again[n-1] = append(again[n-1], it)
				continue
			}
		}
		kept = append(kept, it)
		again = append(again, nil)
	}
	return kept, again
}

// comesBack reports whether the numbers reach v again or pass it.
func comesBack(items []item, v, dir int) bool {
	for _, it := range items {
		if dir*(it.v-v) >= 0 {
			return true
		}
	}
	return false
}

func (j *joint) weigh(r rule, careless float64) {
	per := abs(r.step)
	d := (j.b.v - j.a.v) / r.step
	if d < 1 { // the count began anew and never came back to where it was
		j.options = []option{{reps: 1, kind: Restarted, odd: true, cause: bySession}}
		return
	}
	m := d * per
	if per == 1 {
		m = d
	}
	j.options = []option{{reps: m, kind: Skipped}}
	switch {
	case d == 2:
		j.options[0] = option{reps: m, kind: Gap, odd: true, cause: byCaptions, prior: priorDropped + careless}
		j.options = append(j.options, option{reps: per, kind: Skipped, odd: true, cause: bySession, prior: priorSkip})
	case d > 2:
		j.options[0] = option{reps: m, kind: Lost, prior: 0}
		for n := per; n <= m+3*per; n += per {
			if n != m {
				strays := float64(abs(n-m)) / float64(per)
				j.options = append(j.options, option{reps: n, kind: Jumped, odd: true, cause: bySession, prior: -1.5 - careless - float64(priorSilent*strays)})
			}
		}
	}
	if k := len(j.again); k > 0 {
		var more []option
		for _, o := range j.options {
			if len(j.options) > 1 && o.cause == bySession {
				continue
			}
			again, twice := priorRestart, priorDoubled
			if k == 1 {
				again, twice = priorRepeat, priorTwice
			}
			doubled, said := o, o
			doubled.kind, doubled.odd, doubled.cause, doubled.prior = Doubled, true, byCaptions, o.prior+twice+careless
			said.reps += k * per
			said.kind, said.odd, said.cause, said.prior = Repeated, true, bySession, o.prior+again-float64(recalled*j.echo)
			if k > 1 {
				said.kind = Restarted
			}
			more = append(more, doubled, said)
		}
		j.options = more
	}
}
