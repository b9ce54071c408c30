package author

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
)

// A Truth is what was really said and done. Times are seconds from the start
// of the recording.
type Truth struct {
	ID        string      `json:"id"`
	Title     string      `json:"title"`
	Level     string      `json:"level"`
	Equipment string      `json:"equipment"`
	Duration  Seconds     `json:"duration_s"`
	Phases    []Phase     `json:"phases"` // in order, without gaps
	Sets      []Set       `json:"sets"`
	Rests     []Rest      `json:"rests"`
	Miscounts []Miscount  `json:"miscounts"`
	Faults    *FaultLists `json:"caption_faults,omitempty"`
}

// Seconds is a time or a length, written with a decimal point always.
type Seconds float64

// MarshalJSON writes at most three decimals and at least one.
func (s Seconds) MarshalJSON() ([]byte, error) {
	b := strconv.FormatFloat(float64(s), 'f', 3, 64)
	b = strings.TrimRight(b, "0")
	if strings.HasSuffix(b, ".") {
		b += "0"
	}
	return []byte(b), nil
}

// A Phase is a stretch of one kind: talk, warm-up, work, rest, balance, cool-down.
type Phase struct {
	Kind  string  `json:"kind"`
	Start Seconds `json:"start_s"`
	End   Seconds `json:"end_s"`
}

// A Set is one exercise on one side. A counted one runs from one repetition
// before the first to the last repetition; a timed one from its announcement
// to the stop, with Go the end of the word that started it.
type Set struct {
	Phase      string   `json:"phase"`
	Exercise   string   `json:"exercise"`
	Side       string   `json:"side"`
	Prescribed *Dose    `json:"prescribed"` // nil when nothing was announced
	Start      Seconds  `json:"start_s"`
	Go         *Seconds `json:"go_s,omitempty"`
	End        Seconds  `json:"end_s"`
	Performed  Dose     `json:"performed"`
	*Count
	ID string `json:"id"`
}

// A Count is what only counted sets have.
type Count struct {
	LastNumber *int    `json:"last_number"` // the last number said, nil if none was
	Pace       Seconds `json:"pace_s"`      // mean time of a repetition
	Step       int     `json:"step"`
}

// A Dose is a number of repetitions or of seconds.
type Dose struct {
	Reps    int
	Seconds json.Marshaler // nil for repetitions
}

// MarshalJSON writes {"reps": n} or {"seconds": s}.
func (d Dose) MarshalJSON() ([]byte, error) {
	if d.Seconds == nil {
		return fmt.Appendf(nil, `{"reps": %d}`, d.Reps), nil
	}
	s, err := d.Seconds.MarshalJSON()
	return fmt.Appendf(nil, `{"seconds": %s}`, s), err
}

// Whole is a number of seconds as announced.
type Whole int

// MarshalJSON writes the number.
func (w Whole) MarshalJSON() ([]byte, error) { return strconv.AppendInt(nil, int64(w), 10), nil }

// A Rest runs from the last repetition to the next phase.
type Rest struct {
	Start      Seconds `json:"start_s"`
	End        Seconds `json:"end_s"`
	Prescribed *int    `json:"prescribed_s"` // nil when nothing was announced
	Actual     Seconds `json:"actual_s"`
}

// A Miscount is a slip of the therapist: a number said out of turn (skipped,
// repeated, jumped-back), or a set that ended short of or over its dose.
type Miscount struct {
	At   Seconds `json:"at_s"`
	Kind string  `json:"kind"`
	*OutOfTurn
	*OffDose
	Set string `json:"set"`
	*Silence
}

// OutOfTurn is the number said and the one that was due.
type OutOfTurn struct {
	Said     int `json:"said"`
	Expected int `json:"expected"`
}

// OffDose is what was done and what was announced.
type OffDose struct {
	Performed  int `json:"performed"`
	Prescribed int `json:"prescribed"`
}

// Silence tells whether repetitions in silence came before a number out of turn.
type Silence struct {
	After bool `json:"after_silence"`
}

// A Fault is a captioner's error on a number: doubled, dropped, misheard, joined or split.
type Fault struct {
	At      Seconds `json:"at_s"`
	Kind    string  `json:"kind"`
	Number  int     `json:"number,omitempty"`
	Numbers []int   `json:"numbers,omitempty"`
	As      string  `json:"as,omitempty"`
}

// FaultLists are the faults of each file.
type FaultLists struct {
	Word  []Fault `json:"word"`
	Cue   []Fault `json:"cue"`
	Block []Fault `json:"block"`
}

// JSON returns the truth as indented JSON, without a newline at its end.
func (t *Truth) JSON() ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", " ")
	err := enc.Encode(t)
	return bytes.TrimRight(b.Bytes(), "\n"), err
}
