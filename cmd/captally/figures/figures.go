// Package figures writes times, lengths and numbers for a person, alike in a terminal and on the page: no more exactly than they
// are known.
package figures

import (
	"math"
	"strconv"

	"captally.example/captally/analyze"
	"captally.example/captally/segment/caption"
)

// Clock writes a time in seconds as a player shows it, "12:40".
func Clock(s float64) string { return caption.At(s).String() }

// Minutes writes a length of some minutes, in seconds, as "10:39".
func Minutes(s float64) string { return Clock(math.Round(s)) }

// Seconds writes a length: "7.9 s" below ten seconds, "47 s" above, "" where it is unknown.
func Seconds(s float64) string {
	if s <= 0 {
		return ""
	}
	return Bare(s) + " s"
}

// Bare writes a number of seconds with one decimal below ten and none above.
func Bare(s float64) string { return Fixed(s, decimals(s)) }

// decimals counts those of a length; what would be rounded up to "10.0" has none.
func decimals(s float64) int {
	if math.Abs(s) < 9.95 {
		return 1
	}
	return 0
}

// Fixed writes a number with so many decimals.
func Fixed(s float64, decimals int) string { return strconv.FormatFloat(s, 'f', decimals, 64) }

// Within writes the limits of a length with a word or sign between them, "45 to 48", both as exactly as the upper one; "" where
// they are one figure.
func Within(low, high float64, between string) string {
	a, b := Fixed(low, decimals(high)), Bare(high)
	if a == b {
		return ""
	}
	return a + between + b
}

// Length writes a measured length no more exactly than its upper limit, "47 s"; "" where it is unknown.
func Length(r analyze.Range) string {
	if r.Value <= 0 && r.High <= 0 {
		return ""
	}
	return Fixed(r.Value, decimals(r.High)) + " s"
}

// Dose writes what was announced: "6 reps", "40 s"; "" where nothing was.
func Dose(d *analyze.Dose) string {
	switch {
	case d == nil:
		return ""
	case d.Reps > 0:
		return Count(d.Reps, "rep")
	}
	return Seconds(d.Seconds)
}

// RepsWithin writes the limits of the repetitions done with a word or sign between them, "7 to 8"; "" where they are one number.
func RepsWithin(p analyze.Performed, between string) string {
	if p.Reps == nil || p.RepsLow == nil || p.RepsHigh == nil || *p.RepsLow == *p.RepsHigh {
		return ""
	}
	return strconv.Itoa(*p.RepsLow) + between + strconv.Itoa(*p.RepsHigh)
}

// Count writes a number of things: "1 rep", "6 reps".
func Count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return strconv.Itoa(n) + " " + thing + "s"
}

// Percent writes a probability as a person says it; it never claims certainty.
func Percent(p float64) string {
	switch {
	case p > 0 && p < 0.01:
		return "under 1%"
	case p > 0.99:
		return "over 99%"
	}
	return Fixed(100*p, 0) + "%"
}
