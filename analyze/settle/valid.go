package settle

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
)

// The bounds of what a person may state; they keep slips of the keyboard out.
const (
	mostReps    = 1000
	mostSeconds = 24 * 60 * 60.0
	mostName    = 200     // bytes of a name
	mostText    = 1 << 20 // bytes of a form of the notes
)

// valid says what a decision lacks, or has wrong.
func (x *Decision) valid() error {
	if x.ID < 1 {
		return errors.New("a decision needs an id of 1 or more")
	}
	if err := x.inBounds(); err != nil {
		return fmt.Errorf("decision %d: %w", x.ID, err)
	}
	if err := x.complete(); err != nil {
		return fmt.Errorf("decision %d (%s): %w", x.ID, x.Kind, err)
	}
	return nil
}

func (x *Decision) inBounds() error {
	for _, t := range x.times() {
		if math.IsNaN(t) || t < 0 || t > mostSeconds {
			return fmt.Errorf("%v is no time or length in seconds from 0 to %.0f", t, mostSeconds)
		}
	}
	switch {
	case x.Reps < 0 || x.Reps > mostReps:
		return fmt.Errorf("%d repetitions; 1 to %d can be", x.Reps, mostReps)
	case len(x.Name) > mostName:
		return fmt.Errorf("the name is longer than %d bytes", mostName)
	case strings.ContainsFunc(x.Name, func(r rune) bool { return r < ' ' || r == 0x7f }):
		return errors.New("the name has characters that are no text")
	case len(x.Text) > mostText || len(x.Base) > mostText:
		return fmt.Errorf("the text is longer than %d bytes", mostText)
	case !slices.Contains([]string{"", "left", "right", "both", "alternate"}, x.Side):
		return fmt.Errorf("no side is %q", x.Side)
	}
	return nil
}

func (x *Decision) times() []float64 {
	out := []float64{x.Seconds, x.At, x.Start, x.End}
	if f := x.Finding; f != nil {
		out = append(out, f.At)
		if f.Set != nil {
			out = append(out, *f.Set)
		}
	}
	if x.Set != nil {
		out = append(out, x.Set.Start, x.Set.End)
	}
	if x.Phase != nil {
		out = append(out, x.Phase.Start, x.Phase.End)
	}
	return out
}

// complete says what a decision lacks for its kind.
func (x *Decision) complete() error {
	one := (x.Reps > 0) != (x.Seconds > 0)
	switch x.Kind {
	case Said, Captions, NotSo:
		if x.Finding == nil || x.Finding.Kind == "" {
			return errors.New("it needs its finding")
		}
		return nil
	case Add:
		switch {
		case x.End-x.Start < leastSet:
			return errors.New("the set needs a start, and an end that lies behind it")
		case x.Reps > 0 && x.Seconds > 0:
			return errors.New("repetitions or seconds, not both")
		case x.Seconds > x.End-x.Start:
			return fmt.Errorf("%g seconds do not fit between its ends", x.Seconds)
		case x.In != "" && x.In != "work" && x.In != "balance":
			return fmt.Errorf("a set is of work or balance, not of %q", x.In)
		}
		return nil
	case NoteText:
		if x.Form == "" {
			return errors.New("it needs the form of the notes")
		}
		return nil
	case Edge:
		if x.Edge != "start" && x.Edge != "end" {
			return fmt.Errorf("an edge is start or end, not %q", x.Edge)
		}
		if (x.Set == nil) == (x.Phase == nil) {
			return errors.New("it needs a set or a phase, and not both")
		}
		return nil
	case Number:
		if !one {
			return errors.New("it needs repetitions or seconds, and not both")
		}
	case Dose:
		if x.Reps > 0 && x.Seconds > 0 {
			return errors.New("repetitions or seconds, not both")
		}
	case Name:
		if strings.TrimSpace(x.Name) == "" {
			return errors.New("it needs the name")
		}
	case Side, Merge, Split, Remove:
	default:
		return fmt.Errorf("no kind of decision is called %q", x.Kind)
	}
	if x.Set == nil {
		return errors.New("it needs its set")
	}
	return nil
}
