package main

import (
	"strconv"

	"captally.example/captally/analyze"
	"captally.example/captally/cmd/captally/figures"
)

// length writes a measured length with its limits, "47 s (45-48)", no more exactly than the upper one.
func length(r analyze.Range) string {
	s := figures.Length(r)
	if limits := figures.Within(r.Low, r.High, "-"); s != "" && limits != "" {
		s += " (" + limits + ")"
	}
	return s
}

// done writes what was performed, repetitions as a bare number, and apart its limits.
func done(p analyze.Performed) (value, limits string) {
	switch {
	case p.Reps != nil:
		return strconv.Itoa(*p.Reps), figures.RepsWithin(p, "-")
	case p.Seconds != nil:
		return figures.Seconds(*p.Seconds), ""
	}
	return "", ""
}
