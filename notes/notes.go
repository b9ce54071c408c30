// Package notes drafts what stands beside a session's video: a description, chapters, corrections and a hand-out.
//
//  1. [Draft] turns a report and a profile into [Notes]. It measures nothing itself.
//  2. [Text], [Markdown], [Chapters], [Overlay] and [Handout] print the notes in one form each; [Checklist] says which items of
//     two published reporting checklists the captions can fill.
//
// Every line of a draft knows where it comes from: it was said in the captions, measured from them, is the therapist's own
// standing text, or is a blank that only the therapist can fill. What is not known stays a blank.
package notes

// The sources of a line.
const (
	Said     = "said"     // in the captions, at the line's time
	Measured = "measured" // computed from the captions
	Standing = "standing" // from the profile, or the project's own standing warning signs
	Blank    = "blank"    // a gap in square brackets for the therapist to fill
)

// Notes is the draft of one session, and the public data format "notes", version 1. Times are seconds from the start of the
// recording.
type Notes struct {
	Version     int          `json:"notes"`
	Title       *Quote       `json:"title,omitempty"`
	Level       *Quote       `json:"level,omitempty"`
	Equipment   []Quote      `json:"equipment"`
	Effort      []Quote      `json:"effort"`
	Cautions    []Caution    `json:"cautions"`
	After       []Quote      `json:"after"` // how often to do it, and what to do the next day
	Exercises   []Exercise   `json:"exercises"`
	Chapters    []Chapter    `json:"chapters"`
	Corrections []Correction `json:"corrections"`
	Lines       []Line       `json:"lines"`
	Text        string       `json:"text"`

	duration float64 // of the recording, the end of the last chapter
	american bool    // whether its own words are American rather than British
}

// A Quote is something said, in the captions' own words, and when.
type Quote struct {
	Text string  `json:"text"`
	At   float64 `json:"at_s"`
}

// A Caution is a warning: one that was said, or a standing one.
type Caution struct {
	Text      string   `json:"text"`
	At        *float64 `json:"at_s,omitempty"` // where it was said
	Source    string   `json:"source"`         // Said or Standing
	Reference string   `json:"reference,omitempty"`
}

// An Exercise is all sets of one exercise in one kind of phase.
type Exercise struct {
	Name    string  `json:"name"`  // as said; empty where none was found
	Phase   string  `json:"phase"` // "work", "balance", "warm-up", "cool-down"
	Start   float64 `json:"start_s"`
	Side    string  `json:"side,omitempty"` // "left" or "right" where only that side was worked, "each" for one side after the other, "alternate"; empty for both at once
	Sets    []Dose  `json:"sets"`           // as announced, the left and the right of one set once
	Rest    float64 `json:"rest_s,omitempty"`
	Options []Quote `json:"options"`

	at      float64   // when its first dose was said, or its start
	between bool      // whether Rest is between its own sets
	done    []int     // repetitions really done, a counted set each
	unclear bool      // whether the dose of a set may belong to another
	lasted  []float64 // seconds really done, a timed set each
	differs []string  // what was surely done otherwise than announced, a set each
}

// A Dose is an announced dose; both are 0 where nothing was said.
type Dose struct {
	Reps    int     `json:"reps,omitempty"`
	Seconds float64 `json:"seconds,omitempty"`
}

// A Chapter is one stretch of the video.
type Chapter struct {
	Start float64 `json:"start_s"` // whole seconds
	Title string  `json:"title"`
}

// A Correction is what a viewer should know about a slip in the video.
type Correction struct {
	At      float64 `json:"at_s"`
	Text    string  `json:"text"`
	Finding string  `json:"finding"` // its ID in the report

	clause string // the text without its time
}

// The forms of a line.
const (
	Heading = "heading" // begins a part
	Item    = "item"    // one of a list
	Timed   = "timed"   // one of a list, whose text begins with its time
	Detail  = "detail"  // belongs to the item before it
	Plain   = "plain"   // stands alone
)

// A Line is one line of the description.
type Line struct {
	Part   string   `json:"part"`   // "title", "who", "need", "effort", "time", "exercises", "after", "chapters", "corrections", "cautions", "clinic", "left out"
	Form   string   `json:"form"`   // Heading, Item, Timed, Detail or Plain
	Text   string   `json:"text"`   // without the marks that a form of output puts before or after it
	Source string   `json:"source"` // Said, Measured, Standing or Blank
	At     *float64 `json:"at_s,omitempty"`
}
