package corpus_test

import (
	"bytes"
	"strings"
	"testing"

	"captally.example/captally/corpus"
)

func TestSessions(t *testing.T) {
	checkTwins(t, 9, corpus.Sessions(), corpus.Recognised())
	checkTwins(t, 17, corpus.More(), corpus.MoreRecognised())
}

// checkTwins checks that two sets hold the same sessions with the same truth in other captions.
func checkTwins(t *testing.T, least int, clean, rough []corpus.Session) {
	t.Helper()
	if len(clean) < least || len(rough) != len(clean) {
		t.Fatalf("%d sessions and %d recognised ones, want %d or more of each", len(clean), len(rough), least)
	}
	for i, s := range clean {
		r := rough[i]
		if s.Name != r.Name || len(s.Truth.Sets) != len(r.Truth.Sets) || s.Truth.Duration != r.Truth.Duration {
			t.Errorf("%s and %s: the two sets must hold the same sessions with the same truth", s.Name, r.Name)
		}
		if s.Truth.Faults == nil || r.Truth.Faults != nil {
			t.Errorf("%s: the captioner's faults are listed for the captioned sessions and for those alone", s.Name)
		}
		for _, f := range append(s.Files(), r.Files()...) {
			if !strings.Contains(f.Name, "."+f.Timing.String()+".") || len(f.Data) < 1500 {
				t.Errorf("%s: %d bytes as %s timing", f.Name, len(f.Data), f.Timing)
			}
		}
		if bytes.Equal(s.Word.Data, r.Word.Data) {
			t.Errorf("%s: the recognised captions are those of the captioner", s.Name)
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
