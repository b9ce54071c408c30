package main

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"captally.example/captally/analyze"
	"captally.example/captally/cmd/captally/figures"
)

// easyRate is the rate of speech that captions can follow with ease, in words a minute: BBC Subtitle Guidelines 1.2.5 (2026)
// give 160 to 180.
const easyRate = 160

// mostAdvice is how many things to mind are told: nobody minds more at once. Common practice, no source.
const mostAdvice = 4

// printHabits tells the therapist, and nobody else, how the session was led.
func printHabits(out *output, r *analyze.Report, h analyze.Habits) {
	fmt.Fprintln(out, plain(heading(r)))
	if len(r.Sets)+len(r.Rests) == 0 {
		fmt.Fprintln(out, "Nothing to tell: no count and no exercise phrase was found.")
		return
	}
	fmt.Fprintln(out, "How you lead, for you alone.")
	for _, part := range []struct {
		title string
		lines []string
	}{
		{"Doses and rests", keptLines(h)}, {"Pace", paceLines(h)}, {"Time cues, such as “ten more seconds”", cueLines(h)},
		{"Talk and work", talkLines(h)}, {"To mind at the next recording", advice(r, h)},
	} {
		if len(part.lines) == 0 {
			continue
		}
		fmt.Fprintf(out, "\n%s\n", out.paint(bold, part.title))
		for _, line := range part.lines {
			fmt.Fprintln(out, wrap("  - ", line))
		}
	}
}

func keptLines(h analyze.Habits) []string {
	var out []string
	if n := h.Doses.All(); n > 0 {
		out = append(out, fmt.Sprintf("%d of %s went as you announced%s.", h.Doses.Kept, figures.Count(n, "set"), others(h.Doses)))
	}
	if n := h.Rests.All(); n > 0 {
		out = append(out, fmt.Sprintf("%d of %s lasted as you announced%s.", h.Rests.Kept, figures.Count(n, "rest"), others(h.Rests)))
	}
	return out
}

// others tells what was not kept: "; 1 short, 2 long, of 1 it cannot be told".
func others(k analyze.Kept) string {
	var parts []string
	if k.Short > 0 {
		parts = append(parts, fmt.Sprintf("%d short", k.Short))
	}
	if k.Over > 0 {
		parts = append(parts, fmt.Sprintf("%d long", k.Over))
	}
	if k.Unsure > 0 {
		parts = append(parts, fmt.Sprintf("of %d it cannot be told", k.Unsure))
	}
	if len(parts) == 0 {
		return ""
	}
	return "; " + strings.Join(parts, ", ")
}

func paceLines(h analyze.Habits) []string {
	if len(h.Paces) == 0 {
		return nil
	}
	paces := slices.Clone(h.Paces)
	sort.SliceStable(paces, func(i, j int) bool { return paces[i].Seconds < paces[j].Seconds })
	quick, slow := paces[0], paces[len(paces)-1]
	text := fmt.Sprintf("%s a repetition in the middle one of %s", figures.Seconds(paces[len(paces)/2].Seconds), figures.Count(len(paces), "counted set"))
	if len(paces) > 1 {
		text += fmt.Sprintf("; from %s%s to %s%s", figures.Seconds(quick.Seconds), named(quick), figures.Seconds(slow.Seconds), named(slow))
	}
	out := []string{text + "."}
	switch p := math.Round(100 * h.Slowing); {
	case p >= 5:
		out = append(out, fmt.Sprintf("Towards the end of a set you count %.0f%% slower than at its start.", p))
	case p <= -5:
		out = append(out, fmt.Sprintf("Towards the end of a set you count %.0f%% faster than at its start.", -p))
	}
	return out
}

func named(p analyze.Pace) string {
	if p.Exercise == "" {
		return ""
	}
	return " (" + p.Exercise + ")"
}

func cueLines(h analyze.Habits) []string {
	if len(h.Cues) == 0 {
		return nil
	}
	near := 0
	var off []string
	for _, c := range h.Cues {
		if c.Near {
			near++
		} else {
			off = append(off, fmt.Sprintf("At %s you said %g s, and it was %.0f s.", figures.Clock(c.At), c.Said, c.Actual))
		}
	}
	were := "were"
	if near == 1 {
		were = "was"
	}
	return append([]string{fmt.Sprintf("%d of %d %s near enough to the time that was left.", near, len(h.Cues), were)}, off...)
}

func talkLines(h analyze.Habits) []string {
	out := []string{fmt.Sprintf("Exercise %s, rest %s, talk without either %s.", figures.Minutes(h.Exercise), figures.Minutes(h.Rest), figures.Minutes(h.Talk))}
	if h.Rate > 0 {
		out = append(out, fmt.Sprintf("Between the sets you say %.0f words a minute.", h.Rate))
	}
	return out
}

// advice names a few things to do another time, those that matter most to the person who follows along first.
func advice(r *analyze.Report, h analyze.Habits) []string {
	slips := places(r, "count-skipped", "count-repeated", "count-restarted", "count-jumped", "count-lost")
	short, uneven := places(r, "rest-short", "rest-missing"), places(r, "sides-uneven")
	far := 0
	for _, c := range h.Cues {
		if !c.Near {
			far++
		}
	}
	faults := 0
	for _, f := range r.Findings {
		if f.Cause == "captions" {
			faults++
		}
	}
	var out []string
	for _, x := range []struct {
		found bool
		text  string
	}{
		{len(slips) > 0, fmt.Sprintf("The count slipped at %s. Say the number first and the advice after it: the number keeps its place.", andMore(slips))},
		{len(uneven) > 0, fmt.Sprintf("The two sides differ at %s. Say the number again before the second side.", andMore(uneven))},
		{len(short) > 0, fmt.Sprintf("A rest ended early at %s. A clock beside the camera keeps it for you.", andMore(short))},
		{h.Unstated > 0, fmt.Sprintf("%s began without a number or a time. Say how many before you start; it helps those who follow, and these notes too.", figures.Count(h.Unstated, "set"))},
		{far > 0, fmt.Sprintf("%s on the time left went wrong. Count the last five seconds aloud rather than guess.", figures.Count(far, "remark"))},
		{h.Rests.Over > 0, fmt.Sprintf("%s ran long. If you like to explain there, announce the longer rest.", figures.Count(h.Rests.Over, "rest"))},
		{h.Rate > easyRate, fmt.Sprintf("You explain at %.0f words a minute; captions are easy to follow up to %d or so (BBC Subtitle Guidelines).", h.Rate, easyRate)},
		{faults > 0, fmt.Sprintf("The captions got a number wrong in %s; you did not. captally notes --as captions puts right what is sure.", figures.Count(faults, "place"))},
	} {
		if x.found && len(out) < mostAdvice {
			out = append(out, x.text)
		}
	}
	if len(out) == 0 {
		return []string{"Nothing: the session did what it said."}
	}
	return out
}

// places returns when the session itself had findings of some kinds, in order.
func places(r *analyze.Report, kinds ...string) []string {
	var at []float64
	for _, f := range r.Findings {
		if f.Cause == "session" && slices.Contains(kinds, f.Kind) {
			at = append(at, f.At)
		}
	}
	sort.Float64s(at)
	var out []string
	for _, x := range at {
		out = append(out, figures.Clock(x))
	}
	return out
}

// andMore names three places, and how many more there are.
func andMore(places []string) string {
	switch n := len(places); {
	case n > 4:
		return fmt.Sprintf("%s, and %d more times", strings.Join(places[:3], ", "), n-3)
	case n > 1:
		return strings.Join(places[:n-1], ", ") + " and " + places[n-1]
	}
	return strings.Join(places, "")
}
