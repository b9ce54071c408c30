package analyze

import (
	"fmt"
	"math"
	"sort"
	"strings"
)

// A Comparison sets one figure of a session beside one published range. It says where the figure lies, never what it should be.
type Comparison struct {
	What     string   `json:"what"`     // the name of the range
	Low      float64  `json:"low"`      // the least and the most that the session has, in Unit
	High     float64  `json:"high"`     //
	Unit     string   `json:"unit"`     //
	Position string   `json:"position"` // "inside", "below", "above", "partly inside" or "outside"
	Text     string   `json:"text"`     // one line for a person, with its source
	Guidance Guidance `json:"-"`        // the published range
}

// Compare sets the rests, repetitions, sets, warm-up, cool-down and holds of a session beside the published ranges, in the
// order of PublishedRanges. Figures that the session does not have are left out.
func Compare(r *Report) []Comparison {
	figures := figures(r)
	out := []Comparison{}
	for _, g := range guidance {
		x := figures[g.Name]
		if len(x) == 0 {
			continue
		}
		c := Comparison{What: g.Name, Low: round(x[0]), High: round(x[len(x)-1]), Unit: g.Unit, Guidance: g}
		c.Position = position(x, g)
		c.Text = fmt.Sprintf("For comparison: %s: %s here; published: %s for %s (%s). %s.",
			c.What, span(c.Low, c.High, shownUnit(g)), published(g), g.Population, cite(g), where(c.Position))
		out = append(out, c)
	}
	return out
}

// figures returns what the session has for each name of the guidance, in its unit, sorted.
func figures(r *Report) map[string][]float64 {
	out := map[string][]float64{}
	add := func(name string, x float64) {
		if x > 0 {
			out[name] = append(out[name], x)
		}
	}
	for _, rest := range r.Rests {
		add(onRest, rest.Length.Value)
	}
	add(onWarmUp, r.Totals.WarmUp/60)
	add(onCoolDown, r.Totals.CoolDown/60)
	rounds := map[string]map[string]int{} // exercise, side: sets
	for _, s := range r.Sets {
		if !owed(s) {
			continue
		}
		name := strings.ToLower(s.Exercise)
		if s.Phase == "work" && s.Performed.Reps != nil {
			add(onReps, float64(*s.Performed.Reps))
			if name != "" {
				if rounds[name] == nil {
					rounds[name] = map[string]int{}
				}
				rounds[name][s.Side]++
			}
		}
		if s.Performed.Seconds != nil {
			add(held(s, name), *s.Performed.Seconds)
		}
	}
	for _, sides := range rounds {
		most := 0
		for _, n := range sides {
			most = max(most, n)
		}
		add(onSets, float64(most))
	}
	delete(out, "")
	for _, x := range out {
		sort.Float64s(x)
	}
	return out
}

// held names the guidance for a timed set by its exercise, "" where there is none.
func held(s Set, name string) string {
	switch {
	case s.Phase == "work" && strings.Contains(name, "stretch"):
		return onStretch
	case s.Phase == "balance" && (strings.Contains(name, "one leg") || strings.Contains(name, "one-leg") || strings.Contains(name, "single leg")):
		return onOneLegStand
	}
	return ""
}

func position(x []float64, g Guidance) string {
	inside, below, above := 0, 0, 0
	for _, v := range x {
		switch {
		case v < g.Low-slack(g):
			below++
		case v > g.High+slack(g):
			above++
		default:
			inside++
		}
	}
	switch {
	case inside == len(x):
		return "inside"
	case below == len(x):
		return "below"
	case above == len(x):
		return "above"
	case inside > 0:
		return "partly inside"
	}
	return "outside"
}

// slack is what a single published figure is widened by each way before a measured length is called off it: a tenth.
// Common practice, no source.
func slack(g Guidance) float64 {
	if g.Low == g.High {
		return g.Low / 10
	}
	return 0
}

// shownUnit is the unit as written after a figure; counts have none, for the name says what is counted.
func shownUnit(g Guidance) string {
	if g.Unit == "s" || g.Unit == "min" {
		return " " + g.Unit
	}
	return ""
}

func span(low, high float64, unit string) string {
	a, b := figure(low), figure(high)
	if a != b {
		a += " to " + b
	}
	return a + unit
}

func published(g Guidance) string {
	if math.IsInf(g.High, 1) {
		return "at least " + figure(g.Low) + shownUnit(g)
	}
	if g.Low == 0 {
		return "up to " + figure(g.High) + shownUnit(g)
	}
	return span(g.Low, g.High, shownUnit(g))
}

// figure writes a number with a decimal only below 10.
func figure(x float64) string {
	if x < 10 {
		return fmt.Sprintf("%g", math.Round(x*10)/10)
	}
	return fmt.Sprintf("%.0f", x)
}

func cite(g Guidance) string {
	if g.Year == 0 {
		return g.Source
	}
	return fmt.Sprintf("%s, %d", g.Source, g.Year)
}

func where(position string) string {
	if position == "partly inside" {
		return "Some of it lies inside"
	}
	if position == "outside" {
		return "It lies on both sides of that"
	}
	return "It lies " + position
}
