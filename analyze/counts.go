package analyze

import (
	"fmt"
	"math"

	"captally.example/captally/segment"
)

// slips tells the odd places of a set's count, each with whose it is.
func (f *finder) slips(i int) {
	set := &f.session.Sets[i]
	for _, slip := range set.Slips {
		cause, p := causeOf(slip)
		e := f.evidence()
		e.around(set, slip)
		f.add(Finding{
			Kind: slipKind(slip, cause), Cause: cause, At: at(slip.At.At), Set: setID(i), Probability: p,
			Text: f.slipText(set, slip, cause),
		}, e)
	}
}

// causeOf returns the likeliest cause of a slip and its probability. A cause needs more than half; else it is unsure, with
// the probability of the likeliest explanation.
func causeOf(s segment.Slip) (cause string, p float64) {
	unsure := math.Max(0, 1-s.Session-s.Captions)
	switch {
	case s.Session > 0.5:
		return causeSession, s.Session
	case s.Captions > 0.5:
		return causeCaptions, s.Captions
	}
	return causeUnsure, math.Max(unsure, math.Max(s.Session, s.Captions))
}

// slipKind names a slip in the report. What the decoder saw as a captioner's fault is named as the therapist's slip that looks
// the same where the session is the cause, and the other way about.
func slipKind(s segment.Slip, cause string) string {
	switch s.Kind {
	case segment.Skipped, segment.Jumped, segment.Lost, segment.Gap:
		if cause == causeCaptions || s.Kind == segment.Gap && cause == causeUnsure {
			return "caption-gap"
		}
		return [...]string{segment.Skipped: "count-skipped", segment.Jumped: "count-jumped", segment.Lost: "count-lost", segment.Gap: "count-lost"}[s.Kind]
	case segment.Repeated, segment.Restarted, segment.Doubled:
		if cause == causeCaptions || s.Kind == segment.Doubled && cause == causeUnsure {
			return "caption-doubled"
		}
		if s.Kind == segment.Restarted {
			return "count-restarted"
		}
		return "count-repeated"
	}
	if cause == causeSession {
		return misspoken(s)
	}
	return "caption-misheard"
}

// misspoken names a wrong number that was really said.
func misspoken(s segment.Slip) string {
	switch {
	case s.Said == 0:
		return "count-lost"
	case s.Said > s.Expected+1:
		return "count-jumped"
	case s.Said > s.Expected:
		return "count-skipped"
	case s.Said < s.Expected-1:
		return "count-restarted"
	}
	return "count-repeated"
}

func (f *finder) slipText(set *segment.Set, s segment.Slip, cause string) string {
	where := fmt.Sprintf("At %s%s", s.At.At, inSet(set))
	switch cause {
	case causeSession:
		return where + " " + said(s) + doneFor(set) + "."
	case causeCaptions:
		return where + " the captions " + captioned(f, s) + ". The session was fine."
	}
	return where + " the captions " + captioned(f, s) + ". It may have been said so, or the captions may be wrong: listen there."
}

// said tells a slip that was really made, in words to the person who made it.
func said(s segment.Slip) string {
	switch {
	case s.Kind == segment.Lost || s.Kind == segment.Gap || s.Said == 0:
		return "repetitions go on without a number"
	case s.Kind == segment.Repeated || s.Kind == segment.Doubled:
		return fmt.Sprintf("you say %d twice, a repetition each", s.Said)
	case s.Kind == segment.Skipped && s.Expected > 0:
		return fmt.Sprintf("you leave out %d and say %d", s.Expected, s.Said)
	case s.Kind == segment.Restarted && s.Expected > 0:
		return fmt.Sprintf("you go back to %d where %d was due", s.Said, s.Expected)
	case s.Kind == segment.Jumped && s.Expected > 0:
		return fmt.Sprintf("you jump to %d where %d was due", s.Said, s.Expected)
	case s.Expected > 0:
		return fmt.Sprintf("you say %d where %d was due", s.Said, s.Expected)
	}
	return fmt.Sprintf("you say %d out of turn", s.Said)
}

// captioned tells what the captions show at a slip.
func captioned(f *finder, s segment.Slip) string {
	text := written(f.session.Track, s.First, s.Last)
	switch {
	case s.Kind == segment.Doubled || s.Kind == segment.Repeated:
		if text == "" {
			text = fmt.Sprint(s.Said)
		}
		return fmt.Sprintf("show “%s” again in the time of one", text)
	case s.Kind == segment.Restarted:
		return fmt.Sprintf("go back to “%s”", orNumber(text, s.Said))
	case (s.Kind == segment.Gap || s.Kind == segment.Lost) && s.Expected > 0,
		s.Kind == segment.Skipped && s.Expected > 0:
		return fmt.Sprintf("leave out %d while the beat goes on", s.Expected)
	case s.Kind == segment.Gap || s.Kind == segment.Lost || s.Kind == segment.Skipped || s.Kind == segment.Jumped:
		return "leave out numbers while the beat goes on"
	case s.Expected > 0:
		return fmt.Sprintf("show “%s” where %d was due", orNumber(text, s.Said), s.Expected)
	}
	return fmt.Sprintf("show “%s” in the place of a number", orNumber(text, s.Said))
}

func orNumber(text string, n int) string {
	if text == "" {
		return fmt.Sprint(n)
	}
	return text
}

// reps tells a counted set that went under or over the announced number, where that is more likely than not.
func (f *finder) reps(i int) {
	set := &f.session.Sets[i]
	want := set.Announced.Reps
	if !set.Counted || want <= 0 {
		return
	}
	done := believeReps(set.Reps, set.RepsLow, set.RepsHigh)
	kind, p := "count-over", done.above(float64(want)+0.5)
	if short := done.below(float64(want) - 0.5); short > p {
		kind, p = "count-short", short
	}
	if p <= 0.5 {
		return
	}
	e := f.evidence()
	e.announced(set.Announced)
	e.lastCounted(set)
	f.add(Finding{
		Kind: kind, Cause: causeSession, At: at(set.End.At), Set: setID(i), Probability: p,
		Text: fmt.Sprintf("The set that ends at %s%s has %s for %d announced.", set.End.At, inSet(set), repetitions(set), want),
	}, e)
}
