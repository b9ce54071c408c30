package analyze

import (
	"math"
	"strings"

	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

// A length that differs from what was announced, or from that of the other side, is as doubtful as all that it rests on: that the announcement was
// heard right and meant for this set or rest, that its beginning and end are where they seem to be, that the two sides belong together. The limits of the
// length tell of none of that. The reasons below do, and are weighed as those of odd numbers are; see beliefodd.go.

// The reasons that set times, rests and sides share.
const (
	lengthOne   = iota // always: how often such a finding is right
	lengthBlock        // a time for a block of text only
	lengthLogit        // log odds by the limits of the lengths
	lengthRough        // the same in a file of blocks, in addition
	lengthPoor         // logarithm of the share of numbers that are written as other words, against the usual
	lengthEdge         // log odds of the phases being what they are said to be, against the usual
	lengthRaw          // the words as a poor recogniser leaves them, with neither stops nor figures: an announcement may be misheard
	lengthShared
)

func (l *ledger) ofLength(p, confidence float64, own int) []float64 {
	x := make([]float64, lengthShared+own)
	block := l.session.Track != nil && l.session.Track.Timing == caption.TimingBlock
	x[lengthOne], x[lengthBlock], x[lengthLogit], x[lengthRough] = 1, yes(block), logit(p), yes(block)*logit(p)
	x[lengthPoor] = l.elsewhere(-1, l.misheard)
	x[lengthRaw] = yes(l.raw)
	x[lengthEdge] = logit(confidence) - logit(usualConfidence)
	return x
}

// raw says whether the words of a file have neither stops nor figures.
func raw(t *caption.Track) bool {
	if t == nil || punctuated(t) {
		return false
	}
	for i := range t.Words {
		if strings.ContainsAny(t.Words[i].Text, "0123456789") {
			return false
		}
	}
	return true
}

// The reasons of timed sets and of rests that were not as long as announced.
const (
	timeOver   = lengthShared + iota
	timeFar    // logarithm of the ratio between what was measured and announced, either way; shorter than half counts as half
	timeBefore // logarithm of the seconds from the announcement to the beginning, beyond what it takes to say it
	timeKept   // share of the others with this announcement that kept it
	timeOthers // there are others
	timeEnd
)

// away is how long before its beginning a set or a rest is announced as a rule, in seconds. Common practice, no source.
const away = 10.0

func (l *ledger) lengthReasons(p, confidence, got, want, before float64, kept, others int) []float64 {
	x := l.ofLength(p, confidence, timeEnd-lengthShared)
	x[timeOver] = yes(got > want)
	x[timeFar] = math.Min(2, math.Max(-math.Ln2, math.Log(math.Max(1, got)/want)))
	if x[timeFar] < 0 { // a rest may be left out, too
		x[timeFar] = -x[timeFar]
	}
	x[timeBefore] = math.Log(math.Max(1, before/away))
	if others > 0 {
		x[timeKept], x[timeOthers] = float64(kept)/float64(others), 1
	}
	return x
}

// timeReasons returns the evidence that timed set i was shorter or longer than announced, with probability p by its limits.
func (l *ledger) timeReasons(i int, p float64, tol Tolerance) []float64 {
	set := &l.session.Sets[i]
	kept, others := 0, 0
	for k := range l.session.Sets {
		if o := &l.session.Sets[k]; k != i && !o.Counted && o.Announced == set.Announced {
			others++
			if verdict, _ := against(o.Performed, o.Announced.Seconds, tol); verdict == "kept" {
				kept++
			}
		}
	}
	before := (set.Start.At - set.Announced.At).Seconds()
	return l.lengthReasons(p, l.confidence(set), set.Performed.Value, set.Announced.Seconds, before, kept, others)
}

// restReasons returns the evidence that rest i was shorter or longer than announced, with probability p by its limits.
func (l *ledger) restReasons(i int, p float64, tol Tolerance) []float64 {
	rest := &l.session.Rests[i]
	kept, others := 0, 0
	for k := range l.session.Rests {
		if o := &l.session.Rests[k]; k != i && o.Announced == rest.Announced && o.At == rest.At {
			others++
			if verdict, _ := against(o.Length, o.Announced, tol); verdict == "kept" {
				kept++
			}
		}
	}
	confidence := usualConfidence
	for _, p := range l.session.Phases {
		if p.Kind == segment.Rest && p.Start < rest.End.At && p.End > rest.Start.At {
			confidence = p.Confidence
		}
	}
	before := (rest.Start.At - rest.At).Seconds()
	return l.lengthReasons(p, confidence, rest.Length.Value, rest.Announced, before, kept, others)
}

// The reasons of sides that differ.
const (
	sidesCounted = lengthShared + iota
	sidesFar     // logarithm of the ratio between the two sides
	sidesOne     // they differ by one repetition
	sidesDose    // both have the same announced dose
	sidesOff     // probability by its count that one of them went under or over its dose
	sidesApart   // there are other sets between the two
	sidesEnd
)

// sidesReasons returns the evidence that sets a and b, the two sides of one exercise, were different, with probability p by their limits.
func (l *ledger) sidesReasons(a, b int, p float64) []float64 {
	x, y := &l.session.Sets[a], &l.session.Sets[b]
	out := l.ofLength(p, math.Min(l.confidence(x), l.confidence(y)), sidesEnd-lengthShared)
	out[sidesCounted] = yes(x.Counted)
	m, n := x.Performed.Value, y.Performed.Value
	if x.Counted {
		m, n = float64(x.Reps), float64(y.Reps)
		out[sidesOne] = yes(math.Abs(m-n) == 1)
	}
	out[sidesFar] = math.Abs(math.Log(math.Max(1, m) / math.Max(1, n)))
	out[sidesDose] = yes(x.Announced != segment.Dose{} && x.Announced.Reps == y.Announced.Reps && x.Announced.Seconds == y.Announced.Seconds)
	for _, i := range []int{a, b} {
		if kind, p := offDose(&l.session.Sets[i]); kind != "" && p > 0.5 {
			out[sidesOff] = math.Max(out[sidesOff], p)
		}
	}
	out[sidesApart] = yes(a-b > 1 || b-a > 1)
	return out
}

// oddLengths lists the timed sets, rests and sides that differ, with the evidence on each.
func oddLengths(s *segment.Session, l *ledger) []Odd {
	var out []Odd
	tol := defaultLengths
	for i := range s.Sets {
		set := &s.Sets[i]
		if set.Counted || set.Announced.Seconds <= 0 {
			continue
		}
		if verdict, p := against(set.Performed, set.Announced.Seconds, tol); verdict != "kept" {
			x := Finding{Kind: "time-" + verdict, Cause: causeSession, At: at(set.Start.At), Set: setID(i)}
			out = append(out, Odd{OddTime, x, at(set.End.At), l.timeReasons(i, p, tol)})
		}
	}
	for i := range s.Rests {
		rest := &s.Rests[i]
		if rest.Announced <= 0 {
			continue
		}
		if verdict, p := against(rest.Length, rest.Announced, tol); verdict != "kept" {
			x := Finding{Kind: "rest-" + verdict, Cause: causeSession, At: at(rest.Start.At), Rest: restID(i)}
			out = append(out, Odd{OddRest, x, at(rest.End.At), l.restReasons(i, p, tol)})
		}
	}
	for _, p := range pairs(s.Sets) {
		left, right := &s.Sets[p.left], &s.Sets[p.right]
		if chance := differ(left, right, tol); chance > 0.5 {
			later, i := right, p.right
			if p.left > p.right {
				later, i = left, p.left
			}
			x := Finding{Kind: "sides-uneven", Cause: causeSession, At: at(later.Start.At), Set: setID(i)}
			out = append(out, Odd{OddSides, x, at(later.End.At), l.sidesReasons(p.left, p.right, chance)})
		}
	}
	return out
}
