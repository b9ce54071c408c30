package review

import (
	"fmt"
	"slices"
	"strings"

	"captally.example/captally/analyze"
	"captally.example/captally/cmd/captally/figures"
	"captally.example/captally/notes"
)

// A state is all that the page shows of one session. The words that were said do not change and come apart.
type state struct {
	ID            string         `json:"id"`
	Title         string         `json:"title"`
	Facts         string         `json:"facts"`   // how long it is, and how well its times are known
	Verdict       string         `json:"verdict"` // in one sentence
	Kept          string         `json:"kept"`    // where decisions are kept
	Told          string         `json:"told"`    // what the last decision did
	Undo          bool           `json:"undo"`    // whether there is something to undo
	Duration      float64        `json:"duration_s"`
	WarningsTitle string         `json:"warnings_title"`
	Warnings      []string       `json:"warnings"`
	Unfit         []string       `json:"unfit"` // decisions that fit the captions no more
	StripText     string         `json:"strip_text"`
	Ticks         []tick         `json:"ticks"`
	Phases        []stretch      `json:"phases"`
	Sets          []setRow       `json:"sets"`
	Rests         []restRow      `json:"rests"`
	Totals        []total        `json:"totals"`
	Progress      string         `json:"progress"`
	Findings      []findingRow   `json:"findings"`
	Changes       []string       `json:"changes"` // all decisions in words, the last first
	Marks         []mark         `json:"marks"`
	Forms         []form         `json:"forms"`
	Downloads     []downloadable `json:"downloads"`
}

// A findingRow is one finding as the list shows it.
type findingRow struct {
	Key         string     `json:"key"` // names it in a decision
	At          float64    `json:"at_s"`
	Play        float64    `json:"play_s"` // where to start hearing it
	Clock       string     `json:"clock"`
	Text        string     `json:"text"`
	Cause       string     `json:"cause"`
	CauseText   string     `json:"cause_text"`
	Chance      string     `json:"chance"`
	Settled     string     `json:"settled,omitempty"` // what was decided, "" while it is open
	Actions     []string   `json:"actions"`           // what can be decided: "p", "said", "captions", "not-so", "r"
	NumberLabel string     `json:"number_label,omitempty"`
	Number      string     `json:"number,omitempty"`
	Evidence    []evidence `json:"evidence"`
}

type evidence struct {
	Clock string `json:"clock"`
	Text  string `json:"text"`
}

var causeTexts = map[string]string{"session": "in the session", "captions": "in the captions only", "unsure": "cannot be told whose"}

// state computes what the page shows from the captions and the decisions on the disk.
func (s *sitting) state(told string) (*state, error) {
	now, err := s.settled()
	if err != nil {
		return nil, err
	}
	r := now.report
	warnings := append(present(s.aside), r.Source.Warnings...)
	_, undo := now.decisions.Last()
	out := &state{
		ID: s.id, Title: s.title(r), Facts: facts(r), Verdict: verdict(r), Kept: s.kept(), Told: told, Undo: undo, Duration: r.Source.Duration,
		Warnings: warnings, WarningsTitle: figures.Count(len(warnings), "remark") + " on the file", Unfit: now.unfit(),
		Ticks: ticks(r.Source.Duration), Phases: stretches(r), Sets: setRows(r), Rests: restRows(r), Totals: totals(r),
		Findings: now.findings(), Changes: now.changes(), Marks: marksOf(now.session), Downloads: downloads(s.track),
	}
	out.StripText = stripText(r)
	out.Progress = progress(out.Findings)
	out.Forms = now.forms(drafts(notes.Draft(r, s.profile)))
	return out, nil
}

// kept says where decisions are kept.
func (s *sitting) kept() string { return "What you settle is kept at once in " + s.decisions + "." }

func (s *sitting) title(r *analyze.Report) string {
	if r.Session.Title != nil && r.Session.Title.Text != "" {
		return r.Session.Title.Text
	}
	return stemOf(s.track.Name)
}

// facts is what was read, for a person.
func facts(r *analyze.Report) string {
	clocks := map[string]string{"word": "a time on every word", "cue": "a time on every caption", "block": "a time every half minute or so"}
	return strings.Join(present(bareName(r.Source.Name), figures.Clock(r.Source.Duration)+" long", figures.Count(r.Source.Words, "word"), clocks[r.Source.Timing]), ", ")
}

func verdict(r *analyze.Report) string {
	if len(r.Sets)+len(r.Rests)+len(r.Findings) == 0 {
		return "No count and no exercise phrase was found in these captions. Are they the captions of an exercise session?"
	}
	v := analyze.Verdict(r)
	return strings.ToUpper(v[:1]) + v[1:] + "."
}

// stripText says in words what the strip shows.
func stripText(r *analyze.Report) string {
	counts := map[string]int{}
	for _, f := range r.Findings {
		counts[f.Cause]++
	}
	return fmt.Sprintf("The session from 0:00 to %s to scale: %s, %s, %s marked. The tables of sets and rests say the same in words.",
		figures.Clock(r.Source.Duration), figures.Count(len(r.Sets), "set"), figures.Count(len(r.Rests), "rest"), figures.Count(len(r.Findings), "finding"))
}

func progress(findings []findingRow) string {
	if len(findings) == 0 {
		return "Nothing looks odd."
	}
	left := len(slices.DeleteFunc(slices.Clone(findings), func(f findingRow) bool { return f.Settled != "" }))
	if left == 0 {
		return "All settled."
	}
	return fmt.Sprintf("%d of %d to settle, what matters most first.", left, len(findings))
}
