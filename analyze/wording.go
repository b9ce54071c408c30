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
	if x == 1 {
		return "1 second"
	}
	return fmt.Sprintf("%g seconds", x)
}

// length writes a measured length, with its limits where they are more than two seconds apart.
func length(l segment.Length) string {
	if l.High-l.Low <= 2 {
		return seconds(l.Value)
	}
	return fmt.Sprintf("about %s (%.0f to %.0f)", seconds(l.Value), l.Low, l.High)
}

// repetitions writes what was done in a counted set, with its limits where it has any.
func repetitions(s *segment.Set) string {
	unit := "repetitions"
	if s.Reps == 1 {
		unit = "repetition"
	}
	if s.RepsLow == s.RepsHigh {
		return fmt.Sprintf("%d %s", s.Reps, unit)
	}
	return fmt.Sprintf("about %d %s (%d to %d)", s.Reps, unit, s.RepsLow, s.RepsHigh)
}

// doneFor adds to a slip what became of the set: ": 11 were done for 10 announced".
func doneFor(s *segment.Set) string {
	if !s.Counted || s.Announced.Reps <= 0 || s.Reps == s.Announced.Reps {
		return ""
	}
	done := fmt.Sprintf("%d were done", s.Reps)
	if s.RepsLow != s.RepsHigh {
		done = fmt.Sprintf("about %d (%d to %d) were done", s.Reps, s.RepsLow, s.RepsHigh)
	}
	return fmt.Sprintf(": %s for %d announced", done, s.Announced.Reps)
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
