package analyze

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

// oddSet is a session of four sets of ten; in the last, number 8 is said twice, and the sets before have slips odd places each.
func oddSet(slips int, session, captions float64) (*segment.Session, segment.Slip) {
	b := newBuilder()
	for i := range 4 {
		s := b.counted("row", segment.Both, segment.Dose{}, float64(10+60*i), 3, 1, 2, 3, 4, 5, 6, 7, 8, 8, 9)
		for k := range slips {
			if i < 3 {
				s.Slips = append(s.Slips, segment.Slip{Kind: segment.Skipped, At: s.Count[k].At, Session: 0.5, Captions: 0.4})
			}
		}
	}
	s := &b.Sets[3]
	slip := segment.Slip{Kind: segment.Repeated, At: s.Count[8].At, Said: 8, Expected: 9, Session: session, Captions: captions}
	s.Slips = []segment.Slip{slip}
	return &b.Session, slip
}

func reweighed(s *segment.Session, slip segment.Slip) segment.Slip {
	return newLedger(s).reweigh(3, slip)
}

// TestReweigh: the decoder's word counts for more the surer it is; for less in a file with much else that is odd, where the same
// comes again and again, and where times are rough; and what it rules out stays so.
func TestReweigh(t *testing.T) {
	s, slip := oddSet(0, 0.9, 0.1)
	usual := reweighed(s, slip)
	if usual.Session <= 0.5 || usual.Session <= usual.Captions {
		t.Errorf("said twice with 0.9: %v session, %v captions", usual.Session, usual.Captions)
	}
	last := 0.0
	for _, p := range []float64{0.1, 0.3, 0.5, 0.7, 0.9, 0.97} {
		s, slip := oddSet(0, p, 1-p)
		if got := reweighed(s, slip).Session; got <= last {
			t.Errorf("%v by the decoder: %v, no more than for less", p, got)
		} else {
			last = got
		}
	}
	s, slip = oddSet(4, 0.9, 0.1)
	if got := reweighed(s, slip).Session; got >= usual.Session {
		t.Errorf("in a file with much that is odd: %v, not below %v", got, usual.Session)
	}
	s, slip = oddSet(0, 0.9, 0.1)
	s.Sets[3].Slips = append(s.Sets[3].Slips, slip, slip, slip)
	if got := reweighed(s, slip).Session; got >= usual.Session {
		t.Errorf("the same four times in a set: %v, not below %v", got, usual.Session)
	}
	s, slip = oddSet(0, 0.9, 0.1)
	s.Track.Timing = caption.TimingBlock
	if got := reweighed(s, slip).Session; got >= usual.Session {
		t.Errorf("in blocks: %v, not below %v", got, usual.Session)
	}
	s, slip = oddSet(0, 0, 0.9)
	if got := reweighed(s, slip).Session; got != 0 {
		t.Errorf("ruled out by the decoder: %v", got)
	}
}

// TestOddsSum: session, captions and the remainder are probabilities for any session, every reason has its weight and name, and all are finite.
func TestOddsSum(t *testing.T) {
	for _, k := range OddKinds() {
		if len(oddWeights[k]) != len(k.Reasons()) {
			t.Errorf("kind %d: %d weights of %d reasons", k, len(oddWeights[k]), len(k.Reasons()))
		}
	}
	for seed := range uint64(200) {
		s := randomSession(rand.New(rand.NewPCG(seed, 3)))
		l := newLedger(s)
		for i := range s.Sets {
			for _, slip := range s.Sets[i].Slips {
				got := l.reweigh(i, slip)
				if got.Session < 0 || got.Captions < 0 || got.Session+got.Captions > 1+1e-9 || math.IsNaN(got.Session+got.Captions) {
					t.Fatalf("seed %d, set %d: %v session, %v captions", seed, i, got.Session, got.Captions)
				}
			}
		}
		for _, o := range Odds(s) {
			if len(o.Reasons) != len(oddWeights[o.Kind]) {
				t.Fatalf("seed %d: %d reasons of kind %d, %d weights", seed, len(o.Reasons), o.Kind, len(oddWeights[o.Kind]))
			}
			for i, x := range o.Reasons {
				if math.IsNaN(x) || math.IsInf(x, 0) {
					t.Fatalf("seed %d: reason %s is %v", seed, o.Kind.Reasons()[i], x)
				}
			}
		}
	}
}

// TestUnlikelyOdd: an odd place that is most likely nobody's, and a slip rather than the captioner's, is not told.
func TestUnlikelyOdd(t *testing.T) {
	s, slip := oddSet(4, 0.3, 0)
	slip.Kind = segment.Restarted
	s.Sets[3].Slips = []segment.Slip{slip}
	for _, f := range Measure(s, Options{}).Findings {
		if f.Set == setID(3) {
			t.Errorf("told all the same: %+v", f)
		}
	}
}

// TestRepsRange: the announced number is in the range unless the set was surely another; otherwise the range is the decoder's.
func TestRepsRange(t *testing.T) {
	for _, tt := range []struct {
		last, reps, announced int // number said last, repetitions found and announced
		session               float64
		low, high             int
	}{
		{10, 10, 10, 0, 10, 10},
		{10, 10, 0, 0, 10, 10},
		{10, 11, 10, 0.95, 11, 11}, // ends at ten with a number surely said twice
		{6, 6, 10, 0, 6, 10},       // four fewer, and nothing that explains it
		{14, 14, 10, 0, 10, 14},
		{5, 5, 30, 0, 5, 5}, // of which thirty may have been seconds
		{5, 5, 14, 0, 5, 14},
	} {
		b := newBuilder()
		s := b.counted("row", segment.Both, segment.Dose{Reps: tt.announced}, 10, 3, 1, tt.last)
		s.Reps, s.RepsLow, s.RepsHigh = tt.reps, tt.reps, tt.reps
		if tt.session > 0 {
			s.Slips = []segment.Slip{{Kind: segment.Repeated, At: s.Count[1].At, Said: 8, Expected: 9, Session: tt.session}}
		}
		p := Measure(&b.Session, Options{}).Sets[0].Performed
		if *p.Reps != tt.reps || *p.RepsLow != tt.low || *p.RepsHigh != tt.high {
			t.Errorf("%d for %d: %d (%d to %d), want %d to %d", tt.reps, tt.announced, *p.Reps, *p.RepsLow, *p.RepsHigh, tt.low, tt.high)
		}
	}
}

// TestRaw: only words without stops and without figures are a recogniser's as it left them, and of a few words nothing is said.
func TestRaw(t *testing.T) {
	for _, tt := range []struct {
		text  string
		times int
		want  bool
	}{
		{"lift the heel and lower it ", 50, true}, {"Lift the heel, and lower it. ", 50, false}, {"lift the heel 10 times slowly ", 50, false}, {"lift the heel and lower it ", 5, false},
	} {
		b := newBuilder()
		b.say(1, strings.Repeat(tt.text, tt.times))
		if got := Measure(&b.Session, Options{}).Source.Raw; got != tt.want {
			t.Errorf("%q %d times: %v, want %v", tt.text, tt.times, got, tt.want)
		}
	}
}
