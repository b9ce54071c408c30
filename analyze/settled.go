package analyze

import (
	"strings"

	"captally.example/captally/segment"
)

// A Settlement is what a person has decided of a session, as far as measuring is concerned. Its zero value decides nothing.
type Settlement struct {
	Rulings   []Ruling     // at most one on a finding
	Numbers   map[int]bool // indices of the sets whose repetitions or seconds are known for certain
	Doses     map[int]bool // indices of the sets whose announced dose is
	Decisions int          // how many decisions were taken in, for Source
}

// A Ruling is what a person decided of one finding of the session as it is measured without the ruling.
type Ruling struct {
	Finding Finding // its Kind, At, Set, Rest and Slip count
	Cause   string  // "session" or "captions"; "" where there is nothing to find
}

// On says whether it rules on a finding, whatever cause and kind that has now.
func (r Ruling) On(x Finding) bool { return sameMatter(r.Finding, x) }

// MeasureSettled is Measure with what a person decided. A finding that was ruled on is certain, and marked so; one that was
// ruled to be none is left out, with its repair.
func MeasureSettled(s *segment.Session, opt Options, settled Settlement) *Report {
	return measure(s, opt, settled)
}

// ruling returns the ruling on a finding, nil for none.
func (s *Settlement) ruling(x Finding) *Ruling {
	for i := range s.Rulings {
		if r := &s.Rulings[i]; r.On(x) {
			return r
		}
	}
	return nil
}

// sameMatter says whether two findings are of the same slip, of the same remark, or of one set's dose or one rest's length; what
// they are called depends on the cause.
func sameMatter(a, b Finding) bool {
	if a.Set != b.Set || a.Rest != b.Rest || a.Slip != b.Slip {
		return false
	}
	switch {
	case a.Slip > 0, ofDose(a.Kind) && ofDose(b.Kind), ofRest(a.Kind) && ofRest(b.Kind):
		return true
	}
	return a.Kind == b.Kind && a.At == b.At
}

func ofDose(kind string) bool { return rank[kind] == 1 }
func ofRest(kind string) bool { return strings.HasPrefix(kind, "rest-") }

// ruledSo says whether the dose of set i was ruled to have been missed in the session.
func (f *finder) ruledSo(i int) bool {
	r := f.settled.ruling(Finding{Kind: "dose-unclear", Set: setID(i)})
	return r != nil && r.Cause == causeSession
}
