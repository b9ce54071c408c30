package review

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"captally.example/captally/analyze"
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

// capital writes the first letter of a text large.
func capital(text string) string {
	first, n := utf8.DecodeRuneInString(text)
	if n == 0 {
		return ""
	}
	return string(unicode.ToUpper(first)) + text[n:]
}

// sure says how sure a finding is.
func sure(f analyze.Finding) string {
	how := "Perhaps"
	switch {
	case f.Cause == "unsure":
		return "For you to tell"
	case f.Probability >= 0.9: // from where its own text is without a "probably"
		how = "Almost certain"
	case f.Probability >= 0.6:
		how = "Probable"
	}
	return how + " (" + figures.Percent(f.Probability) + ")"
}

// advice says what to do about a finding, and what comes of it.
func advice(f analyze.Finding) string {
	switch f.Kind {
	case "count-short", "count-over":
		return "If it is so, the notes tell the viewer how many to do. If more or fewer were done, correct the number."
	case "time-short", "time-over":
		return "If it is so, the notes tell the viewer how long to go on. If it lasted longer or shorter, correct the number."
	case "dose-unclear":
		if f.Also != nil {
			return "If another number was meant for these sets, change what was announced for each."
		}
		return "If another number was meant for this set, change the set: what was announced."
	case "sides-uneven":
		return "If it is so, the notes ask the viewer to do the same on both sides."
	case "rest-short", "rest-missing":
		return "If it is so, the notes ask the viewer to pause the video."
	case "rest-over", "time-cue-off":
		return "This is for you alone: the notes do not mention it."
	}
	switch f.Cause {
	case "session":
		return "Listen here. If you hear it so, the notes tell the viewer what to do instead."
	case "captions":
		return "Nothing to record again. If you agree, the corrected captions have it put right."
	}
	return "Listen here: only you can tell whether it was said so or written so."
}

// follow tells what follows from a finding and is not in its own words already: a slip says how many were done.
func follow(f judged) []string {
	out := []string{}
	for _, x := range f.follow {
		if x.Kind != "count-short" && x.Kind != "count-over" || !strings.Contains(f.Text, "announced") {
			out = append(out, x.Text)
		}
	}
	return out
}

// where names what a finding is about, as the tables do.
func where(r *analyze.Report, f analyze.Finding) string {
	for i, s := range r.Sets {
		if s.ID == f.Set && f.Set != "" {
			return fmt.Sprintf("Set %d", i+1)
		}
	}
	for _, x := range r.Rests {
		if x.ID == f.Rest && f.Rest != "" {
			return restName(r, x)
		}
	}
	return ""
}

// restName names a rest by the set before it.
func restName(r *analyze.Report, x analyze.Rest) string {
	if n := setBefore(r, x); n > 0 {
		return fmt.Sprintf("Rest after set %d", n)
	}
	return "Rest"
}

// setBefore returns the number of the set before a rest, 0 for none.
func setBefore(r *analyze.Report, x analyze.Rest) int {
	before := 0
	for i, s := range r.Sets {
		if s.Start < x.Start {
			before = i + 1
		}
	}
	return before
}

// sentence makes one or more sentences of what went wrong: errors begin small and end without a stop. The name of a file, which
// some begin with, stays as it is.
func sentence(err error) string {
	var out []string
	for line := range strings.Lines(err.Error()) {
		line = strings.TrimSpace(line)
		if first, _, _ := strings.Cut(line, " "); !strings.ContainsAny(first, `./\:`) {
			line = capital(line)
		}
		if line != "" && !strings.HasSuffix(line, ".") && !strings.HasSuffix(line, "?") {
			line += "."
		}
		out = append(out, line)
	}
	return strings.Join(out, " ")
}
