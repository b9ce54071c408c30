package review

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"captally.example/captally/analyze"
	"captally.example/captally/analyze/settle"
	"captally.example/captally/cmd/captally/figures"
	"captally.example/captally/cmd/captally/keep"
)

// A wish is what the page asks for, with times and numbers as they were typed. One of its parts is given.
type wish struct {
	Finding string            `json:"finding"` // the key of a finding, with Verdict or Number
	Verdict string            `json:"verdict"`
	Agree   []string          `json:"agree"` // the keys of findings that are the captioner's mistakes
	Number  string            `json:"number"`
	Set     string            `json:"set"` // the key of a set, with Change, Join, Split or Remove
	Phase   string            `json:"phase"`
	Change  map[string]string `json:"change"`
	Join    bool              `json:"join"`
	Split   string            `json:"split"`
	Remove  bool              `json:"remove"`
	Add     map[string]string `json:"add"`
	Notes   *notesWish        `json:"notes"`
}

// A notesWish is a form of the notes as edited by hand, and the draft that it was edited from. An empty Text takes the edit back.
type notesWish struct {
	Form string `json:"form"`
	Base string `json:"base"`
	Text string `json:"text"`
}

// errMoved is told where a page shows what is no longer so.
var errMoved = errors.New("this has changed meanwhile, perhaps in another window; look again")

// decide keeps what the page asks for, and returns it in words.
func (s *sitting) decide(w wish) (string, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	now, err := s.settled()
	if err != nil {
		return "", err
	}
	made, err := now.decisionsFor(w)
	if err != nil {
		return "", err
	}
	fits := func(d *settle.Decisions) error { return s.fits(d, len(made)) }
	if err := s.append(fits, made); err != nil {
		return "", err
	}
	return "Kept: " + describe(made), nil
}

// fits says why one of the last n decisions does not fit the session, with those before it.
func (s *sitting) fits(d *settle.Decisions, n int) error {
	first := d.Made[len(d.Made)-n].ID
	for _, u := range s.with(d).applied.Unfit {
		if u.Decision.ID >= first {
			return fmt.Errorf("nothing was kept: %s", u.Why)
		}
	}
	return nil
}

// fewToTell is how many decisions are told one by one.
const fewToTell = 4

// describe tells decisions for a person.
func describe(made []settle.Decision) string {
	if n := len(made); n > fewToTell {
		return figures.Count(n, "decision") + " made at one go"
	}
	var told []string
	for _, d := range made {
		told = append(told, d.Describe())
	}
	return strings.Join(told, "; ")
}

// undo takes back what was decided last.
func (s *sitting) undo() (string, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	made, err := s.load()
	if err != nil {
		return "", err
	}
	last, some := made.Last()
	if !some {
		return "", errors.New("there is nothing to undo")
	}
	undone, err := keep.Undo(s.decisions, last.ID)
	if err != nil {
		return "", s.unwritten(err)
	}
	return "Taken back: " + describe(undone), nil
}

// decisionsFor turns a wish into decisions, in the order in which they have to be made.
func (n *settledSession) decisionsFor(w wish) ([]settle.Decision, error) {
	switch {
	case w.Finding != "":
		return n.onFinding(w)
	case len(w.Agree) > 0:
		return n.agree(w.Agree)
	case w.Set != "":
		return n.onSet(w)
	case w.Phase != "":
		return n.onPhase(w)
	case w.Add != nil:
		return addition(w.Add)
	case w.Notes != nil:
		return []settle.Decision{{Kind: settle.NoteText, Form: w.Notes.Form, Base: w.Notes.Base, Text: w.Notes.Text}}, nil
	}
	return nil, errors.New("nothing was decided")
}

