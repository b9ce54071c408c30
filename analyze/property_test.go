package analyze

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

// randomSession makes a session that hangs together in time and is odd in every other way.
func randomSession(r *rand.Rand) *segment.Session {
	b := newBuilder()
	t := 0.0
	limits := func(l *segment.Length) {
		l.Low, l.High = l.Value*r.Float64(), l.Value*(1+r.Float64())
	}
	for range r.IntN(15) {
		t += 1 + 20*r.Float64()
		switch r.IntN(4) {
		case 0:
			p := b.rest(t, 60*r.Float64(), float64(r.IntN(3)*20))
			limits(&p.Length)
			if r.IntN(2) == 0 {
				p.TimeCues = []segment.TimeCue{{At: spread(t, 5*r.Float64()), Said: 10, Actual: 20 * r.Float64()}}
			}
			t += p.Length.Value
		case 1:
			s := b.timed(segment.Balance, []string{"", "stand", "one leg stand"}[r.IntN(3)], segment.Side(r.IntN(5)), b.dose(t, "Thirty.", 0, float64(r.IntN(3)*15)), t, 70*r.Float64())
			limits(&s.Performed)
			t += s.Performed.Value
		default:
			numbers := make([]int, 1+r.IntN(12))
			for i := range numbers {
				numbers[i] = 1 + r.IntN(15)
			}
			s := b.counted([]string{"", "row", "Row", "leg press"}[r.IntN(4)], segment.Side(r.IntN(5)), b.dose(t, "Do these.", r.IntN(13), 0), t, 0.5+3*r.Float64(), numbers...)
			s.Reps = r.IntN(15)
			s.RepsLow, s.RepsHigh = max(0, s.Reps-r.IntN(4)), s.Reps+r.IntN(4)
			for range r.IntN(3) {
				session := r.Float64()
				i := r.IntN(len(s.Count))
				s.Slips = append(s.Slips, segment.Slip{Kind: segment.SlipKind(r.IntN(8)), At: s.Count[i].At, First: s.Count[i].Word, Last: s.Count[i].Word + r.IntN(3),
					Said: r.IntN(15), Expected: r.IntN(15), Session: session, Captions: (1 - session) * r.Float64()})
			}
			t = s.End.At.Seconds()
		}
	}
	b.Track.Duration = max(b.Track.Duration, caption.At(t))
	return &b.Session
}

// TestRandomSessions: whatever was decoded, the report passes its schema; findings come by cause, are numbered through, name
// sets and rests that exist, and never claim more than certainty; and the totals are those of the parts.
func TestRandomSessions(t *testing.T) {
	schema := compileSchema(t)
	order := map[string]int{"session": 0, "unsure": 1, "captions": 2}
	for seed := range uint64(300) {
		s := randomSession(rand.New(rand.NewPCG(seed, 2)))
		r := Measure(s, Options{})
		object, err := json.Marshal(r)
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
		known := map[string]bool{"": true}
		reps := 0
		for _, x := range r.Sets {
			known[x.ID] = true
			if x.Performed.Reps != nil {
				reps += *x.Performed.Reps
			}
		}
		for _, x := range r.Rests {
			known[x.ID] = true
		}
		for i, f := range r.Findings {
			if f.ID != fmt.Sprintf("f%d", i+1) || !known[f.Set] || !known[f.Rest] || rank[f.Kind] == 0 {
				t.Errorf("seed %d: finding %d: %+v", seed, i, f)
			}
			if i > 0 && order[f.Cause] < order[r.Findings[i-1].Cause] {
				t.Errorf("seed %d: %s comes after %s", seed, f.Cause, r.Findings[i-1].Cause)
			}
		}
		tt := r.Totals
		if tt.Reps != reps || tt.Sets != len(r.Sets) {
			t.Errorf("seed %d: totals %d sets, %d reps, want %d and %d", seed, tt.Sets, tt.Reps, len(r.Sets), reps)
		}
		if n := len(r.Phases); n > 0 {
			sum := tt.Work + tt.Rest + tt.Balance + tt.WarmUp + tt.CoolDown + tt.Talk
			if whole := r.Phases[n-1].End; sum-whole > 0.05 || whole-sum > 0.05 {
				t.Errorf("seed %d: phases sum to %v of %v s", seed, sum, whole)
			}
		}
	}
}
