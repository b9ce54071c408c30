package analyze

import (
	"fmt"
	"math"

	"captally.example/captally/segment"
)

// slips tells the odd places of a set's count, each with whose it is. Numbers that stand in the captions as one word
// ("1112") are one place.
func (f *finder) slips(i int) {
	set := &f.session.Sets[i]
	for j := 0; j < len(set.Slips); j++ {
		slip := f.ledger.reweigh(i, set.Slips[j])
		again := toldBefore(set, j)
		this := Finding{Set: setID(i), Slip: j + 1}
		due := []int{slip.Expected}
		for j+1 < len(set.Slips) && samePlace(slip, set.Slips[j+1]) {
			j++
			due = append(due, set.Slips[j].Expected)
		}
		f.rule(this, &slip)
		cause, p := causeOf(slip)
		if again && f.settled.ruling(this) == nil {
			continue
		}
		if slip.Session > slip.Captions && slip.Session+slip.Captions < 0.5 { // most likely nobody's: it would only cast doubt on the session
			continue
		}
		e := f.evidence()
		e.around(set, slip)
		f.add(Finding{
			Kind: slipKind(slip, cause), Cause: cause, At: at(slip.At.At), Set: this.Set, Probability: p, Slip: this.Slip,
			Text: f.slipText(set, slip, due, cause, p), repair: f.repairOf(i, slip, due),
		}, e)
	}
}

// rule gives a slip the cause that a person has ruled it to have. Words that the captioner was cleared of are left as they are.
func (f *finder) rule(x Finding, slip *segment.Slip) {
	r := f.settled.ruling(x)
	if r == nil {
		return
	}
	slip.Session, slip.Captions = yes(r.Cause == causeSession), yes(r.Cause == causeCaptions)
	if r.Cause != causeCaptions {
		for w := slip.First; w < slip.Last; w++ {
			f.refused[w] = true
		}
	}
}

