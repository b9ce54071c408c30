package corpus

import (
	"fmt"
	"slices"

	"captally.example/captally/segment/caption"
)

// Truth is what was really said and done in a session. Times are seconds from the start of the recording.
type Truth struct {
	Name      string      `json:"id"`
	Title     string      `json:"title"`
	Level     string      `json:"level"`     // whom the session is for, as the therapist puts it
	Equipment string      `json:"equipment"` // things separated by "; ", or "none"
	Duration  float64     `json:"duration_s"`
	Phases    []Phase     `json:"phases"` // in order, without overlap
	Sets      []Set       `json:"sets"`   // in order of their starts
	Rests     []Rest      `json:"rests"`
	Miscounts []Miscount  `json:"miscounts"`
	Faults    *FaultLists `json:"caption_faults"` // nil where nobody listed them
}

// Phase is one stretch of the session.
type Phase struct {
	Kind  string  `json:"kind"` // one of Kinds
	Start float64 `json:"start_s"`
	End   float64 `json:"end_s"`
}

// Kinds are the kinds of phase, those of segment.Kind by name.
var Kinds = []string{"talk", "warm-up", "work", "rest", "balance", "cool-down"}

// Dose is an announced dose: repetitions or seconds, 0 for what was not announced.
type Dose struct {
	Reps    int     `json:"reps"`
	Seconds float64 `json:"seconds"`
}

// Done is what was done: repetitions of a counted set, or seconds of a timed one. The other is nil.
type Done struct {
	Reps    *int     `json:"reps"`
	Seconds *float64 `json:"seconds"`
}

// Set is one set.
type Set struct {
	ID         string   `json:"id"`
	Phase      string   `json:"phase"` // "work", "balance", "warm-up", "cool-down"
	Exercise   string   `json:"exercise"`
	Side       string   `json:"side"` // "left", "right", "both", "alternate"
	Start      float64  `json:"start_s"`
	Go         *float64 `json:"go_s"` // where the command that starts a timed set ends; nil for counted sets
	End        float64  `json:"end_s"`
	Prescribed *Dose    `json:"prescribed"` // nil where nothing was announced
	Performed  Done     `json:"performed"`
	LastNumber int      `json:"last_number"` // the last number said; 0 for timed sets
	Pace       float64  `json:"pace_s"`      // mean seconds a repetition; 0 for timed sets
	Step       int      `json:"step"`        // what the count goes by, negative for down; 0 for timed sets
}

// begin returns where the work of the set begins: after the command to start, if there is one.
func (s Set) begin() float64 {
	if s.Go != nil {
		return *s.Go
	}
	return s.Start
}

// Rest is one rest between sets.
type Rest struct {
	Start      float64  `json:"start_s"`
	End        float64  `json:"end_s"`
	Prescribed *float64 `json:"prescribed_s"` // nil where nothing was announced
	Actual     float64  `json:"actual_s"`
}

// announced returns the announced length in seconds, 0 for none.
func (r Rest) announced() float64 {
	if r.Prescribed != nil {
		return *r.Prescribed
	}
	return 0
}

// Miscount is a slip in counting that was really made, or a count that ended elsewhere than announced.
type Miscount struct {
	At           float64 `json:"at_s"`
	Kind         string  `json:"kind"` // "skipped", "repeated", "jumped-back", "short", "over"
	Set          string  `json:"set"`
	Said         int     `json:"said"`     // 0 for "short" and "over"
	Expected     int     `json:"expected"` // likewise
	AfterSilence bool    `json:"after_silence"`
	Performed    int     `json:"performed"`  // 0 unless "short" or "over"
	Prescribed   int     `json:"prescribed"` // likewise
}

// Fault is a number that the captioner got wrong.
type Fault struct {
	At      float64 `json:"at_s"`
	Kind    string  `json:"kind"` // "doubled", "dropped", "misheard", "joined"
	Number  int     `json:"number"`
	Numbers []int   `json:"numbers"`
	As      string  `json:"as"` // what was written for it
}

// FaultLists are the captioner's faults in each file of a session.
type FaultLists struct {
	Word  []Fault `json:"word"`
	Cue   []Fault `json:"cue"`
	Block []Fault `json:"block"`
}

// of returns the faults in the file of a timing. A nil receiver has none.
func (f *FaultLists) of(timing caption.Timing) []Fault {
	if f == nil {
		return nil
	}
	switch timing {
	case caption.TimingWord:
		return f.Word
	case caption.TimingCue:
		return f.Cue
	}
	return f.Block
}

// check reports the first place where the labels contradict themselves.
func (t *Truth) check(name string) error {
	bad := func(format string, args ...any) error {
		return fmt.Errorf("%s: "+format, append([]any{name}, args...)...)
	}
	if t.Name == "" || t.Duration <= 0 || len(t.Phases) == 0 {
		return bad("a session needs an id, a duration_s above 0 and phases")
	}
	last := 0.0
	for i, p := range t.Phases {
		if !slices.Contains(Kinds, p.Kind) {
			return bad("phase %d: kind %q, expected one of %q", i+1, p.Kind, Kinds)
		}
		if p.Start < last || p.End < p.Start {
			return bad("phase %d: %g to %g s does not follow %g s", i+1, p.Start, p.End, last)
		}
		last = p.End
	}
	ids := map[string]bool{}
	for _, s := range t.Sets {
		if s.ID == "" || ids[s.ID] {
			return bad("set %q: each set needs an id of its own", s.ID)
		}
		ids[s.ID] = true
		if s.begin() < s.Start || s.End <= s.begin() {
			return bad("set %s: %g to %g s, its end must lie after its start", s.ID, s.Start, s.End)
		}
		if (s.Performed.Reps == nil) == (s.Performed.Seconds == nil) {
			return bad("set %s: performed needs reps or seconds, and only one of them", s.ID)
		}
	}
	for i, r := range t.Rests {
		if r.End < r.Start {
			return bad("rest %d: ends at %g s before it starts at %g s", i+1, r.End, r.Start)
		}
	}
	for i, m := range t.Miscounts {
		if m.Set != "" && !ids[m.Set] {
			return bad("miscount %d: there is no set %q", i+1, m.Set)
		}
	}
	return nil
}
