package analyze

import (
	"fmt"
	"math"

	"captally.example/captally/segment"
)

// seconds tells a timed set that was shorter or longer than announced by more than the tolerance. The verdict follows the
// measured value, as a rest's does; where the limits make it less likely than not, the cause is unsure. A set of less than half
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
	f.add(Finding{
		Kind: "time-" + verdict, Cause: likely(p), At: at(set.Start.At), Set: setID(i), Probability: p,
		Text: fmt.Sprintf("The set at %s%s lasts %s; %s were announced.", set.Start.At, inSet(set), length(set.Performed), seconds(want)),
	}, e)
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
	text := fmt.Sprintf("The rest at %s lasts %s; %s were announced.", rest.Start.At, length(rest.Length), seconds(rest.Announced))
	if verdict == "short" && rest.Length.Value <= f.opt.Lengths.Of(0) {
		verdict = "missing"
		text = fmt.Sprintf("At %s a rest of %s was announced, and hardly any was given.", rest.Start.At, seconds(rest.Announced))
	}
	e := f.evidence()
	e.from(rest.At)
	f.add(Finding{
		Kind: "rest-" + verdict, Cause: likely(p), At: at(rest.Start.At), Rest: restID(i), Probability: p, Text: text,
	}, e)
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
