package settle

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"captally.example/captally/analyze"
	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

// A ruling is a verdict that has found its finding.
type ruling struct {
	analyze.Ruling
	decision int // its ID
}

// verdicts looks for the findings that a person decided on.
type verdicts struct {
	editor   *editor
	original *segment.Session
	opt      analyze.Options
	settled  analyze.Settlement
	moot     int // verdicts on findings that other decisions have done away with
}

// rulings returns the verdicts that fit, the last on each finding, and says why others do not. A verdict on a finding that is
// gone because of other decisions is none that does not fit.
func (v *verdicts) rulings(d *Decisions, why map[int]string) []ruling {
	var now, before *analyze.Report
	var out []ruling
	for i := range d.Made {
		x := &d.Made[i]
		if !x.onFinding() {
			continue
		}
		if err := x.valid(); err != nil {
			why[i] = err.Error()
			continue
		}
		if now == nil {
			now = analyze.MeasureSettled(v.editor.session, v.opt, v.settled)
		}
		f := finding(now, x.Finding)
		if f == nil {
			if before == nil {
				before = analyze.Measure(v.original, v.opt)
			}
			if finding(before, x.Finding) == nil {
				why[i] = fmt.Sprintf("no finding of the kind %s at %s: %v", x.Finding.Kind, caption.At(x.Finding.At), errGone)
			} else {
				v.moot++
			}
			continue
		}
		r := ruling{analyze.Ruling{Finding: *f, Cause: x.cause()}, x.ID}
		if k := slices.IndexFunc(out, func(o ruling) bool { return o.On(*f) }); k >= 0 {
			out = slices.Delete(out, k, k+1)
			v.moot++
		}
		out = append(out, r)
	}
	return out
}

func (x *Decision) onFinding() bool { return x.Kind == Said || x.Kind == Captions || x.Kind == NotSo }

// cause returns the cause of a finding that a verdict states, "" for none.
func (x *Decision) cause() string {
	switch x.Kind {
	case Said:
		return "session"
	case Captions:
		return "captions"
	}
	return ""
}

// families are the names that one odd place goes by, as one or another is held to be its cause.
var families = [][]string{
	{"count-repeated", "count-restarted", "caption-doubled"},
	{"count-skipped", "count-jumped", "count-lost", "caption-gap"},
	{"caption-misheard", "count-lost", "count-jumped", "count-skipped", "count-restarted", "count-repeated"},
	{"count-short", "count-over", "dose-unclear"},
	{"time-short", "time-over", "dose-unclear"},
	{"rest-short", "rest-missing", "rest-over"},
}

// finding returns the finding that a verdict names: the nearest of its kind, or else the nearest that may go by that name, too.
func finding(r *analyze.Report, ref *FindingRef) *analyze.Finding {
	var best *analyze.Finding
	off := func(f *analyze.Finding) float64 {
		d := math.Abs(f.At - ref.At)
		if f.Kind != ref.Kind {
			d += near
		}
		return d
	}
	dose := ofDose(ref.Kind)
	for i := range r.Findings {
		f := &r.Findings[i]
		if math.Abs(f.At-ref.At) > near && !(dose && ofDose(f.Kind)) || f.Kind != ref.Kind && !akin(f.Kind, ref.Kind) || !sameSet(r, f, ref) {
			continue
		}
		if best == nil || off(f) < off(best) {
			best = f
		}
	}
	return best
}

func akin(a, b string) bool {
	for _, f := range families {
		if slices.Contains(f, a) && slices.Contains(f, b) {
			return true
		}
	}
	return false
}

// ofDose says whether a finding is that of a set's dose, of which each set has one at most: it may stand at its start or its end.
func ofDose(kind string) bool {
	return kind == "dose-unclear" || strings.HasSuffix(kind, "-short") && kind != "rest-short" || strings.HasSuffix(kind, "-over") && kind != "rest-over"
}

func sameSet(r *analyze.Report, f *analyze.Finding, ref *FindingRef) bool {
	if f.Set == "" || ref.Set == nil {
		return f.Set == "" && ref.Set == nil
	}
	i := indexOf(f.Set)
	return i >= 0 && i < len(r.Sets) && math.Abs(r.Sets[i].Start-*ref.Set) <= near
}

