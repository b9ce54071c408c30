package corpus

import (
	"fmt"

	"captally.example/captally/analyze"
)

// A Measure turns one file of a session into a report.
type Measure func(File) (*analyze.Report, error)

// Evaluate measures every file of the sessions and scores the reports. The tallies stand in the order of [Timings].
func Evaluate(list []Session, measure Measure) ([]*Tally, error) {
	return evaluate(list, func(truth *Truth, f File) (*Tally, error) {
		report, err := measure(f)
		return Score(truth, report, f.Timing), err
	})
}

// EvaluateNotes drafts the notes of every file of the sessions and scores the drafts. The tallies stand in the order of [Timings].
func EvaluateNotes(list []Session, write func(File) (*Draft, error)) ([]*Tally, error) {
	return evaluate(list, func(truth *Truth, f File) (*Tally, error) {
		draft, err := write(f)
		return ScoreNotes(truth, draft, f), err
	})
}

// evaluate adds up what score says of every file.
func evaluate(list []Session, score func(*Truth, File) (*Tally, error)) ([]*Tally, error) {
	out := newTallies()
	for _, s := range list {
		for i, f := range s.Files() {
			tally, err := score(s.Truth, f)
			if err != nil {
				return nil, fmt.Errorf("measuring %s: %w", f.Name, err)
			}
			out[i].Add(tally)
		}
	}
	return out, nil
}

// LeaveOneOut evaluates with each session held out in turn: fit is given the others, and what it returns measures the one that it has
// not seen. Sessions of one name are held out together, so that a session and its recognised twin may stand in one list.
func LeaveOneOut(list []Session, fit func(others []Session) (Measure, error)) ([]*Tally, error) {
	out := newTallies()
	done := map[string]bool{}
	for _, s := range list {
		if done[s.Name] {
			continue
		}
		done[s.Name] = true
		var held, others []Session
		for _, o := range list {
			if o.Name == s.Name {
				held = append(held, o)
			} else {
				others = append(others, o)
			}
		}
		measure, err := fit(others)
		if err != nil {
			return nil, fmt.Errorf("fitting without %s: %w", s.Name, err)
		}
		tallies, err := Evaluate(held, measure)
		if err != nil {
			return nil, err
		}
		for i := range out {
			out[i].Add(tallies[i])
		}
	}
	return out, nil
}

func newTallies() []*Tally {
	var out []*Tally
	for _, timing := range Timings {
		out = append(out, NewTally(timing))
	}
	return out
}
