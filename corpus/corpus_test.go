package corpus_test

import (
	"bytes"
	"strings"
	"testing"

	"captally.example/captally/corpus"
)

func TestSessions(t *testing.T) {
	clean, rough := corpus.Sessions(), corpus.Recognised()
	if len(clean) != 9 || len(rough) != 9 {
		t.Fatalf("%d sessions and %d recognised ones, want 9 of each", len(clean), len(rough))
	}
	for i, s := range clean {
		r := rough[i]
		if s.Name != r.Name || len(s.Truth.Sets) != len(r.Truth.Sets) || s.Truth.Duration != r.Truth.Duration {
			t.Errorf("%s and %s: the two sets must hold the same sessions with the same truth", s.Name, r.Name)
		}
		if s.Truth.Faults == nil || r.Truth.Faults != nil {
			t.Errorf("%s: the captioner's faults are listed for sessions/ and for those alone", s.Name)
		}
		for _, f := range append(s.Files(), r.Files()...) {
			if !strings.Contains(f.Name, "."+f.Timing.String()+".") || len(f.Data) < 5000 {
				t.Errorf("%s: %d bytes as %s timing", f.Name, len(f.Data), f.Timing)
			}
		}
		if bytes.Equal(s.Word.Data, r.Word.Data) {
			t.Errorf("%s: the recognised captions are those of sessions/", s.Name)
		}
	}
}

func TestReadTruthRefuses(t *testing.T) {
	const head = `{"id":"a","duration_s":9,"phases":[{"kind":"talk","start_s":0,"end_s":9}]`
	for _, c := range []struct{ in, want string }{
		{head + ",\n\"stes\":[]}", `x:2: reading the truth of a session: json: unknown field "stes"`},
		{`{"id":"a","duration_s":9,"phases":[{"kind":"lunch","start_s":0,"end_s":9}]}`, `x: phase 1: kind "lunch"`},
		{`{"id":"a","duration_s":9,"phases":[{"kind":"talk","start_s":5,"end_s":9},{"kind":"rest","start_s":8,"end_s":9}]}`, "x: phase 2: 8 to 9 s does not follow 9 s"},
		{head + `,"sets":[{"id":"s1","start_s":5,"end_s":4,"performed":{"reps":2}}]}`, "x: set s1: 5 to 4 s"},
		{head + `,"sets":[{"id":"s1","start_s":4,"end_s":5,"performed":{}}]}`, "x: set s1: performed needs reps or seconds"},
		{head + `,"miscounts":[{"at_s":1,"kind":"over","set":"s9"}]}`, `x: miscount 1: there is no set "s9"`},
		{`{"id":"a"}`, "x: a session needs"},
	} {
		if _, err := corpus.ReadTruth("x", []byte(c.in)); err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("ReadTruth(%s) = %v, want %s...", c.in, err, c.want)
		}
	}
	if _, err := corpus.ReadTruth("x", []byte(head+"}")); err != nil {
		t.Errorf("a truth without sets: %v", err)
	}
}
