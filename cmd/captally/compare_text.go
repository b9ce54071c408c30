package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"captally.example/captally/analyze"
)

// printComparison sets the session beside the published ranges, each with the number of its source.
func printComparison(out *output, comparisons []analyze.Comparison) {
	if len(comparisons) == 0 {
		return
	}
	fmt.Fprintf(out, "\n%s\n", out.paint(bold, "For comparison only, never a prescription: published ranges and whom they are for"))
	t := table{columns: []column{{title: "in this session"}, {title: "lies"}, {title: "of the range", right: true}, {title: "for", shrink: true}, {}}}
	var sources []string
	before := ""
	for _, c := range comparisons {
		session := c.What + " " + between(c.Low, c.High, c.Unit)
		if session == before {
			session = ""
		} else {
			before = session
		}
		t.add(session, lies(c.Position), published(c.Guidance), c.Guidance.Population, fmt.Sprintf("[%d]", number(&sources, source(c.Guidance))))
	}
	t.print(out)
	for i, s := range sources {
		fmt.Fprintln(out, wrap(fmt.Sprintf("  [%d] ", i+1), s))
	}
}

// lies says where a figure lies, seen from the published range.
func lies(position string) string {
	switch position {
	case "partly inside":
		return "partly in"
	case "outside":
		return "around"
	}
	return position
}

func between(low, high float64, unit string) string {
	a, b := plainFigure(low), plainFigure(high)
	switch {
	case a == "1" && b == "1" && len(unit) > 3:
		return "1 " + strings.TrimSuffix(short(unit), "s")
	case a == b:
		return a + " " + short(unit)
	}
	return a + "-" + b + " " + short(unit)
}

func published(g analyze.Guidance) string {
	switch {
	case math.IsInf(g.High, 1):
		return "from " + plainFigure(g.Low) + " " + short(g.Unit)
	case g.Low == 0:
		return "up to " + plainFigure(g.High) + " " + short(g.Unit)
	}
	return between(g.Low, g.High, g.Unit)
}

func short(unit string) string {
	if unit == "repetitions" {
		return "reps"
	}
	return unit
}

// plainFigure writes a figure of a range: "8", "1.5".
func plainFigure(x float64) string {
	if x < 10 {
		return fmt.Sprintf("%g", math.Round(x*10)/10)
	}
	return fmt.Sprintf("%.0f", x)
}

// source names where a range was published, and says where it was not read there.
func source(g analyze.Guidance) string {
	s := g.Source
	if g.Year > 0 {
		s += fmt.Sprintf(", %d", g.Year)
	}
	if g.Mark == analyze.Recalled {
		s += " (from memory: check before use)"
	}
	return s
}

// number returns the place of s in the list, from 1, and adds it where it is missing.
func number(list *[]string, s string) int {
	i := slices.Index(*list, s)
	if i < 0 {
		*list = append(*list, s)
		i = len(*list) - 1
	}
	return i + 1
}
