package main

import (
	"fmt"
	"strings"

	"captally.example/captally/analyze"
	"captally.example/captally/cmd/captally/figures"
)

// oftenAlike is from how many times on one mishearing is told in one place: a captioner who writes "to" for two does it all session long.
const oftenAlike = 3

// alike gathers the findings of the captions alone that tell one mishearing again and again, the same words for the same number: by the ID of the
// first, all of them in their order.
func alike(r *analyze.Report) map[string][]analyze.Finding {
	of := map[string]string{} // ID of a finding: what was heard as what
	for _, p := range r.Repairs {
		if p.Kind == analyze.RepairMisheard {
			of[p.Finding] = fmt.Sprint(strings.ToLower(strings.Join(p.Written, " ")), p.Numbers)
		}
	}
	same := map[string][]analyze.Finding{}
	for _, f := range r.Findings {
		if what := of[f.ID]; what != "" && f.Cause == "captions" && f.Kind == "caption-misheard" && !f.Settled {
			same[what] = append(same[what], f)
		}
	}
	out := map[string][]analyze.Finding{}
	for _, list := range same {
		if len(list) >= oftenAlike {
			out[list[0].ID] = list
		}
	}
	return out
}

// apart returns the findings that stand in a place of their own: those of a group but its first do not.
func apart(findings []analyze.Finding, groups map[string][]analyze.Finding) []analyze.Finding {
	inGroup := map[string]bool{}
	for _, list := range groups {
		for _, f := range list[1:] {
			inGroup[f.ID] = true
		}
	}
	var out []analyze.Finding
	for _, f := range findings {
		if !inGroup[f.ID] {
			out = append(out, f)
		}
	}
	return out
}

// alikeText tells a group in one sentence.
func alikeText(r *analyze.Report, list []analyze.Finding) string {
	var written, number string
	for _, p := range r.Repairs {
		if p.Finding == list[0].ID {
			written, number = strings.Join(p.Written, " "), strings.Trim(fmt.Sprint(p.Numbers), "[]")
		}
	}
	least := list[0].Probability
	var times []string
	for _, f := range list {
		least = min(least, f.Probability)
		times = append(times, figures.Clock(f.At))
	}
	return fmt.Sprintf("%d times the captions show “%s” where %s was due: at %s and %s. (%s)",
		len(list), written, number, strings.Join(times[:len(times)-1], ", "), times[len(times)-1], figures.Percent(least))
}
