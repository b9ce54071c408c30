package review

import (
	"errors"

	"captally.example/captally/analyze"
	"captally.example/captally/segment"
)

// A settledSession is a session with the decisions on it.
type settledSession struct {
	session *segment.Session
	report  *analyze.Report
	told    string
	canUndo bool
	unfit   []string
	changes []string
}

type decision struct {
	Finding string `json:"finding"`
}

func decisionsBeside(name string) string { return name + ".captally.json" }

func (s *sitting) settled() (*settledSession, error) {
	return &settledSession{session: s.session, report: analyze.Measure(s.session, analyze.Options{}), unfit: []string{}, changes: []string{}}, nil
}

func (s *sitting) kept(*settledSession) string { return "" }

func (s *sitting) decide(decision) error { return errors.New("not yet") }
func (s *sitting) undo() error           { return errors.New("not yet") }

func (n *settledSession) findings() []findingRow {
	out := []findingRow{}
	for _, f := range byWeight(n.report.Findings) {
		row := findingRow{Key: f.ID, At: f.At, Play: playFrom(f.At), Clock: clock(f.At), Text: f.Text, Cause: f.Cause, CauseText: causeTexts[f.Cause], Chance: percent(f.Probability), Actions: []string{"p", "said", "captions", "not-so"}, Evidence: []evidence{}}
		for _, q := range f.Evidence {
			row.Evidence = append(row.Evidence, evidence{clock(q.At), q.Text})
		}
		out = append(out, row)
	}
	return out
}

func (n *settledSession) forms(drafts []form) []form {
	for i := range drafts {
		drafts[i].Editable = true
		drafts[i].Clashes = []clash{}
		if drafts[i].Name == "description" {
			drafts[i].Rich = rich(drafts[i].Text)
		}
	}
	return drafts
}
