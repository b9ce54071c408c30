package analyze

import (
	"math"
	"strings"

	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

// How far the decoder's word on an odd place can be relied on. Its probabilities come from the beat of one count, and take for granted
// that there is such a count, that the words were heard right and that the announced number was meant for it. What speaks for
// and against that lies outside the count: how much else is odd in the file (a file with very many odd places has a poor captioner
// rather than a poor therapist), whether the same happens again and again in one set (then it is a way of counting), how exact the
// times are. A logistic regression on the decoder's log odds and these weighs them, so that what is stated is right as often as it
// says. (With the log odds alone: Platt J 1999, Probabilistic outputs for support vector machines, in Advances in Large Margin
// Classifiers; from memory.) Its weights are in belieffitted.go; go run ./corpus/fit causes analyze/belieffitted.go fits them on the labelled
// sessions and prints how reliable they are there and on sessions left out.

// An OddKind says what weights an odd place is weighed with.
type OddKind uint8

const (
	OddBySession  OddKind = iota // that a slip was really made
	OddByCaptions                // that it is the captioner's
	OddDose                      // that a set went under or over the announced number
	OddTime                      // that a timed set was shorter or longer than announced
	OddRest                      // that a rest was
	OddSides                     // that the two sides of an exercise differ
	oddKinds
)

// OddKinds lists the kinds.
func OddKinds() []OddKind {
	return []OddKind{OddBySession, OddByCaptions, OddDose, OddTime, OddRest, OddSides}
}

// An Odd is one odd place of a session, and the evidence on one belief about it. It is what the weights are fitted on.
type Odd struct {
	Kind    OddKind
	Finding Finding // as it would be made of the belief; only Kind, Cause, At, Set and Rest are given
	Until   float64 // where the set or rest ends that begins at Finding.At, seconds; 0 for an odd number
	Reasons []float64
}

// The reasons that all kinds share; each kind has its own behind them, see slipReasons and doseReasons.
const (
	reasonBlock = iota // a time for a block of text only
	reasonLogit        // the decoder's log odds
	reasonRough        // the same in a file of blocks, in addition
	reasonOdd          // logarithm of the share of numbers with an odd place in the other sets
	reasonRange        // the number of repetitions is known as a range only
	reasonBare         // a time for a block of text only, and no punctuation: what was said at a breath cannot be told from what was not
	reasonsShared
)

// mostSure bounds the decoder's probabilities: nothing is more certain than that, or less.
const mostSure = 0.98

func logit(p float64) float64 {
	p = math.Max(1-mostSure, math.Min(mostSure, p))
	return math.Log(p / (1 - p))
}

func yes(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// A ledger holds what is odd in a whole session.
type ledger struct {
	session  *segment.Session
	bare     bool  // no punctuation
	raw      bool  // and no figures
	numbers  []int // by set: numbers that stand in the captions,
	misheard []int // those that are written as other words,
	odd      []int // and other odd places
}

func newLedger(s *segment.Session) *ledger {
	l := &ledger{session: s, bare: !punctuated(s.Track), raw: raw(s.Track)}
	for i := range s.Sets {
		numbers, misheard, odd := 0, 0, 0
		for _, n := range s.Sets[i].Count {
			if n.Word >= 0 {
				numbers++
			}
		}
		for _, x := range s.Sets[i].Slips {
			if x.Kind == segment.Misheard {
				misheard++
			} else {
				odd++
			}
		}
		l.numbers, l.misheard, l.odd = append(l.numbers, numbers), append(l.misheard, misheard), append(l.odd, odd)
	}
	return l
}

// punctuated says whether stops follow one word in twenty or more, as they do in any text that has them.
func punctuated(t *caption.Track) bool {
	if t == nil {
		return false
	}
	stops := 0
	for i := range t.Words {
		if strings.ContainsAny(t.Words[i].After, ".,?!") {
			stops++
		}
	}
	return stops*20 > len(t.Words)
}

// usualOdd is the share of numbers that is odd in a careful file, as if seen in usualNumbers of them: what a file with few numbers
// of other sets is taken for.
const (
	usualOdd     = 0.05
	usualNumbers = 20
)

// elsewhere returns the logarithm of the share of numbers outside set i that are odd, against the usual share.
func (l *ledger) elsewhere(i int, odd []int) float64 {
	n, numbers := 0, 0
	for k := range odd {
		if k != i {
			n += odd[k]
			numbers += l.numbers[k]
		}
	}
	return math.Log((float64(n) + usualOdd*usualNumbers) / ((float64(numbers) + usualNumbers) * usualOdd))
}

func (l *ledger) shared(i int, p float64, own int) []float64 {
	set := &l.session.Sets[i]
	x := make([]float64, reasonsShared+own)
	block := l.session.Track != nil && l.session.Track.Timing == caption.TimingBlock
	x[reasonBlock], x[reasonLogit], x[reasonRough] = yes(block), logit(p), yes(block)*logit(p)
	x[reasonOdd] = l.elsewhere(i, l.odd)
	x[reasonRange] = yes(set.RepsHigh > set.RepsLow)
	x[reasonBare] = yes(block && l.bare)
	return x
}

// usualConfidence is that of most sets' phases.
const usualConfidence = 0.95

// confidence returns how sure the phase of a set is.
func (l *ledger) confidence(set *segment.Set) float64 {
	for _, p := range l.session.Phases {
		if p.Kind == set.Kind && p.Start < set.End.At && p.End > set.Start.At {
			return p.Confidence
		}
	}
	return usualConfidence
}

// The reasons of slips.
const (
	slipRepeated = reasonsShared + iota
	slipRestarted
	slipPast
	slipLost
	slipDoubled
	slipGap
	slipMisheard
	slipOther    // the decoder's log odds of the other cause
	slipUnbeaten // no beat was weighed: the decoder leaves the session no chance at all
	slipAnew     // the count begins again at one
	slipHabit    // share of the set's numbers with the same kind of odd place
	slipEnd
)

// slipReasons returns the evidence that a slip of set i has the cause of probability p; other is that of the other cause.
func (l *ledger) slipReasons(i int, s segment.Slip, p, other float64) []float64 {
	set := &l.session.Sets[i]
	x := l.shared(i, p, slipEnd-reasonsShared)
	kind := [...]int{
		segment.Skipped: slipPast, segment.Repeated: slipRepeated, segment.Restarted: slipRestarted, segment.Jumped: slipPast,
		segment.Lost: slipLost, segment.Doubled: slipDoubled, segment.Gap: slipGap, segment.Misheard: slipMisheard,
	}[s.Kind]
	x[kind] = 1
	x[slipOther] = logit(other)
	x[slipUnbeaten] = yes(s.Session == 0)
	x[slipAnew] = yes(s.Kind == segment.Restarted && s.Said == 1)
	same := -1
	for _, o := range set.Slips {
		if o.Kind == s.Kind {
			same++
		}
	}
	x[slipHabit] = float64(same) / float64(max(len(set.Count), same+1, 5))
	return x
}

// The reasons of doses that were not done.
const (
	doseOver = reasonsShared + iota
	doseShort
	doseFar      // natural logarithm of how many repetitions were too few or too many
	doseMisheard // logarithm of the share of numbers in the other sets that are written as other words, where the count does not aim at it
	doseAimed    // the count goes up to the announced number, or down from it
	doseExplains // an odd place of the set explains it
	doseKept     // share of the other sets with this announcement that do its number
	doseShared   // there are such sets
	doseSet      // log odds of the set's phase being what it is said to be, against the usual
	doseEnd
)

// doseReasons returns the evidence that set i went under or over its announced number, with probability p by the limits of its repetitions.
func (l *ledger) doseReasons(i int, p float64) []float64 {
	set := &l.session.Sets[i]
	x := l.shared(i, p, doseEnd-reasonsShared)
	want := set.Announced.Reps
	x[doseOver], x[doseShort] = yes(set.Reps > want), yes(set.Reps < want)
	x[doseFar] = math.Log(math.Max(1, math.Abs(float64(set.Reps-want))))
	x[doseAimed] = yes(aimed(set))
	x[doseMisheard] = (1 - x[doseAimed]) * l.elsewhere(i, l.misheard)
	for _, s := range set.Slips {
		p := s.Session
		switch s.Kind {
		case segment.Repeated, segment.Restarted, segment.Doubled:
			p *= yes(set.Reps > want)
		case segment.Skipped, segment.Jumped:
			p *= yes(set.Reps < want)
		}
		x[doseExplains] = math.Max(x[doseExplains], p)
	}
	x[doseSet] = logit(l.confidence(set)) - logit(usualConfidence)
	same, kept := 0, 0
	for k := range l.session.Sets {
		if o := &l.session.Sets[k]; k != i && o.Counted && o.Announced == set.Announced {
			same++
			if o.Reps == want {
				kept++
			}
		}
	}
	if same > 0 {
		x[doseKept], x[doseShared] = float64(kept)/float64(same), 1
	}
	return x
}

// weigh returns the probability that reasons speak for.
func weigh(kind OddKind, reasons []float64) float64 {
	z := 0.0
	for i, x := range reasons {
		z += float64(oddWeights[kind][i] * x)
	}
	return 1 / (1 + math.Exp(-z))
}

// reweigh returns a slip of set i with the probabilities that can be relied on. What is left to 1 is unsure.
func (l *ledger) reweigh(i int, s segment.Slip) segment.Slip {
	session, captions := 0.0, 0.0 // a cause that the decoder rules out stays so
	if s.Session > 0 {
		session = weigh(OddBySession, l.slipReasons(i, s, s.Session, s.Captions))
	}
	if s.Captions > 0 {
		captions = weigh(OddByCaptions, l.slipReasons(i, s, s.Captions, s.Session))
	}
	sum := math.Max(1, session+captions)
	s.Session, s.Captions = session/sum, captions/sum
	return s
}

// Odds lists the odd places of a session with the evidence on each belief about them.
func Odds(s *segment.Session) []Odd {
	l := newLedger(s)
	var out []Odd
	for i := range s.Sets {
		set := &s.Sets[i]
		for _, slip := range set.Slips {
			x := Finding{At: at(slip.At.At), Set: setID(i)}
			for kind, cause := range []string{causeSession, causeCaptions} {
				p, other := slip.Session, slip.Captions
				if cause == causeCaptions {
					p, other = other, p
				}
				if p == 0 {
					continue
				}
				x.Cause, x.Kind = cause, slipKind(slip, cause)
				reasons := l.slipReasons(i, slip, p, other)
				out = append(out, Odd{OddKind(kind), x, 0, reasons})
			}
		}
		if kind, p := offDose(set); p > 0.5 {
			reasons := l.doseReasons(i, p)
			x := Finding{Kind: kind, Cause: causeSession, At: at(set.End.At), Set: setID(i)}
			out = append(out, Odd{OddDose, x, 0, reasons})
		}
	}
	return append(out, oddLengths(s, l)...)
}

// Reasons names the reasons of a kind in order, as the constants above are named.
func (k OddKind) Reasons() []string {
	length := []string{"lengthOne", "lengthBlock", "lengthLogit", "lengthRough", "lengthPoor", "lengthEdge", "lengthRaw"}
	switch k {
	case OddTime, OddRest:
		return append(length, "timeOver", "timeFar", "timeBefore", "timeKept", "timeOthers")
	case OddSides:
		return append(length, "sidesCounted", "sidesFar", "sidesOne", "sidesDose", "sidesOff", "sidesApart")
	}
	shared := []string{"reasonBlock", "reasonLogit", "reasonRough", "reasonOdd", "reasonRange", "reasonBare"}
	if k == OddDose {
		return append(shared, "doseOver", "doseShort", "doseFar", "doseMisheard", "doseAimed", "doseExplains", "doseKept", "doseShared", "doseSet")
	}
	return append(shared, "slipRepeated", "slipRestarted", "slipPast", "slipLost", "slipDoubled", "slipGap", "slipMisheard", "slipOther", "slipUnbeaten", "slipAnew", "slipHabit")
}

// surelyOff is the probability of a set's having gone under or over the announced number from which its range leaves that number out: a range
// is meant to hold the truth 9 times in 10.
const surelyOff = 0.9

// repsRange returns the range of a counted set's repetitions. The decoder's comes from the count alone; where it is not sure enough that
// the set went under or over the announced number, that number is in it; but not one that may have been one of seconds.
func (l *ledger) repsRange(i int) (low, high int) {
	set := &l.session.Sets[i]
	low, high = set.RepsLow, set.RepsHigh
	want := set.Announced.Reps
	if _, p := offDose(set); want > 0 && set.Reps != want && !mayBeSeconds(set) && (p <= 0.5 || weigh(OddDose, l.doseReasons(i, p)) < surelyOff) {
		low, high = min(low, want), max(high, want)
	}
	return low, high
}
