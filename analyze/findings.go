package analyze

import (
	"fmt"
	"math"
	"sort"

	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

// The causes of a finding.
const (
	causeSession  = "session"  // it was really said or done so
	causeUnsure   = "unsure"   // it may be either
	causeCaptions = "captions" // the captioner's fault; the session was fine
)

// rank orders kinds by what they mean for the person who follows along: a wrong dose first, then the count that
// led to it, a weaker side, lost rest, rest that was too long, a wrong remark on the time. Kinds of the captioner come last.
var rank = map[string]int{
	"count-short": 1, "count-over": 1, "time-short": 1, "time-over": 1, "dose-unclear": 1,
	"count-skipped": 2, "count-repeated": 2, "count-restarted": 2, "count-jumped": 2, "count-lost": 2,
	"sides-uneven": 3,
	"rest-missing": 4, "rest-short": 4,
	"rest-over":    5,
	"time-cue-off": 6,
	"caption-gap":  7, "caption-misheard": 7, "caption-doubled": 7,
}

// A finder gathers the findings of one session.
type finder struct {
	session *segment.Session
	ledger  *ledger
	opt     Options
	settled Settlement
	found   []Finding
	refused map[int]bool // words that a person has ruled to be right
}

// findings returns what a person should look at: what was said or done first, then what is unsure, then the captioner's
// faults; within each by rank and time. Beside them it returns the repairs of the captions.
func findings(s *segment.Session, opt Options, settled Settlement) ([]Finding, []Repair) {
	f := &finder{session: s, ledger: newLedger(s), opt: opt, settled: settled, found: []Finding{}, refused: map[int]bool{}}
	for i := range s.Sets {
		f.slips(i)
		f.reps(i)
		f.seconds(i)
		f.timeCues(s.Sets[i].TimeCues, s.Sets[i].End, setID(i), "")
	}
	f.sides()
	for i := range s.Rests {
		f.rest(i)
		f.timeCues(s.Rests[i].TimeCues, s.Rests[i].End, "", restID(i))
	}
	order := map[string]int{causeSession: 0, causeUnsure: 1, causeCaptions: 2}
	sort.SliceStable(f.found, func(i, j int) bool {
		a, b := f.found[i], f.found[j]
		if x, y := order[a.Cause], order[b.Cause]; x != y {
			return x < y
		}
		if x, y := rank[a.Kind], rank[b.Kind]; x != y {
			return x < y
		}
		return a.At < b.At
	})
	for i := range f.found {
		f.found[i].ID = fmt.Sprintf("f%d", i+1)
	}
	return f.found, f.repairs()
}

// add takes a finding in, as a person has ruled on it.
func (f *finder) add(x Finding, evidence collector) {
	if r := f.settled.ruling(x); r != nil {
		if r.Cause == "" {
			return
		}
		x.Cause, x.Probability, x.Settled = r.Cause, 1, true
	}
	x.Probability = round(x.Probability)
	x.Evidence = evidence.quotes
	if x.Evidence == nil {
		x.Evidence = []Quote{}
	}
	f.found = append(f.found, x)
}

func (f *finder) evidence() collector { return collector{track: f.session.Track} }

// likely is the cause of what was measured with probability p: the session's where it is more likely than not.
func likely(p float64) string {
	if p > 0.5 {
		return causeSession
	}
	return causeUnsure
}

// clearlyOff is the probability from which a remark on the time left is told to be wrong. It is the least that can go wrong in a session, and in captions
// with rough times nearly every such remark would be wrong as likely as not.
const clearlyOff = 0.75

// cueSure is the most that such a remark is believed to be wrong: it may have been said of something else. Of those on the labelled sessions whose times
// leave no doubt, 39 of 42 were wrong.
const cueSure = 0.93

// timeCues tells the remarks on the time left that were wrong by more than the tolerance.
func (f *finder) timeCues(cues []segment.TimeCue, end caption.Spread, set, rest string) {
	for _, c := range cues {
		p := cueOff(c, end, f.opt.TimeCues)
		if p < clearlyOff {
			continue
		}
		e := f.evidence()
		e.words(c.First, c.Last)
		f.add(Finding{
			Kind: "time-cue-off", Cause: causeSession, At: at(c.At.At), Set: set, Rest: rest, Probability: math.Min(p, cueSure),
			Text: fmt.Sprintf("At %s you say that %s; it was %s.", c.At.At, saidOfTime(c), seconds(math.Round(c.Actual))),
		}, e)
	}
}

// cueOff returns the probability that a remark on the time left until end was wrong by more than the tolerance.
func cueOff(c segment.TimeCue, end caption.Spread, tolerance Tolerance) float64 {
	tol := tolerance.Of(c.Said)
	left := believeSpread(end).minus(believeSpread(c.At))
	left.mode = c.Actual
	if c.Actual < c.Said {
		return left.below(c.Said - tol)
	}
	return left.above(c.Said + tol)
}

// saidOfTime tells what was said of the time, and how much of it that leaves.
func saidOfTime(c segment.TimeCue) string {
	switch {
	case c.Half:
		return "half is done, which leaves " + seconds(c.Said)
	case c.Gone > 0:
		return seconds(c.Gone) + " are gone, which leaves " + seconds(c.Said)
	}
	return seconds(c.Said) + " are left"
}

func believeSpread(s caption.Spread) belief {
	return believe(segment.Length{Value: s.At.Seconds(), Low: s.Low.Seconds(), High: s.High.Seconds()})
}
