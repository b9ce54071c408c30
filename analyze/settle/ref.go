package settle

import (
	"fmt"

	"captally.example/captally/analyze"
)

// FindingOf names a finding of a report.
func FindingOf(r *analyze.Report, f analyze.Finding) *FindingRef {
	ref := &FindingRef{Kind: f.Kind, At: f.At}
	for _, s := range r.Sets {
		if s.ID == f.Set {
			start := s.Start
			ref.Set = &start
		}
	}
	return ref
}

// SetOf names a set of a report.
func SetOf(s analyze.Set) *SetRef {
	return &SetRef{Start: s.Start, End: s.End, Exercise: s.Exercise}
}

// PhaseOf names a phase of a report.
func PhaseOf(p analyze.Phase) *PhaseRef {
	return &PhaseRef{Kind: p.Kind, Start: p.Start, End: p.End}
}

// FindFinding returns the finding of a report with an ID such as "f3"; FindSet does so for a set such as "s2".
func FindFinding(r *analyze.Report, id string) (*FindingRef, error) {
	for _, f := range r.Findings {
		if f.ID == id {
			return FindingOf(r, f), nil
		}
	}
	return nil, fmt.Errorf("the report has no finding %q", id)
}

// FindSet returns the set of a report with an ID.
func FindSet(r *analyze.Report, id string) (*SetRef, error) {
	for _, s := range r.Sets {
		if s.ID == id {
			return SetOf(s), nil
		}
	}
	return nil, fmt.Errorf("the report has no set %q", id)
}
