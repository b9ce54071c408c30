package analyze

import (
	"fmt"
	"math"

	"captally.example/captally/segment"
)

// hardlyLikely is the probability below which a length that differs from what was announced is not told: nobody need look for what is
// wrong three times in four.
const hardlyLikely = 0.25

// seconds tells a timed set that was shorter or longer than announced by more than the tolerance. The verdict follows the
// measured value, as a rest's does; where all that is known makes it less likely than not, the cause is unsure. A set of less than half
// or more than twice what was announced was perhaps not meant to have that dose.
func (f *finder) seconds(i int) {
	set := &f.session.Sets[i]
	want := set.Announced.Seconds
	if set.Counted || want <= 0 {
		return
	}
	verdict, p := against(set.Performed, want, f.opt.Lengths)
	if verdict == "kept" {
		return
	}
	e := f.evidence()
	e.announced(set.Announced)
	if got := set.Performed.Value; !f.ruledSo(i) && !f.settled.Doses[i] && (got > 2*want || got < want/2) {
		f.add(unclearTime(i, set, p), e)
		return
	}
	weighed := p
	if !f.settled.Numbers[i] && !f.settled.Doses[i] {
		weighed = weigh(OddTime, f.ledger.timeReasons(i, p, f.opt.Lengths))
	}
	x := Finding{
		Kind: "time-" + verdict, Cause: likely(weighed), At: at(set.Start.At), Set: setID(i), Probability: weighed,
		Text: fmt.Sprintf("The set at %s%s lasts %s; %s were announced.", set.Start.At, inSet(set), length(set.Performed), seconds(want)) +
			doubt(p, weighed, "set"),
	}
	if weighed >= hardlyLikely || f.settled.ruling(x) != nil {
		f.add(x, e)
	}
}

// rest tells a rest that was shorter or longer than announced. One that is within the tolerance of nothing at all is missing.
func (f *finder) rest(i int) {
	rest := &f.session.Rests[i]
	if rest.Announced <= 0 {
		return
	}
	verdict, p := against(rest.Length, rest.Announced, f.opt.Lengths)
	if verdict == "kept" {
		return
	}
	weighed := weigh(OddRest, f.ledger.restReasons(i, p, f.opt.Lengths))
	text := fmt.Sprintf("The rest at %s lasts %s; %s were announced.", rest.Start.At, length(rest.Length), seconds(rest.Announced)) + doubt(p, weighed, "rest")
	if verdict == "short" && rest.Length.Value <= f.opt.Lengths.Of(0) {
		verdict = "missing"
		text = fmt.Sprintf("At %s a rest of %s was announced, and hardly any was given.", rest.Start.At, seconds(rest.Announced)) + doubt(p, weighed, "rest")
	}
	e := f.evidence()
	e.from(rest.At)
	x := Finding{Kind: "rest-" + verdict, Cause: likely(weighed), At: at(rest.Start.At), Rest: restID(i), Probability: weighed, Text: text}
	if weighed >= hardlyLikely || f.settled.ruling(x) != nil {
		f.add(x, e)
	}
}

// doubt adds to a length why it is not said of the session for certain; p is its probability by the limits alone.
func doubt(p, weighed float64, of string) string {
	switch {
	case weighed > 0.5:
		return ""
	case p > 0.5:
		return " Perhaps the " + of + " began or ended elsewhere, or that was meant for another."
	}
	return " The times are too rough to tell."
}

// against compares a length with what was announced, in seconds; p is the probability of the verdict.
func against(l segment.Length, want float64, tol Tolerance) (verdict string, p float64) {
	b, t := believe(l), tol.Of(want)
	switch {
	case math.Abs(l.Value-want) <= t:
		return "kept", b.below(want+t) - b.below(want-t)
	case l.Value > want:
		return "over", b.above(want + t)
	}
	return "short", b.below(want - t)
}
