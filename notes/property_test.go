package notes

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"captally.example/captally/analyze"
)

// randomReport makes a report that hangs together in time and is odd in every other way.
func randomReport(r *rand.Rand) *analyze.Report {
	out := &analyze.Report{Version: 1}
	names := []string{"", "row", "Rows", "heel raise", "a & b <c> --> d"}
	sides := []string{"", "left", "right", "both", "alternate"}
	kinds := []string{"talk", "warm-up", "work", "rest", "balance", "cool-down"}
	causes := []string{"session", "captions", "unsure"}
	findings := []string{"count-skipped", "count-repeated", "count-restarted", "count-jumped", "count-lost", "count-short", "count-over",
		"time-short", "time-over", "time-cue-off", "sides-uneven", "caption-gap"}
	at := 0.0
	for range r.IntN(25) {
		kind := kinds[r.IntN(len(kinds))]
		end := at + r.Float64()*r.Float64()*90
		out.Phases = append(out.Phases, analyze.Phase{Kind: kind, Start: at, End: end})
		if kind != "talk" && kind != "rest" && r.IntN(4) > 0 {
			s := analyze.Set{ID: fmt.Sprintf("s%d", len(out.Sets)+1), Phase: kind, Exercise: names[r.IntN(len(names))], Side: sides[r.IntN(len(sides))],
				Start: at + (end-at)*r.Float64(), End: end}
			if r.IntN(3) > 0 {
				when := s.Start
				s.Prescribed, s.PrescribedAt = &analyze.Dose{Reps: 1 + r.IntN(20)}, &when
				if r.IntN(2) == 0 {
					s.Prescribed = &analyze.Dose{Seconds: 1 + 60*r.Float64()}
				}
			}
			if n, x := r.IntN(20), end-s.Start; r.IntN(2) == 0 {
				s.Performed = analyze.Performed{Reps: &n, RepsLow: &n, RepsHigh: &n}
			} else {
				s.Performed = analyze.Performed{Seconds: &x}
			}
			for range r.IntN(5) {
				s.Count = append(s.Count, analyze.Count{Number: r.IntN(12), At: s.Start + (end-s.Start)*r.Float64()})
			}
			out.Sets = append(out.Sets, s)
			if r.IntN(2) == 0 {
				out.Findings = append(out.Findings, analyze.Finding{ID: fmt.Sprintf("f%d", len(out.Findings)+1), Kind: findings[r.IntN(len(findings))],
					Cause: causes[r.IntN(3)], Probability: r.Float64(), At: at + (end-at)*r.Float64(), Set: s.ID})
			}
		}
		if kind == "rest" {
			rest := analyze.Rest{ID: fmt.Sprintf("r%d", len(out.Rests)+1), Start: at, End: end, Length: analyze.Range{Value: end - at}}
			if r.IntN(2) == 0 {
				want := 1 + 60*r.Float64()
				rest.Prescribed = &want
				out.Findings = append(out.Findings, analyze.Finding{ID: fmt.Sprintf("f%d", len(out.Findings)+1), Kind: "rest-short", Cause: causes[r.IntN(3)], Probability: r.Float64(), At: at, Rest: rest.ID})
			}
			out.Rests = append(out.Rests, rest)
		}
		if r.IntN(3) == 0 {
			out.Session.Options = append(out.Session.Options, analyze.Quote{Text: "sit down if you like", At: at})
		}
		at = end
	}
	out.Source.Duration = at
	return out
}

// TestRandomReports: whatever a report holds, the notes of it pass their own schema, the chapters rise, both caption files
// are valid, every correction is of a finding that was really made, and no set is lost.
func TestRandomReports(t *testing.T) {
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("notes.schema.json", doc); err != nil {
		t.Fatal(err)
	}
	schema := c.MustCompile("notes.schema.json")
	for seed := range uint64(300) {
		report := randomReport(rand.New(rand.NewPCG(seed, 1)))
		n := Draft(report, Profile{})
		object, err := json.Marshal(n)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		value, err := jsonschema.UnmarshalJSON(bytes.NewReader(object))
		if err != nil {
			t.Fatal(err)
		}
		if err := schema.Validate(value); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		for i, c := range n.Chapters {
			if i == 0 && c.Start != 0 || i > 0 && c.Start-n.Chapters[i-1].Start < minChapter || c.Title == "" {
				t.Errorf("seed %d: chapter %d: %+v", seed, i, c)
			}
		}
		if err := checkVTT(string(Chapters(n))); err != nil {
			t.Errorf("seed %d: chapters: %v", seed, err)
		}
		if err := checkVTT(string(Overlay(n))); err != nil {
			t.Errorf("seed %d: overlay: %v", seed, err)
		}
		if report.Source.Duration >= 8*minChapter && len(n.Chapters) < fewestChapter {
			t.Errorf("seed %d: %d chapters in %.0f s", seed, len(n.Chapters), report.Source.Duration)
		}
		cause := map[string]string{}
		for _, f := range report.Findings {
			cause[f.ID] = f.Cause
		}
		for _, c := range n.Corrections {
			if cause[c.Finding] != "session" {
				t.Errorf("seed %d: a correction of %s, whose cause is %s", seed, c.Finding, cause[c.Finding])
			}
		}
		most, sets := 0, 0
		for _, e := range n.Exercises {
			sets += len(e.Sets)
			most = max(most, len(e.Sets))
		}
		if sets > len(report.Sets) || len(report.Sets) > 0 && most == 0 || 3*sets < len(report.Sets) {
			t.Errorf("seed %d: %d sets became %d", seed, len(report.Sets), sets)
		}
	}
}
