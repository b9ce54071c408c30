package corpus

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"captally.example/captally/analyze"
	"captally.example/captally/segment/caption"
)

// What the scores allow for.
const (
	leastOverlap = 0.4  // intersection over union from which a found set or rest is a true one
	eitherWay    = 12.0 // s: a gap between sets with no rest announced, up to this long, may be called talk or rest
)

// tolerance is what a clock can be asked for, in seconds.
type tolerance struct {
	near  float64 // how far a finding may lie from what it tells of
	slack float64 // granted on a length before its relative error counts
	rest  float64 // granted on the length of a rest beyond 5 s or a tenth
}

var tolerances = map[caption.Timing]tolerance{
	caption.TimingWord:  {near: 4, slack: 1.5},
	caption.TimingCue:   {near: 6, slack: 2.5},
	caption.TimingBlock: {near: 15, slack: 8, rest: 8},
}

// Score compares the report of one session with its truth. A nil report scores as one in which nothing was found.
//
// The figures are:
//   - phase agreement: share of the full seconds with the same label; phase F1 and macro F1: over those seconds, for each kind and averaged over the kinds
//     that the truth has; phase Pk and WindowDiff: see [Pk] and [WindowDiff], with half the mean true segment as the window
//   - sets F1, rests F1: matched one to one by an overlap (intersection over union) of at least 0.4; work and balance sets count
//   - reps exact, off by one, MAE: over every counted set of the truth, a set that was not found having 0 repetitions; MAE is |found - true| / true
//     and OBO the share within one repetition, the measures of the literature on counting repetitions (Hu H et al. 2022, TransRAC, CVPR, section 5.1)
//   - inside the stated range: whether the truth lies in low..high, with the widths beside it; for time under tension with half a second to spare
//   - time under tension within 10 %: after a slack of 1.5, 2.5 or 8 s for word, cue and block timing
//   - rest verdict right: only where both ends that the truth allows (the end of the rest, the first repetition after it) lead to one verdict
//   - miscounts: recall over the miscounts of the truth but those after repetitions in silence; precision over count-* findings whose cause is the session
//   - captioner's faults: recall over the faults inside counted sets; precision over the caption-* and count-* findings whose cause is not the session
func Score(truth *Truth, report *analyze.Report, timing caption.Timing) *Tally {
	if report == nil {
		report = new(analyze.Report)
	}
	s := &scoring{Tally: NewTally(timing), truth: truth, report: report, tolerance: tolerances[timing]}
	s.phases()
	s.sets()
	s.rests()
	s.miscounts()
	if truth.Faults != nil {
		s.faults()
	}
	return s.Tally
}

// scoring is one report on its way to scores.
type scoring struct {
	*Tally
	tolerance
	truth  *Truth
	report *analyze.Report
}

// wrong notes an error for a person.
func (s *scoring) wrong(what string, at float64, format string, args ...any) {
	s.Errors = append(s.Errors, fmt.Sprintf("%s.%s %s %s: %s", s.truth.Name, s.Timing, caption.At(at), what, fmt.Sprintf(format, args...)))
}

func (s *scoring) phases() {
	ref := labels(s.truth.Phases, func(p Phase) (string, span) { return p.Kind, span{p.Start, p.End} }, s.truth.Duration)
	found := labels(s.report.Phases, func(p analyze.Phase) (string, span) { return p.Kind, span{p.Start, p.End} }, s.truth.Duration)
	ref = allow(s.truth, ref, found)

	same := 0
	for i := range ref {
		if ref[i] == found[i] {
			same++
		}
	}
	s.add("phase agreement", float64(same)/float64(len(ref)))
	rb, fb := boundaries(ref), boundaries(found)
	k := window(rb)
	s.add("phase Pk", Pk(rb, fb, k))
	s.add("phase WindowDiff", WindowDiff(rb, fb, k))
	for _, kind := range Kinds {
		var h hits
		for i := range ref {
			switch {
			case ref[i] == kind && found[i] == kind:
				h.found++
			case found[i] == kind:
				h.spurious++
			case ref[i] == kind:
				h.missed++
			}
		}
		s.counts["phase "+kind] = append(s.counts["phase "+kind], h)
	}
}

