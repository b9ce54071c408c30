package main

import (
	"fmt"
	"slices"
	"strings"

	"captally.example/captally/analyze"
	"captally.example/captally/cmd/captally/event"
	"captally.example/captally/cmd/captally/figures"
)

// causes are the findings' causes in the order in which they are told, each with its heading and colour.
var causes = []struct{ cause, heading, colour string }{
	{"session", "What was said or done", red},
	{"unsure", "Unsure: look before you change anything", yellow},
	{"captions", "Mistakes of the captions only; the session was fine", green},
}

// A tallied counts findings by cause.
type tallied struct{ session, unsure, captions int }

func tally(findings []analyze.Finding) tallied {
	var t tallied
	for _, f := range findings {
		switch f.Cause {
		case "session":
			t.session++
		case "captions":
			t.captions++
		default:
			t.unsure++
		}
	}
	return t
}

func printCheck(out *output, r *analyze.Report) {
	fmt.Fprintln(out, plain(heading(r)))
	sentence, colour := verdict(r)
	fmt.Fprintln(out, out.paint(bold+colour, wrap("", sentence)))
	fmt.Fprintln(out)
	printDone(out, r)
	printTotals(out, r)
	for _, c := range causes {
		printFindings(out, r, c.cause, c.heading, c.colour)
	}
	printWarnings(out, r.Source)
	if len(r.Findings) > 0 && r.Source.Name != inputName {
		fmt.Fprintf(out, "\nHow do you know? captally check --why %s %s\n", figures.Clock(r.Findings[0].At), plain(quoted(r.Source.Name)))
	}
	printComparison(out, analyze.Compare(r))
}

// verdict sums a session up in one sentence.
func verdict(r *analyze.Report) (sentence, colour string) {
	t := tally(r.Findings)
	t.session -= len(hence(r))
	if len(r.Sets)+len(r.Rests)+len(r.Findings) == 0 {
		return "Nothing to check: no count and no exercise phrase was found.", yellow
	}
	var parts []string
	if t.session > 0 {
		parts = append(parts, figures.Count(t.session, "thing")+" to look at in the session")
	} else {
		parts = append(parts, "Nothing to look at in the session")
	}
	if t.unsure > 0 {
		parts = append(parts, fmt.Sprintf("%d unsure", t.unsure))
	}
	if t.captions > 0 {
		parts = append(parts, figures.Count(t.captions, "mistake")+" of the captions only")
	}
	sentence = strings.Join(parts, ", ") + "."
	if !announced(r) {
		sentence += " No dose and no rest was announced to compare with."
	}
	switch {
	case t.session > 0:
		return sentence, red
	case t.unsure > 0:
		return sentence, yellow
	}
	return sentence, green
}

// announced says whether there was anything to keep to.
func announced(r *analyze.Report) bool {
	return slices.ContainsFunc(r.Sets, func(s analyze.Set) bool { return s.Prescribed != nil }) ||
		slices.ContainsFunc(r.Rests, func(r analyze.Rest) bool { return r.Prescribed != nil })
}

// printFindings prints the findings of a cause. What is of one event stands together, where the first of it would.
func printFindings(out *output, r *analyze.Report, cause, heading, colour string) {
	groups, leads := alike(r), hence(r)
	byID := map[string]analyze.Finding{}
	for _, f := range r.Findings {
		byID[f.ID] = f
	}
	printed := map[string]bool{}
	for _, f := range apart(r.Findings, groups) {
		if lead, follows := leads[f.ID]; follows {
			f = byID[lead]
		}
		if f.Cause != cause || printed[f.ID] {
			continue
		}
		if len(printed) == 0 {
			fmt.Fprintf(out, "\n%s\n", out.paint(bold+colour, heading))
		}
		printed[f.ID] = true
		if list := groups[f.ID]; list != nil {
			fmt.Fprintln(out, wrap(findingHead(f), alikeText(r, list)))
			continue
		}
		fmt.Fprintln(out, wrap(findingHead(f), told(f)))
		if said := evidence(f.Evidence); said != "" {
			fmt.Fprintln(out, wrap(strings.Repeat(" ", len(findingHead(f))), said))
		}
		for _, x := range r.Findings {
			if leads[x.ID] == f.ID {
				fmt.Fprintln(out, wrap(findingHead(x), link(f, x)+small(told(x))))
			}
		}
	}
}

func findingHead(f analyze.Finding) string {
	return fmt.Sprintf("%5s %8s  ", f.ID, figures.Clock(f.At))
}

// link is the word before what is told of the same event: a number left out makes a set short, one said twice makes it long.
func link(lead, x analyze.Finding) string {
	fits := map[string]string{"count-short": "count-skipped count-jumped count-lost", "count-over": "count-repeated count-restarted count-lost"}
	if kinds, slip := fits[x.Kind]; slip && !strings.Contains(kinds, lead.Kind) {
		return "Besides, "
	}
	return "Hence "
}

// hence returns the findings of the session that follow from another of it, each with the ID of the one that leads: a slip makes a set fall short,
// and the sides differ.
func hence(r *analyze.Report) map[string]string {
	lead := make([]int, len(r.Findings))
	for i, f := range r.Findings {
		lead[i] = -1
		if f.Cause == "session" && !f.Settled {
			lead[i] = event.Cause(r, r.Findings, i, func(k int) bool { return r.Findings[k].Cause != "session" })
		}
	}
	out := map[string]string{}
	for i, k := range lead {
		for k >= 0 && lead[k] >= 0 {
			k = lead[k]
		}
		if k >= 0 {
			out[r.Findings[i].ID] = r.Findings[k].ID
		}
	}
	return out
}

// small begins a sentence with a small letter.
func small(text string) string { return strings.ToLower(text[:1]) + text[1:] }

// told tells a finding under the heading of its cause, which says that it is unsure, or that the session was fine.
func told(f analyze.Finding) string {
	switch text := f.Text; f.Cause {
	case "unsure":
		return text
	case "captions":
		return fmt.Sprintf("%s (%s)", strings.TrimSuffix(text, " The session was fine."), figures.Percent(f.Probability))
	default:
		return fmt.Sprintf("%s (%s)", text, figures.Percent(f.Probability))
	}
}

// evidence quotes what a finding rests on.
func evidence(quotes []analyze.Quote) string {
	var parts []string
	for _, q := range quotes {
		parts = append(parts, fmt.Sprintf("%s “%s”", figures.Clock(q.At), q.Text))
	}
	return strings.Join(parts, "  ")
}

// printWarnings tells what was guessed or could not be read, without the name of the file, which stands above.
func printWarnings(out *output, source analyze.Source) {
	if len(source.Warnings) == 0 {
		return
	}
	fmt.Fprintf(out, "\n%s\n", out.paint(bold, "Warnings"))
	for _, w := range source.Warnings {
		if place, ok := strings.CutPrefix(w, source.Name+":"); ok {
			w = strings.TrimSpace(place)
			if w != "" && w[0] >= '0' && w[0] <= '9' {
				w = "line " + w
			}
		}
		fmt.Fprintln(out, wrap("  ", w))
	}
}

// quoted puts a file name into quotes where a shell would split it.
func quoted(name string) string {
	if strings.ContainsAny(name, " \t'\"\\$&;()*?<>|`!#~") {
		return "'" + strings.ReplaceAll(name, "'", `'\''`) + "'"
	}
	return name
}