// indexOf returns the place of a set in its report by its ID, -1 for none: sets are numbered in their order, from s1.
func indexOf(id string) int {
	n, err := strconv.Atoi(strings.TrimPrefix(id, "s"))
	if err != nil {
		return none
	}
	return n - 1
}

// rule changes the count of a set for a verdict on one of its slips: whether the numbers there were repetitions depends on who
// made the slip. A number of repetitions that a person gave stays.
func (e *editor) rule(r analyze.Ruling, given map[int]bool) {
	f := r.Finding
	if f.Slip == 0 || r.Cause == "" {
		return
	}
	i := indexOf(f.Set)
	if i < 0 || i >= len(e.session.Sets) || f.Slip > len(e.session.Sets[i].Slips) {
		return
	}
	set := &e.session.Sets[i]
	own(set)
	before := *set
	slip, session := set.Slips[f.Slip-1], r.Cause == "session"
	switch slip.Kind {
	case segment.Repeated, segment.Restarted, segment.Doubled:
		again(set, slip, session)
	case segment.Skipped, segment.Jumped:
		leftOut(set, slip, session)
	}
	if given[i] {
		set.Reps, set.RepsLow, set.RepsHigh, set.Pace = before.Reps, before.RepsLow, before.RepsHigh, before.Pace
	}
}

// again settles whether numbers that stand twice were said twice, a repetition each.
func again(set *segment.Set, slip segment.Slip, session bool) {
	n, last := 0, 0
	for i := range set.Count {
		c := &set.Count[i]
		here := c.Word >= slip.First && c.Word < slip.Last
		switch {
		case here && session && c.Rep == 0:
			n++
			c.Origin, c.Rep, c.Prob = segment.Heard, last+1, 1
		case here && !session && c.Rep > 0:
			n--
			c.Origin, c.Rep, c.Prob = segment.CaptionRepeat, 0, 1
		case c.Rep > 0:
			c.Rep += n
		}
		last = max(last, c.Rep)
	}
	certain(set, n, session)
}

// leftOut settles whether a number that is left out was left out by the therapist, and no repetition done for it, or by the captioner.
func leftOut(set *segment.Set, slip segment.Slip, session bool) {
	missing := slip.Said - slip.Expected
	if missing < 0 {
		missing = -missing
	}
	if session || slip.Said == 0 || slip.Expected == 0 || missing == 0 {
		certain(set, 0, !session)
		return
	}
	k := slices.IndexFunc(set.Count, func(n segment.Number) bool { return n.Word == slip.First })
	if k < 1 {
		return
	}
	a, b := set.Count[k-1].At.At, set.Count[k].At.At
	first := set.Count[k].Rep // takes its place
	var silent []segment.Number
	for i := 1; i <= missing; i++ {
		at := a + (b-a)*caption.Time(i)/caption.Time(missing+1)
		silent = append(silent, segment.Number{Word: -1, At: caption.Spread{At: at, Low: a, High: b, From: set.Count[k].At.From}, Rep: first + i - 1, Origin: segment.Inferred, Prob: 1})
	}
	for i := k; i < len(set.Count); i++ {
		if c := &set.Count[i]; c.Rep > 0 {
			c.Rep += missing
		}
	}
	set.Count = slices.Insert(set.Count, k, silent...)
	certain(set, missing, true)
}

// certain adds n repetitions for what has been settled, fewer where n is negative. The doubt that there are fewer, or more, was
// in part about these: more says that it was for the upper end of the range.
func certain(set *segment.Set, n int, more bool) {
	if !set.Counted {
		return
	}
	set.Reps += n
	if more {
		set.RepsLow = min(set.Reps, set.RepsLow+max(n, 1))
		set.RepsHigh = max(set.Reps, set.RepsHigh)
	} else {
		set.RepsHigh = max(set.Reps, set.RepsHigh-max(-n, 1))
		set.RepsLow = min(set.Reps, set.RepsLow)
	}
	pace(set)
}
