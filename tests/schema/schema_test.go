// Package schema checks reports against their public JSON Schema with a validator that the project did not write.
package schema

import (
	"bytes"
	"encoding/json"
	"slices"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"captally.example/captally/analyze"
	"captally.example/captally/corpus"
	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

func compile(t *testing.T) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(analyze.Schema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("report.schema.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("report.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// validate returns what the validator says of a report.
func validate(t *testing.T, s *jsonschema.Schema, report any) error {
	t.Helper()
	b, err := json.Marshal(report)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	return s.Validate(doc)
}

// The schema's dialect is JSON Schema (json-schema.org); the validator is github.com/santhosh-tekuri/jsonschema/v6, which passes that standard's own test suite.
func TestReportsOfTheCorpus(t *testing.T) {
	schema := compile(t)
	for _, s := range slices.Concat(corpus.Sessions(), corpus.Recognised()) {
		for _, f := range s.Files() {
			track, err := caption.Parse(f.Data, f.Name, caption.Options{})
			if err != nil {
				t.Fatal(err)
			}
			report := analyze.Measure(segment.Decode(track), analyze.Options{})
			if err := validate(t, schema, report); err != nil {
				t.Errorf("%s: %v", f.Name, err)
			}
			if len(report.Sets) == 0 || len(report.Phases) == 0 {
				t.Errorf("%s: %d sets and %d phases; an empty report shows nothing about the schema", f.Name, len(report.Sets), len(report.Phases))
			}
		}
	}
}

// A captionless track is a report too.
func TestEmptyReport(t *testing.T) {
	if err := validate(t, compile(t), analyze.Measure(segment.Decode(&caption.Track{Name: "empty.srt", Format: "subrip", Timing: caption.TimingCue}), analyze.Options{})); err != nil {
		t.Error(err)
	}
}

// A schema that accepts everything would pass the tests above.
func TestSchemaRefuses(t *testing.T) {
	schema := compile(t)
	s := corpus.Sessions()[0]
	track, err := caption.Parse(s.Word.Data, s.Word.Name, caption.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for name, spoil := range map[string]func(*analyze.Report){
		"version 2":               func(r *analyze.Report) { r.Version = 2 },
		"an unknown phase":        func(r *analyze.Report) { r.Phases[0].Kind = "lunch" },
		"an unknown timing":       func(r *analyze.Report) { r.Source.Timing = "frame" },
		"a set before the start":  func(r *analyze.Report) { r.Sets[0].Start = -1 },
		"an unknown side":         func(r *analyze.Report) { r.Sets[0].Side = "upside down" },
		"a negative count":        func(r *analyze.Report) { n := -3; r.Sets[0].Performed.Reps = &n },
		"an unknown verdict":      func(r *analyze.Report) { r.Rests[0].Verdict = "nice" },
		"a probability above one": func(r *analyze.Report) { r.Findings[0].Probability = 1.5 },
		"an unknown cause":        func(r *analyze.Report) { r.Findings[0].Cause = "weather" },
	} {
		r := analyze.Measure(segment.Decode(track), analyze.Options{})
		if len(r.Phases) == 0 || len(r.Sets) == 0 || len(r.Rests) == 0 || len(r.Findings) == 0 {
			t.Fatalf("%s has %d phases, %d sets, %d rests, %d findings; each is needed here", s.Word.Name, len(r.Phases), len(r.Sets), len(r.Rests), len(r.Findings))
		}
		spoil(r)
		if validate(t, schema, r) == nil {
			t.Errorf("the schema accepts %s", name)
		}
	}
}
