package review

import (
	"fmt"
	"slices"
	"sort"

	"captally.example/captally/analyze"
	"captally.example/captally/analyze/settle"
	"captally.example/captally/cmd/captally/figures"
	"captally.example/captally/segment"
)

// A settledSession is a session with the decisions that are on the disk at the moment. It is not changed once made.
type settledSession struct {
	session   *segment.Session
	report    *analyze.Report
	decisions *settle.Decisions
	applied   *settle.Settled
}

func (s *sitting) settled() (*settledSession, error) {
	made, err := s.load()
	if err != nil {
		return nil, err
	}
	return s.with(made), nil
}

// with puts decisions on the session as it was read. The last answer is remembered: a decision is first understood on the
// session as it is, and the session then shown.
func (s *sitting) with(made *settle.Decisions) *settledSession {
	key := string(settle.Encode(made))
	s.memory.Lock()
	defer s.memory.Unlock()
	if s.last == nil || s.lastKey != key {
		a := settle.Apply(s.session, made, analyze.Options{})
		s.lastKey, s.last = key, &settledSession{session: a.Session, report: a.Report, decisions: made, applied: a}
	}
	return s.last
}

// A judged is a finding with what was decided on it.
type judged struct {
	analyze.Finding
	verdict settle.Kind       // "" while it is open
	follow  []analyze.Finding // what follows from it, and is settled with it
}

// judged returns the findings of the report and those that were decided to be none: what is open first, what matters most first.
func (n *settledSession) judged() []judged {
	kind := map[int]settle.Kind{}
	for _, d := range n.decisions.Made {
		kind[d.ID] = d.Kind
	}
	var all []judged
	for _, f := range n.report.Findings {
		all = append(all, judged{Finding: f, verdict: kind[n.applied.Verdicts[f.ID]]})
	}
	for _, x := range n.applied.Dropped {
		all = append(all, judged{Finding: x.Finding, verdict: kind[x.Decision]})
	}
	all = together(n.report, all)
	sort.SliceStable(all, func(i, j int) bool {
		if a, b := all[i].verdict == "", all[j].verdict == ""; a != b {
			return a
		}
		if a, b := weight(n.report, all[i]), weight(n.report, all[j]); a != b {
			return a > b
		}
		return all[i].At < all[j].At
	})
	return all
}

// keyOf names a finding for the page. IDs such as f3 will not do: they count anew after each decision.
func keyOf(r *analyze.Report, f analyze.Finding) string {
	key := fmt.Sprintf("%s-%.2f", f.Kind, f.At)
	if set := setOf(r, f); set != nil {
		key += fmt.Sprintf("-%.2f", set.Start)
	}
	return key
}

func setOf(r *analyze.Report, f analyze.Finding) *analyze.Set {
	for i := range r.Sets {
		if r.Sets[i].ID == f.Set && f.Set != "" {
			return &r.Sets[i]
		}
	}
	return nil
}

func (n *settledSession) findings(all []judged) []findingRow {
	rows := []findingRow{}
	for _, f := range all {
		row := findingRow{Key: keyOf(n.report, f.Finding), At: f.At, Play: playFrom(f.At), Clock: figures.Clock(f.At), Text: f.Text, Cause: f.Cause,
			Sure: sure(f.Finding), Advice: advice(f.Finding), Settled: f.verdict.Verdict(f.Kind), Follow: follow(f), Evidence: []evidence{}}
		row.Actions = []action{{"p", "Play"}}
		if f.verdict != settle.NotSo { // else its set may have another ID by now
			row.Where = where(n.report, f.Finding)
			for _, v := range []settle.Kind{settle.Said, settle.Captions, settle.NotSo} {
				row.Actions = append(row.Actions, action{string(v), capital(v.Verdict(f.Kind))})
			}
			if set := setOf(n.report, f.Finding); set != nil {
				row.Set = setKey(*set)
				row.NumberLabel, row.Number = numberOf(*set)
				row.Actions = append(row.Actions, action{"r", "Correct the number"}, action{"e", "Change the set"})
			}
		}
		for _, q := range f.Evidence {
			row.Evidence = append(row.Evidence, evidence{figures.Clock(q.At), q.Text})
		}
		rows = append(rows, row)
	}
	return rows
}

// flags returns the findings about each set or rest, by its ID, for its row in the table: one flag for those of one cause.
func (n *settledSession) flags(all []judged) map[string][]flag {
	out := map[string][]flag{}
	for _, f := range all {
		if f.verdict == settle.NotSo {
			continue
		}
		row := flag{Key: keyOf(n.report, f.Finding), Cause: f.Cause, Settled: f.verdict != "", Text: f.Text}
		told := map[string]bool{"": true}
		var places []string
		for _, x := range append([]analyze.Finding{f.Finding}, f.follow...) {
			places = append(append(places, x.Set+x.Rest), x.Also...) // a set or a rest, and other sets
		}
		for _, about := range places {
			if told[about] {
				continue
			}
			told[about] = true
			if i := slices.IndexFunc(out[about], func(o flag) bool { return o.Cause == row.Cause && o.Settled == row.Settled }); i >= 0 {
				out[about][i].More++
				continue
			}
			out[about] = append(out[about], row)
		}
	}
	return out
}

// numberOf says which number of a set can be corrected, and what it is.
func numberOf(s analyze.Set) (label, number string) {
	switch {
	case s.Performed.Reps != nil:
		return "Repetitions really done", fmt.Sprint(*s.Performed.Reps)
	case s.Performed.Seconds != nil:
		return "Seconds really done", figures.Fixed(*s.Performed.Seconds, 0)
	}
	return "Repetitions really done", ""
}

// unfit tells which decisions fit the captions no more.
func (n *settledSession) unfit() []string {
	out := []string{}
	for _, u := range n.applied.Unfit {
		out = append(out, u.Decision.Describe()+": "+u.Why)
	}
	return out
}

// changes tells all decisions, the last first.
func (n *settledSession) changes() []string {
	out := []string{}
	for i := len(n.decisions.Made) - 1; i >= 0; i-- {
		out = append(out, n.decisions.Made[i].Describe())
	}
	return out
}

// forms puts the therapist's own words into the drafts.
func (n *settledSession) forms(drafts []form) []form {
	for i := range drafts {
		f := &drafts[i]
		text, clash := n.decisions.EditedText(f.Name, f.Text)
		if clash != nil {
			f.Clash = &clashShown{onlyIn(clash.Edited, clash.Draft), onlyIn(clash.Draft, clash.Edited)}
		}
		if text != f.Text {
			f.Edited, f.Base, f.Text = true, f.Text, text
		}
		if f.Name == "text" {
			f.Rich = rich(f.Text)
		}
		if f.Name != "chapter-list" {
			f.Gaps = gaps(f.Text)
		}
	}
	return drafts
}
