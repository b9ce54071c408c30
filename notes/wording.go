package notes

import (
	"fmt"
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"captally.example/captally/segment/caption"
	"captally.example/captally/segment/numeral"
)

// clock writes a time as a player shows it: "12:40".
func clock(seconds float64) string { return caption.At(seconds).String() }

// number writes a small number in words, a larger one in figures.
func number(n int) string {
	if n >= 0 && n <= 12 {
		return numeral.Spell(n)
	}
	return fmt.Sprint(n)
}

// A wording is how a profile wants the draft's own words.
type wording struct {
	short    bool // "30 s" for "30 seconds"
	american bool // American rather than British spelling and habits
}

// of returns n of a unit, spelled out or short: "30 seconds", "30 s".
func (w wording) of(n int, unit, short string) string {
	switch {
	case w.short:
		return fmt.Sprintf("%d %s", n, short)
	case n == 1:
		return "1 " + unit
	}
	return fmt.Sprintf("%d %ss", n, unit)
}

// seconds writes a length: "30 seconds", or whole minutes as "2 minutes".
func (w wording) seconds(s float64) string {
	n := int(math.Round(s))
	if n >= 60 && n%60 == 0 {
		return w.of(n/60, "minute", "min")
	}
	return w.of(n, "second", "s")
}

// onlySeconds writes a length that another stands beside, in one unit with it: "60 seconds, not 45".
func (w wording) onlySeconds(s float64) string { return w.of(int(math.Round(s)), "second", "s") }

// minutes writes a length of some minutes: "about 26 minutes".
func (w wording) minutes(s float64) string {
	n := int(math.Round(s / 60))
	if n < 1 {
		return "less than " + w.of(1, "minute", "min")
	}
	return "about " + w.of(n, "minute", "min")
}

// amount writes one dose: "10 times", "30 seconds".
func (w wording) amount(d Dose) string {
	if d.Reps == 1 {
		return "once"
	}
	if d.Reps > 0 {
		return fmt.Sprintf("%d times", d.Reps)
	}
	return w.seconds(d.Seconds)
}

// dose writes the announced doses of an exercise: "10 times", "2 sets of 15", "3 sets of 10, 8 and 6". It is empty where
// none was announced.
func (w wording) dose(sets []Dose) string {
	var told []Dose
	for _, d := range sets {
		if d != (Dose{}) {
			told = append(told, d)
		}
	}
	switch {
	case len(told) == 0:
		return ""
	case len(sets) == 1:
		return w.amount(told[0])
	case len(told) < len(sets) && sets[0] == told[0] && len(told) == 1:
		return fmt.Sprintf("%d sets, the first of %s", len(sets), w.bare(told[0]))
	}
	same, reps, timed := true, false, false
	parts := make([]string, len(told))
	for i, d := range told {
		same = same && d == told[0]
		reps, timed = reps || d.Reps > 0, timed || d.Reps == 0
		parts[i] = w.bare(d)
	}
	switch {
	case same:
		parts = parts[:1]
	case reps && timed:
		for i, d := range told {
			parts[i] = w.amount(d)
		}
		return fmt.Sprintf("%d sets (%s)", len(sets), strings.Join(parts, ", "))
	}
	return fmt.Sprintf("%d sets of %s", len(sets), list(parts))
}

// bare writes a dose after "sets of": repetitions without "times".
func (w wording) bare(d Dose) string {
	if d.Reps > 0 {
		return fmt.Sprint(d.Reps)
	}
	return w.seconds(d.Seconds)
}

func list(parts []string) string {
	if len(parts) < 2 {
		return strings.Join(parts, "")
	}
	return strings.Join(parts[:len(parts)-1], ", ") + " and " + parts[len(parts)-1]
}

// upper begins a text with a capital.
func upper(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 || r == utf8.RuneError {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// lower undoes upper inside a sentence.
func lower(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 || r == utf8.RuneError {
		return s
	}
	return string(unicode.ToLower(r)) + s[n:]
}

// lead takes off the words with which talk goes on from what was said before: "And if you're on oxygen" begins at "if".
func lead(s string) string {
	for {
		word, rest, found := strings.Cut(s, " ")
		switch strings.ToLower(strings.Trim(word, ",")) {
		case "and", "so", "but", "or", "then", "now", "also", "well", "okay", "right":
		default:
			return s
		}
		if !found {
			return s
		}
		s = rest
	}
}

// stop ends a text with a full stop, unless it ends a sentence already.
func stop(s string) string {
	s = strings.TrimRight(strings.TrimSpace(s), ",;:")
	if s == "" || strings.HasSuffix(s, ".") || strings.HasSuffix(s, "!") || strings.HasSuffix(s, "?") || strings.HasSuffix(s, "]") {
		return s
	}
	return s + "."
}

// oneLine puts a text on one line, with single spaces.
func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }
