// Package settle puts a person's decisions on a session: which findings are real, what was really done, where a set begins
// and ends. Decisions are kept apart from the captions, in their order, and each names what it is about by its time and
// content rather than by a place in a list:
//
//  1. the sets and phases are edited in a copy of the session, one decision after the other;
//  2. the session is measured, and the verdicts on findings find theirs;
//  3. a verdict changes what it says of the count, and all is measured again.
//
// What fits nothing any more, because the captions have changed, is told and left out.
package settle

// Version is that of the file format.
const Version = 1

// A Kind says what was decided. Its value is the word in the file.
type Kind string

const (
	Said     Kind = "said"      // a finding: it really happened in the session
	Captions Kind = "captions"  // a finding: it is the captioner's mistake
	NotSo    Kind = "not-so"    // a finding: there is nothing to find
	Number   Kind = "number"    // a set: the repetitions or the seconds really done
	Name     Kind = "name"      // a set: what the exercise is called
	Side     Kind = "side"      // a set: left, right, both, alternate, or "" for not known
	Dose     Kind = "dose"      // a set: what was announced; neither repetitions nor seconds where nothing was
	Edge     Kind = "edge"      // a set or a phase: where it begins or ends
	Merge    Kind = "merge"     // a set: it is one with the next
	Split    Kind = "split"     // a set: it is two, the second from At on
	Add      Kind = "add"       // a set that was missed
	Remove   Kind = "remove"    // a set: there was none
	NoteText Kind = "note-text" // a form of the notes, as edited by hand
)

// Decisions are what was settled of one caption file, in the order in which it was settled.
type Decisions struct {
	Version  int        `json:"captally_decisions"`
	Captions string     `json:"captions"` // SHA-256 of the caption file's bytes at the last decision, in hex
	Name     string     `json:"name"`     // of the caption file, without its folder
	Revision int        `json:"revision"` // goes up by one whenever the decisions change
	Made     []Decision `json:"made"`
}

// A Decision is one of them. Its kind says which of the other fields it has.
type Decision struct {
	ID       int         `json:"id"` // from 1, in one file no two alike
	Kind     Kind        `json:"kind"`
	Together bool        `json:"together,omitempty"` // made at one go with the one before it, and undone with it
	Finding  *FindingRef `json:"finding,omitempty"`  // Said, Captions, NotSo
	Set      *SetRef     `json:"set,omitempty"`      // Number, Name, Side, Dose, Edge, Merge, Split, Remove
	Phase    *PhaseRef   `json:"phase,omitempty"`    // Edge, instead of Set

	Reps       int     `json:"reps,omitempty"`       // Number, Dose, Add
	Seconds    float64 `json:"seconds,omitempty"`    // the same, instead
	Name       string  `json:"name,omitempty"`       // Name, Add
	Everywhere bool    `json:"everywhere,omitempty"` // Name: of all sets of that exercise
	Side       string  `json:"side,omitempty"`       // Side, Add
	Edge       string  `json:"edge,omitempty"`       // Edge: "start" or "end"
	At         float64 `json:"at_s,omitempty"`       // Edge, Split: seconds from the start of the recording
	In         string  `json:"in,omitempty"`         // Add: "work", or "balance"; "" is work
	Start      float64 `json:"start_s,omitempty"`    // Add
	End        float64 `json:"end_s,omitempty"`      // Add
	Form       string  `json:"form,omitempty"`       // NoteText: the form of the notes, such as "text"
	Base       string  `json:"base,omitempty"`       // NoteText: what the form was before it was edited
	Text       string  `json:"text,omitempty"`       // NoteText: what it is now; "" or Base takes the edit back
}

// A FindingRef names a finding as it stands in the report on which it was decided.
type FindingRef struct {
	Kind string   `json:"kind"`
	At   float64  `json:"at_s"`
	Set  *float64 `json:"set_start_s,omitempty"` // start_s of its set; left out for none
}

// A SetRef names a set as it stands in the report on which it was decided, with the decisions before this one.
type SetRef struct {
	Start    float64 `json:"start_s"`
	End      float64 `json:"end_s"`
	Exercise string  `json:"exercise"`
}

// A PhaseRef names a phase likewise.
type PhaseRef struct {
	Kind  string  `json:"kind"`
	Start float64 `json:"start_s"`
	End   float64 `json:"end_s"`
}

// An Unfit is a decision that was left out, and why, in words for a person.
type Unfit struct {
	Decision Decision
	Why      string
}

// Last returns the last decision, and whether there is one.
func (d *Decisions) Last() (Decision, bool) {
	if len(d.Made) == 0 {
		return Decision{}, false
	}
	return d.Made[len(d.Made)-1], true
}

// Add puts a decision behind the others, gives it its ID and raises the revision. It refuses one that lacks what its kind needs.
func (d *Decisions) Add(made Decision) error {
	made.ID = 1
	for _, x := range d.Made {
		made.ID = max(made.ID, x.ID+1)
	}
	if err := made.valid(); err != nil {
		return err
	}
	d.Version = Version
	d.Made = append(d.Made, made)
	d.Revision++
	return nil
}

// Undo takes back the last decision, with those that were made at one go with it, and raises the revision. It returns them in the
// order in which they were made; none where there was none.
func (d *Decisions) Undo() []Decision {
	n := len(d.Made)
	if n == 0 {
		return nil
	}
	first := n - 1
	for first > 0 && d.Made[first].Together {
		first--
	}
	undone := d.Made[first:]
	d.Made = d.Made[:first:first]
	d.Revision++
	return undone
}