func (s *scoring) sets() {
	var truth []Set
	var spans, extra, foundSpans []span
	for _, t := range s.truth.Sets {
		if exertion(t.Phase) {
			truth, spans = append(truth, t), append(spans, span{t.begin(), t.End})
		} else {
			extra = append(extra, span{t.Start, t.End})
		}
	}
	var found []analyze.Set
	for _, f := range s.report.Sets {
		if exertion(f.Phase) {
			found, foundSpans = append(found, f), append(foundSpans, span{f.Start, f.End})
		}
	}
	pairs := match(spans, foundSpans, leastOverlap)
	s.counts["sets"] = append(s.counts["sets"], hits{
		found:    len(pairs),
		spurious: s.spurious(foundSpans, extra, pairs),
		missed:   len(truth) - len(pairs),
	})
	got := make([]*analyze.Set, len(truth))
	for _, p := range pairs {
		got[p.i] = &found[p.j]
	}
	for i := range truth {
		s.set(&truth[i], got[i])
	}
}

// spurious counts the found sets that are none; a counted move of the warm-up or cool-down may be called work.
func (s *scoring) spurious(found, extra []span, pairs []pair) int {
	n := 0
	for j, f := range found {
		paired := slices.ContainsFunc(pairs, func(p pair) bool { return p.j == j })
		move := slices.ContainsFunc(extra, func(e span) bool { return overlap(f, e) > leastOverlap })
		if !paired && !move {
			n++
		}
	}
	return n
}

// set scores one set of the truth against what was found for it, nil for nothing.
func (s *scoring) set(t *Set, f *analyze.Set) {
	name := fmt.Sprintf("%s, %s (%s)", t.ID, t.Exercise, t.Side)
	if t.Performed.Reps != nil {
		s.reps(name, t, f)
	}
	if f == nil {
		for _, figure := range []string{"exercise named", "side", "time under tension within 10 %"} {
			s.share(figure, false)
		}
		s.wrong(name, t.Start, "the set was not found")
	} else {
		s.tension(t, f)
		named := sameExercise(t.Exercise, f.Exercise)
		s.share("exercise named", named)
		if !named {
			s.wrong(name, t.Start, "found as %q", f.Exercise)
		}
		s.share("side", sameSide(t.Side, f.Side))
		if !sameSide(t.Side, f.Side) {
			s.wrong(name, t.Start, "found as side %q", f.Side)
		}
	}
	if want := t.Prescribed; want != nil && *want != (Dose{}) {
		ok := f != nil && want.is(f.Prescribed)
		s.share("prescription exact", ok)
		if !ok && f != nil {
			s.wrong(name, t.Start, "announced %+v, found %+v", *want, f.Prescribed)
		}
	}
}

// is reports whether what was found says at least what the truth says.
func (d Dose) is(found *analyze.Dose) bool {
	return found != nil && (d.Reps == 0 || found.Reps == d.Reps) && (d.Seconds == 0 || found.Seconds == d.Seconds)
}

// sameSide allows both for alternate and the reverse, and takes an unknown side for both.
func sameSide(truth, found string) bool {
	if found == "" {
		found = "both"
	}
	pair := truth == "both" && found == "alternate" || truth == "alternate" && found == "both"
	return truth == found || pair
}

func (s *scoring) reps(name string, t *Set, f *analyze.Set) {
	n, found := *t.Performed.Reps, 0
	if f != nil && f.Performed.Reps != nil {
		found = *f.Performed.Reps
	}
	off := max(found-n, n-found)
	s.share("reps exact", off == 0)
	s.share("reps off by one (OBO)", off <= 1)
	s.add("reps MAE (relative)", float64(off)/float64(n))
	if off != 0 && f != nil {
		s.wrong(name, t.Start, "%d repetitions performed, found %d", n, found)
	}
	if f == nil {
		return
	}
	low, high := found, found
	if f.Performed.RepsLow != nil {
		low = *f.Performed.RepsLow
	}
	if f.Performed.RepsHigh != nil {
		high = *f.Performed.RepsHigh
	}
	s.share("reps inside the stated range", low <= n && n <= high)
	s.add("reps range width", float64(high-low))
	s.state(IntervalReps, Interval{Low: float64(low), High: float64(high), Truth: float64(n)})
}