// samePlace says whether two slips are of the same words.
func samePlace(a, b segment.Slip) bool {
	return a.Kind == segment.Misheard && b.Kind == a.Kind && a.First == b.First && a.Last == b.Last && a.Last > a.First && a.Expected > 0 && b.Expected > 0
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

// hardlyDoubtful is the probability from which a slip is told without a "probably".
const hardlyDoubtful = 0.9

// slipText words a slip for the person who made it, or did not; due is what should have been said.
func (f *finder) slipText(set *segment.Set, s segment.Slip, due []int, cause string, p float64) string {
	where := fmt.Sprintf("At %s%s ", s.At.At, inSet(set))
	probably := ""
	if p < hardlyDoubtful {
		probably = "probably "
	}
	switch cause {
	case causeSession:
		text := where + "you " + probably + said(set, s)
		if !f.doubtfulDose(set) {
			text += doneFor(set)
		}
		return text + "."
	case causeCaptions:
		return where + "the captions " + captioned(f, set, s, due) + ". The session was " + probably + "fine."
	}
	either := "You may have said it so, or the captions may be wrong"
	switch s.Kind {
	case segment.Gap, segment.Lost, segment.Skipped:
		either = "You left it out, or the captions did"
		if s.Expected <= 0 {
			either = "You left them out, or the captions did"
		}
	}
	return where + "the captions " + shown(f, set, s, due) + ". " + either + ": listen there."
}

// said tells a slip that was really made, in words that follow "you".
func said(set *segment.Set, s segment.Slip) string {
	switch {
	case s.Kind == segment.Lost || s.Kind == segment.Gap || s.Said == 0:
		return "go on without a number"
	case (s.Kind == segment.Repeated || s.Kind == segment.Doubled) && numberBefore(set, s) == s.Said:
		return fmt.Sprintf("say %d twice, a repetition each", s.Said)
	case s.Kind == segment.Skipped && s.Expected > 0:
		return fmt.Sprintf("leave out %d and say %d", s.Expected, s.Said)
	case s.Kind == segment.Restarted && s.Expected > 0:
		return fmt.Sprintf("go back to %d where %d was due", s.Said, s.Expected)
	case s.Kind == segment.Jumped && s.Expected > 0:
		return fmt.Sprintf("jump to %d where %d was due", s.Said, s.Expected)
	case s.Expected > 0:
		return fmt.Sprintf("say %d where %d was due", s.Said, s.Expected)
	}
	return fmt.Sprintf("say %d out of turn", s.Said)
}

// numberBefore returns the number of a set's count before a slip, or the slip's own where none is known.
func numberBefore(set *segment.Set, s segment.Slip) int {
	last := s.Said
	for _, n := range set.Count {
		if n.Said > 0 && n.At.At < s.At.At && n.Word < s.First {
			last = n.Said
		}
	}
	return last
}

// captioned tells what the captioner did at a slip.
func captioned(f *finder, set *segment.Set, s segment.Slip, due []int) string {
	switch s.Kind {
	case segment.Doubled, segment.Repeated, segment.Restarted:
		return fmt.Sprintf("write “%s” twice, with no time to do it twice", f.slipWords(s))
	case segment.Gap, segment.Lost, segment.Skipped, segment.Jumped:
		if s.Expected > 0 {
			if withinRepetition(set, s) {
				return fmt.Sprintf("leave out %d in the count within a repetition", s.Expected)
			}
			return fmt.Sprintf("leave out %d while the beat goes on", s.Expected)
		}
		return "leave out numbers while the beat goes on"
	}
	return shown(f, set, s, due)
}

// shown tells what a reader of the captions sees at a slip, and blames nobody.
func shown(f *finder, set *segment.Set, s segment.Slip, due []int) string {
	hold := withinRepetition(set, s)
	switch s.Kind {
	case segment.Doubled, segment.Repeated:
		return fmt.Sprintf("show “%s” twice", f.slipWords(s))
	case segment.Restarted:
		return fmt.Sprintf("go back to “%s”", f.slipWords(s))
	case segment.Jumped:
		return fmt.Sprintf("jump to “%s”", f.slipWords(s))
	case segment.Gap, segment.Lost, segment.Skipped:
		if s.Expected > 0 {
			if hold {
				return fmt.Sprintf("show no %d in the count within a repetition", s.Expected)
			}
			return fmt.Sprintf("show no %d", s.Expected)
		}
		return "show no numbers for a while"
	}
	if hold {
		return fmt.Sprintf("show “%s” where %d was due in the count within a repetition", f.slipWords(s), s.Expected)
	}
	if s.Expected > 0 {
		return fmt.Sprintf("show “%s” where %s due", f.slipWords(s), numbers(due))
	}
	return fmt.Sprintf("show “%s” in the place of a number", f.slipWords(s))
}

// mostWords is how many words of a slip are written out; of more, the first three and the last two tell where it is.
const mostWords = 6

// slipWords returns what is written at a slip, or the number where nothing is.
func (f *finder) slipWords(s segment.Slip) string {
	text := written(f.session.Track, s.First, s.Last)
	if text == "" {
		return fmt.Sprint(s.Said)
	}
	if s.Last-s.First > mostWords {
		return written(f.session.Track, s.First, s.First+3) + " … " + written(f.session.Track, s.Last-2, s.Last)
	}
	return text
}

// farOff is how many repetitions a set may lie from the announced number and still be a slip in doing that number.
// Common practice, no source: a lost or added number moves a set by one, rarely by two.
const farOff = 2

// aimed says whether the count of a set goes up to the announced number, or down from it, and not beyond.
func aimed(s *segment.Set) bool {
	most := 0
	for _, n := range s.Count {
		most = max(most, n.Said)
	}
	return most == s.Announced.Reps
}

// disowned says whether most of the sets for which one announcement stands, three or more, neither do its number nor aim at
// it: then it was meant for something else. "Next time do three instead of five" is no dose for today.
func (f *finder) disowned(d segment.Dose) bool {
	sets, others := 0, 0
	for i := range f.session.Sets {
		s := &f.session.Sets[i]
		if !s.Counted || s.Announced != d {
			continue
		}
		sets++
		if s.Reps != d.Reps && !aimed(s) {
			others++
		}
	}
	return sets >= 3 && 2*others > sets
}

// doubtfulDose says whether a counted set was perhaps not meant to have the number announced before it.
func (f *finder) doubtfulDose(s *segment.Set) bool {
	far := s.Reps > s.Announced.Reps+farOff || s.Reps < s.Announced.Reps-farOff
	return !aimed(s) && (far || f.disowned(s.Announced))
}

// offDose says whether a counted set went under or over the announced number, and how likely by the limits of its repetitions;
// with probability 0 where nothing was announced or just that was done.
func offDose(set *segment.Set) (kind string, p float64) {
	want := set.Announced.Reps
	reps := believeReps(set.Reps, set.RepsLow, set.RepsHigh)
	switch {
	case !set.Counted || want <= 0 || set.Reps == want:
		return "", 0
	case set.Reps < want:
		return "count-short", reps.below(float64(want) - 0.5)
	}
	return "count-over", reps.above(float64(want) + 0.5)
}

const leastDose = .5

// reps tells a counted set that went under or over the announced number, where that is more likely than not. A set that is
// far from a number which its count does not aim at was perhaps not meant to have that number: its dose is unclear. So it is where
// all that is known of the session leaves it more likely that the number or the repetitions were misread.
func (f *finder) reps(i int) {
	set := &f.session.Sets[i]
	want := set.Announced.Reps
	kind, p := offDose(set)
	ruled := f.ruledSo(i)
	if kind == "" || p <= 0.5 && !ruled {
		return
	}
	switch {
	case ruled, f.settled.Numbers[i]:
		p = 1
	case !f.settled.Doses[i]:
		p = weigh(OddDose, f.ledger.doseReasons(i, p))
	}
	e := f.evidence()
	e.announced(set.Announced)
	e.lastCounted(set)
	if !ruled && !f.settled.Doses[i] && f.doubtfulDose(set) {
		f.unclear(i, math.Max(p, 1-p), e)
		return
	}
	if p <= 0.5 {
		f.add(Finding{
			Kind: "dose-unclear", Cause: causeUnsure, At: at(set.Start.At), Set: setID(i), Probability: 1 - p,
			Text: fmt.Sprintf("The set at %s%s seems to have %s %s for %d announced, but the captions do not show it clearly: listen there.",
				set.Start.At, inSet(set), done(set), unit(set.Reps, "repetition"), want),
		}, e)
		return
	}
	f.add(Finding{
		Kind: kind, Cause: causeSession, At: at(set.End.At), Set: setID(i), Probability: p,
		Text: fmt.Sprintf("The set that ends at %s%s has %s %s for %d announced.", set.End.At, inSet(set), done(set), unit(set.Reps, "repetition"), want),
	}, e)
}
