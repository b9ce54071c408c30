package corpus_test

import (
	"encoding/json"
	"errors"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"captally.example/captally/analyze"
	"captally.example/captally/corpus"
)

// goldenSessions are the sessions of testdata/scoring.
var goldenSessions = []string{"ankle-return", "desk-neck", "lung-intervals"}

// The figures in testdata/scoring/figures.json were worked out by a second implementation in another language; see the README there.
func TestScoreAgreesWithSecondImplementation(t *testing.T) {
	var want struct{ Reports, Drafts map[string]corpus.Figures }
	readJSON(t, "figures.json", &want)
	for i, timing := range corpus.Timings {
		reports, drafts := corpus.NewTally(timing), corpus.NewTally(timing)
		for _, s := range corpus.Sessions() {
			if !slices.Contains(goldenSessions, s.Name) {
				continue
			}
			file := s.Files()[i]
			name := s.Name + "." + timing.String() + ".json"
			reports.Add(corpus.Score(s.Truth, readJSON(t, "reports/"+name, new(analyze.Report)), timing))
			drafts.Add(corpus.ScoreNotes(s.Truth, readJSON(t, "drafts/"+name, new(corpus.Draft)), file))
		}
		sameFigures(t, timing.String()+" reports", reports.Figures(), want.Reports[timing.String()])
		sameFigures(t, timing.String()+" drafts", drafts.Figures(), want.Drafts[timing.String()])
	}
}

// sameFigures asks for the same figures under the same names; both are rounded to four decimals.
func sameFigures(t *testing.T, what string, got, want corpus.Figures) {
	t.Helper()
	if len(want) < 10 {
		t.Errorf("%s: only %d figures to compare with", what, len(want))
	}
	for name := range maps.Keys(want) {
		if g, ok := got[name]; !ok || g != want[name] {
			t.Errorf("%s: %s is %v, want %v", what, name, g, want[name])
		}
	}
	for name := range maps.Keys(got) {
		if _, ok := want[name]; !ok {
			t.Errorf("%s: %s is %v, want no such figure", what, name, got[name])
		}
	}
}

// readJSON reads a file of testdata/scoring into out, and returns nil where there is none.
func readJSON[T any](t *testing.T, name string, out *T) *T {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("testdata", "scoring", name))
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(b, out); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return out
}

// fromTruth returns the report of a program that makes no mistake.
func fromTruth(truth *corpus.Truth) *analyze.Report {
	r := new(analyze.Report)
	for _, p := range truth.Phases {
		r.Phases = append(r.Phases, analyze.Phase{Kind: p.Kind, Start: p.Start, End: p.End})
	}
	for _, s := range truth.Sets {
		length := s.End - s.Start
		set := analyze.Set{ID: s.ID, Phase: s.Phase, Exercise: s.Exercise, Side: s.Side, Start: s.Start, End: s.End,
			Tension: analyze.Range{Value: length, Low: length, High: length}}
		if s.Prescribed != nil {
			set.Prescribed = &analyze.Dose{Reps: s.Prescribed.Reps, Seconds: s.Prescribed.Seconds}
		}
		set.Performed = analyze.Performed{Reps: s.Performed.Reps, RepsLow: s.Performed.Reps, RepsHigh: s.Performed.Reps, Seconds: s.Performed.Seconds}
		r.Sets = append(r.Sets, set)
	}
	for _, p := range truth.Rests {
		length := p.End - p.Start
		rest := analyze.Rest{Start: p.Start, End: p.End, Prescribed: p.Prescribed, Verdict: "unstated", Length: analyze.Range{Value: length, Low: length, High: length}}
		if p.Prescribed != nil {
			rest.Verdict = "kept"
			if tolerance := max(5, 0.15**p.Prescribed); length > *p.Prescribed+tolerance {
				rest.Verdict = "over"
			} else if length < *p.Prescribed-tolerance {
				rest.Verdict = "short"
			}
		}
		r.Rests = append(r.Rests, rest)
	}
	kinds := map[string]string{"skipped": "count-skipped", "repeated": "count-repeated", "jumped-back": "count-restarted", "short": "count-short", "over": "count-over"}
	for _, m := range truth.Miscounts {
		r.Findings = append(r.Findings, analyze.Finding{Kind: kinds[m.Kind], Cause: "session", At: m.At, Probability: 1})
	}
	return r
}

func TestTruthScoresFull(t *testing.T) {
	tallies, err := corpus.LeaveOneOut(corpus.Sessions(), func(others []corpus.Session) (corpus.Measure, error) {
		if len(others) != 8 {
			t.Errorf("%d sessions to fit on, want all but one", len(others))
		}
		return func(f corpus.File) (*analyze.Report, error) {
			for _, s := range corpus.Sessions() {
				if s.Files()[slices.Index(corpus.Timings, f.Timing)].Name == f.Name {
					if slices.ContainsFunc(others, func(o corpus.Session) bool { return o.Name == s.Name }) {
						t.Errorf("%s is measured with parameters fitted on it", s.Name)
					}
					return fromTruth(s.Truth), nil
				}
			}
			return nil, errors.New("unknown file")
		}, nil
	})
	if err != nil {
		t.Fatal(err)
	}
	full := []string{"phase agreement", "phase macro F1", "sets F1", "rests F1", "reps exact", "reps off by one (OBO)", "reps inside the stated range",
		"time under tension within 10 %", "time under tension inside the stated range", "exercise named", "side", "prescription exact",
		"rest announcement exact", "rest verdict right", "miscount F1"}
	none := []string{"phase Pk", "phase WindowDiff", "reps MAE (relative)", "reps range width", "captioner's faults told (recall)"}
	for _, tally := range tallies {
		figures := tally.Figures()
		for _, name := range full {
			if figures[name] != 1 {
				t.Errorf("%s: the truth scores %v for %s, want 1", tally.Timing, figures[name], name)
			}
		}
		for _, name := range none {
			if v, ok := figures[name]; !ok || v != 0 {
				t.Errorf("%s: the truth scores %v (%v) for %s, want 0", tally.Timing, v, ok, name)
			}
		}
	}
}

func TestNothingFoundScoresNothing(t *testing.T) {
	for _, s := range corpus.Sessions() {
		tally := corpus.Score(s.Truth, nil, corpus.Timings[0])
		for name, v := range tally.Figures() {
			switch name {
			case "phase agreement", "phase F1 talk", "phase macro F1", "phase Pk", "phase WindowDiff": // talk is what no label means
			case "reps MAE (relative)":
				if v != 1 {
					t.Errorf("%s: %s is %v for an empty report, want 1", s.Name, name, v)
				}
			default:
				if v != 0 {
					t.Errorf("%s: %s is %v for an empty report, want 0", s.Name, name, v)
				}
			}
		}
		if len(tally.Errors) < len(s.Truth.Sets) {
			t.Errorf("%s: %d errors told for an empty report", s.Name, len(tally.Errors))
		}
	}
}
