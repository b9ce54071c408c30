// Package segment finds in the words of a session what was done: the phases, the sets with their counts, the rests.
package segment

import "captally.example/captally/segment/caption"

// Phase kinds: what the participant is doing.
type Kind uint8

const (
	Talk     Kind = iota // no exercise and no rest owed: welcome, explaining, goodbye
	WarmUp               // general movement before the work
	Work                 // one set of a strengthening, stretching or conditioning exercise
	Rest                 // the pause after a set
	Balance              // one set of a balance exercise
	CoolDown             // slow movement and stretching that ends the session
)

// String returns the name used in reports.
func (k Kind) String() string {
	return [...]string{"talk", "warm-up", "work", "rest", "balance", "cool-down"}[k]
}

// Side is the side of the body that a set works.
type Side uint8

const (
	SideUnknown Side = iota
	Left
	Right
	Both
	Alternate // left and right by turns within the set
)

// String returns the name used in reports, "" for SideUnknown.
func (s Side) String() string {
	return [...]string{"", "left", "right", "both", "alternate"}[s]
}

// Origin says what one entry of a count was.
type Origin uint8

const (
	Heard           Origin = iota // the number was said on a repetition
	Inferred                      // the repetition was done in silence
	Echo                          // the number was said again; no repetition belongs to it
	CaptionRepeat                 // the captioner wrote it twice; it was said once
	CaptionMisheard               // the captioner wrote something else for it
)

// String returns the name used in reports.
func (o Origin) String() string {
	return [...]string{"heard", "inferred", "echo", "caption-repeat", "caption-misheard"}[o]
}

// A Span is a stretch of the recording whose two ends are known within limits.
type Span struct {
	Start, End caption.Spread
}

// A Length is a duration in seconds that is known within limits: the truth lies in [Low, High] 9 times in 10.
type Length struct {
	Value, Low, High float64
}

// A Remark is something that was said, in the captions' own words.
type Remark struct {
	Text        string
	At          caption.Time
	First, Last int // Track.Words[First:Last]
}

// A Dose is what was announced for a set. Reps and Seconds are 0 where they were not said.
type Dose struct {
	Reps        int
	Seconds     float64
	At          caption.Time // when it was said
	First, Last int          // the words that say it, Track.Words[First:Last]
}

// A Number is one entry of a count: a number that was said, or a repetition done in silence.
type Number struct {
	Said   int // the number, as it must have been said; 0 where none was
	Word   int // index of its word in Track.Words; -1 for a repetition in silence
	At     caption.Spread
	Rep    int // the repetition that it stands on, from 1; 0 for none
	Origin Origin
	Prob   float64 // of the origin, in [0,1]
}

// SlipKind is a way in which a count can be odd.
type SlipKind uint8

const (
	Skipped   SlipKind = iota // a number was left out
	Repeated                  // a number was said twice, a repetition each
	Restarted                 // the count jumped back by two or more
	Jumped                    // the count jumped forward by two or more
	Lost                      // repetitions went on without a count
	Doubled                   // numbers stand twice in the captions in the time of one
	Gap                       // a number is missing in the captions while the beat goes on
	Misheard                  // another word or number stands where a number must have been said
)

// A Slip is one odd place of a count and whose it is. Session, Captions and the remainder to 1 (unsure) are probabilities.
type Slip struct {
	Kind              SlipKind
	At                caption.Spread
	First, Last       int // words concerned, Track.Words[First:Last]; empty where nothing was written
	Said, Expected    int // 0 where it does not apply
	Session, Captions float64
}

// A TimeCue is a remark on the time that is left or gone in a timed set or a rest.
type TimeCue struct {
	At          caption.Spread
	Said        float64 // seconds left, as said
	Actual      float64 // seconds really left
	Gone        float64 // seconds said to be gone, where that was said; else 0
	Half        bool    // it was said that half is done
	First, Last int     // Track.Words[First:Last]
}

// A Set is one set: counted, or timed.
type Set struct {
	Kind                    Kind   // Work, Balance; WarmUp or CoolDown for a counted move of these phases
	Exercise                Remark // its name as said; Text is empty where none was found
	Side                    Side
	Span                    // from one repetition before the first count, or from "go", to the last repetition, or to "stop"
	Announced               Dose
	Counted                 bool
	Reps, RepsLow, RepsHigh int     // performed, counted sets only
	LastNumber              int     // the last number said; 0 for none
	Pace                    float64 // mean seconds a repetition; 0 where unknown
	Performed               Length  // seconds from start to end, timed sets only
	Tension                 Length  // time under tension, seconds
	Count                   []Number
	Slips                   []Slip
	TimeCues                []TimeCue
}

// A Pause is a rest between sets.
type Pause struct {
	Span
	Length    Length       // seconds
	Announced float64      // seconds; 0 where nothing was announced
	At        caption.Time // when it was announced
	TimeCues  []TimeCue
}

// A Phase is one stretch of the session. Phases follow each other without gaps or overlaps.
type Phase struct {
	Kind       Kind
	Start, End caption.Time
	Confidence float64 // probability of the kind, in [0,1]
	Label      string  // exercise name for a set, else empty
}

// A Session is what was found in one track.
type Session struct {
	Track                                *caption.Track
	Phases                               []Phase
	Sets                                 []Set
	Rests                                []Pause
	Title, Level                         *Remark // nil where nothing was said
	Equipment, Cautions, Effort, Options []Remark
	Afterwards                           []Remark // how often to do it, and what to do the next day
	Warnings                             []string // what could not be found, for a person
}
