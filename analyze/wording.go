package analyze

import (
	"fmt"
	"math"

	"captally.example/captally/segment"
)

// seconds writes a length for a person: "12 seconds", "1 second", "1.5 seconds".
func seconds(x float64) string {
	if x < 10 && x != math.Trunc(x) {
		x = math.Round(x*10) / 10
	} else {
		x = math.Round(x)
	}
	return fmt.Sprintf("%g %s", x, unit(x, "second"))
}

// length writes a measured length, with its limits where they are more than two seconds apart.
func length(l segment.Length) string {
	if l.High-l.Low <= 2 {
		return seconds(l.Value)
	}
	return fmt.Sprintf("about %s (%.0f to %.0f)", seconds(math.Round(l.Value)), l.Low, l.High)
}

// done writes how many repetitions a counted set had, with its limits where it has any.
func done(s *segment.Set) string {
	if s.RepsLow == s.RepsHigh {
		return fmt.Sprint(s.Reps)
	}
	return fmt.Sprintf("about %d (%d to %d)", s.Reps, s.RepsLow, s.RepsHigh)
}

// doneFor adds to a slip what became of the set: ": 11 were done for 10 announced".
func doneFor(s *segment.Set) string {
	if !s.Counted || s.Announced.Reps <= 0 || s.Reps == s.Announced.Reps {
		return ""
	}
	were := "were"
	if s.Reps == 1 {
		were = "was"
	}
	return fmt.Sprintf(": %s %s done for %d announced", done(s), were, s.Announced.Reps)
}

// inSet names a set in brackets: " (heel raises, left)", or nothing where it has no name and no side.
func inSet(s *segment.Set) string {
	name, side := s.Exercise.Text, ""
	if s.Side == segment.Left || s.Side == segment.Right {
		side = s.Side.String()
	}
	switch {
	case name == "" && side == "":
		return ""
	case side == "":
		return " (" + name + ")"
	case name == "":
		return " (" + side + ")"
	}
	return " (" + name + ", " + side + ")"
}

// unit returns one, or its plural for any n but 1.
func unit[N int | float64](n N, one string) string {
	if n == 1 {
		return one
	}
	return one + "s"
}

// numbers writes numbers as the subject of a sentence: "11 was", "11 and 12 were".
func numbers(ns []int) string {
	if len(ns) == 1 {
		return fmt.Sprintf("%d was", ns[0])
	}
	text := fmt.Sprint(ns[0])
	for i, n := range ns[1:] {
		if i == len(ns)-2 {
			text += " and"
		} else {
			text += ","
		}
		text += fmt.Sprintf(" %d", n)
	}
	return text + " were"
}