// state keeps a stated interval.
func (s *scoring) state(what string, i Interval) { s.Intervals[what] = append(s.Intervals[what], i) }

// tension scores time under tension. A timed set may be measured from the command to start or from its end.
func (s *scoring) tension(t *Set, f *analyze.Set) {
	length, whole := t.End-t.begin(), t.End-t.Start
	found := f.Tension
	miss := max(0, min(math.Abs(found.Value-length), math.Abs(found.Value-whole))-s.slack)
	s.add("time under tension error, beyond slack", miss/length)
	s.share("time under tension within 10 %", miss <= 0.10*length)
	stated := span{found.Low, found.High}
	s.share("time under tension inside the stated range", stated.within(length, 0.5) || stated.within(whole, 0.5))
	s.add("time under tension range width (relative)", stated.length()/length)
	s.state(IntervalTension, Interval{Low: found.Low, High: found.High, Truth: length})
}

// trueRest is a rest of the truth, whose end may be taken later: at the first repetition after it.
type trueRest struct {
	Rest
	late     float64 // s: the latest right end
	optional bool    // so short, with nothing announced, that it need not be found
}

func (s *scoring) trueRests() []trueRest {
	out := make([]trueRest, len(s.truth.Rests))
	for i, r := range s.truth.Rests {
		next := math.Inf(1)
		for _, set := range s.truth.Sets {
			if set.Start >= r.End-0.5 {
				next = min(next, set.Start)
			}
		}
		late := r.End
		if next-r.End < 12 {
			late = next
		}
		out[i] = trueRest{r, late, r.announced() == 0 && r.End-r.Start <= eitherWay}
	}
	return out
}

func (s *scoring) rests() {
	truth, found := s.trueRests(), s.report.Rests
	var spans, foundSpans []span
	for _, r := range truth {
		spans = append(spans, span{r.Start, r.End})
	}
	for _, f := range found {
		foundSpans = append(foundSpans, span{f.Start, f.End})
	}
	pairs := match(spans, foundSpans, leastOverlap)
	got := make([]*analyze.Rest, len(truth))
	paired := make([]bool, len(found))
	for _, p := range pairs {
		got[p.i], paired[p.j] = &found[p.j], true
	}
	h := hits{missed: len(truth)}
	for i, r := range truth {
		if r.optional {
			h.missed--
		} else if got[i] != nil {
			h.found++
			h.missed--
		}
		if got[i] != nil || !r.optional {
			s.rest(r, got[i])
		}
	}
	for j, f := range found {
		spare := foundSpans[j].length() <= eitherWay && f.Verdict == "unstated"
		if !paired[j] && !spare {
			h.spurious++
			s.wrong("rest", f.Start, "to %s, there was none", caption.At(f.End))
		}
	}
	s.counts["rests"] = append(s.counts["rests"], h)
}

// rest scores one rest of the truth against what was found for it, nil for nothing.
func (s *scoring) rest(r trueRest, f *analyze.Rest) {
	length := span{r.End - r.Start, r.late - r.Start} // from the shortest right answer to the longest
	if f == nil {
		s.share("rest length within 5 s or 10 %", false)
		s.wrong("rest", r.Start, "to %s, not found", caption.At(r.End))
	} else {
		found := f.Length
		s.share("rest length within 5 s or 10 %", length.beyond(found.Value) <= max(5, 0.1*length.start)+s.tolerance.rest)
		s.state(IntervalRest, Interval{Low: found.Low, High: found.High, Truth: min(max(found.Value, length.start), length.end)})
	}
	announced := r.announced()
	if announced == 0 {
		return
	}
	s.share("rest announcement exact", f != nil && f.Prescribed != nil && *f.Prescribed == announced)
	want := verdict(length.start, announced)
	if want != verdict(length.end, announced) {
		return
	}
	s.share("rest verdict right", f != nil && f.Verdict == want)
	if f != nil && f.Verdict != want {
		s.wrong("rest", r.Start, "%s (%g s announced, %.0f s given), found %q (%.0f s)", want, announced, length.start, f.Verdict, f.Length.Value)
	}
}

