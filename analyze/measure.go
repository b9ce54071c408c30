package analyze

import (
	"fmt"
	"math"

	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

// A Tolerance says how far a length may lie from what was announced and still count as kept:
// the larger of Seconds and Share of what was announced.
type Tolerance struct {
	Seconds float64
	Share   float64 // in [0,1], e.g. 0.15
}

// Of returns the tolerance, in seconds, around want seconds.
func (t Tolerance) Of(want float64) float64 { return math.Max(t.Seconds, t.Share*want) }

// The tolerances that hold unless Options says otherwise. Common practice, no source: a person who watches
// a clock and talks keeps an announced half minute within some five seconds.
var (
	defaultLengths  = Tolerance{Seconds: 5, Share: 0.15}
	defaultTimeCues = Tolerance{Seconds: 3, Share: 0.30}
)

// Options sets what counts as kept. Its zero value means the defaults.
type Options struct {
	Lengths  Tolerance // of rests, timed sets, and left against right; zero: the larger of 5 s and 15 %
	TimeCues Tolerance // of remarks such as "ten more seconds"; zero: the larger of 3 s and 30 %
}

func (o Options) withDefaults() Options {
	if o.Lengths == (Tolerance{}) {
		o.Lengths = defaultLengths
	}
	if o.TimeCues == (Tolerance{}) {
		o.TimeCues = defaultTimeCues
	}
	return o
}

// Measure computes the report of a session: what was announced, what was done, and what a person should look at.
// Every figure is rounded to 0.001. The session is not changed, and the report shares no memory with it.
func Measure(s *segment.Session, opt Options) *Report { return measure(s, opt, Settlement{}) }

func measure(s *segment.Session, opt Options, settled Settlement) *Report {
	opt = opt.withDefaults()
	r := &Report{
		Version: 1,
		Source:  sourceOf(s),
		Session: aboutOf(s),
		Phases:  []Phase{},
		Sets:    []Set{},
		Rests:   []Rest{},
	}
	for _, p := range s.Phases {
		r.Phases = append(r.Phases, Phase{
			Kind: p.Kind.String(), Start: at(p.Start), End: at(p.End), Confidence: round(p.Confidence), Label: p.Label,
		})
	}
	ledger := newLedger(s)
	for i := range s.Sets {
		set := setOf(i, &s.Sets[i])
		if s.Sets[i].Counted && !settled.Numbers[i] {
			*set.Performed.RepsLow, *set.Performed.RepsHigh = ledger.repsRange(i)
		}
		r.Sets = append(r.Sets, set)
	}
	for i := range s.Rests {
		r.Rests = append(r.Rests, restOf(i, &s.Rests[i], opt.Lengths))
	}
	r.Findings, r.Repairs = findings(s, opt, settled)
	r.Source.Decisions = settled.Decisions
	r.Totals = totals(r)
	return r
}

// fewWords is the number of words up to which a file is too short to tell how it was written.
const fewWords = 200

func sourceOf(s *segment.Session) Source {
	src := Source{Timing: caption.TimingUnknown.String(), Warnings: []string{}}
	if t := s.Track; t != nil {
		src.Name, src.Format, src.Timing, src.Language = t.Name, t.Format, t.Timing.String(), t.Language
		src.Duration, src.Words = at(t.Duration), len(t.Words)
		src.Raw = src.Words > fewWords && raw(t)
		for _, w := range t.Warnings {
			src.Warnings = append(src.Warnings, warning(t.Name, w))
		}
	}
	src.Warnings = append(src.Warnings, s.Warnings...)
	return src
}

// warning writes a reader's warning as "file:line: text (n times)", without the line where it concerns the whole file.
func warning(name string, w caption.Warning) string {
	if name == "" {
		name = "captions"
	}
	text := name + ": " + w.Text
	if w.Line > 0 {
		text = fmt.Sprintf("%s:%d: %s", name, w.Line, w.Text)
	}
	if w.Count > 1 {
		text += fmt.Sprintf(" (%d times)", w.Count)
	}
	return text
}

func aboutOf(s *segment.Session) About {
	return About{
		Title:     quoteOrNil(s.Title),
		Level:     quoteOrNil(s.Level),
		Equipment: quotes(s.Equipment),
		Cautions:  quotes(s.Cautions),
		Effort:    quotes(s.Effort),
		Options:   quotes(s.Options),
		After:     quotes(s.Afterwards),
	}
}

func setOf(i int, s *segment.Set) Set {
	out := Set{
		ID: setID(i), Phase: s.Kind.String(), Exercise: s.Exercise.Text, Side: s.Side.String(),
		Start: at(s.Start.At), End: at(s.End.At),
		LastNumber: s.LastNumber, Tension: rangeOf(s.Tension), Pace: round(s.Pace), Count: []Count{},
	}
	if s.Announced.Reps > 0 || s.Announced.Seconds > 0 {
		out.Prescribed = &Dose{Reps: s.Announced.Reps, Seconds: round(s.Announced.Seconds)}
		when := at(s.Announced.At)
		out.PrescribedAt = &when
	}
	if s.Counted {
		reps, low, high := s.Reps, s.RepsLow, s.RepsHigh
		out.Performed = Performed{Reps: &reps, RepsLow: &low, RepsHigh: &high}
	} else {
		seconds := round(s.Performed.Value)
		out.Performed = Performed{Seconds: &seconds}
	}
	for _, n := range s.Count {
		out.Count = append(out.Count, Count{Number: n.Said, At: at(n.At.At), Rep: n.Rep, Origin: n.Origin.String()})
	}
	return out
}

func restOf(i int, p *segment.Pause, tol Tolerance) Rest {
	out := Rest{
		ID: restID(i), Start: at(p.Start.At), End: at(p.End.At), Length: rangeOf(p.Length),
		Verdict: restVerdict(p.Length.Value, p.Announced, tol),
	}
	if p.Announced > 0 {
		want := round(p.Announced)
		out.Prescribed = &want
	}
	return out
}

// restVerdict compares a rest with what was announced for it, both in seconds.
func restVerdict(length, announced float64, tol Tolerance) string {
	switch {
	case announced <= 0:
		return "unstated"
	case math.Abs(length-announced) <= tol.Of(announced):
		return "kept"
	case length > announced:
		return "over"
	}
	return "short"
}

func setID(i int) string  { return fmt.Sprintf("s%d", i+1) }
func restID(i int) string { return fmt.Sprintf("r%d", i+1) }

// rangeOf writes a length; none is shorter than nothing.
func rangeOf(l segment.Length) Range {
	return Range{Value: round(l.Value), Low: round(math.Max(0, l.Low)), High: round(l.High)}
}

// at returns a time as the report writes it: seconds, rounded to 0.001.
func at(t caption.Time) float64 { return round(t.Seconds()) }

// round returns x rounded to 0.001, and 0 for a negative zero.
func round(x float64) float64 {
	r := math.Round(x*1000) / 1000
	if r == 0 {
		return 0
	}
	return r
}
