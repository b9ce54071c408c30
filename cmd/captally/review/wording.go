package review

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"captally.example/captally/analyze"
	"captally.example/captally/analyze/settle"
	"captally.example/captally/segment/caption"
)

// clock writes a time in seconds as a player shows it, "12:40".
func clock(s float64) string { return caption.At(s).String() }

// minutes writes a length of some minutes, "10:39".
func minutes(s float64) string { return clock(math.Round(s)) }

// seconds writes a length: "7.9 s" below ten seconds, "47 s" above, "" where it is unknown.
func seconds(s float64) string {
	if s <= 0 {
		return ""
	}
	return fixed(s, decimals(s)) + " s"
}

func decimals(s float64) int {
	if math.Abs(s) < 9.95 {
		return 1
	}
	return 0
}

func fixed(s float64, decimals int) string { return strconv.FormatFloat(s, 'f', decimals, 64) }

// limits writes the limits of a length, "45 to 48", both as exactly as the upper one; "" where they are one figure.
func limits(r analyze.Range) string {
	low, high := fixed(r.Low, decimals(r.High)), fixed(r.High, decimals(r.High))
	if low == high {
		return ""
	}
	return low + " to " + high
}

// length writes a measured length no more exactly than its upper limit: "47 s".
func length(r analyze.Range) string {
	if r.Value <= 0 && r.High <= 0 {
		return ""
	}
	return fixed(r.Value, decimals(r.High)) + " s"
}

// dose writes what was announced: "6 reps", "40 s"; "" where nothing was.
func dose(d *analyze.Dose) string {
	switch {
	case d == nil:
		return ""
	case d.Reps > 0:
		return count(d.Reps, "rep")
	}
	return seconds(d.Seconds)
}

// done writes what was performed and apart its limits.
func done(p analyze.Performed) (value, limits string) {
	switch {
	case p.Reps != nil:
		value = count(*p.Reps, "rep")
		if p.RepsLow != nil && p.RepsHigh != nil && *p.RepsLow != *p.RepsHigh {
			limits = fmt.Sprintf("%d to %d", *p.RepsLow, *p.RepsHigh)
		}
	case p.Seconds != nil:
		value = seconds(*p.Seconds)
	}
	return value, limits
}

// count writes a number of things: "1 rep", "6 reps".
func count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return strconv.Itoa(n) + " " + thing + "s"
}

// percent writes a probability as a person says it; it never claims certainty.
func percent(p float64) string {
	switch {
	case p > 0 && p < 0.01:
		return "under 1%"
	case p > 0.99:
		return "over 99%"
	}
	return strconv.FormatFloat(100*p, 'f', 0, 64) + "%"
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
