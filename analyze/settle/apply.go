package settle

import (
	"captally.example/captally/analyze"
	"captally.example/captally/segment"
)

// A Settled is a session with the decisions on it.
type Settled struct {
	Session  *segment.Session // a copy; it shares the track with the one decoded
	Report   *analyze.Report
	Unfit    []Unfit          // in the order of the decisions
	Verdicts map[string]int   // by the ID of a finding of Report: the ID of the decision on it
	Dropped  []DroppedFinding // findings that were decided to be none
}

// A DroppedFinding is one that is not in the report any more.
type DroppedFinding struct {
	Finding  analyze.Finding
	Decision int // its ID
}

// Apply puts the decisions on a session, which is not changed, and measures it. d may be nil for none; then the report is that
// of analyze.Measure.
func Apply(s *segment.Session, d *Decisions, opt analyze.Options) *Settled {
	return &Settled{Session: s, Report: analyze.Measure(s, opt), Verdicts: map[string]int{}}
}
