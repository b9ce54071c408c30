package settle

import (
	"fmt"

	"captally.example/captally/segment/caption"
)

// findingWords are the kinds of findings as a person would name them in short.
var findingWords = map[string]string{
	"count-short": "fewer repetitions than announced", "count-over": "more repetitions than announced",
	"time-short": "shorter than announced", "time-over": "longer than announced", "dose-unclear": "a dose that may belong elsewhere",
	"sides-uneven": "the sides differ", "count-skipped": "a number left out", "count-repeated": "a number said twice",
	"count-restarted": "the count jumps back", "count-jumped": "the count jumps forward", "count-lost": "repetitions without a count",
	"rest-short": "a short rest", "rest-over": "a long rest", "rest-missing": "a rest left out", "time-cue-off": "time left, said wrong",
	"caption-doubled": "numbers twice in the captions", "caption-gap": "a number missing in the captions",
	"caption-misheard": "a number misheard in the captions",
}

// InWords names a kind of finding in short for a person, such as "a number left out".
func InWords(finding string) string {
	if words, known := findingWords[finding]; known {
		return words
	}
	return finding
}

// spoken are the findings that are about what was said rather than what was done.
var spoken = map[string]bool{"count-skipped": true, "count-repeated": true, "count-restarted": true, "count-jumped": true, "time-cue-off": true,
	"caption-doubled": true, "caption-gap": true, "caption-misheard": true}

// Verdict words a decision on a kind of finding: "it was said", "it is so", "the captioner's mistake", "not so"; "" where k is
// no verdict.
func (k Kind) Verdict(finding string) string {
	switch {
	case k == Said && spoken[finding]:
		return "it was said"
	case k == Said:
		return "it is so"
	case k == Captions:
		return "the captioner's mistake"
	case k == NotSo:
		return "not so"
	}
	return ""
}

// Describe tells a decision in a line for a person, such as "0:37, a number said twice: it was said".
func (x Decision) Describe() string {
	switch {
	case x.Finding != nil:
		return clock(x.Finding.At) + ", " + InWords(x.Finding.Kind) + ": " + x.Kind.Verdict(x.Finding.Kind)
	case x.Set != nil:
		return x.ofSet()
	case x.Phase != nil:
		return x.Phase.Kind + " at " + clock(x.Phase.Start) + ": " + x.edge()
	case x.Kind == Add:
		return fmt.Sprintf("set at %s%s: added, until %s", clock(x.Start), named(x.Name), clock(x.End))
	case x.Kind == NoteText && (x.Text == "" || x.Text == x.Base):
		return "notes, " + x.Form + ": your own words taken out"
	case x.Kind == NoteText:
		return "notes, " + x.Form + ": your own words"
	}
	return string(x.Kind)
}

func clock(s float64) string { return caption.At(s).String() }

func (x Decision) edge() string {
	if x.Edge == "start" {
		return "begins at " + clock(x.At)
	}
	return "ends at " + clock(x.At)
}

func (x Decision) ofSet() string {
	if x.Kind == Name && x.Everywhere {
		return "all sets" + named(x.Set.Exercise) + ": called " + x.Name
	}
	return "set at " + clock(x.Set.Start) + named(x.Set.Exercise) + ": " + x.change()
}

// change tells what becomes of a set.
func (x Decision) change() string {
	switch x.Kind {
	case Number:
		return x.amount() + " done"
	case Dose:
		return x.amount() + " announced"
	case Name:
		return "called " + x.Name
	case Side:
		if x.Side == "" {
			return "no side"
		}
		return sideWords[x.Side]
	case Edge:
		return x.edge()
	case Merge:
		return "one with the next"
	case Split:
		return "two, the second from " + clock(x.At)
	case Remove:
		return "taken out, there was none"
	}
	return string(x.Kind)
}

var sideWords = map[string]string{"left": "left side", "right": "right side", "both": "both sides at once", "alternate": "sides by turns"}

func (x Decision) amount() string {
	switch {
	case x.Seconds == 1:
		return "1 second"
	case x.Seconds > 0:
		return fmt.Sprintf("%g seconds", x.Seconds)
	case x.Reps == 1:
		return "1 repetition"
	case x.Reps > 0:
		return fmt.Sprintf("%d repetitions", x.Reps)
	}
	return "nothing"
}
