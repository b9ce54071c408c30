package review

import (
	"strings"

	"captally.example/captally/analyze"
	"captally.example/captally/analyze/settle"
	"captally.example/captally/cmd/captally/figures"
)

// limits writes the limits of a length, "45 to 48"; "" where they are one figure.
func limits(r analyze.Range) string { return figures.Within(r.Low, r.High, " to ") }

// done writes what was performed and apart its limits.
func done(p analyze.Performed) (value, limits string) {
	switch {
	case p.Reps != nil:
		return figures.Count(*p.Reps, "rep"), figures.RepsWithin(p, " to ")
	case p.Seconds != nil:
		return figures.Seconds(*p.Seconds), ""
	}
	return "", ""
}

// kindWords are the kinds of findings in words, for lines that name a finding in short.
var kindWords = map[string]string{
	"count-short": "fewer repetitions than announced", "count-over": "more repetitions than announced", "time-short": "shorter than announced", "time-over": "longer than announced",
	"dose-unclear": "a dose that may belong elsewhere", "sides-uneven": "the sides differ", "count-skipped": "a number left out", "count-repeated": "a number said twice",
	"count-restarted": "the count jumps back", "count-jumped": "the count jumps forward", "count-lost": "repetitions without a count", "rest-short": "a short rest",
	"rest-over": "a long rest", "rest-missing": "a rest left out", "time-cue-off": "a time cue that is off", "caption-doubled": "numbers twice in the captions",
	"caption-gap": "a number missing in the captions", "caption-misheard": "a number misheard in the captions",
}

// inWords puts words in the place of a finding's kind in what is told of a decision.
func inWords(d settle.Decision, text string) string {
	if d.Finding == nil {
		return text
	}
	if words, known := kindWords[d.Finding.Kind]; known {
		text = strings.ReplaceAll(text, d.Finding.Kind, words)
	}
	return text
}
