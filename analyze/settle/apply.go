package settle

import (
	"captally.example/captally/analyze"
	"captally.example/captally/segment"
)

// A Settled is a session with the decisions on it.
type Settled struct {
	Session  *segment.Session // a copy where anything is decided; it shares the track with the one decoded
	Report   *analyze.Report
	Used     int              // how many decisions fit
	Unfit    []Unfit          // in the order of the decisions
	Verdicts map[string]int   // by the ID of a finding of Report: the ID of the decision on it
	Dropped  []DroppedFinding // findings that were decided to be none
}

// A DroppedFinding is one that is not in the report any more.
type DroppedFinding struct {
	Finding  analyze.Finding // as it was; its ID is of no use
	Decision int             // its ID
}

// Apply puts the decisions on a session, which is not changed, and measures it. d may be nil for none; then the report is that
// of analyze.Measure.
func Apply(s *segment.Session, d *Decisions, opt analyze.Options) *Settled {
	out := &Settled{Session: s, Verdicts: map[string]int{}}
	if d == nil || len(d.Made) == 0 {
		out.Report = analyze.Measure(s, opt)
		return out
	}
	e := edit(s)
	why := map[int]string{} // by place in d.Made
	figures := 0
	for i := range d.Made {
		x := &d.Made[i]
		if x.onFinding() || x.Kind == NoteText {
			continue
		}
		if err := x.valid(); err != nil {
			why[i] = err.Error()
		} else if err := e.decide(x); err != nil {
			why[i] = err.Error()
		} else {
			figures++
		}
	}
	e.finish()
	out.Session = e.session
	settled := analyze.Settlement{Numbers: e.indices(e.numbers), Doses: e.indices(e.doses)}
	v := verdicts{editor: e, original: s, opt: opt, settled: settled}
	rulings := v.rulings(d, why)
	for _, r := range rulings {
		e.rule(r.Ruling, settled.Numbers)
		settled.Rulings = append(settled.Rulings, r.Ruling)
		figures++
	}
	settled.Decisions = figures + v.moot
	out.Report = analyze.MeasureSettled(e.session, opt, settled)
	out.tell(d, rulings, why)
	return out
}

// tell says what became of each decision.
func (out *Settled) tell(d *Decisions, rulings []ruling, why map[int]string) {
	for _, r := range rulings {
		if r.Cause == "" {
			out.Dropped = append(out.Dropped, DroppedFinding{r.Finding, r.decision})
			continue
		}
		for _, f := range out.Report.Findings {
			if f.Settled && r.Ruling.On(f) {
				out.Verdicts[f.ID] = r.decision
			}
		}
	}
	for i, x := range d.Made {
		if text, unfit := why[i]; unfit {
			out.Unfit = append(out.Unfit, Unfit{x, text})
		} else {
			out.Used++
		}
	}
}