// verdict judges the length of a rest against what was announced, both in seconds.
func verdict(actual, announced float64) string {
	switch tolerance := max(5, 0.15*announced); {
	case math.Abs(actual-announced) <= tolerance:
		return "kept"
	case actual > announced:
		return "over"
	}
	return "short"
}

// countKinds are the kinds of finding that tell of a miscount.
var countKinds = []string{"count-skipped", "count-repeated", "count-restarted", "count-jumped", "count-short", "count-over", "count-lost"}

// atEnd reports whether a miscount is of the whole set, so that it may be told anywhere in it.
func atEnd(kind string) bool { return kind == "short" || kind == "over" }

func (s *scoring) miscounts() {
	var found []analyze.Finding
	for _, f := range s.report.Findings {
		if slices.Contains(countKinds, f.Kind) && f.Cause == "session" {
			found = append(found, f)
		}
	}
	right := make([]bool, len(found))
	for _, m := range s.truth.Miscounts {
		if m.AfterSilence {
			continue // what the number should have been is not told by the count; need not be found, and is no false alarm either
		}
		told := false
		for j, f := range found {
			if s.tells(f, m) {
				told, right[j] = true, true
			}
		}
		s.share("miscounts found (recall)", told)
		if !told {
			s.wrong("miscount", m.At, "%s in %s was not told", m.Kind, m.Set)
		}
	}
	for j, f := range found {
		if !right[j] {
			right[j] = f.Kind == "count-lost" || s.afterSilence(f)
		}
		s.share("miscount findings right (precision)", right[j])
		s.Causes = append(s.Causes, Judgement{f.Probability, right[j]})
		if !right[j] {
			s.wrong(f.Kind, f.At, "there was none: %s", f.Text)
		}
	}
}

// tells reports whether a finding tells of a miscount: near it, or anywhere in its set where the set as a whole is meant.
func (s *scoring) tells(f analyze.Finding, m Miscount) bool {
	if math.Abs(f.At-m.At) <= s.near {
		return true
	}
	whole := atEnd(m.Kind) || atEnd(strings.TrimPrefix(f.Kind, "count-"))
	i := slices.IndexFunc(s.truth.Sets, func(t Set) bool { return t.ID == m.Set })
	if !whole || i < 0 {
		return false
	}
	return s.truth.Sets[i].Start-s.near <= f.At && f.At <= s.truth.Sets[i].End+s.near+10
}

// afterSilence reports whether a finding lies by a number that came out wrong after repetitions in silence.
func (s *scoring) afterSilence(f analyze.Finding) bool {
	return slices.ContainsFunc(s.truth.Miscounts, func(m Miscount) bool {
		return m.AfterSilence && math.Abs(f.At-m.At) <= s.near+10
	})
}

func (s *scoring) faults() {
	faults := s.truth.Faults.of(s.Timing)
	var told []analyze.Finding
	for _, f := range s.report.Findings {
		if f.Cause != "session" && (strings.HasPrefix(f.Kind, "caption-") || strings.HasPrefix(f.Kind, "count-")) {
			told = append(told, f)
		}
	}
	for _, q := range faults {
		if !s.inCount(q) {
			continue
		}
		ok := slices.ContainsFunc(told, func(f analyze.Finding) bool { return math.Abs(f.At-q.At) <= s.near })
		s.share("captioner's faults told: "+q.Kind, ok)
		s.share("captioner's faults told (recall)", ok)
		if !ok {
			s.wrong("fault", q.At, "%s %d%v was not told", q.Kind, q.Number, q.Numbers)
		}
	}
	for _, f := range told {
		right := slices.ContainsFunc(faults, func(q Fault) bool { return math.Abs(f.At-q.At) <= s.near })
		s.share("captioner's faults told (precision)", right)
		if f.Cause == "captions" {
			s.Causes = append(s.Causes, Judgement{f.Probability, right})
		}
	}
}

// inCount reports whether a fault lies in a counted work or balance set, with two seconds to spare.
func (s *scoring) inCount(q Fault) bool {
	return slices.ContainsFunc(s.truth.Sets, func(t Set) bool {
		return exertion(t.Phase) && t.Performed.Reps != nil && span{t.Start, t.End}.within(q.At, 2)
	})
}
