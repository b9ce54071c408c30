// Package analyze turns a segmented session into measures and findings: the report.
package analyze

// Report is the public data format of one session, version 1. Times are seconds from the start of the recording.
// What is unknown is left out, never guessed or zero.
type Report struct {
	Version  int       `json:"report"`
	Source   Source    `json:"source"`
	Session  About     `json:"session"`
	Phases   []Phase   `json:"phases"`
	Sets     []Set     `json:"sets"`
	Rests    []Rest    `json:"rests"`
	Findings []Finding `json:"findings"`
	Repairs  []Repair  `json:"repairs,omitempty"` // the captioner's mistakes that can be put right, in the order of the words
	Totals   Totals    `json:"totals"`
}

// Source says what was read.
type Source struct {
	Name     string   `json:"name"`
	Format   string   `json:"format"`
	Timing   string   `json:"timing"` // "word", "cue", "block"
	Duration float64  `json:"duration_s"`
	Words    int      `json:"words"`
	Language string   `json:"language,omitempty"`
	Warnings []string `json:"warnings"`      // each with file and line where it has one
	Raw      bool     `json:"raw,omitempty"` // the words have neither stops nor figures, as a recogniser leaves them: many may be misheard

	Decisions int `json:"decisions,omitempty"` // of a person, that are in the figures
}

// Quote is something said, in the captions' words, and when.
type Quote struct {
	Text string  `json:"text"`
	At   float64 `json:"at_s"`
}

// About is what the captions say of the session as a whole.
type About struct {
	Title     *Quote  `json:"title,omitempty"`
	Level     *Quote  `json:"level,omitempty"`
	Equipment []Quote `json:"equipment"`
	Cautions  []Quote `json:"cautions"`
	Effort    []Quote `json:"effort"`
	Options   []Quote `json:"options"`         // easier and harder ways, as said
	After     []Quote `json:"after,omitempty"` // how often to do it, and what to do the next day
}

// Phase is one stretch of the session; phases follow each other without gaps or overlaps.
type Phase struct {
	Kind       string  `json:"kind"`
	Start      float64 `json:"start_s"`
	End        float64 `json:"end_s"`
	Confidence float64 `json:"confidence"`
	Label      string  `json:"label,omitempty"`
}

// Range is a figure with limits that are meant to hold the truth 9 times in 10.
type Range struct {
	Value float64 `json:"value"`
	Low   float64 `json:"low"`
	High  float64 `json:"high"`
}

// Dose is an announced dose: repetitions or seconds.
type Dose struct {
	Reps    int     `json:"reps,omitempty"`
	Seconds float64 `json:"seconds,omitempty"`
}

// Performed is what was really done.
type Performed struct {
	Reps     *int     `json:"reps,omitempty"`
	RepsLow  *int     `json:"reps_low,omitempty"`
	RepsHigh *int     `json:"reps_high,omitempty"`
	Seconds  *float64 `json:"seconds,omitempty"`
}

// Count is one entry of a set's count.
type Count struct {
	Number int     `json:"number,omitempty"`
	At     float64 `json:"at_s"`
	Rep    int     `json:"rep,omitempty"`
	Origin string  `json:"origin"`
}

// Set is one set.
type Set struct {
	ID           string    `json:"id"`
	Phase        string    `json:"phase"`
	Exercise     string    `json:"exercise"`
	Region       string    `json:"region,omitempty"`
	Side         string    `json:"side,omitempty"`
	Start        float64   `json:"start_s"`
	End          float64   `json:"end_s"`
	Prescribed   *Dose     `json:"prescribed,omitempty"`
	PrescribedAt *float64  `json:"prescribed_at_s,omitempty"`
	Performed    Performed `json:"performed"`
	LastNumber   int       `json:"last_number,omitempty"`
	Tension      Range     `json:"under_tension_s"`
	Pace         float64   `json:"pace_s,omitempty"`
	Count        []Count   `json:"count"`
}

// Rest is one rest between sets.
type Rest struct {
	ID         string   `json:"id"`
	Start      float64  `json:"start_s"`
	End        float64  `json:"end_s"`
	Prescribed *float64 `json:"prescribed_s,omitempty"`
	Length     Range    `json:"length_s"`
	Verdict    string   `json:"verdict"` // "kept", "over", "short", "unstated"
}

// Finding is one thing that a person should look at.
type Finding struct {
	ID          string   `json:"id"`
	Kind        string   `json:"kind"`
	Cause       string   `json:"cause"` // "session", "captions", "unsure"
	At          float64  `json:"at_s"`
	Set         string   `json:"set,omitempty"`
	Also        []string `json:"also,omitempty"` // other sets of which the same is true
	Rest        string   `json:"rest,omitempty"`
	Probability float64  `json:"probability"`
	Text        string   `json:"text"`
	Evidence    []Quote  `json:"evidence"`
	Settled     bool     `json:"settled,omitempty"` // a person has decided that it is so

	Slip    int     `json:"-"` // which of its set's slips it tells, from 1; 0 for none
	unclear []int   // the sets of an unclear dose that others may join, as indices; nil for none
	repair  *Repair // of the captions, nil for none
}

// Totals sums the session up; seconds where not said otherwise.
type Totals struct {
	Sets     int     `json:"sets"`
	Reps     int     `json:"reps"`
	Tension  Range   `json:"under_tension_s"`
	Work     float64 `json:"work_s"`
	Rest     float64 `json:"rest_s"`
	Balance  float64 `json:"balance_s"`
	WarmUp   float64 `json:"warm_up_s"`
	CoolDown float64 `json:"cool_down_s"`
	Talk     float64 `json:"talk_s"`
}