func (n *settledSession) onFinding(w wish) ([]settle.Decision, error) {
	for _, f := range n.report.Findings {
		if keyOf(n.report, f) != w.Finding {
			continue
		}
		if w.Verdict != "" {
			return []settle.Decision{{Kind: settle.Kind(w.Verdict), Finding: settle.FindingOf(n.report, f)}}, nil
		}
		set := setOf(n.report, f)
		if set == nil {
			return nil, errors.New("this finding is about no set")
		}
		d, err := performed(unitOf(*set), w.Number)
		d.Set = settle.SetOf(*set)
		return []settle.Decision{d}, err
	}
	return nil, errMoved
}

// agree are the decisions that findings are the captioner's mistakes.
func (n *settledSession) agree(keys []string) ([]settle.Decision, error) {
	var out []settle.Decision
	for _, f := range n.report.Findings {
		if f.Cause == "captions" && slices.Contains(keys, keyOf(n.report, f)) {
			out = append(out, settle.Decision{Kind: settle.Captions, Finding: settle.FindingOf(n.report, f)})
		}
	}
	if len(out) != len(keys) {
		return nil, errMoved
	}
	return out, nil
}

// unitOf says in what a set was done, "reps" or "seconds".
func unitOf(s analyze.Set) string {
	if s.Performed.Reps == nil && s.Performed.Seconds != nil {
		return "seconds"
	}
	return "reps"
}

// performed is the decision on what was really done in a set.
func performed(unit, number string) (settle.Decision, error) {
	d := settle.Decision{Kind: settle.Number}
	var err error
	if unit == "seconds" {
		d.Seconds, err = positive(number)
	} else {
		d.Reps, err = whole(number)
	}
	return d, err
}

// setKey names a set for the page.
func setKey(s analyze.Set) string { return fmt.Sprintf("%.3f-%.3f", s.Start, s.End) }

func (n *settledSession) onSet(w wish) ([]settle.Decision, error) {
	for _, s := range n.report.Sets {
		if setKey(s) != w.Set {
			continue
		}
		ref := settle.SetOf(s)
		switch {
		case w.Join:
			return []settle.Decision{{Kind: settle.Merge, Set: ref}}, nil
		case w.Remove:
			return []settle.Decision{{Kind: settle.Remove, Set: ref}}, nil
		case w.Split != "":
			at, err := moment(w.Split)
			if err == nil && !(at > s.Start && at < s.End) {
				err = fmt.Errorf("%s is not within the set, which lasts from %s to %s", w.Split, tenths(s.Start), tenths(s.End))
			}
			return []settle.Decision{{Kind: settle.Split, Set: ref, At: at}}, err
		}
		return changes(s, *ref, w.Change)
	}
	return nil, errMoved
}

// changes are the decisions on one set. Each names the set as it is after those before it.
func changes(s analyze.Set, ref settle.SetRef, to map[string]string) ([]settle.Decision, error) {
	var out []settle.Decision
	var wrong error
	keep := func(d settle.Decision, err error) {
		now := ref
		d.Set = &now
		out, wrong = append(out, d), errors.Join(wrong, err)
	}
	if side, given := to["side"]; given {
		keep(settle.Decision{Kind: settle.Side, Side: side}, nil)
	}
	if _, given := to["dose"]; given {
		d, err := announcedDose(to["dose"], to["unit"])
		d.Kind = settle.Dose
		keep(d, err)
	}
	if name, given := to["exercise"]; given {
		keep(settle.Decision{Kind: settle.Name, Name: name, Everywhere: to["everywhere"] == "all"}, nil)
		ref.Exercise = name
	}
	for _, e := range edges(to) {
		at, err := moment(e.text)
		keep(settle.Decision{Kind: settle.Edge, Edge: e.edge, At: at}, err)
		if e.edge == "start" {
			ref.Start = at
		} else {
			ref.End = at
		}
	}
	// The number comes last: a time really done moves the end of the set.
	if number, given := to["done"]; given {
		unit := to["done_unit"]
		if unit == "" {
			unit = unitOf(s)
		}
		keep(performed(unit, number))
	}
	if len(out) == 0 && wrong == nil {
		wrong = errors.New("nothing was changed")
	}
	return out, wrong
}

type typedEdge struct{ edge, text string }

