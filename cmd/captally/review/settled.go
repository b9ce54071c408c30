package review

import (
	"fmt"
	"sort"

	"captally.example/captally/analyze"
	"captally.example/captally/analyze/settle"
	"captally.example/captally/cmd/captally/figures"
	"captally.example/captally/cmd/captally/keep"
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
	made, err := keep.Load(s.decisions)
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

// verdicts are the words of what was decided on a finding.
var verdicts = map[settle.Kind]string{settle.Said: "it was said", settle.Captions: "the captioner's", settle.NotSo: "not so"}

// verdict returns what a decision says of a finding, "" for none.
func (n *settledSession) verdict(decision int) string {
	for _, d := range n.decisions.Made {
		if d.ID == decision {
			return verdicts[d.Kind]
		}
	}
	return ""
}

// A judged is a finding with what was decided on it.
type judged struct {
	analyze.Finding
	verdict string // "" while it is open
}

// judged returns the findings of the report and those that were decided to be none: what is open first, what matters most first.
func (n *settledSession) judged() []judged {
	var all []judged
	for _, f := range n.report.Findings {
		j := judged{Finding: f}
		if d, settled := n.applied.Verdicts[f.ID]; settled {
			j.verdict = n.verdict(d)
		}
		all = append(all, j)
	}
	for _, x := range n.applied.Dropped {
		all = append(all, judged{x.Finding, n.verdict(x.Decision)})
	}
	sort.SliceStable(all, func(i, j int) bool {
		if a, b := all[i].verdict == "", all[j].verdict == ""; a != b {
			return a
		}
		if a, b := matters(all[i].Finding), matters(all[j].Finding); a != b {
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

func (n *settledSession) findings() []findingRow {
	rows := []findingRow{}
	for _, f := range n.judged() {
		row := findingRow{Key: keyOf(n.report, f.Finding), At: f.At, Play: playFrom(f.At), Clock: figures.Clock(f.At), Text: f.Text, Cause: f.Cause, CauseText: causeTexts[f.Cause],
			Chance: figures.Percent(f.Probability), Settled: f.verdict, Actions: []string{"p", "said", "captions", "not-so"}, Evidence: []evidence{}}
		if f.verdict == verdicts[settle.NotSo] { // its set may have another ID by now
			row.Actions = []string{"p"}
		} else if set := setOf(n.report, f.Finding); set != nil {
			row.Actions = append(row.Actions, "r")
			row.NumberLabel, row.Number = numberOf(*set)
		}
		for _, q := range f.Evidence {
			row.Evidence = append(row.Evidence, evidence{figures.Clock(q.At), q.Text})
		}
		rows = append(rows, row)
	}
	return rows
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
		out = append(out, inWords(u.Decision, u.Decision.Describe()+": "+u.Why))
	}
	return out
}

// changes tells all decisions, the last first.
func (n *settledSession) changes() []string {
	out := []string{}
	for i := len(n.decisions.Made) - 1; i >= 0; i-- {
		out = append(out, inWords(n.decisions.Made[i], n.decisions.Made[i].Describe()))
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
	}
	return drafts
}
