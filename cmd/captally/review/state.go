package review

import (
	"fmt"
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
	Verdict       string         `json:"verdict"` // in two sentences
	Kept          string         `json:"kept"`    // the file that keeps the decisions
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
	Left          int            `json:"left"` // findings that are open
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
	Where       string     `json:"where"` // "Set 4"
	Text        string     `json:"text"`
	Cause       string     `json:"cause"`
	Sure        string     `json:"sure"`              // whose it is, and how sure that is
	Advice      string     `json:"advice"`            // what to do
	Follow      []string   `json:"follow"`            // what follows from it
	Settled     string     `json:"settled,omitempty"` // what was decided, "" while it is open
	Actions     []action   `json:"actions"`
	Set         string     `json:"set,omitempty"` // the key of its set
	NumberLabel string     `json:"number_label,omitempty"`
	Number      string     `json:"number,omitempty"`
	Evidence    []evidence `json:"evidence"`
}

// An action is what can be done about a finding: "p" play, "r" correct the number, "e" change the set, or a verdict.
type action struct {
	Do    string `json:"do"`
	Label string `json:"label"`
}

// A flag is a finding in the row of a table, and others of its cause.
type flag struct {
	Key     string `json:"key"`
	Cause   string `json:"cause"`
	Settled bool   `json:"settled"`
	Text    string `json:"text"`
	More    int    `json:"more"`
}

type evidence struct {
	Clock string `json:"clock"`
	Text  string `json:"text"`
}

// state computes what the page shows from the captions and the decisions on the disk.
func (s *sitting) state(told string) (*state, error) {
	now, err := s.settled()
	if err != nil {
		return nil, err
	}
	r := now.report
	warnings := append(append([]string{}, s.remarks...), r.Source.Warnings...) // a list even where there is none
	_, undo := now.decisions.Last()
	all := now.judged()
	flags := now.flags(all)
	out := &state{
		ID: s.id, Title: s.title(r), Facts: facts(r), Kept: s.decisions, Told: told, Undo: undo, Duration: r.Source.Duration,
		Warnings: warnings, WarningsTitle: figures.Count(len(warnings), "remark") + " on the file", Unfit: now.unfit(),
		Ticks: ticks(r.Source.Duration), Phases: stretches(r), Sets: setRows(r, flags), Rests: restRows(r, flags), Totals: totals(r),
		Findings: now.findings(all), Changes: now.changes(), Marks: marksOf(now.session), Downloads: downloads(s.track),
	}
	out.StripText = stripText(r, len(all))
	out.Left, out.Progress = progress(out.Findings)
	out.Verdict = verdict(r, all)
	out.Forms = now.forms(drafts(notes.Draft(r, s.profile)))
	return out, nil
}

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

// verdict says in two sentences how the sets went and what is left to settle.
func verdict(r *analyze.Report, all []judged) string {
	if len(r.Sets)+len(r.Rests)+len(r.Findings) == 0 {
		return "No count and no exercise phrase was found in these captions. Are they the captions of an exercise session?"
	}
	sets, _, _ := strings.Cut(analyze.Verdict(r), ";") // the rest of it counts findings that follow from another, too
	return capital(sets) + ". " + toSettle(all)
}

// toSettle tells how many findings are open, by their cause.
func toSettle(all []judged) string {
	open := map[string]int{}
	n := 0
	for _, f := range all {
		if f.verdict == "" {
			open[f.Cause]++
			n++
		}
	}
	switch {
	case len(all) == 0:
		return "Nothing looks odd."
	case n == 0:
		return "All that looked odd is settled."
	}
	var parts []string
	look := n - open["captions"]
	switch {
	case look > 0 && open["unsure"] == 0:
		parts = append(parts, figures.Count(look, "place")+" to look at.")
	case look > 0:
		parts = append(parts, fmt.Sprintf("%s to look at, %d of them for you to tell.", figures.Count(look, "place"), open["unsure"]))
	}
	if c := open["captions"]; c > 0 {
		parts = append(parts, figures.Count(c, "mistake")+" of the captions only.")
	}
	return strings.Join(parts, " ")
}

// stripText says in words what the strip shows.
func stripText(r *analyze.Report, findings int) string {
	return fmt.Sprintf("The session from 0:00 to %s to scale: %s, %s, %s marked. The tables of sets and rests say the same in words.",
		figures.Clock(r.Source.Duration), figures.Count(len(r.Sets), "set"), figures.Count(len(r.Rests), "rest"), figures.Count(findings, "finding"))
}

// progress counts the findings that are open, and says so.
func progress(findings []findingRow) (left int, text string) {
	faults := 0
	for _, f := range findings {
		if f.Settled == "" {
			left++
			if f.Cause == "captions" {
				faults++
			}
		}
	}
	switch {
	case len(findings) == 0:
		return 0, "Nothing looks odd. The notes are ready for you to read."
	case left == 0:
		return 0, "All settled. The notes are ready for you to read."
	case left == faults:
		return left, "Only mistakes of the captions are left. What you leave open stays as it is shown."
	}
	return left, figures.Count(left-faults, "place") + " to look at, what matters most first. What you leave open stays as it is shown."
}