func edges(to map[string]string) []typedEdge {
	var out []typedEdge
	for _, edge := range []string{"start", "end"} {
		if text, given := to[edge]; given {
			out = append(out, typedEdge{edge, text})
		}
	}
	return out
}

// phaseKey names a phase for the page.
func phaseKey(p analyze.Phase) string { return fmt.Sprintf("%s-%.3f-%.3f", p.Kind, p.Start, p.End) }

func (n *settledSession) onPhase(w wish) ([]settle.Decision, error) {
	for _, p := range n.report.Phases {
		if phaseKey(p) != w.Phase {
			continue
		}
		var out []settle.Decision
		ref := *settle.PhaseOf(p)
		for _, e := range edges(w.Change) {
			at, err := moment(e.text)
			if err != nil {
				return nil, err
			}
			now := ref
			out = append(out, settle.Decision{Kind: settle.Edge, Phase: &now, Edge: e.edge, At: at})
			if e.edge == "start" {
				ref.Start = at
			} else {
				ref.End = at
			}
		}
		return out, nil
	}
	return nil, errMoved
}

// addition is a set that was missed and, where one was typed, its announced dose.
func addition(typed map[string]string) ([]settle.Decision, error) {
	d, err := performed(typed["done_unit"], typed["done"])
	d.Kind, d.Name, d.Side, d.In = settle.Add, typed["exercise"], typed["side"], typed["phase"]
	var startErr, endErr error
	d.Start, startErr = moment(typed["start"])
	d.End, endErr = moment(typed["end"])
	out := []settle.Decision{d}
	if typed["dose"] != "" {
		dose, doseErr := announcedDose(typed["dose"], typed["unit"])
		dose.Kind, dose.Set = settle.Dose, &settle.SetRef{Start: d.Start, End: d.End, Exercise: d.Name}
		out, err = append(out, dose), errors.Join(err, doseErr)
	}
	return out, errors.Join(err, startErr, endErr)
}

func announcedDose(figure, unit string) (settle.Decision, error) {
	var d settle.Decision
	var err error
	switch unit {
	case "reps":
		d.Reps, err = whole(figure)
	case "seconds":
		d.Seconds, err = positive(figure)
	default:
		if figure != "" {
			err = errors.New("say whether the dose is in repetitions or in seconds")
		}
	}
	return d, err
}

// whole reads a number of repetitions.
func whole(text string) (int, error) {
	n, err := strconv.Atoi(strings.TrimSpace(text))
	if err != nil || n < 1 || n > 999 {
		return 0, fmt.Errorf("%q is not a number of repetitions from 1 to 999", text)
	}
	return n, nil
}

// positive reads a number of seconds.
func positive(text string) (float64, error) {
	s, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(text), ",", ".", 1), 64)
	if err != nil || !(s > 0 && s <= 3600) {
		return 0, fmt.Errorf("%q is not a number of seconds from 1 to 3600", text)
	}
	return s, nil
}

// moment reads a time as a player shows it, "12:40", "1:02:03" or "12:40.5".
func moment(text string) (float64, error) {
	wrong := fmt.Errorf("%q is not a moment such as 12:40 or 12:40.5", text)
	parts := strings.Split(strings.TrimSpace(text), ":")
	if len(parts) < 2 || len(parts) > 3 {
		return 0, wrong
	}
	at := 0.0
	for i, p := range parts {
		x, err := strconv.ParseFloat(p, 64)
		last := i == len(parts)-1
		if err != nil || p[0] == '-' || p[0] == '+' || math.IsNaN(x) || x > 9999 || i > 0 && x >= 60 || !last && x != math.Trunc(x) {
			return 0, wrong
		}
		at = float64(at*60) + x
	}
	return at, nil
}

// tenths writes a moment with one decimal, as moment reads it.
func tenths(s float64) string {
	ms := math.Round(s * 10)
	return fmt.Sprintf("%s.%d", figures.Clock(ms/10+0.001), int64(ms)%10)
}
